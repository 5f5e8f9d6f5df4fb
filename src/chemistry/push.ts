const correct = 'Develop as usual and correct in the scan, or try a strip of your own first.';

/**
 * Push (+) or pull (−) by `process`, as a rate law is named. No process kept here has a table that could be opened: ECN-2 has
 * none at all, the others have one for each film. So none is offered, with the reason.
 * sources, from memory: Kodak H-24 series, “Effects of Mechanical and Chemical Variations”, whose plots are trends and not
 * corrections; Kodak F-32 and F-4017, which give such times film by film; makers print push times for some films and not
 * for the process.
 */
export function pushOf(stops: number, process: string | undefined): string {
  const what = stops < 0 ? 'pull' : 'push';
  switch (process) {
    case 'ecn-2':
      return `No table for a ${what} is published for E C N two: its layers part company when the time changes. ${correct}`;
    case 'black-and-white':
      return `The time for a ${what} depends on film and developer: take it from the data sheet of your film, and put it into a sheet of your own.`;
    default:
      return `I keep no time for a ${what} in this process. Where the data sheet of your film prints one, that holds. Otherwise: ${correct.toLowerCase()}`;
  }
}

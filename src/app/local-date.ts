/** The calendar day of a wall time, ms, where the user is: YYYY-MM-DD, as it stands on labels, in lists and in names of files. */
export function localDate(wallMs: number): string {
  const d = new Date(wallMs);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}`;
}

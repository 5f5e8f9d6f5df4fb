/**
 * All that a browser may load, by its address: the file below the built screen room, and its type. The server offers
 * nothing else of the disk, and the page's own worker keeps these for when the computer is gone.
 */
export const pageFiles: Readonly<Record<string, readonly [file: string, type: string]>> = {
  '/': ['client/page.html', 'text/html; charset=utf-8'],
  '/client/page.css': ['client/page.css', 'text/css; charset=utf-8'],
  '/client/icon.svg': ['client/icon.svg', 'image/svg+xml'],
  '/client/manifest.webmanifest': ['client/manifest.webmanifest', 'application/manifest+json'],
  ...Object.fromEntries(
    [
      'client/main',
      'client/link',
      'client/draw',
      'client/sound',
      'client/pickup',
      'client/keeper',
      'page-files',
      'time',
      'digits',
      'words',
    ].map((m) => [`/${m}.js`, [`${m}.js`, 'text/javascript; charset=utf-8'] as const]),
  ),
};

import { pageFiles } from '../page-files.js';

/** What a service worker finds around it; the DOM types describe a page. */
interface Waiting extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Asked extends Event {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface WorkerScope {
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
  addEventListener(type: 'install' | 'activate', heard: (event: Waiting) => void): void;
  addEventListener(type: 'fetch', heard: (event: Asked) => void): void;
}
const worker = self as unknown as WorkerScope;

const shelf = 'page';

/**
 * Keeps the page itself, so that an installed one opens when the computer is gone and can say so. The computer's own
 * answer always comes first; what is live, pictures and pairing are never kept.
 */
worker.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(shelf)
      .then((kept) => kept.addAll(Object.keys(pageFiles)))
      .then(() => worker.skipWaiting()),
  );
});
worker.addEventListener('activate', (event) => event.waitUntil(worker.clients.claim()));
worker.addEventListener('fetch', (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== 'GET' || origin !== location.origin || !Object.hasOwn(pageFiles, pathname))
    return;
  event.respondWith(fresh(event.request, pathname));
});

async function fresh(request: Request, pathname: string): Promise<Response> {
  const kept = await caches.open(shelf);
  try {
    const answer = await fetch(request);
    if (answer.ok) await kept.put(pathname, answer.clone());
    return answer;
  } catch (error) {
    const old = await kept.match(pathname);
    if (old) return old;
    throw error;
  }
}

import { isContentNamed } from '../content-named.ts';

/**
 * Keeps the files of the page, so that plan, chart and playback work while the service cannot be reached. Answers of the
 * service are never kept.
 */
declare const self: ServiceWorkerGlobalScope;

/** Names of the page's files, and a name for all of them together, as the build gives them. */
declare const PAGE_FILES: readonly string[];
declare const PAGE_VERSION: string;

const CACHE = `tringle ${PAGE_VERSION}`;

const isPageFile = ({ method, url }: Request): boolean => {
  const { origin, pathname } = new URL(url);
  const scope = new URL(self.registration.scope);
  if (method !== 'GET' || origin !== scope.origin || !pathname.startsWith(scope.pathname)) return false;
  const name = pathname.slice(scope.pathname.length);
  return name === '' || PAGE_FILES.includes(name);
};

const dropOthers = async (): Promise<void> => {
  const others = (await caches.keys()).filter((name) => name.startsWith('tringle ') && name !== CACHE);
  await Promise.all(others.map((name) => caches.delete(name)));
};

/** The newest page where the service answers, the kept one otherwise: both are whole, since names tell the content. */
const answer = async (request: Request): Promise<Response> => {
  const kept = async (): Promise<Response | undefined> =>
    (await caches.open(CACHE)).match(request, { ignoreSearch: true });
  if (isContentNamed(new URL(request.url).pathname)) return (await kept()) ?? fetch(request);
  try {
    return await fetch(request);
  } catch (error) {
    const found = await kept();
    if (found === undefined) throw error;
    return found;
  }
};

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(['./', ...PAGE_FILES])));
  void self.skipWaiting();
});
self.addEventListener('activate', (event) => event.waitUntil(dropOthers().then(() => self.clients.claim())));
self.addEventListener('fetch', (event) => {
  if (isPageFile(event.request)) event.respondWith(answer(event.request));
});

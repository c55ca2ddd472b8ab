/* The service worker: keeps one version of the app whole, and hands over only when asked.
   The server puts `self.BOLTFAIR = {version, precache, pack}` before this text. */
importScripts(
  '/vendor/workbox/workbox-core.prod.js',
  '/vendor/workbox/workbox-routing.prod.js',
  '/vendor/workbox/workbox-strategies.prod.js',
  '/vendor/workbox/workbox-precaching.prod.js',
);

const { core, precaching, routing } = workbox;

const { version, precache, pack } = self.BOLTFAIR;

// each version keeps its files in a cache of its own; the scope tells Workbox that old ones are ours to clear
core.setCacheNameDetails({ prefix: 'boltfair', suffix: `${version} ${registration.scope}` });
precaching.cleanupOutdatedCaches();
// the page has just loaded most of it: ask whether it is still so, rather than load it twice
precaching.addPlugins([{ requestWillFetch: async ({ request }) => new Request(request, { cache: 'no-cache' }) }]);

// what the page has not loaded comes in one file, far smaller than one by one; what is kept is not asked for again
let unpacked;
precaching.addPlugins([
  {
    cacheKeyWillBeUsed: async ({ request, event }) => {
      if (event?.type === 'install') {
        unpacked ??= unpack();
        await unpacked;
      }
      return request;
    },
  },
]);

async function unpack() {
  const [cache, reply] = await Promise.all([
    caches.open(core.cacheNames.precache),
    fetch(pack.url, { integrity: pack.integrity, cache: 'no-cache' }),
  ]);
  const files = Object.entries(await reply.json());
  const kept = (text) => new Response(text, { headers: { 'Content-Type': 'text/javascript; charset=utf-8' } });
  await Promise.all(files.map(([path, text]) => cache.put(path, kept(text))));
}

// without a word of a revision Workbox warns of each of them at each start: the integrity and the cache's name tell versions apart
const entries = precache.map((entry) => ({ revision: null, ...(entry.url ? entry : { url: entry }) }));
precaching.precacheAndRoute(entries, { directoryIndex: null, cleanURLs: false });

// a browser that can takes the files from that cache by itself, without waking this worker for each;
// few rules, as it goes through them for each file
addEventListener('install', (event) => {
  const kept = { cacheName: core.cacheNames.precache };
  event.addRoutes?.([
    { condition: { urlPattern: { pathname: '/api/*' } }, source: 'network' },
    { condition: { urlPattern: { pathname: '/' }, requestMethod: 'GET' }, source: kept },
    { condition: { not: { requestMode: 'navigate' } }, source: kept },
  ]);
});

// every screen has its own address, and all of them are the one page
routing.registerRoute(
  new routing.NavigationRoute(precaching.createHandlerBoundToURL('/'), {
    denylist: [/^\/api\//, /^\/healthz/, /\.[a-z]+$/],
  }),
);

// the first visit needs no reload to be safe from a lost signal
core.clientsClaim();

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

// The service worker: after one visit everything works without a network.
// One cache for each build; a new build waits until the page says so
// (postMessage 'accept'), since nothing may change in the middle of a cut.
const build = "{{build}}";
const files = "{{files}}";
const cacheName = 'cartwright-' + build;

addEventListener('install', e => e.waitUntil((async () => {
  const cache = await caches.open(cacheName);
  const fresh = files.map(f => new Request(f, { cache: 'reload' }));
  try {
    await cache.addAll(fresh); // all or nothing
  } catch (err) {
    await caches.delete(cacheName);
    throw err;
  }
})()));

addEventListener('activate', e => e.waitUntil((async () => {
  for (const name of await caches.keys())
    if (name.startsWith('cartwright-') && name !== cacheName) await caches.delete(name);
  await clients.claim();
})()));

addEventListener('message', e => {
  if (e.data === 'accept') skipWaiting();
  if (e.data === 'build') e.source.postMessage({ kind: 'build', build });
});

addEventListener('fetch', e => {
  const url = new URL(e.request.url);
  if (e.request.method !== 'GET' || url.origin !== location.origin) return;
  const scope = new URL(registration.scope);
  if (!url.pathname.startsWith(scope.pathname)) return;
  let name = url.pathname.slice(scope.pathname.length);
  if (!files.includes(name)) {
    if (e.request.mode !== 'navigate') return; // not ours: the network's
    name = 'index.html';
  }
  e.respondWith((async () => {
    const cache = await caches.open(cacheName);
    return await cache.match(name) || fetch(e.request);
  })());
});

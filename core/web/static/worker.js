// Answers without a signal: pages that were opened before, and what they are made of. It keeps nothing of its own and sends nothing. It lets the pages go when
// the shop does not know this device any more; what waits to be sent does not lie here, and stays.
const kept = 'fettle-' + version;
const shell = ['/offline', ...['bench.css', 'htmx.js', 'device.js', 'follow.js', 'draft.js', 'underway.js', 'wear.js', 'bench.js', 'forms.js', 'queue.js', 'photo.js', 'qr.js', 'icon.svg'].map((f) => `/static/${version}/${f}`)];

self.addEventListener('install', (e) => {
  e.waitUntil(caches.open(kept).then((c) => c.addAll(shell)).then(() => self.skipWaiting()));
});
self.addEventListener('activate', (e) => {
  // Pages of an older version are kept until they are opened again: they are better than none.
  e.waitUntil((async () => {
    const now = await caches.open(kept);
    for (const name of await caches.keys()) {
      if (name === kept || !name.startsWith('fettle-')) continue;
      const old = await caches.open(name);
      for (const request of await old.keys()) if (!(await now.match(request))) await now.put(request, await old.match(request));
      await caches.delete(name);
    }
    await self.clients.claim();
  })());
});
self.addEventListener('fetch', (e) => {
  const url = new URL(e.request.url);
  if (e.request.method === 'POST' && url.origin === location.origin && url.pathname === '/pair') e.waitUntil(letGo()); // the new key may open less than the old one
  if (e.request.method !== 'GET' || url.origin !== location.origin || url.pathname === '/live') return;
  if (/^\/photos\/[0-9a-f]+$/.test(url.pathname)) return; // large: only small pictures are kept
  e.respondWith(/^\/(static|photos)\//.test(url.pathname) ? keptFirst(e.request) : freshFirst(e.request));
});
async function keptFirst(request) {
  return (await caches.match(request)) || fetchAndKeep(request);
}
async function freshFirst(request) {
  try {
    return await fetchAndKeep(request);
  } catch (e) {
    const old = (await caches.match(request, { ignoreVary: true })) || (await caches.match(request, { ignoreVary: true, ignoreSearch: true }));
    if (!old) return (await caches.match('/offline')) || Response.error();
    const headers = new Headers(old.headers);
    headers.set('X-From-Device', '1');
    return new Response(await old.blob(), { status: old.status, headers });
  }
}
// letGo drops every page and picture that is kept. What every bench is made of stays: it says nothing of the shop.
async function letGo() {
  for (const name of await caches.keys()) {
    const c = await caches.open(name);
    for (const request of await c.keys()) if (!/^\/(static\/|offline$)/.test(new URL(request.url).pathname)) await c.delete(request);
  }
}
async function fetchAndKeep(request) {
  const got = await fetch(request);
  if (got.status === 401) await letGo();
  if (got.ok && !got.redirected && got.type === 'basic' && !(got.headers.get('Cache-Control') || '').includes('no-store')) (await caches.open(kept)).put(request, got.clone());
  return got;
}

// Holds the whole site under each file's path and digest. FILES is put in front of this when the site is built.

const PLACE = 'presslore-handbook';
const AT_ONCE = 6;
const HOME = 'index.html';

/** The name a file is kept under. */
function keptAs(path) {
  const address = new URL(encodeURI(path), self.registration.scope);
  address.searchParams.set('content', FILES[path]);
  return address.href;
}

/** The path of a file in the site that an address asks for; '' where it asks for none. */
function wanted(address) {
  const scope = new URL(self.registration.scope);
  const asked = new URL(address);
  if (asked.origin !== scope.origin || !asked.pathname.startsWith(scope.pathname)) return '';
  const path = decodeURI(asked.pathname.slice(scope.pathname.length));
  const page = path === '' || path.endsWith('/') ? path + HOME : path;
  return Object.hasOwn(FILES, page) ? page : '';
}

async function fetchInto(cache, path) {
  const name = keptAs(path);
  if (await cache.match(name)) return;
  const answer = await fetch(new URL(encodeURI(path), self.registration.scope), { cache: 'reload' });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  // An answer that came by a redirect may not be shown as a page; its content may.
  const plain = answer.redirected ? new Response(answer.body, { headers: answer.headers }) : answer;
  await cache.put(name, plain);
}

async function keepAll() {
  const cache = await caches.open(PLACE);
  const left = Object.keys(FILES);
  async function work() {
    for (let path = left.shift(); path !== undefined; path = left.shift()) await fetchInto(cache, path);
  }
  await Promise.all(Array.from({ length: AT_ONCE }, work));
}

async function dropOld() {
  const cache = await caches.open(PLACE);
  const current = new Set(Object.keys(FILES).map(keptAs));
  const names = await cache.keys();
  await Promise.all(names.filter((name) => !current.has(name.url)).map((name) => cache.delete(name)));
}

async function answerFor(request, path) {
  const cache = await caches.open(PLACE);
  const found = await cache.match(keptAs(path));
  return found || fetch(request);
}

self.addEventListener('install', (event) => {
  event.waitUntil(keepAll().then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOld().then(() => self.clients.claim()));
});

self.addEventListener('fetch', (event) => {
  const path = event.request.method === 'GET' ? wanted(event.request.url) : '';
  if (path) event.respondWith(answerFor(event.request, path));
});

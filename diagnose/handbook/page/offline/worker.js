// Keeps the whole site for when there is no network. FILES, each file's path and the digest of its content, is put in
// front of this when the site is built. What the server has now goes first: a caution that was put right is read at
// once. Only where the server says nothing for a while, what is kept is shown, and then all of it: files of one build.

const here = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const PLACE = `presslore-handbook ${here.registration.scope}`;
const BEFORE = 'presslore-handbook'; // the one name that every handbook of an origin used to share
const AT_ONCE = 6;
const PATIENCE = 2000; // milliseconds for the server
const HOME = 'index.html';
const IS_LOCAL = /^(localhost|.*\.localhost|127\.[\d.]+|\[::1\])$/.test(location.hostname);

/**
 * Pages shown, by their client: 'kept', or a promise of whether the server's page is of this build.
 * @type {Map<string, 'kept' | Promise<boolean>>}
 */
const pages = new Map();

/** @param {string} path */
function addressOf(path) {
  return new URL(encodeURI(path), here.registration.scope);
}

/**
 * The name a file is kept under.
 * @param {string} path
 */
function keptAs(path) {
  const address = addressOf(path);
  address.searchParams.set('content', FILES[path]);
  return address.href;
}

/**
 * The path of a file in the site that an address asks for; '' where it asks for none.
 * @param {string} address
 */
function wanted(address) {
  const scope = new URL(here.registration.scope);
  const asked = new URL(address);
  if (asked.origin !== scope.origin || !asked.pathname.startsWith(scope.pathname)) return '';
  let path = '';
  try {
    path = decodeURI(asked.pathname.slice(scope.pathname.length));
  } catch (_) {
    return '';
  }
  const page = path === '' || path.endsWith('/') ? path + HOME : path;
  return Object.hasOwn(FILES, page) ? page : '';
}

/**
 * Whether this is the content that the digest of a file was made of.
 * @param {string} path @param {ArrayBuffer} content
 */
async function isTrue(path, content) {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', content));
  const told = Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return told.slice(0, FILES[path].length) === FILES[path];
}

/** @param {Cache} cache @param {string} path */
async function fetchInto(cache, path) {
  if (await kept(cache, path)) return;
  const answer = await fetch(addressOf(path), { cache: 'no-cache' });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  const content = await answer.arrayBuffer();
  if (!(await isTrue(path, content))) throw new Error(`${path}: not the content of this build`);
  const kind = answer.headers.get('Content-Type') || 'application/octet-stream';
  // Made anew: an answer that came by a redirect may not be shown as a page.
  await cache.put(keptAs(path), new Response(content, { headers: { 'Content-Type': kind } }));
}

/**
 * What is kept of a file, null where nothing is, or where it is not what it claims to be.
 * @param {Cache} cache @param {string} path
 */
async function kept(cache, path) {
  const found = await cache.match(keptAs(path));
  if (!found) return null;
  if (await isTrue(path, await found.clone().arrayBuffer())) return found;
  await cache.delete(keptAs(path));
  return null;
}

async function keepAll() {
  const cache = await caches.open(PLACE);
  const left = Object.keys(FILES);
  async function work() {
    for (let path = left.shift(); path !== undefined; path = left.shift()) await fetchInto(cache, path);
  }
  await Promise.all(Array.from({ length: AT_ONCE }, work));
}

/** Drop what this site no longer holds, and what it kept under the name that all shared. */
async function dropOld() {
  const cache = await caches.open(PLACE);
  const current = new Set(Object.keys(FILES).map(keptAs));
  const names = await cache.keys();
  await Promise.all(names.filter((name) => !current.has(name.url)).map((name) => cache.delete(name)));
  if (!(await caches.has(BEFORE))) return;
  const shared = await caches.open(BEFORE);
  const own = (await shared.keys()).filter((name) => wanted(name.url));
  await Promise.all(own.map((name) => shared.delete(name)));
  if (!(await shared.keys()).length) await caches.delete(BEFORE);
}

/** Leave a site that this machine serves itself: nothing of it is kept. */
async function leave() {
  await caches.delete(PLACE);
  await here.registration.unregister();
}

/**
 * The server's answer, null where it has none to give: no network, or trouble of its own.
 * @param {Request} request
 */
async function served(request) {
  try {
    const answer = await fetch(request, { cache: 'no-cache' });
    return answer.status < 500 ? answer : null;
  } catch (_) {
    return null;
  }
}

/**
 * A page: the server's, where it comes in time.
 * @param {FetchEvent} event @param {string} path @param {Cache} cache
 */
async function pageFor(event, path, cache) {
  const answer = await inTime(served(event.request), async () => {
    const found = await kept(cache, path);
    if (found) pages.set(event.resultingClientId, 'kept');
    return found;
  });
  if (pages.get(event.resultingClientId) !== 'kept' && answer.ok) {
    const copy = answer.clone();
    pages.set(
      event.resultingClientId,
      copy.arrayBuffer().then(
        (content) => isTrue(path, content),
        () => false
      )
    );
  }
  return answer;
}

/**
 * What a page loads: of the same build as the page, or nothing.
 * @param {FetchEvent} event @param {string} path @param {Cache} cache
 */
async function partFor(event, path, cache) {
  const build = pages.get(event.clientId);
  const found = build === 'kept' ? await kept(cache, path) : null;
  if (found) return found;
  return inTime(served(event.request), async () => ((await build) === false ? null : kept(cache, path)));
}

/**
 * What comes, or where that takes too long, what stands in for it; where nothing does, what comes after all.
 * @param {Promise<Response | null>} coming @param {() => Promise<Response | null>} standIn
 * @returns {Promise<Response>}
 */
async function inTime(coming, standIn) {
  /** @type {Promise<null>} */
  const late = new Promise((go) => setTimeout(go, PATIENCE, null));
  return (await Promise.race([coming, late])) || (await standIn()) || (await coming) || Response.error();
}

here.addEventListener('install', (event) => {
  event.waitUntil((IS_LOCAL ? Promise.resolve() : keepAll()).then(() => here.skipWaiting()));
});

here.addEventListener('activate', (event) => {
  event.waitUntil(dropOld().then(() => (IS_LOCAL ? leave() : here.clients.claim())));
});

here.addEventListener('fetch', (event) => {
  const path = event.request.method === 'GET' && !IS_LOCAL ? wanted(event.request.url) : '';
  if (!path) return;
  const answer = event.request.mode === 'navigate' ? pageFor : partFor;
  event.respondWith(caches.open(PLACE).then((cache) => answer(event, path, cache)));
});

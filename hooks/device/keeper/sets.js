// What is kept together. A set has a cache of its own and counts once its last file is there:
// until then nothing is answered from it, and what came so far is not fetched again.
const SHARED = ["runtime", "library"];
const WHOLE = "?whole";
const IN_USE = "?in-use";
const STEP = 500_000;
const lists = new Map();
let opened;

const cacheOf = (id, own = OWN) => `${own} ${id}`;
const marked = async (name, mark) => (await caches.has(name)) && (await caches.open(name)).match(SCOPE + mark);
const isKept = (id, own) => marked(cacheOf(id, own), WHOLE);

// The files of a set, or all "pages": path to hash and bytes.
async function list(id) {
  if (!lists.has(id)) {
    const path = `assets/offline/${id}.json`;
    const own = await caches.open(OWN);
    await bring(own, path, EDITION.shell[path] ?? EDITION.sets[id].list);
    lists.set(id, await (await own.match(address(path))).json());
  }
  return lists.get(id);
}

async function keptSets(own = OWN) {
  const ids = (await family()).filter((name) => name.startsWith(`${own} `)).map((name) => name.slice(own.length + 1));
  const kept = await Promise.all(ids.map((id) => isKept(id, own)));
  return ids.filter((_, index) => kept[index]);
}

const openAll = async (names) => Promise.all(names.map((name) => caches.open(name)));

// Opened once; what is opened is looked for again when a set comes or goes, and after a failure.
function shelves() {
  opened ??= keptSets().then((ids) => openAll([OWN, ...ids.map((id) => cacheOf(id))]));
  opened.catch(() => (opened = undefined));
  return opened;
}

async function found(path) {
  for (const cache of await shelves()) {
    const kept = await cache.match(address(path));
    if (kept) return kept;
  }
}

async function foundPage(path) {
  for (const name of names(path)) {
    const kept = await found(name);
    if (kept) return kept;
  }
}

// One step: so much that a slow network brings it before a browser ends a worker, and a page can show how far it is.
async function step(id) {
  const cache = await caches.open(cacheOf(id));
  const there = new Set((await cache.keys()).map((request) => request.url));
  const missing = Object.entries(await list(id)).filter(([path]) => !there.has(address(path)));
  let size = 0;
  const now = missing.filter(([, [, bytes]]) => size < STEP && ((size += bytes), true));
  await bringAll(cache, now);
  if (now.length === missing.length) await cache.put(SCOPE + WHOLE, new Response());
  opened = undefined;
  return missing.slice(now.length).reduce((sum, [, [, bytes]]) => sum + bytes, 0);
}

async function keep({ id }) {
  const chain = SHARED.includes(id) ? [id] : [...SHARED, id];
  const kept = await Promise.all(chain.map((one) => isKept(one)));
  const missing = chain.filter((_, index) => !kept[index]);
  const bytes = (ids) => ids.reduce((sum, one) => sum + EDITION.sets[one].bytes, 0);
  const [now, ...rest] = missing;
  const left = now ? await step(now) : 0;
  return { whole: !left && !rest.length, left: left + bytes(rest), bytes: bytes(chain) };
}

async function drop({ id }) {
  opened = undefined;
  await caches.delete(cacheOf(id));
  if (!(await keptSets()).some((one) => !SHARED.includes(one))) await caches.delete(cacheOf("library"));
  return {};
}

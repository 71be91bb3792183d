// From one edition to the next: what was kept is kept again, in the new edition's files, before the old one goes.
const HANG_LIMIT = 10_000;

async function editionBefore() {
  const used = [];
  for (const name of await family()) {
    const mark = name !== OWN && (await marked(name, IN_USE));
    if (mark) used.push([Number(await mark.text()), name]);
  }
  return used.sort(([a], [b]) => b - a)[0]?.[1];
}

async function carry() {
  const before = await editionBefore();
  if (!before) return;
  const pages = await list("pages");
  const visited = (await (await caches.open(before)).keys()).map((request) => pathOf(request.url));
  const still = visited.filter((path) => pages[path]).map((path) => [path, pages[path]]);
  await bringAll(await caches.open(OWN), still);
  for (const id of await keptSets(before)) {
    while (EDITION.sets[id] && !(await isKept(id))) await step(id);
  }
}

async function install() {
  await bringAll(await caches.open(OWN), Object.entries(EDITION.shell));
  await carry();
}

// What was kept while this edition waited is copied now; a network that hangs may not hold up the pages.
async function activate() {
  const late = new Promise((resolve) => setTimeout(resolve, HANG_LIMIT));
  await Promise.race([carry().catch(() => {}), late]);
  await (await caches.open(OWN)).put(SCOPE + IN_USE, new Response(String(Date.now())));
  const gone = (await family()).filter((name) => name !== OWN && !name.startsWith(`${OWN} `));
  await Promise.all(gone.map((name) => caches.delete(name)));
  opened = undefined;
  await self.clients.claim();
}

async function take() {
  await carry();
  self.skipWaiting();
  return {};
}

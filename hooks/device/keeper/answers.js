// What a page gets: from this edition if its own page is of this edition, else from the network as it is.
const NOWHERE = "offline.html";

async function known(path) {
  const pages = await list("pages").catch(() => ({}));
  return names(path).find((name) => pages[name]);
}

async function tell(said) {
  for (const client of await self.clients.matchAll({ includeUncontrolled: true, type: "window" })) client.postMessage(said);
}

// A page can be read whether or not there is room to keep it.
async function put(path, response) {
  try {
    await (await caches.open(OWN)).put(address(path), response);
  } catch (error) {
    await tell({ trouble: reason(error) });
  }
}

// A page of another edition is shown whole, with its own styles and scripts, and is not kept.
async function seen(request, path) {
  const response = await fetch(new Request(request.url, { mode: "same-origin", redirect: "manual", cache: "no-cache" }));
  if (!response.ok) return response;
  const body = await response.arrayBuffer();
  const [hash] = (await list("pages"))[path];
  if ((await digest(body)) !== hash) {
    self.registration.update().catch(() => {});
    return stamped(response, path, "", body);
  }
  const page = stamped(response, path, hash, body);
  await put(path, page.clone());
  return page;
}

async function page(request) {
  const path = pathOf(request.url);
  const kept = await foundPage(path);
  if (kept) return kept;
  try {
    const name = await known(path);
    return name ? await seen(request, name) : await fetch(request);
  } catch {
    return Response.redirect(`${SCOPE}${NOWHERE}?page=${encodeURIComponent(path)}`, 302);
  }
}

// A picture that is another one by now belongs to a page of another edition: the kept page goes without.
async function part(path) {
  const file = (await list("pages").catch(() => ({})))[path];
  if (!file) return;
  const response = await fetched(path, file[0]).catch(() => Response.error());
  if (response.ok) await put(path, response.clone());
  return response;
}

async function file({ request, clientId }) {
  const path = pathOf(request.url);
  const client = await self.clients.get(clientId);
  if (!client || (await foundPage(pathOf(client.url)))) {
    return (await found(path)) ?? (await part(path)) ?? fetch(request);
  }
  return fetch(request).catch(async (error) => {
    if (EDITION.shell[path] || path.startsWith("assets/runtime/")) return (await found(path)) ?? Response.error();
    throw error;
  });
}

// The page that is looked at, and the pictures on it: also those that it got before this worker was there.
async function visit({ urls }) {
  const pages = await list("pages");
  const own = await caches.open(OWN);
  const wanted = urls.filter((url) => url.startsWith(SCOPE)).map((url) => names(pathOf(url)).find((name) => pages[name]));
  await bringAll(own, wanted.filter(Boolean).map((path) => [path, pages[path]]));
  return {};
}

async function kept() {
  const pages = new Map();
  for (const cache of await shelves()) {
    for (const request of await cache.keys()) {
      const title = (await cache.match(request)).headers.get(TITLE);
      if (title) pages.set(pathOf(request.url), decodeURIComponent(title));
    }
  }
  return { pages: [...pages] };
}

async function ask() {
  const held = new Set(await keptSets());
  const sets = Object.entries(EDITION.sets).map(([id, { bytes, pages }]) => [id, { bytes, pages, kept: held.has(id) }]);
  return { edition: EDITION.name, sets: Object.fromEntries(sets) };
}

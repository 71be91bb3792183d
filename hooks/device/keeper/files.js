// One file of this edition: its address, how it is recognised, how it comes here.
// An edition is one state of the whole site. A cache holds files of one edition and of no other.
"use strict";
const SCOPE = new URL("./", self.location).href;
const ROOT = new URL(SCOPE).pathname;
const FAMILY = `stillbench ${ROOT} `;
const OWN = FAMILY + EDITION.name;
const HASH = "x-stillbench-hash";
const TITLE = "x-stillbench-title";
const AT_ONCE = 6;

class Refused extends Error {
  constructor(why) {
    super(why);
    this.why = why;
  }
}

// What a page is told: "full", "forbidden", "changed", "cut off" or "broken".
const NAMED = { QuotaExceededError: "full", SecurityError: "forbidden" };
const reason = (error) => error.why ?? NAMED[error.name] ?? "broken";

const address = (path) => SCOPE + path.split("/").map(encodeURIComponent).join("/");

function pathOf(url) {
  try {
    return decodeURIComponent(new URL(url).pathname.slice(ROOT.length));
  } catch {
    return "";
  }
}

// Hosts differ in what they leave out of a page's address.
const names = (path) => [path, `${path}.html`, `${path.replace(/\/$/, "")}/index.html`].map((n) => n.replace(/^\//, ""));

async function digest(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body)).slice(0, 8);
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function titleOf(path, body) {
  if (!path.endsWith(".html")) return "";
  const title = new TextDecoder().decode(body.slice(0, 4096)).match(/<title>([^<]*)<\/title>/)?.[1] ?? "";
  return encodeURIComponent(title.trim());
}

// The server's own headers stay, its policy among them; what concerned the way here goes.
function stamped(response, path, hash, body) {
  const headers = new Headers(response.headers);
  for (const name of ["content-encoding", "content-length", "vary"]) headers.delete(name);
  headers.set(HASH, hash);
  headers.set(TITLE, titleOf(path, body));
  return new Response(body, { headers });
}

async function fetched(path, hash) {
  const [response, body] = await fetch(address(path), { cache: "no-cache" })
    .then(async (got) => [got, await got.arrayBuffer()])
    .catch(() => {
      throw new Refused("cut off");
    });
  if (!response.ok || (await digest(body)) !== hash) throw new Refused("changed");
  return stamped(response, path, hash, body);
}

const family = async () => (await caches.keys()).filter((name) => name.startsWith(FAMILY));

// A file that did not change is not fetched again, whichever edition brought it.
async function older(path, hash) {
  for (const name of await family()) {
    const kept = await (await caches.open(name)).match(address(path));
    if (kept?.headers.get(HASH) === hash) return kept;
  }
}

async function bring(cache, path, [hash]) {
  if (await cache.match(address(path))) return;
  await cache.put(address(path), (await older(path, hash)) ?? (await fetched(path, hash)));
}

async function bringAll(cache, files) {
  const rest = [...files];
  const some = async () => {
    for (let file; (file = rest.shift()); ) await bring(cache, ...file);
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, some));
  } finally {
    rest.length = 0;
  }
}

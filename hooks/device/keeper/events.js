// What the browser tells the service worker, and what a page asks of it: {word, ...}, answered on the port that comes along.
const WORDS = { ask, drop, keep, kept, take, visit };

self.addEventListener("install", (event) => {
  const installed = install().catch(async (error) => {
    await tell({ trouble: reason(error) });
    throw error;
  });
  event.waitUntil(installed);
});

self.addEventListener("activate", (event) => event.waitUntil(activate()));

self.addEventListener("message", (event) => {
  const { word, ...rest } = event.data;
  const answered = Promise.resolve(rest)
    .then(WORDS[word])
    .catch((error) => ({ trouble: reason(error) }));
  event.waitUntil(answered.then((answer) => event.ports[0]?.postMessage(answer)));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (new URL(request.url).origin !== self.location.origin) return event.respondWith(Response.error());
  if (request.method !== "GET" || !request.url.startsWith(SCOPE)) return;
  const answer = request.mode === "navigate" ? page(request) : file(event);
  event.respondWith(answer.catch(() => fetch(request)));
});

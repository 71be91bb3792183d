// Takes away a service worker that an earlier site left under this address: a writer looks at what is, not at what was.
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => {
  const family = `stillbench ${new URL("./", self.location).pathname} `;
  const emptied = caches.keys().then((names) => Promise.all(names.filter((n) => n.startsWith(family)).map((n) => caches.delete(n))));
  event.waitUntil(emptied.then(() => self.registration.unregister()));
});

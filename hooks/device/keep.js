// The page's side of what is kept on this device: window.stillbench.keeper starts the service worker and asks it.
// reason: "" or why nothing can be kept: "preview", "folder", "insecure", "browser", then what the worker says:
// "full", "forbidden", "changed", "cut off", "broken".
(() => {
  const ANSWER_LIMIT = 300_000;
  const PAUSE = 500; // milliseconds in which a reader may open the search before anything is fetched to be kept
  const stillbench = (window.stillbench ??= {});
  const source = document.currentScript?.dataset.keeper;
  const listeners = new Set();
  const say = (said) => listeners.forEach((listener) => listener(said));
  // Listeners hear "newer", "renewed" or a reason.
  const keeper = { reason: impossible(), ask, hear: (listener) => listeners.add(listener), keep, take };
  stillbench.keeper = keeper;

  function impossible() {
    if (!source) return "preview";
    if (location.protocol === "file:") return "folder";
    if (!window.isSecureContext) return "insecure";
    return navigator.serviceWorker && window.caches ? "" : "browser";
  }

  function settled(worker, wanted) {
    return new Promise((resolve, reject) => {
      const look = () => {
        if (worker.state === "redundant") reject(new Error("broken"));
        if (wanted.includes(worker.state)) resolve(worker);
      };
      worker.addEventListener("statechange", look);
      look();
    });
  }

  async function watch(registration) {
    const coming = registration.installing ?? registration.waiting;
    if (!registration.active || !coming) return;
    await settled(coming, ["installed"]).then(() => say("newer"), () => {});
  }

  async function register() {
    if (keeper.reason) throw new Error(keeper.reason);
    const registration = await navigator.serviceWorker.register(new URL(source, document.baseURI), { updateViaCache: "none" });
    registration.addEventListener("updatefound", () => watch(registration));
    watch(registration);
    if (!registration.active) await settled(registration.installing ?? registration.waiting, ["activated"]);
    return registration;
  }

  const loaded = new Promise((resolve) => (document.readyState === "complete" ? resolve() : addEventListener("load", resolve)));
  let registered;
  const registration = () => (registered ??= loaded.then(register));

  // Gives what the worker answers; where it cannot, {trouble: reason}.
  async function ask(word, rest = {}, to = "active") {
    try {
      const worker = (await registration())[to];
      return await new Promise((resolve) => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = ({ data }) => resolve(data);
        setTimeout(resolve, ANSWER_LIMIT, { trouble: "cut off" });
        worker.postMessage({ word, ...rest }, [port2]);
      });
    } catch (error) {
      return { trouble: keeper.reason || (error.name === "SecurityError" ? "forbidden" : "broken") };
    }
  }

  // Fetches a set step by step until it is whole, there is trouble, or `go` says no.
  async function keep(id, go = () => true) {
    for (;;) {
      const got = await ask("keep", { id });
      if (got.trouble || got.whole || !go(got)) return got;
    }
  }

  let taking = false;
  async function take() {
    taking = true;
    const answer = await ask("take", {}, "waiting");
    taking = !answer.trouble;
    return answer;
  }

  function follow() {
    let controlled = Boolean(navigator.serviceWorker.controller);
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      if (taking) location.reload();
      else if (controlled) say("renewed");
      controlled = true;
    });
    navigator.serviceWorker.addEventListener("message", ({ data }) => {
      if (!["full", "forbidden"].includes(data.trouble)) return;
      keeper.reason ||= data.trouble;
      say(data.trouble);
    });
    navigator.serviceWorker.startMessages();
  }

  // Every size of a picture: a device that is turned asks for another one.
  const sizes = (image) => image.srcset.split(",").map((size) => size.trim().split(" ")[0]);
  const pictures = () => [...document.images].flatMap((image) => [image.src, ...sizes(image)]).filter(Boolean);

  // What is kept waits for the page, and for a search that is open: both need what a slow device has.
  async function quiet() {
    await loaded;
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
    const open = document.querySelector("dialog[open]");
    if (open) await new Promise((resolve) => open.addEventListener("close", resolve, { once: true })).then(quiet);
  }

  async function visit() {
    await quiet();
    await ask("visit", { urls: [location.href, ...pictures().map((url) => new URL(url, document.baseURI).href)] });
    if (document.querySelector("[data-calculator]")) stillbench.onstate((state) => state === "ready" && keep("runtime"));
  }

  if (keeper.reason) return;
  follow();
  visit();
})();

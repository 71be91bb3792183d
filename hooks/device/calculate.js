// The page's side of the calculators: window.stillbench asks the worker, one per visit.
// States: off (no calculator here, or no way to run one), starting, ready, failed.
(() => {
  const START_LIMIT = 120_000;
  const ANSWER_LIMIT = 20_000;
  const SLOW = "The calculator is still on its way; try again in a while.";
  const NOTHING = {
    version: "", verdict: null, ways: [], kind: null, word: null, sign: null, sentence: "",
    say: "", value: null, uncertainty: null, unit: "", picture: "", outputs: [], notes: [], meter: "",
  };

  const stillbench = (window.stillbench ??= {});
  Object.assign(stillbench, { state: "off", reason: "", calculate, onstate });

  const script = document.currentScript?.dataset.runtime
    ? document.currentScript
    : document.querySelector("[data-runtime]");
  const runtime = script && new URL(script.dataset.runtime, document.baseURI);
  const runnable = Boolean(runtime && window.Worker && location.protocol !== "file:");

  const waiting = new Map();
  const listeners = new Set();
  let worker = null;
  let timer = 0;
  let last = 0;

  function refusal(calculator, reason) {
    return { ...NOTHING, calculator, refused: [{ field: "", message: reason }] };
  }

  function become(state, reason = "") {
    Object.assign(stillbench, { state, reason });
    for (const listener of listeners) listener(state, reason);
  }

  function refuse(reason) {
    become("failed", reason);
    for (const { calculator, resolve } of waiting.values()) resolve(refusal(calculator, reason));
    waiting.clear();
  }

  function fail(reason) {
    clearTimeout(timer);
    worker?.terminate();
    worker = null;
    refuse(reason);
  }

  // A slow start is refused but left to go on, so that a slow connection gets there in the end.
  function watch() {
    clearTimeout(timer);
    if (stillbench.state !== "ready") timer = setTimeout(refuse, START_LIMIT, SLOW);
    else if (waiting.size) timer = setTimeout(fail, ANSWER_LIMIT, "The calculator gave no answer in time.");
  }

  function settle({ id, answer, failed }) {
    const { calculator, resolve } = waiting.get(id);
    waiting.delete(id);
    resolve(answer ?? refusal(calculator, failed));
  }

  function hear({ data }) {
    if (data.state === "failed") return fail(data.reason);
    if (data.state === "ready") become("ready");
    else settle(data);
    watch();
  }

  function start() {
    if (worker || !runnable) return;
    become("starting");
    watch();
    worker = new Worker(new URL("worker.js", runtime), { type: "module" });
    worker.onmessage = hear;
    worker.onerror = () => fail("The calculator could not be fetched.");
  }

  // Some browsers crash a page that is left while its worker still compiles.
  function leave() {
    if (!worker) return;
    fail("The page was left.");
    become("off");
  }

  function calculate(calculator, request) {
    if (!runnable) return Promise.resolve(refusal(calculator, "The calculator cannot run here."));
    start();
    const id = ++last;
    worker.postMessage({ id, calculator, request });
    return new Promise((resolve) => {
      waiting.set(id, { calculator, resolve });
      watch();
    });
  }

  function onstate(listener) {
    listeners.add(listener);
    listener(stillbench.state, stillbench.reason);
    return () => listeners.delete(listener);
  }

  const idle = window.requestIdleCallback ?? ((callback) => setTimeout(callback, 200));
  const begin = () => stillbench.state === "off" && start();
  const wake = () => document.querySelector("[data-calculator]") && idle(begin);

  addEventListener("pagehide", leave);
  addEventListener("pageshow", ({ persisted }) => persisted && wake());
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", wake);
  else wake();
})();

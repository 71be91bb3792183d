// The page's side of the calculators: window.stillbench asks the worker, one per visit.
// States: off (no calculator here, or no way to run one), starting, ready, failed.
(() => {
  const START_LIMIT = 120_000;
  const ANSWER_LIMIT = 20_000;
  const script = document.currentScript ?? document.querySelector("[data-runtime]");
  const folder = script?.dataset.runtime;
  const runtime = folder && new URL(folder, document.baseURI);
  const runnable = Boolean(runtime && window.Worker && location.protocol !== "file:");

  const stillbench = (window.stillbench ??= {});
  Object.assign(stillbench, { state: "off", reason: "", calculate, onstate });

  const waiting = new Map();
  const listeners = new Set();
  let worker = null;
  let timer = 0;
  let last = 0;

  function become(state, reason = "") {
    clearTimeout(timer);
    Object.assign(stillbench, { state, reason });
    for (const listener of listeners) listener(state, reason);
  }

  function fail(reason) {
    worker?.terminate();
    worker = null;
    become("failed", reason);
    for (const id of [...waiting.keys()]) settle(id, { refused: reason });
  }

  function settle(id, answer) {
    waiting.get(id)?.(answer);
    waiting.delete(id);
    if (stillbench.state === "ready") watch();
  }

  function watch() {
    clearTimeout(timer);
    if (waiting.size) timer = setTimeout(fail, ANSWER_LIMIT, "The calculator gave no answer in time.");
  }

  function hear({ data }) {
    if (data.state === "failed") fail(data.reason);
    else if (data.state === "ready") {
      become("ready");
      watch();
    } else settle(data.id, data.answer);
  }

  function start() {
    if (worker || !runnable) return;
    become("starting");
    timer = setTimeout(fail, START_LIMIT, "The calculator did not start in two minutes.");
    worker = new Worker(new URL("worker.js", runtime), { type: "module" });
    worker.onmessage = hear;
    worker.onerror = () => fail("The calculator could not be fetched.");
  }

  function calculate(calculator, request) {
    if (!runnable) return Promise.resolve({ refused: "The calculator cannot run here. Use the table." });
    start();
    const id = ++last;
    worker.postMessage({ id, calculator, request });
    return new Promise((resolve) => {
      waiting.set(id, resolve);
      if (stillbench.state === "ready") watch();
    });
  }

  function onstate(listener) {
    listeners.add(listener);
    listener(stillbench.state, stillbench.reason);
    return () => listeners.delete(listener);
  }

  const idle = window.requestIdleCallback ?? ((callback) => setTimeout(callback, 200));
  const wake = () => document.querySelector("[data-calculator]") && idle(start);

  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", wake);
  else wake();
  window.document$?.subscribe(wake);
})();

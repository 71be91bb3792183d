// Runs the calculators in Pyodide, off the page's thread. Takes {id, calculator, request},
// gives {id, answer} or {id, failed}; tells "ready" once, or "failed" with a reason: never nothing.
const beside = (path) => new URL(path, import.meta.url).href;
const ENGINE = beside("../pyodide/");
const LIBRARY = beside("python.zip");
const MEMORY = beside("memory.bin");
const WASM = `${ENGINE}pyodide.asm.wasm`;
const PAGE = 4096;
const QUICK_LIMIT = 30_000;

const lastLine = (error) => error.message.trim().split("\n").at(-1);

const plainFetch = self.fetch;
async function fetched(url) {
  const response = await plainFetch(url).catch(() => {
    throw new Error("The calculator could not be fetched: no connection.");
  });
  if (response.ok) return response;
  throw new Error(`The calculator could not be fetched: ${url} gives ${response.status}.`);
}

// A browser compiles while it loads, but only what a server calls application/wasm.
async function compiled(loading) {
  const response = await loading;
  const named = response.headers.get("content-type") === "application/wasm";
  const headers = { "content-type": "application/wasm" };
  return WebAssembly.compileStreaming(named ? response : new Response(response.body, { headers }));
}

// The memory of a Python that has started, without the pages that are all zero.
async function remembered() {
  const packed = (await fetched(MEMORY)).body.pipeThrough(new DecompressionStream("gzip"));
  const data = await new Response(packed).arrayBuffer();
  const [length, count] = new Uint32Array(data, 0, 2);
  const memory = new Uint8Array(length);
  const from = 4 * (2 + count);
  new Uint32Array(data, 8, count).forEach((number, index) =>
    memory.set(new Uint8Array(data, from + index * PAGE, PAGE), number * PAGE),
  );
  return memory;
}

const engine = compiled(fetched(WASM));
engine.catch(() => {});
WebAssembly.instantiateStreaming = async (_, imports) => {
  const module = await engine;
  return { module, instance: await WebAssembly.instantiate(module, imports) };
};

// Quick goes on from the remembered memory and needs no library. What is missing or damaged
// Pyodide waits for without end, so each of its requests goes through here and can end it.
async function start(quick) {
  const [{ loadPyodide }, { default: createPyodideModule }, memory] = await Promise.all([
    import(`${ENGINE}pyodide.js`),
    import(`${ENGINE}pyodide.asm.js`),
    quick && remembered(),
  ]);
  const settings = { indexURL: ENGINE, stdLibURL: LIBRARY, args: ["-S"], createPyodideModule };
  if (quick) settings._loadSnapshot = memory;
  return new Promise((resolve, reject) => {
    engine.then(() => quick && setTimeout(reject, QUICK_LIMIT, new Error("It took too long.")), reject);
    self.fetch = async (url) => {
      const needless = String(url) === WASM || (quick && String(url) === LIBRARY);
      const response = needless ? new Response() : fetched(url);
      response.catch?.(reject);
      return response;
    };
    const answering = (pyodide) => pyodide.pyimport("calculators._lib.entry").answer;
    loadPyodide(settings).then(answering).then(resolve, reject);
  });
}

// Not every browser may take the memory that another engine wrote; then it is done the long way.
let python = start(true).catch(() => start(false));
const ask = async (...question) => JSON.parse((await python)(...question));

self.onmessage = async ({ data: { id, calculator, request } }) => {
  const question = [calculator, JSON.stringify(request)];
  const again = () => {
    python = start(false);
    return ask(...question);
  };
  try {
    postMessage({ id, answer: await ask(...question).catch(again) });
  } catch (error) {
    postMessage({ id, failed: `The calculator failed: ${lastLine(error)}` });
  }
};

python.then(
  () => postMessage({ state: "ready" }),
  (error) => postMessage({ state: "failed", reason: lastLine(error) }),
);

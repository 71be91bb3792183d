// Runs the calculators in Pyodide, off the page's thread. Takes {id, calculator, request},
// gives {id, answer} or {id, failed}; tells "ready" once, or "failed" with a reason: never nothing.
const beside = (path) => new URL(path, import.meta.url).href;
const ENGINE = beside("../pyodide/");
const LIBRARY = beside("python.zip");
const WASM = `${ENGINE}pyodide.asm.wasm`;
const LOCK = `${ENGINE}pyodide-lock.json`;

const lastLine = (error) => error.message.trim().split("\n").at(-1);
const fail = (reason) => postMessage({ state: "failed", reason });

async function fetched(url) {
  const response = await fetch(url).catch(() => {
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

// All of it is fetched at once. Pyodide asks for these three and gets nothing else; what is
// missing or damaged it would wait for without end, so their failures are told from here.
const files = Object.fromEntries([WASM, LIBRARY, LOCK].map((url) => [url, fetched(url)]));
const engine = compiled(files[WASM]);
for (const part of [...Object.values(files), engine]) part.catch((error) => fail(lastLine(error)));

self.fetch = async (url) => files[url] ?? Promise.reject(new Error(`${url} is not served here.`));
WebAssembly.instantiateStreaming = async (_, imports) => {
  const module = await engine;
  return { module, instance: await WebAssembly.instantiate(module, imports) };
};

async function start() {
  const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all([
    import(`${ENGINE}pyodide.js`),
    import(`${ENGINE}pyodide.asm.js`),
  ]);
  const args = ["-I", "-S"];
  const pyodide = await loadPyodide({ indexURL: ENGINE, stdLibURL: LIBRARY, args, createPyodideModule });
  return pyodide.pyimport("calculators._lib.entry").answer;
}

const started = start();

self.onmessage = async ({ data: { id, calculator, request } }) => {
  try {
    const answer = (await started)(calculator, JSON.stringify(request));
    postMessage({ id, answer: JSON.parse(answer) });
  } catch (error) {
    postMessage({ id, failed: `The calculator failed: ${lastLine(error)}` });
  }
};

started.then(
  () => postMessage({ state: "ready" }),
  (error) => fail(`The calculator did not start: ${lastLine(error)}`),
);

// Runs the calculators in Pyodide, off the page's thread. Takes {id, calculator, request},
// gives {id, answer} or {id, failed}; tells "ready" once, or "failed" with a reason: never nothing.
const ENGINE = new URL("../pyodide/", import.meta.url).href;
const LIBRARY = new URL("python.zip", import.meta.url).href;

const lastLine = (error) => error.message.trim().split("\n").at(-1);
const fail = (reason) => postMessage({ state: "failed", reason });

// A server that does not know .wasm makes Pyodide wait for ever, and so does a missing file.
const plainFetch = self.fetch;
self.fetch = async (...request) => {
  const response = await plainFetch(...request).catch((error) => {
    fail("The calculator could not be fetched: no connection.");
    throw error;
  });
  if (!response.ok) fail(`The calculator could not be fetched: ${response.url} gives ${response.status}.`);
  const wasm = response.url.endsWith(".wasm");
  if (!wasm || response.headers.get("content-type") === "application/wasm") return response;
  return new Response(response.body, {
    status: response.status,
    headers: { "content-type": "application/wasm" },
  });
};

const plainInstantiate = WebAssembly.instantiateStreaming;
WebAssembly.instantiateStreaming = (...parts) =>
  plainInstantiate(...parts).catch((error) => {
    fail(`This browser cannot run the calculator's Python: ${lastLine(error)}`);
    throw error;
  });

async function start() {
  const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all([
    import(`${ENGINE}pyodide.js`),
    import(`${ENGINE}pyodide.asm.js`),
  ]);
  const pyodide = await loadPyodide({
    indexURL: ENGINE,
    stdLibURL: LIBRARY,
    createPyodideModule,
  });
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
  (error) => fail(`The calculator's Python did not start: ${lastLine(error)}`),
);

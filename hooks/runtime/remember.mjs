// Starts Pyodide on the cut library, imports all of it and keeps the memory, so that a page
// need not do it again. node remember.mjs PYODIDE LIBRARY OUT: OUT becomes the memory.
import crypto from "node:crypto";
import { writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [pyodideFolder, library, out] = process.argv.slice(2).map((path) => resolve(path));

// The same library gives the same memory: no time and no chance in it. As on an iPhone, Pyodide
// then keeps away from a shortcut that not every browser has, whose address would be remembered.
const nothing = (array) => new Uint8Array(array.buffer, array.byteOffset, array.byteLength).fill(0) && array;
const fixed = { crypto: { getRandomValues: nothing }, navigator: { userAgent: "iPhone" } };
for (const [name, value] of Object.entries(fixed)) Object.defineProperty(globalThis, name, { value });
crypto.randomFillSync = nothing;
Date.now = performance.now = () => 0;

const { loadPyodide } = await import(pathToFileURL(resolve(pyodideFolder, "pyodide.mjs")));
const pyodide = await loadPyodide({
  indexURL: pyodideFolder,
  stdLibURL: library,
  args: ["-S"],
  env: { PYTHONHASHSEED: "0" },
  _makeSnapshot: true,
});
pyodide.runPython(`
import gc, importlib, zipimport
(library,) = zipimport._zip_directory_cache.values()
for name in sorted(n for n in library if n.endswith(".pyc")):
    importlib.import_module(name.removesuffix(".pyc").replace("/", ".").removesuffix(".__init__"))
del library, name
gc.collect()
`);
writeFileSync(out, pyodide.makeMemorySnapshot());

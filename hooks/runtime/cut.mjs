// Cuts Python's standard library to what the calculators use, with Pyodide's own Python.
// node cut.mjs PYODIDE CALCULATORS OUT: folders; OUT is filled with .pyc files.
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [pyodideFolder, calculators, out] = process.argv.slice(2).map((path) => resolve(path));
const { loadPyodide } = await import(pathToFileURL(resolve(pyodideFolder, "pyodide.mjs")));
const pyodide = await loadPyodide({ indexURL: pyodideFolder });

for (const [inside, outside] of [["/shop/calculators", calculators], ["/out", out]]) {
  pyodide.FS.mkdirTree(inside);
  pyodide.FS.mount(pyodide.FS.filesystems.NODEFS, { root: outside }, inside);
}
try {
  pyodide.runPython(readFileSync(new URL("cut.py", import.meta.url), "utf-8"), { filename: "cut.py" });
} catch (error) {
  console.error(error.message);
  process.exit(1);
}

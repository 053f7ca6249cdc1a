// Starts what a phone loads in Node.js and runs a Python file in it: node run.mjs BUNDLE FILE FOLDER
// FOLDER lies at /shared in there.
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { loadPyodide } from "pyodide";

const [bundle, file, folder] = process.argv.slice(2).map((path) => resolve(path));
const pyodide = await loadPyodide({
  stdLibURL: join(bundle, "library.zip"),
  lockFileURL: join(bundle, "lock.json"),
  env: { HOME: "/tmp" },
});
const [place] = pyodide.pyimport("site").getsitepackages();
const packs = ["packages.pack", "evenstand.pack"].map((name) => new Uint8Array(readFileSync(join(bundle, name))));
pyodide.pyimport("packed").take_in(packs, place);
pyodide.FS.mkdir("/shared");
pyodide.mountNodeFS("/shared", folder);
try {
  pyodide.runPython(readFileSync(file, "utf8"));
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}

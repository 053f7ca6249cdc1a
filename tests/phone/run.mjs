// Starts what a phone loads in Node.js and runs a Python file in it: node run.mjs BUNDLE FILE FOLDER [anew]
// FOLDER lies at /shared in there. Unless anew, it runs in a second start, from the memory of the first.
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [bundle, file, folder] = process.argv.slice(2, 5).map((path) => resolve(path));
const { start } = await import(pathToFileURL(join(bundle, "python.js")).href);
const read = async (name) => new Uint8Array(readFileSync(join(bundle, name)));
let python = await start(`${bundle}/`, read);
if (process.argv[5] !== "anew") python = await start(`${bundle}/`, read, python.memory);
const { pyodide } = python;
pyodide.FS.mkdir("/shared");
pyodide.mountNodeFS("/shared", folder);
try {
  pyodide.runPython(readFileSync(file, "utf8"));
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}

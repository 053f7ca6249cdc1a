// Starts Pyodide in Node.js and runs a Python file of this folder in it: node run.mjs FILE [ARGUMENT…]
// The project lies at /house in there, its packages at build/pyodide/site.
import { fileURLToPath } from "node:url";
import { loadPyodide } from "pyodide";

const [file, ...args] = process.argv.slice(2);
const pyodide = await loadPyodide({
  env: {
    ...(process.env.CI && { CI: process.env.CI }),
    HOME: "/tmp",
    HYPOTHESIS_STORAGE_DIRECTORY: "/tmp/hypothesis",
  },
});
pyodide.FS.mkdir("/house");
pyodide.mountNodeFS("/house", fileURLToPath(new URL("../..", import.meta.url)));
pyodide.FS.chdir("/house");
pyodide.globals.set("argv", pyodide.toPy([`tests/pyodide/${file}`, ...args]));
try {
  process.exitCode = pyodide.runPython(`
import runpy, sys
sys.path += ["/house/src", "/house/build/pyodide/site"]
sys.dont_write_bytecode, sys.pycache_prefix = False, "/house/build/pyodide/compiled"
sys.argv = argv
try:
    runpy.run_path(argv[0], run_name="__main__")
    code = 0
except SystemExit as stop:
    code = int(stop.code or 0)
code`);
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}

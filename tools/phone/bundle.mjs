// Builds what a phone loads: node tools/phone/bundle.mjs SITE TARGET [--compress]
// SITE holds the locked packages for Pyodide; TARGET is written anew. Pyodide itself, which compiles the
// modules, comes from node_modules.
import { createHash } from "node:crypto";
import { cpSync, mkdirSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { loadPyodide } from "pyodide";

const root = fileURLToPath(new URL("../..", import.meta.url));
const [site, target] = process.argv.slice(2, 4).map((path) => resolve(path));
const core = dirname(createRequire(import.meta.url).resolve("pyodide/package.json"));
const FROM_CORE = ["pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm"];
const OWN = /\.(js|html)$/; // beside them lie notes for the checker
const COMPRESSED = /\.(mjs|js|wasm|so|zip|pack|css|svg|html|json|webmanifest)$/;

rmSync(target, { recursive: true, force: true });
mkdirSync(target, { recursive: true });
for (const name of FROM_CORE) cpSync(join(core, name), join(target, name));
for (const name of readdirSync(join(root, "phone")).filter((name) => OWN.test(name))) cpSync(join(root, "phone", name), join(target, name));
const { info } = JSON.parse(readFileSync(join(core, "pyodide-lock.json"), "utf8"));
writeFileSync(join(target, "lock.json"), JSON.stringify({ info, packages: {} }));
await pack();
const assets = list();
const version = sha256(Buffer.from(JSON.stringify(assets))).slice(0, 12);
writeFileSync(join(target, "assets.json"), `${JSON.stringify({ version, assets }, null, 1)}\n`);
writeFileSync(join(target, "assets.js"), `self.EVENSTAND = ${JSON.stringify({ version, assets })};\n`);
if (process.argv.includes("--compress")) for (const path of files(target)) compress(path);

/** Lets Pyodide compile and pack the standard library, the packages and the product. */
async function pack() {
  const pyodide = await loadPyodide();
  for (const [place, folder] of Object.entries({ "/tools": join(root, "tools"), "/evenstand": join(root, "src/evenstand"), "/site": site, "/out": target })) {
    pyodide.FS.mkdir(place);
    pyodide.mountNodeFS(place, folder);
  }
  pyodide.FS.mkdir("/library");
  const library = new Uint8Array(readFileSync(join(core, "python_stdlib.zip")));
  pyodide.unpackArchive(library, "zip", { extractDir: "/library" });
  pyodide.pyimport("sys").path.insert(0, "/tools/phone");
  const run = pyodide.pyimport("runpy").run_path("/tools/phone/pack.py");
  run.get("main")("/out", "/library", "/site");
}

/** Lists what must be on the phone before it can go without a network, by the address below the app. */
function list() {
  const own = files(target).filter((path) => !path.endsWith("sw.js"));
  const fixed = join(root, "src/evenstand/web/static");
  const pages = files(fixed).filter((path) => !path.endsWith(".txt"));
  const named = [
    ...own.map((path) => [`phone/${relative(target, path)}`, path]),
    ...pages.map((path) => [`static/${relative(fixed, path)}`, path]),
  ];
  return named.map(([address, path]) => {
    const content = readFileSync(path);
    return { address, sha256: sha256(content), size: content.length };
  });
}

function files(folder) {
  const found = readdirSync(folder, { recursive: true }).map((name) => join(folder, name));
  return found.filter((path) => statSync(path).isFile()).sort();
}

function sha256(content) {
  return createHash("sha256").update(content).digest("hex");
}

/** Puts beside a file what a browser may be sent in its place. */
function compress(path) {
  if (!COMPRESSED.test(path)) return;
  const content = readFileSync(path);
  writeFileSync(`${path}.gz`, gzipSync(content, { level: 9 }));
  const params = { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_LGWIN]: 24 };
  writeFileSync(`${path}.br`, brotliCompressSync(content, { params }));
}

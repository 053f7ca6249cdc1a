// Starts Python with the pages in it. The first start of a version imports them, and tells what its memory then
// holds; the next ones take that in, and import nothing.
import createModule from "./pyodide.asm.mjs";
import { loadPyodide } from "./pyodide.mjs";

/** What Python's memory holds: its size, the numbers of the pages that are kept, and the content: a head by Pyodide,
 * then those pages. Its layout tells whether another start may take it in.
 * @typedef {{layout: string, size: number, pages: number[], content: Uint8Array<ArrayBuffer>}} Memory */

const PACKS = ["packages.pack", "evenstand.pack"];
// The packages' one part in WebAssembly: linked before Python begins, so that it lies at the same place each time.
const NATIVE = "msgspec/_core.cpython-314-wasm32-emscripten.so";
const PAGE = 65536; // bytes: WebAssembly's own
const WHERE = 1; // of Pyodide's head, as 32-bit numbers: where the memory begins behind it

/** Starts Python; gives its module of pages, and its memory before they knew of any book, where that was not given.
 * @param {string} place where the files beside this one are
 * @param {(name: string) => Promise<Uint8Array>} read one of them
 * @param {Memory} [memory] of an earlier start of the same version
 * @returns {Promise<{pyodide: any, pages: any, memory?: Memory}>} */
export async function start(place, read, memory) {
  const native = read("native.so");
  const packs = memory ? undefined : Promise.all(PACKS.map(read));
  const linking = new Linking(memory);
  const pyodide = await loadPyodide({
    indexURL: place,
    stdLibURL: `${place}library.zip`,
    lockFileURL: `${place}lock.json`,
    env: { HOME: "/tmp" },
    fsInit: async (/** @type {any} */ FS, /** @type {any} */ { sitePackages }) => put(FS, `${sitePackages}/${NATIVE}`, await native),
    createPyodideModule: (/** @type {any} */ settings) => linking.made(settings),
    ...(memory ? { _loadSnapshot: head(memory) } : { _makeSnapshot: true }),
  });
  const packed = pyodide.pyimport("packed");
  if (packs) packed.take_in(await packs, pyodide._api.sitePackages);
  else packed.wake();
  packed.destroy();
  if (packs) pyodide.runPython("from evenstand.web.run.on_phone import rehearse; rehearse()");
  const told = packs && { layout: linking.layout, ...compact(pyodide.makeMemorySnapshot(), linking.always) };
  return { pyodide, pages: pyodide.pyimport("evenstand.web.run.on_phone"), memory: told };
}

/** Links the part in WebAssembly while Pyodide makes its module, and takes the memory in. */
class Linking {
  layout = "";
  /** Pages that are kept even where they are empty: in a new memory they are not. @type {Set<number>} */
  always = new Set();
  /** @type {unknown} */
  failed;

  /** @param {Memory} [memory] */
  constructor(memory) {
    this.memory = memory;
  }

  /** @param {any} settings */
  async made(settings) {
    const linking = this;
    const module = await createModule({
      ...settings,
      onRuntimeInitialized() {
        try {
          linking.link(this);
        } catch (error) {
          linking.failed = error; // thrown here it would reach nobody
        }
      },
    });
    if (this.failed) throw this.failed;
    if (this.memory) this.takeIn(module, this.memory);
    return module;
  }

  /** @param {any} module */
  link(module) {
    module.loadDynamicLibrary(`${module.API.sitePackages}/${NATIVE}`, { global: false, nodelete: true, loadAsync: false }, {});
    this.layout = [module.wasmTable.length, module._malloc(1)].join(" ");
    if (!this.memory) this.always = filled(module.HEAPU8);
  }

  /** @param {any} module @param {Memory} memory */
  takeIn(module, memory) {
    if (memory.layout !== this.layout) throw new Error(`memory laid out as ${memory.layout}, not ${this.layout}`);
    module.growMemory(memory.size);
    const from = head(memory).length;
    memory.pages.forEach((page, n) => {
      module.HEAPU8.set(memory.content.subarray(from + n * PAGE, from + (n + 1) * PAGE), page * PAGE);
    });
  }
}

/** @param {any} FS @param {string} path @param {Uint8Array} content */
function put(FS, path, content) {
  FS.mkdirTree(path.slice(0, path.lastIndexOf("/")));
  FS.writeFile(path, content);
}

/** @param {Memory} memory */
function head({ pages, content }) {
  return content.subarray(0, content.length - pages.length * PAGE);
}

/** Leaves out the empty pages, a third of all, in place.
 * @param {Uint8Array<ArrayBuffer>} whole @param {Set<number>} always pages that are kept even so */
function compact(whole, always) {
  const begins = new Uint32Array(whole.buffer)[WHERE];
  const pages = [...new Set([...always, ...filled(whole.subarray(begins))])].sort((one, other) => one - other);
  pages.forEach((page, n) => {
    whole.copyWithin(begins + n * PAGE, begins + page * PAGE, begins + (page + 1) * PAGE);
  });
  return { size: whole.length - begins, pages, content: whole.slice(0, begins + pages.length * PAGE) };
}

/** Numbers the pages that hold anything. @param {Uint8Array} memory */
function filled(memory) {
  /** @type {Set<number>} */
  const found = new Set();
  for (let page = 0; page * PAGE < memory.length; page++) {
    const words = new Int32Array(memory.buffer, memory.byteOffset + page * PAGE, PAGE / 4);
    if (words.some((word) => word !== 0)) found.add(page);
  }
  return found;
}

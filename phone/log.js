// The entries on this phone: a log in the browser's own storage that is only ever added to. What is
// acknowledged has been flushed to the disk first ("strict").
const NAME = "evenstand";
const ENTRIES = "entries";
const STATE = "state";
const WAITING = "waiting";

/** @typedef {{seq?: number, id: string, text: string, waiting?: 1}} Kept
 *  An entry; `waiting` while no office has it. */

/** @type {Promise<IDBDatabase> | undefined} */
let opened;

function forget() {
  opened = undefined;
}

/** Opens the log, once. @returns {Promise<IDBDatabase>} */
function open() {
  opened ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => {
      const entries = asked.result.createObjectStore(ENTRIES, { keyPath: "seq", autoIncrement: true });
      entries.createIndex("id", "id", { unique: true });
      entries.createIndex(WAITING, WAITING);
      asked.result.createObjectStore(STATE);
    };
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  opened.then(
    (log) => log.addEventListener("close", forget), // the browser has cleared its storage
    forget, // asked again, it may open
  );
  return opened;
}

/** Does something in one transaction; what it gives is given when the transaction is on the disk.
 * @template T
 * @param {IDBTransactionMode} mode
 * @param {(entries: IDBObjectStore, state: IDBObjectStore) => T | Promise<T>} work
 * @returns {Promise<T>} */
async function transact(mode, work) {
  const log = await open();
  const transaction = log.transaction([ENTRIES, STATE], mode, { durability: "strict" });
  const done = new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error ?? new DOMException("aborted", "AbortError"));
  });
  done.catch(() => {}); // told to whoever awaits it below
  try {
    const found = await work(transaction.objectStore(ENTRIES), transaction.objectStore(STATE));
    await done;
    return found;
  } catch (error) {
    if (error instanceof Clash) transaction.abort();
    else await done;
    throw error;
  }
}

/** @template T @param {IDBRequest<T>} asked @returns {Promise<T>} */
function answered(asked) {
  return new Promise((resolve, reject) => {
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
}

/** Another tab has kept something else under the same id. */
export class Clash extends Error {}

/** Adds entries that are not there yet, and puts the state beside them in the same transaction; none where
 * one of those that wait says something else than what has its id.
 * @param {{id: string, text: string}[]} found
 * @param {{waiting: boolean, state?: Record<string, unknown>}} how */
export function append(found, { waiting, state = {} }) {
  return transact("readwrite", async (entries, kept) => {
    for (const { id, text } of found) {
      const known = await answered(entries.index("id").get(id));
      if (known && waiting && known.text !== text) throw new Clash(id);
      if (known) continue;
      entries.add(waiting ? { id, text, waiting: 1 } : { id, text });
    }
    for (const [name, value] of Object.entries(state)) kept.put(value, name);
  });
}

/** Gives the entries behind a place in the log. @param {number} seq @returns {Promise<Kept[]>} */
export function since(seq) {
  return transact("readonly", (entries) => answered(entries.getAll(IDBKeyRange.lowerBound(seq, true))));
}

/** Gives entries that no office has yet, oldest first. @returns {Promise<Kept[]>} */
export function waiting() {
  return transact("readonly", (entries) => answered(entries.index(WAITING).getAll()));
}

/** Counts the entries, and those that wait. */
export function counted() {
  return transact("readonly", async (entries) => ({
    all: await answered(entries.count()),
    waiting: await answered(entries.index(WAITING).count()),
  }));
}

/** Marks entries as handed over, to a book that had this mark then. @param {number[]} seqs @param {string} mark */
export function handedOver(seqs, mark) {
  return transact("readwrite", async (entries, state) => {
    state.put(mark, "mark");
    for (const seq of seqs) {
      const kept = await answered(entries.get(seq));
      if (kept) {
        delete kept.waiting;
        entries.put(kept);
      }
    }
  });
}

/** Marks every entry as waiting again: for an office that has none of them. */
export function waitAgain() {
  return transact("readwrite", async (entries) => {
    for (const kept of await answered(entries.getAll())) entries.put({ ...kept, waiting: 1 });
  });
}

/** Reads something this phone remembers. @param {string} name @returns {Promise<any>} */
export function remembered(name) {
  return transact("readonly", (_, state) => answered(state.get(name)));
}

/** Remembers something, or forgets it where it is undefined. @param {Record<string, unknown>} values */
export function remember(values) {
  return transact("readwrite", (_, state) => {
    for (const [name, value] of Object.entries(values)) {
      if (value === undefined) state.delete(name);
      else state.put(value, name);
    }
  });
}

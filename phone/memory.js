// Keeps what Python's memory held when this version had started, for its next starts. No entry is in it.
const here = new URL(".", import.meta.url);
const NAME = "evenstand-memory";
const SPARE = 100 * 2 ** 20; // bytes that must be free beside it, for entries and photos

/** Names the version that the service worker shows files of; none where there is no service worker. */
export async function version() {
  const found = await fetch(new URL("version", here));
  return found.ok ? found.text() : "";
}

/** @param {string} version @returns {Promise<import("./python.js").Memory | undefined>} */
export async function kept(version) {
  const found = await caches.match(place(version), { cacheName: NAME });
  if (!found) return undefined;
  const told = JSON.parse(found.headers.get("Memory") ?? "");
  return { ...told, content: new Uint8Array(await found.arrayBuffer()) };
}

/** Keeps it in place of that of any other version, where there is room enough.
 * @param {string} version @param {import("./python.js").Memory} memory */
export async function keep(version, { content, ...told }) {
  await forget();
  const { quota = 0, usage = 0 } = await navigator.storage.estimate();
  if (quota - usage < content.length + SPARE) return;
  const headers = { Memory: JSON.stringify(told) };
  await (await caches.open(NAME)).put(place(version), new Response(content, { headers }));
}

/** Lets go of it; tells whether there was any. */
export function forget() {
  return caches.delete(NAME);
}

/** @param {string} version */
function place(version) {
  return new URL(`memory/${version}`, here);
}

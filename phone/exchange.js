// Hands entries over to the office and takes in what others wrote: in batches, as often as it takes,
// each batch harmless when it is sent twice. Photos go last.
import * as log from "./log.js";

/** @typedef {{state: "alone" | "done" | "unreachable" | "full" | "refused" | "busy", taken: number, given: number, at?: number}} Result */

const base = new URL("..", import.meta.url);
const MOST_ENTRIES = 200;
const MOST_BYTES = 900_000; // of a batch
const PATIENCE = 20_000; // ms
const PHOTO = /"kind":\s*"photo"/;

/** @returns {Promise<Result>} */
export async function handOver() {
  const key = await log.remembered("key");
  if (!key) return { state: "alone", taken: 0, given: 0 };
  let taken = 0;
  let given = 0;
  try {
    for (let more = true; more; ) {
      const batch = next(await log.waiting());
      const cursor = (await log.remembered("cursor")) ?? 0;
      const told = await send(key, { cursor, entries: batch.map((kept) => kept.text) });
      if ("refused" in told) return { state: told.refused, taken, given };
      const { entries, cursor: place } = told;
      await log.append(entries, { waiting: false, state: { cursor: place, at: Date.now() } });
      await log.handedOver(batch.map((kept) => Number(kept.seq)));
      taken += entries.length;
      given += batch.length;
      more = told.more || batch.length > 0;
    }
  } catch (error) {
    const full = error instanceof DOMException && error.name === "QuotaExceededError";
    return { state: full ? "full" : "unreachable", taken, given };
  }
  return { state: "done", taken, given, at: await log.remembered("at") };
}

/** Takes the next batch: photos behind everything else. @param {log.Kept[]} waiting */
function next(waiting) {
  const photos = waiting.filter((kept) => PHOTO.test(kept.text.slice(0, 400)));
  const others = waiting.filter((kept) => !photos.includes(kept));
  const batch = [];
  let bytes = 0;
  for (const kept of [...others, ...photos].slice(0, MOST_ENTRIES)) {
    bytes += kept.text.length;
    if (batch.length && bytes > MOST_BYTES) break;
    batch.push(kept);
  }
  return batch;
}

/** @param {string} key @param {{cursor: number, entries: string[]}} asked
 *  @returns {Promise<{refused: "refused" | "busy"} | {entries: {id: string, text: string}[], cursor: number, more: boolean}>} */
async function send(key, asked) {
  const found = await fetch(new URL("exchange", base), {
    method: "POST",
    headers: { "Content-Type": "application/json", Authorization: `Bearer ${key}` },
    body: JSON.stringify(asked),
    signal: AbortSignal.timeout(PATIENCE),
  });
  if (found.status === 401 || found.status === 403) return { refused: "refused" };
  if (!found.ok) return { refused: "busy" };
  return found.json();
}

/** Pairs this phone with the office by the code that the office shows.
 * @param {string} code @param {string} name
 * @returns {Promise<boolean>} whether the office took it */
export async function pair(code, name) {
  const found = await fetch(new URL("exchange/pair", base), {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ code, name }),
  });
  if (!found.ok) return false;
  const { device, key, who, role } = await found.json();
  await log.remember({ device, key, who, role, cursor: 0 });
  await log.waitAgain();
  return true;
}

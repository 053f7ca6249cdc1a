// Hands entries over to the office and takes in what others wrote: in batches, as often as it takes,
// each batch harmless when it is sent twice. Photos go last.
import * as log from "./log.js";

/** @typedef {{state: "alone" | "done" | "unreachable" | "full" | "refused" | "unwilling" | "busy", taken: number, given: number}} Result */

const base = new URL("..", import.meta.url);
const MOST_ENTRIES = 200;
const MOST_BYTES = 900_000; // of a batch
const PATIENCE = 20_000; // ms
const UNWILLING = [400, 403, 413, 422]; // one of the entries is not for this office, or not this person's
const PHOTO = /"kind":\s*"photo"/;

/** @returns {Promise<Result>} */
export async function handOver() {
  const key = await log.remembered("key");
  if (!key) return { state: "alone", taken: 0, given: 0 };
  /** @type {Result} */
  const result = { state: "done", taken: 0, given: 0 };
  const aside = new Set(); // what the office will not have: the rest goes on
  try {
    for (let more = true, most = MOST_ENTRIES; more; ) {
      const batch = next(await log.waiting(), aside, most);
      const told = await send(key, batch);
      if (told === "unwilling") {
        if (batch.length > 1) most = Math.ceil(batch.length / 2);
        else aside.add(batch[0].id);
        continue;
      }
      if (typeof told === "string") return { ...result, state: told };
      if ("anew" in told) {
        await beginAnew();
        continue;
      }
      const { entries, cursor, mark } = told;
      await log.append(entries, { waiting: false, state: { cursor, mark, at: Date.now() } });
      await log.handedOver(batch.map((kept) => Number(kept.seq)));
      result.taken += entries.length;
      result.given += batch.length;
      more = told.more || batch.length > 0;
      most = MOST_ENTRIES;
    }
  } catch (error) {
    const full = error instanceof DOMException && error.name === "QuotaExceededError";
    return { ...result, state: full ? "full" : "unreachable" };
  }
  return aside.size ? { ...result, state: "unwilling" } : result;
}

/** Takes the next batch: photos behind everything else.
 * @param {log.Kept[]} waiting @param {Set<string>} aside @param {number} most */
function next(waiting, aside, most) {
  const wanted = waiting.filter((kept) => !aside.has(kept.id));
  const photos = wanted.filter((kept) => PHOTO.test(kept.text.slice(0, 400)));
  const others = wanted.filter((kept) => !photos.includes(kept));
  const batch = [];
  let bytes = 0;
  for (const kept of [...others, ...photos].slice(0, most)) {
    bytes += kept.text.length;
    if (batch.length && bytes > MOST_BYTES) break;
    batch.push(kept);
  }
  return batch;
}

/** Hands all over once more, and takes all in: the office has gone back to an older copy of its book,
 * or is another one. What it has already does no harm; who only reads has nothing to give. */
async function beginAnew() {
  if ((await log.remembered("role")) !== "reads") await log.waitAgain();
  await log.remember({ cursor: 0, mark: "" });
}

/** @typedef {{entries: {id: string, text: string}[], cursor: number, mark: string, more: boolean}} Told */

/** @param {string} key @param {log.Kept[]} batch
 *  @returns {Promise<"refused" | "unwilling" | "busy" | {anew: true} | Told>} */
async function send(key, batch) {
  const cursor = (await log.remembered("cursor")) ?? 0;
  const mark = (await log.remembered("mark")) ?? "";
  const found = await fetch(new URL("exchange", base), {
    method: "POST",
    headers: { "Content-Type": "application/json", Authorization: `Bearer ${key}` },
    body: JSON.stringify({ cursor, mark, entries: batch.map((kept) => kept.text) }),
    signal: AbortSignal.timeout(PATIENCE),
  });
  if (found.status === 401) return "refused";
  if (batch.length && UNWILLING.includes(found.status)) return "unwilling";
  return found.ok ? found.json() : "busy";
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
  await log.remember({ device, key, who, role });
  await beginAnew();
  return true;
}

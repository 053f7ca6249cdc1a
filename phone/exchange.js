// Hands entries over to the office and takes in what others wrote: in batches, as often as it takes,
// each batch harmless when it is sent twice. Photos go last.
import * as log from "./log.js";

/** @typedef {{state: "alone" | "done" | "unreachable" | "full" | "refused" | "unwilling" | "busy", taken: number, given: number}} Result */

const base = new URL("..", import.meta.url);
const MOST_ENTRIES = 200;
const MOST_BYTES = 200_000; // of a batch, unless one entry alone is longer
const SLOWEST = 5; // bytes in a ms: a way on which less goes is none
const MOST_PATIENCE = 300_000; // ms
const UNWILLING = [400, 403, 413, 422]; // one of the entries is not for this office, or not this person's
const REFUSED = [400, 422]; // a code that is no more good
const PHOTO = /"kind":\s*"photo"/;

let patience = 20_000; // ms beside the time that a batch takes: more where that was not enough

/** @returns {Promise<Result>} */
export async function handOver() {
  const key = await log.remembered("key");
  if (!key) return { state: "alone", taken: 0, given: 0 };
  /** @type {Result} */
  const result = { state: "done", taken: 0, given: 0 };
  const aside = new Set(); // what the office will not have: the rest goes on
  const given = new Set(); // what it has, and this phone has no room to note
  let full = false;
  try {
    for (let more = true, most = MOST_ENTRIES; more; ) {
      const left = (await log.waiting()).filter((kept) => !aside.has(kept.id) && !given.has(kept.id));
      const batch = next(left, most);
      const told = await send(key, batch);
      if (told === "unwilling" || told === "slow") {
        if (batch.length > 1) most = Math.ceil(batch.length / 2);
        else if (told === "unwilling") aside.add(batch[0].id);
        else return { ...result, state: "unreachable" };
        continue;
      }
      if (typeof told === "string") return { ...result, state: told };
      if ("anew" in told) {
        await beginAnew();
        continue;
      }
      const { entries, more: behind, ...place } = told;
      const state = { ...place, at: Date.now() };
      if (await room(() => log.append(entries, { waiting: false, state }))) result.taken += entries.length;
      else full = true;
      if (!(await room(() => log.handedOver(batch.map((kept) => Number(kept.seq)), told.mark)))) {
        for (const kept of batch) given.add(kept.id);
      }
      result.given += batch.length;
      more = (behind && !full) || batch.length > 0;
      most = MOST_ENTRIES;
    }
  } catch (error) {
    console.warn(error);
    return { ...result, state: "unreachable" };
  }
  if (full) return { ...result, state: "full" };
  return aside.size ? { ...result, state: "unwilling" } : result;
}

/** Writes something, and gives whether there was room for it. @param {() => Promise<unknown>} write */
async function room(write) {
  try {
    await write();
    return true;
  } catch (error) {
    if (error instanceof DOMException && error.name === "QuotaExceededError") return false;
    throw error;
  }
}

/** Takes the next batch: photos behind everything else, one at a time.
 * @param {log.Kept[]} waiting @param {number} most */
function next(waiting, most) {
  const photos = waiting.filter((kept) => PHOTO.test(kept.text.slice(0, 400)));
  const others = waiting.filter((kept) => !photos.includes(kept));
  if (!others.length) return photos.slice(0, 1);
  const batch = [];
  let bytes = 0;
  for (const kept of others.slice(0, most)) {
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

/** @typedef {{entries: {id: string, text: string}[], cursor: number, mark: string, role: string, more: boolean}} Told */

/** @param {string} key @param {log.Kept[]} batch
 *  @returns {Promise<"refused" | "unwilling" | "slow" | "busy" | {anew: true} | Told>} */
async function send(key, batch) {
  const cursor = (await log.remembered("cursor")) ?? 0;
  const mark = (await log.remembered("mark")) ?? "";
  const body = JSON.stringify({ cursor, mark, entries: batch.map((kept) => kept.text) });
  try {
    const found = await fetch(new URL("exchange", base), {
      method: "POST",
      headers: { "Content-Type": "application/json", Authorization: `Bearer ${key}` },
      body,
      signal: AbortSignal.timeout(patience + body.length / SLOWEST),
    });
    if (found.status === 401) return "refused";
    if (batch.length && UNWILLING.includes(found.status)) return "unwilling";
    return found.ok ? await found.json() : "busy";
  } catch (error) {
    if (!(error instanceof DOMException && error.name === "TimeoutError")) throw error;
    patience = Math.min(MOST_PATIENCE, 2 * patience);
    return "slow";
  }
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
  if (REFUSED.includes(found.status)) return false;
  if (!found.ok) throw new Error(`${found.status}`);
  const { device, key, who, role, signs } = await found.json();
  await log.remember({ device, key, who, role, signs });
  await beginAnew();
  return true;
}

// Runs the pages of this phone: Python in WebAssembly, our own packages, and the same app as in the office.
import * as log from "./log.js";
import * as memory from "./memory.js";
import * as python from "./python.js";

/** @typedef {{method: string, url: string, headers: [string, string][], body?: ArrayBuffer}} Asked */
/** @typedef {{status: number, headers: [string, string][], body: Uint8Array}} Answer */

const here = new URL(".", self.location.href);
const base = new URL("..", here);
const RANDOM_DEVICE = 3; // bytes: 16 million names are enough until an office gives one

/** The class of the phone's pages, and the one that is at work: none where it may hold what was not kept.
 * @type {any} */
let Phone;
/** @type {any} */
let phone;
let seen = 0; // place in the log up to which the book in memory has the entries

/** Requests are answered one after the other. @type {Promise<unknown>} */
let turn = start().then(
  (keep) => {
    self.postMessage({ ready: true });
    keep?.().catch(console.warn);
  },
  (error) => {
    console.error(error);
    self.postMessage({ failed: String(error) });
  },
);

self.addEventListener("message", (event) => {
  if (event.data.end) turn = turn.then(() => self.close());
  else turn = turn.then(() => answerOn(event.ports[0], event.data));
});

/** @param {MessagePort} port @param {Asked} asked */
async function answerOn(port, asked) {
  try {
    port.postMessage(await answer(asked));
  } catch (error) {
    console.error(error);
    phone = undefined;
    await memory.forget().catch(console.warn); // it may be at fault
    port.postMessage({ failed: String(error) });
  }
}

/** Starts Python; out of its memory of an earlier start, where that is kept and does. Gives what keeps it. */
async function start() {
  const known = remembered(); // read while Python loads
  const version = await memory.version();
  const kept = await memory.kept(version).catch(console.warn);
  const told = await begin(known, kept || undefined).catch(async (error) => {
    if (!kept) throw error;
    console.warn(error);
    await memory.forget();
    return begin(known);
  });
  return told && version ? () => memory.keep(version, told) : undefined;
}

/** @param {ReturnType<typeof remembered>} known @param {python.Memory} [kept] */
async function begin(known, kept) {
  const { pages, memory: told } = await python.start(here.href, bytes, kept);
  Phone = pages.Phone;
  putTogether(await known);
  return told;
}

/** @param {string} name */
async function bytes(name) {
  const found = await fetch(new URL(name, here));
  if (!found.ok) throw new Error(`${name}: ${found.status}`);
  return new Uint8Array(await found.arrayBuffer());
}

/** Reads what the log knows: who writes here, and every entry. */
async function remembered() {
  const who = await identity();
  const cookies = (await log.remembered("cookies")) ?? "{}";
  return { who, cookies, entries: await log.since(0) };
}

/** Puts the book together from the log, which alone is the truth.
 * @param {Awaited<ReturnType<typeof remembered>>} known */
function putTogether({ who, cookies, entries }) {
  phone = Phone.callKwargs({ ...who, cookies, origin: base.origin, root: base.pathname });
  seen = 0;
  take(entries);
}

/** Who writes here, and under which name of the phone: as the office said, else by luck. */
async function identity() {
  const role = (await log.remembered("role")) ?? "keeps";
  const who = (await log.remembered("who")) ?? "";
  let device = await log.remembered("device");
  if (!device) {
    const random = crypto.getRandomValues(new Uint8Array(RANDOM_DEVICE));
    const name = Array.from(random, (byte) => byte.toString(16).padStart(2, "0"));
    device = `phone-${name.join("")}`;
    await log.remember({ device });
  }
  const signs = (await log.remembered("signs")) ?? "";
  return { device, who, role, signs };
}

/** Takes into the book what came into the log: from the office, from another tab. */
async function takeIn() {
  if (phone) take(await log.since(seen));
  else putTogether(await remembered());
}

/** @param {log.Kept[]} found */
function take(found) {
  if (!found.length) return;
  phone.take(found.map((kept) => kept.text));
  seen = Number(found[found.length - 1].seq);
}

/** @param {Asked} asked @returns {Promise<Answer>} */
async function answer({ method, url, headers, body }) {
  await takeIn();
  const sent = body && new Uint8Array(body);
  const [status, told, content, written, cookies] = plain(phone.handle(method, url, headers, sent));
  try {
    await keep(written, cookies);
  } catch (error) {
    const [refused, itsHeaders, page] = plain(phone.not_kept(String(error)));
    phone = undefined;
    if (error instanceof log.Clash) return answer({ method, url, headers, body }); // with what is there now
    return { status: refused, headers: itsHeaders, body: page };
  }
  return { status, headers: told, body: content };
}

/** Keeps what a request has written; only then it is answered.
 * @param {[string, string][]} written @param {string | undefined} cookies */
async function keep(written, cookies) {
  if (!written.length && cookies === undefined) return;
  const entries = written.map(([id, text]) => ({ id, text }));
  await log.append(entries, { waiting: true, state: cookies === undefined ? {} : { cookies } });
  if (written.length) self.postMessage({ written: written.length });
}

/** @param {any} found */
function plain(found) {
  const made = found.toJs({ create_pyproxies: false });
  found.destroy();
  return made;
}

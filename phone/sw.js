// Stands between the pages and the network: what is on this phone is answered here. It keeps nothing
// but copies of files and of pages last shown; the entries are in the log.
importScripts("phone/assets.js", "phone/sentences.js");

/** @type {ServiceWorkerItself} */
const worker = /** @type {any} */ (self);
const { assets, version } = worker.EVENSTAND;
const base = new URL(worker.registration.scope);
const byAddress = new Map(assets.map((asset) => [asset.address, asset.sha256]));
const FILES = "evenstand-files"; // by their hash: versions share what did not change
const PAGES = "evenstand-pages"; // as they were last shown
const MOST_PAGES = 80;
const PATIENCE = 400; // ms for a page to say that it is there
const OPEN_STILL = 1000; // ms between two looks whether a page that is to answer is still open
const STARTING = 20_000; // ms for a page that has just been opened to start its Python
const VERSION = "phone/version"; // what a page's Python is asked to be
const TO_OFFICE = ["exchange", "phone/"];

worker.addEventListener("install", (event) => event.waitUntil(fetchAll()));
worker.addEventListener("activate", (event) => event.waitUntil(tidy()));
worker.addEventListener("message", (event) => {
  if (event.data.takeOver) worker.skipWaiting();
  if (event.data.claim) event.waitUntil(worker.clients.claim());
});
worker.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (!url.href.startsWith(base.href)) return;
  const address = url.pathname.slice(base.pathname.length);
  if (address === VERSION) event.respondWith(Promise.resolve(new Response(version)));
  else if (byAddress.has(address)) event.respondWith(file(address));
  else if (!TO_OFFICE.some((start) => address.startsWith(start))) event.respondWith(page(event, url));
});

/** Fetches every file of this version that is not here yet, each checked by its hash. */
async function fetchAll() {
  const files = await caches.open(FILES);
  const from = byAddress.entries();
  const one = async () => {
    for (const [address, sha256] of from) if (!(await files.match(named(sha256)))) await take(files, address, sha256);
  };
  await Promise.all([one(), one(), one(), one()]);
}

/** @param {Cache} files @param {string} address @param {string} sha256 */
async function take(files, address, sha256) {
  const found = await fetch(new URL(address, base), { cache: "no-cache", credentials: "same-origin" });
  const content = await found.arrayBuffer();
  const digest = await crypto.subtle.digest("SHA-256", content);
  const hex = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
  if (!found.ok || hex !== sha256) throw new Error(`${address} did not arrive whole (${found.status})`);
  await files.put(named(sha256), new Response(content, { headers: headers(address) }));
}

/** @param {string} sha256 */
function named(sha256) {
  return new URL(`phone/file/${sha256}`, base).href;
}

const TYPES = { mjs: "text/javascript", js: "text/javascript", wasm: "application/wasm", css: "text/css" };
const MORE_TYPES = { svg: "image/svg+xml", png: "image/png", html: "text/html; charset=utf-8", json: "application/json" };
const POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/** Headers of a file; only the worker that runs Python may compile WebAssembly. @param {string} address */
function headers(address) {
  const kind = address.slice(address.lastIndexOf(".") + 1);
  const types = /** @type {Record<string, string>} */ ({ ...TYPES, ...MORE_TYPES });
  const compiles = address === "phone/worker.js";
  return {
    "Content-Type": types[kind] ?? "application/octet-stream",
    "Content-Security-Policy": compiles ? POLICY.replace("script-src 'self'", "script-src 'self' 'wasm-unsafe-eval'") : POLICY,
    "X-Content-Type-Options": "nosniff",
  };
}

/** Lets go of files of older versions. */
async function tidy() {
  const files = await caches.open(FILES);
  const wanted = new Set(assets.map((asset) => named(asset.sha256)));
  for (const request of await files.keys()) if (!wanted.has(request.url)) await files.delete(request);
  await worker.clients.claim();
}

/** @param {string} address */
async function file(address) {
  const files = await caches.open(FILES);
  const found = await files.match(named(/** @type {string} */ (byAddress.get(address))));
  return found ?? fetch(new URL(address, base));
}

/** Answers from the Python of a page that is open, else with what this phone showed last.
 * @param {Asking} event @param {URL} url */
async function page(event, url) {
  const { request } = event;
  const reading = request.method === "GET" || request.method === "HEAD";
  if (!reading && !request.referrer?.startsWith(base.href)) return refused("foreign", 403);
  const opening = reading && request.mode === "navigate";
  const client = opening ? await listening(event.clientId, "now") : await waitedFor(event.clientId);
  if (!client) return opening ? lastShown(url) : refused(reading ? "unshown" : "closed", 503);
  const asked = {
    method: request.method,
    url: url.href,
    headers: [...request.headers],
    body: reading ? undefined : await request.arrayBuffer(),
  };
  const found = await ask(client, asked);
  if (found.failed) return refused(reading ? "unshown" : "stuck", 500);
  const answer = new Response(HOLLOW.includes(found.status) ? null : found.body, found);
  if (shownWhole(request, answer)) event.waitUntil(remember(url, answer.clone()));
  return redirected(answer, url);
}

const HOLLOW = [204, 205, 304];

/** A page that may be shown again. @param {Request} request @param {Response} answer */
function shownWhole(request, answer) {
  const type = answer.headers.get("Content-Type") ?? "";
  return request.method === "GET" && answer.status === 200 && type.startsWith("text/html");
}

/** A redirect made here must name a whole address. @param {Response} answer @param {URL} url */
function redirected(answer, url) {
  const location = answer.headers.get("Location");
  return location ? Response.redirect(new URL(location, url).href, answer.status) : answer;
}

/** Waits for the Python of the page that asks, which may have been opened just now. @param {string} asking */
async function waitedFor(asking) {
  for (const end = Date.now() + STARTING; Date.now() < end; ) {
    const found = await listening(asking, "soon");
    if (found) return found;
    const own = asking && (await worker.clients.get(asking));
    if (!own || (await ask(own, { there: "soon" }, PATIENCE)).broken) return undefined;
    await new Promise((resolve) => setTimeout(resolve, PATIENCE / 8));
  }
  return undefined;
}

/** Finds an open page whose Python answers, the one that asks before all others.
 * @param {string} first @param {"now" | "soon"} there whether it may still be starting */
async function listening(first, there) {
  const open = await worker.clients.matchAll({ type: "window", includeUncontrolled: true });
  /** @param {OpenPage} client */
  const call = async (client) => {
    const said = await ask(client, { there }, PATIENCE);
    if (!said.there) throw new Error("silent");
    return client;
  };
  const own = open.filter((client) => client.id === first).map(call);
  const others = () => open.filter((client) => client.id !== first).map(call);
  return Promise.any(own).catch(() => Promise.any(others())).catch(() => undefined);
}

/** Asks a page, and waits for its answer; where it was closed meanwhile there is none.
 * @param {OpenPage} client @param {any} message @param {number} [patience] @returns {Promise<any>} */
function ask(client, message, patience) {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = (event) => end(event.data);
    client.postMessage(message, message.body ? [port2, message.body] : [port2]);
    const waits = patience ? setTimeout(() => end({}), patience) : setInterval(lookFor, OPEN_STILL);
    /** @param {any} found */
    function end(found) {
      clearInterval(waits);
      resolve(found);
    }
    async function lookFor() {
      if (!(await worker.clients.get(client.id))) end({ failed: "closed" });
    }
  });
}

/** Keeps a page as it was shown, and lets go of the oldest. @param {URL} url @param {Response} answer */
async function remember(url, answer) {
  const pages = await caches.open(PAGES);
  await pages.put(url.href, answer);
  const kept = await pages.keys();
  for (const old of kept.slice(0, Math.max(0, kept.length - MOST_PAGES))) await pages.delete(old);
}

/** Shows the page as it was last seen, marked as a copy; the shell where it never was. @param {URL} url */
async function lastShown(url) {
  const pages = await caches.open(PAGES);
  const copy = await pages.match(url.href);
  const shown = copy ?? (await file("phone/shell.html"));
  const text = (await shown.text()).replace("<html", copy ? "<html data-copy" : "<html data-shell");
  return new Response(text.replaceAll("{base}", base.pathname), { headers: shown.headers });
}

/** Says in a sentence why something cannot be done. @param {string} why @param {number} status */
function refused(why, status) {
  const sentence = worker.sentence(why);
  const body = `<!doctype html><meta charset="utf-8"><meta name="viewport" content="width=device-width"><link rel="stylesheet" href="${base.pathname}static/notebook.css"><title>Evenstand</title><main id="main"><p class="refusal" role="alert">${sentence}</p></main>`;
  const told = { ...headers("refused.html"), "HX-Retarget": "#told", "HX-Reswap": "innerHTML" };
  return new Response(body, { status, headers: told });
}

// Starts the phone's part of a page: the service worker, the Python behind the page, the handing over.
import { handOver } from "./exchange.js";
import * as log from "./log.js";
import "./status.js"; // before anything is told

const base = new URL("..", import.meta.url);
const copy = document.documentElement.hasAttribute("data-copy");
const shell = document.documentElement.hasAttribute("data-shell");
const EACH = 5 * 60 * 1000; // ms between two tries to hand over
const AFTER_SAVE = 500; // ms

/** @type {Worker | undefined} */
let python;
let answers = false;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let soon;

navigator.serviceWorker.addEventListener("message", (event) => {
  const [port] = event.ports;
  if (event.data.there) port.postMessage({ there: event.data.there === "now" ? answers : Boolean(python) });
  else python?.postMessage(event.data, event.data.body ? [port, event.data.body] : [port]);
});
navigator.serviceWorker.startMessages();

/** @param {EventTarget} target @param {string} what */
function once(target, what) {
  return new Promise((resolve) => target.addEventListener(what, resolve, { once: true }));
}

/** Registers the service worker and waits until it answers for this page. */
async function registered() {
  const registration = await navigator.serviceWorker.register(new URL("sw.js", base), { scope: base.pathname });
  await navigator.serviceWorker.ready;
  if (!navigator.serviceWorker.controller) {
    registration.active?.postMessage({ claim: true }); // it was passed over, as a forced reload does
    await once(navigator.serviceWorker, "controllerchange");
  }
  watchForNewer(registration);
}

/** Says that a new version is ready; the person decides when it takes over.
 * @param {ServiceWorkerRegistration} registration */
function watchForNewer(registration) {
  const tell = () => registration.waiting && show("newer", registration.waiting);
  tell();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", tell);
  });
}

/** Lets a new version take over, and shows this page by it. @param {ServiceWorker} newer */
function takeOver(newer) {
  const anew = () => {
    python?.terminate();
    [python, answers] = [undefined, false]; // else the old one would answer once more
    location.reload();
  };
  navigator.serviceWorker.addEventListener("controllerchange", anew, { once: true });
  newer.postMessage({ takeOver: true });
}

/** @param {string} what @param {unknown} [detail] */
function show(what, detail) {
  document.dispatchEvent(new CustomEvent(`phone:${what}`, { detail }));
}

function startPython() {
  python = new Worker(new URL("phone/worker.js", base), { type: "module", name: "evenstand" });
  python.addEventListener("message", (event) => {
    if (event.data.ready) pythonIsReady();
    else if (event.data.failed) show("failed", event.data.failed);
    else if (event.data.written) saved();
  });
}

/** What was shown as a copy is shown anew, unless somebody has begun to write in it. */
async function pythonIsReady() {
  answers = true;
  if (document.readyState === "loading") await once(document, "DOMContentLoaded");
  if (shell || (copy && !document.querySelector("[data-touched]"))) await showAnew();
  document.documentElement.setAttribute("data-answers", "");
  show("ready");
}

async function showAnew() {
  const found = await fetch(location.href);
  const fresh = new DOMParser().parseFromString(await found.text(), "text/html");
  document.title = fresh.title;
  for (const script of fresh.querySelectorAll("head script[src]")) load(/** @type {HTMLScriptElement} */ (script));
  document.documentElement.lang = fresh.documentElement.lang;
  document.documentElement.removeAttribute("data-copy");
  document.documentElement.removeAttribute("data-shell");
  document.body.replaceWith(document.adoptNode(fresh.body));
  window.htmx?.process(document.body);
}

/** Runs a script of a page that was put in place of the shell. @param {HTMLScriptElement} script */
function load(script) {
  if ([...document.scripts].some((known) => known.src === script.src)) return;
  const made = document.createElement("script");
  made.src = script.src;
  made.type = script.type;
  made.async = false;
  document.head.append(made);
}

/** After a save: keep the storage from being cleared, and hand over once its page has been shown. */
async function saved() {
  clearTimeout(soon);
  soon = setTimeout(exchange, AFTER_SAVE);
  if (!(await navigator.storage.persisted())) await navigator.storage.persist();
}

/** Hands over and takes in; the result is what the page says, whatever the browser says of the network. */
export async function exchange() {
  show("exchanging");
  const result = await navigator.locks.request("exchange", handOver);
  show("exchanged", result);
  if (result.taken) new BroadcastChannel("evenstand").postMessage({ taken: result.taken });
  return result;
}

document.addEventListener("input", (event) => {
  if (event.target instanceof Element) event.target.setAttribute("data-touched", "");
});
document.addEventListener("phone:exchange", exchange);
document.addEventListener("phone:take", (/** @type {any} */ event) => takeOver(event.detail));
window.addEventListener("online", exchange);
document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && exchange());
setInterval(() => document.visibilityState === "visible" && exchange(), EACH);

/** Starts Python: at once where the service worker answers for this page already. */
async function begin() {
  const answered = Boolean(navigator.serviceWorker.controller);
  if (answered) startPython();
  await registered();
  if (!answered) startPython();
}

/** Settled when this phone can go without a network. */
export const begun = begin();
await begun;
show("counted", await log.counted());
await exchange();

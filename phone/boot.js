// Starts the phone's part of a page: the service worker, the Python behind the page, the handing over.
import { handOver } from "./exchange.js";
import * as log from "./log.js";
import "./status.js"; // before anything is told

const base = new URL("..", import.meta.url);
const copy = document.documentElement.hasAttribute("data-copy");
const shell = document.documentElement.hasAttribute("data-shell");
if (!("serviceWorker" in navigator)) {
  opened("insecure");
  throw new Error("not by https");
}
const EACH = 5 * 60 * 1000; // ms between two tries to hand over
const AFTER_SAVE = 500; // ms

/** @type {Worker | undefined} */
let python;
let answers = false;
let broken = false;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let soon;

navigator.serviceWorker.addEventListener("message", (event) => {
  const [port] = event.ports;
  const { there } = event.data;
  if (there) port.postMessage({ there: there === "now" ? answers : Boolean(python), broken });
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
  if (registration.installing && !registration.active) await installed(registration.installing);
  await navigator.serviceWorker.ready;
  if (!navigator.serviceWorker.controller) {
    registration.active?.postMessage({ claim: true }); // it was passed over, as a forced reload does
    await once(navigator.serviceWorker, "controllerchange");
  }
  watchForNewer(registration);
}

/** Waits until everything was fetched; throws where it was not. @param {ServiceWorker} first */
function installed(first) {
  return new Promise((resolve, reject) => {
    first.addEventListener("statechange", () => {
      if (first.state === "redundant") reject(new Error("not all of it arrived"));
      else resolve(first);
    });
  });
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
  once(navigator.serviceWorker, "controllerchange").then(() => location.reload());
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
    else if (event.data.failed) pythonFailed(event.data.failed);
    else if (event.data.written) saved();
  });
  python.addEventListener("error", (event) => pythonFailed(event.message ?? ""));
}

/** @param {string} why */
function pythonFailed(why) {
  [python, answers, broken] = [undefined, false, true]; // nobody is to wait for it
  show("failed", why);
  opened("failed");
}

/** Says in the shell, which has no other line, how its opening ended. @param {"failed" | "insecure"} how */
function opened(how) {
  const opening = document.querySelector("p[data-failed]");
  if (opening instanceof HTMLElement) opening.textContent = opening.dataset[how] ?? "";
}

/** After another version has taken over: what was begun is answered yet, what comes is for its Python. */
function renewPython() {
  python?.postMessage({ end: true });
  answers = false;
  startPython();
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
export async function begin() {
  if (navigator.serviceWorker.controller) startPython();
  await registered();
  if (!python) startPython();
  navigator.serviceWorker.addEventListener("controllerchange", renewPython);
}

/** Settled when this phone can go without a network. */
export const begun = begin();
begun.then(log.counted).then((found) => show("counted", found)).then(exchange, (error) => {
  console.warn(error);
  opened("failed");
});

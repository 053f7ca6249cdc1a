// The line that says where the entries are: how many wait, when they last synced, what to do.
import * as log from "./log.js";

const DAY = 24 * 3600 * 1000; // ms

let state = ""; // of the last exchange: it outlives the page's body, which is put anew at each step
document.addEventListener("phone:exchanging", () => (state = "sending"));
document.addEventListener("phone:exchanged", (/** @type {any} */ event) => (state = event.detail.state));

class HandOver extends HTMLElement {
  connectedCallback() {
    this.line = document.createElement("a");
    this.line.href = this.dataset.page ?? "";
    this.news = document.createElement("p");
    this.news.hidden = true;
    const said = document.createElement("p");
    said.setAttribute("role", "status");
    said.append(this.line);
    this.replaceChildren(said, this.news);
    for (const [what, hear] of Object.entries(this.hears)) document.addEventListener(`phone:${what}`, hear);
    this.others = new BroadcastChannel("evenstand");
    this.others.addEventListener("message", () => this.refresh());
    this.refresh();
    this.lookForNewer();
  }

  disconnectedCallback() {
    for (const [what, hear] of Object.entries(this.hears)) document.removeEventListener(`phone:${what}`, hear);
    this.others?.close();
  }

  async lookForNewer() {
    const found = await navigator.serviceWorker.getRegistration();
    if (found?.waiting) this.offer(found.waiting);
  }

  hears = {
    ready: () => this.refresh(),
    counted: () => this.refresh(),
    exchanging: () => this.refresh(),
    exchanged: () => this.refresh(),
    failed: (/** @type {any} */ event) => this.tell(`${this.dataset.failed} (${event.detail})`),
    newer: (/** @type {any} */ event) => this.offer(event.detail),
  };

  refresh = async () => {
    const { all, waiting } = await log.counted();
    const at = await log.remembered("at");
    const paired = Boolean(await log.remembered("key"));
    const why = this.dataset[state];
    const parts = paired ? [this.many(waiting), this.when(at), why] : [all === 1 ? this.dataset.single : this.fill("alone", { n: all })];
    this.say(parts.filter(Boolean).join(" "));
    this.classList.toggle("waits", waiting > 0);
  };

  /** @param {number} n */
  many(n) {
    return n ? this.fill(n === 1 ? "one" : "many", { n }) : this.dataset.none;
  }

  /** @param {number | undefined} at */
  when(at) {
    if (!at) return this.dataset.never;
    const near = Date.now() - at < 6 * DAY;
    const format = near ? { weekday: "long", hour: "numeric", minute: "2-digit" } : { dateStyle: "medium" };
    const shown = new Intl.DateTimeFormat(document.documentElement.lang, /** @type {any} */ (format));
    return this.fill("last", { at: shown.format(at) });
  }

  /** @param {string} name @param {Record<string, unknown>} values */
  fill(name, values) {
    return (this.dataset[name] ?? "").replace(/\{(\w+)\}/g, (_, key) => String(values[key]));
  }

  /** @param {string} text */
  say(text) {
    if (this.line) this.line.textContent = text;
  }

  /** @param {string} text */
  tell(text) {
    if (!this.news) return;
    this.news.textContent = text;
    this.news.hidden = false;
  }

  /** Offers a new version; it takes over when the person says so. @param {ServiceWorker} newer */
  offer(newer) {
    this.tell(this.dataset.newer ?? "");
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = this.dataset.take ?? "";
    button.addEventListener("click", () => {
      document.dispatchEvent(new CustomEvent("phone:take", { detail: newer }));
    });
    this.news?.append(" ", button);
  }
}

customElements.define("hand-over", HandOver);

document.addEventListener("click", (event) => {
  const pressed = event.target instanceof Element && event.target.closest("[data-hand-over]");
  if (pressed) document.dispatchEvent(new CustomEvent("phone:exchange"));
});

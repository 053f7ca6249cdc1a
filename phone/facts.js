// The facts of the page about this phone: entries, room, and whether the browser promises to keep them.
import * as log from "./log.js";

const MB = 1e6;

class PhoneFacts extends HTMLElement {
  connectedCallback() {
    document.addEventListener("phone:exchanged", this.show);
    this.show();
  }

  disconnectedCallback() {
    document.removeEventListener("phone:exchanged", this.show);
  }

  show = async () => {
    const { all, waiting } = await log.counted();
    const at = await log.remembered("at");
    const { quota = 0, usage = 0 } = await navigator.storage.estimate();
    const words = this.dataset;
    const shown = new Intl.DateTimeFormat(document.documentElement.lang, { dateStyle: "medium", timeStyle: "short" });
    const facts = [
      [words.all, String(all)],
      [words.waiting, String(waiting)],
      [words.at, at ? shown.format(at) : words.never],
      [words.kept, (await navigator.storage.persisted()) ? words.yes : words.no],
      [words.room, `${Math.floor((quota - usage) / MB)} MB`],
    ];
    const list = document.createElement("dl");
    list.className = "facts";
    for (const [word, value] of facts) list.append(this.row(word ?? "", value ?? ""));
    this.replaceChildren(list);
  };

  /** @param {string} word @param {string} value */
  row(word, value) {
    const row = document.createElement("div");
    for (const [kind, text] of [["dt", word], ["dd", value]]) {
      const made = document.createElement(kind);
      made.textContent = text;
      row.append(made);
    }
    return row;
  }
}

customElements.define("phone-facts", PhoneFacts);

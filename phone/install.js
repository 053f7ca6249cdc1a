// Puts the book on this phone: pairs it by the code behind the address, fetches what it needs, and takes
// in the book.
import { pair } from "./exchange.js";

const form = /** @type {HTMLFormElement} */ (document.querySelector("form[data-install]"));
const said = /** @type {HTMLElement} */ (form.querySelector("[role=status]"));
const code = /** @type {HTMLInputElement} */ (form.elements.namedItem("code"));
const name = /** @type {HTMLInputElement} */ (form.elements.namedItem("name"));
const button = /** @type {HTMLButtonElement} */ (form.querySelector("button"));

if (location.hash.length > 1) {
  code.value = decodeURIComponent(location.hash.slice(1));
  history.replaceState(null, "", location.pathname); // a code is not to stay in the address
}
if ("serviceWorker" in navigator) button.disabled = false;
else say("insecure");

let paired = false;
/** @type {typeof import("./boot.js") | undefined} */
let boot;

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  button.disabled = true;
  try {
    say("pairing");
    paired ||= await pair(code.value, name.value);
    if (!paired) return stop("refused");
    say("fetching");
    const again = boot;
    boot ??= await import("./boot.js");
    await (again ? again.begin() : boot.begun);
    say("taking");
    await boot.exchange();
    location.assign(new URL("..", import.meta.url));
  } catch (error) {
    stop("failed", String(error));
  }
});

/** @param {string} what @param {string} [more] */
function say(what, more = "") {
  said.textContent = `${form.dataset[what]} ${more}`.trim();
}

/** @param {string} what @param {string} [more] */
function stop(what, more) {
  say(what, more);
  button.disabled = false;
}

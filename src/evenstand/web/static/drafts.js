// What is typed stays on this device until it is saved: a page loaded anew, a phone that died,
// a signal that went bring nothing down. A draft is kept by the form's address, and by what it
// was opened from, so that it never comes back over what somebody else has saved since.
const BEGINS = "draft ";
const SENT = "sent ";
const MOST_DAYS = 30;

function typed(form) {
  return [...form.elements].filter(
    (each) =>
      each.name &&
      !["hidden", "password", "file", "submit", "button"].includes(each.type) &&
      each.form === form,
  );
}

function isOf(form) {
  return form.method === "post" || form.dataset.draft !== undefined;
}

function key(form) {
  const own = form.dataset.draft;
  if (own !== undefined) return BEGINS + own;
  const base = form.elements.namedItem("base")?.value ?? "";
  return BEGINS + new URL(form.action, location.href).pathname + location.search + " " + base;
}

function read(name, store = localStorage) {
  try {
    return JSON.parse(store.getItem(name) ?? "null");
  } catch {
    return null; // Storage is shut, or holds something else.
  }
}

function write(name, value, store = localStorage) {
  try {
    if (value) store.setItem(name, JSON.stringify(value));
    else store.removeItem(name);
  } catch {
    // As in read: what is typed lives as long as the page.
  }
}

function isChanged(field) {
  if (field.type === "checkbox" || field.type === "radio") return field.checked !== field.defaultChecked;
  if (field.options) return [...field.options].some((each) => each.selected !== each.defaultSelected);
  return field.value !== field.defaultValue;
}

function keep(form) {
  const fields = {};
  for (const field of typed(form)) {
    if (!isChanged(field)) continue;
    const toggled = field.type === "checkbox" || field.type === "radio";
    fields[toggled ? `${field.name}=${field.value}` : field.name] = toggled ? field.checked : field.value;
  }
  write(key(form), Object.keys(fields).length ? { at: Date.now(), fields } : null);
}

function bringBack(form) {
  const draft = read(key(form));
  if (!draft?.fields || form.querySelector("[aria-invalid]")) return;
  let back = false;
  for (const field of typed(form)) {
    const toggled = field.type === "checkbox" || field.type === "radio";
    const was = draft.fields[toggled ? `${field.name}=${field.value}` : field.name];
    if (was === undefined || (toggled ? field.checked : field.value) === was) continue;
    if (toggled) field.checked = was;
    else field.value = was;
    field.closest("details")?.setAttribute("open", "");
    back = true;
  }
  // What follows from the form is asked for anew, once whoever listens is there.
  if (back) setTimeout(() => form.dispatchEvent(new Event("input", { bubbles: true })));
}

// A form that was sent and is not shown again with something refused is saved.
function settle() {
  for (const name of Object.keys(sessionStorage).filter((each) => each.startsWith(SENT))) {
    const forms = [...document.forms].filter((form) => isOf(form) && SENT + key(form) === name);
    const refused = forms.some((form) => form.querySelector("[aria-invalid], .refused"));
    if (!refused && !document.querySelector("#refused, #twin, #meanwhile")) write(name.slice(SENT.length), null);
    write(name, null, sessionStorage);
  }
}

function expire() {
  const old = Date.now() - MOST_DAYS * 24 * 3600 * 1000;
  for (const name of Object.keys(localStorage)) {
    if (name.startsWith(BEGINS) && (read(name)?.at ?? 0) < old) write(name, null);
  }
}

function tried(clear) {
  try {
    clear();
  } catch {
    // Storage is shut.
  }
}

function look() {
  for (const form of document.forms) {
    if (!isOf(form) || form.drafted) continue;
    form.drafted = true;
    bringBack(form);
  }
}

function arrive() {
  tried(settle);
  look();
}

document.addEventListener("input", (event) => {
  const form = event.target.form ?? null;
  if (form && isOf(form) && event.isTrusted) keep(form);
});
document.addEventListener("submit", (event) => {
  if (!isOf(event.target)) return;
  if (event.target.method === "post") write(SENT + key(event.target), { at: Date.now() }, sessionStorage);
  else write(key(event.target), null); // It stands in the address now.
});
document.addEventListener("click", (event) => {
  const name = event.target.closest?.("[data-forget]")?.dataset.forget;
  if (name) write(BEGINS + name, null);
});
// A choice that the rest of a form follows from is sent as it is made.
document.addEventListener("change", (event) => {
  if (event.target.dataset?.go !== undefined) event.target.form.requestSubmit();
});
let waits = false;
const later = () => {
  if (waits) return;
  waits = true;
  setTimeout(() => {
    waits = false;
    arrive();
  });
};
new MutationObserver(later).observe(document.documentElement, { childList: true, subtree: true });
tried(expire);
arrive();

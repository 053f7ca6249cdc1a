// Big keys for counts of plants: a number, then the next place. What was counted and not yet
// saved is kept on the device, so that a page loaded anew goes on where it was.
class PlaceKeys extends HTMLElement {
  connectedCallback() {
    if (this.panel) return;
    this.form = this.closest("form");
    this.lists = [...this.form.querySelectorAll("[data-plants]")];
    this.digits = "";
    this.opener = this.key(this.dataset.open, "quiet", () => this.open());
    this.panel = document.createElement("div");
    this.panel.hidden = true;
    this.panel.append(this.shown(), this.board());
    this.append(this.opener, this.panel);
    this.restore();
    for (const list of this.lists) list.addEventListener("input", () => this.keep());
    this.form.addEventListener("submit", () => this.sent(), { capture: true }); // before it is read
    this.show();
  }

  key(text, kind, press) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.className = kind;
    made.addEventListener("click", press);
    return made;
  }

  shown() {
    const line = document.createElement("div");
    line.className = "at";
    this.where = document.createElement("span");
    this.number = document.createElement("output");
    this.number.className = "big";
    line.append(this.where, this.number);
    return line;
  }

  board() {
    const keys = document.createElement("div");
    keys.className = "keys";
    for (const digit of "123456789") keys.append(this.key(digit, "quiet", () => this.press(digit)));
    keys.append(
      this.key(this.dataset.back, "quiet small", () => this.back()),
      this.key("0", "quiet", () => this.press("0")),
      this.key(this.dataset.next, "next", () => this.next()),
    );
    return keys;
  }

  open() {
    this.panel.hidden = false;
    this.opener.hidden = true;
  }

  numbers(list) {
    return list.value.split(/[\s,;/]+/).filter(Boolean);
  }

  // The list whose turn it is: with species apart, each of them in every place.
  get turn() {
    const done = this.lists.map((list) => this.numbers(list).length);
    return this.lists[done.indexOf(Math.min(...done))];
  }

  press(digit) {
    if (this.digits.length < 4) this.digits += digit;
    navigator.vibrate?.(20);
    this.show();
  }

  back() {
    if (this.digits) {
      this.digits = this.digits.slice(0, -1);
    } else {
      const done = this.lists.map((list) => this.numbers(list).length);
      const list = this.lists[done.lastIndexOf(Math.max(...done))];
      const numbers = this.numbers(list);
      this.digits = numbers.pop() ?? ""; // back in hand: one digit at a time is taken from it
      list.value = numbers.join(" ");
      this.keep();
    }
    this.show();
  }

  next() {
    if (!this.digits) return;
    const list = this.turn;
    list.value = [...this.numbers(list), Number(this.digits)].join(" ");
    this.digits = "";
    navigator.vibrate?.(60);
    this.keep();
    this.show();
  }

  show() {
    const list = this.turn;
    const place = this.dataset.place.replace("{n}", String(this.numbers(list).length + 1));
    const name = this.lists.length > 1 ? list.labels[0].textContent : "";
    this.where.textContent = name ? `${place}: ${name}` : place;
    this.number.textContent = this.digits || "–";
  }

  get place() {
    return `places-${this.dataset.key}`;
  }

  keep() {
    this.store(this.lists.map((list) => list.value));
  }

  store(texts) {
    try {
      if (texts.some(Boolean)) localStorage.setItem(this.place, JSON.stringify(texts));
      else localStorage.removeItem(this.place);
    } catch {
      // Storage is shut: the numbers live as long as the page.
    }
  }

  restore() {
    if (this.lists.some((list) => list.value.trim())) return;
    try {
      const texts = JSON.parse(localStorage.getItem(this.place) ?? "[]");
      if (texts.length !== this.lists.length) return;
      this.lists.forEach((list, i) => (list.value = texts[i]));
      if (texts.some(Boolean)) this.open();
    } catch {
      // As in keep.
    }
  }

  // A number not yet ended goes with the others; what is refused comes back with the page.
  sent() {
    if (this.digits) this.next();
    this.store([]);
  }
}

customElements.define("place-keys", PlaceKeys);

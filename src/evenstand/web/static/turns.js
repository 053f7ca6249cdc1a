// Counts turns of the wheel by taps, the last part of one by a key of its own, with a tone for each. What is
// counted is kept on the device until it is used, so that a page loaded anew goes on where it was.
const AHEAD = 0.2; // seconds of beeps that are set in advance
const NEAR = 0.02; // of a turn: nobody turns a wheel to less
const TONES = { turn: [740, 0.12], last: [1175, 0.7], pace: [520, 0.08] }; // Hz, s
const VOICE = "turns-voice";

class TurnCounter extends HTMLElement {
  tones = TONES;
  spoken = 3; // turns at the end that are said aloud

  connectedCallback() {
    this.goal = Number(this.dataset.turns);
    this.whole = Math.floor(this.goal + NEAR);
    this.seconds = Number(this.dataset.seconds || 0);
    [this.total = 0, this.before = 0] = this.stored(this.place, "").split(" ").map(Number);
    for (const key of this.querySelectorAll("[data-do]")) key.onclick = () => this[key.dataset.do](key);
    this.parts = this.offer([...this.querySelectorAll("[data-part]")]);
    this.voices = [...this.querySelectorAll('[data-do="voice"]')];
    for (const key of this.voices) key.hidden = !window.speechSynthesis;
    this.key("beep").hidden = !(this.seconds && window.AudioContext);
    this.aloud = this.stored(VOICE, "") === "on";
    this.seen = () => this.wake();
    document.addEventListener("visibilitychange", this.seen);
    this.face("shut");
    if (this.total) this.open();
    else if (this.stored(`${this.place}-phone`, "")) this.strap();
  }

  disconnectedCallback() {
    document.removeEventListener("visibilitychange", this.seen);
    this.shut();
  }

  key(name) {
    return this.querySelector(`[data-do="${name}"]`);
  }

  told(name, text) {
    this.querySelector(`[data-told="${name}"]`).textContent = text;
  }

  shown(name, is) {
    this.querySelector(`[data-shown="${name}"]`).hidden = !is;
  }

  // The goal's own part is one of the keys, or one more behind them.
  offer(keys) {
    const part = this.goal - this.whole;
    if (part < NEAR) return keys;
    let own = keys.find((key) => Math.abs(key.dataset.part - part) < NEAR);
    if (!own) {
      own = keys[0].cloneNode();
      own.dataset.part = part;
      own.textContent = this.figures(part, 2);
      own.onclick = () => this.part(own);
      keys.at(-1).after(own);
      keys.push(own);
    }
    this.own = own;
    own.classList.add("own");
    return keys;
  }

  get place() {
    return `turns-${this.dataset.key}`;
  }

  stored(place, otherwise) {
    try {
      return localStorage.getItem(place) ?? otherwise;
    } catch {
      return otherwise; // Storage is shut: what is counted lives as long as the page.
    }
  }

  store(place, text) {
    try {
      if (text) localStorage.setItem(place, text);
      else localStorage.removeItem(place);
    } catch {
      // As in stored.
    }
  }

  get count() {
    return Math.floor(this.total + 1e-6);
  }

  figures(number, digits = 3) {
    return String(Number(number.toFixed(digits))).replace(".", this.dataset.decimal);
  }

  set(total, before = this.before) {
    [this.total, this.before] = [total, before];
    this.store(this.place, total || before ? `${total} ${before}` : "");
    navigator.vibrate?.(30);
    this.wake();
    this.show();
  }

  show() {
    const part = this.total - this.count;
    const pressed = this.parts.find((key) => Math.abs(key.dataset.part - part) < 1e-4);
    for (const key of this.parts) key.setAttribute("aria-pressed", String(key === pressed));
    this.told("count", pressed ? `${this.count || ""}${this.beside(pressed)}` : this.figures(this.total));
    const left = this.count === this.whole && this.own && !pressed;
    this.told("each", left ? this.dataset.last.replace("{part}", this.own.textContent) : this.dataset.each);
    this.key("tap").classList.toggle("reached", this.total >= this.goal - NEAR);
    this.key("undo").hidden = !this.before;
    this.key("undo").textContent = this.dataset.undo.replace("{n}", this.figures(this.before));
    this.heard();
    this.calm(true);
  }

  heard() {
    for (const key of this.voices) key.setAttribute("aria-pressed", String(this.aloud));
  }

  // ⅓ beside 21 is 21⅓; what has no sign is added as figures.
  beside(key) {
    return key.textContent.length === 1 ? key.textContent : this.figures(key.dataset.part % 1, 2).slice(this.count ? 1 : 0);
  }

  calm(is) {
    this.shown("calm", is);
    this.shown("asked", !is);
  }

  // Shut, counting by taps, or by the phone on the wheel.
  face(name) {
    for (const each of ["shut", "open", "strapped"]) this.shown(each, each === name);
    this.at = name;
  }

  open() {
    this.strapped?.stop();
    this.face("open");
    this.wake();
    this.show();
    if (!this.total) this.key("tap").focus();
  }

  async strap() {
    const { Strapped } = await import("./strapped.js");
    this.strapped ??= new Strapped(this);
    this.stop();
    this.heard();
    this.face("strapped");
    this.key("begin").focus();
  }

  begin() {
    this.strapped.begin();
  }

  take() {
    this.strapped.take();
  }

  shut() {
    this.face("shut");
    this.strapped?.stop();
    this.stop();
    this.sleep();
  }

  tap() {
    this.set(this.count + 1);
    this.tone(...(this.count === this.whole ? TONES.last : TONES.turn));
    if (this.count > this.whole - this.spoken && this.count <= this.whole) this.say(this.count);
  }

  part(key) {
    const again = key.getAttribute("aria-pressed") === "true";
    this.set(this.count + (again ? 0 : Number(key.dataset.part)));
    if (!again) this.tone(...(key === this.own ? TONES.last : TONES.turn));
  }

  // The last that was added goes first: the part, then a turn.
  back() {
    this.set(this.total > this.count ? this.count : Math.max(0, this.count - 1));
  }

  ask() {
    if (!this.total) return;
    this.told("ask", this.dataset.ask.replace("{n}", this.figures(this.total)));
    this.calm(false);
    this.key("keep").focus();
  }

  keep() {
    this.calm(true);
    this.key("tap").focus();
  }

  clear() {
    this.set(0, this.total);
    this.key("undo").focus();
  }

  // Both are kept, so that this can be undone too.
  undo() {
    this.set(this.before, this.total);
  }

  use() {
    this.put(this.figures(this.total));
    this.set(0, 0);
  }

  put(text) {
    const field = document.getElementById(this.dataset.into);
    field.value = text;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    this.shut();
    field.focus();
  }

  // The screen stays on while it counts. A browser lets go of this when its tab is hidden.
  async wake() {
    if (this.awake || document.hidden || this.at === "shut") return;
    this.awake = navigator.wakeLock?.request("screen");
    try {
      (await this.awake)?.addEventListener("release", () => (this.awake = undefined));
    } catch {
      this.awake = undefined; // The battery is low, or the browser will not.
    }
  }

  sleep() {
    this.awake?.then((lock) => lock.release(), () => {});
    this.awake = undefined;
  }

  say(count) {
    if (!this.aloud || !window.speechSynthesis) return;
    const spoken = new SpeechSynthesisUtterance(String(count));
    spoken.lang = document.documentElement.lang;
    speechSynthesis.cancel(); // the number before, if it is still being said
    speechSynthesis.speak(spoken);
  }

  voice() {
    this.aloud = !this.aloud;
    this.store(VOICE, this.aloud ? "on" : "");
    this.heard();
  }

  tone(pitch, seconds, at) {
    if (!window.AudioContext) return;
    this.audio ??= new AudioContext();
    this.audio.resume();
    const start = at ?? this.audio.currentTime;
    const tone = this.audio.createOscillator();
    const loud = this.audio.createGain();
    tone.frequency.value = pitch;
    loud.gain.setValueAtTime(0.5, start);
    loud.gain.exponentialRampToValueAtTime(0.001, start + seconds);
    tone.connect(loud).connect(this.audio.destination);
    tone.start(start);
    tone.stop(start + seconds);
  }

  beep() {
    if (this.clock) return this.stop();
    this.audio ??= new AudioContext();
    this.audio.resume();
    this.next = this.audio.currentTime + 0.1;
    this.clock = setInterval(() => this.ahead(), (AHEAD * 1000) / 2);
    this.pace(true);
  }

  // The audio clock keeps time; the timer only tells it of the next beeps.
  ahead() {
    while (this.next < this.audio.currentTime + AHEAD) {
      this.tone(...TONES.pace, this.next);
      this.next += this.seconds;
    }
  }

  stop() {
    clearInterval(this.clock);
    this.clock = undefined;
    this.pace(false);
  }

  pace(on) {
    this.key("beep").textContent = on ? this.dataset.still : this.dataset.beep;
    this.key("beep").setAttribute("aria-pressed", String(on));
  }
}

customElements.define("turn-counter", TurnCounter);

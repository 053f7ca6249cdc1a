// Counts turns of the wheel by taps, and beeps at the pace of field speed. The count is kept
// on the device until it is used, so that a page loaded anew goes on where it was.
const AHEAD = 0.2; // seconds of beeps that are set in advance

class TurnCounter extends HTMLElement {
  connectedCallback() {
    if (this.count !== undefined) return;
    this.count = this.read();
    this.turns = Number(this.dataset.turns);
    this.seconds = Number(this.dataset.seconds || 0);
    this.number = this.make("output", "", "big");
    this.tap = this.make("button", this.dataset.tap, "tap", () => this.set(this.count + 1));
    this.tap.append(this.number, this.make("span", this.dataset.of, "unit"));
    const others = [
      this.make("button", this.dataset.back, "quiet", () => this.set(Math.max(0, this.count - 1))),
      this.make("button", this.dataset.clear, "quiet", () => this.set(0)),
      this.make("button", this.dataset.use, "quiet", () => this.use()),
    ];
    if (this.seconds && window.AudioContext) {
      this.beeper = this.make("button", this.dataset.beep, "quiet", () => this.beepOrStop());
      this.beeper.setAttribute("aria-pressed", "false");
      others.push(this.beeper);
    }
    this.panel = this.make("div", "", "counting");
    const rest = this.make("div", "", "others");
    rest.append(...others);
    this.panel.append(this.tap, rest);
    this.opener = this.make("button", this.dataset.start, "", () => this.open());
    this.querySelector(".row").append(this.opener);
    this.append(this.panel);
    this.panel.hidden = true;
    if (this.count > 0) this.open();
    this.show();
  }

  disconnectedCallback() {
    this.stop();
  }

  make(name, text, kind, press) {
    const made = document.createElement(name);
    if (text) made.textContent = text;
    if (kind) made.className = kind;
    if (press) {
      made.type = "button";
      made.addEventListener("click", press);
    }
    return made;
  }

  get place() {
    return `turns-${this.dataset.key}`;
  }

  read() {
    try {
      return Number(localStorage.getItem(this.place)) || 0;
    } catch {
      return 0; // Storage is shut: the count lives as long as the page.
    }
  }

  // With gloves on one does not look: the phone answers a tap, and its screen stays on.
  answer() {
    navigator.vibrate?.(30);
    if (this.awake || !navigator.wakeLock) return;
    this.awake = true;
    navigator.wakeLock.request("screen").then(
      (lock) => lock.addEventListener("release", () => (this.awake = false)),
      () => (this.awake = false),
    );
  }

  set(count) {
    this.count = count;
    this.answer();
    try {
      if (count) localStorage.setItem(this.place, String(count));
      else localStorage.removeItem(this.place);
    } catch {
      // As in read.
    }
    this.show();
    if (count && count === Math.floor(this.turns)) this.sound(880, 0.35);
  }

  show() {
    this.number.textContent = String(this.count);
    this.tap.classList.toggle("reached", this.count >= Math.floor(this.turns));
  }

  open() {
    this.panel.hidden = false;
    this.opener.hidden = true;
    if (!this.count) this.tap.focus();
  }

  use() {
    const field = document.getElementById(this.dataset.into);
    if (!field) return;
    field.value = String(this.count);
    this.stop();
    this.set(0);
    field.focus();
  }

  sound(pitch, seconds, at) {
    if (!this.audio) return;
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

  beepOrStop() {
    if (this.clock) this.stop();
    else this.begin();
  }

  begin() {
    this.audio ??= new AudioContext();
    this.audio.resume();
    this.next = this.audio.currentTime + 0.1;
    this.clock = setInterval(() => this.ahead(), (AHEAD * 1000) / 2);
    this.beeper.textContent = this.dataset.still;
    this.beeper.setAttribute("aria-pressed", "true");
  }

  // The audio clock keeps time; the timer only tells it of the next beeps.
  ahead() {
    while (this.next < this.audio.currentTime + AHEAD) {
      this.sound(620, 0.12, this.next);
      this.next += this.seconds;
    }
  }

  stop() {
    clearInterval(this.clock);
    this.clock = undefined;
    if (!this.beeper) return;
    this.beeper.textContent = this.dataset.beep;
    this.beeper.setAttribute("aria-pressed", "false");
  }
}

customElements.define("turn-counter", TurnCounter);

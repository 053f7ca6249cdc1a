// Counts turns by the motion of this phone, strapped to the wheel: asks for its sensors, sounds at each turn, and says
// what was counted or why it was not. What the sensors mean is told by motion.js; turns.js loads this when it is asked for.
import { Motion } from "./motion.js";

const DEGREE = Math.PI / 180;
const PATIENCE = 2000; // ms for a sensor to say anything
const OFTEN = 400; // ms between two looks at what was counted
const SHORT = 0.03; // share of the goal that a gyroscope may lag behind
const EARLY = 0.25; // turns before the goal that it sounds at the latest
const READY = [880, 0.4]; // Hz, s
const WRONG = [220, 0.8];
const READ = "strapped-read"; // that somebody has seen what to beware of

export class Strapped {
  constructor(counter) {
    this.counter = counter;
    this.panel = counter.querySelector('[data-shown="strapped"]');
    this.kept = counter.stored(this.place, "");
    this.cautions = this.panel.querySelector("details");
    this.cautions.open = !counter.stored(READ, "");
    this.hear = (event) => this.heard(event);
    this.show("");
  }

  get place() {
    return `${this.counter.place}-phone`;
  }

  // From a tap: some phones ask their owner only then.
  async begin() {
    this.stop();
    this.counter.store(READ, "yes");
    this.cautions.open = false;
    this.panel.scrollIntoView();
    this.counter.tone(...this.counter.tones.pace); // lets later ones sound
    const { DeviceMotionEvent } = window;
    if (!DeviceMotionEvent) return this.cannot("none");
    try {
      if ((await DeviceMotionEvent.requestPermission?.()) === "denied") return this.cannot("denied");
    } catch {
      return this.cannot("denied");
    }
    this.motion = new Motion();
    [this.turns, this.near, this.told] = [0, false, ""];
    window.addEventListener("devicemotion", this.hear);
    this.late = setTimeout(() => this.motion.samples.length || this.cannot("none"), PATIENCE);
    this.look = setInterval(() => this.judge(), OFTEN);
    this.counter.wake();
    this.show("wait");
  }

  stop() {
    window.removeEventListener("devicemotion", this.hear);
    clearTimeout(this.late);
    clearInterval(this.look);
  }

  cannot(why) {
    this.stop();
    this.show(why);
  }

  heard({ timeStamp, accelerationIncludingGravity: pull, rotationRate: rate }) {
    if (pull?.x == null || rate?.alpha == null) return;
    const rates = [rate.alpha, rate.beta, rate.gamma].map((each) => each * DEGREE);
    this.motion.add({ time: timeStamp / 1000, pull: [pull.x, pull.y, pull.z], rate: rates });
    this.sound();
  }

  // The gyroscope alone may be behind; the part still to go is told at rest.
  sound() {
    const { motion, counter } = this;
    const turns = Math.floor(motion.about);
    if (!motion.start || turns <= this.turns) {
      if (!this.near && motion.about >= counter.goal * (1 - SHORT) - EARLY) {
        this.near = true;
        counter.tone(...counter.tones.last);
      }
      return;
    }
    this.turns = turns;
    counter.tone(...counter.tones.turn);
    if (turns > counter.whole - counter.spoken && turns <= counter.whole) counter.say(turns);
  }

  judge() {
    const { motion } = this;
    if (motion.still || motion.over) return this.rested();
    if (!motion.start) this.show("wait");
    else this.show(this.near ? "near" : "turning", { n: this.counter.figures(motion.about, 1) });
  }

  rested() {
    const { motion } = this;
    if (motion.over) this.stop();
    if (!motion.end && !motion.over) return this.tell("ready", READY);
    const { count, problem } = motion.finish();
    if (!count) return problem === "rest" && !motion.over ? this.tell("ready", READY) : this.failed(problem);
    const error = Math.ceil(count.error * 100) / 100;
    this.kept = `${this.counter.figures(count.turns, 2)} ± ${this.counter.figures(error, 2)}`;
    this.counter.store(this.place, this.kept);
    const left = this.counter.goal - count.turns;
    if (this.told !== "short" && this.told !== "done") this.counter.say(this.counter.figures(count.turns, 2));
    this.tell(left > error ? "short" : "done", READY, { n: this.kept, left: this.counter.figures(left, 2) });
  }

  failed(problem) {
    this.tell(problem, WRONG);
    this.stop();
  }

  tell(what, tone, values = {}) {
    if (what !== this.told) this.counter.tone(...tone);
    this.show(what, values);
  }

  show(what, values = {}) {
    this.told = what;
    const text = (what && this.panel.dataset[what]) || "";
    this.counter.told("state", text.replace(/\{(\w+)\}/g, (_, name) => values[name]));
    const taken = this.counter.key("take");
    taken.hidden = !this.kept;
    taken.textContent = taken.dataset.text.replace("{n}", this.kept);
    this.counter.told("how", what === "done" || what === "short" ? this.panel.dataset.how : "");
  }

  take() {
    this.counter.put(this.kept);
    this.forget();
  }

  forget() {
    this.stop();
    this.kept = "";
    this.counter.store(this.place, "");
  }
}

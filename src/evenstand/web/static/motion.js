// Turns of a wheel from the motion of a phone that is strapped to it. Gravity's direction at rest, before and after,
// gives the part of a turn; the gyroscope between them only counts whole turns. The pull outward, which may be more than
// gravity, is found and left out, never used. docs/method.md has the formulas. No page is needed to run this.

/** @typedef {[number, number, number]} Vector */
/** @typedef {{time: number, pull: Vector, rate: Vector}} Sample [s], [m/s²] with gravity in it, [rad/s] */
/** @typedef {{from: number, to: number, pull: Vector, rate: Vector}} Rest from one sample to another, and their means */
/** @typedef {{turns: number, error: number}} Count turns, and the ± that they are good to [turn] */
/** @typedef {"axis" | "disagree" | "gap" | "rest"} Problem why there is no count */

const TURN = 2 * Math.PI;
const STILL = 1.5; // s that a rest lasts at least
const LATE = 0.3; // s at its end that are not used: the wheel may just begin to turn
const STILL_RATE = 0.03; // rad/s, root mean square about the mean
const MOST_BIAS = 0.07; // rad/s: 4°/s; more at rest is no bias but a wheel that creeps
const STILL_PULL = 0.35; // m/s², root mean square about the mean
const FEWEST = 8; // samples of a rest
const GAP = 0.5; // s without a sample, after which turns may be missing
const OFF_AXIS = 0.1; // share of the motion about other axes than the wheel's
const OFF_PLANE = 1; // m/s²: along the axis nothing changes from rest to rest
const LEVEL = 0.5; // sine of the most that the axis may slope: 30°
const LEAST = 0.1; // turns below which nothing was turned
const SAME = 0.75; // cosine of what gravity's direction may change in fewer: more than that many turns
const SCALE = 0.05; // share that a gyroscope may be off
const SLACK = 0.05; // turns that it may be off beside that
const RIVAL = 1.2; // a whole turn more or less fits that much worse, at least
const MARKS = 0.005; // turns: gravity's direction at two rests, each to 1°
const PULL_BIAS = 0.03; // of gravity: an accelerometer that is off by so much

/** Counts turns, sample by sample. */
export class Motion {
  constructor() {
    /** @type {Sample[]} */
    this.samples = [];
    this.oldest = 0; // of the samples that tell whether it is still
    /** @type {Rest | null} */
    this.start = null;
    /** @type {Rest | null} */
    this.end = null;
    /** @type {Count | null} */
    this.count = null;
    /** @type {Problem | null} */
    this.problem = null;
    this.still = false;
    this.over = false; // the phone was taken off: what was counted stays
    /** @type {Vector} */
    this.angle = [0, 0, 0]; // since the start, by the gyroscope [rad]
  }

  /** Turns so far by the gyroscope alone: for tones, not for a result. */
  get about() {
    return norm(this.angle) / TURN;
  }

  /** @param {Sample} sample */
  add(sample) {
    if (this.over) return;
    const last = this.samples.at(-1);
    if (last && sample.time <= last.time) return;
    this.samples.push(sample);
    if (last && this.start) {
      const step = (sample.time - last.time) / 2;
      for (const i of AXES) this.angle[i] += step * (last.rate[i] + sample.rate[i] - 2 * this.start.rate[i]);
    }
    const rest = this.rest();
    if (rest) this.came(rest);
    this.still = Boolean(rest);
  }

  /** What is to be used: the count at the last rest, or why there is none. */
  finish() {
    if (!this.over && !this.still && this.turnedOn()) return { problem: /** @type {Problem} */ ("rest") };
    if (this.count) return { count: this.count };
    return { problem: this.problem ?? /** @type {Problem} */ ("rest") };
  }

  /** Whether the last samples are of a wheel at rest. */
  rest() {
    const { samples } = this;
    const now = samples[samples.length - 1].time;
    while (this.oldest + 1 < samples.length && now - samples[this.oldest + 1].time >= STILL) this.oldest += 1;
    const some = samples.slice(this.oldest);
    if (some.length < FEWEST || now - some[0].time < STILL) return null;
    const pull = mean(some.map((each) => each.pull));
    const rate = mean(some.map((each) => each.rate));
    const close = scatter(some.map((each) => each.rate), rate) < STILL_RATE && scatter(some.map((each) => each.pull), pull) < STILL_PULL;
    if (!close || norm(rate) > MOST_BIAS) return null;
    const used = some.filter((each) => each.time <= now - LATE);
    const from = this.oldest;
    return { from, to: from + used.length - 1, pull: mean(used.map((each) => each.pull)), rate: mean(used.map((each) => each.rate)) };
  }

  /** @param {Rest} rest */
  came(rest) {
    if (!this.start || (this.still && !this.end)) return this.begin(rest);
    if (this.still && this.end && rest.from <= this.end.to) return;
    const found = settle(this.samples, this.start, rest);
    const taken = "problem" in found && found.problem === "axis";
    if (taken && this.count) this.over = true;
    else if (taken) {
      this.problem = this.about > LEAST ? "axis" : null;
      this.begin(rest);
    } else {
      this.end = rest;
      this.count = "count" in found ? found.count : null;
      this.problem = "problem" in found ? found.problem : null;
    }
  }

  /** @param {Rest} rest */
  begin(rest) {
    this.start = rest;
    this.end = null;
    this.angle = [0, 0, 0];
  }

  /** Whether the wheel was turned on after the last rest, with no rest behind it. */
  turnedOn() {
    const from = (this.end ?? this.start)?.to;
    if (from === undefined || !this.start) return false;
    const turned = turning(this.samples.slice(from), this.start.rate, this.start.rate);
    return turned.turns > LEAST && turned.off < 3 * OFF_AXIS;
  }
}

/**
 * Counts the turns between two rests.
 * @param {Sample[]} samples @param {Rest} before @param {Rest} after
 * @returns {{count: Count} | {problem: Problem}}
 */
export function settle(samples, before, after) {
  const some = samples.slice(before.to, after.from + 1);
  if (some.some((each, i) => i && each.time - some[i - 1].time > GAP)) return { problem: "gap" };
  const turned = turning(some, before.rate, after.rate);
  if (turned.turns < LEAST) return { problem: dot(before.pull, after.pull) < SAME * norm(before.pull) * norm(after.pull) ? "disagree" : "rest" };
  const axis = alike(some, turned.axis);
  const [along, then] = [dot(before.pull, axis), dot(after.pull, axis)];
  if (Math.abs(along - then) > OFF_PLANE || Math.abs(along) > LEVEL * norm(before.pull)) return { problem: "axis" };
  if (turned.off > OFF_AXIS) return { problem: "axis" };
  const plane = across(axis);
  const [first, last] = [flat(before.pull, plane), flat(after.pull, plane)];
  const part = (Math.atan2(first[1], first[0]) - Math.atan2(last[1], last[0])) / TURN;
  const turns = whole(some.map((each) => flat(each.pull, plane)), first, turned, part);
  if (turns === null) return { problem: "disagree" };
  return { count: { turns: Math.max(0, turns), error: MARKS + ((2 * PULL_BIAS) / TURN) * Math.abs(Math.sin(Math.PI * part)) } };
}

/**
 * What the gyroscope says: the axis is the mean direction of its rates. Its bias goes evenly from one rest's to the other's.
 * @param {Sample[]} samples @param {Vector} before @param {Vector} after
 */
function turning(samples, before, after) {
  const long = samples[samples.length - 1].time - samples[0].time || 1;
  const rates = samples.map(({ time, rate }) => {
    const late = (time - samples[0].time) / long;
    return vector((i) => rate[i] - before[i] - late * (after[i] - before[i]));
  });
  const steps = samples.map(({ time }, i) => (i ? time - samples[i - 1].time : 0));
  const sum = vector((axis) => steps.reduce((all, step, i) => all + (i && (step * (rates[i][axis] + rates[i - 1][axis])) / 2), 0));
  const size = norm(sum);
  const axis = vector((i) => sum[i] / (size || 1));
  const speeds = rates.map((rate) => dot(rate, axis));
  let angle = 0;
  const angles = speeds.map((speed, i) => (angle += i && (steps[i] * (speed + speeds[i - 1])) / 2));
  const energy = rates.reduce((all, rate, i) => all + steps[i] * dot(rate, rate), 0);
  const own = speeds.reduce((all, speed, i) => all + steps[i] * speed * speed, 0);
  return { turns: size / TURN, axis, speeds, angles, steps, off: 1 - own / (energy || 1) };
}

/**
 * The gyroscope's axis as the accelerometer has it. Browsers do not agree on which of their rates is about which axis;
 * along the wheel's own, the pull does not change.
 * @param {Sample[]} samples @param {Vector} axis
 */
function alike(samples, [x, y, z]) {
  /** @type {Vector[]} */
  const both = [[x, y, z], [y, z, x]];
  const [straight, turned] = both.map((axis) => {
    const along = samples.map(({ pull }) => dot(pull, axis));
    const middle = along.reduce((all, each) => all + each, 0) / along.length;
    return along.reduce((all, each) => all + (each - middle) ** 2, 0);
  });
  return both[turned < straight ? 1 : 0];
}

/**
 * Chooses how many whole turns go with a part: the pull is gravity going round by the angle, and a pull outward that goes
 * with the square of the speed and stays where the phone is. What fits best is it, if a turn more or less fits worse.
 * @param {number[][]} pulls @param {number[]} gravity @param {ReturnType<typeof turning>} turned @param {number} part
 */
function whole(pulls, gravity, turned, part) {
  const reach = Math.max(1.5, 3 * SCALE * turned.turns);
  const fits = [];
  for (let turns = part + Math.ceil(turned.turns - reach - part); turns <= turned.turns + reach; turns += 1) {
    fits.push({ turns, left: misfit(pulls, gravity, turned, turns) });
  }
  const [best, next] = fits.sort((one, other) => one.left - other.left);
  if (Math.abs(best.turns - turned.turns) > SLACK + SCALE * turned.turns) return null;
  return next.left < RIVAL * best.left ? null : best.turns;
}

/** @param {number[][]} pulls @param {number[]} gravity @param {ReturnType<typeof turning>} turned @param {number} turns */
function misfit(pulls, gravity, { angles, speeds, steps, turns: told }, turns) {
  let [all, fast, x, y] = [0, 1e-9, 0, 0];
  pulls.forEach((pull, i) => {
    const angle = (angles[i] * turns) / told;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const left = [pull[0] - gravity[0] * cos - gravity[1] * sin, pull[1] - gravity[1] * cos + gravity[0] * sin];
    const outward = speeds[i] ** 2;
    all += steps[i] * (left[0] ** 2 + left[1] ** 2);
    fast += steps[i] * outward ** 2;
    x += steps[i] * outward * left[0];
    y += steps[i] * outward * left[1];
  });
  return all - (x * x + y * y) / fast;
}

const AXES = [0, 1, 2];

/** @param {(axis: number) => number} of @returns {Vector} */
function vector(of) {
  return [of(0), of(1), of(2)];
}

/** @param {Vector} one @param {Vector} other */
function dot(one, other) {
  return one[0] * other[0] + one[1] * other[1] + one[2] * other[2];
}

/** @param {Vector} of */
function norm(of) {
  return Math.sqrt(dot(of, of));
}

/** @param {Vector[]} all @returns {Vector} */
function mean(all) {
  return vector((i) => all.reduce((sum, each) => sum + each[i], 0) / all.length);
}

/** @param {Vector[]} all @param {Vector} about */
function scatter(all, about) {
  return Math.sqrt(all.reduce((sum, each) => sum + norm(vector((i) => each[i] - about[i])) ** 2, 0) / all.length);
}

/** Two axes across one, so that a turn about it goes from the first to the second. @param {Vector} axis @returns {[Vector, Vector]} */
function across(axis) {
  const least = AXES.reduce((best, i) => (Math.abs(axis[i]) < Math.abs(axis[best]) ? i : best), 0);
  const first = vector((i) => (i === least ? 1 : 0) - axis[least] * axis[i]);
  const size = norm(first);
  const one = vector((i) => first[i] / size);
  return [one, [axis[1] * one[2] - axis[2] * one[1], axis[2] * one[0] - axis[0] * one[2], axis[0] * one[1] - axis[1] * one[0]]];
}

/** @param {Vector} of @param {[Vector, Vector]} plane */
function flat(of, [one, other]) {
  return [dot(of, one), dot(of, other)];
}

// Turns of a wheel from the motion of a phone that is strapped to it. Gravity's direction at rest, before and after,
// gives the part of a turn; the gyroscope between them only counts whole turns. The pull outward, which may be more than
// gravity, is found and left out, never used. docs/method.md has the formulas. No page is needed to run this.

/** @typedef {[number, number, number]} Vector */
/** @typedef {{time: number, pull: Vector, rate: Vector}} Sample [s], [m/s²] with gravity in it, [rad/s] */
/** @typedef {{from: number, to: number, pull: Vector, rate: Vector}} Rest from one sample to another, and their means */
/** @typedef {{turns: number, error: number, axis: Vector}} Count turns, the ± that they are good to [turn], and the gyroscope's axis */
/** @typedef {{count?: Count, problem?: Problem}} Found */
/** @typedef {"axis" | "disagree" | "gap" | "rest"} Problem why there is no count */

const TURN = 2 * Math.PI;
const STILL = 1.5; // s that a rest lasts at least
const LATE = 0.3; // s at its end that are not used: the wheel may just begin to turn
const STILL_RATE = 0.03; // rad/s, root mean square about the mean
const MOST_BIAS = 0.07; // rad/s: 4°/s; more at rest is no bias but a wheel that creeps
const STILL_PULL = 0.35; // m/s², root mean square about the mean
const FEWEST = 8; // samples of a rest
const GAP = 0.5; // s without a sample, after which turns may be missing
const OFF_AXIS = 0.15; // share of the motion about other axes than the wheel's
const NUDGE = 0.3; // rad about those, which a phone may shift in its straps
const ANY_AXIS = 0.4; // share of that from which on it was not turned but taken off
const KNOCK = 0.5; // s: what comes and goes within that is a knock, no turning
const OFF_PLANE = 2; // m/s²: along the axis nothing changes from rest to rest
const LEVEL = 0.5; // sine of the most that the axis may slope: 30°
const LEAST = 0.1; // turns below which nothing was turned
const SAME = 0.75; // cosine of what gravity's direction may change in fewer: more than that many turns
const SCALE = 0.05; // share that a gyroscope may be off
const SLACK = 0.05; // turns that it may be off beside that
const MISFIT = 0.16; // of gravity: more is no wheel that turns
const RIVAL = 1.5; // a whole turn more or less fits that much worse, at least
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

  /** What is to be used: the count at the last rest, or why there is none. @returns {Found} */
  finish() {
    if (this.count && (this.over || this.still || !this.turnedOn())) return { count: this.count };
    return { problem: this.problem ?? "rest" };
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
    if (!this.start || (!this.end && (this.still || rest.from <= this.start.to))) return this.begin(rest);
    if (this.end && rest.from <= this.end.to) return;
    const found = this.onWheel(rest) ? settle(this.samples, this.start, rest) : { problem: /** @type {Problem} */ ("axis") };
    if (found.problem !== "axis") {
      this.end = rest;
      this.count = found.count ?? null;
      this.problem = found.problem ?? null;
    } else if (!this.end && !this.turnedOn()) {
      this.begin(rest); // it was still being put on
    } else {
      this.over = true; // taken off: what was counted before stays
      if (this.turnedOn() || !this.count || this.count.turns < 1) [this.count, this.problem] = [null, "axis"];
    }
  }

  /** @param {Rest} rest */
  begin(rest) {
    this.start = rest;
    this.end = null;
    this.angle = [0, 0, 0];
  }

  /** What the phone did since the last rest, about the axis of what is counted. @param {Rest} [rest] */
  since(rest) {
    const last = /** @type {Rest} */ (this.end ?? this.start);
    const axis = this.count && this.count.turns > 1 ? this.count.axis : undefined;
    return turning(this.samples.slice(last.to, rest && rest.from + 1), last.rate, rest?.rate ?? last.rate, axis);
  }

  /** Whether it came to this rest with the wheel. @param {Rest} rest */
  onWheel(rest) {
    const { beside, way } = this.since(rest);
    return beside < Math.max(NUDGE, OFF_AXIS * way);
  }

  /** Whether the wheel was turned on after the last rest, with no rest behind it. */
  turnedOn() {
    if (!this.start) return false;
    const { turns, beside, way } = this.since();
    return turns > LEAST && beside < ANY_AXIS * way;
  }
}

/**
 * Counts the turns between two rests.
 * @param {Sample[]} samples @param {Rest} before @param {Rest} after
 * @returns {Found}
 */
export function settle(samples, before, after) {
  const some = samples.slice(before.to, after.from + 1);
  if (some.some((each, i) => i && each.time - some[i - 1].time > GAP)) return { problem: "gap" };
  const turned = turning(some, before.rate, after.rate);
  if (turned.turns < LEAST) return { problem: dot(before.pull, after.pull) < SAME * norm(before.pull) * norm(after.pull) ? "disagree" : "rest" };
  const axis = alike(some, turned.axis);
  const [along, then] = [dot(before.pull, axis), dot(after.pull, axis)];
  if (Math.abs(along - then) > OFF_PLANE || Math.abs(along) > LEVEL * norm(before.pull)) return { problem: "axis" };
  const plane = across(axis);
  const [first, last] = [flat(before.pull, plane), flat(after.pull, plane)];
  const part = (Math.atan2(first[1], first[0]) - Math.atan2(last[1], last[0])) / TURN;
  const turns = whole(some.map((each) => flat(each.pull, plane)), first, turned, part);
  if (turns === null) return { problem: "disagree" };
  return { count: { turns: Math.max(0, turns), axis: turned.axis, error: MARKS + ((2 * PULL_BIAS) / TURN) * Math.abs(Math.sin(Math.PI * part)) } };
}

/**
 * What the gyroscope says: the axis is the mean direction of its rates. Its bias goes evenly from one rest's to the other's.
 * @param {Sample[]} samples @param {Vector} before @param {Vector} after @param {Vector} [known] the axis, if it is
 */
function turning(samples, before, after, known) {
  const long = samples[samples.length - 1].time - samples[0].time || 1;
  const rates = samples.map(({ time, rate }) => {
    const late = (time - samples[0].time) / long;
    return vector((i) => rate[i] - before[i] - late * (after[i] - before[i]));
  });
  const steps = samples.map(({ time }, i) => (i ? time - samples[i - 1].time : 0));
  /** @type {Vector} */
  let sum = [0, 0, 0];
  const path = [sum]; // where it was each half second: a knock comes back
  let since = 0;
  steps.forEach((step, i) => {
    if (i) sum = vector((axis) => sum[axis] + (step * (rates[i][axis] + rates[i - 1][axis])) / 2);
    since += step;
    if (since < KNOCK && i < steps.length - 1) return;
    path.push(sum);
    since = 0;
  });
  const size = norm(sum) || 1;
  const axis = known ?? vector((i) => sum[i] / size);
  const speeds = rates.map((rate) => dot(rate, axis));
  let angle = 0;
  const angles = speeds.map((speed, i) => (angle += i && (steps[i] * (speed + speeds[i - 1])) / 2));
  const ways = path.slice(1).map((to, i) => vector((axis) => to[axis] - path[i][axis]));
  const way = ways.reduce((long, each) => long + norm(each), 0);
  const beside = ways.reduce((long, each) => long + Math.sqrt(Math.max(0, dot(each, each) - dot(each, axis) ** 2)), 0);
  return { turns: Math.abs(angle) / TURN, axis, speeds, angles, steps, way, beside };
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
  return both[turned < straight / 4 ? 1 : 0];
}

/**
 * Chooses how many whole turns go with a part: the pull is gravity going round by the angle, and a pull outward that goes
 * with the square of the speed and stays where the phone is. What fits best is it, if a turn more or less fits worse.
 * @param {number[][]} pulls @param {number[]} gravity @param {ReturnType<typeof turning>} turned @param {number} part
 */
function whole(pulls, gravity, turned, part) {
  const reach = Math.max(1.5, 3 * SCALE * turned.turns);
  const fits = [];
  const least = Math.max(turned.turns - reach, -LEAST); // the gyroscope knows which way
  for (let turns = part + Math.ceil(least - part); turns <= turned.turns + reach; turns += 1) {
    fits.push({ turns, left: misfit(pulls, gravity, turned, turns) });
  }
  const [best, next] = fits.sort((one, other) => one.left - other.left);
  if (Math.abs(best.turns - turned.turns) > SLACK + SCALE * turned.turns) return null;
  return best.left > MISFIT || next.left < RIVAL * best.left ? null : best.turns;
}

/**
 * How badly a number of turns fits: 0 is not at all off, 1 as much as gravity itself. A knock counts no more than that.
 * @param {number[][]} pulls @param {number[]} gravity @param {ReturnType<typeof turning>} turned @param {number} turns
 */
function misfit(pulls, gravity, { angles, speeds, steps, turns: told }, turns) {
  const left = pulls.map((pull, i) => {
    const angle = (angles[i] * turns) / told;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    return [pull[0] - gravity[0] * cos - gravity[1] * sin, pull[1] - gravity[1] * cos + gravity[0] * sin];
  });
  const sum = (/** @type {(i: number) => number} */ of) => steps.reduce((all, step, i) => all + step * of(i), 0);
  const fast = sum((i) => speeds[i] ** 4) || 1;
  const outward = [0, 1].map((side) => sum((i) => speeds[i] ** 2 * left[i][side]) / fast);
  const most = gravity[0] ** 2 + gravity[1] ** 2;
  const off = (/** @type {number} */ i) => (left[i][0] - outward[0] * speeds[i] ** 2) ** 2 + (left[i][1] - outward[1] * speeds[i] ** 2) ** 2;
  return sum((i) => Math.min(1, off(i) / most)) / sum(() => 1);
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

// Phones on wheels, made up: where the wheel truly was, and what the phone's sensors said of it. The wheel is turned
// millisecond by millisecond; what acts on the phone is worked out from that by mechanics, not by what counts turns.
import { Motion } from "./motion.js";

const G = 9.80665; // m/s²
const TURN = 2 * Math.PI;

/** Numbers that look like chance and are the same each time: mulberry32. */
function chance(seed) {
  let state = seed >>> 0;
  const one = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const between = (low, high) => low + (high - low) * one();
  const bell = () => Math.sqrt(-2 * Math.log(one() + 1e-12)) * Math.cos(TURN * one());
  const direction = () => {
    const all = [bell(), bell(), bell()];
    return scaled(all, 1 / Math.hypot(...all));
  };
  return { one, between, bell, direction, log: (low, high) => low * (high / low) ** one() };
}

const scaled = (all, by) => all.map((each) => each * by);
const added = (...all) => all[0].map((_, i) => all.reduce((sum, each) => sum + each[i], 0));
const cross = ([a, b, c], [d, e, f]) => [b * f - c * e, c * d - a * f, a * e - b * d];
const through = (frame, [x, y, z]) => added(scaled(frame[0], x), scaled(frame[1], y), scaled(frame[2], z));

/** How a person turns the wheel: its angle each millisecond, from rest to rest. [rad] */
function turned(luck, world) {
  const wanted = TURN * luck.log(...(world.turns ?? [0.4, 60]));
  const fast = TURN * luck.log(...(world.speed ?? [0.3, 1.2]));
  const uneven = luck.between(0, world.uneven ?? 0.2);
  const gain = luck.between(2, 8); // rad/s²
  const pauseAt = world.pause ? wanted * luck.between(0.2, 0.8) : Infinity;
  const backAt = world.back ? wanted * luck.between(0.2, 0.8) : Infinity;
  const angles = Array(Math.round(luck.between(2.5, 4) * 1000)).fill(0);
  const phase = luck.between(0, TURN);
  let [angle, speed] = [0, 0];
  const step = (goal) => {
    speed += Math.min(gain, Math.max(-gain, (goal - speed) * 50)) / 1000;
    angle += speed / 1000;
    angles.push(angle);
  };
  const upTo = (end) => {
    const way = Math.sign(end - angle);
    while ((end - angle) * way > 0.002) {
      const most = fast * (1 + uneven * Math.cos(angle + phase));
      step(way * Math.min(most, Math.sqrt(gain * Math.abs(end - angle)) + 0.02));
    }
    while (Math.abs(speed) > 1e-4) step(0);
  };
  const wait = (long) => angles.push(...Array(Math.round(long * 1000)).fill(angle));
  const stops = [[pauseAt, () => wait(luck.between(...world.pause))], [backAt, () => upTo(angle - TURN * luck.between(0.05, 0.4))]];
  for (const [at, what] of stops.sort((one, other) => one[0] - other[0])) {
    if (at === Infinity) continue;
    upTo(at);
    what();
  }
  upTo(wanted);
  if (world.swing) {
    const [size, middle] = [TURN * luck.between(0.01, 0.06), angle];
    for (let ms = 0; ms < 6000; ms += 1) angles.push(middle + size * Math.exp(-ms / 900) * (1 - Math.exp(-((ms / 200) ** 2))) * Math.sin((TURN * ms) / 1400));
    angle = angles.at(-1);
  }
  if (!world.noRest) wait(luck.between(2.5, 4));
  return angles;
}

/** How a phone is moved by hand, from or to its place on the wheel: each millisecond what acts on it there. */
function handled(luck, frame, down, way) {
  const waves = [0, 1, 2].map(() => [luck.between(0.3, 1.2), luck.between(0, TURN), scaled(luck.direction(), luck.between(1, 2.5))]);
  const long = Math.round(luck.between(2000, 4000));
  let now = frame;
  const moved = Array.from({ length: long }, (_, ms) => {
    const size = Math.sin((Math.PI * ms) / long);
    const rate = added(...waves.map(([hertz, from, about]) => scaled(about, size * Math.sin((TURN * hertz * ms) / 1000 + from))));
    now = now.map((axis) => added(axis, scaled(cross(axis, rate), way / 1000)));
    now = now.map((axis) => scaled(axis, 1 / Math.hypot(...axis)));
    return { rate, pull: through(now, down) };
  });
  const laid = Array(3000).fill({ rate: [0, 0, 0], pull: through(now, down) });
  return [...moved, ...laid];
}

/** What a phone says of it: its samples, and the turns that were truly made. */
export function trace(world, seed) {
  const luck = chance(seed);
  const angles = turned(luck, world);
  const tilt = (luck.between(-1, 1) * (world.tilt ?? 3) * Math.PI) / 180;
  const axis = luck.direction();
  const side = cross(axis, luck.direction());
  const one = scaled(side, 1 / Math.hypot(...side));
  const frame = [one, cross(axis, one), axis]; // the wheel's axes as the phone has them: it lies at any angle
  const radius = luck.between(0, world.radius ?? 0.5);
  const at = luck.between(0, TURN);
  const bias = scaled(luck.direction(), (luck.between(0, world.bias ?? 1) * Math.PI) / 180);
  const scale = [1, 1, 1].map(() => 1 + luck.between(-1, 1) * (world.scale ?? 0.03));
  const off = scaled(luck.direction(), luck.between(0, world.off ?? 0.02) * G);
  const every = 1000 / luck.log(...(world.hertz ?? [20, 100]));
  const knocks = Array.from({ length: world.knocks ? Math.ceil(luck.between(3, 15)) : 0 }, () => ({
    at: luck.between(3000, angles.length - 4000),
    long: luck.between(30, 80),
    about: scaled(luck.direction(), luck.between(1, 4)),
    pull: scaled(luck.direction(), luck.between(5, 40)),
  }));
  const held = (angle) => [G * Math.cos(tilt) * Math.sin(angle), G * Math.cos(tilt) * Math.cos(angle), G * Math.sin(tilt)];
  const before = world.handled ? handled(luck, frame, held(0), -1).slice(0, -3000).reverse() : [];
  const after = world.handled ? handled(luck, frame, held(angles.at(-1)), 1) : [];
  const onWheel = (i) => {
    const speed = (angles[i + 1] - angles[i - 1]) * 500;
    const gain = (angles[i + 1] - 2 * angles[i] + angles[i - 1]) * 1e6;
    const swung = [radius * (-speed * speed * Math.cos(at) - gain * Math.sin(at)), radius * (-speed * speed * Math.sin(at) + gain * Math.cos(at)), 0];
    const struck = knocks.filter((knock) => i > knock.at && i < knock.at + knock.long);
    const hit = (of) => struck.map((knock) => scaled(knock[of], Math.sin((TURN * (i - knock.at)) / knock.long)));
    return { rate: added(scaled(axis, speed), ...hit("about")), pull: added(through(frame, added(held(angles[i]), swung)), ...hit("pull")) };
  };
  const acting = (ms) => {
    const i = ms - before.length;
    return before[ms] ?? after[i - angles.length + 2] ?? onWheel(Math.max(1, i));
  };
  const long = before.length + angles.length - 2 + after.length;
  const samples = [];
  for (let now = 0; now < long - 1; now += every) {
    const ms = Math.round(now);
    if (luck.one() < (world.dropped ?? 0.1)) continue;
    if (world.gap && ms > long / 2 && ms < long / 2 + 2000) continue;
    const acts = acting(ms);
    const noise = () => [luck.bell(), luck.bell(), luck.bell()];
    let pull = added(acts.pull, off, scaled(noise(), 0.05));
    let rate = added(acts.rate.map((each, i) => each * scale[i]), bias, scaled(noise(), 0.003));
    if (world.rounded) {
      pull = pull.map((each) => Math.round(each * 10) / 10);
      rate = rate.map((each) => (Math.round((each * 1800) / Math.PI) * Math.PI) / 1800);
    }
    if (world.mirrored) pull = scaled(pull, -1);
    if (world.renamed) rate = [rate[2], rate[0], rate[1]];
    if (world.clipped) rate = rate.map((each) => Math.max(-world.clipped, Math.min(world.clipped, each)));
    if (world.stuck) rate = [0, 0, 0];
    samples.push({ time: (now + luck.between(-1, 1) * (world.jitter ?? 4)) / 1000, pull, rate });
  }
  return { samples, turns: (angles.at(-1) - angles[0]) / TURN };
}

/** What is counted in many such worlds; what would not be counted is told by its reason. */
export function tried(world, from, many) {
  return Array.from({ length: many }, (_, i) => {
    const { samples, turns } = trace(world, from + i);
    const motion = new Motion();
    for (const sample of samples) motion.add(sample);
    const { count, problem } = motion.finish();
    return { turns, problem: problem ?? null, found: count?.turns ?? null, error: count?.error ?? null };
  });
}

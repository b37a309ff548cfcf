/**
 * What comes next, chosen on the tablet: no step it names breaks a guard, a need or a wait under way. Used while there is no network;
 * with one, the order planned on the desk is followed and this only tells where it stands. No DOM, no network, no clock.
 */

import { copyOf, earliest, missingAtEnd, take } from "./course.js";
import { index, replay } from "./replay.js";
import { asSequence, runningAt, secondOf, standIn, stateAt } from "./state.js";

/**
 * @typedef {import("./replay.js").Problem} Problem
 * @typedef {import("./replay.js").Step} Step
 * @typedef {import("./replay.js").Broken} Broken
 * @typedef {import("./replay.js").Timed} Timed
 * @typedef {import("./course.js").Course} Course
 * @typedef {import("./state.js").SoFar} SoFar
 *
 * @typedef {{end: number, timed: Timed[], lost: string[], finish: import("./replay.js").Literal[]}} Forecast
 *   lost: steps that this order can no longer do; finish: what will not be as it should when the round ends
 *
 * @typedef {object} Allowed       what may be done at all from here on
 * @property {Set<string>} without steps ruled out (left, no gas, kit that cannot be used)
 * @property {number} dry          no step outside before this second
 */

/** The rules that are judged when somebody presses "done". */
const NOW = ["requires", "awaits", "sustains", "guard", "unknown"];
const LOOK_AHEAD = 25;
const IDLE_S = 20;

/**
 * What pressing "done" on a step would break that is not broken already, the harm in words; empty where it may be done.
 *
 * @param {Problem} problem
 * @param {SoFar} past
 * @param {string} step
 * @param {number} now  [ms]
 * @returns {Broken[]}
 */
export function verdict(problem, past, step, now) {
  const sequence = asSequence(problem, past);
  const at = secondOf(past, now) + 1;
  const stand = standIn("now.here", sequence.place);
  const whole = { ...sequence.problem, steps: [...sequence.problem.steps, stand] };
  const here = { step: stand.id, start: at + 1, end: at + 1 };
  const before = new Set(replay(whole, [...sequence.done, here]).map(key));
  const after = replay(whole, [...sequence.done, { step, start: at - 1, end: at }, here]);
  return after.filter((broken) => NOW.includes(broken.rule) && broken.at <= at && !before.has(key(broken)));
}

/** @param {Broken} broken */
const key = ({ rule, step, at, condition }) => `${rule} ${step} ${at} ${condition}`;

/**
 * The steps that are ruled out from here on, by what has changed and by what was left.
 *
 * @param {Problem} problem
 * @param {SoFar} past
 * @param {Record<string, string[]>} supplies  for each supply, the steps that need it
 * @returns {Allowed}
 */
export function allowed(problem, past, supplies) {
  const without = new Set(past.left.keys());
  const { without_kit: kits, without_supply: gone, indoors_for: indoors } = past.changed?.data ?? {};
  for (const step of problem.steps) if ((kits ?? []).includes(step.kit)) without.add(step.id);
  for (const supply of gone ?? []) for (const step of supplies[supply] ?? []) without.add(step);
  for (const { step } of problem.missing) without.add(step);
  return { without, dry: past.changed && indoors ? past.changed.at + indoors : 0 };
}

/**
 * The course from the present second.
 *
 * @param {Problem} problem
 * @param {SoFar} past
 * @param {number} now  [s]
 * @param {number} dry
 * @returns {Course}
 */
export function courseAt(problem, past, now, dry) {
  const { problem: whole, done, place } = asSequence(problem, past);
  const running = runningAt(whole, done, now);
  const coming = running.flatMap(({ wait, left }) => wait.sets.map(({ condition, value }) => ({ at: now + left, condition, value })));
  const held = running.flatMap(({ wait, left }) => wait.sustains.map((need) => ({ until: now + left, ...need })));
  const { steps, waits } = index(problem);
  /** @type {Map<string, number>} */
  const ends = new Map();
  for (const { step, end } of done) {
    for (const id of steps.get(step)?.starts ?? []) {
      const over = end + (waits.get(id)?.seconds ?? 0);
      ends.set(id, Math.min(over, ends.get(id) ?? over));
    }
  }
  const at = past.current === null ? place : (steps.get(past.current)?.place ?? place);
  coming.sort((a, b) => a.at - b.at);
  return { problem, now, place: at, state: stateAt(whole, done, now), coming, held, ends, dry };
}

/**
 * What is still to be done, in the order that holds now: the last one planned, then musts that are in no order.
 *
 * @param {Problem} problem
 * @param {SoFar} past
 * @param {string[]} planned
 * @param {Allowed} may
 * @returns {Step[]}
 */
export function remaining(problem, past, planned, may) {
  const { steps } = index(problem);
  const done = new Set(past.changes.flatMap((change) => (change.sort === "act" ? [change.step] : [])));
  const order = past.order ?? planned;
  const musts = problem.steps.filter(({ id, level }) => level === "must" && !order.includes(id)).map(({ id }) => id);
  const open = [...new Set([...order, ...musts])].filter((id) => steps.has(id) && !done.has(id) && !may.without.has(id));
  return open.map((id) => /** @type {Step} */ (steps.get(id)));
}

/**
 * How the round ends when the steps are done in this order, each as soon as it can be.
 *
 * @param {Course} from
 * @param {Step[]} order
 * @returns {Forecast}
 */
export function forecast(from, order) {
  const course = copyOf(from);
  /** @type {Timed[]} */
  const timed = [];
  const lost = [];
  for (const [at, step] of order.entries()) {
    const last = at === order.length - 1;
    const start = (last ? earliest(course, step, true) : null) ?? earliest(course, step);
    if (start === null) {
      lost.push(step.id);
      continue;
    }
    take(course, step, start);
    timed.push({ step: step.id, start, end: course.now });
  }
  return { end: course.now, timed, lost, finish: missingAtEnd(course) };
}

/**
 * The step to do next: the first of the order where it can be done about now and spoils nothing; else one of the next that loses least,
 * is over soonest, and begins soonest where that is all the same.
 *
 * @param {Course} from
 * @param {Step[]} order
 * @returns {{step: Step, start: number, forecast: Forecast} | null}  null: nothing can be done any more
 */
export function chooseNext(from, order) {
  const { steps } = index(from.problem);
  const planned = forecast(from, order);
  const first = order.length ? rated(from, order, 0, planned) : null;
  if (first && first.idle <= IDLE_S && !planned.lost.length && !planned.finish.length) return first;
  let best = first;
  for (let at = 1; at < Math.min(order.length, LOOK_AHEAD); at += 1) {
    const moved = [order[at], ...order.slice(0, at), ...order.slice(at + 1)];
    const other = rated(from, moved, 0, forecast(from, moved));
    if (other && (best === null || isBetter(other, best, steps))) best = other;
  }
  if (best) return best;
  // None of the next few can be done: any step at all that can.
  for (const step of order.slice(LOOK_AHEAD)) {
    const other = rated(from, [step, ...order.filter((each) => each !== step)], 0, null);
    if (other) return other;
  }
  return null;
}

/**
 * @param {Course} from
 * @param {Step[]} order
 * @param {number} at
 * @param {Forecast | null} known
 */
function rated(from, order, at, known) {
  const step = order[at];
  const start = earliest(from, step, order.length === 1) ?? earliest(from, step);
  if (start === null) return null;
  return { step, start, idle: start - from.now - from.problem.walks[from.place][step.place], forecast: known ?? forecast(from, order) };
}

/**
 * @param {NonNullable<ReturnType<typeof rated>>} one
 * @param {NonNullable<ReturnType<typeof rated>>} other
 * @param {Map<string, Step>} steps
 */
function isBetter(one, other, steps) {
  const loss = (/** @type {Forecast} */ { lost, finish }) => {
    const musts = lost.filter((id) => steps.get(id)?.level === "must").length;
    const worth = lost.reduce((sum, id) => sum + (steps.get(id)?.worth ?? 0), 0);
    return [finish.length, musts, worth];
  };
  const mine = [...loss(one.forecast), one.forecast.end, one.start];
  const theirs = [...loss(other.forecast), other.forecast.end, other.start];
  const differs = mine.findIndex((value, i) => value !== theirs[i]);
  return differs >= 0 && mine[differs] < theirs[differs];
}

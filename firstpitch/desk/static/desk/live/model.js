/**
 * All that the screen shows, reckoned from the kit, the events and the present second. No DOM.
 */

import { allowed, chooseNext, courseAt, forecast, remaining, verdict } from "../tablet/next.js";
import { earliest, take } from "../tablet/course.js";
import { index, said } from "../tablet/replay.js";
import { asSequence, runningAt, secondOf, soFar, stateAt } from "../tablet/state.js";

/**
 * @typedef {import("../tablet/types.js").Seen} Seen
 * @typedef {import("../tablet/replay.js").Problem} Problem
 * @typedef {import("../tablet/replay.js").Step} Step
 * @typedef {import("../tablet/replay.js").Broken} Broken
 * @typedef {import("../tablet/state.js").SoFar} SoFar
 *
 * @typedef {{holds: boolean, words: string, now: string, already: string, first: Step | null, running: string, condition: string, values: string[]}} Need
 * @typedef {{id: string, title: string, left: number, seconds: number, ends: number}} Running
 *
 * @typedef {object} Model
 * @property {any} kit
 * @property {Problem} problem
 * @property {SoFar} past
 * @property {number} second
 * @property {Step | null} current
 * @property {Need[]} needs           of the present step
 * @property {Running[]} running
 * @property {string[]} waitsFor      ids of waits that the present step awaits and that are not over
 * @property {Broken[]} stops         what pressing done would break now
 * @property {{step: Step, start: number} | null} next       after the present step
 * @property {Step | null} meanwhile                         what can be done now instead of the present step
 * @property {Step[]} rest            still to be done, in order, the present step first
 * @property {import("../tablet/next.js").Forecast} ahead
 * @property {number} late            seconds over the plan or the minutes left; below zero: early
 * @property {number} due             when the round should be over [s]
 * @property {import("../tablet/course.js").Course} from
 * @property {import("../tablet/next.js").Allowed} may
 */

/**
 * @param {any} kit
 * @param {Seen[]} events
 * @param {number} now  [ms]
 * @returns {Model}
 */
export function modelOf(kit, events, now) {
  const problem = /** @type {Problem} */ (kit.problem);
  const { steps, waits } = index(problem);
  const past = soFar(events);
  const second = secondOf(past, now);
  const { problem: whole, done } = asSequence(problem, past);
  const state = stateAt(whole, done, second);
  const may = allowed(problem, past, kit.supplies);
  const from = courseAt(problem, past, second, may.dry);
  const planned = kit.plan.steps.map((/** @type {{id: string}} */ { id }) => id);
  const open = remaining(problem, past, planned, may);
  const current = past.current === null ? null : (steps.get(past.current) ?? null);
  const rest = current ? [current, ...open.filter((step) => step !== current)] : open;
  const after = follow(from, current);
  const others = rest.filter((step) => step !== current);
  const chosen = chooseNext(after, others);
  const running = runningAt(whole, done, second).map(({ wait, left }) => ({ id: wait.id, title: wait.title, left, seconds: wait.seconds, ends: second + left }));
  const stops = current ? verdict(problem, past, current.id, now) : [];
  const changed = past.changed;
  const due = changed?.data.minutes_left ? changed.at + changed.data.minutes_left * 60 : kit.plan.total;
  const ahead = forecast(from, rest);
  const awaited = new Set(done.filter(({ step }) => steps.has(step)).flatMap(({ step, end }) => (steps.get(step)?.starts ?? []).filter((id) => end + (waits.get(id)?.seconds ?? 0) <= second)));
  return {
    kit,
    problem,
    past,
    second,
    current,
    needs: current ? needsOf(problem, current, state, done.map(({ step }) => step), running) : [],
    running,
    waitsFor: current ? current.awaits.filter((id) => !awaited.has(id)) : [],
    stops,
    next: chosen && { step: chosen.step, start: chosen.start },
    meanwhile: current && stops.length ? (chooseNext(from, others)?.step ?? null) : null,
    rest,
    ahead,
    late: ahead.end - due,
    due,
    from,
    may,
  };
}

/**
 * The course once the present step is over, as far as it can be.
 *
 * @param {import("../tablet/course.js").Course} from
 * @param {Step | null} current
 */
function follow(from, current) {
  const after = { ...from, state: { ...from.state }, ends: new Map(from.ends) };
  const start = current && earliest(after, current);
  if (current && start !== null) take(after, current, start);
  return after;
}

/**
 * What has to hold for a step, as it is now; what does not hold comes first.
 *
 * @param {Problem} problem
 * @param {Step} step
 * @param {Record<string, string>} state
 * @param {string[]} done
 * @param {Running[]} running
 * @returns {Need[]}
 */
export function needsOf(problem, step, state, done, running) {
  const { waits } = index(problem);
  const over = new Set(done);
  const found = step.requires.map(({ condition, values }) => {
    const value = state[condition];
    const makers = problem.steps.filter((maker) => makes(problem, maker, condition, values));
    const first = makers.find(({ id }) => !over.has(id)) ?? null;
    const label = problem.labels[condition] ?? condition;
    const plain = values.map((each) => said(each)).join(" or ");
    // A condition that is only so or not so needs no "yes" behind it.
    const isSo = plain === "yes";
    const words = isSo ? label : `${label}: ${plain}`;
    const now = isSo && value === "no" ? "not yet" : `now ${said(value)}`;
    const coming = running.find(({ id }) => waits.get(id)?.sets.some((effect) => effect.condition === condition && values.includes(effect.value)));
    return { holds: values.includes(value), words, now, already: `It is ${isSo ? "so" : plain} already`, first: coming ? null : first, running: coming?.id ?? "", condition, values };
  });
  const telling = found.filter(({ holds, condition }) => !holds || !isCommon(problem, condition));
  return telling.sort((a, b) => Number(a.holds) - Number(b.holds));
}

/**
 * Needs in rows: those that one step brings about stand together, in the order of the first of them.
 *
 * @param {Need[]} needs
 * @returns {Need[][]}
 */
export function byMaker(needs) {
  /** @type {Map<string, Need[]>} */
  const rows = new Map();
  for (const need of needs) {
    const key = need.first?.id ?? `alone ${need.condition}`;
    rows.set(key, [...(rows.get(key) ?? []), need]);
  }
  return [...rows.values()];
}

/**
 * Whether so many steps ask for a condition (a door unlocked, the round begun) that it says little while it holds.
 *
 * @param {Problem} problem
 * @param {string} condition
 */
function isCommon(problem, condition) {
  const asking = problem.steps.filter(({ requires }) => requires.some((need) => need.condition === condition));
  return asking.length > problem.steps.length / 4;
}

/**
 * @param {Problem} problem
 * @param {Step} step
 * @param {string} condition
 * @param {string[]} values
 */
function makes(problem, step, condition, values) {
  const { waits } = index(problem);
  const effects = [...step.sets, ...step.starts.flatMap((id) => waits.get(id)?.sets ?? [])];
  return effects.some((effect) => effect.condition === condition && values.includes(effect.value));
}

/**
 * A rest of the round that is over in time: what is worth least goes first, nothing that another step rests on, never a must.
 *
 * @param {Model} model
 * @param {number} due  [s]
 * @returns {{order: Step[], left: Step[], ends: number}}
 */
export function shortened({ from, rest }, due) {
  let order = rest;
  let now = forecast(from, order);
  const sound = now.lost.length + now.finish.length;
  /** @type {Step[]} */
  const left = [];
  const spare = rest.filter(({ level }) => level !== "must").sort((a, b) => a.worth / a.seconds - b.worth / b.seconds);
  for (const step of spare) {
    if (now.end <= due) break;
    const fewer = order.filter((each) => each !== step);
    const then = forecast(from, fewer);
    if (then.lost.length + then.finish.length > sound || then.end >= now.end) continue;
    order = fewer;
    now = then;
    left.push(step);
  }
  return { order, left, ends: now.end };
}

/**
 * An order of the rest, chosen step by step; what cannot be done any more stands at the end.
 *
 * @param {Model} model
 * @param {Step[]} rest
 * @returns {Step[]}
 */
export function chosenOrder({ from }, rest) {
  const course = { ...from, state: { ...from.state }, ends: new Map(from.ends) };
  const order = [];
  let left = rest;
  const stop = performance.now() + 800;
  while (left.length && performance.now() < stop) {
    const next = chooseNext(course, left);
    if (next === null) break;
    take(course, next.step, next.start);
    order.push(next.step);
    left = left.filter((step) => step !== next.step);
  }
  return [...order, ...left];
}

/**
 * The rest of a round, step by step, from where a handover stands: when a step can begin soonest without breaking a rule, now or by
 * what is under way. The same rules as rounds/course.py on the desk. No DOM, no network, no clock.
 */

import { index } from "./replay.js";

/**
 * @typedef {import("./replay.js").Problem} Problem
 * @typedef {import("./replay.js").Step} Step
 * @typedef {import("./replay.js").Timed} Timed
 *
 * @typedef {{lag: number, condition: string, value: string}} Change       acts `lag` seconds after the end of its step
 * @typedef {{from: number, to: number, condition: string, values: string[]}} Need   from and to: seconds after the end of its step
 * @typedef {{changes: Change[], needs: Need[], starts: {wait: string, seconds: number}[]}} Deed
 *
 * @typedef {object} Course
 * @property {Problem} problem
 * @property {number} now
 * @property {string} place
 * @property {Record<string, string>} state
 * @property {{at: number, condition: string, value: string}[]} coming   what waits will change, in order of time
 * @property {{until: number, condition: string, values: string[]}[]} held   what waits under way need
 * @property {Map<string, number>} ends     when each wait that was begun is over
 * @property {number} dry                   no step outside begins before this second
 */

/** @type {WeakMap<Problem, Map<string, Deed>>} */
const deeds = new WeakMap();

/**
 * What a step needs and does, with the waits it starts.
 *
 * @param {Problem} problem
 * @param {Step} step
 * @returns {Deed}
 */
function deedOf(problem, step) {
  let all = deeds.get(problem);
  if (!all) deeds.set(problem, (all = new Map()));
  let deed = all.get(step.id);
  if (deed) return deed;
  const { waits } = index(problem);
  const started = step.starts.map((id) => /** @type {import("./replay.js").Wait} */ (waits.get(id)));
  deed = {
    changes: [
      ...step.sets.map(({ condition, value }) => ({ lag: 0, condition, value })),
      ...started.flatMap(({ seconds, sets }) => sets.map(({ condition, value }) => ({ lag: seconds, condition, value }))),
    ],
    needs: [
      ...step.requires.map((need) => ({ from: -step.seconds, to: 0, ...need })),
      ...started.flatMap(({ seconds, sustains }) => sustains.map((need) => ({ from: 0, to: seconds, ...need }))),
    ],
    starts: started.map(({ id, seconds }) => ({ wait: id, seconds })),
  };
  all.set(step.id, deed);
  return deed;
}

/**
 * @param {Course} course
 * @returns {Course} one that may be taken further without changing the first
 */
export function copyOf(course) {
  return { ...course, state: { ...course.state }, ends: new Map(course.ends) };
}

/**
 * The soonest second at which a step can begin, or null. `last`: the round ends with it, so what runs has to be over by then.
 *
 * @param {Course} course
 * @param {Step} step
 * @param {boolean} [last]
 * @returns {number | null}
 */
export function earliest(course, step, last = false) {
  const { problem } = course;
  const deed = deedOf(problem, step);
  let base = course.now + problem.walks[course.place][step.place];
  if (!problem.places[step.place].inside) base = Math.max(base, course.dry);
  for (const wait of step.awaits) {
    const over = course.ends.get(wait);
    if (over === undefined) return null;
    base = Math.max(base, over);
  }
  if (last) {
    if (deed.starts.length) return null;
    for (const over of course.ends.values()) base = Math.max(base, over - step.seconds);
  }
  for (const moment of moments(course, step, deed, base)) if (fits(course, step, deed, moment)) return moment;
  return null;
}

/**
 * The seconds from `base` on at which what stands in the way may have gone.
 *
 * @param {Course} course
 * @param {Step} step
 * @param {Deed} deed
 * @param {number} base
 */
function moments(course, step, deed, base) {
  const lags = new Set([0, ...deed.changes.map(({ lag }) => lag)]);
  const found = new Set([base]);
  for (const { at } of course.coming) {
    found.add(at);
    for (const lag of lags) for (const late of [0, 1]) found.add(at - step.seconds - lag + late);
  }
  for (const { until } of course.held) for (const lag of lags) found.add(until - step.seconds - lag);
  return [...found].filter((moment) => moment >= base).sort((a, b) => a - b);
}

/**
 * Whether no rule is broken when the step begins at `start`, as far as what is under way tells.
 *
 * @param {Course} course
 * @param {Step} step
 * @param {Deed} deed
 * @param {number} start
 */
function fits(course, step, deed, start) {
  const end = start + step.seconds;
  const own = deed.changes.map(({ lag, condition, value }) => ({ at: end + lag, condition, value }));
  for (const [number, mine] of own.entries()) {
    if (course.coming.some(({ at, condition }) => at === mine.at && condition === mine.condition)) return false;
    if (own.some((other, i) => i < number && other.at === mine.at && other.condition === mine.condition)) return false;
    for (const { until, condition, values } of course.held) {
      if (mine.at < until && condition === mine.condition && !values.includes(mine.value)) return false;
    }
  }
  const changes = [...course.coming, ...own].sort((a, b) => a.at - b.at);
  return deed.needs.every((need) => holds(course, need, end, changes)) && guarded(course, end, changes);
}

/**
 * @param {Course} course
 * @param {Need} need
 * @param {number} end
 * @param {Course["coming"]} changes
 */
function holds(course, need, end, changes) {
  const opens = end + need.from;
  const over = end + need.to;
  let value = course.state[need.condition];
  for (const change of changes) {
    if (change.condition !== need.condition) continue;
    if (change.at <= opens) value = change.value;
    else if (change.at < over && !need.values.includes(change.value)) return false;
  }
  return need.values.includes(value);
}

/**
 * Whether no guard is broken up to the end of the step; what comes later is for the next step to see.
 *
 * @param {Course} course
 * @param {number} end
 * @param {Course["coming"]} changes
 */
function guarded(course, end, changes) {
  const near = changes.filter(({ at }) => at <= end);
  const touched = new Set(near.map(({ condition }) => condition));
  const guards = course.problem.guards.filter(({ never }) => never.some(({ condition }) => touched.has(condition)));
  if (!guards.length) return true;
  /** @type {Record<string, string>} */
  const state = { ...course.state };
  for (const [number, { at, condition, value }] of near.entries()) {
    state[condition] = value;
    if (number + 1 < near.length && near[number + 1].at === at) continue;
    if (guards.some(({ never }) => never.every((n) => n.values.includes(state[n.condition])))) return false;
  }
  return true;
}

/**
 * Do a step from `start`, as `earliest` gave it.
 *
 * @param {Course} course
 * @param {Step} step
 * @param {number} start
 */
export function take(course, step, start) {
  const deed = deedOf(course.problem, step);
  const end = start + step.seconds;
  const own = deed.changes.map(({ lag, condition, value }) => ({ at: end + lag, condition, value }));
  const changes = [...course.coming, ...own].sort((a, b) => a.at - b.at);
  for (const { at, condition, value } of changes) if (at <= end) course.state[condition] = value;
  course.coming = changes.filter(({ at }) => at > end);
  course.held = course.held.filter(({ until }) => until > end);
  for (const { from, to, condition, values } of deed.needs) if (from >= 0) course.held.push({ until: end + to, condition, values });
  for (const { wait, seconds } of deed.starts) course.ends.set(wait, end + seconds);
  course.now = end;
  course.place = step.place;
}

/**
 * The finish conditions that will not hold once everything that is coming has come.
 *
 * @param {Course} course
 */
export function missingAtEnd({ problem, state, coming }) {
  const then = { ...state };
  for (const { condition, value } of coming) then[condition] = value;
  return problem.finish.filter(({ condition, values }) => !values.includes(then[condition]));
}

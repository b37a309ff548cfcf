/**
 * What has happened in a handover so far, read from its events as docs/live-round.md says; the same as so_far.py reads on the desk.
 * No DOM, no network, no clock of its own: the present is always given.
 */

import { inOrder, takenBack } from "./order.js";
import { index, runOf, valueAt } from "./replay.js";

/**
 * @typedef {import("./types.js").Seen} Seen
 * @typedef {import("./replay.js").Problem} Problem
 * @typedef {import("./replay.js").Step} Step
 * @typedef {import("./replay.js").Timed} Timed
 * @typedef {import("./replay.js").Wait} Wait
 *
 * @typedef {{sort: "act", step: string, begun: number, at: number, tried: boolean, event: string}} Act   seconds
 * @typedef {{sort: "found", condition: string, value: string, at: number, reason: string, event: string}} Found
 *
 * @typedef {object} SoFar
 * @property {number | null} origin      second 0 [ms of the clock]; null before anything was begun
 * @property {(Act | Found)[]} changes   in order
 * @property {Map<string, {reason: string, event: string}>} left
 * @property {string[] | null} order     of the last replanning
 * @property {{at: number, data: Record<string, any>} | null} changed
 * @property {string | null} current
 * @property {number} last               when the last change was [s]
 * @property {Seen[]} counting           the events that count, in order
 */

/**
 * @param {Seen[]} events  of one handover, in whatever order
 * @returns {SoFar}
 */
export function soFar(events) {
  const ordered = inOrder(events);
  const gone = takenBack(ordered);
  const counting = ordered.filter((event) => !gone.has(event.id));
  const first = counting.find(({ what }) => what === "step.begun" || what === "step.done");
  const origin = first ? Date.parse(first.at) : null;
  /** @type {SoFar} */
  const past = { origin, changes: [], left: new Map(), order: null, changed: null, current: null, last: 0, counting };
  /** @type {Map<string, number>} */
  const begun = new Map();
  const tried = new Set();
  let lastAct = 0;
  for (const event of counting) {
    const { data } = event;
    const step = String(data.step ?? "");
    const second = origin === null ? 0 : Math.floor((Date.parse(event.at) - origin) / 1000);
    if (event.what === "step.begun") {
      begun.delete(step);
      begun.set(step, Math.max(0, second));
    } else if (event.what === "step.done") {
      if (data.tried) tried.add(step);
      if (past.changes.some((change) => change.sort === "act" && change.step === step)) continue;
      const at = Math.max(second, lastAct + 1, past.last);
      past.changes.push({ sort: "act", step, begun: Math.min(begun.get(step) ?? lastAct, at - 1), at, tried: false, event: event.id });
      lastAct = at;
      past.last = at;
    } else if (event.what === "step.left") {
      if (!past.left.has(step)) past.left.set(step, { reason: String(data.reason ?? ""), event: event.id });
    } else if (event.what === "state.set") {
      past.last = Math.max(second, past.last);
      const { condition, value, reason = "" } = data;
      past.changes.push({ sort: "found", condition, value, at: past.last, reason, event: event.id });
    } else if (event.what === "round.changed") {
      past.changed = { at: second, data };
    } else if (event.what === "round.replanned") {
      past.order = (data.order ?? []).map(String);
    }
  }
  const done = new Set();
  for (const change of past.changes) {
    if (change.sort !== "act") continue;
    change.tried = tried.has(change.step);
    done.add(change.step);
    past.left.delete(change.step);
  }
  past.current = [...begun.keys()].reverse().find((step) => !done.has(step) && !past.left.has(step)) ?? null;
  return past;
}

/**
 * A time of the clock as a second of the round, never before the last change.
 *
 * @param {SoFar} past
 * @param {number} now  [ms]
 */
export function secondOf(past, now) {
  return past.origin === null ? 0 : Math.max(Math.floor((now - past.origin) / 1000), past.last);
}

/**
 * The problem and the sequence of what was done, for the checker: each step judged by the second before it was over; what was found
 * is a step of its own that takes no time.
 *
 * @param {Problem} problem
 * @param {SoFar} past
 * @returns {{problem: Problem, done: Timed[], place: string}}  place: where the presenter was last
 */
export function asSequence(problem, past) {
  const { steps } = index(problem);
  /** @type {Step[]} */
  const more = [];
  /** @type {Timed[]} */
  const done = [];
  let place = problem.start_place;
  for (const [number, change] of past.changes.entries()) {
    if (change.sort === "found") {
      more.push(standIn(`found.${number}`, place, [{ condition: change.condition, value: change.value }]));
      done.push({ step: `found.${number}`, start: change.at, end: change.at });
    } else {
      const step = steps.get(change.step);
      if (!step) continue;
      place = step.place;
      done.push({ step: change.step, start: change.at - 1, end: change.at });
    }
  }
  return { problem: more.length ? { ...problem, steps: [...problem.steps, ...more] } : problem, done, place };
}

/**
 * A step that only says where somebody stands, or what was found there.
 *
 * @param {string} id
 * @param {string} place
 * @param {Step["sets"]} [sets]
 * @returns {Step}
 */
export function standIn(id, place, sets = []) {
  const none = { kit: "now", kit_name: "You", topic: "papers", title: "As it was found", seconds: 0, worth: 0, say: "", owner_try: 0 };
  return { ...none, id, place, level: "may", requires: [], sets, starts: [], awaits: [], points: [], cautions: [] };
}

/**
 * The value of every condition at a second.
 *
 * @param {Problem} problem
 * @param {Timed[]} done
 * @param {number} now
 * @returns {Record<string, string>}
 */
export function stateAt(problem, done, now) {
  const run = runOf(problem, done);
  const state = { ...problem.start };
  for (const condition of run.changes.keys()) {
    const value = valueAt(run, condition, now);
    if (value !== undefined) state[condition] = value;
  }
  return state;
}

/**
 * The waits under way at a second, each with its seconds left.
 *
 * @param {Problem} problem
 * @param {Timed[]} done
 * @param {number} now
 * @returns {{wait: Wait, left: number}[]}
 */
export function runningAt(problem, done, now) {
  return runOf(problem, done)
    .waits.map(({ wait, end }) => ({ wait, left: end - now }))
    .filter(({ left }) => left > 0);
}

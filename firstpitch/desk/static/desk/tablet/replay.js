/**
 * The checker of the tablet: judges a timed sequence of steps by docs/rounds.md, as rounds/replay.py does on the desk. A test holds
 * the two to the same answers on many random rounds. No DOM, no network, no clock.
 *
 * @typedef {{condition: string, values: string[]}} Literal
 * @typedef {{condition: string, value: string}} Effect
 * @typedef {object} Step
 * @property {string} id
 * @property {string} kit
 * @property {string} kit_name
 * @property {string} topic
 * @property {string} title
 * @property {string} place
 * @property {number} seconds
 * @property {"must"|"should"|"may"} level
 * @property {number} worth
 * @property {Literal[]} requires
 * @property {Effect[]} sets
 * @property {string[]} starts
 * @property {string[]} awaits
 * @property {string} say
 * @property {string[]} points
 * @property {number} owner_try
 * @property {{level: string, sign: string, text: string}[]} cautions
 *
 * @typedef {{id: string, title: string, seconds: number, sustains: Literal[], sets: Effect[]}} Wait
 * @typedef {{id: string, never: Literal[], harm: string}} Guard
 * @typedef {object} Problem
 * @property {Record<string, string>} start
 * @property {Literal[]} finish
 * @property {Record<string, {x: number, y: number, inside: boolean, words: string}>} places
 * @property {Record<string, Record<string, number>>} walks
 * @property {string} start_place
 * @property {Step[]} steps
 * @property {Wait[]} waits
 * @property {Guard[]} guards
 * @property {{step: string, what: string}[]} missing
 * @property {number | null} minutes
 * @property {Record<string, string>} labels
 *
 * @typedef {{step: string, start: number, end: number}} Timed   seconds
 * @typedef {{rule: string, step: string, at: number, condition: string, text: string, harm: string}} Broken
 *
 * @typedef {object} Run
 * @property {Problem} problem
 * @property {{step: Step, timed: Timed}[]} steps
 * @property {{wait: Wait, starter: string, start: number, end: number}[]} waits
 * @property {Map<string, {at: number, value: string}[]>} changes   by condition, in order of time
 * @property {number} end
 */

/** @type {WeakMap<Problem, {steps: Map<string, Step>, waits: Map<string, Wait>, lacking: Map<string, string>}>} */
const indexes = new WeakMap();

/** @param {Problem} problem */
export function index(problem) {
  let found = indexes.get(problem);
  if (!found) {
    found = {
      steps: new Map(problem.steps.map((step) => [step.id, step])),
      waits: new Map(problem.waits.map((wait) => [wait.id, wait])),
      lacking: new Map(problem.missing.map(({ step, what }) => [step, what])),
    };
    indexes.set(problem, found);
  }
  return found;
}

/**
 * Every rule that a part of a round breaks, in order of time; a whole round's last three rules are not judged.
 *
 * @param {Problem} problem
 * @param {Timed[]} sequence
 * @returns {Broken[]}
 */
export function replay(problem, sequence) {
  const run = runOf(problem, sequence);
  const found = [
    ...known(run, sequence),
    ...lengths(run),
    ...presenter(run),
    ...requires(run),
    ...awaits(run),
    ...sustains(run),
    ...conflicts(run),
    ...guards(run),
  ];
  return found.sort((a, b) => a.at - b.at);
}

/**
 * @param {Problem} problem
 * @param {Timed[]} sequence
 * @returns {Run}
 */
export function runOf(problem, sequence) {
  const by = index(problem);
  /** @type {Run["steps"]} */
  const steps = [];
  for (const timed of sequence) {
    const step = by.steps.get(timed.step);
    if (step) steps.push({ step, timed });
  }
  const waits = steps.flatMap(({ step, timed }) =>
    step.starts.map((id) => {
      const wait = /** @type {Wait} */ (by.waits.get(id));
      return { wait, starter: step.id, start: timed.end, end: timed.end + wait.seconds };
    }),
  );
  /** @type {Run["changes"]} */
  const changes = new Map();
  const add = (/** @type {Effect} */ { condition, value }, /** @type {number} */ at) => {
    const seen = changes.get(condition);
    if (seen) seen.push({ at, value });
    else changes.set(condition, [{ at, value }]);
  };
  for (const { step, timed } of steps) for (const effect of step.sets) add(effect, timed.end);
  for (const { wait, end } of waits) for (const effect of wait.sets) add(effect, end);
  for (const seen of changes.values()) seen.sort((a, b) => a.at - b.at);
  const end = steps.reduce((last, { timed }) => Math.max(last, timed.end), 0);
  return { problem, steps, waits, changes, end };
}

/**
 * The value of a condition at an instant, after everything that acts at that instant.
 *
 * @param {Run} run
 * @param {string} condition
 * @param {number} at
 * @returns {string | undefined}
 */
export function valueAt(run, condition, at) {
  const seen = run.changes.get(condition);
  if (seen) for (let i = seen.length - 1; i >= 0; i -= 1) if (seen[i].at <= at) return seen[i].value;
  return run.problem.start[condition];
}

/**
 * The first instant from start to before end at which `literal` does not hold, with the value then.
 *
 * @param {Run} run
 * @param {Literal} literal
 * @param {number} start
 * @param {number} end
 * @returns {{at: number, value: string | undefined} | null}
 */
function breach(run, literal, start, end) {
  const value = valueAt(run, literal.condition, start);
  if (value === undefined || !literal.values.includes(value)) return { at: start, value };
  for (const change of run.changes.get(literal.condition) ?? []) {
    if (start < change.at && change.at < end && !literal.values.includes(change.value)) return change;
  }
  return null;
}

/** @param {string} value */
export const plain = (value) => value.replaceAll("-", " ");

/**
 * A condition with the values it should have, in words.
 *
 * @param {Problem} problem
 * @param {Literal} literal
 */
export function literalWords(problem, literal) {
  return `${problem.labels[literal.condition] ?? literal.condition}: ${literal.values.map(plain).sort().join(" or ")}`;
}

/** @param {string | undefined} value */
export const said = (value) => (value === undefined ? "not on this van" : plain(value));

/**
 * @param {string} rule
 * @param {string} step
 * @param {number} at
 * @param {string} condition
 * @param {string} text
 * @param {string} [harm]
 * @returns {Broken}
 */
const broken = (rule, step, at, condition, text, harm = "") => ({ rule, step, at, condition, text, harm });

/**
 * @param {Run} run
 * @param {Timed[]} sequence
 */
function* known(run, sequence) {
  const { steps } = index(run.problem);
  for (const { step, start } of sequence) {
    if (!steps.has(step)) yield broken("unknown", step, start, "", `There is no step “${step}” on this van.`);
  }
  /** @type {Map<string, number[]>} */
  const starts = new Map();
  for (const { step, start } of sequence) starts.set(step, [...(starts.get(step) ?? []), start]);
  for (const [step, all] of starts) {
    const text = `“${step}” is done ${all.length} times; each step is done once.`;
    if (all.length > 1) yield broken("twice", step, Math.max(...all), "", text);
  }
}

/** @param {Run} run */
function* lengths({ steps }) {
  for (const { step, timed } of steps) {
    const given = timed.end - timed.start;
    const text = `“${step.title}” takes ${step.seconds} s but is given ${given} s.`;
    if (given !== step.seconds) yield broken("length", step.id, timed.start, "", text);
  }
}

/** @param {Run} run */
function* presenter({ problem, steps }) {
  let place = problem.start_place;
  let free = 0;
  let before = "";
  for (const { step, timed } of steps) {
    const walk = problem.walks[place][step.place];
    if (timed.start < free) {
      const earlier = before ? `“${before}” has ended` : "the round begins";
      yield broken("overlap", step.id, timed.start, "", `“${step.title}” starts before ${earlier}.`);
    } else if (timed.start < free + walk) {
      const since = before ? `“${before}” ends` : "the round begins";
      const text = `“${step.title}” starts ${timed.start - free} s after ${since}, but the walk there takes ${walk} s.`;
      yield broken("walking", step.id, timed.start, "", text);
    }
    place = step.place;
    free = timed.end;
    before = step.title;
  }
}

/** @param {Run} run */
export function* requires(run) {
  const { lacking } = index(run.problem);
  for (const { step, timed } of run.steps) {
    const lack = lacking.get(step.id);
    if (lack !== undefined) yield broken("requires", step.id, timed.start, "", lack);
    for (const literal of step.requires) {
      const found = breach(run, literal, timed.start, timed.end);
      if (!found) continue;
      const text = `“${step.title}” needs ${literalWords(run.problem, literal)}, but it is ${said(found.value)} then.`;
      yield broken("requires", step.id, found.at, literal.condition, text, harmOf(run.problem, step, literal, found.value));
    }
  }
}

/**
 * The harm a guard names for doing this step while the condition is wrong, if one does.
 *
 * @param {Problem} problem
 * @param {Step} step
 * @param {Literal} literal
 * @param {string | undefined} value
 */
function harmOf(problem, step, literal, value) {
  for (const guard of problem.guards) {
    const about = guard.never.some((n) => n.condition === literal.condition && value !== undefined && n.values.includes(value));
    const does = guard.never.some((n) => step.sets.some((e) => e.condition === n.condition && n.values.includes(e.value)));
    if (about && does) return guard.harm;
  }
  return "";
}

/** @param {Run} run */
export function* awaits(run) {
  /** @type {Map<string, number>} */
  const over = new Map();
  for (const { wait, end } of run.waits) over.set(wait.id, Math.min(end, over.get(wait.id) ?? end));
  const { waits } = index(run.problem);
  for (const { step, timed } of run.steps) {
    for (const id of step.awaits) {
      const text = `“${step.title}” comes before “${waits.get(id)?.title ?? id}” is over.`;
      if ((over.get(id) ?? timed.start + 1) > timed.start) yield broken("awaits", step.id, timed.start, id, text);
    }
  }
}

/** @param {Run} run */
export function* sustains(run) {
  for (const { wait, starter, start, end } of run.waits) {
    for (const literal of wait.sustains) {
      const found = breach(run, literal, start, run.end > start ? Math.min(end, run.end) : start);
      if (!found) continue;
      const text = `“${wait.title}” needs ${literalWords(run.problem, literal)} all the while, but it is ${said(found.value)} then.`;
      yield broken("sustains", starter, found.at, literal.condition, text);
    }
  }
}

/** @param {Run} run */
function* conflicts(run) {
  for (const [condition, seen] of run.changes) {
    const times = new Map();
    for (const { at } of seen) times.set(at, (times.get(at) ?? 0) + 1);
    for (const [at, count] of times) {
      const text = `Two things change “${run.problem.labels[condition] ?? condition}” at the same instant.`;
      if (count > 1) yield broken("conflict", "", at, condition, text);
    }
  }
}

/** @param {Run} run */
export function* guards(run) {
  const times = new Set([0]);
  for (const seen of run.changes.values()) for (const { at } of seen) if (at <= run.end) times.add(at);
  const moments = [...times].sort((a, b) => a - b);
  const ended = new Map(run.steps.map(({ step, timed }) => [timed.end, step.id]));
  for (const guard of run.problem.guards) {
    let before = false;
    for (const moment of moments) {
      const now = guard.never.every((n) => n.values.includes(/** @type {string} */ (valueAt(run, n.condition, moment))));
      if (now && !before) {
        const what = guard.never.map((n) => literalWords(run.problem, n)).join(" and ");
        yield broken("guard", ended.get(moment) ?? "", moment, guard.id, `At the same time ${what}. ${guard.harm}`, guard.harm);
      }
      before = now;
    }
  }
}

/** The three bands of the screen: the step now; the next and where to walk; the clock and the waits. They only draw. */

import { cautionLine, clock, stated, stateShape, timeOfDay } from "./shapes.js";
import { byMaker } from "./model.js";
import { make } from "../tablet/make.js";

/**
 * @typedef {import("./model.js").Model} Model
 * @typedef {import("../tablet/replay.js").Step} Step
 */

const MET_SHOWN = 2;
const EARLY_S = 60;

/**
 * The words of the step now.
 *
 * @param {Model} model
 * @param {(step: string) => void} go
 * @returns {{head: HTMLElement[], say: HTMLElement[], hold: HTMLElement[]}}
 */
export function nowBand(model, go) {
  const step = model.current;
  if (!step) return model.past.origin === null ? beforeBegin(model) : atEnd(model);
  const number = model.kit.kits.find((/** @type {any} */ kit) => kit.id === step.kit)?.number;
  const where = model.problem.places[step.place]?.words ?? "";
  const head = make("p", { class: "where" }, ...(number === undefined ? [] : [make("span", { class: "disc" }, String(number))]), `${step.kit_name} · ${where}`);
  const points = make("ul", { class: "points" }, ...(step.points.length ? step.points : [step.title]).map((point) => make("li", {}, point)));
  const words = make("details", {}, make("summary", {}, "The words in full"), make("p", { class: "full" }, step.say));
  const title = make("h1", { id: "step", tabindex: "-1" }, step.title);
  return { head: [head, title], say: [points, ...(step.say ? [words] : [])], hold: holdOf(model, step, go) };
}

/**
 * What has to hold, as state: what does not comes first and says what to do; then the waits it needs; cautions above it all.
 *
 * @param {Model} model
 * @param {Step} step
 * @param {(step: string) => void} go
 */
function holdOf(model, step, go) {
  const cautions = step.cautions.map(cautionLine);
  const unmet = model.needs.filter(({ holds }) => !holds);
  const met = model.needs.filter(({ holds }) => holds);
  const lines = byMaker(unmet).map((row) => make("li", {}, ...row.map((need) => openNeed(model, need)), ...firstOf(row[0], go)));
  for (const id of model.waitsFor) {
    const wait = model.running.find((each) => each.id === id);
    const title = model.problem.waits.find((each) => each.id === id)?.title ?? id;
    lines.push(make("li", {}, stated("waiting", make("strong", {}, title), " · ", wait ? left(wait.ends) : "not begun")));
  }
  const others = model.stops.filter(({ condition }) => !unmet.some((need) => need.condition === condition) && !model.waitsFor.includes(condition));
  for (const broken of others) lines.push(make("li", {}, stated("cannot", make("strong", {}, broken.harm || broken.text))));
  for (const need of met.slice(0, MET_SHOWN)) lines.push(make("li", { class: "met" }, stated("done", need.words)));
  if (met.length > MET_SHOWN) {
    const more = met.slice(MET_SHOWN).map((need) => make("li", { class: "met" }, stated("done", need.words)));
    const count = met.length - MET_SHOWN;
    lines.push(make("li", {}, make("details", {}, make("summary", {}, `${count} more ${count === 1 ? "holds" : "hold"}`), make("ul", { class: "holds" }, ...more))));
  }
  return [...cautions, ...(lines.length ? [make("h2", {}, "What must hold"), make("ul", { class: "holds" }, ...lines)] : [])];
}

/**
 * @param {Model} model
 * @param {import("./model.js").Need} need
 */
function openNeed(model, need) {
  const words = make("span", {}, make("strong", {}, need.words), ` · ${need.now}`);
  const wait = model.running.find(({ id }) => id === need.running);
  if (wait) words.append(`, ${wait.title.toLowerCase()} `, left(wait.ends));
  return make("span", { class: "state" }, stateShape("cannot"), words);
}

/**
 * @param {import("./model.js").Need} need
 * @param {(step: string) => void} go
 */
function firstOf({ first }, go) {
  return first ? [make("button", { type: "button", class: "quiet first", click: () => go(first.id) }, `First: ${first.title}`)] : [];
}

/**
 * Seconds left of something, kept true by `tick`.
 *
 * @param {number} ends
 */
function left(ends) {
  return make("span", { class: "figure", "data-ends": String(ends) });
}

/** @param {Model} model */
function beforeBegin(model) {
  const { kit } = model;
  const minutes = Math.round(kit.plan.total / 60);
  const open = model.next?.step;
  return {
    head: [
      make("p", { class: "where" }, `${kit.van.name}${kit.van.stock ? ` · ${kit.van.stock}` : ""}`),
      make("h1", { id: "step", tabindex: "-1" }, `The round with ${kit.owner.replace(/^The /, "the ")}`),
    ],
    say: [
      make("p", { class: "big" }, `${kit.plan.steps.length} steps in about ${minutes} minutes. Begin where you stand with the owner; the first step is “${open?.title ?? ""}”.`),
      ...(kit.plan.kept ? [] : [make("p", {}, "Nobody has planned this round yet: this order was made at once, and is safe.")]),
    ],
    hold: [
      make("h2", {}, "How it begins"),
      make("ol", { class: "begins" }, ...model.rest.slice(0, 7).map((step) => make("li", {}, make("strong", {}, step.title), make("span", { class: "soft" }, ` ${model.problem.places[step.place]?.words ?? ""}`)))),
    ],
  };
}

/** @param {Model} model */
function atEnd(model) {
  const not = model.ahead.finish.map(({ condition, values }) => make("li", {}, stated("cannot", `${model.problem.labels[condition] ?? condition}: ${values.join(" or ").replaceAll("-", " ")}`)));
  const lost = model.rest.map((step) => make("li", {}, stated("to-do", step.title)));
  return {
    head: [
      make("p", { class: "where" }, model.kit.van.name),
      make("h1", { id: "step", tabindex: "-1" }, lost.length ? "Nothing more can be done from here" : "The round is done"),
    ],
    say: [
      make("p", { class: "big" }, `${model.past.changes.filter(({ sort }) => sort === "act").length} steps in ${clock(model.past.last)}.`),
      ...(lost.length ? [make("h2", {}, "Still open"), make("ul", { class: "holds" }, ...lost)] : []),
    ],
    hold: not.length ? [make("h2", {}, "Before the van goes"), make("ul", { class: "holds" }, ...not)] : [],
  };
}

/**
 * @param {Model} model
 * @returns {HTMLElement[]}
 */
export function nextBand(model) {
  const next = model.next;
  if (!next) return [make("p", { class: "soft" }, model.current ? "This is the last step." : "")];
  const { step } = next;
  const from = model.current?.place ?? model.from.place;
  const walk = model.problem.walks[from]?.[step.place] ?? 0;
  const where = model.problem.places[step.place]?.words ?? "";
  return [
    make("p", { class: "soft small" }, model.current || model.past.origin !== null ? "Next" : "First"),
    make("p", { class: "next-title" }, make("strong", {}, step.title)),
    make("p", { class: "where" }, walk ? `${where}, ${walk} s to walk` : `${where}, where you stand`),
  ];
}

/**
 * @param {Model} model
 * @returns {HTMLElement[]}
 */
export function clockBand(model) {
  const { past } = model;
  const ends = past.origin === null ? null : past.origin + model.ahead.end * 1000;
  const over = Math.round(model.late / 60);
  const against = Math.abs(model.late) < EARLY_S ? "as planned" : over > 0 ? `${over} min late` : `${-over} min early`;
  const facts = [
    fact("Gone", make("span", { class: "figure", "data-gone": "yes" }, clock(model.second))),
    fact("Over at about", make("span", { class: "figure" }, ends === null ? "–" : timeOfDay(ends))),
    fact("Against the plan", make("span", { class: `figure${model.late >= EARLY_S ? " late" : ""}` }, past.origin === null ? "–" : against)),
    fact("Still to do", make("span", { class: "figure" }, String(model.rest.length))),
  ];
  const waits = model.running.map((wait) => {
    const bar = make("span", { class: "bar", "aria-hidden": "true" }, make("span", { "data-of": String(wait.seconds), "data-bar": String(wait.ends) }));
    return make("li", {}, make("span", { class: "wait-title" }, wait.title), bar, left(wait.ends));
  });
  return [make("dl", { class: "facts" }, ...facts), make("ul", { class: "waits", "aria-label": "Waits under way" }, ...(waits.length ? waits : [make("li", { class: "soft" }, "Nothing is waiting.")]))];
}

/**
 * @param {string} name
 * @param {Node} value
 */
const fact = (name, value) => make("div", {}, make("dt", {}, name), make("dd", {}, value));

/**
 * Let the clock and the waits run, without drawing anything anew.
 *
 * @param {HTMLElement} root
 * @param {number} second
 * @param {boolean} running
 */
export function tick(root, second, running) {
  for (const gone of root.querySelectorAll("[data-gone]")) if (running) gone.textContent = clock(second);
  for (const each of root.querySelectorAll("[data-ends]")) {
    if (each instanceof HTMLElement) each.textContent = clock(Math.max(0, Number(each.dataset.ends) - second));
  }
  for (const bar of root.querySelectorAll("[data-bar]")) {
    if (!(bar instanceof HTMLElement)) continue;
    const part = Math.max(0, Number(bar.dataset.bar) - second) / Number(bar.dataset.of);
    bar.style.setProperty("--left", String(Math.min(1, part)));
  }
}

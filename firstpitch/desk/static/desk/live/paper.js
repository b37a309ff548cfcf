/** The rest of the round on paper, for the day on which the tablet fails: what is still to do, in order, each with its box to tick. */

import { cautionLine, stated, timeOfDay } from "./shapes.js";
import { make } from "../tablet/make.js";
import { index } from "../tablet/replay.js";
import { dayName } from "../tablet/words.js";

/**
 * @typedef {import("./model.js").Model} Model
 * @typedef {import("../tablet/replay.js").Step} Step
 */

/**
 * @param {Model} model
 * @returns {HTMLElement[]}
 */
export function roundOnPaper(model) {
  const { kit, past, rest, problem } = model;
  const now = Date.now();
  const { steps } = index(problem);
  const acts = past.changes.flatMap((change) => (change.sort === "act" ? [change] : []));
  const done = acts.map(({ step, tried }) => make("li", {}, stated(tried ? "tried" : "done", steps.get(step)?.title ?? step)));
  const left = [...past.left].map(([id, { reason }]) => make("li", {}, stated("left-out", `${steps.get(id)?.title ?? id}: ${reason}`)));
  return [
    make("h1", {}, `The round with ${kit.owner.replace(/^The /, "the ")}`),
    make("p", {}, `${kit.van.name} ${kit.van.stock}, as this tablet had it ${dayName(new Date(now).toISOString())} at ${timeOfDay(now)}. What is ticked here is noted on a tablet afterwards.`),
    make("h2", {}, `Still to do (${rest.length})`),
    make("ol", { class: "list-rows" }, ...rest.map((step) => line(model, step))),
    ...(left.length ? [make("h2", {}, "Not today"), make("ul", { class: "short" }, ...left)] : []),
    ...(done.length ? [make("h2", {}, `Done (${done.length})`), make("ul", { class: "short" }, ...done)] : []),
  ];
}

/**
 * @param {Model} model
 * @param {Step} step
 */
function line({ problem, kit }, step) {
  const number = kit.kits.find((/** @type {any} */ each) => each.id === step.kit)?.number;
  const where = [number === undefined ? "" : String(number), step.kit_name, problem.places[step.place]?.words].filter(Boolean).join(" · ");
  const grave = step.cautions.filter(({ level }) => level === "stop").map(cautionLine);
  return make("li", {}, ...grave, stated("to-do", make("strong", {}, step.title), make("br", {}), make("span", { class: "soft small" }, where)));
}

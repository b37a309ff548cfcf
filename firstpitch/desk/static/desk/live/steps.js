/** All steps of the round, to pick another one, bring one back or take one back; and the last things noted, to undo one. */

import { stated, timeOfDay } from "./shapes.js";
import { button, foot, openSheet, tried } from "./sheets.js";
import { make } from "../tablet/make.js";
import { index } from "../tablet/replay.js";
import { told } from "../tablet/words.js";
import { titleOf } from "./ask.js";

/**
 * @typedef {import("./model.js").Model} Model
 * @typedef {import("../tablet/replay.js").Step} Step
 * @typedef {{go: (step: string) => Promise<void>, undo: (event: string) => Promise<void>}} Ways
 */

const MOST_TO_UNDO = 8;
const NOT_FOR_UNDO = ["undone", "conflict.seen", "conflict.settled", "round.replanned"];

/**
 * @param {Model} model
 * @param {Ways} ways
 */
export function showSteps(model, ways) {
  const { steps } = index(model.problem);
  const acts = model.past.changes.flatMap((change) => (change.sort === "act" ? [change] : []));
  const reasons = new Map(model.kit.plan.left_out.map((/** @type {any} */ { id, reason }) => [id, reason]));
  const open = new Set(model.rest.map(({ id }) => id));
  const seen = new Set([...open, ...acts.map(({ step }) => step), ...model.past.left.keys()]);
  const others = model.problem.steps.filter(({ id }) => !seen.has(id));
  openSheet("All steps", (sheet) => {
    const act = (/** @type {() => Promise<void>} */ work) => () => tried(sheet, async () => (await work(), sheet.close()));
    return [
      part("Still to do", model.rest.map((step) => row(model, step, step === model.current ? "now" : "to-do", "", "Go there", act(() => ways.go(step.id))))),
      part("Not planned, or not today", [
        ...[...model.past.left].map(([id, { reason, event }]) => row(model, steps.get(id), "left-out", reason, "Bring it back", act(() => ways.undo(event)))),
        ...others.map((step) => row(model, step, "left-out", reasons.get(step.id) ?? "", "Go there", act(() => ways.go(step.id)))),
      ]),
      part("Done", acts.reverse().map(({ step, tried: own, event }) => row(model, steps.get(step), own ? "tried" : "done", "", "Take it back", act(() => ways.undo(event))))),
      foot(button("Back", () => sheet.close())),
    ];
  });
}

/**
 * @param {string} heading
 * @param {HTMLElement[]} rows
 */
function part(heading, rows) {
  if (!rows.length) return "";
  return make("section", {}, make("h3", {}, `${heading} (${rows.length})`), make("ul", { class: "list-rows steps" }, ...rows));
}

/**
 * @param {Model} model
 * @param {Step | undefined} step
 * @param {Parameters<typeof stated>[0]} state
 * @param {string} why
 * @param {string} words
 * @param {() => void} press
 */
function row(model, step, state, why, words, press) {
  if (!step) return make("li", {}, "A step this van no longer has.");
  const place = model.problem.places[step.place]?.words ?? "";
  const told = make("span", {}, make("strong", {}, step.title), make("br", {}), make("span", { class: "soft small" }, [step.kit_name, place, why].filter(Boolean).join(" · ")));
  const press_ = button(words, press);
  press_.setAttribute("aria-label", `${words}: ${step.title}`);
  return make("li", {}, stated(state, told), press_);
}

/**
 * @param {Model} model
 * @param {string} device
 * @param {Ways} ways
 */
export function showUndo(model, device, ways) {
  const own = model.past.counting.filter((event) => event.device === device && !NOT_FOR_UNDO.includes(event.what) && event.what !== "step.begun");
  const last = own.slice(-MOST_TO_UNDO).reverse();
  openSheet("Take something back", (sheet) => [
    make("p", {}, last.length ? "It stays in the history as taken back." : "Nothing has been noted on this tablet yet."),
    make(
      "ul",
      { class: "list-rows steps" },
      ...last.map((event) => {
        const words = told(event, (id) => titleOf(model, id));
        const press = button("Take back", () => tried(sheet, async () => (await ways.undo(event.id), sheet.close())));
        press.setAttribute("aria-label", `Take back: ${words}`);
        return make("li", {}, make("span", {}, make("strong", {}, words), make("br", {}), make("span", { class: "soft small" }, timeOfDay(Date.parse(event.at)))), press);
      }),
    ),
    foot(button("Back", () => sheet.close())),
  ]);
}

/** The questions of the live round: not today, a snag, a note, and the stop before something that must not be. */

import { clock, signShape, stated } from "./shapes.js";
import { button, choiceField, foot, openSheet, tried, wordsField } from "./sheets.js";
import { byMaker } from "./model.js";
import { make } from "../tablet/make.js";
import { verdict } from "../tablet/next.js";
import { index } from "../tablet/replay.js";
import { addPhoto, newId } from "../tablet/store.js";

/**
 * @typedef {import("./model.js").Model} Model
 * @typedef {import("../tablet/replay.js").Step} Step
 * @typedef {import("../tablet/replay.js").Broken} Broken
 * @typedef {(what: string, data: Record<string, any>, id?: string) => Promise<any>} Tell
 */

const NOT_TODAY = ["The owner knows it", "No time", "No gas", "It rains", "It does not work", "The owner does not want it"];
const SEVERITIES = [
  { value: "stop", sign: "prohibition", words: "Stop: the van does not go before it is mended" },
  { value: "care", sign: "warning", words: "Take care: mend it soon, and tell the owner" },
  { value: "note", sign: "", words: "Worth knowing" },
];

/**
 * @param {Step} step
 * @param {(reason: string) => Promise<void>} leave
 */
export function askWhyNot(step, leave) {
  const reason = wordsField("Why not today?", NOT_TODAY);
  openSheet(`Not today: ${step.title}`, (sheet) => [
    ...(step.level === "must" ? [make("p", {}, "This is a must. The record will say that it was left out, and why.")] : []),
    reason.part,
    foot(
      button("Leave it out", () => (reason.value() ? tried(sheet, async () => (await leave(reason.value()), sheet.close())) : sheet.fault("Say why in a word or two.")), "main"),
      button("Back", () => sheet.close()),
    ),
  ]);
}

/**
 * @param {Model} model
 * @param {Tell} tell
 */
export function askNote(model, tell) {
  const words = wordsField("What should be kept in mind?", [], { rows: "4" });
  openSheet("A note", (sheet) => [
    words.part,
    foot(
      button("Keep it", () => (words.value() ? tried(sheet, async () => (await tell("note", { words: words.value(), step: model.current?.id ?? "" }), sheet.close())) : sheet.fault("Write something first.")), "main"),
      button("Back", () => sheet.close()),
    ),
  ]);
}

/**
 * @param {Model} model
 * @param {Tell} tell
 */
export function askSnag(model, tell) {
  const step = model.current;
  const words = wordsField("What is wrong?", ["Loose", "Broken", "Does not work", "Leaks", "Scratched", "Missing"]);
  const grave = choiceField(
    "How grave is it?",
    SEVERITIES.map(({ value, sign, words: told }) => ({ value, words: [sign ? signShape(sign) : make("span", { class: "no-sign" }), make("span", {}, told)] })),
    "care",
  );
  const kit = make("select", { id: "snag-kit" }, make("option", { value: "" }, "The van itself"));
  for (const each of model.kit.kits) kit.append(make("option", { value: each.id }, `${each.number} ${each.name}`));
  kit.value = model.kit.kits.some((/** @type {any} */ each) => each.id === step?.kit) ? (step?.kit ?? "") : "";
  const photo = make("input", { type: "file", id: "snag-photo", accept: "image/*", capture: "environment" });
  openSheet("A snag", (sheet) => [
    words.part,
    grave.part,
    make("div", { class: "ask" }, make("label", { for: "snag-kit" }, "On what?"), kit),
    make("div", { class: "ask" }, make("label", { for: "snag-photo" }, "A photo of it ", make("span", { class: "soft" }, "(if it helps)")), photo),
    foot(
      button("Keep it", () => {
        if (!words.value()) return sheet.fault("Say what is wrong.");
        return tried(sheet, async () => {
          const id = newId();
          const file = photo.files?.[0];
          // The photo first: where it cannot be kept nothing is, and all that was typed still stands here.
          if (file) await addPhoto(file, { step: step?.id ?? null, snag: id });
          await tell("snag.raised", { snag: id, words: words.value(), severity: grave.value(), kit: kit.value, step: step?.id ?? "" }, id);
          sheet.close();
        });
      }, "main"),
      button("Back", () => sheet.close()),
    ),
  ]);
}

/**
 * The stop: what would happen, what to do first, and the way on for somebody who takes it on themselves.
 *
 * @param {Model} model
 * @param {Step} step
 * @param {{go: (step: string) => Promise<void>, found: (condition: string, value: string, reason: string) => Promise<void>, on: (reason: string, broken: Broken[]) => Promise<void>}} ways
 */
export function stopBefore(model, step, ways) {
  const harms = [...new Set(model.stops.map(({ harm }) => harm).filter(Boolean))];
  const told = model.stops.filter(({ rule }) => !(rule === "guard" && harms.length && model.stops.some((other) => other.rule !== "guard")));
  const once = told.filter(({ condition }, i) => told.findIndex((other) => other.condition === condition) === i);
  const waits = (/** @type {Broken} */ { condition }) => model.running.some(({ id }) => id === condition) || model.needs.some((need) => need.condition === condition && need.running);
  const heading = harms.length && !once.every(waits) ? "Stop" : "Not yet";
  openSheet(heading, (sheet) => [
    ...harms.map((harm) => make("div", { class: "caution caution-stop" }, signShape("warning"), make("p", {}, make("strong", {}, harm)))),
    make("ul", { class: "stops" }, ...stopRows(model, once, sheet, ways)),
    foot(...meanwhile(model, sheet, ways.go), button("Back to the step", () => sheet.close())),
    make("details", { class: "folded" }, make("summary", {}, "Go on all the same"), ...goOn(model, step, sheet, ways)),
  ]);
}

/**
 * What to do in the time until it may be done.
 *
 * @param {Model} model
 * @param {import("./sheets.js").Sheet} sheet
 * @param {(step: string) => Promise<void>} go
 */
function meanwhile({ meanwhile: step }, sheet, go) {
  return step ? [button(`Meanwhile: ${step.title}`, () => tried(sheet, async () => (await go(step.id), sheet.close())))] : [];
}

/**
 * What does not hold: what one step puts right stands together with it, and what can be done at once comes first.
 *
 * @param {Model} model
 * @param {Broken[]} once
 * @param {import("./sheets.js").Sheet} sheet
 * @param {Parameters<typeof stopBefore>[2]} ways
 * @returns {HTMLElement[]}
 */
function stopRows(model, once, sheet, ways) {
  const open = model.needs.filter(({ holds, condition }) => !holds && once.some((broken) => broken.condition === condition));
  const others = once.filter(({ condition }) => !open.some((need) => need.condition === condition));
  const now = Date.now();
  const able = (/** @type {import("./model.js").Need[]} */ [{ first }]) => first !== null && !verdict(model.problem, model.past, first.id, now).length;
  const rows = byMaker(open).map((needs) => ({ needs, able: able(needs) }));
  rows.sort((a, b) => Number(b.able) - Number(a.able));
  return [
    ...rows.map(({ needs, able: now }, at) => {
      const first = needs[0].first;
      const press = first && button(`First: ${first.title}`, () => tried(sheet, async () => (await ways.go(first.id), sheet.close())), now && at === 0 ? "main" : "");
      return make("li", {}, ...needs.map((need) => stopLine(model, need, ways)), ...(press ? [make("div", { class: "row" }, press)] : []));
    }),
    ...others.map((broken) => make("li", {}, waitLeft(model, broken.condition) ?? stated("cannot", broken.text))),
  ];
}

/**
 * @param {Model} model
 * @param {string} id
 */
function waitLeft(model, id) {
  const wait = model.running.find((each) => each.id === id);
  return wait ? stated("waiting", `${wait.title}: `, make("span", { class: "figure", "data-ends": String(wait.ends) }, clock(wait.left)), " to go.") : null;
}

/**
 * @param {Model} model
 * @param {import("./model.js").Need} need
 * @param {Parameters<typeof stopBefore>[2]} ways
 */
function stopLine(model, need, ways) {
  const already = button(need.already, () => askFound(need, ways.found), "quiet");
  already.setAttribute("aria-label", `${need.already}: ${need.words}`);
  const told = waitLeft(model, need.running) ?? stated("cannot", make("strong", {}, need.words), ` · ${need.now}`);
  return make("div", { class: "stop-line" }, told, already);
}

/**
 * @param {import("./model.js").Need} need
 * @param {(condition: string, value: string, reason: string) => Promise<void>} found
 */
function askFound(need, found) {
  const value = choiceField("How is it found?", need.values.map((each) => ({ value: each, words: [make("span", {}, each.replaceAll("-", " "))] })), need.values[0]);
  const reason = wordsField("How do you know?", ["I looked", "The workshop did it", "Shown earlier"]);
  openSheet(`Found: ${need.words}`, (sheet) => [
    make("p", {}, "This goes into the history: from now on the round takes it to be so."),
    ...(need.values.length > 1 ? [value.part] : []),
    reason.part,
    foot(
      button("So it is", () => (reason.value() ? tried(sheet, async () => (await found(need.condition, value.value() || need.values[0], reason.value()), sheet.close())) : sheet.fault("Say how you know.")), "main"),
      button("Back", () => sheet.close()),
    ),
  ]);
}

/**
 * @param {Model} model
 * @param {Step} step
 * @param {import("./sheets.js").Sheet} sheet
 * @param {Parameters<typeof stopBefore>[2]} ways
 */
function goOn(model, step, sheet, ways) {
  const reason = wordsField("Why is it safe here?", []);
  return [
    make("p", {}, `“${step.title}” counts as done. Your name and the reason stand in the record.`),
    reason.part,
    make("div", { class: "row" }, button("Go on, on my word", () => (reason.value() ? tried(sheet, async () => (await ways.on(reason.value(), model.stops), sheet.close())) : sheet.fault("Without a reason it cannot go on.")))),
  ];
}

/**
 * The title of a step.
 *
 * @param {Model} model
 * @param {string} id
 */
export const titleOf = (model, id) => index(model.problem).steps.get(id)?.title ?? id;

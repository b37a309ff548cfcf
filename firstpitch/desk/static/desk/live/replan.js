/**
 * Something is different from the plan: what, and the rest planned anew. The desk plans it exactly where there is a network; without
 * one the tablet keeps the order it has, leaves out what cannot be done or has no time, and chooses step by step.
 */

import { allowed } from "../tablet/next.js";
import { index } from "../tablet/replay.js";
import { send } from "../tablet/talk.js";
import { chosenOrder, shortened } from "./model.js";
import { button, foot, openSheet, tried, wordsField } from "./sheets.js";
import { timeOfDay } from "./shapes.js";
import { make } from "../tablet/make.js";
import { titleOf } from "./ask.js";

/**
 * @typedef {import("./model.js").Model} Model
 * @typedef {{order: string[], by: "server" | "tablet", ends: number, left: {id: string, title: string, reason: string}[], lost: string[]}} Rest
 */

const SUPPLIES = { gas: "No gas", mains: "No mains", "12v": "No 12 V", water: "No water" };
const DRY = [10, 20, 40];
const LATE_S = 60;
const PATIENCE_MS = 6000;

/**
 * @param {Model} model
 * @param {{tell: (what: string, data: Record<string, any>) => Promise<any>, again: () => Promise<Model>, unsent: () => Promise<any[]>}} ways
 */
export function askWhatChanged(model, ways) {
  const before = model.past.changed?.data ?? {};
  const minutes = stepper(model, Boolean(before.minutes_left));
  const gone = Object.entries(SUPPLIES).filter(([name]) => model.kit.supplies[name]?.length);
  const supplies = gone.map(([name, words]) => toggle(words, name, (before.without_supply ?? []).includes(name)));
  const rain = DRY.map((minute) => toggle(`${minute} min`, String(minute), false));
  for (const one of rain) one.setAttribute("aria-label", `Rain: indoors for ${one.value} min`);
  for (const one of rain) one.addEventListener("click", () => rain.forEach((other) => other !== one && other.setAttribute("aria-pressed", "false")));
  const kits = kitPicker(model, before.without_kit ?? []);
  const why = wordsField("Why (for the record)", ["The owner came late", "The owner has to leave", "Weather"]);
  openSheet("What is different?", (sheet) => [
    minutes.part,
    make("fieldset", {}, make("legend", {}, "What is not there"), make("div", { class: "chips" }, ...supplies)),
    make("fieldset", {}, make("legend", {}, "It rains: nothing outside for"), make("div", { class: "chips" }, ...rain)),
    kits.part,
    why.part,
    foot(
      button("Plan the rest", () => tried(sheet, async () => {
        const change = {
          minutes_left: minutes.value(),
          without_kit: kits.value(),
          without_supply: supplies.filter(pressed).map((each) => each.value),
          indoors_for: Number(rain.find(pressed)?.value ?? 0) * 60,
          why: why.value(),
        };
        await ways.tell("round.changed", change);
        await showRest(await ways.again(), change, ways);
      }), "main"),
      button("Back", () => sheet.close()),
    ),
  ]);
}

/** @param {HTMLElement} each */
const pressed = (each) => each.getAttribute("aria-pressed") === "true";

/**
 * @param {string} words
 * @param {string} value
 * @param {boolean} on
 */
function toggle(words, value, on) {
  const made = make("button", { type: "button", class: "chip", value, "aria-pressed": String(on) }, words);
  made.addEventListener("click", () => made.setAttribute("aria-pressed", String(!pressed(made))));
  return made;
}

/**
 * Minutes left, by large plus and minus; where the round is late, by one tap until when it was to be over.
 *
 * @param {Model} model
 * @param {boolean} limited  whether minutes were set before
 */
function stepper({ due, second, late, ahead, past }, limited) {
  const until = Math.max(1, Math.round((due - second) / 60));
  const likely = Math.round((ahead.end - second) / 60);
  /** @type {number | null} */
  let now = limited ? until : null;
  const shown = make("output", { class: "figure" });
  const show = () => (shown.textContent = now === null ? "no limit" : `${now} min`);
  const by = (/** @type {number} */ step) => () => {
    now = Math.max(5, (now ?? Math.ceil(likely / 5) * 5) + step);
    show();
  };
  show();
  const asPlanned = late >= LATE_S && past.origin !== null ? [button(`Over by ${timeOfDay(past.origin + due * 1000)} after all`, () => ((now = until), show()), "quiet")] : [];
  const part = make(
    "fieldset",
    { class: "stepper" },
    make("legend", {}, "Minutes left for all of it"),
    make("div", { class: "row" }, button("− 5", by(-5)), shown, button("+ 5", by(5)), button("As long as it takes", () => ((now = null), show()), "quiet"), ...asPlanned),
  );
  return { part, value: () => now };
}

/**
 * @param {Model} model
 * @param {string[]} chosen
 */
function kitPicker(model, chosen) {
  const without = new Set(chosen);
  const list = make("div", { class: "chips" });
  const pick = make("select", { id: "without-kit" }, make("option", { value: "" }, "Choose …"));
  for (const { id, number, name } of model.kit.kits) pick.append(make("option", { value: id }, `${number} ${name}`));
  const draw = () => {
    list.replaceChildren(
      ...[...without].map((id) => {
        const name = model.kit.kits.find((/** @type {any} */ each) => each.id === id)?.name ?? id;
        return button(`${name} ✕`, () => (without.delete(id), draw()), "chip");
      }),
    );
  };
  pick.addEventListener("change", () => {
    if (pick.value) without.add(pick.value);
    pick.value = "";
    draw();
  });
  draw();
  const part = make("div", { class: "ask" }, make("label", { for: "without-kit" }, "What cannot be used"), list, pick);
  return { part, value: () => [...without] };
}

/**
 * @param {Model} model
 * @param {Record<string, any>} change
 * @param {Parameters<typeof askWhatChanged>[1]} ways
 */
async function showRest(model, change, ways) {
  const place = make("div", { role: "status" }, make("p", { class: "big" }, "Planning the rest …"));
  const sheet = openSheet("The rest of the round", (opened) => [place, foot(button("Back", () => opened.close()))]);
  const events = await ways.unsent();
  const load = { at: new Date().toISOString(), change, ...events };
  const reply = await send(`/live/${model.kit.handover}/replan/`, load, PATIENCE_MS);
  const data = reply.sort === "answer" ? reply.data : null;
  if (!sheet.box.isConnected) return;
  if (data?.clash) {
    place.replaceChildren(...clashed(model, data, change, ways));
    return;
  }
  const rest = data?.order ? fromDesk(data) : onTablet(model, change);
  place.replaceChildren(...told(model, rest, reply.sort === "answer"));
  sheet.box.querySelector(".sheet-foot")?.prepend(
    button("Go on like this", () => tried(sheet, async () => {
      await ways.tell("round.replanned", { order: rest.order, by: rest.by });
      sheet.close();
    }), "main"),
  );
}

/**
 * @param {any} data
 * @returns {Rest}
 */
function fromDesk(data) {
  return { order: data.order, by: "server", ends: data.ends, left: data.left_out, lost: data.lost };
}

/**
 * @param {Model} model
 * @param {Record<string, any>} change
 * @returns {Rest}
 */
function onTablet(model, change) {
  const may = allowed(model.problem, model.past, model.kit.supplies);
  const { order, left } = change.minutes_left ? shortened(model, model.second + change.minutes_left * 60) : { order: model.rest, left: [] };
  const chosen = chosenOrder(model, order.filter(({ id }) => !may.without.has(id)));
  const titles = left.map(({ id, title }) => ({ id, title, reason: "No time." }));
  return { order: chosen.map(({ id }) => id), by: "tablet", ends: model.second + seconds(model, chosen), left: titles, lost: [] };
}

/**
 * @param {Model} model
 * @param {import("../tablet/replay.js").Step[]} order
 */
function seconds(model, order) {
  let place = model.from.place;
  let sum = 0;
  for (const step of order) {
    sum += model.problem.walks[place][step.place] + step.seconds;
    place = step.place;
  }
  return sum;
}

/**
 * @param {Model} model
 * @param {Rest} rest
 * @param {boolean} exact
 */
function told(model, rest, exact) {
  const over = model.past.origin === null ? "" : ` The round is over at about ${timeOfDay(model.past.origin + rest.ends * 1000)}.`;
  const words = exact ? `${rest.order.length} steps.${over}` : `No network: the tablet keeps the order it has, without what cannot be done. ${rest.order.length} steps.${over}`;
  /** @type {Map<string, string[]>} */
  const because = new Map();
  const often = (/** @type {string} */ title) => rest.left.filter((other) => other.title === title).length > 1;
  for (const { id, title, reason } of rest.left) {
    const kit = often(title) ? index(model.problem).steps.get(id)?.kit_name : "";
    because.set(reason, [...(because.get(reason) ?? []), kit ? `${title} (${kit})` : title]);
  }
  const lines = [...because].map(([reason, titles]) => make("li", {}, make("strong", {}, reason), make("ul", {}, ...titles.map((title) => make("li", {}, title)))));
  return [
    make("p", { class: "big" }, words),
    ...rest.lost.map((id) => make("p", { class: "fault" }, `Can no longer be done: ${titleOf(model, id)}`)),
    ...(lines.length ? [make("h3", {}, `Left out (${rest.left.length})`), make("ul", { class: "list-rows because" }, ...lines)] : []),
  ];
}

/**
 * @param {Model} model
 * @param {any} data
 * @param {Record<string, any>} change
 * @param {Parameters<typeof askWhatChanged>[1]} ways
 */
function clashed(model, data, change, ways) {
  const lines = data.clash.map((/** @type {string} */ fact) => make("li", {}, fact));
  const pieces = [make("p", { class: "big" }, "That does not go."), make("ul", {}, ...lines)];
  if (data.found_s) {
    const enough = Math.ceil(data.found_s / 60);
    pieces.push(
      make("div", { class: "row" }, button(`Plan with ${enough} minutes`, async () => {
        const more = { ...change, minutes_left: enough };
        await ways.tell("round.changed", more);
        await showRest(await ways.again(), more, ways);
      }, "main")),
    );
  }
  return pieces;
}

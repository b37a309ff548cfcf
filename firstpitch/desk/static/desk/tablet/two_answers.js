/**
 * Where two tablets said different things of one step: both are shown, a person keeps one and says why. That is an event like any
 * other; neither of the two is changed or lost.
 */

import { drawn, found, make } from "./make.js";
import { meta } from "./db.js";
import { append, events, kits, onChange } from "./store.js";
import { pull, recount, unsettled } from "./sync.js";
import { clockTime, told } from "./words.js";

/** @typedef {import("./types.js").Seen} Seen */

/** @type {Map<string, {keeps: string, reason: string}>} what was chosen and typed so far, by conflict */
const begun = new Map();

async function open() {
  const device = await meta("device");
  const pieces = [];
  for (const { handover, kit } of await carriedOrKnown()) {
    const all = await events(handover);
    const byId = new Map(all.map((event) => [event.id, event]));
    const steps = new Map((kit?.problem?.steps ?? []).map((/** @type {any} */ step) => [step.id, step.title]));
    for (const { events: ids, why } of unsettled(all)) {
      const seen = /** @type {Seen[]} */ (ids.map((id) => byId.get(id)).filter(Boolean));
      pieces.push(one(handover, ids, why, seen, device, (id) => steps.get(id) ?? id));
    }
  }
  return pieces.length ? pieces : [make("p", {}, "Nothing is in dispute.")];
}

async function carriedOrKnown() {
  const carried = await kits();
  const counts = (await meta("conflicts")) ?? {};
  const more = Object.keys(counts)
    .map(Number)
    .filter((handover) => counts[handover] && !carried.some((each) => each.handover === handover));
  return [...carried, ...more.map((handover) => ({ handover, kit: null }))];
}

/**
 * @param {number} handover
 * @param {string[]} ids
 * @param {string} why
 * @param {Seen[]} seen
 * @param {string} device
 * @param {(id: string) => string} title
 */
function one(handover, ids, why, seen, device, title) {
  const key = [...ids].sort().join("-");
  const chosen = begun.get(key) ?? { keeps: "", reason: "" };
  begun.set(key, chosen);
  const answers = seen.map((event) => {
    const whose = event.device === device ? "this tablet" : "another tablet";
    const pick = make("input", { type: "radio", name: key, id: `${key}-${event.id}`, value: event.id, change: () => (chosen.keeps = event.id) });
    pick.checked = chosen.keeps === event.id;
    const words = make("span", {}, make("strong", {}, told(event, title)), make("br", {}), `${event.by ? `${event.by}, ` : ""}${whose}, ${clockTime(event.at)}`);
    return make("label", { class: "choice", for: `${key}-${event.id}` }, pick, words);
  });
  const reason = make("textarea", { id: `${key}-reason`, rows: "2", maxlength: "500", input: () => (chosen.reason = reason.value) });
  reason.value = chosen.reason;
  const fault = make("p", { class: "fault", role: "alert" });
  const form = make(
    "form",
    { class: "sheet conflict" },
    make("fieldset", {}, make("legend", {}, why || "Which is right?"), make("span", { class: "soft" }, "Which is right?"), ...answers),
    make("div", { class: "ask" }, make("label", { for: reason.id }, "Why"), reason),
    fault,
    make("p", {}, make("button", { class: "main" }, "Settle it")),
  );
  form.addEventListener("submit", (press) => {
    press.preventDefault();
    settle(handover, ids, chosen, fault, key);
  });
  return form;
}

/**
 * @param {number} handover
 * @param {string[]} ids
 * @param {{keeps: string, reason: string}} chosen
 * @param {HTMLElement} fault
 * @param {string} key
 */
async function settle(handover, ids, chosen, fault, key) {
  if (!chosen.keeps || !chosen.reason.trim()) {
    fault.textContent = chosen.keeps ? "Say in a few words why." : "Choose the answer that is right.";
    return;
  }
  try {
    await append({ handover, what: "conflict.settled", data: { events: ids, keeps: chosen.keeps, reason: chosen.reason.trim() } });
    begun.delete(key);
    document.getElementById(`${key}-reason`)?.blur();
    await recount(handover);
  } catch (wrong) {
    fault.textContent = wrong instanceof Error ? wrong.message : String(wrong);
  }
}

const draw = drawn(found("#two-answers"), open);
onChange(draw);
kits().then((all) => Promise.all(all.map(({ handover }) => pull(handover))));

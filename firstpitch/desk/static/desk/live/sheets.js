/** Sheets that lie over the screen: a question, its answers as large buttons, and what was typed stays until it is sent or dropped. */

import { make } from "../tablet/make.js";
import { Fault } from "../tablet/faults.js";

/**
 * @typedef {object} Sheet
 * @property {HTMLDialogElement} box
 * @property {() => void} close
 * @property {(words: string) => void} fault   says what went wrong; what was typed stays
 */

let count = 0;

/**
 * Open a sheet. Only one is open at a time; it closes by its buttons or the Escape key.
 *
 * @param {string} heading
 * @param {(sheet: Sheet) => (Node | string)[]} inside
 * @returns {Sheet}
 */
export function openSheet(heading, inside) {
  for (const open of document.querySelectorAll("dialog[open]")) if (open instanceof HTMLDialogElement) open.close();
  count += 1;
  const title = make("h2", { id: `sheet-${count}`, tabindex: "-1" }, heading);
  const wrong = make("p", { class: "fault", role: "alert", hidden: true });
  const box = make("dialog", { class: "over", "aria-labelledby": `sheet-${count}` });
  const sheet = {
    box,
    close: () => box.close(),
    fault: (/** @type {string} */ words) => {
      wrong.textContent = words;
      wrong.hidden = !words;
      if (words) wrong.scrollIntoView({ block: "nearest" });
    },
  };
  box.append(title, ...inside(sheet), wrong);
  box.addEventListener("close", () => box.remove());
  document.body.append(box);
  box.showModal();
  title.focus();
  return sheet;
}

/**
 * Do something that writes; where it fails, say why on the sheet and leave everything as it is.
 *
 * @param {Sheet} sheet
 * @param {() => Promise<void>} work
 */
export async function tried(sheet, work) {
  try {
    await work();
  } catch (wrong) {
    sheet.fault(wrong instanceof Fault || wrong instanceof Error ? wrong.message : String(wrong));
  }
}

/**
 * A field for words, with ready ones to tap.
 *
 * @param {string} label
 * @param {string[]} ready
 * @param {{rows?: string}} [how]
 * @returns {{part: HTMLElement, value: () => string, field: HTMLTextAreaElement}}
 */
export function wordsField(label, ready = [], { rows = "2" } = {}) {
  count += 1;
  const field = make("textarea", { id: `words-${count}`, rows, maxlength: "1000" });
  const chips = ready.map((words) =>
    make("button", {
      type: "button",
      class: "chip",
      click: () => {
        field.value = field.value.trim() ? `${field.value.trim()} ${words}.` : `${words}.`;
      },
    }, words),
  );
  const part = make("div", { class: "ask" }, make("label", { for: field.id }, label), make("div", { class: "chips" }, ...chips), field);
  return { part, value: () => field.value.trim(), field };
}

/**
 * One out of a few, as large rows.
 *
 * @param {string} legend
 * @param {{value: string, words: (Node | string)[]}[]} choices
 * @param {string} chosen
 * @returns {{part: HTMLElement, value: () => string}}
 */
export function choiceField(legend, choices, chosen) {
  count += 1;
  const name = `choice-${count}`;
  const rows = choices.map(({ value, words }) => {
    const pick = make("input", { type: "radio", name, value, id: `${name}-${value}` });
    pick.checked = value === chosen;
    return make("label", { class: "choice", for: pick.id }, pick, ...words);
  });
  const part = make("fieldset", {}, make("legend", {}, legend), ...rows);
  return { part, value: () => /** @type {HTMLInputElement | null} */ (part.querySelector("input:checked"))?.value ?? "" };
}

/**
 * The row at the foot of a sheet: the main button, then others.
 *
 * @param {...HTMLElement} buttons
 */
export const foot = (...buttons) => make("div", { class: "sheet-foot" }, ...buttons);

/**
 * @param {string} words
 * @param {() => void} press
 * @param {string} [sort]
 */
export const button = (words, press, sort = "") => make("button", { type: "button", class: sort, click: press }, words);

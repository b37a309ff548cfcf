/**
 * "Take along for today": fetches every handover of a day, so that all of it can be done without a network.
 *
 *   <div data-take-along>
 *     <button type="button">Take along for today</button> <p role="status"></p>
 *     <ul hidden><li data-take="3">Beatrix Lyle</li></ul>
 *   </div>
 */

import { carry, tidy } from "./carry.js";
import { canKeep } from "./pages.js";
import { counted } from "./words.js";

for (const box of document.querySelectorAll("[data-take-along]")) {
  const button = box.querySelector("button");
  const said = box.querySelector("[role=status]");
  if (button && said) button.addEventListener("click", () => take(box, button, said));
}

/**
 * @param {Element} box
 * @param {HTMLButtonElement} button
 * @param {Element} said
 */
async function take(box, button, said) {
  if (button.getAttribute("aria-disabled") === "true") return;
  button.setAttribute("aria-disabled", "true");
  const all = /** @type {HTMLElement[]} */ ([...box.querySelectorAll("[data-take]")]);
  /** @type {string[]} */
  const left = [];
  try {
    await navigator.storage?.persist?.();
    await tidy();
    for (const [number, row] of all.entries()) {
      said.textContent = `Fetching ${number + 1} of ${all.length}: ${row.textContent?.trim()}`;
      if (!(await carry(Number(row.dataset.take), { anew: true }))) left.push(row.textContent?.trim() ?? "");
    }
    said.textContent = inWords(all.length, left);
  } catch (fault) {
    said.textContent = fault instanceof Error ? fault.message : String(fault);
  } finally {
    button.removeAttribute("aria-disabled");
  }
}

/**
 * @param {number} many
 * @param {string[]} left
 */
function inWords(many, left) {
  if (!canKeep()) return "This address is not a secure one (https), so the tablet cannot open pages without a network.";
  if (left.length) return `Not all could be fetched: ${left.join("; ")}. Press again while there is a network.`;
  return `${counted(many, "handover is", "handovers are")} on this tablet now and open without a network.`;
}

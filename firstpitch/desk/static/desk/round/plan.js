/**
 * The page of a planned round: a better order is looked for while somebody reads, a step opens on a sheet, and a wish says at once
 * what it costs. Without this script the same links and forms lead to pages of their own.
 */

import { make } from "../tablet/make.js";
import { lines } from "../lines.js";

/** @param {number} seconds */
const clock = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;

/** @returns {string} the token that a form would carry */
const token = () => /(?:^|;\s*)csrftoken=([^;]*)/.exec(document.cookie)?.[1] ?? "";

/** Look for a better order, and tell how it goes. @param {HTMLElement} place */
async function look(place) {
  const words = /** @type {HTMLElement} */ (place.querySelector("[role=status]"));
  try {
    const answer = await fetch(place.dataset.better ?? "", { method: "POST", headers: { "X-CSRFToken": token(), Accept: "application/json" } });
    if (!answer.ok || !answer.body) throw new Error(String(answer.status));
    for await (const line of lines(answer.body)) {
      if (line.over) return finish(place, words, line);
      const bound = line.bound === null ? "" : `; none is quicker than ${clock(line.bound)}`;
      if (line.total !== null) words.textContent = `Looking for a better order: ${clock(line.total)} so far${bound}.`;
    }
  } catch {
    words.textContent = "The round is sound and ready to go. A better order could not be looked for: is there a network?";
  }
}

/**
 * @param {HTMLElement} place
 * @param {HTMLElement} words
 * @param {{better: boolean, words: string}} line
 */
function finish(place, words, line) {
  words.textContent = line.words || "Sound, and ready to go.";
  const show = place.querySelector("a");
  if (line.better && show) show.hidden = false;
  history.replaceState(null, "", location.pathname);
}

const sheet = document.getElementById("step-sheet");

/** @param {MouseEvent} press */
async function openStep(press) {
  const link = press.target instanceof Element ? press.target.closest("a[data-step]") : null;
  if (!(link instanceof HTMLAnchorElement) || !(sheet instanceof HTMLDialogElement) || press.metaKey || press.ctrlKey) return;
  press.preventDefault();
  try {
    const answer = await fetch(`${link.pathname}?part=panel`, { headers: { Accept: "text/html" } });
    if (!answer.ok || answer.redirected) throw new Error(String(answer.status));
    sheet.innerHTML = await answer.text();
    sheet.append(make("div", { class: "sheet-foot" }, make("button", { type: "button", click: () => sheet.close() }, "Back")));
    ask(sheet);
    sheet.showModal();
    sheet.querySelector("h2")?.focus();
    sheet.addEventListener("close", () => link.focus(), { once: true });
  } catch {
    location.assign(link.href);
  }
}

/** Say what a wish costs as soon as it is chosen. @param {ParentNode} root */
function ask(root) {
  const form = root.querySelector("form[data-wishes]");
  if (!(form instanceof HTMLFormElement)) return;
  const place = /** @type {HTMLElement} */ (form.querySelector("[data-price]"));
  const button = /** @type {HTMLButtonElement} */ (form.querySelector("button"));
  const begun = new FormData(form).get("wish");
  button.hidden = true;
  let asked = 0;
  form.addEventListener("change", async () => {
    const mine = (asked += 1);
    const load = new FormData(form);
    button.hidden = load.get("wish") === begun;
    if (button.hidden) return place.replaceChildren();
    place.replaceChildren(make("p", { class: "soft" }, "Reckoning …"));
    load.set("only", "price");
    const pieces = await costOf(form.action, load, button);
    if (mine === asked) place.replaceChildren(...pieces);
  });
}

/**
 * @param {string} action
 * @param {FormData} load
 * @param {HTMLButtonElement} button
 */
async function costOf(action, load, button) {
  try {
    const answer = await fetch(action, { method: "POST", body: load, headers: { Accept: "application/json", "X-CSRFToken": token() } });
    const { words, facts } = await answer.json();
    if (facts?.length) button.hidden = true;
    const list = make("ul", { class: "plain" }, ...(facts ?? []).map((/** @type {string} */ fact) => make("li", {}, fact)));
    return [make("p", { class: "big" }, words), ...(facts?.length ? [list] : [])];
  } catch {
    return [make("p", { class: "fault" }, "What it costs could not be reckoned: is there a network? You can still plan it like this.")];
  }
}

const looking = document.querySelector("[data-better]");
if (looking instanceof HTMLElement) look(looking);
document.addEventListener("click", openStep);
ask(document);

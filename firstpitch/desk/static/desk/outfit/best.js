/**
 * The best stow is looked for by the desk; how long it takes shows meanwhile, and nothing is moved before somebody says so.
 */

import { found, make } from "../tablet/make.js";
import { token } from "./keep.js";
import { lines } from "../lines.js";

/** @param {HTMLFormElement} form @param {(stow: import("./keep.js").Stow) => void} use */
export async function lookForBest(form, use) {
  const place = found("#best-found");
  const button = /** @type {HTMLButtonElement} */ (form.querySelector("button"));
  const bar = make("progress", { max: "1", "aria-label": "Looking for the best stow" });
  const words = make("p", {}, "Looking for the best stow …");
  place.replaceChildren(make("div", { class: "notice looking" }, words, bar));
  button.disabled = true;
  try {
    const headers = { Accept: "application/json", "X-CSRFToken": token() };
    const answer = await fetch(form.action, { method: "POST", headers });
    if (!answer.ok || !answer.body) throw new Error(String(answer.status));
    for await (const line of lines(answer.body)) {
      if (line.over) show(place, line, use);
      else {
        bar.value = Math.min(1, line.seconds / line.most);
        words.textContent = `Looking for the best stow: ${line.seconds.toFixed(0)} s of ${line.most.toFixed(0)} s at most.`;
      }
    }
  } catch {
    place.replaceChildren(make("p", { class: "fault" }, "The best stow could not be looked for: is there a network? What you moved is as it was."));
  }
  button.disabled = false;
}

/**
 * @param {HTMLElement} place
 * @param {{words: string, stow: any, moves?: string[], more?: string[], same?: boolean}} line
 * @param {(stow: import("./keep.js").Stow) => void} use
 */
function show(place, line, use) {
  if (!line.stow) return place.replaceChildren(make("p", { class: "fault" }, line.words));
  if (line.same) return place.replaceChildren(make("p", { class: "notice" }, `Everything lies as well as it can. ${line.words}`));
  const away = () => place.replaceChildren();
  const yes = make("button", { type: "button", class: "main", click: () => (away(), use(line.stow)) }, "Stow it like this");
  const no = make("button", { type: "button", click: away }, "Leave it as it is");
  const moves = line.moves ?? [];
  place.replaceChildren(
    make(
      "div",
      { class: "proposal" },
      make("h3", { tabindex: "-1" }, "The best stow"),
      make("p", {}, line.words),
      make("details", moves.length <= 6 ? { open: true } : {}, make("summary", {}, `${moves.length} ${moves.length === 1 ? "thing moves" : "things move"}`), make("ol", {}, ...moves.map((words) => make("li", {}, words)))),
      ...(line.more ?? []).map((words) => make("p", { class: "soft small" }, words)),
      make("div", { class: "row" }, yes, no),
    ),
  );
  place.querySelector("h3")?.focus();
}

/** The shapes of states, from the templates that the desk drew into the page. */

import { make } from "./make.js";

/**
 * A state with its words: shape first.
 *
 * @param {"done" | "now"} state
 * @param {string} words
 */
export function stated(state, words) {
  const template = document.getElementById(`state-${state}`);
  const shape = template instanceof HTMLTemplateElement ? template.content.firstElementChild : null;
  return make("p", { class: "state" }, ...(shape ? [shape.cloneNode(true)] : []), make("span", {}, words));
}

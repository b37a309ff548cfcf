/** The shapes of states and safety signs, cut from the templates that the desk drew into the page. */

import { make } from "../tablet/make.js";

/**
 * @param {"to-do"|"now"|"done"|"tried"|"waiting"|"left-out"|"cannot"} state
 * @returns {Element}
 */
export const stateShape = (state) => cut(`state-${state}`);

/**
 * @param {string} sign  warning, prohibition or must-do
 * @returns {Element}
 */
export const signShape = (sign) => cut(`sign-${sign}`);

/** @param {string} id */
function cut(id) {
  const template = document.getElementById(id);
  const shape = template instanceof HTMLTemplateElement ? template.content.firstElementChild : null;
  if (!shape) throw new Error(`the page has no ${id}`);
  return /** @type {Element} */ (shape.cloneNode(true));
}

/**
 * A state with its words: shape first.
 *
 * @param {Parameters<typeof stateShape>[0]} state
 * @param {...(Node | string)} words
 */
export function stated(state, ...words) {
  return make("span", { class: "state" }, stateShape(state), make("span", {}, ...words));
}

/**
 * A caution: the sign's shape, then the words.
 *
 * @param {{level: string, sign: string, text: string}} caution
 */
export function cautionLine({ level, sign, text }) {
  const grave = { stop: "Stop. ", care: "Take care. ", note: "" }[level] ?? "";
  const words = make("p", {}, make("strong", {}, grave), text);
  const shape = signShape(sign || (level === "stop" ? "prohibition" : "warning"));
  return make("div", { class: `caution caution-${level}` }, shape, words);
}

/**
 * Minutes and seconds.
 *
 * @param {number} seconds
 */
export function clock(seconds) {
  const whole = Math.max(0, Math.round(seconds));
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  return hours ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
}

/**
 * A time of day.
 *
 * @param {number} ms
 */
export function timeOfDay(ms) {
  return new Date(ms).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
}

/**
 * The list of places with what lies in them, and the figures above it.
 *
 * @typedef {import("./reckon.js").Numbers} Numbers
 * @typedef {import("./reckon.js").Lying} Lying
 * @typedef {import("./reckon.js").Reckoned} Reckoned
 * @typedef {import("./reckon.js").Span} Span
 */

import { found, make } from "../tablet/make.js";
import { HOME, NOWHERE } from "./reckon.js";

const MINUS = "\u2212";

/** @param {number} value @param {number} [digits] */
export const kilos = (value, digits = 0) =>
  `${value < 0 ? MINUS : ""}${Math.abs(value).toLocaleString("en-GB", { minimumFractionDigits: digits, maximumFractionDigits: digits })} kg`;

/** @param {number} value */
const signed = (value) => `${value > 0 ? "+" : MINUS}${kilos(Math.abs(value))}`;

/** @param {Span} span */
export function spanWords({ low, high }) {
  if (!Number.isFinite(low) && !Number.isFinite(high)) return "not known";
  if (!Number.isFinite(high)) return `at least ${kilos(low)}`;
  const [least, most] = [kilos(low), kilos(high)];
  return least === most ? least : `${least} to ${most}`;
}

/** The places in the order of the list. @param {Numbers} numbers */
export const places = (numbers) => [NOWHERE, ...numbers.lockers.map((locker) => locker.id), HOME];

/** @param {Numbers} numbers @param {string} place */
export function placeName(numbers, place) {
  if (place === NOWHERE) return "Not stowed yet";
  if (place === HOME) return "Not in the caravan";
  const locker = numbers.lockers.find((one) => one.id === place);
  return locker ? `${locker.number} ${locker.name}` : place;
}

/** @param {{name: string}} item @param {number} number */
export const named = (item, number) => (number > 1 ? `${number} × ${item.name}` : item.name);

/** Write the list. @param {Numbers} numbers @param {Lying} all @param {Reckoned} now */
export function showPlaces(numbers, all, now) {
  found("#places").replaceChildren(...places(numbers).map((place) => placeRow(numbers, all, now, place)));
  const options = [...document.querySelectorAll("#places button.chip")].map((chip) => {
    const { item = "", place = "" } = /** @type {HTMLElement} */ (chip).dataset;
    const what = /** @type {HTMLElement} */ (chip).dataset.words ?? "";
    return make("option", { value: `${item}|${place}` }, `${what} (${placeName(numbers, place)})`);
  });
  document.getElementById("m-thing")?.replaceChildren(...options);
}

/** @param {Numbers} numbers @param {Lying} all @param {Reckoned} now @param {string} place */
function placeRow(numbers, all, now, place) {
  const here = numbers.items.map((item) => ({ item, number: all.get(item.id)?.get(place) ?? 0 })).filter(({ number }) => number);
  const locker = numbers.lockers.find((one) => one.id === place);
  const row = make("li", { "data-place": place, class: locker || here.length ? "" : "bare" });
  const head = make("div", { class: "place-head" });
  if (locker) head.append(make("span", { class: "disc" }, locker.number), " ");
  head.append(make("span", { class: "name" }, locker ? locker.name : placeName(numbers, place)), " ");
  head.append(locker ? loadWords(locker, now) : apart(here));
  row.append(head);
  if (here.length) row.append(make("ul", { class: "chips" }, ...here.map(({ item, number }) => make("li", {}, chip(item, number, place)))));
  return row;
}

/** @param {{item: import("./reckon.js").Item, number: number}[]} here */
function apart(here) {
  const mass = here.reduce((sum, { item, number }) => sum + item.mass * number, 0);
  return make("span", { class: "figure" }, here.length ? kilos(mass, 1) : "");
}

/** @param {import("./reckon.js").Locker} locker @param {Reckoned} now */
function loadWords(locker, now) {
  const load = now.lockers.get(locker.id);
  const mass = load?.mass ?? 0;
  const words = make("span", { class: "figure" });
  if (locker.limit === null) {
    words.append(`${kilos(mass, 1)}, `, make("span", { class: "unknown" }, make("span", {}, "limit not known")));
    return words;
  }
  words.append(`${kilos(mass, 1).replace(" kg", "")} of ${kilos(locker.limit)}`);
  if (load?.over) words.append(" ", flag(`${kilos(mass - locker.limit, 1)} too much`));
  if (load?.full) words.append(" ", flag(`full ${load.filled.toFixed(1)} times over`));
  return words;
}

/** @param {string} words */
const flag = (words) => make("span", { class: "word does-not-fit" }, make("span", {}, words));

/** @param {import("./reckon.js").Item} item @param {number} number @param {string} place */
function chip(item, number, place) {
  const wrong = item.why[place];
  const words = named(item, number);
  const button = make("button", { type: "button", class: "chip", "data-item": item.id, "data-place": place, "data-number": String(number), "data-words": words });
  button.append(make("span", { class: "grip", "aria-hidden": "true" }), make("span", { class: "what" }, words), " ", make("span", { class: "figure" }, kilos(item.mass * number, 1)));
  if (wrong) button.append(" ", make("span", { class: "word tight" }, make("span", {}, wrong)));
  return button;
}

/**
 * Write the figures that change at once. @param {Numbers} numbers @param {Reckoned} now @param {Reckoned} before
 */
export function showFigures(numbers, now, before) {
  cell("nose", spanWords(now.nose), numbers.band.ruling, now.words.nose, change(now.nose, before.nose));
  cell("axle", spanWords(now.axle.carries), numbers.axle_limit, now.words.axle, change(now.axle.carries, before.axle.carries), now.axle.name);
  cell("payload", spanWords(now.payload), numbers.payload.limit, now.words.payload, change(now.payload, before.payload));
  const swing = now.inertia - before.inertia;
  const same = Math.abs(now.stowed - before.stowed) < 0.001; // else it is another load that swings
  const more = !same || Math.abs(swing) < 0.5 ? "" : `${signed(swing).replace(" kg", "")}: ${swing < 0 ? "less" : "more"} swing`;
  const much = now.loose ? "not known" : `${now.inertia.toLocaleString("en-GB", { maximumFractionDigits: 0 })} kg·m²`;
  cell("swing", much, null, null, now.loose ? "until all is stowed" : more);
}

/** @param {Span} now @param {Span} before */
function change(now, before) {
  const by = now.low - before.low;
  const exact = now.high - now.low < 0.5 && before.high - before.low < 0.5;
  return exact && Math.abs(by) >= 0.5 ? signed(by) : "";
}

/**
 * @param {string} key @param {string} much @param {number | null} limit @param {string | null} word @param {string} changed
 * @param {string} [title]
 */
function cell(key, much, limit, word, changed, title) {
  const place = found(`#at-once [data-now="${key}"]`);
  const dd = /** @type {HTMLElement} */ (place.querySelector("dd"));
  if (title) /** @type {HTMLElement} */ (place.querySelector("dt")).textContent = title;
  const parts = [make("span", { class: "much" }, much), " "];
  if (limit !== null) parts.push(make("span", { class: "limit" }, `of ${kilos(limit)}`), " ");
  if (word) parts.push(make("span", { class: `word ${word.replaceAll(" ", "-")}` }, make("span", {}, word)), " ");
  if (changed) parts.push(make("span", { class: "changed-by" }, changed));
  dd.replaceChildren(...parts);
}

/** What the desk's model says of the last move. @param {string} gain */
export function showGain(gain) {
  const dd = found('#at-once [data-now="swing"] dd');
  dd.querySelector(".gain")?.remove();
  if (gain) dd.append(make("span", { class: "gain" }, gain[0].toUpperCase() + gain.slice(1)));
}

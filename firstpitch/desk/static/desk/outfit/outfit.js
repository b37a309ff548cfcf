/**
 * The page of an outfit: things are moved between lockers, figures and drawings follow at once, the desk's verdicts come after.
 * Without this script the forms of the page do the same, a step at a time.
 */

import { found, make } from "../tablet/make.js";
import { lookForBest } from "./best.js";
import { follow } from "./drawing.js";
import { Hand, chipOf, say } from "./hand.js";
import { Keeper } from "./keep.js";
import { kilos, placeName, showFigures, showGain, showPlaces, spanWords } from "./list.js";
import { HOME, NOWHERE, copy, lying, move, reckon, stored } from "./reckon.js";

/**
 * @typedef {import("./reckon.js").Lying} Lying
 * @typedef {import("./hand.js").InHand} InHand
 */

const given = JSON.parse(found("#outfit-figures").textContent ?? "{}");
const { stow: address = "", handover = "" } = found("#outfit-where").dataset;
let numbers = /** @type {import("./reckon.js").Numbers} */ (given.numbers);
let all = lying(numbers, given.stow);
let before = reckon(numbers, all);
/** @type {Lying[]} */
const past = [];

const said = found("#stow-said");
const bar = found("#in-hand");
const undo = /** @type {HTMLButtonElement} */ (found("#undo"));
const keeper = new Keeper(address, handover, given.mark, heard);
const hand = new Hand(() => numbers, put, effect);

/** Draw everything that follows from where things lie. */
function show() {
  const now = reckon(numbers, all);
  showPlaces(numbers, all, now);
  showFigures(numbers, now, before);
  follow(numbers, now);
  undo.hidden = past.length === 0;
  return now;
}

/** Change where things lie, and keep it. @param {Lying} next @param {number} began @param {{best?: boolean, remember?: boolean}} [how] */
function change(next, began, { best = false, remember = true } = {}) {
  if (remember) past.push(all);
  before = reckon(numbers, all);
  all = next;
  found("#best-found").replaceChildren();
  showGain("");
  const now = show();
  stale(true);
  requestAnimationFrame(() => setTimeout(() => performance.measure("stow-at-once", { start: began, end: performance.now() })));
  keeper.keep(stored(all), { best });
  performance.mark("stow-sent");
  return now;
}

/** @param {InHand} held @param {string} to @param {number} began */
function put(held, to, began) {
  const chip = chipOf(held.item, held.from)?.getBoundingClientRect();
  const next = copy(all);
  move(next, held.item, held.from, to, held.number);
  const now = change(next, began);
  const landed = chipOf(held.item, to);
  landed?.focus({ preventScroll: true });
  if (landed && chip) slide(landed, chip);
  const nose = spanWords(now.nose);
  const place = to === HOME ? "not in the caravan" : to === NOWHERE ? "not stowed" : `in ${placeName(numbers, to)}`;
  const many = held.number < held.most ? `${held.number} of ${held.words}` : held.words;
  done(`${many} ${held.number > 1 ? "are" : "is"} now ${place}. Noseweight ${nose}: ${now.words.nose}.`);
}

/** Say what was done, with the way back beside it. @param {string} words */
function done(words) {
  const away = () => (bar.hidden = true);
  const back = make("button", { type: "button", click: (event) => (away(), takeBack(event.timeStamp)) }, "Undo");
  bar.replaceChildren(make("p", { class: "figure done" }, words), make("div", { class: "in-hand-acts" }, back, make("button", { type: "button", class: "quiet", click: away }, "Close")));
  bar.hidden = false;
  say(words);
}

/** A thing slides to its locker, where the device does not ask for less. @param {HTMLElement} landed @param {DOMRect} from */
function slide(landed, from) {
  if (matchMedia("(prefers-reduced-motion: reduce)").matches) return;
  const to = landed.getBoundingClientRect();
  landed.animate([{ translate: `${from.x - to.x}px ${from.y - to.y}px` }, { translate: "0 0" }], { duration: 160, easing: "ease-out" });
}

/** What putting it at its target would do. @param {InHand} held */
function effect(held) {
  const trial = copy(all);
  move(trial, held.item, held.from, held.target, held.number);
  const [now, then] = [reckon(numbers, all), reckon(numbers, trial)];
  const item = numbers.items.find((one) => one.id === held.item);
  const wrong = item?.why[held.target];
  const load = then.lockers.get(held.target);
  const parts = [];
  if (wrong) parts.push(`not for here: ${wrong}`);
  else if (load?.over || load?.full) parts.push("too much for this locker");
  const nose = (then.nose.low + then.nose.high - now.nose.low - now.nose.high) / 2;
  if (Number.isFinite(nose)) {
    const by = Math.abs(nose) < 0.5 ? "as it is" : `${nose > 0 ? "+" : "\u2212"}${kilos(Math.abs(nose))}`;
    parts.push(`noseweight ${spanWords(then.nose)} (${by}): ${then.words.nose}`);
  }
  const words = parts.join("; ");
  return words ? `${words[0].toUpperCase()}${words.slice(1)}.` : "";
}

/** The verdicts below are those of before the last move. @param {boolean} on */
function stale(on) {
  for (const part of document.querySelectorAll("[id^=part-]")) part.toggleAttribute("data-stale", on);
}

/** @param {import("./keep.js").News} news */
function heard(news) {
  if (news.sort === "judged") {
    said.hidden = true;
    if (!news.last) return;
    if (news.data.numbers) numbers = news.data.numbers;
    for (const [name, html] of Object.entries(news.data.parts)) replace(name, html);
    show();
    stale(false);
    showGain(news.data.gain);
    performance.measure("stow-judged", { start: performance.getEntriesByName("stow-sent").at(-1)?.startTime, end: performance.now() });
    if (hand.held) hand.aim(hand.held.target);
    return;
  }
  if (news.sort === "changed") return tell("Somebody else moved things meanwhile. What you see is yours.", [
    make("button", { type: "button", click: () => theirs() }, "Take theirs"),
    make("button", { type: "button", click: () => mine(news.data.mark) }, "Keep mine"),
  ]);
  tell(news.words, news.sort === "refused" ? [make("button", { type: "button", click: () => location.reload() }, "Load the page again")] : []);
}

/** @param {string} words @param {Node[]} acts */
function tell(words, acts) {
  said.replaceChildren(words, " ", ...acts);
  said.hidden = false;
}

async function theirs() {
  await keeper.forget();
  location.reload();
}

/** @param {string} mark */
function mine(mark) {
  said.hidden = true;
  keeper.mark = mark;
  keeper.keep(stored(all), { force: true });
}

/** Put a part of the page that the desk drew anew in its place; what was unfolded stays so. @param {string} name @param {unknown} html */
function replace(name, html) {
  const place = document.getElementById(`part-${name}`);
  if (!place) return;
  const open = [...place.querySelectorAll("details[open][data-keep]")].map((one) => /** @type {HTMLElement} */ (one).dataset.keep);
  const [focused, slid] = [place.contains(document.activeElement), [...place.querySelectorAll(".drawing")].map((one) => one.scrollLeft)];
  place.innerHTML = String(html);
  for (const one of place.querySelectorAll("details[data-keep]")) one.toggleAttribute("open", open.includes(/** @type {HTMLElement} */ (one).dataset.keep));
  for (const [n, one] of [...place.querySelectorAll(".drawing")].entries()) one.scrollLeft = slid[n] ?? 0;
  if (focused) /** @type {HTMLElement | null} */ (place.querySelector("button, a, summary, [tabindex]"))?.focus({ preventScroll: true });
}

/** @param {number} began */
function takeBack(began) {
  const last = past.pop();
  if (!last) return;
  const now = change(last, began, { remember: false });
  say(`Taken back. Noseweight ${spanWords(now.nose)}.`);
  bar.hidden = true;
  if (undo.hidden && document.activeElement === document.body) found("#best button").focus();
}

undo.addEventListener("click", (event) => takeBack(event.timeStamp));
document.addEventListener("keydown", (event) => {
  const typing = /** @type {Element} */ (event.target).closest("input, textarea, select");
  if (event.key !== "z" || !(event.ctrlKey || event.metaKey) || typing || hand.held) return;
  event.preventDefault();
  takeBack(event.timeStamp);
});

document.addEventListener("submit", (event) => {
  const form = /** @type {HTMLFormElement} */ (event.target);
  if (form.id === "better") {
    event.preventDefault();
    const { item = "", from = "", to = "", number = "1" } = form.dataset;
    const next = copy(all);
    move(next, item, from, to, Number(number));
    change(next, event.timeStamp);
    done(form.querySelector("p")?.textContent?.replace("One better move.", "Done.") ?? "Done.");
  } else if (form.id === "best") {
    event.preventDefault();
    lookForBest(form, (stow) => change(lying(numbers, stow), performance.now(), { best: true }));
  }
});

/** Things moved on an earlier visit that the desk has not had yet come first. */
async function begin() {
  show();
  found("#how-to").hidden = false;
  const left = await keeper.waiting();
  if (left) {
    all = lying(numbers, left.stow);
    keeper.mark = left.mark;
    stale(true);
    keeper.keep(left.stow);
    show();
  }
  document.documentElement.dataset.ready = "outfit";
}
begin();

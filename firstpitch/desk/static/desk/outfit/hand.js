/**
 * Taking a thing in hand and putting it down: by mouse, by its grip with a finger, by a press and another, or by keys alone.
 *
 * @typedef {import("./reckon.js").Numbers} Numbers
 * @typedef {{item: string, from: string, number: number, most: number, words: string, target: string}} InHand
 */

import { found, make } from "../tablet/make.js";
import { lockerAt, mark } from "./drawing.js";
import { placeName, places } from "./list.js";

const FAR = 6; // px a pointer moves before it drags
const EDGE = 70; // px from the edge of the screen where the page begins to slide
const STEP = 14;

export class Hand {
  /**
   * @param {() => Numbers} numbers
   * @param {(held: InHand, to: string, began: number) => void} put
   * @param {(held: InHand) => string} effect  what putting it at its target would do, in words
   */
  constructor(numbers, put, effect) {
    this.numbers = numbers;
    this.put = put;
    this.effect = effect;
    /** @type {InHand | null} */
    this.held = null;
    /** @type {{chip: HTMLElement, x: number, y: number, ghost: HTMLElement | null, id: number} | null} */
    this.drag = null;
    this.dragged = false;
    this.sliding = 0;
    document.addEventListener("click", (event) => this.clicked(event));
    document.addEventListener("keydown", (event) => this.pressed(event));
    document.addEventListener("pointerdown", (event) => this.down(event));
    document.addEventListener("pointermove", (event) => this.moved(event));
    document.addEventListener("pointerup", (event) => this.up(event));
    document.addEventListener("pointercancel", () => this.putBack());
  }

  /** @param {HTMLElement} chip */
  take(chip) {
    const { item = "", place = "", number = "1", words = "" } = chip.dataset;
    const most = Number(number);
    this.held = { item, from: place, number: most, most, words, target: place };
    this.bar();
    this.aim(place);
    say(`${words} in hand. Choose a place with the arrow keys, put it down with Enter, put it back with Escape.`);
  }

  putBack() {
    if (!this.held) return;
    const { item, from, words } = this.held;
    this.letGo();
    chipOf(item, from)?.focus();
    say(`${words} is back where it was.`);
  }

  letGo() {
    this.held = null;
    this.drag?.ghost?.remove();
    this.drag = null;
    cancelAnimationFrame(this.sliding);
    found("#in-hand").hidden = true;
    found("#in-hand").classList.remove("dragging");
    mark(null, null);
    for (const row of document.querySelectorAll("#places > .target, #places > .from")) row.classList.remove("target", "from");
    for (const chip of document.querySelectorAll("#places .held")) chip.classList.remove("held");
  }

  /** @param {string} to @param {number} began */
  putDown(to, began) {
    const { held } = this;
    if (!held) return;
    if (to === held.from) return this.putBack();
    this.letGo();
    this.put(held, to, began);
  }

  /** @param {string} place */
  aim(place) {
    if (!this.held) return;
    this.held.target = place;
    mark(place, this.held.from);
    for (const row of document.querySelectorAll("#places > li")) {
      const { place: id } = /** @type {HTMLElement} */ (row).dataset;
      row.classList.toggle("target", id === place && place !== this.held.from);
      row.classList.toggle("from", id === this.held.from);
    }
    chipOf(this.held.item, this.held.from)?.classList.add("held");
    this.preview();
  }

  /** Say in the bar what putting it there would do. */
  preview() {
    const words = document.getElementById("in-hand-words");
    const choose = document.getElementById("in-hand-to");
    if (!this.held || !words) return "";
    if (choose instanceof HTMLSelectElement) choose.value = this.held.target;
    words.textContent = this.held.target === this.held.from ? "" : this.effect(this.held);
    return words.textContent;
  }

  /** The bar at the foot: what is in hand, how many of it, where to. */
  bar() {
    const { held } = this;
    if (!held) return;
    const options = places(this.numbers()).map((place) => make("option", { value: place }, placeName(this.numbers(), place)));
    const choose = make("select", { id: "in-hand-to", "aria-label": "Where to" }, ...options);
    choose.addEventListener("change", () => this.aim(choose.value));
    const many = make("div", { class: "how-many" });
    const count = make("span", { class: "figure", role: "status" }, String(held.number));
    const step = (/** @type {number} */ by) => () => {
      held.number = Math.min(held.most, Math.max(1, held.number + by));
      count.textContent = String(held.number);
      this.preview();
    };
    if (held.most > 1) {
      many.append(make("button", { type: "button", "aria-label": "One fewer", click: step(-1) }, "\u2212"), count, make("button", { type: "button", "aria-label": "One more", click: step(1) }, "+"));
    }
    const down = make("button", { type: "button", class: "main", click: (event) => this.putDown(this.held?.target ?? "", event.timeStamp) }, "Put it there");
    const back = make("button", { type: "button", click: () => this.putBack() }, "Put it back");
    const head = make("p", {}, make("strong", {}, held.words), " in hand");
    const place = found("#in-hand");
    place.replaceChildren(head, many, choose, make("p", { class: "figure", id: "in-hand-words" }), make("div", { class: "in-hand-acts" }, down, back));
    place.hidden = false;
  }

  /** @param {MouseEvent} event */
  clicked(event) {
    const target = /** @type {Element} */ (event.target);
    if (this.dragged) {
      this.dragged = false;
      return;
    }
    if (target.closest("#in-hand")) return;
    const chip = target.closest("button.chip");
    if (!this.held) {
      if (chip instanceof HTMLElement) this.take(chip);
      return;
    }
    if (chip instanceof HTMLElement && chip.dataset.item === this.held.item && chip.dataset.place === this.held.from) return this.putBack();
    const place = this.placeAt(event.clientX, event.clientY, target);
    if (place !== null) this.putDown(place, event.timeStamp);
  }

  /** @param {number} x @param {number} y @param {Element | null} target */
  placeAt(x, y, target) {
    const row = target?.closest("#places > li");
    if (row instanceof HTMLElement) return row.dataset.place ?? null;
    return lockerAt(x, y, this.numbers());
  }

  /** @param {KeyboardEvent} event */
  pressed(event) {
    if (!this.held) return;
    if (event.key === "Escape") {
      event.preventDefault();
      return this.putBack();
    }
    const at = /** @type {Element} */ (event.target);
    if (at.closest("#in-hand") || !at.closest("#places")) return;
    const row = places(this.numbers());
    const here = row.indexOf(this.held.target);
    /** @type {Record<string, number>} */
    const steps = { ArrowDown: here + 1, ArrowRight: here + 1, ArrowUp: here - 1, ArrowLeft: here - 1, Home: 0, End: row.length - 1 };
    if (event.key in steps) {
      event.preventDefault();
      this.aim(row[(steps[event.key] + row.length) % row.length]);
      const effect = this.preview();
      say(`${placeName(this.numbers(), this.held.target)}. ${effect || "It is there now."}`);
      document.querySelector("#places > .target")?.scrollIntoView({ block: "nearest" });
    } else if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      this.putDown(this.held.target, event.timeStamp);
    }
  }

  /** @param {PointerEvent} event */
  down(event) {
    const target = /** @type {Element} */ (event.target);
    const chip = target.closest("button.chip");
    this.dragged = false;
    if (!(chip instanceof HTMLElement) || event.button || !event.isPrimary) return;
    if (event.pointerType === "touch" && !target.closest(".grip")) return;
    this.drag = { chip, x: event.clientX, y: event.clientY, ghost: null, id: event.pointerId };
  }

  /** @param {PointerEvent} event */
  moved(event) {
    const { drag } = this;
    if (!drag || event.pointerId !== drag.id) return;
    if (!drag.ghost) {
      if (Math.hypot(event.clientX - drag.x, event.clientY - drag.y) < FAR) return;
      this.take(drag.chip);
      drag.ghost = make("div", { class: "ghost", "aria-hidden": "true" }, drag.chip.dataset.words ?? "");
      document.body.append(drag.ghost);
      this.drag = drag;
      found("#in-hand").classList.add("dragging");
      drag.chip.setPointerCapture?.(event.pointerId);
    }
    event.preventDefault();
    [drag.x, drag.y] = [event.clientX, event.clientY];
    drag.ghost.style.translate = `${event.clientX + 14}px ${event.clientY + 10}px`;
    this.over();
    this.slide();
  }

  over() {
    if (!this.drag || !this.held) return;
    const { x, y } = this.drag;
    const place = this.placeAt(x, y, document.elementFromPoint(x, y));
    if ((place ?? this.held.from) !== this.held.target) this.aim(place ?? this.held.from);
  }

  /** Near the upper and lower edge the page slides under what is dragged. */
  slide() {
    cancelAnimationFrame(this.sliding);
    this.sliding = requestAnimationFrame(() => {
      if (!this.drag?.ghost) return;
      const by = this.drag.y < EDGE ? -STEP : this.drag.y > innerHeight - EDGE ? STEP : 0;
      if (!by) return;
      scrollBy(0, by);
      this.over();
      this.slide();
    });
  }

  /** @param {PointerEvent} event */
  up(event) {
    const { drag } = this;
    this.drag = null;
    if (!drag?.ghost || event.pointerId !== drag.id) return;
    drag.ghost.remove();
    this.dragged = true; // the click that follows is part of this
    setTimeout(() => (this.dragged = false), 0);
    const place = this.placeAt(event.clientX, event.clientY, document.elementFromPoint(event.clientX, event.clientY));
    if (place === null) this.putBack();
    else this.putDown(place, event.timeStamp);
  }
}

/** @param {string} item @param {string} place @returns {HTMLElement | null} */
export const chipOf = (item, place) => document.querySelector(`#places button.chip[data-item="${item}"][data-place="${place}"]`);

/** Tell those who hear the page. @param {string} words */
export function say(words) {
  found("#told").textContent = words;
}

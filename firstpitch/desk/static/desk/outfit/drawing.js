/**
 * The drawings of the load follow at once: lockers fill and empty, the centre of gravity and the pointer of the noseweight wander.
 * Drawn anew by the desk with the next verdict.
 *
 * @typedef {import("./reckon.js").Numbers} Numbers
 * @typedef {import("./reckon.js").Reckoned} Reckoned
 */

const NEAR = 34; // a finger this close to a number [px] means it

/** @param {string} selector @returns {SVGElement[]} */
const all = (selector) => [...document.querySelectorAll(selector)].filter((one) => one instanceof SVGElement);

/** @param {Numbers} numbers @param {Reckoned} now */
export function follow(numbers, now) {
  for (const { id, limit } of numbers.lockers) {
    const mass = now.lockers.get(id)?.mass ?? 0;
    for (const box of all(`[data-holds="${id}"] rect`)) box.setAttribute("visibility", mass > 0 ? "visible" : "hidden");
    for (const part of all(`[data-locker="${id}"]`)) if (limit) fill(part, mass / limit);
  }
  for (const part of all("[data-balance]")) {
    const away = (now.centre - Number(part.dataset.balance)) * Number(part.dataset.scale);
    part.setAttribute("transform", `translate(${away.toFixed(2)} 0)`);
  }
  point(now.nose);
}

/** @param {SVGElement} part @param {number} share of the limit that is used */
function fill(part, share) {
  const [box, inner] = part.querySelectorAll("rect");
  if (!box || !inner) return;
  const [top, tall] = [Number(box.getAttribute("y")), Number(box.getAttribute("height"))];
  const high = Math.max(0, (tall - 1) * Math.min(share, 1) - 1);
  inner.setAttribute("height", high.toFixed(2));
  inner.setAttribute("y", (top + tall - 1 - high).toFixed(2));
}

/** @param {{low: number, high: number}} nose */
function point(nose) {
  for (const part of all("[data-pointer]")) {
    const words = part.querySelector("text");
    const [drawn, top, kilo] = [part.dataset.pointer, part.dataset.top, part.dataset.kilo].map(Number);
    const exact = Math.abs(nose.high - nose.low) < 0.5;
    part.classList.toggle("unsure", !exact);
    const shown = Math.min(Math.max(nose.low, 0), top);
    part.setAttribute("transform", `translate(${((shown - drawn) * kilo).toFixed(2)} 0)`);
    if (words) words.textContent = exact ? `${nose.low.toFixed(0)} kg` : `${nose.low.toFixed(0)} to ${nose.high.toFixed(0)} kg`;
  }
}

/** The locker at a place on the screen, if a drawing is there. @param {number} x @param {number} y @param {Numbers} numbers */
export function lockerAt(x, y, numbers) {
  const drawing = document.elementFromPoint(x, y)?.closest(".load-drawing");
  if (!(drawing instanceof HTMLElement)) return null;
  const named = drawing.dataset.view === "plan" ? nearest(drawing, x, y, numbers) : null;
  return named ?? boxAt(drawing, x, y);
}

/** @param {HTMLElement} drawing @param {number} x @param {number} y @param {Numbers} numbers */
function nearest(drawing, x, y, numbers) {
  let [found, least] = [/** @type {string | null} */ (null), NEAR];
  for (const label of drawing.querySelectorAll("text.fp-number")) {
    const box = label.getBoundingClientRect();
    const away = Math.hypot(x - box.x - box.width / 2, y - box.y - box.height / 2);
    if (away >= least) continue;
    const id = numbers.lockers.find((locker) => locker.number === label.textContent)?.id;
    if (id) [found, least] = [id, away];
  }
  return found;
}

/** @param {HTMLElement} drawing @param {number} x @param {number} y */
function boxAt(drawing, x, y) {
  let [found, least] = [/** @type {string | null} */ (null), Infinity];
  for (const part of drawing.querySelectorAll("[data-locker], [data-holds]")) {
    const box = part.getBoundingClientRect();
    const inside = x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;
    if (inside && box.width * box.height < least) {
      [found, least] = [/** @type {SVGElement} */ (part).dataset.locker ?? /** @type {SVGElement} */ (part).dataset.holds ?? null, box.width * box.height];
    }
  }
  return found;
}

/** Show in the drawings which locker is meant, and which one the thing comes from. @param {string | null} target @param {string | null} from */
export function mark(target, from) {
  for (const part of all("[data-locker], [data-holds]")) {
    const id = part.dataset.locker ?? part.dataset.holds;
    part.classList.toggle("target", target !== null && id === target);
    part.classList.toggle("from", from !== null && id === from && id !== target);
  }
}

/**
 * The strip of the drawing: where the presenter stands, where to walk, and the next place as the only filled mark. The drawing is the
 * desk's own, from the kit; only the walk is drawn here.
 */

import { onPaper, way } from "../tablet/way.js";

/**
 * @typedef {import("../tablet/way.js").Point} Point
 * @typedef {{from: string, to: string, kit: string}} Walk   places, and the kit of the next step
 */

const SVG = "http://www.w3.org/2000/svg";
const ROOM = 70; // clear paper round the walk [units]
const LEAST = [560, 330]; // never nearer than this [units]
const RADIUS_PX = 15;

/**
 * Put the drawing into its place.
 *
 * @param {HTMLElement} place
 * @param {any} kit
 * @returns {{show: (walk: Walk | null) => void}}
 */
export function layStrip(place, kit) {
  const drawn = new DOMParser().parseFromString(kit.drawing, "image/svg+xml").documentElement;
  const picture = /** @type {SVGSVGElement} */ (document.importNode(/** @type {Element} */ (drawn), true));
  picture.setAttribute("class", "strip");
  picture.setAttribute("preserveAspectRatio", "xMidYMid meet");
  const over = document.createElementNS(SVG, "g");
  picture.append(over);
  place.replaceChildren(picture);
  const [width, height] = kit.ground.paper.size;
  /** @type {Walk | null} */
  let shown = null;
  const draw = () => {
    over.replaceChildren();
    const box = shown ? boxOf(kit, shown, place, [width, height]) : [0, 0, width, height];
    picture.setAttribute("viewBox", box.map((each) => each.toFixed(1)).join(" "));
    if (!shown) return;
    const unit = Math.max(box[2] / Math.max(1, place.clientWidth), box[3] / Math.max(1, place.clientHeight));
    drawWalk(over, kit, shown, unit);
    drawNext(over, picture, kit, shown, unit);
    drawHere(over, pathOf(kit, shown)[0], unit);
  };
  new ResizeObserver(draw).observe(place);
  return {
    show: (walk) => {
      shown = walk;
      draw();
    },
  };
}

/**
 * The part of the drawing that is shown: the walk with some van round it, in the shape of the place, never past the paper.
 *
 * @param {any} kit
 * @param {Walk} walk
 * @param {HTMLElement} place
 * @param {[number, number]} size
 */
function boxOf(kit, walk, place, size) {
  if (!place.clientHeight) return [0, 0, ...size];
  const points = pathOf(kit, walk);
  const low = [0, 1].map((i) => Math.min(...points.map((point) => point[i])) - ROOM);
  const high = [0, 1].map((i) => Math.max(...points.map((point) => point[i])) + ROOM);
  const shape = place.clientWidth / place.clientHeight;
  let tall = Math.max(LEAST[1], high[1] - low[1], Math.max(LEAST[0], high[0] - low[0]) / shape);
  tall = Math.min(tall, Math.max(size[1], size[0] / shape));
  const span = [tall * shape, tall];
  return [0, 1].map((i) => (span[i] >= size[i] ? (size[i] - span[i]) / 2 : Math.min(Math.max(0, (low[i] + high[i] - span[i]) / 2), size[i] - span[i]))).concat(span);
}

/**
 * @param {any} kit
 * @param {Walk} walk
 * @returns {Point[]}
 */
function pathOf({ ground, problem }, { from, to }) {
  return way(ground, problem.places, from, to).map((point) => onPaper(ground.paper, point));
}

/**
 * @param {SVGElement} over
 * @param {any} kit
 * @param {Walk} walk
 * @param {number} unit  units to a pixel
 */
function drawWalk(over, kit, walk, unit) {
  const points = pathOf(kit, walk);
  if (points.length > 1) {
    add(over, "path", "fp-walk strip-walk", { d: `M${points.map((point) => point.map((v) => v.toFixed(1)).join(" ")).join("L")}` });
    const [a, b] = points.slice(-2);
    const angle = Math.atan2(b[1] - a[1], b[0] - a[0]);
    const wing = (/** @type {number} */ turn) => [b[0] - 13 * unit * Math.cos(angle + turn), b[1] - 13 * unit * Math.sin(angle + turn)].map((v) => v.toFixed(1)).join(" ");
    add(over, "path", "fp-arrow", { d: `M${b.map((v) => v.toFixed(1)).join(" ")}L${wing(0.45)}L${wing(-0.45)}Z` });
  }
}

/**
 * @param {SVGElement} over
 * @param {Point} point
 * @param {number} unit
 */
function drawHere(over, [x, y], unit) {
  add(over, "circle", "strip-here", { cx: x, cy: y, r: 8 * unit });
  add(over, "circle", "strip-here-dot", { cx: x, cy: y, r: 3 * unit });
}

/**
 * @param {SVGElement} over
 * @param {SVGElement} picture
 * @param {any} kit
 * @param {Walk} walk
 * @param {number} unit
 */
function drawNext(over, picture, kit, walk, unit) {
  const number = kit.kits.find((/** @type {any} */ each) => each.id === walk.kit)?.number;
  const spot = number === undefined ? null : markOf(picture, number);
  const last = pathOf(kit, walk).at(-1) ?? [0, 0];
  const [x, y] = spot ?? last;
  add(over, "circle", "fp-mark-next", { cx: x, cy: y, r: RADIUS_PX * unit });
  const words = add(over, "text", "fp-number-next", { x, y: y + 6 * unit, "font-size": 17 * unit });
  words.textContent = number === undefined ? "" : String(number);
}

/**
 * Where the drawing has the mark of a number.
 *
 * @param {SVGElement} picture
 * @param {number} number
 * @returns {Point | null}
 */
function markOf(picture, number) {
  for (const group of picture.querySelectorAll("g")) {
    const title = group.querySelector("title")?.textContent ?? "";
    const disc = title.startsWith(`${number} `) ? group.querySelector("circle") : null;
    if (disc) return [Number(disc.getAttribute("cx")), Number(disc.getAttribute("cy"))];
  }
  return null;
}

/**
 * @param {SVGElement} into
 * @param {string} name
 * @param {string} cls
 * @param {Record<string, string | number>} shape
 */
function add(into, name, cls, shape) {
  const made = document.createElementNS(SVG, name);
  made.setAttribute("class", cls);
  for (const [key, value] of Object.entries(shape)) made.setAttribute(key, typeof value === "number" ? value.toFixed(1) : value);
  into.append(made);
  return made;
}

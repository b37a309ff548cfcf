/**
 * The way a person walks between two places of the round, as papers/route.py draws it: round the outside the shorter way, along the
 * aisle, through the door. No DOM.
 *
 * @typedef {[number, number]} Point   metres
 * @typedef {object} Ground
 * @property {Point[]} outline    a closed line; its last point joins its first
 * @property {Point[]} aisle
 * @property {number} door_outside   metres along the outline
 * @property {number} door_inside    metres along the aisle
 * @property {Record<string, number>} along   for each place, metres along its line
 * @property {{scale: number, low: number, top: number, size: [number, number]}} paper
 */

const SAME_M = 0.001;

/**
 * @param {Ground} ground
 * @param {Record<string, {inside: boolean}>} places
 * @param {string} from
 * @param {string} to
 * @returns {Point[]}
 */
export function way(ground, places, from, to) {
  const [a, b] = [ground.along[from], ground.along[to]];
  const [within, inwards] = [places[from].inside, places[to].inside];
  let points;
  if (within && inwards) points = along(ground.aisle, a, b);
  else if (!within && !inwards) points = round(ground, a, b);
  else if (inwards) points = [...round(ground, a, ground.door_outside), ...indoors(ground, b)];
  else points = [...indoors(ground, a).reverse(), ...round(ground, ground.door_outside, b)];
  return points.filter((point, i) => i === 0 || dist(point, points[i - 1]) > SAME_M);
}

/**
 * From outside the door to a point of the aisle.
 *
 * @param {Ground} ground
 * @param {number} to
 */
function indoors(ground, to) {
  return [pointAt(closed(ground), ground.door_outside), ...along(ground.aisle, ground.door_inside, to)];
}

/** @param {Ground} ground */
const closed = ({ outline }) => [...outline, outline[0]];

/**
 * @param {Ground} ground
 * @param {number} start
 * @param {number} end
 */
function round(ground, start, end) {
  const whole = lengthOf(closed(ground));
  const forward = (((end - start) % whole) + whole) % whole;
  const line = [...ground.outline, ...closed(ground)];
  if (forward <= whole / 2) return along(line, start, start + forward);
  return along(line, start >= end ? start : start + whole, end);
}

/** @param {Point[]} line */
function lengthOf(line) {
  return line.slice(1).reduce((sum, point, i) => sum + dist(line[i], point), 0);
}

/**
 * @param {Point} a
 * @param {Point} b
 */
const dist = (a, b) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/**
 * Points of a line between two lengths along it, in walking order.
 *
 * @param {Point[]} line
 * @param {number} start
 * @param {number} end
 * @returns {Point[]}
 */
function along(line, start, end) {
  const [low, high] = [Math.min(start, end), Math.max(start, end)];
  /** @type {Point[]} */
  const points = [];
  let done = 0;
  for (const [i, b] of line.entries()) {
    if (i === 0) continue;
    const a = line[i - 1];
    const span = dist(a, b);
    const [first, last] = [Math.max(low - done, 0), Math.min(high - done, span)];
    if (first <= last && span > 0) points.push(between(a, b, first / span), between(a, b, last / span));
    done += span;
  }
  return start <= end ? points : points.reverse();
}

/**
 * @param {Point[]} line
 * @param {number} at
 * @returns {Point}
 */
function pointAt(line, at) {
  let done = 0;
  for (const [i, b] of line.entries()) {
    if (i === 0) continue;
    const span = dist(line[i - 1], b);
    if (at <= done + span || i === line.length - 1) return between(line[i - 1], b, span ? (at - done) / span : 0);
    done += span;
  }
  return line[0];
}

/**
 * @param {Point} a
 * @param {Point} b
 * @param {number} part
 * @returns {Point}
 */
const between = (a, b, part) => [a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part];

/**
 * A point of the van on its drawing.
 *
 * @param {Ground["paper"]} paper
 * @param {Point} point
 * @returns {Point}  units of the drawing
 */
export function onPaper({ scale, low, top }, [x, y]) {
  return [(x - low) * scale, (y - top) * scale];
}

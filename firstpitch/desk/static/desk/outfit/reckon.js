/**
 * What a stow does, reckoned on the page: the same sums as the engine's, so that a figure changes while a finger is still on it.
 * Verdicts proper come from the desk; a test holds these figures equal to the engine's. Masses in kg, places in m.
 *
 * @typedef {[number | null, number | null]} Ends  from where to where; null where nothing bounds it
 * @typedef {{id: string, name: string, mass: number, number: number, volume: number, loose: {x: Ends, share: Ends}, why: Record<string, string>}} Item
 * @typedef {{id: string, number: string, name: string, limit: number | null, room: number, x: number, y: number, share: Ends}} Locker
 * @typedef {{items: Item[], lockers: Locker[], mass: Ends, nose: Ends, assumed: boolean, unknown: string[], mtplm: number,
 *   payload: {base: Ends, limit: number | null}, axles: {name: string, base: Ends, per: number, shared: boolean}[], axle_limit: number | null,
 *   band: {ruling: number | null, missing: string[], least: number | null, guideline: [number, number]},
 *   centre: {mass: number, x: number}, tight: number}} Numbers
 * @typedef {Map<string, Map<string, number>>} Lying  item -> place -> how many; places are locker ids, "" (none yet) and "home"
 * @typedef {"fits" | "tight" | "does not fit" | "cannot say"} Word
 * @typedef {{low: number, high: number}} Span
 */

export const NOWHERE = "";
export const HOME = "home";
const ALMOST_NOTHING = 1e-9;
const HAIR = 1e-6;

/** @param {Ends} ends @returns {Span} */
const span = ([low, high]) => ({ low: low ?? -Infinity, high: high ?? Infinity });

/** @param {Numbers} numbers @param {{placed: [string, string, number][], home: [string, number][]}} stow @returns {Lying} */
export function lying(numbers, stow) {
  /** @type {Lying} */
  const found = new Map(numbers.items.map((item) => [item.id, new Map([[NOWHERE, item.number]])]));
  const rows = /** @type {[string, string, number][]} */ ([...stow.placed, ...stow.home.map(([item, n]) => [item, HOME, n])]);
  for (const [item, place, number] of rows) if (found.has(item)) move(found, item, NOWHERE, place, number);
  return found;
}

/** As the desk keeps it. @param {Lying} all */
export function stored(all) {
  /** @type {[string, string, number][]} */
  const placed = [];
  /** @type {[string, number][]} */
  const home = [];
  for (const [item, places] of all) {
    for (const [place, n] of places) {
      if (n && place === HOME) home.push([item, n]);
      else if (n && place !== NOWHERE) placed.push([item, place, n]);
    }
  }
  return { placed, home };
}

/** Carry so many of an item. @param {Lying} all @param {string} item @param {string} from @param {string} to @param {number} number */
export function move(all, item, from, to, number) {
  const places = all.get(item);
  if (!places) return;
  const carried = Math.min(number, places.get(from) ?? 0);
  places.set(from, (places.get(from) ?? 0) - carried);
  places.set(to, (places.get(to) ?? 0) + carried);
}

/** @param {Lying} all @returns {Lying} */
export const copy = (all) => new Map([...all].map(([item, places]) => [item, new Map(places)]));

/**
 * The word for a figure against a limit. `least`: the limit is a lower one.
 *
 * @param {Span} figure @param {number | null} limit @param {number} tight @param {{assumed?: boolean, missing?: boolean}} [how]
 * @returns {Word}
 */
export function word(figure, limit, tight, { assumed = false, missing = false } = {}) {
  if (limit === null || !(Number.isFinite(figure.low) || Number.isFinite(figure.high))) return "cannot say";
  const slack = ALMOST_NOTHING * Math.max(1, Math.abs(limit));
  const [best, worst] = [limit - figure.low, limit - figure.high];
  /** @type {Word} */
  const found = best < -slack ? "does not fit" : worst < -slack ? "cannot say" : worst < tight * Math.abs(limit) - slack ? "tight" : "fits";
  if (assumed) return "cannot say";
  return missing && found !== "does not fit" ? "cannot say" : found;
}

/**
 * @typedef {{id: string, mass: number, filled: number, over: boolean, full: boolean}} LockerLoad
 * @typedef {{mass: Span, nose: Span, axle: {name: string, carries: Span}, payload: Span, inertia: number, centre: number, side: number, stowed: number, loose: boolean,
 *   lockers: Map<string, LockerLoad>, guideline: Span, words: {nose: Word, axle: Word, payload: Word}}} Reckoned
 */

/** @param {Numbers} numbers @param {Lying} all @returns {Reckoned} */
export function reckon(numbers, all) {
  const [mass, nose, payload] = [span(numbers.mass), span(numbers.nose), span(numbers.payload.base)];
  let loose = false; // whether anything has no place yet
  const turned = { low: 0, high: 0 }; // of the load: kg times metres behind the ball
  const loads = new Map(numbers.lockers.map((locker) => [locker.id, 0]));
  const rooms = new Map(loads);
  const share = new Map(numbers.lockers.map((locker) => [locker.id, span(locker.share)]));
  const at = new Map(numbers.lockers.map((locker) => [locker.id, locker]));
  for (const item of numbers.items) {
    for (const [place, n] of all.get(item.id) ?? []) {
      if (!n || place === HOME) continue;
      loose ||= place === NOWHERE;
      const heavy = n * item.mass;
      const locker = at.get(place);
      const [part, x] = locker
        ? [/** @type {Span} */ (share.get(place)), { low: locker.x, high: locker.x }]
        : [span(item.loose.share), span(item.loose.x)];
      for (const sum of [mass, payload]) [sum.low, sum.high] = [sum.low + heavy, sum.high + heavy];
      [nose.low, nose.high] = [nose.low + heavy * part.low, nose.high + heavy * part.high];
      [turned.low, turned.high] = [turned.low + heavy * x.low, turned.high + heavy * x.high];
      if (locker) {
        loads.set(place, (loads.get(place) ?? 0) + heavy);
        rooms.set(place, (rooms.get(place) ?? 0) + n * item.volume);
      }
    }
  }
  const axle = heaviest(numbers, turned, mass, nose);
  const swing = swinging(numbers, loads);
  const { assumed } = numbers;
  const { band, tight } = numbers;
  const middle = Number.isFinite(mass.high) ? (mass.low + mass.high) / 2 : mass.low;
  return {
    mass, nose, axle, payload, loose, ...swing,
    lockers: new Map(numbers.lockers.map((locker) => [locker.id, lockerLoad(locker, loads, rooms)])),
    guideline: { low: band.guideline[0] * middle, high: band.guideline[1] * middle },
    words: {
      nose: word(nose, band.ruling, tight, { assumed, missing: band.missing.length > 0 }),
      axle: word(axle.carries, numbers.axle_limit, tight, { assumed: false }),
      payload: word(payload, numbers.payload.limit, tight),
    },
  };
}

/** The axle that carries most. @param {Numbers} numbers @param {Span} turned @param {Span} mass @param {Span} nose */
function heaviest(numbers, turned, mass, nose) {
  const number = new Set(numbers.axles.map(({ name }) => name)).size;
  const least = numbers.assumed ? 0 : nose.low;
  const even = { low: Math.max(0, mass.low - nose.high) / number, high: (mass.high - least) / number };
  const rows = numbers.axles.map(({ name, base, per, shared }) => {
    if (shared) return { name, carries: even };
    const own = span(base);
    return { name, carries: { low: own.low + turned.low * per, high: own.high + turned.high * per } };
  });
  return rows.reduce((most, row) => (row.carries.high > most.carries.high + HAIR ? row : most));
}

/**
 * The load's yaw inertia about the laden van's centre of gravity, that centre, and how far the load is out of level.
 *
 * @param {Numbers} numbers @param {Map<string, number>} loads
 */
function swinging(numbers, loads) {
  let [carried, turned, side] = [0, 0, 0];
  for (const { id, x, y } of numbers.lockers) {
    const load = loads.get(id) ?? 0;
    [carried, turned, side] = [carried + load, turned + load * x, side + load * y];
  }
  const { mass, x: own } = numbers.centre;
  const centre = (mass * own + turned) / (mass + carried);
  let inertia = 0;
  for (const { id, x, y } of numbers.lockers) inertia += (loads.get(id) ?? 0) * ((x - centre) ** 2 + y ** 2);
  return { inertia, centre, side, stowed: carried };
}

/** @param {Locker} locker @param {Map<string, number>} loads @param {Map<string, number>} rooms @returns {LockerLoad} */
function lockerLoad(locker, loads, rooms) {
  const mass = loads.get(locker.id) ?? 0;
  const filled = (rooms.get(locker.id) ?? 0) / locker.room;
  return { id: locker.id, mass, filled, over: locker.limit !== null && mass > locker.limit + HAIR, full: filled > 1 + HAIR };
}

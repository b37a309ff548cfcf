/**
 * The one order in which events of several devices are read: the same on every tablet and on the desk, in whatever order they came.
 * No clock can turn round what one device saw: each device's events keep their numbers' order, and the devices' rows are
 * merged by time, so that a wrong clock can only put a whole stretch too early or too late.
 */

/** @typedef {import("./types.js").Seen} Seen */

/**
 * @param {Seen[]} events
 * @returns {Seen[]} a new list
 */
export function inOrder(events) {
  const rows = rowsOf(events);
  /** @type {Seen[]} */
  const merged = [];
  while (merged.length < events.length) {
    let first = null;
    for (const row of rows) {
      if (row.next < row.events.length && (first === null || isBefore(row, first))) first = row;
    }
    if (first === null) break;
    merged.push(first.events[first.next++]);
  }
  return merged;
}

/** @typedef {{device: string, events: Seen[], times: number[], next: number}} Row */

/**
 * @param {Seen[]} events
 * @returns {Row[]}
 */
function rowsOf(events) {
  /** @type {Map<string, Seen[]>} */
  const byDevice = new Map();
  for (const event of events) {
    const row = byDevice.get(event.device);
    if (row) row.push(event);
    else byDevice.set(event.device, [event]);
  }
  return [...byDevice].map(([device, seen]) => {
    // The desk's own events carry no number; its clock orders them.
    seen.sort((a, b) => a.number - b.number || Date.parse(a.at) - Date.parse(b.at) || (a.id < b.id ? -1 : 1));
    return { device, events: seen, times: seen.map((event) => Date.parse(event.at)), next: 0 };
  });
}

/**
 * @param {Row} a
 * @param {Row} b
 */
function isBefore(a, b) {
  const apart = a.times[a.next] - b.times[b.next];
  return apart < 0 || (apart === 0 && a.device < b.device);
}

/**
 * The ids of events that do not count any more.
 *
 * @param {Seen[]} ordered
 * @returns {Set<string>}
 */
export function takenBack(ordered) {
  const gone = new Set();
  for (const event of [...ordered].reverse()) {
    if (gone.has(event.id)) continue;
    if (event.what === "undone") gone.add(String(event.data.event ?? ""));
    if (event.what === "conflict.settled") {
      for (const id of event.data.events ?? []) if (id !== event.data.keeps) gone.add(String(id));
    }
  }
  return gone;
}

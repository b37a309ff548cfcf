/**
 * Fetching what other devices saw, and what a handover needs to be run without a network.
 *
 *   follow(3)      from now on, while the page is looked at and there is a network; gives a function that stops it
 *   pull(3)        once
 *   fetchKit(3)    once
 */

import { asked, change, look } from "./db.js";
import { inOrder, takenBack } from "./order.js";
import { announce, keepKit, kit as keptKit, onChange } from "./store.js";
import { read } from "./talk.js";

/**
 * @typedef {import("./types.js").Seen} Seen
 * @typedef {import("./talk.js").Reply["sort"]} Sort
 */

const EVERY_MS = 8_000;
const MOST_PAGES = 200;

/**
 * @param {number} handover
 * @returns {Promise<{reply: Sort, news: number}>} `news`: how many events this tablet did not know
 */
export async function pull(handover) {
  let news = 0;
  for (let page = 0; page < MOST_PAGES; page += 1) {
    const after = await look(["meta"], async (store) => (await asked(store("meta").get(`after:${handover}`)))?.value ?? "");
    const reply = await read(`/live/${handover}/since/?after=${encodeURIComponent(after)}`);
    if (reply.sort !== "answer") return { reply: reply.sort, news };
    const { events, after: upTo } = reply.data;
    news += await merge(handover, events, upTo);
    if (!events.length || upTo === after) break;
  }
  if (news) announce({ handover, what: "pulled" });
  return { reply: "answer", news };
}

/**
 * Add what is not known yet, remember how far was read, and count what waits to be settled; all in one transaction.
 *
 * @param {number} handover
 * @param {Seen[]} given
 * @param {string} [upTo]
 * @returns {Promise<number>}
 */
export function merge(handover, given, upTo) {
  return change(["events", "outbox", "meta"], async (store) => {
    let news = 0;
    for (const event of given) {
      if (await asked(store("events").getKey(event.id))) continue;
      store("events").add({ ...event, handover, device: event.device ?? "", number: event.number ?? 0 });
      news += 1;
    }
    if (upTo !== undefined) store("meta").put({ key: `after:${handover}`, value: upTo });
    await settle(store, handover);
    return news;
  });
}

/**
 * @param {(name: string) => IDBObjectStore} store
 * @param {number} handover
 */
async function settle(store, handover) {
  const all = /** @type {Seen[]} */ (await asked(store("events").index("handover").getAll(handover)));
  const counts = (await asked(store("meta").get("conflicts")))?.value ?? {};
  await asked(store("meta").put({ key: "conflicts", value: { ...counts, [handover]: unsettled(all).length } }));
  const disputed = new Set(unsettled(all).flatMap((dispute) => dispute.events));
  const marked = new Set(all.filter((event) => event.what === "conflict.seen").flatMap((event) => event.data.events ?? []));
  const range = IDBKeyRange.bound([handover, 0], [handover, Infinity]);
  for (const line of await asked(store("outbox").index("handover").getAll(range))) {
    if (line.state === "conflict" && marked.has(line.id) && !disputed.has(line.id)) store("outbox").delete(line.id);
  }
}

/**
 * The conflicts that nobody has settled: the ids of the events that do not go together, and why. Where one of
 * them was taken back it is over.
 *
 * @param {Seen[]} events  all events of one handover
 * @returns {{events: string[], why: string}[]}
 */
export function unsettled(events) {
  const ordered = inOrder(events);
  const gone = takenBack(ordered);
  const settled = ordered
    .filter((event) => event.what === "conflict.settled" && !gone.has(event.id))
    .map((event) => new Set(event.data.events ?? []));
  /** @type {Map<string, {events: string[], why: string}>} */
  const open = new Map();
  for (const { what, data } of ordered) {
    if (what !== "conflict.seen") continue;
    const ids = /** @type {string[]} */ (data.events ?? []);
    if (ids.some((id) => gone.has(id)) || settled.some((over) => ids.every((id) => over.has(id)))) continue;
    open.set([...ids].sort().join(" "), { events: ids, why: data.why ?? "" });
  }
  return [...open.values()];
}

/**
 * Count again what waits to be settled, after an event of this tablet settled something.
 *
 * @param {number} handover
 */
export async function recount(handover) {
  await merge(handover, []);
  announce({ handover, what: "answer" });
}

/** @type {Map<number, Promise<{reply: Sort, kit: any}>>} */
const fetching = new Map();

/**
 * Fetch and keep kit.json, with the events that came with it. Who asks while it is on its way gets the same one.
 *
 * @param {number | string} handover
 * @returns {Promise<{reply: Sort, kit: any}>}
 */
export function fetchKit(handover) {
  const number = Number(handover);
  const known = fetching.get(number);
  if (known) return known;
  const asked = fetchOnce(number).finally(() => fetching.delete(number));
  fetching.set(number, asked);
  return asked;
}

/**
 * @param {number} number
 * @returns {Promise<{reply: Sort, kit: any}>}
 */
async function fetchOnce(number) {
  const held = await keptKit(number);
  const reply = await read(`/live/${number}/kit.json?have=${encodeURIComponent(held?.mark ?? "")}`);
  if (reply.sort !== "answer") return { reply: reply.sort, kit: null };
  const same = Boolean(reply.data.same && held);
  const { events = [], ...kit } = same ? held : reply.data;
  await keepKit(number, kit, { same });
  if (same) await pull(number);
  else if (await merge(number, events)) announce({ handover: number, what: "pulled" });
  return { reply: "answer", kit };
}

/**
 * Keep in step with other devices while somebody looks.
 *
 * @param {number | string} handover
 * @returns {() => void} stops it
 */
export function follow(handover) {
  const number = Number(handover);
  let busy = false;
  const step = async () => {
    if (busy || document.visibilityState !== "visible") return;
    busy = true;
    try {
      await pull(number);
    } finally {
      busy = false;
    }
  };
  const stops = [
    onChange(({ handover: about, what }) => {
      if (about === number && what === "answer") step();
    }),
  ];
  const beat = setInterval(step, EVERY_MS);
  for (const name of ["online", "visibilitychange", "pageshow"]) {
    addEventListener(name, step);
    stops.push(() => removeEventListener(name, step));
  }
  step();
  return () => {
    clearInterval(beat);
    for (const stop of stops) stop();
  };
}

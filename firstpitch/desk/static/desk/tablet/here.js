/**
 * Who is signed in here, by the desk's word, and how this tablet's clock stands against the desk's.
 */

import { keepMeta, meta } from "./db.js";
import { announce, forget } from "./store.js";
import { forgetPages } from "./pages.js";
import { read } from "./talk.js";

/**
 * @typedef {import("./types.js").Person} Person
 * @typedef {import("./talk.js").Reply} Reply
 */

/** A clock is called wrong from here on. */
export const CLOCK_OFF_S = 90;
const FRESH_MS = 60_000;

/** @type {{person: Person | null, asked: number} | null} */
let last = null;

/** Ask again next time, whatever was known. */
export function doubt() {
  last = null;
}

/**
 * Ask the desk who is signed in. When that is somebody else than before, what this tablet carried for the one before is put away
 * (never what is unsent).
 *
 * @param {{fresh?: boolean}} [how]  fresh: an answer up to a minute old will do
 * @returns {Promise<{reply: Reply["sort"], person: Person | null}>}
 */
export async function whoIsHere({ fresh = false } = {}) {
  if (fresh && last && performance.now() - last.asked < FRESH_MS) return { reply: "answer", person: last.person };
  const began = Date.now();
  const reply = await read("/tablet/here/");
  if (reply.sort !== "answer") return { reply: reply.sort, person: null };
  await compareClock(reply.data.server_now, began, Date.now());
  const person = reply.data.person ?? null;
  const before = await meta("person");
  if (person && before && before.id !== person.id) {
    await forgetPages();
    await forget();
  }
  if (person && before?.id !== person.id) await keepMeta("person", person);
  last = { person, asked: performance.now() };
  return { reply: "answer", person };
}

/**
 * @param {string | undefined} said  the desk's clock
 * @param {number} began  this clock when the question went out [ms]
 * @param {number} ended  and when the answer came [ms]
 */
export async function compareClock(said, began, ended) {
  const theirs = Date.parse(said ?? "");
  if (Number.isNaN(theirs) || ended < began || ended - began > CLOCK_OFF_S * 500) return;
  const ahead = Math.round(((began + ended) / 2 - theirs) / 1000);
  // A second more or less is the network's doing, and every write costs.
  if (Math.abs(((await meta("clock-ahead")) ?? 0) - ahead) <= 2) return;
  await keepMeta("clock-ahead", ahead);
  announce({ handover: null, what: "clock" });
}

/** @returns {Promise<number>} how far this tablet's clock is ahead of the desk's, as last compared [s]; 0 where it is right */
export async function clockAhead() {
  const ahead = (await meta("clock-ahead")) ?? 0;
  return Math.abs(ahead) >= CLOCK_OFF_S ? ahead : 0;
}

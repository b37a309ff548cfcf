/**
 * Carrying a handover: all that is needed to do it on this tablet without a network, and putting it away when its day is long over.
 */

import { forgetPage, isKept, keepPage } from "./pages.js";
import { kits, outbox, putAway, unsentPhotos } from "./store.js";
import { fetchKit } from "./sync.js";

const LONG_OVER_MS = 7 * 24 * 3600 * 1000;

/**
 * The pages of a handover.
 *
 * @param {number} handover
 * @param {any} kit
 * @returns {string[]}
 */
export function pagesOf(handover, kit) {
  return kit ? [`/live/${handover}/`, `/vans/${kit.van.id}/`] : [`/live/${handover}/`];
}

/**
 * Fetch what running a handover needs.
 *
 * @param {number} handover
 * @param {{anew?: boolean}} [how]  anew: fetch pages too that are here already
 * @returns {Promise<boolean>} whether all of it is here now
 */
export async function carry(handover, { anew = false } = {}) {
  const { kit } = await fetchKit(handover);
  let whole = kit !== null;
  for (const page of pagesOf(handover, kit)) {
    if (anew || !(await isKept(page))) whole = (await keepPage(page)) && whole;
  }
  return whole;
}

/** Put away the handovers that were fetched more than a week ago, unless something of theirs is not settled with the desk. */
export async function tidy() {
  const owed = new Set([...(await outbox()), ...(await unsentPhotos())].map((line) => line.handover));
  for (const { handover, kit, kept } of await kits()) {
    if (owed.has(handover) || Date.now() - Date.parse(kept) < LONG_OVER_MS) continue;
    await putAway(handover);
    for (const page of pagesOf(handover, kit)) await forgetPage(page);
  }
}

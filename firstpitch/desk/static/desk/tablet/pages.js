/**
 * Pages that open without a network. The worker (worker.js) serves what is kept here; both sides use the same two caches.
 */

export const PAGES = "firstpitch-pages";
export const STATIC = "firstpitch-static";

/** @returns {boolean} whether this browser can keep pages at all (it needs a secure address) */
export function canKeep() {
  return "caches" in globalThis && "serviceWorker" in navigator;
}

/**
 * Fetch a page and keep it, with the files it names.
 *
 * @param {string} path
 * @returns {Promise<boolean>} false where the desk did not give it
 */
export async function keepPage(path) {
  if (!canKeep()) return false;
  try {
    const response = await fetch(path, { credentials: "same-origin", headers: { Accept: "text/html" }, cache: "no-store" });
    if (!response.ok || response.redirected) return false;
    const text = await response.clone().text();
    const files = [...new Set([...text.matchAll(/(?:href|src)="(\/static\/[^"#?]+)"/g)].map((found) => found[1]))];
    const held = await caches.open(STATIC);
    await Promise.all(files.map(async (file) => (await held.match(file)) ?? held.add(file)));
    await (await caches.open(PAGES)).put(path, response);
    return true;
  } catch (fault) {
    if (fault instanceof DOMException && fault.name === "QuotaExceededError") throw fault;
    return false;
  }
}

/**
 * @param {string} path
 * @returns {Promise<boolean>}
 */
export async function isKept(path) {
  return canKeep() && Boolean(await (await caches.open(PAGES)).match(path));
}

/** Put away every page that was kept for a person. */
export async function forgetPages() {
  if (canKeep()) await caches.delete(PAGES);
}

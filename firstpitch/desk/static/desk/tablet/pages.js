/**
 * Pages that open without a network. The worker (worker.js) serves what is kept here; both sides use the same two caches.
 */

import { inWords } from "./faults.js";

export const PAGES = "firstpitch-pages";
export const STATIC = "firstpitch-static";
const KIT = /^\/vans\/\d+\/kit\/[\w-]+\/$/;
const VIEW = /^\?view=[a-z]+$/;
const PHOTO = /^\/photos\/[\w-]+\/small\/$/;

/** @returns {boolean} whether this browser can keep pages at all (it needs a secure address) */
export function canKeep() {
  return "caches" in globalThis && "serviceWorker" in navigator;
}

/**
 * Fetch a page and keep it, with the files it names; a van's page with all its sides, the panel of each kit and its small photos.
 *
 * @param {string} path
 * @returns {Promise<boolean>} false where the desk did not give all of it
 */
export async function keepPage(path) {
  if (!canKeep()) return false;
  try {
    const page = await keep(path);
    if (page === null) return false;
    const parts = partsOf(path, page);
    for (const part of parts) if ((await keep(part)) === null) return false;
    return true;
  } catch (fault) {
    if (fault instanceof DOMException && fault.name === "QuotaExceededError") throw inWords(fault);
    return false;
  }
}

/**
 * @param {string} path
 * @returns {Promise<string | null>} its text
 */
async function keep(path) {
  const response = await fetch(path, { credentials: "same-origin", headers: { Accept: "text/html, image/*" }, cache: "no-store" });
  if (!response.ok || response.redirected) return null;
  const text = await response.clone().text();
  const files = new Set([...text.matchAll(/(?:href|src)="(\/static\/[^"#?]+)"/g)].map((found) => found[1]));
  const held = await caches.open(STATIC);
  await Promise.all([...files].map(async (file) => (await held.match(file)) ?? held.add(file)));
  await (await caches.open(PAGES)).put(path, response);
  return text;
}

/**
 * What a van's page fetches when somebody picks on it.
 *
 * @param {string} path
 * @param {string} page
 * @returns {Set<string>}
 */
function partsOf(path, page) {
  /** @type {Set<string>} */
  const parts = new Set();
  for (const [, link] of page.matchAll(/(?:href|src)="([^"#]+)/g)) {
    const { pathname, search } = new URL(link.replaceAll("&amp;", "&"), new URL(path, location.href));
    if (PHOTO.test(pathname)) parts.add(pathname);
    else if (KIT.test(pathname) && pathname.startsWith(path)) parts.add(`${pathname}?part=panel`);
    else if (pathname === path && VIEW.test(search)) parts.add(pathname + search);
  }
  return parts;
}

/**
 * @param {string} path
 * @returns {Promise<boolean>} whether the page is here with all its parts
 */
export async function isKept(path) {
  if (!canKeep()) return false;
  const held = await caches.open(PAGES);
  const page = await held.match(path);
  if (!page) return false;
  for (const part of partsOf(path, await page.text())) if (!(await held.match(part))) return false;
  return true;
}

/**
 * @param {string} path
 * @returns {Promise<void>}
 */
export async function forgetPage(path) {
  if (!canKeep()) return;
  const held = await caches.open(PAGES);
  for (const request of await held.keys()) if (new URL(request.url).pathname.startsWith(path)) await held.delete(request);
}

/** Put away every page that was kept for a person. */
export async function forgetPages() {
  if (canKeep()) await caches.delete(PAGES);
}

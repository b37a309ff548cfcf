/**
 * The worker that opens the desk without a network. The desk serves it at /worker.js with one line before it that names the version
 * and the files of the shell: `self.shell = {version, files, pages}`.
 *
 * Files have a digest in their name, so what is kept of them is always right. The tablet's own pages (`pages`) hold nothing of
 * anybody and come from here. Live and van pages come from the network where it answers in time, else as they were kept.
 * All other pages need the network; without one the tablet's own page stands in and says what it carries.
 */
// @ts-nocheck: the compiler has no types for a worker beside those for pages.

const PAGES = "firstpitch-pages";
const STATIC = "firstpitch-static";
const KEPT = [
  /^\/live\/\d+\/$/,
  /^\/vans\/\d+\/(\?view=[a-z]+)?$/,
  /^\/vans\/\d+\/kit\/[\w-]+\/(\?part=panel)?$/,
  /^\/photos\/[\w-]+\/small\/$/,
];
const LIVE = /^\/live\//;
const KIT = /^(\/vans\/\d+\/)kit\//;
const SIGN_OUT = "/sign-out/";
const PATIENCE_MS = 3_000;
const AWAY = [502, 503, 504];

self.addEventListener("install", (event) => {
  event.waitUntil(layShell());
});

/** All or nothing: one missing file and this version is not installed. */
async function layShell() {
  const held = await caches.open(STATIC);
  const missing = [];
  for (const file of self.shell.files) if (!(await held.match(file))) missing.push(file);
  await held.addAll([...missing, ...self.shell.pages.map((page) => new Request(page, { cache: "reload", credentials: "omit" }))]);
}

self.addEventListener("activate", (event) => {
  event.waitUntil(takeOver());
});

async function takeOver() {
  await self.clients.claim();
  for (const name of await caches.keys()) {
    if (name.startsWith("firstpitch-") && name !== PAGES && name !== STATIC) await caches.delete(name);
  }
  await renew();
}

/** Fetch every kept page anew; only when all of them are of this version may the files of older ones go. */
async function renew() {
  const pages = await caches.open(PAGES);
  const kept = await pages.keys();
  const renewed = await Promise.all(kept.map((request) => keep(pages, request.url).catch(() => false)));
  if (!renewed.every(Boolean)) return;
  const needed = new Set([...self.shell.files, ...self.shell.pages]);
  for (const request of await pages.keys()) {
    const page = await pages.match(request);
    for (const [file] of (await page.text()).matchAll(/\/static\/[^"'#?\s)]+/g)) needed.add(file);
  }
  const held = await caches.open(STATIC);
  for (const request of await held.keys()) {
    if (!needed.has(new URL(request.url).pathname)) await held.delete(request);
  }
}

async function keep(pages, url) {
  const response = await fetch(url, { credentials: "same-origin", headers: { Accept: "text/html" }, cache: "no-store" });
  if (!isWhole(response)) return false;
  await pages.put(url, response);
  return true;
}

self.addEventListener("message", (event) => {
  if (event.data?.what === "take-over") event.waitUntil(self.skipWaiting());
  if (event.data?.what === "serve-me") event.waitUntil(self.clients.claim());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  if (request.method === "POST" && request.mode === "navigate") {
    event.respondWith(url.pathname === SIGN_OUT ? signOut(request) : sendForm(request));
  } else if (request.method !== "GET") {
    return;
  } else if (url.pathname.startsWith("/static/")) {
    event.respondWith(file(request));
  } else if (self.shell.pages.includes(url.pathname)) {
    event.respondWith(ownPage(request, url.pathname));
  } else if (KEPT.some((kept) => kept.test(url.pathname + url.search))) {
    event.respondWith(inTime(event, url.pathname + url.search));
  } else if (request.mode === "navigate") {
    event.respondWith(fetch(request).catch(standIn));
  }
});

async function file(request) {
  const held = await caches.open(STATIC);
  const found = await held.match(request);
  if (found) return found;
  const response = await fetch(request);
  if (response.ok && /\.[0-9a-f]{12}\./.test(request.url)) {
    const copy = response.clone();
    held.put(request, copy).catch(() => {});
  }
  return response;
}

async function ownPage(request, path) {
  const found = await (await caches.open(STATIC)).match(path);
  return found ?? fetch(request);
}

/** From the network where it answers within a few seconds; a late answer is still kept for the next time. */
async function inTime(event, address) {
  const pages = await caches.open(PAGES);
  const kept = await pages.match(address);
  const asked = fetch(event.request).then((response) => {
    // A van somebody only looks at is not carried; one that is carried is kept up to date.
    if (isWhole(response) && (kept || LIVE.test(address))) event.waitUntil(pages.put(address, response.clone()).catch(() => {}));
    return response;
  });
  event.waitUntil(asked.catch(() => {}));
  try {
    const first = kept ? await Promise.race([asked, after(PATIENCE_MS)]) : await asked;
    if (first && !(kept && AWAY.includes(first.status))) return first;
  } catch {
    // No network: what is kept comes below.
  }
  if (kept) return kept;
  if (event.request.mode !== "navigate") return Response.error();
  const van = KIT.exec(address)?.[1];
  return van && (await pages.match(van)) ? Response.redirect(van) : standIn();
}

function isWhole(response) {
  return response.ok && !response.redirected && response.type === "basic";
}

function after(ms) {
  return new Promise((resolve) => setTimeout(resolve, ms, null));
}

async function standIn() {
  const found = await (await caches.open(STATIC)).match(self.shell.pages[0]);
  return found ?? Response.error();
}

/** What was kept for the one who signs out must not be there for the next; the outbox is elsewhere and stays. */
async function signOut(request) {
  try {
    const response = await fetch(request);
    if (response.type === "opaqueredirect" || response.ok) await caches.delete(PAGES);
    return response;
  } catch {
    return standIn();
  }
}

async function sendForm(request) {
  try {
    return await fetch(request);
  } catch {
    const words =
      "<!doctype html><html lang=en-GB><meta charset=utf-8><meta name=viewport content='width=device-width'><title>No network</title>" +
      "<h1>No network</h1><p>That was not sent. Go back with the browser's own arrow: what you typed is still there. Send it again when the network is back.</p>";
    return new Response(words, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
  }
}

// The owner's film: opens at the second that the address names, jumps to chapters, answers questions by its own words.

import { find, fits, words } from "./search.js";

const film = /** @type {HTMLVideoElement} */ (document.getElementById("film"));
const form = /** @type {HTMLFormElement} */ (document.querySelector("[data-index]"));
const found = /** @type {HTMLElement} */ (document.querySelector("[data-found]"));
const field = /** @type {HTMLInputElement} */ (form.querySelector("input"));
/** @type {Promise<import("./search.js").Index> | null} */
let index = null;
form.hidden = false;

/** Go to a second, and play from there. @param {number} at @param {boolean} [play] */
function go(at, play = true) {
  const jump = () => {
    film.currentTime = at;
    if (play) film.play().catch(() => undefined);
  };
  if (film.readyState >= 1) jump();
  else {
    film.addEventListener("loadedmetadata", jump, { once: true });
    film.load();
  }
}

/** The second that the address names. @returns {number | null} */
function named() {
  const match = /^#t=(\d+(?:\.\d+)?)/.exec(location.hash);
  return match ? Number(match[1]) : null;
}

document.addEventListener("click", (event) => {
  const link = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-at]"));
  if (!link) return;
  event.preventDefault();
  const at = Number(link.dataset.at);
  history.pushState(null, "", `#t=${Math.floor(at)}`);
  go(at);
  film.scrollIntoView({ block: "nearest" });
});
for (const name of ["hashchange", "popstate"]) addEventListener(name, () => { const at = named(); if (at !== null) go(at); });
const first = named();
if (first !== null) go(first, false);

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const hits = await answers();
  if (hits?.length) {
    history.pushState(null, "", `#t=${Math.floor(hits[0].at)}`);
    go(hits[0].at);
  }
});
field.addEventListener("input", () => { if (words(field.value).length) answers(); else found.replaceChildren(); });

/** Look it up and show what was found. */
async function answers() {
  const asked = field.value;
  try {
    index ??= fetch(form.dataset.index ?? "", { headers: { Accept: "application/json" } }).then((answer) => { if (!answer.ok) throw new Error(); return answer.json(); });
    const hits = find(await index, asked);
    if (asked === field.value) show(hits, asked);
    return hits;
  } catch {
    index = null;
    say("The film cannot be asked just now: the line is cut, or the link has ended. Reload the page.");
    return null;
  }
}

/** @param {string} words */
function say(words) {
  const line = document.createElement("p");
  line.textContent = words;
  found.replaceChildren(line);
}

/** @param {import("./search.js").Hit[]} hits @param {string} asked */
function show(hits, asked) {
  if (!hits.length) return say(words(asked).length ? "Nothing in the film sounds like that. Try the name of the thing." : "");
  const list = document.createElement("ol");
  const wanted = words(asked);
  for (const hit of hits) {
    const link = document.createElement("a");
    link.href = `#t=${Math.floor(hit.at)}`;
    link.dataset.at = String(hit.at);
    const when = document.createElement("span");
    when.className = "figure";
    when.textContent = clock(hit.at);
    const text = document.createElement(hit.kind === "chapter" ? "strong" : "span");
    text.append(...marked(hit.words, wanted));
    link.append(when, text);
    const line = document.createElement("li");
    line.append(link);
    list.append(line);
  }
  found.replaceChildren(list);
}

/** The words that were asked for are marked. @param {string} text @param {string[]} wanted @returns {(string | HTMLElement)[]} */
function marked(text, wanted) {
  return text.split(/(\s+)/).map((part) => {
    const own = words(part);
    if (!own.some((word) => wanted.some((one) => fits(one, word) > 0))) return part;
    const mark = document.createElement("mark");
    mark.textContent = part;
    return mark;
  });
}

/** @param {number} seconds */
const clock = (seconds) => `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, "0")}`;

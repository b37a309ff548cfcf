/**
 * The line that is always visible: what this tablet has not sent yet and why, what needs a person, and a clock or room that is wrong.
 * It fills an element `[data-unsent]` where the page has one (the live round), else it stands at the foot of the window when it
 * has something to say. It never changes its height on a page that gives it a place.
 */

import { clockAhead } from "./here.js";
import { onStanding, standing } from "./outbox.js";
import { onChange, unsent } from "./store.js";
import { ALL_SENT, clockInWords, counted, roomInWords, unsentInWords } from "./words.js";

/** @typedef {{words: string, links: {words: string, href: string}[], urgent: boolean}} Line */

const LOOK_AGAIN_MS = 30_000;

let newer = false;
/** @type {() => void} */
let drawLine = () => {};

/** Show the line, and keep it true. */
export function showCounts() {
  const place = document.querySelector("[data-unsent]");
  const line = place instanceof HTMLElement ? place : foot();
  line.classList.add("unsent");
  line.setAttribute("role", "status");
  let drawing = false;
  let again = false;
  const draw = async () => {
    if (drawing) {
      again = true;
      return;
    }
    drawing = true;
    try {
      do {
        again = false;
        fill(line, await lineNow(), Boolean(place));
      } while (again);
    } finally {
      drawing = false;
    }
  };
  drawLine = draw;
  onChange(draw);
  onStanding(draw);
  setInterval(draw, LOOK_AGAIN_MS);
  draw();
}

/** @returns {HTMLElement} */
function foot() {
  const line = document.createElement("div");
  line.classList.add("unsent-foot");
  document.body.append(line);
  return line;
}

/** @returns {Promise<Line>} */
export async function lineNow() {
  const owed = await unsent();
  const now = standing();
  const links = [];
  if (now.trouble === "sign-in") {
    links.push({ words: "Sign in", href: `/sign-in/?next=${encodeURIComponent(location.pathname)}` });
  }
  if (owed.refused) {
    links.push({ words: `${counted(owed.refused, "note")} the desk would not take: look`, href: "/tablet/#set-aside" });
  }
  if (owed.conflicts) {
    const many = counted(owed.conflicts, "handover has", "handovers have");
    links.push({ words: `${many} two answers to one question: settle`, href: "/tablet/two-answers/" });
  }
  if (newer) links.push({ words: "A newer version is ready", href: "/tablet/" });
  const wrong = await Promise.all([clockAhead().then(clockInWords), roomTaken().then(roomInWords)]);
  const words = [unsentInWords(owed, now), ...wrong].filter(Boolean);
  const urgent = words.some((said) => said !== ALL_SENT) || links.length > 0;
  return { words: words.filter((said) => !urgent || said !== ALL_SENT).join(" "), links, urgent };
}

/** A newer version waits; a page that gives the line a place says so there, and nowhere else. */
export function tellOfNewer() {
  newer = true;
  drawLine();
}

/** @returns {Promise<number>} how much of the room the browser gives us is taken, 0 to 1 */
export async function roomTaken() {
  const told = await navigator.storage?.estimate?.();
  return told?.quota ? (told.usage ?? 0) / told.quota : 0;
}

/**
 * @param {HTMLElement} line
 * @param {Line} now
 * @param {boolean} always
 */
function fill(line, { words, links, urgent }, always) {
  line.hidden = !urgent && !always;
  line.classList.toggle("unsent-urgent", urgent);
  const said = document.createElement("span");
  said.textContent = words;
  const made = links.map((link) => {
    const a = document.createElement("a");
    a.href = link.href;
    a.textContent = link.words;
    return a;
  });
  const next = [said, ...made];
  const before = [...line.children].map((child) => child.outerHTML).join("");
  // Written anew only when it says something new, so that a screen reader is not told twice and a link keeps its focus.
  if (before !== next.map((child) => child.outerHTML).join("")) line.replaceChildren(...next);
}

/**
 * The line that is always visible: what this tablet has not sent yet and why, what needs a person, and a clock or room that is wrong.
 * It fills an element `[data-unsent]` where the page has one (the live round), else it stands at the foot of the window when it
 * has something to say. It never changes its height on a page that gives it a place.
 */

import { clockAhead } from "./here.js";
import { onStanding, standing } from "./outbox.js";
import { onChange, unsent } from "./store.js";
import { ALL_SENT, clockInWords, counted, roomInWords, unsentInWords } from "./words.js";

/** @typedef {{words: string, links: {words: string, href: string}[], after: string, urgent: boolean}} Line  in order of how much it matters */

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
  const wrong = await Promise.all([roomTaken().then(roomInWords), clockAhead().then(clockInWords)]);
  const after = wrong.filter(Boolean).join(" ");
  const words = unsentInWords(owed, now);
  const urgent = (words !== "" && words !== ALL_SENT) || after !== "" || links.length > 0;
  return { words: urgent && words === ALL_SENT ? "" : words, links, after, urgent };
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
function fill(line, { words, links, after, urgent }, always) {
  line.hidden = !urgent && !always;
  line.classList.toggle("unsent-urgent", urgent);
  // Where the room is fixed the first matter stands there, and a way to the rest.
  const others = links.length - 1 + (after ? 1 : 0);
  if (always && links.length && others > 0) {
    links = [links[0], { words: `and ${others} more`, href: "/tablet/" }];
    after = "";
  }
  const [said, last] = [words, after].map((text) => {
    const span = document.createElement("span");
    span.textContent = text;
    return span;
  });
  const made = links.map((link) => {
    const a = document.createElement("a");
    a.href = link.href;
    a.textContent = link.words;
    return a;
  });
  const next = [...(words || !after ? [said] : []), ...made, ...(after ? [last] : [])];
  const before = [...line.children].map((child) => child.outerHTML).join("");
  // Written anew only when it says something new, so that a screen reader is not told twice and a link keeps its focus.
  if (before !== next.map((child) => child.outerHTML).join("")) line.replaceChildren(...next);
}

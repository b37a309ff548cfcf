/** The tablet's own page: what is not sent, what the desk would not take, what is carried, and how the tablet itself is. */

import { pagesOf } from "./carry.js";
import { clockAhead } from "./here.js";
import { drawn, found, make } from "./make.js";
import { dealWith, onStanding, standing, wake } from "./outbox.js";
import { canKeep, isKept } from "./pages.js";
import { events, kits, onChange, outbox, unsent, unsentPhotos } from "./store.js";
import { roomTaken } from "./counts.js";
import { stated } from "./shapes.js";
import { ALL_SENT, clockInWords, clockTime, counted, dayName, owedInWords, roomInWords, told, troubleInWords } from "./words.js";

/**
 * @typedef {import("./types.js").Seen} Seen
 * @typedef {import("./types.js").Waiting} Waiting
 * @typedef {import("./types.js").Photo} Photo
 */

const NOT_SECURE =
  "This address is not a secure one (https), so pages do not open here without a network. What you note is kept all the same.";

/** @type {Map<number, any>} */
let carried = new Map();

/** @param {number} handover */
function nameOf(handover) {
  const kit = carried.get(handover);
  return kit ? `${kit.owner}, ${kit.van.name}` : `handover ${handover}`;
}

/** @param {number} handover */
function titles(handover) {
  const steps = carried.get(handover)?.problem?.steps ?? [];
  const byId = new Map(steps.map((/** @type {any} */ step) => [step.id, step.title]));
  return (/** @type {string} */ id) => byId.get(id) ?? id;
}

async function owed() {
  carried = new Map((await kits()).map(({ handover, kit }) => [handover, kit]));
  const waiting = (await outbox()).filter((line) => line.state === "waiting");
  const photos = (await unsentPhotos()).filter((photo) => photo.state === "waiting");
  if (!waiting.length && !photos.length) return [stated("done", ALL_SENT)];
  const handovers = [...new Set([...waiting, ...photos].map((line) => line.handover))];
  const rows = handovers.map((handover) => {
    const about = (/** @type {Waiting | Photo} */ line) => line.handover === handover;
    const words = owedInWords({ events: waiting.filter(about).length, photos: photos.filter(about).length, refused: 0, conflicts: 0 });
    return make("li", {}, make("strong", {}, words), ` for ${nameOf(handover)}`);
  });
  const now = standing();
  const row = make("div", { class: "row" });
  if (now.trouble === "sign-in") row.append(make("a", { class: "button main", href: "/sign-in/?next=/tablet/" }, "Sign in"));
  row.append(make("button", { type: "button", id: "send-now", click: () => wake({ hurry: true }) }, "Send now"));
  row.append(make("button", { type: "button", id: "save-copy", class: "quiet", click: saveCopy }, "Save a copy of it as a file"));
  const trouble = make("p", {}, now.at === "sending" ? "Sending." : troubleInWords(now));
  return [make("div", { class: "owed" }, make("h2", {}, "Not sent yet"), make("ul", { class: "list-rows" }, ...rows), trouble, row)];
}

async function setAside() {
  const lines = (await outbox()).filter((line) => line.state === "refused");
  const photos = (await unsentPhotos()).filter((photo) => photo.state === "refused");
  if (!lines.length && !photos.length) return [];
  const rows = [];
  for (const line of lines) {
    const event = (await events(line.handover)).find((each) => each.id === line.id);
    if (event) rows.push(refused(line, told(event, titles(line.handover)), event.at));
  }
  for (const photo of photos) rows.push(refused(photo, "A photo", photo.at));
  return [make("h2", {}, "Set aside: the desk would not take it"), make("ul", { class: "list-rows" }, ...rows)];
}

/**
 * @param {Waiting | Photo} held
 * @param {string} words
 * @param {string} at
 */
function refused(held, words, at) {
  return make(
    "li",
    {},
    make("p", {}, make("strong", {}, words)),
    make("p", { class: "soft" }, `${nameOf(held.handover)}, ${clockTime(at)}`),
    make("p", {}, held.why || "The desk did not say why."),
    make(
      "div",
      { class: "row" },
      make("button", { type: "button", id: `again-${held.id}`, click: () => dealWith(held.id, "waiting") }, "Try it again"),
      make("button", { type: "button", id: `away-${held.id}`, class: "quiet", click: () => dealWith(held.id, "put-away") }, "I have dealt with it: put it away"),
    ),
  );
}

async function carries() {
  const all = await kits();
  carried = new Map(all.map(({ handover, kit }) => [handover, kit]));
  all.sort((a, b) => Date.parse(a.kit.due) - Date.parse(b.kit.due));
  const rows = await Promise.all(all.map(one));
  if (!rows.length) return [make("p", {}, "No handover yet. Open one while there is a network, or press “Take along” on Today.")];
  return [make("ul", { class: "carried" }, ...rows)];
}

/** @param {{handover: number, kit: any, kept: string}} carried */
async function one({ handover, kit, kept }) {
  const [live, van] = pagesOf(handover, kit);
  const links = [make("a", { class: "button main", href: live }, "Go round")];
  if (van && (await isKept(van))) links.push(make("a", { class: "button", href: van }, "The van"));
  const due = make("p", { class: "due" }, make("small", {}, dayName(kit.due)), clockTime(kit.due));
  const words = make("div", {}, due, make("h3", {}, kit.owner), make("p", {}, kit.van.name, " ", make("span", { class: "figure soft" }, kit.van.stock)));
  words.append(make("div", { class: "row" }, ...links), make("p", { class: "soft small" }, `As the desk had it ${dayName(kept)} ${clockTime(kept)}`));
  return make("li", {}, make("div", { class: "picture" }, ...picture(kit.drawing)), words);
}

/**
 * The van's drawing without its ids and words, as several stand on the page and the words beside it say what it is.
 *
 * @param {string} svg
 * @returns {Node[]}
 */
function picture(svg) {
  const root = new DOMParser().parseFromString(svg ?? "", "image/svg+xml").documentElement;
  if (root.localName !== "svg") return [];
  for (const each of root.querySelectorAll("title, desc")) each.remove();
  for (const each of [root, ...root.querySelectorAll("[id]")]) each.removeAttribute("id");
  for (const name of ["role", "aria-labelledby", "aria-describedby"]) root.removeAttribute(name);
  root.setAttribute("aria-hidden", "true");
  return [document.importNode(root, true)];
}

async function itself() {
  const taken = await roomTaken();
  const clock = clockInWords(await clockAhead());
  const room = roomInWords(taken);
  const cells = [
    ["Clock", clock ? "wrong" : "right"],
    ["Room taken", `${Math.round(taken * 100)} %`],
    ["Without a network", canKeep() ? "opens what is carried" : "opens no page"],
  ];
  const block = cells.map(([name, value]) => make("div", {}, make("dt", {}, name), make("dd", {}, value)));
  const said = [clock, room, canKeep() ? "" : NOT_SECURE].filter(Boolean).map((words) => make("p", {}, words));
  return [make("dl", { class: "title-block" }, ...block), ...said];
}

function why() {
  if (location.pathname === "/tablet/") return;
  found("#why").textContent = "That page needs the network, and there is none. This is what the tablet carries.";
}

/** All that the desk does not have, as a file for a person to keep: a last way out if the tablet must go away for repair. */
async function saveCopy() {
  const lines = await outbox();
  const all = [];
  for (const handover of new Set(lines.map((line) => line.handover))) all.push(...(await events(handover)));
  const owing = new Map(lines.map((line) => [line.id, line]));
  const copy = { saved: new Date().toISOString(), events: all.filter((event) => owing.has(event.id)), outbox: lines };
  const address = URL.createObjectURL(new Blob([JSON.stringify(copy, null, 1)], { type: "application/json" }));
  make("a", { href: address, download: `not-sent-${copy.saved.slice(0, 10)}.json` }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

async function disputes() {
  const { conflicts } = await unsent();
  if (!conflicts) return [];
  const words = `${counted(conflicts, "handover has", "handovers have")} two answers to one question.`;
  return [make("p", {}, words, " ", make("a", { href: "/tablet/two-answers/" }, "Settle them"))];
}

const draws = [
  drawn(found("#owed"), owed),
  drawn(found("#set-aside"), setAside),
  drawn(found("#disputes"), disputes),
  drawn(found("#carried"), carries),
  drawn(found("#itself"), itself),
];
const drawAll = () => draws.forEach((draw) => draw());
why();
onChange(drawAll);
onStanding(drawAll);

/** The tablet's own page: what is not sent, what the desk would not take, what is carried, and how the tablet itself is. */

import { pagesOf } from "./carry.js";
import { clockAhead } from "./here.js";
import { drawn, found, make } from "./make.js";
import { dealWith, onStanding, standing, wake } from "./outbox.js";
import { canKeep, isKept } from "./pages.js";
import { events, kits, onChange, outbox, unsent, unsentPhotos } from "./store.js";
import { roomTaken } from "./counts.js";
import { clockInWords, clockTime, counted, owedInWords, roomInWords, told, troubleInWords } from "./words.js";

/**
 * @typedef {import("./types.js").Seen} Seen
 * @typedef {import("./types.js").Waiting} Waiting
 * @typedef {import("./types.js").Photo} Photo
 */

/** @type {Map<number, any>} */
let carried = new Map();

/** @param {number} handover */
function nameOf(handover) {
  const kit = carried.get(handover);
  return kit ? `${kit.owner ?? ""}${kit.owner ? ": " : ""}${vanOf(kit)}` : `Handover ${handover}`;
}

/** @param {any} kit */
function vanOf(kit) {
  return typeof kit.van === "object" && kit.van ? (kit.van.name ?? "") : (kit.van_name ?? "");
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
  if (!waiting.length && !photos.length) return [make("p", {}, "Everything noted on this tablet is with the desk.")];
  const handovers = [...new Set([...waiting, ...photos].map((line) => line.handover))];
  const rows = handovers.map((handover) => {
    const about = (/** @type {Waiting | Photo} */ line) => line.handover === handover;
    const words = owedInWords({ events: waiting.filter(about).length, photos: photos.filter(about).length, refused: 0, conflicts: 0 });
    return make("li", {}, make("strong", {}, nameOf(handover)), ` · ${words}`);
  });
  const now = standing();
  const trouble = now.at === "sending" ? "Sending." : troubleInWords(now);
  const row = make("div", { class: "row" });
  if (now.trouble === "sign-in") row.append(make("a", { class: "button main", href: "/sign-in/?next=/tablet/" }, "Sign in"));
  row.append(make("button", { type: "button", id: "send-now", click: () => wake({ hurry: true }) }, "Send now"));
  row.append(make("button", { type: "button", id: "save-copy", class: "quiet", click: saveCopy }, "Save a copy of it as a file"));
  return [make("ul", { class: "list-rows" }, ...rows), make("p", {}, trouble), row];
}

async function setAside() {
  const lines = (await outbox()).filter((line) => line.state === "refused");
  const photos = (await unsentPhotos()).filter((photo) => photo.state === "refused");
  if (!lines.length && !photos.length) return [make("p", { class: "soft" }, "Nothing. The desk took all it was sent.")];
  const rows = [];
  for (const line of lines) {
    const event = (await events(line.handover)).find((each) => each.id === line.id);
    if (event) rows.push(refused(line, told(event, titles(line.handover)), event.at));
  }
  for (const photo of photos) rows.push(refused(photo, "A photo", photo.at));
  return [make("ul", { class: "list-rows" }, ...rows)];
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
  const rows = [];
  for (const { handover, kit, kept } of all) {
    const [live, van] = pagesOf(handover, kit);
    const links = [make("a", { class: "button main", href: live }, "Go round")];
    if (van && (await isKept(van))) links.push(make("a", { class: "button", href: van }, "The van"));
    const since = make("span", { class: "soft" }, `as it was at ${clockTime(kept)} on ${new Date(kept).toLocaleDateString("en-GB", { weekday: "long" })}`);
    rows.push(make("li", {}, make("p", {}, make("strong", {}, nameOf(handover)), " ", since), make("div", { class: "row" }, ...links)));
  }
  if (!rows.length) return [make("p", {}, "No handover yet. Open one while there is a network, or press “Take along” on Today.")];
  return [make("ul", { class: "list-rows" }, ...rows)];
}

async function itself() {
  const taken = await roomTaken();
  const said = [
    clockInWords(await clockAhead()) || "Its clock agrees with the desk's.",
    roomInWords(taken) || `There is room: ${Math.round(taken * 100)} % of what it may use is taken.`,
    canKeep()
      ? "Pages it has opened or was told to take along open without a network."
      : "This address is not a secure one (https), so pages do not open here without a network. What you note is kept all the same.",
  ];
  return said.map((words) => make("p", {}, words));
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
  drawn(found("#refused"), setAside),
  drawn(found("#disputes"), disputes),
  drawn(found("#carried"), carries),
  drawn(found("#itself"), itself),
];
const drawAll = () => draws.forEach((draw) => draw());
onChange(drawAll);
onStanding(drawAll);

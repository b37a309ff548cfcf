/** Sentences of the tablet, in one place. */

/**
 * @typedef {import("./types.js").Unsent} Unsent
 * @typedef {import("./types.js").Seen} Seen
 * @typedef {import("./outbox.js").Standing} Standing
 */

/**
 * @param {number} count
 * @param {string} one
 * @param {string} [many]
 */
export const counted = (count, one, many = `${one}s`) => (count === 1 ? `1 ${one}` : `${count} ${many}`);

/**
 * How much is not sent yet, with photos named apart.
 *
 * @param {Unsent} owed
 * @returns {string} "" where nothing waits
 */
export function owedInWords({ events, photos }) {
  const parts = [];
  if (events) parts.push(counted(events, "note"));
  if (photos) parts.push(counted(photos, "photo"));
  return parts.join(" and ");
}

export const ALL_SENT = "Everything noted on this tablet is with the desk.";

/**
 * What stands in the line that is always visible.
 *
 * @param {Unsent} owed
 * @param {Standing} standing
 * @returns {string}
 */
export function unsentInWords(owed, standing) {
  const waiting = owedInWords(owed);
  if (!waiting) return owed.refused ? "" : ALL_SENT;
  if (standing.at === "sending" && standing.trouble === null) return `${waiting} not sent yet. Sending.`;
  return `${waiting} not sent yet. ${troubleInWords(standing)}`.trim();
}

/**
 * @param {Standing} standing
 * @returns {string} "" where nothing is in the way
 */
export function troubleInWords({ trouble, who }) {
  switch (trouble) {
    case "network":
      return "No network: kept here until it is back.";
    case "sign-in":
      return "You have been signed out: kept here until you sign in again.";
    case "other-person":
      return `Kept here until ${who || "whoever noted it"} signs in on this tablet, so that the record says who saw it.`;
    case "not-mine":
      return "The desk does not take this handover from you. All is kept here; tell your manager.";
    case "desk":
    case "too-much":
      return "The desk is there but not working properly. All is kept here and tried again.";
    default:
      return "";
  }
}

/**
 * @param {number} seconds  how far this tablet's clock is ahead of the desk's; negative: behind
 * @returns {string}
 */
export function clockInWords(seconds) {
  if (!seconds) return "";
  const apart = Math.abs(seconds);
  const much = apart < 5400 ? counted(Math.round(apart / 60), "minute") : counted(Math.round(apart / 3600), "hour");
  return (
    `This tablet's clock is ${much} ${seconds > 0 ? "fast" : "slow"}: set it right in the tablet's settings. ` +
    "The times you note follow it; their order is kept."
  );
}

/** @param {number} share  of the tablet's room that is taken, 0 to 1 */
export function roomInWords(share) {
  return share < 0.9 ? "" : "This tablet is nearly full. Delete old photos or films from it before you take more.";
}

/**
 * @param {string} at  ISO 8601
 * @returns {string} as the wall clock shows it
 */
export function clockTime(at) {
  return new Date(at).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
}

/**
 * @param {string} at  ISO 8601
 * @returns {string} "today", or the day
 */
export function dayName(at) {
  const day = new Date(at);
  if (day.toDateString() === new Date().toDateString()) return "today";
  return day.toLocaleDateString("en-GB", { weekday: "long", day: "numeric", month: "long" });
}

/**
 * One event as a sentence.
 *
 * @param {Seen} event
 * @param {(id: string) => string} title  of a step
 * @returns {string}
 */
export function told(event, title) {
  const { what, data } = event;
  const step = data.step ? title(data.step) : "";
  switch (what) {
    case "step.begun":
      return `Begun: ${step}`;
    case "step.done":
      return data.tried ? `Done, and the owner tried it: ${step}` : `Done: ${step}`;
    case "step.left":
      return `Left out: ${step}${because(data.reason)}`;
    case "guard.overridden":
      return `Gone on against a warning: ${step}${because(data.reason)}`;
    case "state.set":
      return `Found: ${data.condition} is ${valued(data.value)}${because(data.reason)}`;
    case "snag.raised":
      return `Snag: ${data.words}`;
    case "snag.mended":
      return `Snag put right: ${data.words ?? ""}`;
    case "note":
      return `Note: ${data.words}`;
    case "photo":
      return step ? `Photo at: ${step}` : "Photo";
    case "undone":
      return "Taken back";
    case "round.changed":
      return `Round changed${because(data.why)}`;
    case "round.replanned":
      return "Round planned anew";
    case "conflict.settled":
      return `Settled${because(data.reason)}`;
    default:
      return what;
  }
}

/** @param {string | undefined} reason */
const because = (reason) => (reason ? ` (${reason})` : "");

/** @param {unknown} value */
const valued = (value) => (value === true ? "so" : value === false ? "not so" : String(value));

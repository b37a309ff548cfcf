/**
 * Sends what this tablet owes. An event leaves the outbox only when the desk answers for that very event: applied, or had already.
 * Refused: set aside for a person, the rest goes on. Conflict: the desk has it, and it stays here until somebody has settled it.
 * No answer, a wrong page, an error, a sign-out: nothing changes, and it is tried again. Nothing expires.
 *
 *   start()          send now, and whenever there is reason to
 *   wake()           there is reason to
 *   standing()       {at, trouble, next}: what it is doing, and what is in the way
 *   onStanding(fn)
 */

import { asked, change, look, meta } from "./db.js";
import { compareClock, doubt, whoIsHere } from "./here.js";
import { announce, onChange, outbox, unsentPhotos } from "./store.js";
import { send } from "./talk.js";

/**
 * @typedef {import("./types.js").Seen} Seen
 * @typedef {import("./types.js").Waiting} Waiting
 * @typedef {import("./types.js").Photo} Photo
 * @typedef {import("./types.js").Person} Person
 * @typedef {import("./talk.js").Reply["sort"] | null} Trouble
 * @typedef {{at: "rest" | "sending", trouble: Trouble, who: string, next: number | null}} Standing
 */

const BATCH = 50;
const FIRST_WAIT_S = 1;
const LONGEST_WAIT_S = 60;
const PHOTO_PATIENCE_MS = 180_000;
/** What the desk, or what stands before it, says when it is busy or away as a whole. */
const AWAY = [429, 502, 503, 504];
/** So often a batch may break the desk before its events are sent singly, so that one cannot hold up the rest. */
const BREAKS = 2;

/** @type {Standing} */
let now = { at: "rest", trouble: null, who: "", next: null };
/** @type {Set<(standing: Standing) => void>} */
const listeners = new Set();
let tries = 0;
let asks = false;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;

/** @returns {Standing} */
export function standing() {
  return now;
}

/**
 * @param {(standing: Standing) => void} listener
 * @returns {() => void}
 */
export function onStanding(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** @param {Partial<Standing>} news */
function stand(news) {
  now = { ...now, ...news };
  for (const listener of listeners) listener(now);
}

/** Send now and whenever something is kept, the network returns or the page is looked at again. */
export function start() {
  onChange(({ what }) => {
    if (what === "event" || what === "photo") wake();
  });
  addEventListener("online", () => wake({ hurry: true }));
  addEventListener("pageshow", () => wake({ hurry: true }));
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") wake({ hurry: true });
  });
  wake({ hurry: true });
}

/**
 * @param {{hurry?: boolean}} [how]  hurry: do not wait for the next try
 * @returns {Promise<void>} ends when this round of sending is over
 */
export async function wake({ hurry = false } = {}) {
  if (hurry) {
    tries = 0;
    clearTimeout(timer);
    stand({ next: null });
  }
  // One of this tab's requests may wait for the lock; a second would only do the same.
  if (asks || (now.next !== null && !hurry)) return;
  asks = true;
  try {
    await alone(async () => {
      asks = false;
      await run();
    });
  } finally {
    asks = false;
  }
}

/**
 * Two tabs must not send at once. Where the browser has no locks the desk's own "already" has to do.
 *
 * @param {() => Promise<void>} work
 */
async function alone(work) {
  if (navigator.locks) await navigator.locks.request("firstpitch-outbox", work);
  else await work();
}

async function run() {
  clearTimeout(timer);
  if (!(await owes())) {
    tries = 0;
    stand({ at: "rest", trouble: null, who: "", next: null });
    return;
  }
  stand({ at: "sending", next: null });
  const { trouble, who, wait } = await sendAll();
  if (trouble === null) {
    tries = 0;
    stand({ at: "rest", trouble: null, who: "" });
    return;
  }
  doubt();
  tries += 1;
  const grown = Math.min(LONGEST_WAIT_S, FIRST_WAIT_S * 2 ** (tries - 1));
  // Forty tablets must not come back in the same second.
  const seconds = Math.max(wait, grown * (0.5 + Math.random() / 2));
  stand({ at: "rest", trouble, who, next: Date.now() + seconds * 1000 });
  timer = setTimeout(() => {
    now = { ...now, next: null };
    wake();
  }, seconds * 1000);
}

async function owes() {
  return look(["outbox", "media"], async (store) => {
    const counts = await Promise.all(["outbox", "media"].map((name) => asked(store(name).index("state").count("waiting"))));
    return counts[0] + counts[1] > 0;
  });
}

/** @typedef {{trouble: Trouble, who: string, wait: number, all: boolean}} End  all: everything else would meet the same trouble */

/**
 * @param {Trouble} [trouble]
 * @param {{who?: string, wait?: number, all?: boolean}} [more]
 * @returns {End}
 */
const end = (trouble = null, { who = "", wait = 0, all = false } = {}) => ({ trouble, who, wait, all });

/**
 * @param {import("./talk.js").Reply} reply
 * @returns {End}
 */
function endedBy(reply) {
  if (reply.sort === "desk") return end("desk", { wait: reply.after, all: AWAY.includes(reply.status) });
  return end(reply.sort, { all: ["network", "sign-in", "other-person"].includes(reply.sort) });
}

/** How often in a row a handover's batch broke the desk. @type {Map<number, number>} */
const broke = new Map();
/** Handovers where what the desk has was compared with what it answered for; once for each page is enough. @type {Set<number>} */
const compared = new Set();

/** @returns {Promise<End>} */
async function sendAll() {
  const { reply, person } = await whoIsHere({ fresh: true });
  if (reply !== "answer") return end(reply, { all: true });
  if (!person) return end("sign-in", { all: true });
  const lines = (await outbox()).filter((line) => line.state === "waiting");
  const waiting = async () => (await unsentPhotos()).filter((photo) => photo.state === "waiting");
  const others = [...lines, ...(await waiting())].map((owed) => owed.person).filter((seer) => seer && seer.id !== person.id);
  let worst = others.length ? end("other-person", { who: others[0]?.name ?? "" }) : end();
  for (const handover of new Set(lines.map((line) => line.handover))) {
    const over = await sendEvents(handover, person);
    if (over.trouble) worst = over;
    if (over.all) return over;
  }
  for (const photo of (await waiting()).filter((taken) => mine(taken, person))) {
    const over = await sendPhoto(photo);
    if (over.trouble) worst = over;
    if (over.all) return over;
  }
  return worst;
}

/**
 * What somebody saw is sent while they are signed in, so that the desk writes it down as theirs.
 *
 * @param {Waiting | Photo} owed
 * @param {Person} person
 */
function mine(owed, person) {
  return owed.person === null || owed.person.id === person.id;
}

/**
 * @param {number} handover
 * @param {Person} person
 * @returns {Promise<End>}
 */
async function sendEvents(handover, person) {
  let most = (broke.get(handover) ?? 0) < BREAKS ? BATCH : 1;
  /** @type {Set<string>} */
  const passed = new Set();
  let over = end();
  for (;;) {
    const batch = await nextBatch(handover, person, most, passed);
    if (!batch.length) return over;
    const reply = await sendBatch(handover, person, batch);
    if (reply.sort === "too-much" && most > 1) {
      // One of them may be what it cannot take: find it by sending them singly.
      most = 1;
      continue;
    }
    if (reply.sort === "too-much") {
      await mark([{ id: batch[0].id, answer: "refused", why: "The desk could not read this event." }], batch);
      continue;
    }
    const settled = reply.sort === "answer" ? await mark(reply.data?.answers, batch) : 0;
    if (settled) {
      broke.delete(handover);
      if (reply.sort === "answer") await sendAgainWhatWasLost(handover, reply.data.known);
      announce({ handover, what: "answer" });
      continue;
    }
    over = reply.sort === "answer" ? end("desk") : endedBy(reply);
    if (over.trouble !== "desk" || over.all) return over;
    broke.set(handover, (broke.get(handover) ?? 0) + 1);
    if (most > 1) return over;
    passed.add(batch[0].id);
  }
}

/**
 * A desk that was put back to last night's copy knows fewer of this tablet's events than it has answered for. Owe them again, all of
 * the handover's: what the desk does have it answers with "already".
 *
 * @param {number} handover
 * @param {unknown} known  how many events of this tablet the desk has in this handover
 */
async function sendAgainWhatWasLost(handover, known) {
  if (typeof known !== "number" || compared.has(handover)) return;
  compared.add(handover);
  await change(["outbox", "events", "media", "meta"], async (store) => {
    const device = (await asked(store("meta").get("device")))?.value;
    const range = IDBKeyRange.bound([handover, 0], [handover, Infinity]);
    const lines = new Map((await asked(store("outbox").index("handover").getAll(range))).map((line) => [line.id, line.state]));
    const all = /** @type {Seen[]} */ (await asked(store("events").index("handover").getAll(handover)));
    const own = all.filter((event) => event.device === device && (!lines.has(event.id) || lines.get(event.id) === "conflict"));
    if (known >= own.length) return;
    for (const { id, number, person = null } of own) {
      if (!lines.has(id)) store("outbox").put({ id, handover, number, state: "waiting", why: "", person });
    }
    for (const photo of await asked(store("media").index("handover").getAll(handover))) {
      if (photo.state === "sent" && photo.bytes) store("media").put({ ...photo, state: "waiting" });
    }
  });
}

/**
 * @param {number} handover
 * @param {Person} person
 * @param {Seen[]} batch
 */
async function sendBatch(handover, person, batch) {
  const began = Date.now();
  const sent = batch.map(({ id, number, at, what, data }) => ({ id, number, at, what, data }));
  const reply = await send(`/live/${handover}/events/`, { device: await meta("device"), person: person.id, events: sent });
  if (reply.sort === "answer") await compareClock(reply.data?.server_now, began, Date.now());
  return reply;
}

/**
 * @param {number} handover
 * @param {Person} person
 * @param {number} most
 * @param {Set<string>} passed  ids that were tried in this round already
 * @returns {Promise<Seen[]>}
 */
function nextBatch(handover, person, most, passed) {
  return look(["outbox", "events"], async (store) => {
    const range = IDBKeyRange.bound([handover, 0], [handover, Infinity]);
    const lines = /** @type {Waiting[]} */ (await asked(store("outbox").index("handover").getAll(range)));
    const due = lines.filter((line) => line.state === "waiting" && mine(line, person) && !passed.has(line.id)).slice(0, most);
    return Promise.all(due.map((line) => asked(store("events").get(line.id))));
  });
}

/**
 * Do what the desk answered, event by event, in one transaction.
 *
 * @param {unknown} answers
 * @param {Seen[]} batch
 * @returns {Promise<number>} how many events of the batch it answered for
 */
function mark(answers, batch) {
  const sent = new Set(batch.map((event) => event.id));
  return change(["outbox"], async (store) => {
    let settled = 0;
    for (const { id, answer, why } of Array.isArray(answers) ? answers : []) {
      const line = sent.has(id) ? /** @type {Waiting} */ (await asked(store("outbox").get(id))) : undefined;
      if (line?.state !== "waiting") continue;
      if (answer === "applied" || answer === "already") store("outbox").delete(id);
      else if (answer === "conflict" || answer === "refused") store("outbox").put({ ...line, state: answer, why: why ?? "" });
      else continue;
      settled += 1;
    }
    return settled;
  });
}

/**
 * @param {Photo} photo
 * @returns {Promise<End>}
 */
async function sendPhoto(photo) {
  const form = new FormData();
  form.append("id", photo.id);
  form.append("handover", String(photo.handover));
  form.append("file", new Blob([photo.bytes ?? new ArrayBuffer(0)], { type: photo.type }), `${photo.id}.jpg`);
  const reply = await send("/media/", form, PHOTO_PATIENCE_MS);
  /** @type {{answer?: string, why?: string} | undefined} */
  let said;
  if (reply.sort === "answer") said = [reply.data?.answers ?? reply.data].flat().find((each) => each?.id === photo.id);
  else if (reply.sort === "too-much") said = { answer: "refused", why: "The desk could not take this photo." };
  else return endedBy(reply);
  const had = said?.answer === "applied" || said?.answer === "already";
  if (!had && said?.answer !== "refused") return end("desk");
  await change(["media"], async (store) => {
    const kept = await asked(store("media").get(photo.id));
    await asked(store("media").put({ ...kept, state: had ? "sent" : "refused", why: had ? "" : (said?.why ?? "") }));
  });
  announce({ handover: photo.handover, what: "answer" });
  return end();
}

/**
 * A person has looked at what the desk would not take: send it once more, or put it away (it stays kept either way).
 *
 * @param {string} id  of the event or photo
 * @param {"waiting" | "put-away"} state
 */
export async function dealWith(id, state) {
  await change(["outbox", "media"], async (store) => {
    for (const name of ["outbox", "media"]) {
      const held = await asked(store(name).get(id));
      if (held) await asked(store(name).put({ ...held, state, why: state === "waiting" ? "" : held.why }));
    }
  });
  announce({ handover: null, what: "answer" });
  if (state === "waiting") await wake({ hurry: true });
}

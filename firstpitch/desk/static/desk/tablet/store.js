/**
 * What this tablet keeps. Events are only ever added, each in a transaction of its own, and `append` ends only when the event is
 * on the disk: a screen that says "done" after it may be switched off. Nothing here expires and nothing here uses the network.
 *
 *   await open(3);                                       this page is about handover 3
 *   await append({what: "step.done", data: {step: "…"}}) ends when it is kept
 *   await events(3)                                      all that is known of it, from every device, in order
 *   onChange(({handover, what}) => …)                    also for what other tabs do
 *   await kit(3)                                         what the desk gave to run it without a network, or null
 *   await addPhoto(blob, {step, snag})                   resized, kept, with its event "photo"; gives {id, event}
 *   await unsent()                                       {events, photos, refused, conflicts}
 *
 * What goes wrong is a `Fault` whose message is for the person in front of the screen.
 */

import { asked, change, database, keepMeta, look, meta } from "./db.js";
import { inOrder } from "./order.js";
import { smaller } from "./picture.js";
import { Fault, inWords } from "./faults.js";

/**
 * @typedef {import("./types.js").Seen} Seen
 * @typedef {import("./types.js").Waiting} Waiting
 * @typedef {import("./types.js").Photo} Photo
 * @typedef {import("./types.js").Person} Person
 * @typedef {import("./types.js").Unsent} Unsent
 * @typedef {import("./types.js").Change} Change
 */

/** @type {number | null} */
let current = null;

/** @type {Set<(change: Change) => void>} */
const listeners = new Set();
const channel = "BroadcastChannel" in globalThis ? new BroadcastChannel("firstpitch") : null;
if (channel) channel.onmessage = ({ data }) => tell(data);

/** @param {Change} told */
function tell(told) {
  for (const listener of listeners) listener(told);
}

/**
 * Tell this tab and all others that something was kept.
 *
 * @param {Change} told
 */
export function announce(told) {
  tell(told);
  channel?.postMessage(told);
}

/**
 * @param {(change: Change) => void} listener
 * @returns {() => void} stops it
 */
export function onChange(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/**
 * From now on `append` and `addPhoto` are about this handover where they do not name one.
 *
 * @param {number | string} handover
 * @returns {Promise<void>} ends when the tablet can keep things; a Fault in words where it cannot
 */
export async function open(handover) {
  current = Number(handover);
  try {
    await database();
  } catch (fault) {
    throw inWords(fault);
  }
}

/** @returns {string} a new id */
export function newId() {
  if (crypto.randomUUID) return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

/**
 * @param {number | string | undefined} handover
 * @returns {number}
 */
function about(handover) {
  const number = handover === undefined ? current : Number(handover);
  if (number === null || !Number.isInteger(number)) throw new Error("open(handover) comes first");
  return number;
}

/**
 * Keep one event and owe it to the desk. Ends when both are on the disk; a Fault in words when they could not be.
 *
 * @param {{what: string, data?: Record<string, any>, id?: string, at?: string, handover?: number | string}} given
 * @returns {Promise<Seen>}
 */
export async function append(given) {
  const handover = about(given.handover);
  const event = { id: given.id ?? newId(), at: given.at ?? new Date().toISOString(), what: given.what, data: given.data ?? {} };
  const kept = await withRoom(() => change(["events", "outbox", "meta"], (store) => addEvent(store, handover, event)));
  announce({ handover, what: "event" });
  return kept;
}

/**
 * @param {(name: string) => IDBObjectStore} store
 * @param {number} handover
 * @param {{id: string, at: string, what: string, data: Record<string, any>}} event
 * @returns {Promise<Seen>}
 */
async function addEvent(store, handover, event) {
  const known = store("meta");
  const [device, last, person] = await Promise.all(["device", "number", "person"].map((key) => asked(known.get(key))));
  const id = device?.value ?? newId();
  const number = (last?.value ?? 0) + 1;
  if (!device) known.put({ key: "device", value: id });
  known.put({ key: "number", value: number });
  const who = person?.value ?? null;
  const seen = { ...event, handover, device: id, number, by: who?.name ?? "", person: who };
  store("events").add(seen);
  await asked(store("outbox").add({ id: event.id, handover, number, state: "waiting", why: "", person: who }));
  return seen;
}

/**
 * Do a write; where the tablet is full, make room from what the desk has already, and try once more.
 *
 * @template T
 * @param {() => Promise<T>} write
 * @returns {Promise<T>}
 */
async function withRoom(write) {
  try {
    return await write();
  } catch (fault) {
    if (!isFull(fault)) throw inWords(fault);
    await makeRoom().catch(() => {});
    return write().catch((again) => {
      throw inWords(again);
    });
  }
}

/** @param {unknown} fault */
function isFull(fault) {
  return fault instanceof DOMException && fault.name === "QuotaExceededError";
}

/**
 * Let go of the pictures of photos that the desk has.
 *
 * @returns {Promise<number>} how many
 */
export function makeRoom() {
  return change(["media"], async (store) => {
    const sent = /** @type {Photo[]} */ (await asked(store("media").index("state").getAll("sent")));
    const held = sent.filter((photo) => photo.bytes !== null);
    for (const photo of held) store("media").put({ ...photo, bytes: null });
    return held.length;
  });
}

/**
 * All that is known of a handover, from every device, in the one order.
 *
 * @param {number | string} [handover]
 * @returns {Promise<Seen[]>}
 */
export async function events(handover) {
  const number = about(handover);
  return inOrder(await look(["events"], (store) => asked(store("events").index("handover").getAll(number))));
}

/**
 * Resize a photo, keep it, and keep the event that tells of it, in one transaction.
 *
 * @param {Blob} blob
 * @param {{step?: string | null, snag?: string | null, handover?: number | string}} [told]
 * @returns {Promise<{id: string, event: Seen}>}
 */
export async function addPhoto(blob, told = {}) {
  const handover = about(told.handover);
  const picture = await smaller(blob);
  const bytes = await picture.blob.arrayBuffer();
  const id = newId();
  const at = new Date().toISOString();
  const step = told.step ?? null;
  const snag = told.snag ?? null;
  const event = await withRoom(() =>
    change(["events", "outbox", "meta", "media"], async (store) => {
      const seen = await addEvent(store, handover, { id: newId(), at, what: "photo", data: { media: id, snag, step } });
      const person = (await asked(store("meta").get("person")))?.value ?? null;
      const { width, height } = picture;
      const photo = { id, handover, bytes, type: picture.blob.type, width, height, step, snag, at, state: "waiting", why: "", person };
      await asked(store("media").add(photo));
      return seen;
    }),
  );
  announce({ handover, what: "photo" });
  return { id, event };
}

/**
 * A photo taken on this tablet, as a picture to show.
 *
 * @param {string} id
 * @returns {Promise<Blob | null>} null where this tablet does not hold it (any more)
 */
export async function photo(id) {
  const kept = /** @type {Photo | undefined} */ (await look(["media"], (store) => asked(store("media").get(id))));
  return kept?.bytes ? new Blob([kept.bytes], { type: kept.type }) : null;
}

/**
 * @param {number | string} [handover]
 * @returns {Promise<any>} the desk's kit.json as it was kept, or null
 */
export async function kit(handover) {
  const number = about(handover);
  const kept = await look(["kits"], (store) => asked(store("kits").get(number)));
  return kept?.kit ?? null;
}

/**
 * @param {number | string} handover
 * @param {any} given
 * @param {{same?: boolean}} [how]  same: it is what is kept already, and still right
 */
export async function keepKit(handover, given, { same = false } = {}) {
  const number = about(handover);
  const kept = { handover: number, kit: given, kept: new Date().toISOString() };
  await withRoom(() => change(["kits"], (store) => asked(store("kits").put(kept))));
  if (!same) announce({ handover: number, what: "kit" });
}

/** @returns {Promise<{handover: number, kit: any, kept: string}[]>} every handover this tablet carries */
export function kits() {
  return look(["kits"], (store) => asked(store("kits").getAll()));
}

/** @returns {Promise<Waiting[]>} the whole outbox, in order */
export function outbox() {
  return look(["outbox"], (store) => asked(store("outbox").index("handover").getAll()));
}

/** @returns {Promise<Photo[]>} photos that are not settled with the desk */
export function unsentPhotos() {
  return look(["media"], async (store) => {
    const index = store("media").index("state");
    const found = await Promise.all(["waiting", "refused"].map((state) => asked(index.getAll(state))));
    return found.flat();
  });
}

/**
 * What this tablet still owes the desk, of one handover or of all.
 *
 * @param {number | string} [handover]
 * @returns {Promise<Unsent>}
 */
export async function unsent(handover) {
  const only = handover === undefined ? null : Number(handover);
  const lines = (await outbox()).filter((line) => only === null || line.handover === only);
  const photos = (await unsentPhotos()).filter((taken) => only === null || taken.handover === only);
  const open = await look(["meta"], async (store) => (await asked(store("meta").get("conflicts")))?.value ?? {});
  const disputed = new Set(lines.filter((line) => line.state === "conflict").map((line) => line.handover));
  for (const [number, count] of Object.entries(open)) {
    if (count > 0 && (only === null || Number(number) === only)) disputed.add(Number(number));
  }
  return {
    events: lines.filter((line) => line.state === "waiting").length,
    photos: photos.filter((taken) => taken.state === "waiting").length,
    refused: [...lines, ...photos].filter((held) => held.state === "refused").length,
    conflicts: disputed.size,
  };
}

/**
 * Put away the copies of one handover that the desk has too.
 *
 * @param {number} handover
 * @returns {Promise<void>}
 */
export async function putAway(handover) {
  await change(["events", "outbox", "media", "kits", "meta"], async (store) => {
    const owed = new Set(await asked(store("outbox").getAllKeys()));
    for (const key of await asked(store("events").index("handover").getAllKeys(handover))) {
      if (!owed.has(key)) store("events").delete(key);
    }
    for (const photo of await asked(store("media").index("handover").getAll(handover))) {
      if (photo.state === "sent") store("media").delete(photo.id);
    }
    store("kits").delete(handover);
    await asked(store("meta").delete(`after:${handover}`));
  });
  announce({ handover, what: "forgotten" });
}

/**
 * Put away what belongs to whoever was signed in: kits, and copies of what the desk has. What the desk does not have stays, always.
 *
 * @returns {Promise<void>}
 */
export async function forget() {
  await change(["events", "outbox", "media", "kits", "meta"], async (store) => {
    const owed = new Set(await asked(store("outbox").getAllKeys()));
    for (const key of await asked(store("events").getAllKeys())) if (!owed.has(key)) store("events").delete(key);
    for (const key of await asked(store("media").index("state").getAllKeys("sent"))) store("media").delete(key);
    store("kits").clear();
    for (const key of await asked(store("meta").getAllKeys())) {
      if (String(key).startsWith("after:") || key === "conflicts") store("meta").delete(key);
    }
    await asked(store("meta").delete("person"));
  });
  announce({ handover: null, what: "forgotten" });
}

export { Fault, keepMeta, meta };

/**
 * The tablet's own database, awaited instead of listened to. Writes end only when the browser says that they are on the disk.
 *
 * events   what was seen, here or elsewhere; only ever added to
 * outbox   which of this tablet's events the desk has not answered for, and what it said of those it will not take
 * media    photos
 * kits     what a handover needs to be run without a network
 * meta     this device: its id, the last number it gave, who is signed in, how far each handover was read
 */

const NAME = "firstpitch";
const VERSION = 1;

/** @type {Promise<IDBDatabase> | null} */
let opening = null;

/** @returns {Promise<IDBDatabase>} */
export function database() {
  opening ??= openDatabase().catch((fault) => {
    opening = null;
    throw fault;
  });
  return opening;
}

/** @returns {Promise<IDBDatabase>} */
function openDatabase() {
  return new Promise((resolve, reject) => {
    const asking = indexedDB.open(NAME, VERSION);
    asking.onupgradeneeded = () => lay(asking.result);
    asking.onblocked = () => reject(new DOMException("An older page of the desk is open in another tab. Close it.", "BlockedError"));
    asking.onerror = () => reject(asking.error);
    asking.onsuccess = () => {
      const db = asking.result;
      // A newer page in another tab wants to change the tables: let go, or it waits for ever.
      db.onversionchange = () => {
        db.close();
        opening = null;
      };
      db.onclose = () => {
        opening = null;
      };
      resolve(db);
    };
  });
}

/** @param {IDBDatabase} db */
function lay(db) {
  const events = db.createObjectStore("events", { keyPath: "id" });
  events.createIndex("handover", "handover");
  const outbox = db.createObjectStore("outbox", { keyPath: "id" });
  outbox.createIndex("state", "state");
  outbox.createIndex("handover", ["handover", "number"]);
  const media = db.createObjectStore("media", { keyPath: "id" });
  media.createIndex("state", "state");
  media.createIndex("handover", "handover");
  db.createObjectStore("kits", { keyPath: "handover" });
  db.createObjectStore("meta", { keyPath: "key" });
}

/**
 * @template T
 * @param {IDBRequest<T>} request
 * @returns {Promise<T>}
 */
export function asked(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/**
 * One transaction that writes. Nothing but requests to the database may be awaited inside `work`: anything else lets the
 * transaction end early. Resolves when the transaction is complete, with what `work` gave; rejects when any of it failed,
 * and then none of it happened.
 *
 * @template T
 * @param {string[]} names
 * @param {(store: (name: string) => IDBObjectStore) => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function change(names, work) {
  const db = await database();
  return new Promise((resolve, reject) => {
    const tx = db.transaction(names, "readwrite", { durability: "strict" });
    /** @type {T} */
    let result;
    /** @type {unknown} */
    let fault = null;
    tx.oncomplete = () => resolve(result);
    tx.onabort = () => reject(fault ?? tx.error ?? new DOMException("The write was given up.", "AbortError"));
    work((name) => tx.objectStore(name)).then(
      (value) => {
        result = value;
      },
      (thrown) => {
        fault = tx.error ?? thrown;
        try {
          tx.abort();
        } catch {
          // It has already ended; onabort or oncomplete has told so.
        }
      },
    );
  });
}

/**
 * One transaction that only reads.
 *
 * @template T
 * @param {string[]} names
 * @param {(store: (name: string) => IDBObjectStore) => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function look(names, work) {
  const db = await database();
  const tx = db.transaction(names, "readonly");
  return work((name) => tx.objectStore(name));
}

/**
 * One value of this device.
 *
 * @param {string} key
 * @returns {Promise<any>} null where there is none
 */
export function meta(key) {
  return look(["meta"], async (store) => (await asked(store("meta").get(key)))?.value ?? null);
}

/**
 * @param {string} key
 * @param {unknown} value
 * @returns {Promise<void>}
 */
export function keepMeta(key, value) {
  return change(["meta"], async (store) => {
    await asked(store("meta").put({ key, value }));
  });
}

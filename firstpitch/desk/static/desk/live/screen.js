/**
 * The screen of the live round. It draws what the tablet keeps and writes only events; whatever other devices or the desk say comes in
 * through the store. Nothing moves under a finger: bands and buttons keep their places, and for a moment after the step has changed
 * they do not listen.
 */

import { askNote, askSnag, askWhyNot, stopBefore } from "./ask.js";
import { clockBand, nextBand, nowBand, tick } from "./bands.js";
import { modelOf } from "./model.js";
import { roundOnPaper } from "./paper.js";
import { askWhatChanged } from "./replan.js";
import { openSheet, foot, button } from "./sheets.js";
import { showSteps, showUndo } from "./steps.js";
import { layStrip } from "./strip.js";
import { found, make } from "../tablet/make.js";
import { index } from "../tablet/replay.js";
import { secondOf } from "../tablet/state.js";
import { addPhoto, append, events, kit as keptKit, meta, onChange, open, outbox } from "../tablet/store.js";
import { fetchKit } from "../tablet/sync.js";

/**
 * @typedef {import("./model.js").Model} Model
 * @typedef {import("../tablet/types.js").Seen} Seen
 */

const DEAF_MS = 700;
const LOOK_AGAIN_MS = 5000;
const OF_THE_STEP = ["done", "tried", "left"];
const SCROLL = ["read", "say", "hold"];
const LEAST_MORE_PX = 8;

/** @type {Record<string, string>} */
const NOT_HERE = {
  network: "This handover is not on this tablet yet, and the desk does not answer. It opens here once there is a network; after that it works without one.",
  "sign-in": "This handover is not on this tablet yet, and you have been signed out. Sign in, and it opens here.",
};

const root = found("#live");
const handover = Number(root.dataset.live);
const at = (/** @type {string} */ name) => found(`#live-${name}`);

/** @type {Model} */
let model;
/** @type {ReturnType<typeof layStrip> | null} */
let strip = null;
let deafUntil = 0;
/** Above zero while several events that belong together are being written: nothing is drawn in between. */
let writing = 0;
let drawnFor = "";
let drawnFrom = "";

/** Begin: everything from what the tablet keeps, else from the desk. */
async function begin() {
  try {
    await open(handover);
    await refresh(await theKit());
    wire();
    addEventListener("beforeprint", () => at("paper").replaceChildren(...roundOnPaper(model)));
    setInterval(beat, 1000);
    setInterval(() => refresh(), LOOK_AGAIN_MS);
    onChange(async ({ handover: about, what }) => {
      if (about !== null && about !== handover) return;
      const renewed = what === "kit" ? await keptKit(handover) : null;
      await refresh(renewed ?? undefined);
    });
    root.dataset.ready = "yes";
  } catch (fault) {
    say(fault instanceof Error ? fault.message : String(fault));
  }
}

/**
 * What the round is run from: kept on this tablet, else asked of the desk until it comes.
 *
 * @returns {Promise<any>}
 */
async function theKit() {
  for (;;) {
    const kept = await keptKit(handover);
    if (kept) return kept;
    const { reply, kit } = await fetchKit(handover);
    if (kit) return kit;
    say(NOT_HERE[reply] ?? NOT_HERE.network);
    await new Promise((go) => {
      setTimeout(go, LOOK_AGAIN_MS);
      addEventListener("online", go, { once: true });
    });
  }
}

/** @param {string} words */
function say(words) {
  at("say").replaceChildren(make("p", { class: "fault", role: "alert" }, words));
}

/**
 * Reckon and draw.
 *
 * @param {any} [kit]
 * @returns {Promise<Model>}
 */
async function refresh(kit) {
  if (writing && model) return model;
  model = modelOf(kit ?? model.kit, await events(handover), Date.now());
  draw();
  return model;
}

function draw() {
  const { current, past } = model;
  const now = nowBand(model, (step) => go(step));
  const key = `${current?.id ?? ""} ${past.origin === null} ${model.rest.length === 0}`;
  if (key !== drawnFor) {
    deafUntil = performance.now() + (drawnFor ? DEAF_MS : 0);
    drawnFor = key;
    root.dataset.step = current?.id ?? "";
    at("head").replaceChildren(...now.head);
    at("say").replaceChildren(...now.say);
    for (const name of SCROLL) {
      at(name).scrollTop = 0;
      at(name).removeAttribute("tabindex");
    }
    announce();
  }
  swap(at("hold"), now.hold);
  swap(at("next"), nextBand(model));
  swap(at("clock"), clockBand(model));
  acts();
  mark();
  const from = `${model.kit.version}`;
  if (from !== drawnFrom) {
    drawnFrom = from;
    strip = layStrip(at("strip"), model.kit);
  }
  const here = current?.place ?? model.from.place;
  strip?.show(model.next ? { from: here, to: model.next.step.place, kit: model.next.step.kit } : { from: here, to: here, kit: current?.kit ?? "" });
  tick(root, model.second, past.origin !== null && model.rest.length > 0);
}

/** The buttons of the step now: always in the same places. */
function acts() {
  const { current, past, rest } = model;
  const done = at("done");
  const begun = past.origin !== null;
  done.textContent = current ? "Done" : begun ? (rest.length ? "All steps" : "To the record") : "Begin the round";
  done.classList.toggle("stopped", model.stops.length > 0);
  done.setAttribute("aria-describedby", model.stops.length ? "live-hold" : "step");
  for (const name of ["tried", "left"]) at(name).toggleAttribute("hidden", !current);
  at("tried").toggleAttribute("disabled", Boolean(current && !current.owner_try && !current.points.length));
}

/**
 * @param {HTMLElement} place
 * @param {HTMLElement[]} next
 */
function swap(place, next) {
  const holder = make("div", {}, ...next);
  if (place.dataset.drawn === holder.innerHTML) return;
  place.dataset.drawn = holder.innerHTML;
  const unfolded = place.querySelector("details[open]") !== null;
  place.replaceChildren(...holder.childNodes);
  if (unfolded) for (const fold of place.querySelectorAll("details")) fold.open = true;
}

/** Where not all words have room, say that there is more below, and let the keyboard scroll there. */
function mark() {
  for (const name of SCROLL) {
    const place = at(name);
    const style = getComputedStyle(place);
    const more = style.overflowY === "auto" && place.scrollHeight - place.clientHeight - place.scrollTop > LEAST_MORE_PX;
    place.toggleAttribute("data-more", more);
    if (more) place.tabIndex = 0;
  }
}

/** Say the new step to a screen reader, without moving the focus from the button in use. */
function announce() {
  at("said").textContent = model.current ? `Now: ${model.current.title}` : "";
}

function beat() {
  if (model.past.origin === null) return;
  const second = secondOf(model.past, Date.now());
  tick(root, second, model.rest.length > 0);
  for (const sheet of document.querySelectorAll("dialog[open]")) if (sheet instanceof HTMLElement) tick(sheet, second, false);
}

/**
 * @param {string} what
 * @param {Record<string, any>} data
 * @param {string} [id]
 */
async function tell(what, data, id) {
  const title = data.step ? index(model.problem).steps.get(data.step)?.title : undefined;
  const event = await append({ what, data: title ? { ...data, title } : data, ...(id ? { id } : {}) });
  await refresh();
  return event;
}

/** @param {string} step */
async function go(step) {
  await tell("step.begun", { step });
}

/**
 * The step is over: note it, and that the next one begins.
 *
 * @param {boolean} tried
 */
async function over(tried) {
  const step = model.current;
  if (!step) return;
  const next = model.next?.step;
  await together([
    { what: "step.done", data: { step: step.id, tried, title: step.title } },
    ...(next ? [{ what: "step.begun", data: { step: next.id, title: next.title } }] : []),
  ]);
}

/**
 * Write events that belong together, then draw.
 *
 * @param {{what: string, data: Record<string, any>}[]} all
 */
async function together(all) {
  writing += 1;
  try {
    for (const one of all) await append(one);
  } finally {
    writing -= 1;
    await refresh();
  }
}

/** @param {boolean} tried */
async function done(tried) {
  await refresh();
  const step = model.current;
  if (!step) {
    if (model.past.origin === null && model.next) return go(model.next.step.id);
    if (model.rest.length === 0 && root.dataset.record) return location.assign(root.dataset.record);
    return showSteps(model, ways);
  }
  if (!model.stops.length) return over(tried);
  stopBefore(model, step, {
    go,
    found: async (condition, value, reason) => {
      const before = model.past.changes.findLast((change) => change.sort === "found" && change.condition === condition);
      await tell("state.set", { condition, value, reason, over: before?.event ?? "" });
    },
    on: async (reason, stops) => {
      const warned = stops.map(({ condition, rule, harm, text }) => ({ step: step.id, guard: condition || rule, harm: harm || text, reason, title: step.title }));
      await together(warned.map((data) => ({ what: "guard.overridden", data })));
      await over(tried);
    },
  });
}

const ways = {
  go,
  undo: async (/** @type {string} */ event) => {
    await tell("undone", { event });
  },
};

/** What the desk may not have yet, for planning anew. */
async function unsent() {
  const owed = new Set((await outbox()).filter((line) => line.handover === handover).map(({ id }) => id));
  const own = (await events(handover)).filter(({ id }) => owed.has(id));
  return { device: await meta("device"), events: own.slice(-150).map(({ id, number, at: seen, what, data }) => ({ id, number, at: seen, what, data })) };
}

/** Connect the buttons, once: they stay where they are. */
function wire() {
  const watch = new ResizeObserver(mark);
  for (const name of SCROLL) {
    watch.observe(at(name));
    at(name).addEventListener("scroll", mark, { passive: true });
    at(name).addEventListener("toggle", mark, { capture: true });
  }
  press("done", () => done(false));
  press("tried", () => done(true));
  press("left", async () => {
    const step = model.current;
    const next = model.next?.step;
    if (step) askWhyNot(step, (reason) => together([
      { what: "step.left", data: { step: step.id, reason, title: step.title } },
      ...(next ? [{ what: "step.begun", data: { step: next.id, title: next.title } }] : []),
    ]));
  });
  press("snag", () => askSnag(model, tell));
  press("note", () => askNote(model, tell));
  press("replan", () => askWhatChanged(model, { tell, again: () => refresh(), unsent }));
  press("steps", () => showSteps(model, ways));
  press("undo", async () => showUndo(model, await meta("device"), ways));
  const photo = /** @type {HTMLInputElement} */ (at("photo"));
  photo.addEventListener("change", async () => {
    const file = photo.files?.[0];
    photo.value = "";
    if (file) await guarded(() => addPhoto(file, { step: model.current?.id ?? null }));
  });
}

/**
 * @param {string} name
 * @param {() => any} work
 */
function press(name, work) {
  at(name).addEventListener("click", () => {
    // A second tap on "done" must not take the next step along.
    if (OF_THE_STEP.includes(name) && performance.now() < deafUntil) return;
    guarded(work);
  });
}

/** @param {() => any} work */
async function guarded(work) {
  try {
    await work();
  } catch (fault) {
    openSheet("That was not kept", (sheet) => [make("p", {}, fault instanceof Error ? fault.message : String(fault)), foot(button("Back", () => sheet.close(), "main"))]);
  }
}

begin();

/**
 * What every page of the desk starts on the tablet: the worker that opens pages without a network, the outbox, the line of what is
 * not sent, signing out without losing anything, and the change to a newer version when nobody loses work by it.
 *
 *   <… data-follow="3">         the page is about that handover: it is kept in step with other devices
 *   <… data-unsent>             the place of the line (else the foot of the window)
 *   <form action="/sign-out/">  is asked about first where something is unsent
 */

import { carry } from "./carry.js";
import { showCounts, tellOfNewer } from "./counts.js";
import { doubt, whoIsHere } from "./here.js";
import { start } from "./outbox.js";
import { canKeep, forgetPages } from "./pages.js";
import { forget, unsent } from "./store.js";
import { follow } from "./sync.js";
import { owedInWords } from "./words.js";

const LIVE = /^\/live\/(\d+)\/$/;

/** Begin. */
async function begin() {
  showCounts();
  askBeforeSigningOut();
  keepTypedWithoutNetwork();
  const about = document.querySelector("[data-follow]");
  if (about instanceof HTMLElement && about.dataset.follow) follow(about.dataset.follow);
  start();
  await whoIsHere({ fresh: true });
  if (canKeep()) await work();
}

async function work() {
  const registration = await navigator.serviceWorker.register("/worker.js", { scope: "/", updateViaCache: "none" }).catch(() => null);
  if (!registration) return;
  offerNewVersion(registration);
  const { active } = await navigator.serviceWorker.ready;
  // A page that was under way while the worker took over has been passed by.
  if (!navigator.serviceWorker.controller) active?.postMessage({ what: "serve-me" });
  const handover = LIVE.exec(location.pathname)?.[1];
  if (handover) await carry(Number(handover));
}

/** @param {ServiceWorkerRegistration} registration */
function offerNewVersion(registration) {
  const offer = () => {
    if (registration.waiting && navigator.serviceWorker.controller) askToChange(registration.waiting);
  };
  offer();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", offer);
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") registration.update().catch(() => {});
  });
}

/** @param {ServiceWorker} waiting */
function askToChange(waiting) {
  // On the live round nothing comes between: its line says so, and the tablet's own page asks.
  if (document.querySelector("[data-unsent]")) return tellOfNewer();
  if (document.querySelector(".new-version")) return;
  const box = document.createElement("div");
  box.className = "notice new-version";
  box.setAttribute("role", "status");
  const words = document.createElement("p");
  words.textContent =
    "A newer version of the desk is ready. You can go on with this one as long as you like; nothing you noted is lost by changing.";
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Change to it now";
  button.addEventListener("click", async () => {
    const owed = owedInWords(await unsent());
    if (typedIn() || owed) {
      words.textContent = typedIn()
        ? "Finish or clear what you are typing first, then change."
        : `${owed} not sent yet. Wait until everything is with the desk, then change.`;
      return;
    }
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    waiting.postMessage({ what: "take-over" });
  });
  box.append(words, button);
  document.body.append(box);
}

/** @returns {boolean} whether somebody has typed something that a new page would lose */
function typedIn() {
  return [...document.querySelectorAll("main textarea, main input")].some(
    (field) =>
      (field instanceof HTMLTextAreaElement || (field instanceof HTMLInputElement && field.type !== "hidden")) &&
      field.value !== field.defaultValue,
  );
}

function askBeforeSigningOut() {
  document.addEventListener("submit", async (press) => {
    const form = press.target;
    if (!(form instanceof HTMLFormElement) || new URL(form.action).pathname !== "/sign-out/") return;
    press.preventDefault();
    const owed = await unsent();
    if (owedInWords(owed) && form.dataset.asked !== "yes") {
      form.dataset.asked = "yes";
      say(form, `${owedInWords(owed)} not sent yet. That stays on this tablet and goes when you sign in on it again. Press again to sign out.`);
      return;
    }
    if (!(await canReach())) {
      say(form, "No network: the desk cannot sign you out now. Try again when it is back.");
      return;
    }
    await forgetPages();
    await forget();
    form.submit();
  });
}

async function canReach() {
  doubt();
  return (await whoIsHere()).reply !== "network";
}

/** A form sent without a network would be lost with its page. */
function keepTypedWithoutNetwork() {
  document.addEventListener("submit", (press) => {
    const form = press.target;
    if (navigator.onLine || press.defaultPrevented || !(form instanceof HTMLFormElement) || form.method !== "post") return;
    press.preventDefault();
    say(form, "No network. What you typed stays here: press again when it is back.");
  });
}

/**
 * @param {HTMLFormElement} form
 * @param {string} words
 */
function say(form, words) {
  let line = form.querySelector(".fault-of-network");
  if (!line) {
    line = document.createElement("p");
    line.className = "fault fault-of-network";
    line.setAttribute("role", "alert");
    form.append(line);
  }
  line.textContent = words;
}

begin();

// The film beside its findings: tap one and it plays there; say whether it is so without leaving the film; see how far the queue is.

const EVERY_MS = 2000;
const film = /** @type {HTMLVideoElement | null} */ (document.getElementById("film"));
const sheet = /** @type {HTMLDialogElement} */ (document.getElementById("decide-sheet"));
const progress = /** @type {HTMLElement} */ (document.getElementById("progress"));

document.addEventListener("click", (event) => {
  const at = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-at]"));
  if (!at || !film) return;
  event.preventDefault();
  film.currentTime = Number(at.dataset.at);
  film.play().catch(() => undefined);
});

/** The chapter that plays is marked. */
function mark() {
  const lines = [.../** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-from]"))];
  const now = lines.filter((line) => Number(line.dataset.from) <= (film?.currentTime ?? 0) + 0.01).at(-1);
  for (const line of lines) {
    if (line === now && film?.currentTime) line.setAttribute("aria-current", "true");
    else line.removeAttribute("aria-current");
  }
}
for (const name of ["timeupdate", "play", "pause", "seeked"]) film?.addEventListener(name, mark);
const chapters = /** @type {HTMLDetailsElement | null} */ (document.querySelector("[data-chapters]"));
if (chapters && matchMedia("(min-width: 62rem)").matches) chapters.open = true;

const form = /** @type {HTMLFormElement | null} */ (sheet.querySelector("[data-decide-form]"));
/** @type {HTMLElement | null} */
let asked = null;
if (form) {
  const close = /** @type {HTMLButtonElement} */ (form.querySelector("[data-close]"));
  close.hidden = false;
  close.addEventListener("click", () => sheet.close());
  document.addEventListener("click", (event) => {
    const link = /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest("[data-decide]"));
    if (!link) return;
    event.preventDefault();
    asked = link;
    open(link, form);
  });
  form.addEventListener("submit", (event) => { event.preventDefault(); keep(form); });
}

/** @param {HTMLElement} link @param {HTMLFormElement} form */
function open(link, form) {
  field(form, "finding").value = link.dataset.decide ?? "";
  const words = [.../** @type {HTMLElement[]} */ (Array.from(link.closest(".finding")?.querySelectorAll("[data-said]") ?? []))].map((one) => one.textContent?.trim().replace(/\s+/g, " ")).join(": ");
  field(form, "words").value = words.slice(0, 300);
  field(form, "reason").value = link.dataset.reason ?? "";
  for (const radio of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("[name=verdict]"))) radio.checked = radio.value === (link.dataset.verdict ?? "");
  /** @type {HTMLElement} */ (form.querySelector("[data-about]")).textContent = words;
  fault(form, "");
  sheet.showModal();
}

/** @param {HTMLFormElement} form @param {string} name */
const field = (form, name) => /** @type {HTMLInputElement} */ (form.elements.namedItem(name));

/** @param {HTMLFormElement} form @param {string} words */
function fault(form, words) {
  const place = /** @type {HTMLElement} */ (form.querySelector("[data-fault]"));
  place.textContent = words;
  place.hidden = !words;
}

/** @param {HTMLFormElement} form */
async function keep(form) {
  const answer = await fetch(form.action, { method: "POST", body: new FormData(form), headers: { Accept: "application/json" } }).catch(() => null);
  const said = await answer?.json().catch(() => null);
  if (!answer?.ok || !said) return fault(form, said?.error || "The desk cannot be reached. What you typed stays here; try again when the line is back.");
  shown(said);
  sheet.close();
}

/** @param {{verdict: string, reason: string}} said */
function shown(said) {
  if (!asked) return;
  asked.dataset.verdict = said.verdict;
  asked.dataset.reason = said.reason;
  asked.textContent = said.verdict ? "Change it" : "Is it so?";
  const row = asked.closest(".finding");
  row?.classList.toggle("gone", said.verdict === "dismissed");
  const line = /** @type {HTMLElement | null} */ (row?.querySelector("[data-decided]") ?? null);
  if (line) {
    const word = { dismissed: "No fault.", accepted: "To film again." }[said.verdict] ?? "";
    line.textContent = `${word} ${said.reason}`.trim();
  }
  asked.focus();
}

/** Something is being read, watched, typed or sent: then nothing moves by itself. */
const busy = () => {
  const fields = [.../** @type {NodeListOf<HTMLInputElement | HTMLTextAreaElement>} */ (document.querySelectorAll("main input, main textarea"))];
  const typed = fields.some((one) => one.type !== "hidden" && (one.type === "file" ? Boolean(one.value) : one.value !== one.defaultValue));
  return typed || sheet.open || Boolean(film && !film.paused) || Boolean(document.querySelector("[data-sending]:not([hidden])"));
};

/** The queue is done: the page is read anew, by itself only where that disturbs nobody. */
function done() {
  if (!busy()) return location.reload();
  const link = document.createElement("a");
  link.href = location.pathname;
  link.className = "button";
  link.textContent = "It is done: show what was found";
  progress.replaceChildren(link);
}

/** Follow the queue; when it is done the page is read anew. */
async function follow() {
  while (progress.querySelector("[data-under-way]")) {
    await new Promise((resolve) => setTimeout(resolve, EVERY_MS));
    const answer = await fetch(`${location.pathname}?part=progress`, { headers: { Accept: "text/html" } }).catch(() => null);
    if (!answer?.ok || answer.redirected) continue;
    const text = await answer.text();
    const next = document.createElement("div");
    next.innerHTML = text;
    if (!next.querySelector("[data-under-way]")) return done();
    if (next.textContent !== progress.textContent) progress.innerHTML = text;
  }
}
follow();

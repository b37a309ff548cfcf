/**
 * Signing on the glass: what a finger, pen or mouse draws becomes an SVG path of whole numbers within 600 by 200.
 * Without a script, or by keyboard, the typed name and a tick stand for it. What was drawn stays when the desk cannot be reached.
 */

const WIDTH = 600;
const HEIGHT = 200;
const LONGEST = 40_000;
const NEAR = 2;

const form = /** @type {HTMLFormElement} */ (document.getElementById("sign"));

/** @param {string} selector @returns {any} */
const part = (selector) => form.querySelector(selector);

/**
 * The glass: draws, clears, and keeps the path in its hidden field.
 * @param {HTMLElement} glass
 * @param {HTMLInputElement} field
 */
function glassOf(glass, field) {
  const svg = /** @type {SVGSVGElement} */ (glass.querySelector("svg"));
  const line = /** @type {SVGPathElement} */ (glass.querySelector("path"));
  const typed = /** @type {HTMLInputElement} */ (part("[name=typed]"));
  /** @type {number | null} */
  let pointer = null;
  /** @type {[number, number]} */
  let last = [0, 0];
  let drawn = field.value;

  const show = () => {
    line.setAttribute("d", drawn);
    field.value = drawn;
  };

  /** @param {PointerEvent} event @returns {[number, number]} */
  const at = (event) => {
    const box = svg.getBoundingClientRect();
    const x = Math.round(((event.clientX - box.left) / box.width) * WIDTH);
    const y = Math.round(((event.clientY - box.top) / box.height) * HEIGHT);
    return [Math.min(WIDTH, Math.max(0, x)), Math.min(HEIGHT, Math.max(0, y))];
  };

  svg.addEventListener("pointerdown", (event) => {
    if (pointer !== null || event.button > 0) return;
    pointer = event.pointerId;
    svg.setPointerCapture(pointer);
    last = at(event);
    drawn += `M${last.join(" ")}L${last.join(" ")}`;
    typed.checked = false;
    show();
  });
  svg.addEventListener("pointermove", (event) => {
    if (event.pointerId !== pointer) return;
    const seen = event.getCoalescedEvents?.() ?? [];
    for (const one of seen.length > 0 ? seen : [event]) {
      const here = at(one);
      if (Math.hypot(here[0] - last[0], here[1] - last[1]) < NEAR || drawn.length > LONGEST - 12) continue;
      last = here;
      drawn += `L${here.join(" ")}`;
    }
    show();
  });
  const lift = (/** @type {PointerEvent} */ event) => {
    if (event.pointerId === pointer) pointer = null;
  };
  svg.addEventListener("pointerup", lift);
  svg.addEventListener("pointercancel", lift);
  glass.querySelector("button")?.addEventListener("click", () => {
    drawn = "";
    show();
  });
  show();
  glass.hidden = false;
}

/** Say beside the button what is wrong. @param {string} words @param {string} field */
function say(words, field) {
  const fault = /** @type {HTMLElement} */ (document.getElementById("sign-fault"));
  fault.textContent = words;
  fault.hidden = false;
  const wrong = field ? part(`[name="${field}"]`) : null;
  fault.scrollIntoView({ block: "center" });
  if (wrong && wrong.type !== "hidden") wrong.focus({ preventScroll: true });
}

/** Send it; the page and what was drawn stay until the desk has said yes. @param {SubmitEvent} event */
async function send(event) {
  event.preventDefault();
  const button = /** @type {HTMLButtonElement} */ (part("button.main"));
  button.disabled = true;
  try {
    const headers = { Accept: "application/json" };
    const answer = await fetch(form.action, { method: "POST", body: new FormData(form), headers, cache: "no-store" });
    const said = await answer.json().catch(() => ({}));
    if (answer.ok && said.next) {
      location.assign(said.next);
      return;
    }
    if (said.again) {
      form.submit(); // the page comes back as it stands now, with what was drawn
      return;
    }
    say(said.error ?? "The desk did not take it. Nothing was signed; press again.", said.field ?? "");
  } catch {
    say("Wait for the network and press again. The signature stays here; nothing was signed yet.", "");
  }
  button.disabled = false;
}

if (form) {
  glassOf(part(".glass"), part("[name=path]"));
  form.addEventListener("submit", (event) => void send(event));
}

// Look every two seconds how far the pack is, while it is being made. Without this script the page has a link that does the same.

const EVERY_MS = 2000;
const place = /** @type {HTMLElement} */ (document.getElementById("progress"));

/** Fetch the part anew and show it; what the keyboard is on stays so. */
async function look() {
  const asked = new URL(location.pathname, location.href);
  asked.search = "?part=progress";
  const answer = await fetch(asked, { headers: { Accept: "text/html" } });
  if (!answer.ok || answer.redirected) return;
  const text = await answer.text();
  const next = document.createElement("div");
  next.innerHTML = text;
  if (said(next) === said(place)) return;
  const focused = document.activeElement?.textContent;
  const within = place.contains(document.activeElement);
  place.innerHTML = text;
  if (!within) return;
  const acting = [.../** @type {NodeListOf<HTMLElement>} */ (place.querySelectorAll("a, button"))];
  (acting.find((one) => one.textContent === focused) ?? acting[0])?.focus();
}

/** What a part says, without its spaces. @param {Element} part @returns {string} */
const said = (part) => (part.textContent ?? "").replace(/\s+/g, " ").trim();

/** Look as long as it is under way; a network that is away is asked again. */
async function follow() {
  while (place.querySelector("[data-under-way]")) {
    await new Promise((resolve) => setTimeout(resolve, EVERY_MS));
    await look().catch(() => undefined);
  }
}

place.querySelector("[data-again]")?.addEventListener("click", (event) => {
  event.preventDefault();
  look().catch(() => location.reload());
});
follow();

// Pick a kit on the drawing or in the list, and its panel comes without the page moving. Without this script the same links
// open the same page with the kit picked.

/** @param {string} href @returns {string} the path of a link, which names a kit */
const pathOf = (href) => new URL(href, location.href).pathname;

const panel = /** @type {HTMLElement | null} */ (document.getElementById("panel"));
const drawing = document.querySelector(".drawing");
let shown = location.pathname; // what the panel shows

/** Mark every link that leads to what is picked. @param {string} path */
function mark(path) {
  drawing?.classList.add("moved");
  for (const link of document.querySelectorAll(".drawing a, .listed a")) {
    if (pathOf(link.getAttribute("href") ?? "") === path) link.setAttribute("aria-current", "true");
    else link.removeAttribute("aria-current");
  }
}

/** Show a kit's panel. @param {string} href @param {boolean} remember whether the browser's way back gets a step */
async function pick(href, remember) {
  const ask = new URL(href, location.href);
  ask.search = "?part=panel"; // the same from every side, so that a tablet need keep it once
  ask.hash = "";
  const answer = await fetch(ask, { headers: { Accept: "text/html" } });
  if (!answer.ok || answer.redirected || !panel) throw new Error(String(answer.status));
  panel.innerHTML = await answer.text();
  shown = pathOf(href);
  mark(pathOf(href));
  if (remember) history.pushState({ kit: true }, "", href);
  for (const view of document.querySelectorAll(".views a")) {
    const to = new URL(/** @type {HTMLAnchorElement} */ (view).href);
    to.pathname = pathOf(href);
    /** @type {HTMLAnchorElement} */ (view).href = to.href;
  }
  const head = /** @type {HTMLElement | null} */ (panel.querySelector("h2"));
  head?.focus({ preventScroll: true });
  show(panel);
}

/** Bring the panel into sight, with the drawing above it where both fit. @param {HTMLElement} panel */
function show(panel) {
  const { top } = panel.getBoundingClientRect();
  if (top >= 0 && top < innerHeight * 0.75) return;
  const drawn = panel.parentElement?.querySelector(".drawn");
  const far = drawn ? top - drawn.getBoundingClientRect().top : Infinity;
  (drawn && far < innerHeight * 0.75 ? drawn : panel).scrollIntoView({ block: "start" });
}

const NEAR = 34; // a finger this close to a mark [px] means it

/** The link of the mark nearest to a place on the drawing. @param {MouseEvent} event @returns {Element | null} */
function nearest(event) {
  let [found, least] = [/** @type {Element | null} */ (null), NEAR];
  for (const link of document.querySelectorAll(".drawing a")) {
    const box = link.querySelector("circle")?.getBoundingClientRect();
    if (!box) continue;
    const away = Math.hypot(event.clientX - box.x - box.width / 2, event.clientY - box.y - box.height / 2);
    if (away < least) [found, least] = [link, away];
  }
  return found;
}

document.addEventListener("click", (event) => {
  if (event.defaultPrevented || event.button || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const target = /** @type {Element} */ (event.target);
  const link = target.closest(".drawing a, .listed a, a.to-kit") ?? (target.closest(".drawing") && nearest(event));
  const href = link?.getAttribute("href");
  if (!href || !panel) return;
  event.preventDefault();
  pick(href, true).catch(() => location.assign(href));
});

addEventListener("popstate", () => {
  if (location.pathname === shown) return; // a jump within the page
  pick(location.href, false).catch(() => location.reload());
});

// On a narrow screen the drawing slides: begin with what is picked in sight.
const picked = document.querySelector(".drawing .fp-mark-next");
if (drawing && picked) {
  const [mark, frame] = [picked.getBoundingClientRect(), drawing.getBoundingClientRect()];
  drawing.scrollLeft += mark.x + mark.width / 2 - frame.x - frame.width / 2;
}

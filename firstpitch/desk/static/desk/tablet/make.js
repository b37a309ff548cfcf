/** Building pieces of a page. */

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} name
 * @param {Record<string, string | boolean | ((event: Event) => void)>} given  attributes; functions listen
 * @param {...(Node | string)} inside
 * @returns {HTMLElementTagNameMap[K]}
 */
export function make(name, given, ...inside) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(given)) {
    if (typeof value === "function") made.addEventListener(key, value);
    else if (typeof value === "boolean") made.toggleAttribute(key, value);
    else made.setAttribute(key, value);
  }
  made.append(...inside);
  return made;
}

/**
 * @param {string} selector
 * @returns {HTMLElement}
 */
export function found(selector) {
  const element = document.querySelector(selector);
  if (!(element instanceof HTMLElement)) throw new Error(`the page has no ${selector}`);
  return element;
}

/**
 * Draw a place of the page now and whenever it may have changed, never twice at once, and never under somebody's hands.
 *
 * @param {HTMLElement} place
 * @param {() => Promise<(Node | string)[]>} pieces
 * @returns {() => Promise<void>} draws it
 */
export function drawn(place, pieces) {
  let running = false;
  let again = false;
  const draw = async () => {
    again = true;
    if (running) return;
    running = true;
    try {
      while (again) {
        again = false;
        const next = await pieces();
        if (inUse(place)) place.addEventListener("focusout", draw, { once: true });
        else swap(place, next);
      }
    } finally {
      running = false;
    }
  };
  draw();
  return draw;
}

/**
 * @param {HTMLElement} place
 * @param {(Node | string)[]} next
 */
function swap(place, next) {
  const holder = document.createElement("div");
  holder.append(...next);
  if (holder.innerHTML === place.innerHTML) return;
  const focused = place.contains(document.activeElement) ? document.activeElement?.id : "";
  place.replaceChildren(...holder.childNodes);
  if (focused) document.getElementById(focused)?.focus();
}

/** @param {HTMLElement} place */
function inUse(place) {
  const at = document.activeElement;
  return at instanceof HTMLTextAreaElement && place.contains(at) && at.value !== "";
}

// Tells, at sign-in, what sort of screen this is, so that its person knows it again in the list of where they are signed in.
// Bound to every <input type="hidden" name="screen">.

/** @returns {string} such as "touch 1180x820" */
function screenWords() {
  const sort = matchMedia("(pointer: coarse)").matches ? "touch" : "mouse";
  return `${sort} ${Math.max(screen.width, screen.height)}x${Math.min(screen.width, screen.height)}`;
}

for (const input of document.querySelectorAll('input[type="hidden"][name="screen"]')) {
  /** @type {HTMLInputElement} */ (input).value = screenWords();
}

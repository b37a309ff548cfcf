// Sends a film in pieces. A broken line is waited for; the same file chosen again goes on where it stopped.

const WAITS_MS = [1000, 2000, 4000, 8000, 15000];
const SIGNED_OUT = 401;
const OTHER_PLACE = 409;
const DONE_SHARE = 100;

/** What the desk refuses, in its own words: no use to try the same again. */
class Refused extends Error {}

/** Wait, or go on at once when the network is back. @param {number} ms */
const wait = (ms) =>
  new Promise((resolve) => {
    const timer = setTimeout(resolve, ms);
    addEventListener("online", () => { clearTimeout(timer); resolve(undefined); }, { once: true });
  });

/** One film on its way. */
class Sending {
  /** @param {HTMLFormElement} form */
  constructor(form) {
    this.form = form;
    this.paused = false;
    this.stopped = false;
    this.address = "";
    /** @type {AbortController | null} */
    this.cut = null;
    this.token = /** @type {HTMLInputElement} */ (form.elements.namedItem("csrfmiddlewaretoken")).value;
    form.addEventListener("submit", (event) => { event.preventDefault(); this.begin(); });
    this.part("pause").addEventListener("click", () => this.pause(!this.paused));
    this.part("cancel").addEventListener("click", () => this.cancel());
  }

  /** @param {string} name @returns {HTMLElement} */
  part(name) {
    return /** @type {HTMLElement} */ (this.form.querySelector(`[data-${name}]`));
  }

  /** @param {string} words */
  fault(words) {
    const place = this.part("fault");
    place.textContent = words;
    place.hidden = !words;
  }

  /** How far it is. @param {string} words @param {number} [share] */
  say(words, share) {
    this.part("said").textContent = words;
    if (share === undefined) return;
    const whole = Math.floor(share * DONE_SHARE);
    this.part("share").textContent = `${whole} %`;
    /** @type {HTMLProgressElement} */ (this.form.querySelector("progress")).value = whole;
    if (whole % 25 === 0) this.part("status").textContent = `${words} ${whole} %`;
  }

  /** @param {RequestInit & {headers?: Record<string, string>}} [more] @param {string} [address] */
  async ask(more = {}, address = this.address) {
    this.cut = new AbortController();
    const headers = { Accept: "application/json", "X-CSRFToken": this.token, ...more.headers };
    const answer = await fetch(address, { ...more, headers, signal: this.cut.signal });
    if (answer.ok || answer.status === OTHER_PLACE) return answer;
    if (answer.status >= 500 && answer.status !== 507) throw new Error(`the desk answered ${answer.status}`);
    const said = await answer.json().catch(() => ({}));
    const words = said.error ?? "The desk did not take this film.";
    throw new Refused(answer.status === SIGNED_OUT ? "You are signed out here. Sign in again in another tab, then go on." : words);
  }

  async begin() {
    const chosen = /** @type {HTMLInputElement} */ (this.form.querySelector("input[type=file]")).files?.[0];
    this.fault("");
    if (!chosen) return this.fault("Choose the film first.");
    this.part("begin").hidden = true;
    this.part("sending").hidden = false;
    this.stopped = this.paused = false;
    this.part("pause").textContent = "Pause";
    this.say("Sending", 0);
    const about = new FormData();
    about.set("name", chosen.name);
    about.set("size", String(chosen.size));
    about.set("modified", String(chosen.lastModified));
    const chapter = /** @type {HTMLSelectElement | null} */ (this.form.querySelector("select[name=chapter]"));
    if (this.form.dataset.film) about.set("film", this.form.dataset.film);
    if (chapter) about.set("chapter", chapter.value);
    try {
      const begun = await this.patiently(async () => (await this.ask({ method: "POST", body: about }, this.form.dataset.send)).json());
      if (!begun) return;
      this.address = begun.address;
      await this.pieces(chosen, begun.offset, begun.piece);
    } catch (wrong) {
      this.refuse(wrong);
    }
  }

  /** @param {unknown} wrong */
  refuse(wrong) {
    if (this.stopped) return;
    this.fault(wrong instanceof Error ? wrong.message : String(wrong));
    this.part("sending").hidden = true;
    this.part("begin").hidden = false;
  }

  /** @param {File} file @param {number} from @param {number} piece */
  async pieces(file, from, piece) {
    let offset = from;
    while (offset < file.size) {
      const answer = await this.patiently(async () => {
        const body = file.slice(offset, offset + piece);
        return this.ask({ method: "PATCH", body, headers: { "Upload-Offset": String(offset), "Content-Type": "application/offset+octet-stream" } });
      }, async () => { offset = Number((await this.ask({ method: "HEAD" })).headers.get("Upload-Offset")); });
      if (!answer) return;
      offset = Number(answer.headers.get("Upload-Offset"));
      this.say("Sending", offset / file.size);
    }
    this.say("Sent", 1);
    location.reload();
  }

  /** Do it until it is done: a line that is cut is waited for, and then asked how far things are.
   * @template T @param {() => Promise<T>} act @param {() => Promise<void>} [again] @returns {Promise<T | null>} */
  async patiently(act, again) {
    let tries = 0;
    let lost = false;
    for (;;) {
      while (this.paused && !this.stopped) await new Promise((resolve) => { this.go = resolve; });
      if (this.stopped) return null;
      try {
        if (lost && again) await again();
        lost = false;
        return await act();
      } catch (wrong) {
        if (this.stopped) return null;
        if (wrong instanceof Refused) throw wrong;
        lost = true;
        if (this.paused) continue;
        this.say("The line is cut. It goes on when the line is back.");
        await wait(WAITS_MS[Math.min(tries, WAITS_MS.length - 1)]);
        tries += 1;
      }
    }
  }

  /** @param {boolean} on */
  pause(on) {
    this.paused = on;
    this.part("pause").textContent = on ? "Go on" : "Pause";
    this.say(on ? "Paused" : "Sending");
    if (on) this.cut?.abort();
    else this.go?.(undefined);
  }

  async cancel() {
    this.stopped = true;
    this.cut?.abort();
    this.go?.(undefined);
    if (this.address) await this.ask({ method: "DELETE" }).catch(() => undefined);
    location.reload();
  }
}

for (const form of document.querySelectorAll("form[data-send]")) new Sending(/** @type {HTMLFormElement} */ (form));

for (const form of /** @type {NodeListOf<HTMLFormElement>} */ (document.querySelectorAll("form[data-drop]"))) {
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    await fetch(form.action, { method: "POST", body: new FormData(form) }).catch(() => undefined);
    location.reload();
  });
}

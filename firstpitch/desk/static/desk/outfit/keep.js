/**
 * What was moved is kept on this device before it is sent; one request at a time; what cannot be sent waits and says so.
 */

import { keepMeta, meta } from "../tablet/db.js";

const AGAIN_MS = 15_000;
const PATIENCE_MS = 1_500;

/** What the device's own store does in time; null where it does not. @template T @param {Promise<T>} asked @returns {Promise<T | null>} */
const inTime = (asked) => Promise.race([asked, new Promise((resolve) => setTimeout(resolve, PATIENCE_MS, null))]).catch(() => null);

/** @returns {string} the token that a form would carry */
export const token = () => /(?:^|;\s*)csrftoken=([^;]*)/.exec(document.cookie)?.[1] ?? "";

/**
 * @typedef {{placed: [string, string, number][], home: [string, number][]}} Stow
 * @typedef {{sort: "judged", data: any, last: boolean} | {sort: "waits", words: string} | {sort: "changed", data: any} | {sort: "refused", words: string}} News
 */

export class Keeper {
  /**
   * @param {string} address @param {string} handover @param {string} mark
   * @param {(news: News) => void} tell
   */
  constructor(address, handover, mark, tell) {
    this.address = address;
    this.key = `stow:${handover}`;
    this.mark = mark;
    this.tell = tell;
    /** @type {{stow: Stow, best: boolean, force?: boolean} | null} */
    this.wanted = null;
    this.busy = false;
    this.again = 0;
    addEventListener("online", () => this.send());
  }

  /** What an earlier visit could not send. @returns {Promise<{stow: Stow, mark: string} | null>} */
  async waiting() {
    return inTime(meta(this.key));
  }

  /** @param {Stow} stow @param {{best?: boolean, force?: boolean}} [how] */
  async keep(stow, { best = false, force = false } = {}) {
    this.wanted = { stow, best, force };
    await inTime(keepMeta(this.key, { stow, mark: this.mark })); // without a store on this device it is only sent
    return this.send();
  }

  /** Whether all that was moved is with the desk. */
  get settled() {
    return !this.busy && !this.wanted;
  }

  async send() {
    if (this.busy || !this.wanted) return;
    this.busy = true;
    clearTimeout(this.again);
    const sending = this.wanted;
    try {
      const body = JSON.stringify({ stow: sending.stow, seen: this.mark, best: sending.best, force: sending.force });
      const headers = { "Content-Type": "application/json", Accept: "application/json", "X-CSRFToken": token() };
      const answer = await fetch(this.address, { method: "POST", body, headers });
      const data = await answer.json();
      await this.answered(answer.status, data, sending);
    } catch {
      this.later("There is no network. What you moved is kept on this device; the desk has not judged it yet.");
    }
    this.busy = false;
    if (this.wanted && this.wanted !== sending) this.send();
  }

  /** @param {number} status @param {any} data @param {{stow: Stow}} sending */
  async answered(status, data, sending) {
    if (status === 200) {
      this.mark = data.mark;
      const last = this.wanted === sending;
      if (last) {
        this.wanted = null;
        await this.forget();
      }
      this.tell({ sort: "judged", data, last });
    } else if (status === 409 && data.changed) {
      this.wanted = null;
      this.tell({ sort: "changed", data });
    } else if (status === 409 || status === 422) {
      this.wanted = null;
      await this.forget();
      this.tell({ sort: "refused", words: data.words });
    } else {
      this.later(`${data.error ?? "The desk does not answer as it should."} What you moved is kept on this device; the desk has not judged it yet.`);
    }
  }

  /** @param {string} words */
  later(words) {
    this.tell({ sort: "waits", words });
    clearTimeout(this.again);
    this.again = setTimeout(() => this.send(), AGAIN_MS);
  }

  forget() {
    return inTime(keepMeta(this.key, null));
  }
}

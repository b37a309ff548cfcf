/** What can go wrong on the tablet itself, in words for the person in front of it. */

/** Its message is meant to be read by a person. */
export class Fault extends Error {
  /**
   * @param {"full"|"other-tab"|"picture"|"storage"} sort
   * @param {string} words
   * @param {unknown} [cause]
   */
  constructor(sort, words, cause) {
    super(words, { cause });
    this.name = "Fault";
    this.sort = sort;
  }
}

/** @type {Record<string, [ConstructorParameters<typeof Fault>[0], string]>} */
const WORDS = {
  QuotaExceededError: [
    "full",
    "This tablet is full, so that was not kept. Delete something from the tablet (old photos, films), then press again: " +
      "what you typed is still here.",
  ],
  BlockedError: ["other-tab", "The desk is open in another tab in an older version. Close that tab, then load this page again."],
  VersionError: ["other-tab", "Another tab uses a newer version of the desk. Load this page again."],
};
const ELSE =
  "This tablet could not write that down. Write it on paper and load the page again; if it happens again, use another tablet " +
  "and tell the manager.";

/**
 * @param {unknown} fault
 * @returns {Fault}
 */
export function inWords(fault) {
  if (fault instanceof Fault) return fault;
  const name = fault instanceof DOMException ? fault.name : "";
  const [sort, words] = WORDS[name] ?? ["storage", ELSE];
  return new Fault(sort, words, fault);
}

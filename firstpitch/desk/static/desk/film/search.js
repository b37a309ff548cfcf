// Finds what was asked for in a film: by chapter titles, names of kit, and what is said. Small words do not count, a slip of the
// finger is forgiven, rare words weigh more.

/** @typedef {{title: string, start: number, names: string[]}} Part */
/** @typedef {{chapters: Part[], said: [number, string][]}} Index */
/** @typedef {{at: number, words: string, kind: "chapter" | "said", worth: number}} Hit */

const SMALL = new Set("a an and are as at be by can do does for from get got have how i in is it its me my of on or please show so tell that the their them there these this to up us was we what whats when where wheres which who why will with you your".split(" "));
const MOST = 6;
const NEAR_S = 6;
const ENOUGH = 0.55;

/** Words that count, in small letters and without plural s. @param {string} text @returns {string[]} */
export const words = (text) =>
  (text.toLowerCase().replace(/['’]/g, "").match(/[\p{L}\p{N}]+/gu) ?? []).filter((word) => !SMALL.has(word)).map((word) => (word.length > 3 && word.endsWith("s") && !word.endsWith("ss") ? word.slice(0, -1) : word));

/** How many letters differ, at most `most`; two swapped count once. @param {string} a @param {string} b @param {number} most */
export function apart(a, b, most) {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before = /** @type {number[]} */ ([]);
  let row = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const change = row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1);
      next[j] = Math.min(change, row[j] + 1, next[j - 1] + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) next[j] = Math.min(next[j], before[j - 2] + 1);
    }
    before = row;
    row = next;
  }
  return row[b.length];
}

/** How well a word that was asked fits one that is there, 0 to 1. @param {string} asked @param {string} there */
export function fits(asked, there) {
  if (asked === there) return 1;
  if (asked.length >= 3 && there.startsWith(asked)) return 0.85;
  if (there.length >= 4 && asked.startsWith(there)) return 0.7;
  if (asked.length >= 8 && apart(asked, there, 2) <= 2) return 0.7;
  if (asked.length >= 4 && there.length >= 4 && apart(asked, there, 1) <= 1) return 0.75;
  return 0;
}

/** How well a text answers, 0 to 1; rare words weigh more. @param {string[]} asked @param {string[]} there @param {Map<string, number>} weight */
function worthOf(asked, there, weight) {
  let got = 0;
  let most = 0;
  for (const word of asked) {
    const weighs = weight.get(word) ?? 1;
    most += weighs;
    got += weighs * Math.max(0, ...there.map((one) => fits(word, one)));
  }
  return most ? got / most : 0;
}

/** The best places for a question, best first. @param {Index} index @param {string} question @returns {Hit[]} */
export function find(index, question) {
  const asked = words(question);
  if (!asked.length) return [];
  const said = index.said.map(([at, text], number) => ({ at, text, own: words(text), more: words(index.said[number + 1]?.[1] ?? "") }));
  const weight = new Map(asked.map((word) => [word, 1 / (1 + said.filter((one) => one.own.some((there) => fits(word, there) > 0.6)).length) + 0.15]));
  /** @type {Hit[]} */
  const hits = [];
  for (const part of index.chapters) {
    const worth = Math.max(0, ...[part.title, ...part.names].map((name) => worthOf(asked, words(name), weight)));
    if (worth >= ENOUGH) hits.push({ at: part.start, words: part.title, kind: "chapter", worth: worth + 0.3 });
  }
  for (const one of said) {
    const alone = worthOf(asked, one.own, weight);
    const worth = alone ? Math.max(alone, 0.9 * worthOf(asked, [...one.own, ...one.more], weight)) : 0;
    if (worth >= ENOUGH) hits.push({ at: one.at, words: one.text, kind: "said", worth });
  }
  hits.sort((a, b) => b.worth - a.worth || a.at - b.at);
  return hits.filter((hit, number) => !hits.slice(0, number).some((better) => Math.abs(better.at - hit.at) < NEAR_S)).slice(0, MOST);
}

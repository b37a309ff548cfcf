/**
 * Talking to the desk. Nothing here throws: what came back, or why nothing did, is a value. Only `answer` is the desk's own word;
 * a sign-in page, a hotel's welcome page or a proxy's apology is not, whatever its status says.
 *
 * @typedef {{sort: "answer", data: any}
 *   | {sort: "network"}
 *   | {sort: "sign-in"}
 *   | {sort: "not-mine"}
 *   | {sort: "too-much"}
 *   | {sort: "other-person"}
 *   | {sort: "desk", status: number, after: number}} Reply
 *
 * network: nothing came back · sign-in: the desk wants a person · not-mine: it does not know or allow this for this person ·
 * too-much: it will not take a load like this · other-person: somebody else has signed in meanwhile · desk: something else; `after` seconds where it says when to come back
 */

const PATIENCE_MS = 20_000;
const SIGN_IN = [401];
const NOT_MINE = [403, 404, 410];
const OTHER_PERSON = 409;
const TOO_MUCH = [400, 413, 422];

/** @returns {string} the token that a form would carry; read anew each time, as signing in changes it */
function token() {
  return /(?:^|;\s*)csrftoken=([^;]*)/.exec(document.cookie)?.[1] ?? "";
}

/**
 * @param {string} path
 * @returns {Promise<Reply>}
 */
export function read(path) {
  return ask(path, { method: "GET" }, PATIENCE_MS);
}

/**
 * @param {string} path
 * @param {object | FormData} load
 * @param {number} [patience] [ms]
 * @returns {Promise<Reply>}
 */
export function send(path, load, patience = PATIENCE_MS) {
  const form = load instanceof FormData;
  /** @type {Record<string, string>} */
  const headers = { "X-CSRFToken": token() };
  if (!form) headers["Content-Type"] = "application/json";
  return ask(path, { method: "POST", headers, body: form ? load : JSON.stringify(load) }, patience);
}

/**
 * @param {string} path
 * @param {RequestInit} how
 * @param {number} patience [ms]
 * @returns {Promise<Reply>}
 */
async function ask(path, how, patience) {
  let response;
  try {
    response = await fetch(path, {
      ...how,
      headers: { Accept: "application/json", ...how.headers },
      credentials: "same-origin",
      redirect: "manual",
      cache: "no-store",
      signal: AbortSignal.timeout(patience),
    });
    if (response.type === "opaqueredirect") return { sort: "sign-in" };
    if (response.ok && (response.headers.get("Content-Type") ?? "").includes("json")) {
      return { sort: "answer", data: await response.json() };
    }
  } catch {
    return { sort: "network" };
  }
  if (SIGN_IN.includes(response.status)) return { sort: "sign-in" };
  if (NOT_MINE.includes(response.status)) return { sort: "not-mine" };
  if (response.status === OTHER_PERSON) return { sort: "other-person" };
  if (TOO_MUCH.includes(response.status)) return { sort: "too-much" };
  return { sort: "desk", status: response.status, after: Number(response.headers.get("Retry-After")) || 0 };
}

// The prompter: goes through the shots on the page at the speaker's pace. Without it the page is the shot list.

const page = document.getElementById("prompter");
const shots = [...page.querySelectorAll(".shot")];
const bar = document.getElementById("prompter-bar");
const start = document.getElementById("prompter-start");
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const LEAST = 60;
const MOST = 240;
const KEEP = "firstpitch-prompter";

/** @type {{pace: number, size: number}} */
const set = { pace: Number(page.dataset.pace) || 150, size: 1, ...kept() };
let now = 0;
let word = 0;
let running = false;
let due = 0;
let begun = 0;
let told = 0;
let awake = null;

/** What was set on this device before; nothing when it cannot be read. */
function kept() {
  try {
    const { size } = JSON.parse(localStorage.getItem(KEEP) ?? "{}");
    return typeof size === "number" ? { size } : {};
  } catch {
    return {};
  }
}

function keep() {
  try {
    localStorage.setItem(KEEP, JSON.stringify({ size: set.size }));
  } catch {
    // A device that keeps nothing starts at the ordinary size next time.
  }
}

/** Each word of a shot's spoken texts in a span of its own, once. */
function wordsOf(shot) {
  if (!shot.dataset.cut) {
    shot.dataset.cut = "yes";
    for (const text of shot.querySelectorAll(".spoken")) {
      const parts = text.textContent.trim().split(/\s+/);
      text.replaceChildren(...parts.flatMap((part, at) => [...(at ? [" "] : []), span(part)]));
    }
  }
  return [...shot.querySelectorAll(".spoken > span")];
}

function span(text) {
  const made = document.createElement("span");
  made.textContent = text;
  return made;
}

/** Mark the word at `word`: what is before it is told. */
function mark() {
  const words = wordsOf(shots[now]);
  words.forEach((one, at) => {
    one.classList.toggle("told", at < word);
    one.classList.toggle("word-now", running && at === word);
  });
  const at = words[Math.min(word, words.length - 1)];
  if (at && running) at.scrollIntoView({ block: "center", behavior: calm.matches ? "auto" : "smooth" });
}

function show(number, say = true) {
  now = Math.max(0, Math.min(shots.length - 1, number));
  word = 0;
  shots.forEach((shot, at) => shot.classList.toggle("now", at === now));
  wordsOf(shots[now]);
  page.querySelector(".shots").scrollTop = 0;
  mark();
  bar.querySelector("#shot-back").disabled = now === 0;
  if (say) document.getElementById("prompter-say").textContent = `Shot ${now + 1} of ${shots.length}: ${shots[now].querySelector("h2").textContent}`;
  clock();
}

/** Planned seconds before this shot, and spoken so far. */
function clock() {
  const sofar = told + (running ? (performance.now() - begun) / 1000 : 0);
  const plan = shots.slice(0, now).reduce((sum, shot) => sum + Number(shot.dataset.seconds) + Number(shot.dataset.walk), 0);
  document.getElementById("prompter-clock").textContent = `${minutes(sofar)} · plan ${minutes(plan)} · ${now + 1}/${shots.length}`;
}

function minutes(seconds) {
  const whole = Math.max(0, Math.round(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

function run(on) {
  if (on === running) return;
  running = on;
  if (on) begun = performance.now();
  else told += (performance.now() - begun) / 1000;
  const button = document.getElementById("shot-run");
  button.textContent = on ? "Pause" : "Run";
  button.setAttribute("aria-pressed", String(on));
  stayAwake(on);
  due = performance.now() + 60000 / set.pace;
  mark();
  if (on) requestAnimationFrame(tick);
}

/** One frame: the next word when its time has come. At the last word it stops and waits for the speaker's hands. */
function tick(time) {
  if (!running) return;
  if (time >= due) {
    const words = wordsOf(shots[now]);
    if (word < words.length - 1) {
      word += 1;
      due = Math.max(time, due) + (60000 / set.pace) * (/[.!?]$/.test(words[word].textContent) ? 1.25 : 0.97);
      mark();
    } else if (!shots[now].classList.contains("over")) {
      words.forEach(one => one.classList.add("told"));
      shots[now].classList.add("over");
    }
    clock();
  }
  requestAnimationFrame(tick);
}

async function stayAwake(on) {
  try {
    if (on) awake = await navigator.wakeLock?.request("screen");
    else {
      await awake?.release();
      awake = null;
    }
  } catch {
    // Where the screen may not be kept on, the device's own setting holds.
  }
}

function pace(by) {
  set.pace = Math.max(LEAST, Math.min(MOST, set.pace + by));
  document.getElementById("pace").textContent = `${set.pace}/min`;
}

function size(by) {
  set.size = Math.max(0.6, Math.min(1.8, Math.round((set.size + by) * 10) / 10));
  page.style.setProperty("--words", String(set.size));
  keep();
}

function open() {
  document.documentElement.classList.add("prompting");
  bar.hidden = false;
  show(now);
  document.getElementById("shot-run").focus();
}

function close() {
  run(false);
  document.documentElement.classList.remove("prompting");
  bar.hidden = true;
  shots[now].scrollIntoView({ block: "center" });
  start.focus();
}

const acts = {
  "shot-back": () => show(now - 1),
  "shot-next": () => (now < shots.length - 1 ? show(now + 1) : close()),
  "shot-run": () => run(!running),
  slower: () => pace(-5),
  faster: () => pace(5),
  smaller: () => size(-0.1),
  larger: () => size(0.1),
  "prompter-list": close,
};
for (const [id, act] of Object.entries(acts)) document.getElementById(id).addEventListener("click", act);
page.querySelector(".shots").addEventListener("click", event => {
  if (document.documentElement.classList.contains("prompting") && !event.target.closest("a, button")) acts["shot-next"]();
});
start.addEventListener("click", open);
addEventListener("keydown", event => {
  if (!document.documentElement.classList.contains("prompting") || event.altKey || event.ctrlKey || event.metaKey) return;
  const keys = { ArrowRight: "shot-next", PageDown: "shot-next", ArrowLeft: "shot-back", PageUp: "shot-back", "+": "faster", "-": "slower", Escape: "prompter-list" };
  const onButton = event.target instanceof HTMLButtonElement;
  const act = event.key === " " && !onButton ? "shot-run" : keys[event.key];
  if (act) {
    event.preventDefault();
    acts[act]();
  }
});
pace(0);
size(0);
start.hidden = false;

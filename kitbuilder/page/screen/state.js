// What was wished for in this tab, job by job, and the steps back. Nothing is stored.

const KINDS = ["none", "ones", "tens", "both", "across-zero"];
const MORE_HISTORY = 60;

const fresh = {
  tonight: () => ({ sums: [["53", "27"]], more: {} }),
  kit: () => ({ mode: "own", sums: [...DATA.ready.map((sum) => sum.map(String)), ["", ""]], choose: freshChoice(), more: {} }),
  weeks: () => ({ weeks: "4", days: "5", start: "", sums: [["", ""]], more: {} }),
  class: () => ({
    children: "30", share: "2", home: false, weeks: "0", days: "5", start: "", cut: "cutter", layers: "3",
    mode: "own", sums: [...DATA.ready.map((sum) => sum.map(String)), ["", ""]], choose: freshChoice(), more: {},
  }),
  packs: () => ({ table: "", out: [], each: false, kind: "whole", more: {} }),
  wrong: () => ({ table: "", out: [], print: "packs", more: {} }),
  lost: () => ({ hundreds: "0", tens: "2", ones: "10", more: {} }),
  measure: () => ({ across: "", down: "", top: "", right: "", bottom: "", left: "", back_right: "", back_down: "", name: "", more: {} }),
};

const shared = { paper: usualPaper(), otherPaper: "", look: "", pageWords: "", printer: "", printerName: "" };
const jobs = {};
const histories = {};
const saved = {}; // what was typed in a job when it was saved last
let lastKey = "";

function freshChoice() {
  return { kind: "ones", count: "6", seed: 1 };
}

function wishOf(job) {
  jobs[job] ??= fresh[job]?.() ?? {}; // the ready-made kit has no wishes of its own
  return jobs[job];
}

// The wishes of a job as the engine reads them; a sum that is half typed is left out
function wishesFor(job, unfinished = -1) {
  const wish = wishOf(job);
  const wishes = {
    job, lang: language, page_words: shared.pageWords, paper: shared.otherPaper.trim() || shared.paper,
    printer: job === "measure" ? "" : shared.printer, more: { ...wish.more, ...lookOf(job) },
  };
  if (wish.mode === "choose") wishes.choose = { ...wish.choose };
  else if (wish.sums) wishes.sums = wish.sums.map((sum, row) => (row === unfinished ? ["", ""] : [...sum]));
  if (job === "class") {
    wishes.class = { children: wish.children, share: wish.share, home: wish.home, layers: wish.cut === "scissors" ? "1" : wish.layers };
  }
  if (job === "packs") Object.assign(wishes, { pupils: wish.table, out: wish.out, each: wish.each, kind: wish.kind });
  if (job === "weeks" || hasWeeks(wish)) wishes.plan = { weeks: wish.weeks, days: wish.days, start: isShared(wish) ? "" : wish.start };
  if (job === "wrong") Object.assign(wishes, { answers: wish.table, out: wish.out, print: wish.print });
  if (job === "lost") wishes.pieces = { hundreds: wish.hundreds, tens: wish.tens, ones: wish.ones };
  if (job === "measure") {
    const { more, ...measures } = wish;
    wishes.measures = measures;
  }
  return wishes;
}

// The look holds for all jobs that offer one
function lookOf(job) {
  return shared.look && OFFERED[job]?.includes("look") ? { look: shared.look } : {};
}

// A class set has weeks only where they are asked for
function hasWeeks({ weeks = "" }) {
  return !["", "0"].includes(weeks.trim());
}

// Two children who share a bag take it home on other days
function isShared({ share = "" }) {
  return Number.parseInt(share, 10) > 1;
}

function filledOf(sums) {
  return (sums ?? []).filter((sum) => sum.some((cell) => cell.trim()));
}

// The sums that stand there before anybody types
function isReadyMade(sums) {
  return JSON.stringify(filledOf(sums)) === JSON.stringify(DATA.ready.map((sum) => sum.map(String)));
}

function isHalf([whole, part]) {
  return !whole.trim() !== !part.trim();
}

// The table or the sums of a wish, as far as somebody typed them
function typedOf({ table = "", sums }) {
  return table.trim() || filledOf(sums).join(";");
}

// Notes that what is typed in a job now is in a file
function noteSaved(job) {
  saved[job] = typedOf(wishOf(job));
}

// Whether anything that was typed would be lost; pieces for packs bring their sums back with them
function isUnsaved() {
  return Object.entries(jobs).some(([job, wish]) => {
    const typed = typedOf(wish.before ?? wish);
    return typed && ![saved[job], typedOf(fresh[job]?.() ?? {})].includes(typed);
  });
}

addEventListener("beforeunload", (event) => { if (isUnsaved()) event.preventDefault(); });

function snapshot(job) {
  return JSON.stringify({ shared, wish: wishOf(job) });
}

// Notes how things were before a change; typing on in one field is one step back
function remember(job, key) {
  const history = (histories[job] ??= []);
  if (key && key === lastKey && history.length) return;
  lastKey = key;
  const before = snapshot(job);
  if (history.at(-1) !== before) history.push(before);
  if (history.length > MORE_HISTORY) history.shift();
}

function canUndo(job) {
  return (histories[job] ?? []).some((before) => before !== snapshot(job));
}

function undo(job) {
  const history = histories[job] ?? [];
  let before = history.pop();
  while (before !== undefined && before === snapshot(job)) before = history.pop();
  if (before === undefined) return false;
  const held = JSON.parse(before);
  Object.assign(shared, held.shared);
  jobs[job] = held.wish;
  lastKey = "";
  return true;
}

addEventListener("focusout", () => { lastKey = ""; });

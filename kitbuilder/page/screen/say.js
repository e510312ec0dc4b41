// What the screen says, in the language of the reader; numbers and page ranges in words.
"use strict";

const DATA = JSON.parse(document.getElementById("page-words").textContent);
const REGION = (navigator.language || "en").split("-").pop().toUpperCase();
const LETTER_REGIONS = ["US", "CA", "MX", "CO", "CL", "VE", "GT", "CR", "PA", "SV", "PH", "PR", "DO", "NI"];
const ENGLISH = REGION === "US" ? "en-US" : "en-GB";
const SPANISH = new Intl.NumberFormat(`es-${REGION}`).format(0.5).includes(".") ? "es-MX" : "es"; // with a decimal point

let language = (navigator.language || "en").toLowerCase().startsWith("es") ? SPANISH : ENGLISH;

function usualPaper() {
  return LETTER_REGIONS.includes(REGION) ? "letter" : "a4";
}

function has(key) {
  return key in DATA.words[language];
}

function say(key, slots = {}) {
  const sentence = DATA.words[language][key] ?? key;
  const said = sentence.replace(/\{([a-z_]+)\}/g, (whole, slot) => (slot in slots ? String(slots[slot]) : whole));
  return said.replace(/(\d) (?=(?:mm|%)(?!\p{L}))/gu, "$1\u00a0"); // a unit stays with its number
}

function sayCount(key, count, slots = {}) {
  return say(`${key}.${count === 1 ? "one" : "many"}`, { ...slots, count });
}

function sayNumber(value, digits = 1) {
  const rounded = String(Math.round(value * 10 ** digits) / 10 ** digits);
  return (language === "es" ? rounded.replace(".", ",") : rounded).replace("-", "−");
}

function sayList(things) {
  if (things.length < 2) return things.join("");
  return say("list", { first: things.slice(0, -1).join(", "), last: things.at(-1) });
}

function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

// The name of a paper that is neither A4 nor Letter
function otherPaper(paper = "") {
  return ["a4", "letter"].includes(paper.toLowerCase()) ? "" : capital(paper);
}

function stockSaid(stock, { onPaper }) {
  return [say(`stock.${stock}`), otherPaper(onPaper)].filter(Boolean).join(", ");
}

// A sum stays on one line
function unbroken(text) {
  return text.replace(/(\d) − (?=\d)/g, "$1\u00a0−\u00a0");
}

// The name of a file stays on one line
function unbrokenNames(text) {
  return text.replace(/-(?=\d)/g, "-\u2060");
}

function sumSaid([whole, part]) {
  return unbroken(`${whole} − ${part}`);
}

// A count stays with what is counted
function counted(text) {
  return text.replace(/(\d) (?=\p{L})/gu, "$1\u00a0");
}

// [2, 6, 7] is "2, 6–7" to read, unbroken, and "2, 6-7" to type in a print window
function ranges(pages, dash = "\u2060–\u2060") {
  const runs = [];
  for (const page of pages) {
    const last = runs.at(-1);
    if (last && page === last[1] + 1) last[1] = page;
    else runs.push([page, page]);
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : `${from}${dash}${to}`)).join(", ");
}

function sheetsSaid({ card, paper }) {
  const sheets = [];
  if (card) sheets.push(sayCount("takes.card", card));
  if (paper) sheets.push(sayCount(card ? "takes.paper" : "takes.only_paper", paper));
  return sheets.join(", ");
}

function takesSaid(plan, short = false) {
  const parts = [`${sheetsSaid(plan)}.`];
  if (plan.kits > 1) parts.unshift(sayCount("takes.kits", plan.kits));
  if (plan.minutes) {
    const hours = Math.round(plan.minutes / 30) / 2;
    if (plan.minutes >= 100) parts.push(say("takes.hours", { hours: sayNumber(hours) }));
    else parts.push(sayCount(short ? "takes.minutes_short" : "takes.minutes", plan.minutes));
  }
  const later = short ? "" : sheetsSaid(plan.later);
  if (later) parts.push(say("takes.later", { sheets: later }));
  if (plan.thousand && !short) {
    const told = { unit: sayNumber(plan.ten_mm / 10), sum: plan.thousand_of };
    parts.push(say(told.sum ? "takes.thousand_of" : "takes.thousand", told));
  }
  return counted(parts.join(" "));
}

// What the cards do not bring
function piecesSaid({ pieces }) {
  return counted(say("packs.need_pieces", { pieces }));
}

function needsSaid(plan) {
  const things = plan.needs.map(({ code, count }) => sayCount(`needs.${code}`, count));
  return things.length ? counted(say("needs.all", { things: things.join(", ") })) : "";
}

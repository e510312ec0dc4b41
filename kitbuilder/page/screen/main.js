// The whole: which view is shown, what is asked of the engine, what comes back.

const PATIENCE = 400;
const TYPING = 120;
const IDLE = 150;
const results = {};
const engine = makeEngine();
let view = null;
let busy = null; // the view that the engine works for
let again = false;
let timer = 0;
let makeTimer = 0;
let awake = false;
let broken = false;
let failedKey = "";
let wanted = ""; // the field to go to in the view that comes
let cameFrom = ""; // the job that was looked at before the printer is measured

function makeEngine() {
  return document.querySelector('meta[name="engine"]') ? new NativeEngine() : new InnerEngine();
}

class View {
  constructor(job) {
    Object.assign(this, { job, fields: [], bubbles: [], steps: 0, refusals: [], state: "waiting", far: null, pressed: "", unfinished: () => -1 });
  }

  change(key, edit, typing = false) {
    remember(this.job, key);
    edit();
    this.update();
    ask(typing ? TYPING : 0);
  }

  update() {
    for (const update of this.fields) update();
  }

  undo() {
    const { from } = wishOf(this.job);
    if (!undo(this.job)) return;
    this.update();
    if (from && !wishOf(this.job).from) location.hash = from;
    if (document.activeElement === document.body) this.undoing?.focus(); // a row that is gone had it
    ask(0);
  }

  bubble(key, row) {
    const bubble = new Bubble(this, key, row);
    this.bubbles.push(bubble);
    return bubble;
  }

  dropBubble(bubble) {
    this.bubbles = this.bubbles.filter((one) => one !== bubble);
  }

  leftRow() {
    ask(0);
  }

  result() {
    return results[this.job];
  }

  // The wishes as they are now; the ready-made kit has none but paper, look, printer and language
  wishes() {
    if (this.job !== "ready") return wishesFor(this.job, this.unfinished());
    return { ...wishesFor("kit"), sums: [], choose: null, paper: shared.paper, page_words: "", more: lookOf("kit") };
  }

  key() {
    return JSON.stringify(this.wishes());
  }

  // Weeks need none: theirs come with the plan
  hasNoSum() {
    const { sums } = this.wishes();
    return !["ready", "weeks"].includes(this.job) && Boolean(sums) && !filledOf(sums).length;
  }

  stop() {
    this.stopped = true;
    engine.stop();
    this.desk.save.focus();
  }

  again() {
    this.stopped = false;
    failedKey = "";
    ask(0);
  }

  mend(refusal) {
    const { paper, unit, line, rows = line ? [line] : [] } = refusal.repair;
    if (rows.length) return this.change("", () => { const wish = wishOf(this.job); wish.table = wish.table.split("\n").filter((_, at) => !rows.includes(at + 1)).join("\n"); });
    if (paper) return this.change("", () => { shared.otherPaper = paper; });
    if (unit) return this.change("", () => { wishOf(this.job).more.unit = sayNumber(unit, 2); });
    return this.mendSum(refusal);
  }

  mendSum(refusal) {
    const [whole, part] = String(refusal.repair.sum ?? "").split(/\s*[-−]\s*/);
    if (!part) return;
    this.change("", () => {
      const wish = wishOf(this.job);
      if (wish.sums) { wish.sums[refusal.row - 1] = [whole, part]; return; }
      const lines = wish.table.split("\n");
      const turned = new RegExp(`(?<!\\d)${part}(\\s*[-−–\\t;,]\\s*)${whole}(?!\\d)`);
      lines[refusal.row - 1] = (lines[refusal.row - 1] ?? "").replace(turned, `${whole}$1${part}`);
      wish.table = lines.join("\n");
    });
  }

  toField(name, row) {
    const bubble = this.bubbles.find((one) => one.key === name && (!row || one.row?.() === row)) ?? this.bubbles.find((one) => one.key === name);
    const node = bubble?.inputs.find((input) => !input.value) ?? bubble?.inputs[0] ?? document.querySelector(`[data-field="${name}"] input`);
    const more = node?.closest("details");
    if (more) more.open = true;
    node?.focus();
    if (row && node?.matches("textarea")) toRow(node, row, true);
  }

  // Shows refusals beside their fields; what no field shows stands beside the last wish
  showRefusals(refusals) {
    this.refusals = refusals;
    const left = new Set(refusals);
    for (const bubble of this.bubbles) {
      const row = typeof bubble.row === "function" ? bubble.row() : undefined;
      const own = refusals.filter((one) => one.field === bubble.key && (row === undefined || one.row === row));
      own.forEach((one) => left.delete(one));
      bubble.show(own);
    }
    this.loose?.show([...left]);
  }

  // Saves what was asked for, and nothing else; where its file is not made yet, makes it first
  async save() {
    const button = document.activeElement;
    const result = this.result();
    if (button?.getAttribute("aria-disabled") === "true" || result?.key !== this.key()) { this.toWrong(); return; }
    if (!(await finished(this, result))) return;
    if (view !== this || result.key !== this.key()) return;
    saveFile(result);
    noteSaved(this.job);
    result.saved = true;
    const job = this.job === "ready" ? "kit" : this.job;
    if (this.job === "ready") results.kit = result;
    location.hash = `${job}/saved`;
  }

  async keep() {
    if (!awake) return;
    try {
      const { text } = await engine.call("keep", [wishesFor(this.job)]);
      saveFile({ file: `${say("name.wishes")}.toml`, bytes: new TextEncoder().encode(text) }, "application/toml");
      noteSaved(this.job);
    } catch {
      const says = say("desk.refused_first");
      this.bubbles.find(({ key }) => key === "file").show([{ code: "", field: "file", row: 0, slots: {}, repair: null, says }]);
      sayAtOnce(this, says);
      this.toWrong();
    }
  }

  toWrong() {
    const [first] = this.refusals;
    if (first) this.toField(first.field, first.row);
    else if (awake) this.pressed = this.key(); // what is wrong may be about to be told
  }
}

// Asks the engine for what is wished now, after a pause while somebody types
function ask(pause) {
  clearTimeout(timer);
  clearTimeout(makeTimer);
  if (view.desk && view.state !== "waiting") show(view, view.state); // what is there is not what is wished now
  timer = setTimeout(run, pause);
}

async function run() {
  const now = view;
  if (!now?.desk) return;
  const wishes = now.wishes();
  const key = now.key();
  if (isEmpty(now)) return empty(now);
  const shelved = results[now.job]?.key === key ? null : await fromShelf(wishes);
  if (now !== view || key !== now.key()) return undefined;
  if (shelved) keepResult(now.job, { ...shelved, key, onPaper: wishes.paper });
  if (results[now.job]?.key === key && results[now.job].answer) return shown(now, results[now.job].answer);
  if (!awake || broken) return show(now, broken ? "broken" : "waiting");
  if (key === failedKey) return show(now, "failed");
  if (busy) {
    again = true;
    if (busy !== now && !results[now.job]) { now.far = [0, 0]; show(now, "working"); } // what was asked elsewhere comes first
    return undefined;
  }
  busy = now;
  now.far = null;
  try {
    await work(now, wishes, key);
  } catch (error) {
    failed(now, error, key);
  }
  idle();
  return undefined;
}

async function work(now, wishes, key) {
  const late = patiently(now);
  try {
    const answer = { ...await engine.call("ask", [wishes]), key };
    if (key !== now.key()) again = true; // what it says is of other wishes
    if (again) return undefined;
    if (!answer.plan && !answer.refusals.length) return nothingToPrint(now, answer);
    if (!answer.plan || refusedOf(now, answer).length) return shown(now, answer);
    tell(now, answer);
    if (again) return undefined;
    const drawn = await engine.call("draw", [answer.id]);
    if (key !== now.key()) { // what was wished before is wished again, perhaps: its pages are there still
      again = true;
      return undefined;
    }
    if (drawn.refusals) return shown(now, { ...answer, refusals: drawn.refusals });
    keepResult(now.job, { ...drawn, bytes: null, id: answer.id, life: engine.life, key, onPaper: wishes.paper, answer });
    return shown(now, answer);
  } finally {
    late();
  }
}

// After a while the desk says how far the work is; returns what ends that
function patiently(now) {
  const late = setTimeout(() => { now.far = [0, 0]; show(now, "working"); }, PATIENCE);
  return () => { clearTimeout(late); now.far = null; };
}

// Makes the file of a result, once; returns whether it is there
async function finished(now, result) {
  if (result.bytes) return true;
  clearTimeout(makeTimer);
  result.making ??= makeFile(now, result);
  await result.making;
  return Boolean(result.bytes);
}

async function makeFile(now, result) {
  busy = now;
  const late = patiently(now);
  const far = (done, total) => { if (now.far) { now.far = [done, total]; show(now, "working"); } };
  try {
    const made = await called(result, "file", [], far);
    late();
    if (made.refusals) { if (result.key === now.key()) shown(now, { ...result.answer, refusals: made.refusals }); return; }
    Object.assign(result, made, { answer: result.answer });
    if (results[now.job] === result && result.key === now.key()) show(now, "done");
  } catch (error) {
    late();
    failed(now, error, result.key);
  } finally {
    result.making = null;
    idle();
  }
}

// Calls for something of a result; an engine that does not know it any more is asked anew
async function called(result, method, args, progress) {
  if (result.life === engine.life) {
    try {
      return await engine.call(method, [result.id, ...args], progress);
    } catch (error) {
      if (error instanceof Stopped) throw error;
    }
  }
  const { id } = await engine.call("ask", [JSON.parse(result.key)]);
  Object.assign(result, { id, life: engine.life });
  return engine.call(method, [id, ...args], progress);
}

// What fails once is not tried again by itself; the program behind the screen begins anew
function failed(now, error, key) {
  if (error instanceof Broken) broken = true;
  else if (!(error instanceof Stopped)) {
    failedKey = key;
    engine.restart();
  }
  const state = broken ? "broken" : error instanceof Stopped ? "stopped" : "failed";
  show(now, state);
  if (results[now.job]?.key !== key) now.showCount?.(null); // it was of another table
  if (now.toldKey !== key) { // nor is what stands there of this one
    now.showRefusals([]);
    now.showCells?.({ refusals: [] });
    now.showMarks?.(null, state === "stopped" ? "desk.stopped_first" : `desk.${state}_short`);
  }
  sayAtOnce(now, say(state === "stopped" ? "desk.stopped_first" : `desk.${state}`));
}

function idle() {
  busy = null;
  if (again) { again = false; ask(0); }
}

// A table that nobody has begun is no mistake
function isEmpty(now) {
  return "table" in (jobs[now.job] ?? {}) && !jobs[now.job].table.trim();
}

function empty(now) {
  tell(now, { refusals: [], sums: [], plan: null, key: now.key() });
  return show(now, "empty");
}

// Every answer is right: there is no pack to make
function nothingToPrint(now, answer) {
  tell(now, answer);
  sayAtOnce(now, say(emptyKey(now)));
  return show(now, "empty");
}

function keepResult(job, result) {
  const before = results[job];
  results[job] = result;
  takeOver(before, result);
  setTimeout(() => forget(before), 1000);
}

// What an answer says of the wishes themselves, before and beside any page
function tell(now, answer) {
  if (now !== view) return;
  whenCalm("tell", () => {
    now.toldKey = answer.key;
    now.showRefusals(answer.refusals);
    now.showKinds?.(answer.sums);
    if (answer.chosen) now.showChosen?.(answer.chosen);
    now.showCount?.(answer.plan);
    now.showApart?.(answer.plan);
    now.showReturns?.(answer.plan);
    now.showPrinter?.(answer.printer);
    now.showMarks?.(answer.marks);
    now.showWay?.(answer.marks);
    now.showRead?.(answer.marks ?? answer.plan);
    now.showCells?.(answer);
  });
}

// What hinders the pages; what is measured wrongly does not hinder the sheet to measure by
function refusedOf(now, answer) {
  return now.job === "measure" && answer.plan ? [] : answer.refusals;
}

function shown(now, answer) {
  tell(now, answer);
  const own = refusedOf(now, answer);
  show(now, own.length ? "refused" : "done");
  if (own.length) {
    sayAtOnce(now, wrongSaid(own[0]));
    if (now === view && now.pressed === now.key()) now.toField(own[0].field, own[0].row);
  }
  now.pressed = "";
  if (now !== view || own.length) return;
  whenNew(now);
  const result = results[now.job];
  clearTimeout(makeTimer);
  if (!result.bytes && result.key === now.key()) makeTimer = setTimeout(() => { if (now === view && !busy && result.key === now.key()) finished(now, result); }, IDLE);
}

let announced = null;

// What went wrong, or needs no page, is said at once, wherever the focus is; what comes after it is said anew
function sayAtOnce(now, text) {
  if (now !== view) return;
  announced = null;
  announce(text);
}

function whenNew(now) {
  const result = results[now.job];
  if (announced === result) return;
  announced = result;
  announce([now.marks ? happenedSaid(now.marks) : "", takesSaid(result.plan)].join(" ").trim());
}

function show(now, state) {
  if (now !== view) return;
  now.state = state;
  const result = results[now.job];
  const own = result?.key === now.key();
  whenCalm("desk", () => now.desk.show(state, result, { own, far: now.far }));
}

function fromShelf(wishes) {
  return typeof shelfEntry === "function" ? shelfEntry(wishes) : null;
}

async function openWishes(text, from) {
  let found = { refusals: [] };
  try {
    found = await engine.call("open", [text, language]);
  } catch {
    engine.restart();
    announce(say("desk.failed_short"));
  }
  const { wishes, refusals } = found;
  if (!wishes) return from.showRefusals([...from.refusals.filter(({ field }) => field !== "file"), ...refusals.map((one) => ({ ...one, code: "", field: "file", repair: null }))]);
  const { job } = wishes;
  remember(job, "");
  const wish = fresh[job]();
  const { look = "", ...more } = wishes.more;
  Object.assign(wish, { more }, wishes.plan, { sums: [...wishes.sums, ...(job === "tonight" ? [] : [["", ""]])] });
  if (wishes.class) Object.assign(wish, wishes.class, { cut: wishes.class.layers === "1" ? "scissors" : "cutter" });
  jobs[job] = wish;
  noteSaved(job);
  shared.look = look;
  if (wishes.page_words) shared.pageWords = wishes.page_words === language ? "" : wishes.page_words;
  if (wishes.paper) Object.assign(shared, ["a4", "letter"].includes(wishes.paper) ? { paper: wishes.paper, otherPaper: "" } : { otherPaper: wishes.paper });
  if (view.job === job) { view.update(); ask(0); } else location.hash = job;
  return undefined;
}

function route() {
  const [name, part] = location.hash.replace(/^#/, "").split("/");
  if (name === "main") return ["", ""];
  return fresh[name] ? [name, part === "saved" ? "saved" : ""] : ["home", ""];
}

function showView(focus = true) {
  const [name, part] = route();
  if (!name) return document.getElementById("main").focus();
  clearTimeout(timer);
  announce(""); // what was said of another screen
  if (name === "home") endPieces();
  if (fresh[name] && name !== "measure") cameFrom = name;
  const next = new View(name);
  view = next;
  const root = part === "saved" ? savedView(name) : name === "home" ? homeView(next) : jobView(next);
  document.getElementById("main").replaceChildren(root);
  document.title = name === "home" ? say("title") : `${say(part ? "saved.title" : `job.${name}`)} – ${say("title")}`;
  if (focus) { scrollTo(0, 0); root.querySelector("h1")?.focus({ preventScroll: true }); }
  announced = part ? announced : results[next.job] ?? null;
  if (next.desk) ask(0);
  if (next.desk && wanted) next.toField(wanted);
  wanted = "";
  return undefined;
}

function frameWords() {
  document.documentElement.lang = language;
  for (const node of document.querySelectorAll("[data-say]")) setText(node, say(node.dataset.say));
  for (const node of document.querySelectorAll("[data-label]")) setAttribute(node, "aria-label", say(node.dataset.label));
  for (const node of document.querySelectorAll("[data-lang]")) setAttribute(node, "aria-pressed", String(language.startsWith(node.dataset.lang)));
}

for (const button of document.querySelectorAll("[data-lang]")) {
  button.addEventListener("click", () => {
    language = button.dataset.lang === "es" ? SPANISH : ENGLISH;
    frameWords();
    showView(false);
    if (!button.checkVisibility()) document.querySelector("[data-lang][aria-pressed=false]").focus();
  });
}

// What is typed takes the place of what stood in a box: a click into it selects all, as a tab does
let entered = null;
addEventListener("pointerdown", ({ target }) => { entered = target.matches?.("input.box") && target !== document.activeElement ? target : null; });
addEventListener("click", ({ target }) => { if (target === entered && target.selectionStart === target.selectionEnd) target.select(); });

document.querySelector(".brand-icon").append(icon("kit"));
addEventListener("hashchange", () => showView());
addEventListener("keydown", (event) => {
  const typing = event.target.closest?.("input:not([type=radio]):not([type=checkbox]), textarea, dialog");
  if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && !event.shiftKey && !typing) {
    event.preventDefault();
    view.undo();
  }
});
for (const name of ["dragover", "drop"]) addEventListener(name, (event) => event.preventDefault());

frameWords();
showView(false);
if (document.querySelector('meta[name="offline"]')) navigator.serviceWorker?.register("kitbuilder-offline.js");
engine.ready.then(() => { awake = true; ask(0); }, () => { broken = true; ask(0); });

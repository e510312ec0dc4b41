// The jobs: each a few numbered wishes beside the desk.

function paperStep(view) {
  return step(view, "paper.yours", paperPicks(view),
    h("p", { class: "quiet small" }, say("paper.other")),
    link(say("size.check"), () => sizeDialog(view.result()?.plan)));
}

// A4 or Letter; another paper, that holds for all jobs, stands beside them as long as it is wished for
function paperPicks(view, two = false) {
  const picks = radios(view, { legend: say("paper.title"), two, key: "paper", get: () => (shared.otherPaper.trim() ? "other" : shared.paper), set: (paper) => { if (paper !== "other") Object.assign(shared, { paper, otherPaper: "" }); },
    options: ["a4", "letter", "other"].map((value) => ({ value, label: value === "other" ? "" : say(`paper.${value}`), aside: two ? "" : say(`paper.${value}_where`) })) });
  const other = picks.lastChild.lastChild;
  return field(view, picks, () => {
    setText(other.children[1], capital(shared.otherPaper.trim()));
    keepFocus(other, !shared.otherPaper.trim(), picks.querySelector(":checked"))?.focus();
  });
}

const JOBS = {
  tonight: (view, wish) => [step(view, "sum.yours_one", sumRows(view, wish, { single: true })), paperStep(view)],
  kit: (view, wish) => [step(view, "sum.yours", ...sumsPart(view, wish)), paperStep(view)],
  weeks: (view, wish) => [step(view, "weeks.when", countBox(view, wish, "weeks", 52), ...whichDays(view, wish)),
    step(view, "sum.yours", h("p", { class: "quiet small before" }, say("weeks.sums")), sumRows(view, wish)), paperStep(view)],
  class: (view, wish) => {
    const count = (name, most) => countBox(view, wish, name, most);
    const layers = h("div", {}, count("layers", 20), h("p", { class: "quiet small" }, say("class.layers_hint")));
    field(view, layers, () => { layers.hidden = wish().cut === "scissors"; });
    return [step(view, "class.yours", count("children", 400), count("share", 30),
      tick(view, { label: say("class.home"), key: "home", get: () => wish().home, set: (on) => { Object.assign(wish(), { home: on }, on ? {} : { weeks: "0" }); } }),
      h("p", { class: "quiet small" }, say("class.home_hint")), classWeeks(view, wish)),
      step(view, "sum.yours", ...sumsPart(view, wish)),
      step(view, "class.cut", radios(view, { legend: say("class.cut"), key: "cut", get: () => wish().cut, set: (cut) => { wish().cut = cut; },
        options: ["scissors", "cutter"].map((value) => ({ value, label: say(`class.${value}`), drawing: value })) }), layers),
      paperStep(view)];
  },
  packs: (view, wish) => [step(view, "packs.yours", ...packsPart(view, wish)), paperStep(view)],
  wrong: (view, wish) => [step(view, "wrong.answers", ...tablePart(view, wish, "wrong", "answers"), toFound(view)), paperStep(view)],
  lost: (view, wish) => [step(view, "lost.which", ...["hundreds", "tens", "ones"].map((name) => h("div", { class: "piece" }, pieceDrawing(name),
    stepper(view, { label: say(`field.${name}`), key: name, least: 0, most: 999, get: () => wish()[name], set: (value) => { wish()[name] = value; } }))),
    view.bubble("pieces").node, lostHint(view, wish)), paperStep(view)],
};

// Where the desk lies far below, a way to what happened
function toFound(view) {
  const way = link(`${say("wrong.happened")} ↓`, () => view.desk.reach(), { class: "link below", hidden: true });
  view.showWay = (marks) => keepFocus(way, !marks, document.querySelector("textarea"))?.focus();
  return way;
}

function countBox(view, wish, name, most, least = 1) {
  return stepper(view, { label: say(`field.${name}`), key: name, least, most, get: () => wish()[name], set: (value) => { wish()[name] = value; } });
}

// On which days, from when
function whichDays(view, wish) {
  return [countBox(view, wish, "days", 7), firstDay(view, wish), calendar(view, wish)];
}

// Weeks that bags taken home bring along; none unless they are asked for
function classWeeks(view, wish) {
  const when = h("div", {}, ...whichDays(view, wish));
  const weeks = h("div", {}, countBox(view, wish, "weeks", 52, 0), h("p", { class: "quiet small" }, say("class.weeks_hint")), when);
  return field(view, weeks, () => { weeks.hidden = !wish().home && !hasWeeks(wish()); when.hidden = !hasWeeks(wish()); });
}

function firstDay(view, wish) {
  const said = view.bubble("start");
  const input = h("input", { type: "date", class: "box", min: "1900-01-01", max: "2999-12-31", onchange: () => view.change("start", () => { wish().start = input.value; }) });
  said.watch(input);
  field(view, input, () => { if (input.value !== wish().start) input.value = wish().start; });
  const day = h("div", {}, h("label", { class: "narrow" }, h("span", {}, say("weeks.start")), input), said.node);
  return field(view, day, () => { day.hidden = isShared(wish()); });
}

// A date of the engine's or of a date field, in words
function dateSaid(date, how) {
  return new Intl.DateTimeFormat(language, { ...how, timeZone: "UTC" }).format(new Date(date));
}

// On which days of the week a plan falls that begins on a date; one that is over is no mistake
function datesSaid(dates) {
  if (!dates.length) return "";
  const on = say("weeks.on", { date: dateSaid(dates[0], { weekday: "long", day: "numeric", month: "long" }), days: dates.map((date) => dateSaid(date, { weekday: "short" })).join(", ") });
  return Date.parse(dates[0]) < Date.now() - 24 * 3600 * 1000 ? `${on} ${say("weeks.past")}` : on;
}

// A row a week, a box a day: the days of practice stand out
function calendar(view, wish) {
  const MOST = 12;
  const drawn = h("div", { "aria-hidden": "true" });
  const told = h("p", {});
  const when = h("p", { class: "quiet small" });
  let returns = false; // short plans have no days later in the year
  let dates = [];
  const update = () => {
    const weeks = Math.max(1, Number.parseInt(wish().weeks, 10) || 1);
    const days = Math.min(7, Math.max(1, Number.parseInt(wish().days, 10) || 1));
    const known = dates.length === days && dates[0] === wish().start ? dates : [];
    const on = new Set(known.length ? known.map((date) => (Date.parse(date) - Date.parse(known[0])) / 86400000) : Array(days).keys());
    drawn.replaceChildren(...Array.from({ length: Math.min(MOST, weeks) }, (_, week) => h("div", { class: "week" },
      h("span", {}, say("weeks.week", { week: week + 1 })), ...Array.from({ length: 7 }, (__, day) => h("i", { class: on.has(day) ? "on" : "" })))));
    setText(told, say(returns ? "weeks.later" : "weeks.told", { days: weeks * days }));
    setText(when, datesSaid(known));
    when.hidden = !known.length;
  };
  view.showReturns = (plan) => { returns = Boolean(plan?.returns); dates = plan?.dates ?? []; update(); };
  return field(view, h("div", { class: "calendar" }, drawn, told, when), update);
}

function lostHint(view, wish) {
  const hint = h("p", { class: "quiet small" });
  return field(view, hint, () => setText(hint, say("lost.fit", { unit: wish().more.unit || sayNumber(10) })));
}

function pieceDrawing(name) {
  const [across, down] = { hundreds: [10, 10], tens: [1, 10], ones: [1, 1] }[name];
  const lines = [];
  for (let n = 0; n <= across; n += 1) lines.push(`M${n * 6} 0V${down * 6}`);
  for (let n = 0; n <= down; n += 1) lines.push(`M0 ${n * 6}H${across * 6}`);
  return h("span", { "aria-hidden": "true", html: `<svg width="${across * 6 + 2}" height="${down * 6 + 2}" viewBox="-1 -1 ${across * 6 + 2} ${down * 6 + 2}"><path d="${lines.join("")}" fill="none" stroke="#000" stroke-width=".8"/></svg>` });
}

function jobView(view) {
  const { job } = view;
  const wish = () => wishOf(job);
  const undoing = link(say("undo"), () => view.undo());
  field(view, undoing, () => setAttribute(undoing, "aria-disabled", canUndo(job) ? null : "true"));
  view.undoing = undoing;
  const top = h("div", { class: "top" }, icon(job), h("h1", { tabindex: "-1" }, say(`job.${job}`)), h("nav", {}, undoing, h("a", { class: "link", href: "#home" }, say("all_jobs"))));
  if (job === "measure") return h("div", { class: "with-bar" }, top, measureView(view, wish));
  const wishes = h("div", { class: "wishes" }, ...JOBS[job](view, wish));
  wishes.prepend(piecesOnly(view, wish));
  const found = job === "wrong" ? foundPart(view) : null;
  view.desk = new Desk(view, job === "wrong" ? "wrong.next" : "desk.title");
  if (job === "packs") view.desk.body.prepend(kindsPart(view, wish));
  if (found) {
    view.desk.node.prepend(found);
    view.desk.body.prepend(radios(view, { legend: say("wrong.next"), key: "print", get: () => wish().print, set: (print) => { wish().print = print; },
      options: ["packs", "pages"].map((value) => ({ value, label: say(`wrong.${value}`), aside: say(`wrong.${value}_for`) })) }));
  }
  const more = morePart(view, wish);
  if (more) wishes.append(more);
  view.loose = new Bubble(view, "");
  wishes.append(view.loose.node);
  return h("div", { class: "with-bar" }, top, h("div", { class: "work" }, wishes, view.desk.node), view.desk.bar);
}

// That the pages are what packs need besides, and the way back to those
function piecesOnly(view, wish) {
  const back = h("a", { class: "link" });
  const without = h("p", {}, say("packs.only_written"));
  const line = h("div", { class: "bubble" }, icon("adult"), h("div", { class: "said" }, h("p", {}, say("packs.pieces_only")), without, back));
  return field(view, line, () => {
    const { from, written } = wish();
    line.hidden = !from;
    without.hidden = !written;
    setAttribute(back, "href", from ? `#${from}` : null);
    setText(back, from ? say("measure.back", { job: say(`job.${from}`) }) : "");
  });
}

function measureView(view, wish) {
  view.desk = new Desk(view, "measure.print");
  view.desk.body.prepend(h("p", {}, say("measure.how")), paperPicks(view, true), h("br"));
  const box = (name, unit, mode = "decimal") => typedBox(view, { label: say(`measure.${name}`), key: name, unit, mode, get: () => wish()[name], set: (value) => { wish()[name] = value; } });
  const boxes = (key, names, mode) => [h("h3", { class: "small-head" }, say(key)),
    h("div", { class: "many four", role: "group", "aria-label": say(key) }, ...names.map((name) => box(name, undefined, mode)))];
  const bars = h("p", { class: "quiet small" });
  const said = h("div", { class: "said" });
  const bubble = h("div", { class: "bubble", hidden: true, role: "status" }, icon("adult"), said);
  const keep = h("button", { type: "button", class: "button", onclick: () => keepPrinter(view) }, say("measure.keep"));
  const use = h("button", { type: "button", class: "button", onclick: () => usePrinter(view) }, say("measure.use"));
  view.showPrinter = (printer) => {
    view.printer = printer;
    const ready = Boolean(printer?.profile);
    setText(bars, printer?.bars ? say("measure.bars", { across: printer.bars[0], down: printer.bars[1] }) : "");
    bubble.hidden = !ready;
    setText(said, ready ? printerSaid(printer) : "");
    for (const button of [keep, use]) setAttribute(button, "aria-disabled", ready ? null : "true");
    view.showUsed?.();
  };
  const wrong = view.bubble("measures");
  const wishes = h("div", { class: "wishes" }, step(view, "measure.type",
    h("div", { class: "many" }, box("across", "mm"), box("down", "mm")), bars,
    ...boxes("measure.smallest", ["top", "right", "bottom", "left"]),
    ...boxes("measure.cross", ["back_right", "back_down"], "text"), h("p", { class: "quiet small" }, say("measure.cross_hint")), // no minus among a phone's digits
    wrong.node, bubble, typedBox(view, { label: say("measure.name"), key: "name", get: () => wish().name, set: (value) => { wish().name = value; } }),
    h("br"), h("div", { class: "actions" }, use, keep), h("p", { class: "quiet small" }, say("measure.keep_hint")), usedLine(view)));
  view.showPrinter(null);
  return h("div", { class: "work turned" }, view.desk.node, wishes, view.desk.bar);
}

// Whether these measures are in use, and the way back to the job that they were taken for
function usedLine(view) {
  const used = h("span", { role: "status" });
  const back = cameFrom ? h("a", { class: "link", href: `#${cameFrom}` }, say("measure.back", { job: say(`job.${cameFrom}`) })) : null;
  const line = h("p", {}, used, " ", back);
  view.showUsed = () => {
    setText(used, shared.printer && shared.printer === view.printer?.profile ? say("measure.used", { name: shared.printerName }) : "");
    line.hidden = !used.textContent && !back;
  };
  return field(view, line, () => view.showUsed());
}

function printerSaid({ across, down }) {
  const off = (share) => Math.round((share - 1) * 1000) / 10;
  const [wide, high] = [off(across), off(down)];
  if (Math.abs(wide) < 0.1 && Math.abs(high) < 0.1) return say("measure.true");
  const one = (amount, key) => say(`measure.${key}_${amount < 0 ? "small" : "large"}`, { amount: sayNumber(Math.abs(amount)) });
  if (Math.abs(wide - high) < 0.2) return `${one(wide, "both")} ${say("measure.next")}`;
  return `${one(wide, "wide")} ${one(high, "high")} ${say("measure.next")}`;
}

function keepPrinter(view) {
  const { profile } = view.printer ?? {};
  if (!profile) return view.toField("across");
  const name = /^name = "(.*)"$/m.exec(profile)[1];
  return saveFile({ file: `${name}.toml`, bytes: new TextEncoder().encode(profile) }, "application/toml");
}

function usePrinter(view) {
  const { profile } = view.printer ?? {};
  if (!profile) return view.toField("across");
  return view.change("", () => {
    shared.printer = profile;
    shared.printerName = /^name = "(.*)"$/m.exec(profile)[1];
  });
}

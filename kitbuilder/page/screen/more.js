// More wishes, closed as a rule: looks, parts, papers, sizes, printer, cutting machines, the file.

const LOOKS = ["plain", "spare", "bold", "outline"];

// The parts that a job prints as a rule, and those that it offers besides
function partsOf(job) {
  return job === "class" ? { usual: DATA.class.usual, offered: [...DATA.class.usual, ...DATA.class.more] } : { usual: DATA.parts, offered: DATA.parts };
}

const OFFERED = {
  kit: ["look", "only", "words", "paper", "size", "within", "mats", "stage", "printer", "machines", "file"],
  weeks: ["look", "only", "words", "paper", "size", "mats", "backs", "printer", "file"],
  class: ["look", "only", "words", "paper", "size", "spares", "mats", "stage", "printer", "machines", "file"],
  tonight: ["look", "words", "paper", "size", "printer", "file"],
  wrong: ["look", "words", "paper", "margin", "backs", "printer"],
  packs: ["look", "words", "paper", "margin", "stage", "printer"],
  lost: ["words", "paper", "size", "printer", "machines"],
};

function morePart(view, wish) {
  const offered = OFFERED[view.job];
  if (!offered) return null;
  const summary = h("summary", {});
  const body = h("div", {});
  const details = h("details", { class: "more" }, summary, body);
  for (const name of offered) body.append(...MORE[name](view, wish).filter(Boolean));
  return field(view, details, () => {
    const count = changedCount(view.job, wish());
    setText(summary, count ? say("more.changed", { count }) : say("more.title"));
  });
}

function changedCount(job, wish) {
  const own = Object.values({ ...wish.more, ...lookOf(job) }).filter((value) => value !== "" && value !== false && value !== undefined).length;
  return own + [shared.otherPaper, shared.pageWords, shared.printer].filter(Boolean).length;
}

// A wish among more: nothing is held where it is as usual
function moreSet(wish, name, usual = "") {
  return {
    get: () => wish().more[name] ?? usual,
    set: (value) => { if (value === usual) delete wish().more[name]; else wish().more[name] = value; },
  };
}

function moreBox(view, wish, name, { unit, hidden, hint, label = say(`field.${name}`) } = {}) {
  return typedBox(view, { label, key: name, unit, hidden, hint, mode: "decimal", ...moreSet(wish, name) });
}

const MORE = {
  look: (view) => [radios(view, { legend: say("more.look"), seen: true, two: true, key: "look", options: LOOKS.map((value) => ({ value, label: say(`look.${value}`) })),
    get: () => shared.look || "plain", set: (value) => { shared.look = value === "plain" ? "" : value; } })],
  only: (view, wish) => [h("fieldset", { "data-field": "only" }, h("legend", { class: "small-head" }, say("more.only")), h("div", { class: "picks two" }, ...partsOf(view.job).offered.map((part) => tick(view, {
    label: say(`part.${part}`), key: "only",
    get: () => (wish().more.only ?? partsOf(view.job).usual).includes(part),
    set: (on) => {
      const { usual, offered } = partsOf(view.job);
      const now = wish().more.only ?? usual;
      const left = offered.filter((one) => (one === part ? on : now.includes(one)));
      if (left.join() === usual.join()) delete wish().more.only; else wish().more.only = left;
    } }))), view.bubble("only").node)],
  words: (view) => [choices(view, { label: say("more.words"), key: "words", options: [["", say("more.as_screen")], ["en-GB", "English (UK)"], ["en-US", "English (US)"], ["es", "Español (6,2)"], ["es-MX", "Español (6.2)"]], get: () => shared.pageWords, set: (value) => { shared.pageWords = value; } })],
  paper: (view) => [h("h3", { class: "small-head" }, say("more.paper")), typedBox(view, { label: say("more.paper"), hidden: true, key: "paper", hint: say("more.paper_hint"), get: () => shared.otherPaper, set: (value) => { shared.otherPaper = value; } })],
  size: (view, wish) => [h("h3", { class: "small-head" }, say("more.size")), h("div", { class: "many" }, moreBox(view, wish, "unit", { unit: "mm" }), moreBox(view, wish, "margin", { unit: "mm" }))],
  margin: (view, wish) => [h("h3", { class: "small-head" }, say("field.margin")), moreBox(view, wish, "margin", { unit: "mm", hidden: true })],
  within: (view, wish) => [h("h3", { class: "small-head" }, say("more.within")), moreBox(view, wish, "within", { hidden: true, label: say("more.within"), hint: say("more.within_hint") })],
  spares: (view, wish) => [h("h3", { class: "small-head" }, say("more.spares")), moreBox(view, wish, "spares", { unit: "%", hidden: true, label: say("more.spares") })],
  mats: (view, wish) => [
    choices(view, { label: say("more.mat"), key: "mat", options: ["two", "three", "beside"].map((way) => [way, say(`mat.${way}`)]), ...moreSet(wish, "mat", "two") }),
    choices(view, { label: say("more.sturdy"), key: "sturdy", options: ["", "fold", "backs"].map((way) => [way, say(`sturdy.${way || "no"}`)]), ...moreSet(wish, "sturdy") })],
  stage: (view, wish) => [
    choices(view, { label: say("more.stage"), key: "stage", options: ["pieces", "both", "drawn", "written"].map((way) => [way, say(`stage.${way}`)]), ...moreSet(wish, "stage", "pieces") }),
    ...MORE.backs(view, wish)],
  backs: (view, wish) => [
    choices(view, { label: say("more.backs"), key: "backs", options: ["separate", "long-edge", "short-edge", "fold"].map((way) => [way, say(`backs.${way}`)]), ...moreSet(wish, "backs", "separate") })],
  printer: (view) => {
    const named = h("p", { class: "quiet small" });
    const take = (text) => { view.change("", () => { shared.printer = text; shared.printerName = /^name = "(.*)"$/m.exec(text)?.[1] ?? ""; }); };
    const open = fileOpener(".toml", take, announce, say("printer.open"));
    const none = link(say("printer.without"), () => view.change("", () => { shared.printer = ""; shared.printerName = ""; }));
    field(view, named, () => { setText(named, shared.printer ? say("printer.used", { name: shared.printerName }) : say("printer.none")); keepFocus(none, !shared.printer, open.firstChild)?.focus(); });
    return [h("h3", { class: "small-head" }, say("printer.title")), named, h("div", { class: "actions" }, open, none), view.bubble("printer").node];
  },
  machines: (view, wish) => [h("fieldset", {}, h("legend", { class: "small-head" }, say("more.machines")), h("div", { class: "picks" },
    tick(view, { label: say("more.svg"), key: "svg", ...moreSet(wish, "svg", false) }),
    DATA.dxf ? tick(view, { label: say("more.dxf"), key: "dxf", ...moreSet(wish, "dxf", false) }) : null)), h("div", { class: "many" }, moreBox(view, wish, "kerf", { unit: "mm" }))],
  file: (view) => [h("h3", { class: "small-head" }, say("file.title")), h("p", { class: "quiet small" }, say("file.hint")),
    h("div", { class: "actions" }, h("button", { type: "button", class: "button", onclick: () => view.keep() }, say("file.save")),
      fileOpener(".toml", (text) => openWishes(text, view), announce, say("file.open"))), view.bubble("file").node],
};

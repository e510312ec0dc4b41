// The desk: what the wishes take, the pages themselves in two stacks, and the one button to save.

const FACE_RULES = (document.querySelector("style").textContent.match(/@font-face\{[^}]*\}/g) ?? []).join("");
const FALLBACK = 'text[font-family="Noto Sans"]{font-family:"Noto Sans",sans-serif}';

// A page as a picture that stands alone: no script runs in it, and its typefaces come with it
function pictureOf(svg) {
  const whole = svg.replace(/<svg[^>]*>/, (head) => `${head}<style>${FACE_RULES}${FALLBACK}</style>`);
  return URL.createObjectURL(new Blob([whole], { type: "image/svg+xml" }));
}

// The picture of a page of a result, made when it is first looked at
function pictureFor(result, page) {
  result.urls ??= new Map();
  if (!result.urls.has(page)) {
    const found = result.pages.find((one) => one.page === page);
    if (!found) return "";
    result.urls.set(page, pictureOf(found.svg));
  }
  return result.urls.get(page);
}

// Pages that stayed as they were keep their pictures, so that nothing flickers
function takeOver(before, result) {
  if (!before?.urls || before === result) return;
  result.urls ??= new Map();
  for (const { page, svg } of result.pages) {
    if (before.urls.has(page) && before.pages.some((one) => one.page === page && one.svg === svg)) {
      result.urls.set(page, before.urls.get(page));
      before.urls.delete(page);
    }
  }
}

function forget(result) {
  for (const url of result?.urls?.values() ?? []) URL.revokeObjectURL(url);
}

// A page of a course is called by its week, as it calls itself; a child's page by the child
function pageName({ name_code: code, week, child }) {
  if (child) return child;
  if (code === "title.week" && week) return week;
  return week ? `${week} – ${say(code)}` : say(code);
}

function groupRange({ from, to }) {
  return from === to ? `${from}` : `${from}–${to}`;
}

// The pages of one stock, now or later; a picture for each group, changed in place where it stays
class Stack {
  constructor(stock, later, opening) {
    Object.assign(this, { stock, later, opening });
    this.ranges = h("span", { class: "ranges" });
    this.title = h("h3", {});
    this.list = h("ul", { class: `pages ${stock}` });
    this.node = h("section", { class: "stack", hidden: true }, h("header", {}, icon(stock), this.title, this.ranges), this.list);
  }

  show(result) {
    const found = result.plan.groups.filter((group) => group.stock === this.stock && group.later === this.later);
    this.node.hidden = !found.length;
    setText(this.title, stockSaid(`${this.stock}${this.later ? "_later" : ""}`, result));
    const pages = found.flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, n) => from + n));
    setText(this.ranges, pages.length ? sayCount("pages", pages.length, { ranges: ranges(pages) }).replace(" ", "\u00a0") : "");
    while (this.list.children.length > found.length) this.list.lastChild.remove();
    while (this.list.children.length < found.length) this.list.append(this.leaf());
    const several = result.plan.groups.some(({ copies }) => copies > 1); // then one copy is said too
    found.forEach((group, index) => this.fill(this.list.children[index], group, result, several));
  }

  leaf() {
    const picture = h("img", { alt: "", decoding: "async", draggable: "false" });
    const button = h("button", { type: "button", onclick: () => this.opening(item.page) }, picture);
    const item = h("li", {}, button, h("span", { class: "caption" }, h("b", {}), " ", h("span", {}), h("span", { class: "copies" })));
    return item;
  }

  fill(item, group, result, several) {
    const name = pageName(group);
    item.page = group.from;
    item.style.setProperty("--wide", group.width / 210);
    item.style.setProperty("--shape", `${group.width} / ${group.height}`);
    item.classList.toggle("run", group.to > group.from || group.copies > 1);
    const [button, caption] = item.children;
    const [number, words, copies] = caption.children;
    const url = pictureFor(result, group.from);
    setAttribute(button.firstChild, "src", url || null);
    setAttribute(button, "aria-label", say("page.open", { page: groupRange(group), name }));
    setText(number, groupRange(group));
    setText(words, name);
    copies.replaceChildren(...(several ? [h("br"), sayCount("copies", group.copies)] : []));
  }
}

const FEW_CHILDREN = 5; // up to so many kits are soon cut by scissors

// Cards bring no pieces: a kit of pieces and a mat for each child, that serves all of their sums
function printPieces({ sums, children, written }, from) {
  const job = children > 1 ? "class" : "kit";
  const before = wishOf(job).before ?? wishOf(job);
  remember(job, "");
  jobs[job] = { ...fresh[job](), sums: [...sums, ["", ""]], more: { only: ["pieces", "mats"] }, from, written, before };
  if (children > 1) Object.assign(jobs[job], { children: String(children), share: "1", cut: children > FEW_CHILDREN ? "cutter" : "scissors" });
  location.hash = job;
}

// What was wished for the packs is of them alone: it ends where all jobs are looked at
function endPieces() {
  for (const job of ["kit", "class"]) if (jobs[job]?.before) jobs[job] = jobs[job].before;
}

function emptyKey({ job, marks }) {
  if (job !== "wrong") return "desk.empty";
  if (!wishOf(job).table.trim()) return "wrong.pages_empty";
  if (!marks) return "wrong.reading";
  if (!marks.children.some(({ tried }) => tried)) return "wrong.little";
  return marks.children.some(({ untried }) => untried.length) ? "wrong.tried_all_right" : "wrong.all_right";
}

class Desk {
  constructor(view, title) {
    this.view = view;
    this.takes = h("p", { class: "takes" });
    this.needs = h("p", { class: "quiet" });
    this.where = h("p", { class: "quiet", hidden: true }, say("desk.where"));
    this.words = h("div", { class: "said" });
    this.needed = h("span", {});
    this.pieces = h("p", { class: "quiet", hidden: true }, this.needed, " ", link(say("packs.make_pieces"), () => printPieces(view.result().plan.builds, view.job)));
    this.bubble = h("div", { class: "bubble", hidden: true }, icon("adult"), this.words);
    this.progress = h("progress", { max: 1, value: 0, "aria-label": say("desk.making_label") });
    this.far = h("span", {});
    this.stop = h("button", { type: "button", class: "button", onclick: () => view.stop() }, say("desk.stop"));
    this.working = h("div", { class: "working", hidden: true }, this.progress, this.far, this.stop);
    this.save = h("button", { type: "button", class: "button save", "aria-disabled": "true", onclick: () => view.save() }, icon("save"), h("span", {}, say("desk.save")));
    this.make = h("button", { type: "button", class: "button", hidden: true, onclick: () => { view.again(); this.save.focus(); } }, say("desk.make"));
    this.stacks = [false, true].flatMap((later) => ["card", "paper"].map((stock) => new Stack(stock, later, (page) => leafDialog(view.result(), page))));
    const body = h("div", { class: "body" }, this.takes, this.needs, this.where, this.pieces, this.bubble, this.working,
      h("div", { class: "actions" }, this.save, this.make), ...this.stacks.map((stack) => stack.node));
    view.steps += 1;
    this.node = h("section", { class: "desk", id: "desk" }, h("div", { class: "step" },
      h("span", { class: "number", "aria-hidden": "true" }, String(view.steps)), h("h2", { tabindex: "-1" }, say(title)), body));
    this.body = body;
    this.bar = this.makeBar();
  }

  reach(part = this.node) {
    part.scrollIntoView();
    part.querySelector("h2").focus({ preventScroll: true });
  }

  makeBar() {
    this.thumbs = [h("img", { alt: "" }), h("img", { alt: "" })];
    this.jump = h("button", { type: "button", class: "jump", "aria-label": say("desk.jump"), onclick: () => this.reach() }, ...this.thumbs);
    this.short = h("p", { class: "short" });
    this.barSave = h("button", { type: "button", class: "button save", "aria-disabled": "true", onclick: () => this.view.save() }, icon("save"), h("span", {}, say("desk.save_short")));
    return h("div", { class: "bar", role: "region", "aria-label": say("desk.bar") }, this.jump, this.short, this.barSave);
  }

  // Several files are saved as one archive
  named() {
    const { each, more } = wishOf(this.view.job);
    return each || more.svg || more.dxf ? "desk.save_files" : "desk.save";
  }

  // state: waiting, working, done, empty, refused, stopped, failed, broken; far: [done, total] after a while
  show(state, result, { own = true, far = null, refusals = 0 } = {}) {
    const plan = state === "empty" ? null : result?.plan;
    setText(this.takes, plan ? takesSaid(plan) : "");
    const short = { empty: emptyKey(this.view), refused: "desk.refused_first", stopped: "desk.stopped_first", failed: "desk.failed_short", broken: "desk.broken_short" }[state];
    setText(this.needs, plan ? needsSaid(plan) : "");
    this.pieces.hidden = !plan?.builds;
    if (plan?.builds) setText(this.needed, piecesSaid(plan.builds));
    this.where.hidden = this.view.job !== "kit" || !plan?.groups.some((group) => group.later && group.name_code === "title.task_cards");
    for (const node of [this.takes, this.needs]) node.hidden = !node.textContent;
    this.say(state, result, own, refusals);
    const working = state === "working" && far;
    const next = keepFocus(this.working, !working, this.save);
    if (working) {
      this.progress.max = far[1] || 1;
      if (far[1]) this.progress.value = far[0];
      else this.progress.removeAttribute("value"); // how far is not known
      setText(this.far, far[1] ? say("desk.making", { done: far[0], total: far[1] }) : say(this.view.job === "wrong" && own === false ? "wrong.reading" : "desk.laying"));
    }
    setText(this.short, working ? this.far.textContent : short ? say(short) : plan ? takesSaid(plan, true) : say("desk.waiting"));
    const drawn = own && Boolean(result?.id) && ["done", "working"].includes(state); // only its file may lack
    this.body.classList.toggle("pale", Boolean(working) && !drawn);
    setText(this.save.lastChild, say(this.named()));
    const begun = this.view.hasNoSum() && this.view.unfinished() >= 0; // its pages are not these
    const can = !begun && ((drawn && !working) || (own && Boolean(result?.bytes) && ["done", "waiting", "broken"].includes(state)));
    for (const button of [this.save, this.barSave]) {
      setAttribute(button, "aria-disabled", can ? null : "true");
      setAttribute(button, "aria-describedby", null);
    }
    (keepFocus(this.save, Boolean(working) && !drawn, this.stop) ?? next)?.focus();
    keepFocus(this.make, !["stopped", "failed"].includes(state), this.save)?.focus();
    for (const stack of this.stacks) stack.node.classList.toggle("unseen", state === "empty");
    keepFocus(this.jump, state === "empty", this.barSave)?.focus(); // no page is there to look at
    if (plan && this.shown !== result) {
      this.shown = result;
      for (const stack of this.stacks) stack.show(result);
      plan.groups.slice(0, 2).forEach((group, index) => setAttribute(this.thumbs[index], "src", pictureFor(result, group.from) || null));
      this.thumbs[1].hidden = plan.groups.length < 2;
    }
  }

  say(state, result, own, refusals) {
    const key = {
      waiting: own ? "desk.waiting" : result ? "desk.waiting_own" : "desk.waiting",
      refused: result ? "desk.refused" : "desk.refused_first", stopped: !result ? "desk.stopped_first" : own ? "desk.stopped_file" : "desk.stopped", broken: "desk.broken", failed: "desk.failed",
      empty: emptyKey(this.view),
      done: this.view.hasNoSum() ? "desk.no_sum" : "",
    }[state];
    const text = key ? say(key) : "";
    setText(this.words, text);
    this.bubble.hidden = !text;
    this.bubble.classList.toggle("wrong", ["refused", "broken", "failed"].includes(state));
  }
}

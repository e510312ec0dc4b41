// The controls of a job. Each is made once, and updated in place from the wishes.

// A view's fields are told when the wishes changed otherwise than by themselves (undo, a file)
function field(view, node, update) {
  view.fields.push(update);
  update();
  return node;
}

function step(view, key, ...body) {
  view.steps += 1;
  const title = h("h2", { tabindex: "-1" }, say(key));
  return h("section", { class: "step" }, h("span", { class: "number", "aria-hidden": "true" }, String(view.steps)), title, h("div", { class: "body" }, ...body));
}

function radios(view, { legend, seen, options, get, set, two, key }) {
  const name = freshId();
  const inputs = options.map(({ value }) => h("input", {
    type: "radio", name, value,
    onchange: () => view.change(key ?? "", () => set(value)),
  }));
  const labels = options.map(({ label, aside, drawing }, index) => h("label", { class: "pick" },
    inputs[index], drawing ? icon(drawing) : null, h("span", {}, label), aside ? h("span", { class: "aside" }, aside) : null));
  const node = h("fieldset", { "data-field": key }, h("legend", { class: seen ? "small-head" : "unseen" }, legend), h("div", { class: two ? "picks two" : "picks" }, ...labels));
  return field(view, node, () => inputs.forEach((input, index) => { input.checked = options[index].value === get(); }));
}

function tick(view, { label, get, set, key }) {
  const input = h("input", { type: "checkbox", onchange: () => view.change("", () => set(input.checked)) });
  return field(view, h("label", { class: "pick", "data-field": key }, input, h("span", {}, label)), () => { input.checked = Boolean(get()); });
}

// A box to type in; what is wrong with it stands below, in a bubble
function typedBox(view, { label, get, set, unit, key, row, mode = "text", wide, hidden, hint }) {
  const said = view.bubble(key, row);
  const helps = hint ? h("p", { class: "quiet small" }, hint) : null;
  const input = h("input", {
    class: "box", inputmode: mode, autocomplete: "off", spellcheck: "false", "aria-label": hidden ? label : null,
    oninput: () => view.change(`${key}.${row ?? ""}`, () => set(input.value), true),
  });
  said.watch(input);
  said.help(helps);
  const held = unit ? h("span", { class: "with-unit" }, input, unit) : input;
  const named = hidden ? held : h("label", {}, h("span", {}, label), held);
  const node = h("div", { class: wide ? "wide" : "narrow" }, named, said.node, helps);
  return field(view, node, () => { if (input.value !== get()) input.value = get() ?? ""; });
}

function stepper(view, { label, get, set, least, most, key }) {
  const id = freshId();
  const said = view.bubble(key);
  const input = h("input", {
    id, class: "box", inputmode: "numeric", autocomplete: "off",
    oninput: () => view.change(key, () => set(input.value), true),
  });
  said.watch(input);
  const by = (amount) => () => {
    const now = Number.parseInt(get(), 10);
    const next = Math.min(most, Math.max(least, (Number.isNaN(now) ? least : now) + amount));
    view.change(`${key}.step`, () => set(String(next)));
    input.value = String(next);
    announce(`${label}: ${next}`);
  };
  const button = (sign, word, amount) => h("button", { type: "button", "aria-label": `${label}: ${say(word)}`, onclick: by(amount) }, sign);
  const node = h("div", {}, h("div", { class: "stepper" }, h("label", { for: id }, label),
    h("span", { class: "set" }, button("−", "fewer", -1), input, button("+", "one_more", 1))), said.node);
  return field(view, node, () => { if (input.value !== get()) input.value = get(); });
}

function choices(view, { label, options, get, set, key }) {
  const select = h("select", { class: "box", onchange: () => view.change("", () => set(select.value)) },
    ...options.map(([value, text]) => h("option", { value }, text)));
  return field(view, h("label", { "data-field": key }, h("span", { class: "small-head" }, label), select), () => { select.value = get(); });
}

// A bubble that says what is wrong with a field, with a repair where there is one
class Bubble {
  constructor(view, key, row) {
    Object.assign(this, { view, key, row, inputs: [], id: freshId() });
    this.words = h("div", { id: this.id });
    this.repair = h("button", { type: "button", class: "button", hidden: true, onclick: () => this.mend() });
    this.node = h("div", { class: "bubble wrong", hidden: true }, icon("adult"), h("div", { class: "said" }, this.words, this.repair));
  }

  watch(...inputs) {
    this.inputs.push(...inputs);
  }

  // What helps to fill the fields in is read out with them
  help(node) {
    if (!node) return;
    node.id ||= freshId();
    this.helpId = node.id;
    for (const input of this.inputs) setAttribute(input, "aria-describedby", this.helpId);
  }

  mend() {
    const { refusal } = this;
    this.inputs[0]?.focus();
    this.view.mend(refusal);
  }

  show(refusals) {
    const [refusal] = refusals;
    const mended = refusals.find(({ repair }) => has(`refusal.${repair?.code}`) && (!(repair.line || repair.rows) || linesOf(wishOf(this.view.job).table).length));
    this.refusal = mended;
    this.node.hidden = !refusal;
    const more = this.node.closest("details");
    if (refusal && more) more.open = true; // what is marked is to be seen
    for (const input of this.inputs) {
      input.classList.toggle("wrong", Boolean(refusal));
      setAttribute(input, "aria-invalid", refusal ? "true" : null);
      setAttribute(input, "aria-describedby", [refusal ? this.id : "", this.helpId].filter(Boolean).join(" ") || null);
    }
    this.words.replaceChildren(...[...new Set(refusals.map(refusalSaid))].map((said) => h("p", {}, said)));
    this.repair.hidden = !mended;
    setText(this.repair, mended ? repairSaid(mended.repair) : "");
    if (refusal?.row) this.reach?.(refusal.row);
  }
}

const MOST_GIVEN = 32; // letters of a row that is refused
const TABLED = ["pupils", "answers"]; // fields that are tables: what is refused there has a row

// A sum that lacks one of its numbers is told what is missing
function codeOf({ code, slots }) {
  if (code !== "sum.unreadable") return code;
  return /^\s*-\s|-\s*$/.test(slots.given) ? "sum.half" : code;
}

// What was typed in a row that is refused, short; cells in quotes may hold several lines
function rowGiven(refusal) {
  const lines = linesOf(wishOf(view.job).table ?? "").map((line) => line.split(/[\t;]/).map((cell) => cell.trim()));
  const cells = lines[refusal.row - 1] ?? [];
  const given = (refusal.field === "pupils" && sumGiven(lines.slice(0, refusal.row - 1), cells, refusal.slots)) || short(cells.filter(Boolean).join(", "));
  return given.replace(/(?<=\d\s?)-(?=\s?\d)/g, "−");
}

// Of a row's sums the one that is refused, and whose it is: a name before it, or those above it
function sumGiven(above, cells, { sum = "", given = sum }) {
  const bare = (text) => String(text).replace(/[\s−–-]+/g, "-").replaceAll(",", ".");
  const at = [...cells.keys()].filter((cell) => cells[cell] && bare(cells[cell]) === bare(given));
  if (!at.length) return "";
  const before = cells.slice(0, at[0]).find((cell) => /\p{L}{2}/u.test(cell));
  const names = before ? [before] : at.map((cell) => above.findLast((line) => /\p{L}/u.test(line[cell] ?? ""))?.[cell]);
  return [short([...new Set(names)].filter(Boolean).join(", ")), cells[at[0]]].filter(Boolean).join(", ");
}

function short(text) {
  return text.length > MOST_GIVEN ? `${text.slice(0, MOST_GIVEN)}…` : text;
}

// What is refused in the job one is in: what helps may be there, or in the packs
function refusalSaid(refusal) {
  const plain = `refusal.${codeOf(refusal)}`;
  const key = [`${plain}-${view.job}`].find(has) ?? plain;
  const slots = Object.fromEntries(Object.entries(refusal.slots).map(([name, value]) => [name, Array.isArray(value) ? value.join(value.some((one) => String(one).includes(",")) ? "; " : ", ") : typeof value === "number" ? sayNumber(value, 2) : String(value).replace(/-(?=\s*\d)/g, "−")]));
  const label = ["field", "more"].map((room) => `${room}.${slots.option}`).find(has);
  if (label) slots.option = say(label);
  slots.packs = say("job.packs");
  const sentence = unbroken(has(key) ? say(key, slots) : refusal.says);
  if (!refusal.row || !TABLED.includes(refusal.field)) return sentence;
  const given = rowGiven(refusal);
  return say(given ? "refusal.row_given" : "refusal.row", { row: refusal.row, given, why: has(key) ? sentence[0].toLowerCase() + sentence.slice(1) : sentence });
}

// What is wrong and what the button beside it does, to be read out
function wrongSaid(refusal) {
  const { repair } = refusal;
  return has(`refusal.${repair?.code}`) ? `${refusalSaid(refusal)} ${repairSaid(repair)}` : refusalSaid(refusal);
}

function repairSaid(repair) {
  return say(`refusal.${repair.code}`, { ...repair, rows: repair.rows && short(repair.rows.join(", ")), sum: String(repair.sum ?? "").replace("-", "−"), unit: sayNumber(repair.unit ?? 0, 2) });
}

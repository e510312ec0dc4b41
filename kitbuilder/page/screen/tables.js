// A table of names and sums: pasted, typed, dropped or opened as a CSV file. It stays text.

const LARGEST_FILE = 4000000;
const LONG_PASTE = 4000;
const [FEWEST_LINES, MOST_LINES] = [5, 10];

// Names and sums for packs, with how many cards that makes
function packsPart(view, wish) {
  const count = h("p", {});
  const plain = h("p", { class: "quiet small", hidden: true });
  view.showCount = (plan) => {
    const made = plan?.tasks ? `${sayCount("packs.cards", plan.tasks)} ${sayCount("packs.pupils", plan.pupils)}` : "";
    setText(count, plan?.apart ? `${say("packs.this")} ${made}` : made);
    view.showNotes(plan?.notes ?? []);
    setText(plain, plan?.plain ? say("packs.plain", { count: plan.plain }) : "");
    plain.hidden = !plan?.plain;
  };
  return [...tablePart(view, wish, "packs", "pupils"), count, plain, h("p", { class: "quiet small" }, say("packs.order")),
    tick(view, { label: say("packs.each"), key: "each", get: () => wish().each, set: (value) => { wish().each = value; } }), h("p", { class: "quiet small" }, unbrokenNames(say("packs.each_order")))];
}

// Which of the packs, where those of whole numbers and of decimals are files apart
function kindsPart(view, wish) {
  const node = h("div", { class: "apart", hidden: true }, h("p", {}, say("packs.apart")),
    radios(view, { legend: say("packs.which"), key: "kind", two: true, get: () => wish().kind, set: (kind) => { wish().kind = kind; },
      options: ["whole", "decimals"].map((value) => ({ value, label: say(`packs.${value}`) })) }));
  view.showApart = (plan) => {
    if (plan || !wish().table.trim()) keepFocus(node, !plan?.apart, view.desk.save)?.focus(); // they stay while a row is mended
  };
  return node;
}

// topic has the words, key is the field that refusals name
function tablePart(view, wish, topic, key) {
  const said = view.bubble(key);
  let came = false; // all at once: then the row that is wrong is brought into sight
  said.reach = (row) => { if (came) toRow(area, row); came = false; };
  const area = h("textarea", {
    class: "box", rows: FEWEST_LINES, spellcheck: "false", autocomplete: "off", "aria-label": say(`${topic}.table`),
    oninput: ({ inputType }) => {
      came = inputType === "insertFromPaste";
      const before = wish().table.split("\n");
      const kept = area.value.split("\n").filter((line) => before.includes(line)); // of another table nobody is out
      const out = wish().out.filter((name) => kept.some((line) => line.includes(name)));
      view.change("table", () => Object.assign(wish(), { table: area.value, out }), true);
      if (!came) return;
      said.show([]);
      requestAnimationFrame(() => { area.scrollLeft = 0; }); // the names, not the end of the last row
    },
    onpaste: (event) => pasted(event),
  });
  const how = h("p", { class: "quiet small" }, say(`${topic}.how`));
  said.watch(area);
  said.help(how);
  const notes = h("div", { class: "quiet small notes", role: "status", hidden: true });
  view.showNotes = (lines) => {
    notes.replaceChildren(...lines.map((line) => h("p", {}, unbroken(line))));
    notes.hidden = !lines.length;
  };
  field(view, area, () => {
    if (area.value !== wish().table) area.value = wish().table;
    setAttribute(area, "rows", Math.min(MOST_LINES, Math.max(FEWEST_LINES, wish().table.split("\n").length)));
  });

  // Browsers take a minute to put thousands of lines between others; their value is set at once
  function pasted(event) {
    const text = event.clipboardData.getData("text").replaceAll("\r\n", "\n");
    if (text.length < LONG_PASTE) return;
    event.preventDefault();
    const [start, end] = [area.selectionStart, area.selectionEnd];
    if (!take(area.value.slice(0, start) + text + area.value.slice(end))) return;
    area.setSelectionRange(start + text.length, start + text.length);
  }

  // Too long a table is not taken: what stood there stays
  function take(text) {
    const table = text.replaceAll("\r\n", "\n");
    const given = table.split("\n").filter((line) => line.trim()).length;
    const most = DATA.rows[document.querySelector('meta[name="engine"]') ? "native" : "inside"][key];
    if (given > most) {
      const refusal = { code: "screen.too-many-rows", field: key, row: 0, slots: { given, most }, repair: null };
      said.show([refusal]);
      sayAtOnce(view, refusalSaid(refusal));
      return false;
    }
    view.change("", () => { Object.assign(wish(), { table, out: [] }); area.value = table; });
    said.show([]); // what was refused before is not of this table
    came = true;
    return true;
  }
  const file = fileOpener(".csv,.tsv,.txt,text/csv,text/plain", take, (why) => announce(why));
  const drop = h("div", { class: "drop",
    ondragover: (event) => { event.preventDefault(); drop.classList.add("over"); },
    ondragleave: () => drop.classList.remove("over"),
    ondrop: (event) => { event.preventDefault(); drop.classList.remove("over"); if (event.dataTransfer.files[0]) readFile(event.dataTransfer.files[0], take, announce); },
  }, icon("envelope"), h("span", {}, say("packs.drop")), file);
  return [how, area, said.node, ...cellsPart(view, wish, key, area), notes, readBack(view, wish), drop,
    link(say("packs.example"), () => take(say(`${topic}.example_table`).replaceAll("|", "\t")))];
}

// The rows of a table; none where they cannot be told: a cell in quotes may hold several lines
function linesOf(table) {
  return table.includes('"') ? [] : table.split("\n");
}

// Brings a row of a table into sight, and marks it where it is to be typed over
function toRow(area, row, marked = false) {
  const lines = linesOf(area.value);
  if (row > lines.length) return;
  const start = lines.slice(0, row - 1).reduce((sum, line) => sum + line.length + 1, 0);
  if (marked) area.setSelectionRange(start, start + lines[row - 1].length);
  area.scrollTop = area.scrollHeight * (row - 1) / lines.length - area.clientHeight / 3;
}

// A button that opens a file and reads it as text
function fileOpener(accept, take, refuse, label = say("packs.open")) {
  const input = h("input", { type: "file", accept, hidden: true, onchange: () => { if (input.files[0]) readFile(input.files[0], take, refuse); input.value = ""; } });
  const button = h("button", { type: "button", class: "button", onclick: () => input.click() }, label);
  return h("span", {}, button, input);
}

async function readFile(file, take, refuse) {
  if (file.size > LARGEST_FILE) return refuse(say("packs.too_large"));
  const bytes = new Uint8Array(await file.arrayBuffer());
  return take(decoded(bytes));
}

// Spreadsheets write UTF-8, UTF-16 with its mark, or the letters of Western Windows
function decoded(bytes) {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

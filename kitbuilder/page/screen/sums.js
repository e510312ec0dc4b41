// Rows of sums: two number boxes with the minus between them, and what each sum exchanges.

function sumRows(view, wish, { single = false } = {}) {
  const rows = [];
  const list = h("ul", { class: "rows" });
  const plain = h("p", { class: "quiet small", hidden: true }, say("sum.plain"));
  const examples = h("p", { class: "quiet small before" }, say("sum.examples"));

  function set(index, side, value, typing = true) {
    view.change(`sum${index}.${side}`, () => {
      const at = !single && isReadyMade(wish().sums) ? alone(index) : index;
      const { sums } = wish();
      setText(rows[at].kind, "");
      sums[at] = side ? [sums[at][0], value] : [value, sums[at][1]];
      if (!single) keepLastEmpty(sums);
    }, typing);
  }

  // The first sum of one's own takes the place of the examples, in the row where it is typed;
  // what is not typed over in that row stays
  function alone(index) {
    const [row] = rows.splice(index, 1);
    for (const other of rows.splice(0, rows.length, row)) drop(other);
    wish().sums = [wish().sums[index]];
    return 0;
  }

  function drop(row) {
    row.node.remove();
    view.dropBubble(row.bubble);
  }

  function keepLastEmpty(sums) {
    if (!sums.length || sums.at(-1).some((cell) => cell.trim())) sums.push(["", ""]);
  }

  // Puts pasted sums into the rows from this one on; they take the place of the examples
  function pasteAt(index, text) {
    const found = sumsIn(text);
    if (found.length < 1 || (found.length === 1 && !found[0][1])) return false;
    view.change("", () => {
      const { sums } = wish();
      if (single) sums.splice(0, 1, found[0]);
      else if (isReadyMade(sums)) sums.splice(0, sums.length, ...found);
      else sums.splice(index, 1, ...found);
      if (!single) keepLastEmpty(sums);
    });
    return true;
  }

  function makeRow() {
    const row = {};
    const at = () => rows.indexOf(row);
    const box = (side, word) => h("input", {
      class: "box", inputmode: "decimal", autocomplete: "off", spellcheck: "false", maxlength: 40,
      oninput: (event) => typed(row, side, event.target.value),
      onkeydown: (event) => keys(event, row, side),
      onpaste: (event) => { if (pasteAt(at(), event.clipboardData.getData("text"))) event.preventDefault(); },
      "data-word": word,
    });
    row.boxes = [box(0, "sum.whole"), box(1, "sum.part")];
    row.kind = h("span", { class: "kind" });
    row.gone = h("button", { type: "button", class: "gone", onclick: () => remove(at()), onkeydown: ({ key }) => typedOn(row, key) }, icon("gone"));
    row.bubble = view.bubble("sums", () => at() + 1);
    row.bubble.watch(...row.boxes);
    row.node = h("li", { onfocusout: (event) => { if (!row.node.contains(event.relatedTarget)) view.leftRow(); } },
      h("div", { class: "sum", role: "group" }, row.boxes[0], h("span", { class: "minus", "aria-hidden": "true" }), row.boxes[1], row.kind, single ? null : row.gone),
      row.bubble.node);
    return row;
  }

  // What comes next is typed over what stood there
  function goTo(box) {
    box?.focus();
    box?.select();
  }

  // A keyboard on glass may give no key: then the sign itself leads to the second box, where it
  // is none of what is taken out, nor is a space before that
  function typed(row, side, text) {
    const value = side ? text.replace(/^[-−–\s]+/, "") : text;
    const grouped = /^\s*\d\s\d{3}\s*$/.test(value); // 4 002, pasted
    const [, whole, part] = (!side && !grouped && /^\s*([\d.,]+)\s*[-−–\s]\s*([\d.,]*)\s*$/.exec(value)) || [];
    row.side = part ? 1 : side;
    if (!whole) { set(rows.indexOf(row), side, value); return; }
    row.boxes[0].value = whole;
    set(rows.indexOf(row), 0, whole);
    if (part) set(rows.indexOf(row), 1, part);
    if (part) row.boxes[1].focus(); else goTo(row.boxes[1]);
  }

  function keys(event, row, side) {
    const input = event.target;
    const between = ["-", "−", "–", " "].includes(event.key);
    if (between && !input.selectionStart && (side || event.key === " ")) { // before a number
      event.preventDefault();
    } else if (side === 0 && (between || event.key === "Enter")) {
      event.preventDefault();
      goTo(row.boxes[1]);
    } else if (side === 1 && event.key === "Enter" && !single) {
      event.preventDefault();
      goTo(rows[rows.indexOf(row) + 1]?.boxes[0]);
    } else if (side === 1 && event.key === "Backspace" && !input.value) {
      event.preventDefault();
      row.boxes[0].focus();
    }
  }

  // After a tab more, on the cross, a digit begins the next sum
  function typedOn(row, key) {
    if (/^\d$/.test(key)) goTo(rows[rows.indexOf(row) + 1]?.boxes[0]);
  }

  function remove(index) {
    const [row] = rows.splice(index, 1); // before the change: it brings the rows in line with the sums
    view.change("", () => { wish().sums.splice(index, 1); keepLastEmpty(wish().sums); });
    (rows[index] ?? rows.at(-1)).boxes[0].focus();
    drop(row);
  }

  function sync() {
    const { sums } = wish();
    examples.hidden = single || !isReadyMade(sums);
    list.classList.toggle("examples", !examples.hidden);
    while (rows.length < sums.length) {
      rows.push(makeRow());
      list.append(rows.at(-1).node);
    }
    while (rows.length > sums.length) {
      drop(rows.pop());
    }
    rows.forEach((row, index) => {
      row.boxes.forEach((box, side) => {
        if (box.value !== sums[index][side]) box.value = sums[index][side];
        box.classList.toggle("long", box.value.length > 4);
        setAttribute(box, "aria-label", say(box.dataset.word, { row: index + 1 }));
      });
      setAttribute(row.gone, "aria-label", say("sum.remove", { row: index + 1 }));
      row.gone.hidden = index === sums.length - 1 && sums[index].every((cell) => !cell.trim());
    });
  }

  // While a row has the focus, half a sum is not all yet, nor a first number that may still grow
  view.unfinished = () => {
    const index = rows.findIndex((row) => row.node.contains(document.activeElement));
    const sum = wish().sums[index];
    const grows = sum && rows[index].side === 0 && Number(sum[0]) < Number(sum[1]);
    return sum && (isHalf(sum) || grows) ? index : -1;
  };
  const sumIn = ({ boxes }) => boxes.map(({ value }) => value.trim().replace(",", ".")).join("-");
  view.showKinds = (kinds) => rows.forEach((row, index) => {
    const found = kinds.find((kind) => kind.row === index + 1);
    const twice = found && rows.slice(0, index).some((other) => sumIn(other) === sumIn(row));
    setText(row.kind, twice ? say("sum.twice") : found ? say(`kind.${found.kind}`) : "");
    plain.hidden = !kinds.some(({ kind }) => kind === "none");
  });
  const whole = view.bubble("sums", () => (wish().mode === "choose" ? -1 : 0)); // of all sums together
  field(view, list, sync);

  const howMany = () => (isReadyMade(wish().sums) || !filledOf(wish().sums).length ? "" : ` ${say("sum.paste_more")}`);
  const last = () => rows.at(-1).boxes[0].focus();
  const buttons = single ? null : h("div", { class: "actions" }, link(say("sum.add"), last),
    link(say("sum.paste"), () => pasteDialog(say("sum.paste"), say("sum.paste_how") + howMany(), (text) => pasteAt(wish().sums.length - 1, text))));
  return h("div", { "data-field": "sums" }, examples, list, plain, whole.node, buttons, h("p", { class: "quiet small" }, say(single ? "sum.one_hint" : "sum.hint")));
}

// What parts sums: lines, semicolons, and tabs or commas between two sums
const BETWEEN_SUMS = /[\n\r;]+|(?<=\d\s*[-−–—]\s*[\d.,]*\d[ =?]*)[\t,](?=\s*\d+(?:[.,]\d+)?\s*[-−–—]\s*\d)/;

// The sums in a text: what stands before and after the sign between them, without a
// number or mark in front of the line, and as far as =; lines without a digit are left out
function sumsIn(text) {
  return text.split(BETWEEN_SUMS).map((line) => line.replace(/^\s*(?:[\da-z]{1,2}(?:[.)]-?|\.?[ºª])\s|[-−–—•*·]\s*)/i, "").split("=")[0].trim()).filter((line) => /\d/.test(line)).map((line) => {
    const found = /^(.*?)\s*[-−–—\t]\s*(.*)$/.exec(line);
    return found ? [found[1].trim(), found[2].trim()] : [line, ""];
  });
}

// The sums of a kit or class: typed, or chosen by the program
function sumsPart(view, wish) {
  const typed = sumRows(view, wish);
  const chips = h("ul", { class: "chips" });
  const choice = h("div", {},
    radios(view, { legend: say("choose.how_hard"), seen: true, key: "kind", get: () => wish().choose.kind, set: (kind) => { wish().choose.kind = kind; },
      options: KINDS.map((kind) => ({ value: kind, label: say(`choose.${kind}`), aside: sumSaid(DATA.examples[kind]) })) }),
    view.bubble("kind").node,
    stepper(view, { label: say("choose.count"), key: "count", least: 1, most: 40, get: () => wish().choose.count, set: (count) => { wish().choose.count = count; } }),
    h("h3", { class: "small-head" }, say("choose.these")), chips,
    link(say("choose.others"), () => view.change("", () => { wish().choose.seed += 1; })));
  view.showChosen = (sums) => {
    const same = chips.children.length === sums.length;
    if (same) sums.forEach((sum, index) => setText(chips.children[index], sumSaid(sum)));
    else chips.replaceChildren(...sums.map((sum) => h("li", {}, sumSaid(sum))));
  };
  const mode = radios(view, { legend: say("choose.mode"), two: true, key: "mode", get: () => wish().mode, set: (value) => { wish().mode = value; },
    options: [{ value: "own", label: say("choose.own") }, { value: "choose", label: say("choose.program") }] });
  const first = h("p", { class: "quiet small" }, say("sum.first")); // a class set has one where weeks go home
  field(view, first, () => { first.hidden = !wishesFor(view.job).plan && !(wish().more.only ?? partsOf(view.job).usual).includes("week"); });
  field(view, typed, () => { typed.hidden = wish().mode !== "own"; choice.hidden = wish().mode !== "choose"; });
  return [mode, h("div", { class: "rows-part" }, typed, choice, first)];
}

// A table that cannot be read, in its cells: what is no child's is taken out; what can be read is drawn.

const OF_SHAPE = ["shape-answers", "shape-pupils", "row-out", "column-out", "own-head", "two-beside", "two-answers", "answer-first", "no-sums", "beyond"].map((code) => `screen.${code}`);
const OF_NO_SHAPE = OF_SHAPE.slice(0, 2);

// What can be read, each by an example: a sum a row, sums across, names across
const SHAPES = {
  answers: [
    [["Ada", [53, 27], "26"], ["Ada", [61, 34], "27"], ["Ben", [53, 27], "34"]],
    [["", [53, 27], [61, 34]], ["Ada", "26", "27"], ["Ben", "34", "27"]],
    [["", "Ada", "Ben"], [[53, 27], "26", "34"], [[61, 34], "27", "27"]],
  ],
  pupils: [
    [["Ada", [53, 27]], ["Ben", [61, 34]]],
    [["Ada", "Ben"], [[53, 27], [61, 34]], [[80, 36], [72, 48]]],
  ],
};

function cellsPart(view, wish, key, fallback) {
  const heads = h("thead", {});
  const body = h("tbody", {});
  const table = h("div", { class: "cells", tabindex: "0", role: "group", "aria-label": say("cells.title") }, h("table", {}, heads, body));
  const part = h("details", { class: "cells-part", hidden: true }, h("summary", {}, say("cells.title")), h("p", { class: "quiet small" }, say(`cells.how_${view.job}`)), table);
  const drawn = h("div", { class: "shapes", hidden: true }, h("p", { class: "small-head" }, say("cells.shapes")), h("div", {}, ...SHAPES[key].map(shapeDrawn)));
  part.addEventListener("toggle", () => toWrong());
  let rows = [];

  // The first row that is wrong, brought into sight within the box
  function toWrong() {
    const wrong = body.querySelector(".wrong");
    if (wrong) table.scrollTop = wrong.offsetTop - table.clientHeight / 3;
  }

  // of: row or column; the focus goes on to the next of these
  function cross(of, number, at, kept) {
    const takeOut = () => {
      view.change("", () => { wish().table = kept().map(asLine).join("\n"); });
      announce(say(`cells.${of}_out`, { number }));
      fill(kept().map((cells, index) => [index + 1, cells]), []);
      const same = [...table.querySelectorAll(`[data-of="${of}"]`)];
      (same[Math.min(at, same.length - 1)] ?? table).focus();
    };
    return h("button", { type: "button", class: "cross", "data-of": of, "aria-label": say(`cells.${of}`, { number }), onclick: takeOut }, h("span", { class: "quiet" }, String(number)), " ×");
  }

  function fill(given, wrong) {
    rows = given;
    const columns = Array.from({ length: Math.max(...rows.map(([, cells]) => cells.length)) }, (_, at) => at);
    const withoutColumn = (at) => rows.map(([, cells]) => cells.filter((_, other) => other !== at));
    const withoutRow = (at) => rows.filter((_, other) => other !== at).map(([, cells]) => cells);
    heads.replaceChildren(h("tr", {}, h("td", {}), ...columns.map((at) => h("td", {}, columns.length > 1 ? cross("column", at + 1, at, () => withoutColumn(at)) : ""))));
    body.replaceChildren(...rows.map(([number, cells], at) => h("tr", { class: wrong.includes(number) ? "wrong" : null },
      h("th", { scope: "row" }, rows.length > 1 ? cross("row", number, at, () => withoutRow(at)) : ""), ...columns.map((column) => h("td", {}, short(cells[column] ?? ""))))));
  }

  view.showCells = ({ cells, refusals }) => {
    const own = refusals.filter(({ field }) => field === key);
    const shown = own.length > 0 && Boolean(cells?.length);
    drawn.hidden = !own.some(({ code }) => OF_NO_SHAPE.includes(code));
    const had = table.contains(document.activeElement);
    if (shown && JSON.stringify(cells) !== JSON.stringify(rows)) fill(cells, own.map(({ row }) => row));
    if (had && !table.contains(document.activeElement)) table.focus();
    if (!shown) rows = [];
    part.open = shown && (part.open || own.some(({ code, repair }) => OF_SHAPE.includes(code) && !repair));
    keepFocus(part, !shown, fallback)?.focus();
  };
  return [drawn, part];
}

// A row as a line whose cells tabs part
function asLine(cells) {
  return cells.map((cell) => (/["\t\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join("\t");
}

function shapeDrawn(rows) {
  return h("table", {}, h("tbody", {}, ...rows.map((cells) => h("tr", {}, ...cells.map((cell) => h("td", {}, Array.isArray(cell) ? sumSaid(cell) : cell))))));
}

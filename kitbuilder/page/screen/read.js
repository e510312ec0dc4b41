// What was read of a table, under it: each child with sums and answers; who is no child is taken out.

const MOST_READ = 400; // children that are shown

function readBack(view, wish) {
  const body = h("tbody", {});
  const heads = h("thead", {});
  const more = h("p", { class: "quiet small" });
  const how = h("p", { class: "quiet small" }, say(`read.how_${view.job}`));
  const left = h("p", { class: "small" });
  const table = h("div", { class: "read", tabindex: "0", role: "group", "aria-label": say("read.title") }, h("table", {}, heads, body));
  const node = h("div", { class: "read-back", hidden: true }, h("h3", { class: "small-head" }, say("read.title")), table, more, how, left);
  const set = (out, said) => { view.change("", () => { wish().out = out; }); announce(said); };
  const takeOut = (name) => { if (!wish().out.includes(name)) set([...wish().out, name], say("read.is_out", { name })); }; // pressed twice
  const putBack = (name) => set(wish().out.filter((one) => one !== name), say("read.is_back", { name }));
  let shown = "";
  view.showRead = (told) => {
    const children = told?.read ?? [];
    const key = JSON.stringify([children, told?.out]);
    if (shown === key) return;
    shown = key;
    const name = node.contains(document.activeElement) ? document.activeElement.dataset.name : null;
    const across = sumsAcross(children);
    const cross = (child) => (children.length > 1 ? crossOf(child.name, takeOut) : "");
    heads.replaceChildren(...across.length ? [headRow(across)] : []);
    body.replaceChildren(...children.slice(0, MOST_READ).map((child) => childRow(child, across, cross(child))));
    setText(more, children.length > MOST_READ ? say("read.more", { count: children.length - MOST_READ }) : "");
    how.hidden = children.length < 2;
    left.replaceChildren(...(told?.out ?? []).map((out) => h("span", { class: "group" }, say("read.is_out", { name: out }), " ",
      link(say("read.back"), () => putBack(out), { "data-name": out, "aria-label": say("read.back_name", { name: out }) }), " ")));
    node.hidden = !children.length;
    if (name !== null && name !== undefined) ([...node.querySelectorAll("[data-name]")].find((one) => one.dataset.name === name) ?? table).focus();
  };
  return node;
}

// The sums of the head where the children have the same; else none: each child's stand beside the name
function sumsAcross(children) {
  const sums = new Map(children.flatMap((child) => child.sums.map((sum) => [sumOf(sum), sum])));
  const most = Math.max(0, ...children.map((child) => child.sums.length));
  const answered = children.some((child) => child.sums.some((sum) => sum.length > 2));
  const once = children.every((child) => new Set(child.sums.map(sumOf)).size === child.sums.length);
  return answered && once && children.length > 1 && sums.size < 2 * most ? [...sums.values()] : [];
}

function sumOf([whole, part]) {
  return `${whole}-${part}`;
}

// Sums stand as they are written in columns: so more of them have room
function headRow(across) {
  return h("tr", {}, h("td", {}), ...across.map(([whole, part]) => h("th", { scope: "col", "aria-label": sumSaid([whole, part]) }, whole, h("br"), h("span", {}, "−"), part)), h("td", {}));
}

function childRow({ name, sums }, across, cross) {
  const given = new Map(sums.map((sum) => [sumOf(sum), sum[2]]));
  const cells = across.length ? across.map((sum) => answerCell(given.get(sumOf(sum))))
    : [h("td", { class: "sums" }, ...sums.flatMap((sum) => [h("span", {}, sumAndAnswer(sum)), " "]))];
  return h("tr", {}, h("th", { scope: "row" }, name), ...cells, h("td", {}, cross));
}

// A sum that was not tried has a dash; one that the child was not given has nothing
function answerCell(answer) {
  return h("td", {}, answer === "" ? h("span", { "aria-label": say("read.untried") }, "–") : answer ?? "");
}

function sumAndAnswer([whole, part, answer]) {
  const sum = sumSaid([whole, part]);
  return answer === undefined ? sum : unbroken(`${sum} = ${answer || "–"}`);
}

function crossOf(name, takeOut) {
  return h("button", { type: "button", class: "cross", "data-name": name, "aria-label": say("read.take_out", { name }), onclick: () => takeOut(name) }, "×");
}

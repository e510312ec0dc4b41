// Elements of the page, and the rule that no control is touched while it is being pressed.

function h(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else if (name === "html") node.innerHTML = value; // our own drawings only, never typed text
    else if (value === true) node.setAttribute(name, "");
    else node.setAttribute(name, value);
  }
  node.append(...children.filter((child) => child !== null && child !== undefined));
  return node;
}

function setText(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

function setAttribute(node, name, value) {
  if (value === null || value === false) node.removeAttribute(name);
  else if (node.getAttribute(name) !== String(value)) node.setAttribute(name, value);
}

let counter = 0;
function freshId() {
  counter += 1;
  return `n${counter}`;
}

let pointerIsDown = false;
const waiting = new Map();
addEventListener("pointerdown", () => { pointerIsDown = true; }, true);
for (const name of ["pointerup", "pointercancel"]) {
  addEventListener(name, () => {
    pointerIsDown = false;
    setTimeout(() => {
      const held = [...waiting.values()];
      waiting.clear();
      for (const work of held) work();
    }, 0);
  }, true);
}

// Does the work at once, or when the pointer is up again; of one name the last is done
function whenCalm(name, work) {
  if (pointerIsDown) waiting.set(name, work);
  else work();
}

function announce(text) {
  setText(document.getElementById("status"), text);
}

function focusTitle() {
  document.querySelector("h1")?.focus();
}

// Where what has the focus goes out of sight, the focus goes on to something else
function keepFocus(node, hidden, next) {
  const had = hidden && node.contains(document.activeElement);
  node.hidden = hidden;
  return had ? next : null;
}

function link(text, onclick, attributes = {}) {
  return h("button", { type: "button", class: "link", onclick, ...attributes }, text);
}

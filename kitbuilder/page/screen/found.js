// What probably happened: a card a child, with the pieces at the place where it went wrong.

function foundPart(view) {
  const cards = h("div", { class: "found" });
  const groups = h("p", {});
  const part = step(view, "wrong.happened", cards, groups);
  part.hidden = true;
  view.showMarks = (marks) => {
    part.hidden = !marks;
    cards.replaceChildren(...(marks?.children ?? []).map(childCard));
    groups.replaceChildren(...(marks?.groups ?? [])
      .map(({ says, names }) => h("span", { class: "group" }, h("b", {}, say("wrong.together", { says })), ` ${names.join(", ")}. `)));
  };
  return part;
}

function childCard({ name, wrong, says, asks, also }) {
  const head = h("h3", {}, icon("child"), h("span", {}, name));
  if (!wrong) return h("article", {}, head, h("p", { class: "right" }, icon("right"), says));
  const [whole, part, answer, rest] = wrong;
  return h("article", {}, head,
    h("p", {}, say("wrong.wrote", { sum: sumSaid([whole, part]), answer, rest })),
    h("p", { class: "says" }, `${says[0].toUpperCase()}${says.slice(1)}.`),
    neededPicture(whole, part),
    asks ? h("div", { class: "bubble" }, icon("adult"), h("div", { class: "said" }, say("quote", { words: asks }))) : null,
    also ? h("p", { class: "small" }, say("wrong.also", { says: also })) : null);
}

// The whole as it lies, and beside it what is needed in the first column that is short
function neededPicture(whole, part) {
  if (whole > 999) return null;
  const digit = (number, place) => Math.floor(number / 10 ** place) % 10;
  const short = [0, 1, 2].find((place) => digit(whole, place) < digit(part, place)) ?? -1;
  const left = piecesDrawn([0, 1, 2].map((place) => digit(whole, place)), false);
  const need = [0, 1, 2].map((place) => (place === short ? digit(part, place) : 0));
  const right = short < 0 ? null : piecesDrawn(need, true);
  const across = 4 + left.wide + (right ? 26 + right.wide : 4);
  const panel = (x, wide) => `<rect x="${x}" y="1" width="${wide}" height="56" rx="2" fill="#fff" stroke="#767676" stroke-width=".8"/>`;
  const second = right ? `<text x="${left.wide + 15}" y="34" font-size="14" text-anchor="middle" font-family="Fredoka">?</text>${panel(left.wide + 24, right.wide + 4)}<g transform="translate(${left.wide + 26} 4)">${right.drawn}</g>` : "";
  return h("div", { class: "needed", "aria-hidden": "true", html: `<svg viewBox="0 0 ${across + 4} 58" focusable="false">${panel(1, left.wide + 4)}<g transform="translate(3 4)">${left.drawn}</g>${second}</svg>` });
}

function piecesDrawn([ones, tens, hundreds], dashed) {
  const style = `fill="${dashed ? "none" : "#fff"}" stroke="#000" stroke-width="${dashed ? 0.9 : 0.7}"${dashed ? ' stroke-dasharray="2 1.2"' : ""}`;
  let x = 0;
  let drawn = "";
  for (let n = 0; n < hundreds; n += 1) drawn += `<rect x="${x + n * 2.5}" y="${n * 2.5}" width="28" height="28" ${style}/>`;
  if (hundreds) x += 28 + hundreds * 2.5 + 3;
  for (let n = 0; n < tens; n += 1) { drawn += `<rect x="${x}" y="0" width="5" height="50" ${style}/>`; x += 8; }
  for (let n = 0; n < ones; n += 1) drawn += `<rect x="${x + (n % 5) * 7}" y="${Math.floor(n / 5) * 7}" width="5" height="5" ${style}/>`;
  if (ones) x += Math.min(5, ones) * 7;
  return { drawn, wide: Math.max(24, x) };
}

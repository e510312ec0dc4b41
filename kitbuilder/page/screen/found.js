// What probably happened: a card a child, with the pieces at the place where it went wrong.

const AT_ONCE = 10; // cards that are drawn before the page may do something else
const FEW_READ = 3; // children of whom it is read out what each probably does
const FEW_OTHERS = 3; // further wrong answers that stand open

function foundPart(view) {
  const hint = h("p", { class: "quiet" }, say("wrong.empty"));
  const cards = h("div", { class: "found" });
  const groups = h("p", {});
  const next = link(`${say("wrong.next")} ↓`, () => view.desk.reach(view.desk.node.lastElementChild), { hidden: true });
  let adding = 0; // cards still to be drawn: none of an earlier table come after a later one's
  view.showMarks = (marks, why = "desk.refused_first") => {
    view.marks = marks;
    view.showNotes(marks?.notes ?? []);
    hint.hidden = Boolean(marks);
    setText(hint, say(wishOf("wrong").table.trim() ? why : "wrong.empty"));
    for (const { src } of cards.querySelectorAll(".moment")) URL.revokeObjectURL(src);
    cards.replaceChildren();
    clearTimeout(adding);
    next.hidden = !marks;
    addCards([...marks?.children ?? []].sort((one, other) => !one.wrong - !other.wrong)); // what is right needs little room
    groups.replaceChildren(...(marks ? classSaid(marks) : []));
  };
  function addCards(children, from = 0) {
    cards.append(...children.slice(from, from + AT_ONCE).map(childCard));
    if (from + AT_ONCE >= children.length) return;
    adding = setTimeout(() => addCards(children, from + AT_ONCE));
  }
  field(view, hint, () => { if (!view.marks && wishOf("wrong").table.trim()) setText(hint, say("wrong.reading")); });
  return step(view, "wrong.happened", next, hint, groups, cards);
}

// As on the page of the class: whom to teach together, then what the others need
function classSaid({ together, groups, others }) {
  const line = (...parts) => h("span", { class: "group" }, ...parts, " ");
  return [...groups.length ? [line(h("b", {}, together))] : [],
    ...groups.map(({ says, names }) => line(h("b", {}, `${says}:`), ` ${names.join(", ")}.`)),
    ...others.map((said) => line(said))];
}

// What is read out: of few children what each probably does, of more what the class needs
function happenedSaid(marks) {
  const { children } = marks;
  const said = children.length > FEW_READ ? classSaid(marks).map((node) => node.textContent.trim())
    : children.map((child) => `${child.name}: ${child.wrong ? `${child.says}.` : rightSaid(child).textContent}`);
  return said.join(" ");
}

function childCard(child) {
  return h("article", {}, h("h3", {}, icon("child"), h("span", {}, child.name)),
    ...(child.wrong ? mistakeSaid(child) : [rightSaid(child)]), untriedSaid(child));
}

// Nothing wrong: that is praise only for what was tried
function rightSaid({ tried, further, untried }) {
  if (!tried) return h("p", {}, say("wrong.little"));
  const key = further.length ? "wrong.right_so_far" : untried.length ? "wrong.tried_right" : "wrong.right";
  return h("p", { class: "right" }, icon("right"), say(key, { sums: further.map(sumSaid).join(", ") }));
}

function untriedSaid({ untried }) {
  return untried.length ? h("p", { class: "small" }, say("wrong.untried", { sums: untried.map(sumSaid).join(", ") })) : null;
}

function mistakeSaid({ wrong, others, says, happened, asks, also, picture }) {
  const drawn = picture ? h("img", { class: "moment", src: pictureOf(picture.svg), alt: picture.says, decoding: "async" }) : null;
  return [h("p", {}, wroteSaid(wrong)),
    h("p", { class: "says" }, `${says}.`), h("p", { class: "small" }, unbroken(happened)), drawn,
    asks.length ? h("div", { class: "bubble" }, icon("adult"), h("div", { class: "said" }, unbroken(say("quote", { words: asks.join(" ") })))) : null,
    also ? h("p", { class: "small" }, say("wrong.also", { says: also })) : null,
    others.length ? h("details", { class: "small", open: others.length <= FEW_OTHERS }, h("summary", {}, sayCount("wrong.others", others.length)),
      h("ul", {}, ...others.map((one) => h("li", {}, wroteSaid(one))))) : null].filter(Boolean);
}

// What one known mistake explains is told with its name: it is no habit yet
function wroteSaid([whole, part, answer, rest, mistake]) {
  const wrote = say("wrong.wrote", { sum: sumSaid([whole, part]), answer, rest });
  return mistake ? say("wrong.perhaps", { wrote, mistake }) : wrote;
}

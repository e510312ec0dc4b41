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

function childCard({ name, wrong, says, happened, asks, also, picture }) {
  const head = h("h3", {}, icon("child"), h("span", {}, name));
  if (!wrong) return h("article", {}, head, h("p", { class: "right" }, icon("right"), says));
  const [whole, part, answer, rest] = wrong;
  const drawn = picture ? h("img", { class: "moment", src: pictureOf(picture.svg), alt: picture.says, decoding: "async" }) : null;
  return h("article", {}, head,
    h("p", {}, say("wrong.wrote", { sum: sumSaid([whole, part]), answer, rest })),
    h("p", { class: "says" }, `${says}.`), h("p", { class: "small" }, happened), drawn,
    asks.length ? h("div", { class: "bubble" }, icon("adult"), h("div", { class: "said" }, say("quote", { words: asks.join(" ") }))) : null,
    also ? h("p", { class: "small" }, say("wrong.also", { says: also })) : null);
}

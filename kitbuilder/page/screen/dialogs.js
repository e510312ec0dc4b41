// The dialogs: a page enlarged, a list to paste, and the size checked with a bank card.

const BANK_CARD = { long: 85.6, short: 53.98 };

function openDialog(title, classes, ...body) {
  const before = document.activeElement;
  const id = freshId();
  const dialog = h("dialog", { class: classes, "aria-labelledby": id },
    h("div", { class: "top" }, h("h2", { id, tabindex: "-1", autofocus: true }, title),
      h("button", { type: "button", class: "gone", "aria-label": say("close"), onclick: () => dialog.close() }, icon("gone"))),
    ...body);
  closeByBack(dialog);
  dialog.addEventListener("close", () => { dialog.remove(); if (before?.isConnected) before.focus(); else focusTitle(); });
  dialog.addEventListener("click", (event) => { if (event.target === dialog) dialog.close(); });
  document.body.append(dialog);
  dialog.showModal();
  return dialog;
}

// A dialog is a step in the browser's history, on the same page: Back closes it, and nothing else
function closeByBack(dialog) {
  let left = false;
  const leave = () => { left = true; dialog.close(); };
  history.pushState({}, "");
  addEventListener("popstate", leave);
  dialog.addEventListener("close", () => {
    removeEventListener("popstate", leave);
    if (!left) history.back(); // its step goes with it
  });
}

// One page enlarged; left and right turn through all pages of the result
function leafDialog(result, first) {
  if (!result) return;
  const total = result.plan.pages;
  let page = first;
  const picture = h("img", { alt: "" });
  const where = h("span", { role: "status" });
  const turn = (by) => { page = Math.min(total, Math.max(1, page + by)); show(); };
  const earlier = h("button", { type: "button", class: "button", onclick: () => turn(-1) }, say("page.before"));
  const later = h("button", { type: "button", class: "button", onclick: () => turn(1) }, say("page.after"));
  const dialog = openDialog("", "leaf", picture, h("div", { class: "turn" }, earlier, where, later));
  dialog.addEventListener("keydown", (event) => {
    if (event.key === "ArrowLeft") turn(-1);
    if (event.key === "ArrowRight") turn(1);
  });

  async function show() {
    const now = page;
    const group = result.plan.groups.find(({ from, to }) => from <= now && now <= to);
    const name = pageName(group);
    setText(dialog.querySelector("h2"), `${now} ${name}`);
    setText(where, say("page.of", { page: now, total }));
    for (const [button, off] of [[earlier, now === 1], [later, now === total]]) setAttribute(button, "aria-disabled", off ? "true" : null);
    picture.style.setProperty("--shape", `${group.width} / ${group.height}`);
    const url = pictureFor(result, now) || (await furtherPicture(result, now));
    if (now !== page) return;
    setAttribute(picture, "src", url || null);
    setAttribute(picture, "alt", say("page.alt", { page: now, name }));
  }
  show();
}

async function furtherPicture(result, page) {
  try {
    const { svg } = await called(result, "picture", [page]);
    result.urls.set(page, pictureOf(svg));
    return result.urls.get(page);
  } catch {
    return "";
  }
}

function pasteDialog(title, how, take) {
  const area = h("textarea", { class: "box", rows: 8, spellcheck: "false", "aria-label": title });
  const told = h("p", { class: "quiet", role: "status" }, unbroken(how));
  const use = () => {
    if (take(area.value)) { dialog.close(); return; }
    setText(told, unbroken(`${say("paste.none")} ${how}`));
    area.focus();
  };
  const dialog = openDialog(title, "", told, area,
    h("div", { class: "turn" }, h("button", { type: "button", class: "button", onclick: use }, say("paste.use"))));
  area.focus();
}

// The size on paper and on this screen: a frame made as wide as a bank card, then the pieces
function sizeDialog(plan) {
  const how = plan?.check_page ? say("size.paper_how", { page: plan.check_page })
    : plan?.ruler_page ? say("size.paper_ruler", { page: plan.ruler_page }) : say("size.paper_none");
  const narrow = matchMedia("(max-width: 38.75em)").matches; // a phone is not as wide as a card is long
  const across = narrow ? BANK_CARD.short : BANK_CARD.long;
  const frame = h("div", { class: narrow ? "frame upright" : "frame" });
  const pieces = h("div", { class: "true" });
  const slider = h("input", { type: "range", min: 140, max: 640, value: narrow ? 300 : 324, step: 1, "aria-label": say("size.width"), oninput: () => show() });
  const show = () => {
    const wide = Number(slider.value);
    const mm = wide / across;
    frame.style.width = `${wide}px`;
    pieces.innerHTML = `<svg width="${101 * mm}" height="${24 * mm}" viewBox="-.5 -.5 101 24" role="img" aria-label="${say("size.pieces_alt")}"><path d="M0 0h10v10H0zM0 13h100v10H0zM10 13v10M20 13v10M30 13v10M40 13v10M50 13v10M60 13v10M70 13v10M80 13v10M90 13v10" fill="#fff" stroke="#000" stroke-width=".3"/></svg>`;
  };
  openDialog(say("size.title"), "", h("h3", {}, say("size.on_paper")), h("p", {}, how),
    h("h3", { class: "small-head" }, say("size.on_screen")), h("p", {}, narrow ? say("size.screen_how_upright") : say("size.screen_how")), frame,
    h("label", {}, say("size.width"), slider), h("p", {}, say("size.then")), pieces);
  slider.max = Math.min(640, pieces.clientWidth); // no wider than the frame can be
  show();
}

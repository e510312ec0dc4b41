// What to do now: print one page alone, print the rest in two stacks, cut and begin.

function savedView(job) {
  const result = results[job];
  if (!result?.saved) { location.hash = job; return h("div"); }
  const paper = otherPaper(result.onPaper);
  const number = (n) => h("span", { class: "number", "aria-hidden": "true" }, String(n));
  const part = (n, drawing, title, ...body) => h("section", { class: "step" }, number(n), h("h2", {}, title), h("div", { class: "body" }, ...body), icon(drawing));
  const steps = job === "measure" ? measureSteps(part) : "class_pages" in result.plan ? childrenSteps(part, result) : kitSteps(part, result, job);
  return h("div", { class: "now" },
    h("div", { class: "top" }, icon(job), h("h1", { tabindex: "-1" }, say("saved.title"))),
    h("p", {}, say(result.file.endsWith(".zip") ? "saved.look_zip" : "saved.look", { file: result.file, pdf: result.file.replace(/\.zip$/, ".pdf") })),
    result.plan.apart ? otherKind(job, result.plan.apart) : null,
    paper ? h("p", { class: "care" }, icon("care"), say("saved.paper", { paper })) : null, h("br"), ...steps,
    h("div", { class: "actions" }, h("a", { class: "button", href: `#${job}`, onclick: () => { wanted = job === "measure" ? "across" : ""; } }, say(job === "measure" ? "measure.type" : "saved.back")),
      link(say("saved.print"), () => print()), link(say("saved.again"), () => saveFile(result)), h("a", { class: "link", href: "#home" }, say("all_jobs"))));
}

// The way to the packs that are a file of their own
function otherKind(job, apart) {
  const other = apart === "whole" ? "decimals" : "whole";
  return h("p", {}, say("packs.other"), " ", link(say(`packs.${other}`), () => { wishOf(job).kind = other; location.hash = job; }));
}

// The pages printed first: those up to the bank card's frame, else the one to lay a ruler on
function firstPages(plan) {
  return plan.check_page ? Array.from({ length: plan.check_page }, (_, at) => at + 1) : [plan.ruler_page ?? 1];
}

// What to try where the card or the ruler does not fit, and where a corner lies outside
function fitsNot(job) {
  return [say("saved.fits_not_then"), " ", h("a", { href: "#measure" }, say("job.measure")), h("br"),
    say("saved.corner"), " ", link(say("field.margin"), () => { wanted = "margin"; location.hash = job; })];
}

function kitSteps(part, result, job) {
  const { plan } = result;
  const first = firstPages(plan);
  const how = plan.check_page ? say("saved.actual") : plan.ruler_page ? say("saved.ruler") : say("saved.only_actual");
  const fits = plan.check_page ? "fits" : "measures"; // the card, or the ruler
  const answer = h("p", { class: "answer", role: "status" });
  const answers = h("div", { class: "actions" },
    h("button", { type: "button", class: "button", onclick: () => setText(answer, say("saved.fits_then")) }, icon("right"), say(`saved.${fits}`)),
    h("button", { type: "button", class: "button", onclick: () => answer.replaceChildren(...fitsNot(job)) }, say(`saved.${fits}_not`)));
  const stacks = (later) => ["card", "paper"].map((stock) => pile(result, stock, later, first)).filter(Boolean);
  const later = stacks(true);
  const rest = plan.pages > first.length ? [part(2, "paper", say("saved.rest"), h("p", {}, say("saved.type")), h("div", { class: "stacks" }, ...stacks(false)),
    ...(later.length ? [h("p", {}, say("saved.later")), h("div", { class: "stacks" }, ...later)] : []),
    plan.two_sided.length ? h("p", { class: "care" }, icon("care"), say("saved.two_sided", { ranges: ranges(plan.two_sided) })) : null)] : [];
  const stock = plan.groups.find(({ from, to }) => from <= first[0] && first[0] <= to).stock;
  const begin = stock === "card" && first[0] === plan.begin_page ? "saved.begin_below" : "saved.begin";
  const cut = [plan.cutting_pages.length ? sayCount("saved.cutting", plan.cutting_pages.length, { ranges: ranges(plan.cutting_pages) }) : "", plan.begin_page ? say(begin, { page: plan.begin_page }) : "", plan.pupils ? say("saved.packs") : ""].filter(Boolean).join(" ");
  const small = plan.groups.some(({ name_code }) => ["title.pieces", "title.mini"].includes(name_code));
  return [part(1, "measure", sayCount("saved.first", first.length, { ranges: ranges(first) }), stock === "card" ? h("p", {}, say("saved.first_card", { page: first[0] })) : null, h("p", {}, how), ...(plan.check_page || plan.ruler_page ? [answers, answer] : [])), ...rest,
    part(2 + rest.length, "scissors", say(plan.minutes ? "saved.cut" : "saved.begin_title"), cut ? h("p", {}, cut) : null,
      plan.builds ? h("p", {}, piecesSaid(plan.builds), " ", link(say("packs.make_pieces"), () => printPieces(plan.builds, job))) : null, small ? h("p", { class: "care" }, icon("care"), say("saved.care")) : null)];
}

// One stack of the rest: the pages to type, those of as many copies on a line
function pile({ plan, onPaper }, stock, later, first) {
  const lines = new Map();
  for (const group of plan.groups.filter((one) => one.stock === stock && one.later === later)) {
    for (let page = group.from; page <= group.to; page += 1) {
      if (!first.includes(page)) lines.set(group.copies, [...(lines.get(group.copies) ?? []), page]);
    }
  }
  if (!lines.size) return null;
  const several = lines.size > 1 || !lines.has(1);
  return h("div", { class: `pile ${stock}` }, h("div", { class: "head3" }, icon(stock), h("h3", {}, stockSaid(stock, { onPaper }))),
    ...[...lines].map(([copies, pages]) => h("p", {}, h("span", { class: "range" }, ranges(pages)),
      link(say("saved.copy"), (event) => copyText(ranges(pages, "-"), event.target), { "aria-label": say("saved.copy_label", { ranges: ranges(pages) }) }),
      several ? h("span", { class: "quiet" }, sayCount("copies", copies)) : null)));
}

// Pages about children: those of the whole class stay with the adult, the others go home
function childrenSteps(part, result) {
  const { plan } = result;
  const pages = Array.from({ length: plan.pages }, (_, at) => at + 1);
  const [ofClass, ofChildren] = [pages.slice(0, plan.class_pages), pages.slice(plan.class_pages)];
  return [["adult", "class", ofChildren], ["child", "child", ofClass]].filter(([, , others]) => others.length < plan.pages)
    .map(([drawing, whose, others], at) => part(at + 1, drawing, say(`saved.${whose}_pages`), h("p", {}, say(`saved.${whose}_pages_for`)),
      h("div", { class: "stacks" }, pile(result, "paper", false, others))));
}

function measureSteps(part) {
  return [part(1, "measure", say("measure.print"), h("p", {}, say("measure.how"))), part(2, "right", say("measure.then"), h("p", {}, say("measure.then_how")))];
}

async function copyText(text, button) {
  try {
    await navigator.clipboard.writeText(text);
  } catch {
    const area = h("textarea", { class: "unseen" }, text);
    document.body.append(area);
    area.select();
    document.execCommand("copy");
    area.remove();
    button.focus();
  }
  announce(say("saved.copied", { text }));
}

// Gives the file to the browser to keep; where it cannot keep files, to the share sheet
function saveFile({ file, bytes }, kind = "application/pdf") {
  const type = file.endsWith(".zip") ? "application/zip" : file.endsWith(".toml") ? "application/toml" : kind;
  const blob = new Blob([bytes], { type });
  const shared_ = new File([blob], file, { type });
  const cannotKeep = !("download" in HTMLAnchorElement.prototype);
  if (cannotKeep && navigator.canShare?.({ files: [shared_] })) return navigator.share({ files: [shared_] });
  const url = URL.createObjectURL(blob);
  h("a", { href: url, download: file }).click();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
  return undefined;
}

// The first view: the ready-made kit at once, then the jobs.

const GROUPS = [["home", ["tonight", "kit", "weeks"]], ["class", ["class", "packs", "wrong"]], ["small", ["lost", "measure"]]];

function homeView(view) {
  view.job = "ready";
  const thumbs = h("div", { class: "thumbs" });
  const sums = h("p", {});
  const takes = h("p", {});
  const printer = h("p", { class: "quiet small" }, shared.printer ? say("printer.used", { name: shared.printerName }) : "");
  const save = h("button", { type: "button", class: "button save", "aria-disabled": "true", onclick: () => view.save() }, icon("save"), h("span", {}, say("desk.save")));
  const papers = radios(view, { legend: say("paper.title"), key: "paper", get: () => shared.paper, set: (paper) => { shared.paper = paper; }, options: ["a4", "letter"].map((value) => ({ value, label: say(`paper.${value}`) })) });
  papers.lastChild.className = "papers";
  view.desk = {
    show: (state, result, { own = true } = {}) => {
      const plan = result?.plan;
      setText(sums, plan ? say("home.sums", { sums: sayList(plan.sums_used.map(sumSaid)) }) : say(state === "broken" ? "desk.broken" : "desk.waiting"));
      setText(takes, plan ? takesSaid(plan) : "");
      setAttribute(save, "aria-disabled", own && (result?.bytes ? state !== "refused" : Boolean(result?.id) && ["done", "working"].includes(state)) ? null : "true");
      if (!plan || view.shown === result) return;
      view.shown = result;
      const wanted = [...new Set([1, plan.groups.find((group) => group.stock === "card")?.from ?? 2, plan.begin_page ?? 3])];
      thumbs.replaceChildren(...wanted.map((page) => h("img", { src: pictureFor(result, page) || null, alt: "" })));
    },
  };
  return h("div", {},
    h("div", { class: "door" },
      h("div", {}, h("h1", { tabindex: "-1" }, say("title")), h("p", { class: "lead" }, say("home.lead"))),
      scene(),
      h("section", { class: "ready", "aria-label": say("home.ready") }, h("h2", {}, say("home.ready")), sums, takes, printer, h("div", { class: "row" }, thumbs, papers),
        h("div", { class: "actions" }, save, h("a", { class: "link", href: "#kit" }, say("home.look"))))),
    h("br"), h("h2", {}, say("home.need")),
    h("div", { class: "groups" }, ...GROUPS.map(([name, names]) => h("section", {}, h("h3", {}, say(`home.${name}`)),
      h("ul", {}, ...names.filter((job) => fresh[job]).map((job) => h("li", {}, h("a", { class: "job", href: `#${job}` }, icon(job), h("span", {}, h("b", {}, say(`job.${job}`)), h("span", {}, say(`job.${job}_hint`))))))))) ));
}

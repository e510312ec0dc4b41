// The drawings of the screen: pictograms on a grid of 20, and the scene of the first view.

const FACE = {
  adult: '<path d="M2 20a8 6.6 0 0 1 16 0z"/><path d="M2.9 20a7.1 5.7 0 0 1 14.2 0z" fill="#fff"/><circle cx="10" cy="7.6" r="5.8"/><circle cx="10" cy="7.9" r="4.8" fill="#fff"/><path d="M4.7 6.2A5.5 5.5 0 0 1 15.4 6.6L12.6 5.2 8.4 6.1z"/><circle cx="8.1" cy="8.3" r=".75"/><circle cx="11.9" cy="8.3" r=".75"/><path d="M8.2 10q1.8 1.6 3.6 0" class="s1"/>',
  child: '<path d="M3.4 20a6.6 4.6 0 0 1 13.2 0z"/><path d="M4.4 20a5.6 3.7 0 0 1 11.2 0z" fill="#fff"/><path d="M10.2 6.8L9.1 2.6M10.2 6.8L11.6 2.3M10.2 6.8L13.6 3.7" class="s1"/><circle cx="10" cy="10.6" r="5.4"/><circle cx="10" cy="10.6" r="4.4" fill="#fff"/><circle cx="8.3" cy="10.4" r=".8"/><circle cx="11.7" cy="10.4" r=".8"/><path d="M7.8 11.9q2.2 2.4 4.4 0" class="s1"/>',
};

const DRAWN = {
  kit: '<path d="M1.5 9.5h17v9h-17z" class="s r"/><path d="M4 12.5h2.2v4H4zM8.6 12.5h2.6v2.6H8.6zM13 12.5h2.6v2.6H13z" class="s"/><path d="M10 1v5.4" class="a"/><path d="M7.4 4.6h5.2L10 8.2z" class="af"/>',
  tonight: '<path d="M3 2.5l8-1 .6 12.6" class="s"/><path d="M5.5 4h8.5v13.5H5.5z" class="s w"/><path d="M8 8h3.6M8 11h3.6" class="a"/><circle cx="15.4" cy="15.2" r="3.8" class="s w"/><path d="M15.4 13v2.4h1.8" class="s"/>',
  weeks: '<path d="M1.5 3h17v14.5h-17z" class="s"/><path d="M1.5 5.5h17" class="s2"/><path d="M4 8.2h2.4v2.4H4zM8.8 8.2h2.4v2.4H8.8zM13.6 8.2H16v2.4h-2.4zM4 12.8h2.4v2.4H4zM8.8 12.8h2.4v2.4H8.8zM13.6 12.8H16v2.4h-2.4z" class="s1"/><path d="M4 10.6l2.4-2.4M8.8 10.6l2.4-2.4" class="a1"/>',
  class: `<g transform="translate(3.6 -.4) scale(.64)">${FACE.adult}</g><g transform="translate(-1.4 6.8) scale(.66)">${FACE.child}</g><g transform="translate(8.2 6.8) scale(.66)">${FACE.child}</g>`,
  packs: '<path d="M1.5 7.5l8.5 6 8.5-6v11h-17z" class="s"/><path d="M4.5 9.4V1.5h11v7.9" class="s"/><path d="M7 4.6h6M7 7.4h6" class="a"/>',
  wrong: '<path d="M1.5 1.5h17v17h-17z" class="s r"/><path d="M5 12.2l3-5.4v7.8M4.6 12h4.6" class="s"/><path d="M3.6 15.4L10 5" class="a"/><path d="M12 7.8q.4-1.8 2.2-1.8t2 1.8q0 1.4-2 2.6v1.4M14.2 14.2v.4" class="s"/>',
  lost: '<path d="M2 1.5h3.4v17H2zM2 5h3.4M2 8.3h3.4M2 11.7h3.4M2 15h3.4" class="s1"/><path d="M8.5 1.5H12V5H8.5zM14.5 1.5H18V5h-3.500z" class="s1"/><path d="M8.5 8.2H12v3.4H8.500z" class="s1"/><path d="M14.5 8.200H18v3.400h-3.500zM8.5 15H12v3.400H8.500zM14.5 15H18v3.400h-3.500z" class="a1 d"/>',
  measure: '<path d="M5.2 6V1.500h9.600V6M5 14H1.500V6h17v8H15" class="s"/><path d="M5 11h10v7.500H5z" class="s w"/><path d="M7 15h6M7 13.700v2.600M13 13.700v2.6" class="s1"/><circle cx="15.8" cy="8.6" r=".8"/>',
  scissors: '<path d="M6.2 12.600L7.4 14.2 19.8 6.5 17.6 5.900zM6.2 7.400L7.4 5.8 19.8 13.5 17.6 14.100z"/><circle cx="3.9" cy="15.1" r="2.3" class="s"/><circle cx="3.9" cy="4.9" r="2.3" class="s"/>',
  cutter: '<path d="M1.5 8h12v8.500h-12z" class="s"/><path d="M1.5 11h12" class="s1"/><path d="M15.5 4.500v12" class="s"/><path d="M15.5 4.500l2.7-3" class="a"/>',
  card: '<path d="M3.5 1H14.300L16.8 3.200V19H6L3.5 16.800z"/><path d="M4.4 1.900h9.400v14.200H4.400z" fill="#fff"/>',
  paper: '<path d="M4 1.500h8.500L16 5v13.500H4z" class="s w"/><path d="M7 9h6M7 12h6M7 15h6" class="s1"/>',
  save: '<path d="M9 18.500H3.500v-17h7L14.5 5.500v3" class="l"/><path d="M14.5 10.500v7" class="l"/><path d="M11.6 14.600h5.800l-2.9 4z" fill="currentColor"/>',
  gone: '<path d="M4 4L16 16M16 4L4 16" class="k"/>',
  right: '<path d="M1.5 11L4.2 8.2 8 12.2 16.4 2.6 19 5.2 8.2 17.600z"/>',
  care: '<path d="M10 1L19.4 18.400H.600z"/><path d="M10 4L16.9 17H3.100z" fill="#fff"/><path d="M10 8v4.8" class="s2"/><circle cx="10" cy="15.1" r="1"/>',
  envelope: '<path d="M1.5 4.500h17v12h-17z" class="s"/><path d="M2 5.200l8 6.4 8-6.4" class="s1"/>',
  screen: '<path d="M2 3h16v11H2z" class="s"/><path d="M6 18h8" class="s2"/><path d="M5 11.500h10" class="a"/>',
};

const STYLE = { s: 1.3, s1: 0.9, s2: 1.8 };

function icon(name) {
  const body = (DRAWN[name] || FACE[name]).replace(/class="([a-z0-9 ]+)"/g, (_, names) => styled(names.split(" ")));
  return h("span", { html: `<svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">${body}</svg>` }).firstChild;
}

function styled(names) {
  const accent = "#c2410c";
  const line = (colour, width) =>
    `fill="${names.includes("w") ? "#fff" : "none"}" stroke="${colour}" stroke-width="${width}" stroke-linecap="round" stroke-linejoin="round"${names.includes("d") ? ' stroke-dasharray="1.5 1.2"' : ""}`;
  if (names[0] === "a") return line(accent, 1.4);
  if (names[0] === "a1") return line(accent, 1);
  if (names[0] === "af") return `fill="${accent}"`;
  if (names[0] === "l") return line("currentColor", 1.5);
  if (names[0] === "k") return line("currentColor", 2.4);
  return line("#000", STYLE[names[0]]);
}

// Two people at the mat: the whole with its pieces, an arrow to what is taken out
function scene() {
  const tens = [0, 1, 2, 3].map((n) => `<path d="M${54 + n * 13 - n} 116l-4 54h9l4-54z" class="s1"/>`).join("");
  const ones = (x, y, n, c) => Array.from({ length: n }, (_, i) => `<path d="M${x + i * 11} ${y}h9v8h-9z" class="${c}"/>`).join("");
  const drawn = `<g transform="translate(62 0) scale(5)">${FACE.adult}</g><g transform="translate(176 16) scale(4.3)">${FACE.child}</g>
<path d="M30 92H298L326 186H4z" fill="#fff" stroke="#000" stroke-width="2.5" stroke-linejoin="round"/><path d="M4 186h322v9H4z"/>
<path d="M40 98H162L160 180H16z" fill="#faf6f1" stroke="#767676" stroke-width="1.5"/><path d="M170 98h122l22 82H168z" fill="#faf6f1" stroke="#767676" stroke-width="1.5"/>
${tens}${ones(108, 116, 4, "s1")}${ones(108, 127, 3, "s1")}${ones(192, 112, 5, "n")}${ones(192, 123, 2, "n")}<path d="M200 140l-4 34h9l4-34z" class="n"/>
<path d="M112 146q36 20 62-8" class="arrow"/><path d="M170 130l16-2-9 14z" fill="#c2410c"/>
<path d="M262 92q16 14-2 24l-16 6" fill="none" stroke="#000" stroke-width="11" stroke-linecap="round"/><path d="M262 92q16 14-2 24l-16 6" fill="none" stroke="#fff" stroke-width="7.5" stroke-linecap="round"/>`
    .replaceAll('class="n"', 'fill="#f6c6a8" stroke="#c2410c" stroke-width="1.3"')
    .replaceAll('class="arrow"', 'fill="none" stroke="#c2410c" stroke-width="4" stroke-linecap="round"')
    .replace(/class="([a-z0-9 ]+)"/g, (_, names) => styled(names.split(" ")).replace('stroke-width="0.9"', 'stroke-width="1.3"').replace('fill="none"', 'fill="#fff"'));
  const held = h("div", { class: "scene", "aria-hidden": "true", html: `<svg viewBox="0 0 330 200" focusable="false">${drawn}</svg>` });
  return held;
}

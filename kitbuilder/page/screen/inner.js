// The program inside this very file: Python in a worker of its own, made from the parts below.

const ENGINE_PARTS = ["loader", "machine", "wasm", "library", "engine", "lock"];

const LONGEST_START = 120000;

// Thirteen bits in two letters of 91, lowest bits first; what fills up the end is left over
function unlettered(text, size) {
  const values = new Uint8Array(127);
  let next = 0;
  for (let code = 33; code < 127; code += 1) {
    if (!"<>&".includes(String.fromCharCode(code))) { values[code] = next; next += 1; }
  }
  const bytes = new Uint8Array(size);
  let bits = 0;
  let held = 0;
  let at = 0;
  for (let place = 0; place < text.length; place += 2) {
    bits |= (values[text.charCodeAt(place)] + 91 * values[text.charCodeAt(place + 1)]) << held;
    held += 13;
    while (held >= 8) {
      bytes[at] = bits & 255; // past the end nothing is kept
      at += 1;
      bits >>>= 8;
      held -= 8;
    }
  }
  return bytes;
}

async function unpacked(name) {
  const { textContent, dataset } = document.getElementById(`part-${name}`);
  const stream = new Blob([unlettered(textContent, Number(dataset.bytes))]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).arrayBuffer();
}

class InnerEngine {
  constructor() {
    this.calls = new Map();
    this.count = 0;
    this.life = 0; // a new worker knows nothing of what the last one was asked
    this.parts = this.unpack();
    this.start();
  }

  async unpack() {
    await new Promise((resolve) => { if (document.readyState === "complete") resolve(); else addEventListener("load", resolve); });
    const held = await Promise.all(ENGINE_PARTS.map(unpacked));
    return Object.fromEntries(ENGINE_PARTS.map((name, index) => [name, held[index]]));
  }

  // Ending the worker ends the work; the next worker is started at once
  start() {
    this.life += 1;
    this.ready = this.parts.then((parts) => new Promise((resolve, reject) => {
      if (typeof WebAssembly !== "object") reject(new Broken("no WebAssembly"));
      setTimeout(() => reject(new Broken("start")), LONGEST_START);
      const code = document.getElementById("part-worker").textContent;
      this.worker = new Worker(`data:text/javascript;base64,${code.trim()}`, { type: "module" });
      this.worker.onmessage = ({ data }) => {
        if (data.failed) reject(new Broken(data.failed));
        else if (data.ready) resolve();
        else this.heard(data);
      };
      this.worker.onerror = () => { reject(new Broken("start")); this.fail(new Failed("worker")); };
      this.worker.postMessage(parts);
    }));
    this.ready.catch(() => {});
  }

  heard({ id, done, total, answer, bytes, broken }) {
    const call = this.calls.get(id);
    if (!call) return;
    if (done !== undefined) { call.progress(done, total); return; }
    this.calls.delete(id);
    if (broken) call.reject(new Failed(broken));
    else call.resolve({ ...JSON.parse(answer), bytes });
  }

  // A call may be stopped while its worker still starts: it is known before it is sent
  call(method, args, progress = () => {}) {
    this.count += 1;
    const id = this.count;
    return new Promise((resolve, reject) => {
      this.calls.set(id, { resolve, reject, progress });
      this.ready.then(() => {
        if (this.calls.has(id)) this.worker.postMessage({ id, method, args: JSON.stringify(args) });
      }, reject);
    });
  }

  fail(error) {
    for (const call of this.calls.values()) call.reject(error);
    this.calls.clear();
  }

  stop() {
    this.fail(new Stopped());
    this.restart();
  }

  restart() {
    this.worker?.terminate();
    this.start();
  }
}

// The ready-made kits that are built in: plan, pictures and file, by language and paper
async function shelfEntry(wishes) {
  const words = (wishes.page_words || wishes.lang).replace("es-MX", "es"); // it has no decimals
  const name = `shelf-${words}-${wishes.paper}`;
  if (!document.getElementById(`part-${name}`) || wishes.job !== "kit" || !isShelved(wishes)) return null;
  const held = JSON.parse(new TextDecoder().decode(await unpacked(name)));
  const answer = { ...held.answer, sums: isReadyMade(wishes.sums) ? held.answer.sums : [] };
  return { ...held, answer, bytes: bytesOf(held.bytes) };
}

function isShelved({ sums, choose, printer, more }) {
  const same = isReadyMade(sums) || !filledOf(sums).length;
  return same && !choose && !printer && !Object.keys(more).length;
}

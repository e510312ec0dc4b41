// Python in a worker: it is given its parts once, and answers calls. It can fetch nothing.

const HOME = "https://kit.invalid/";
let program = null;

function imported(source) {
  const text = new TextDecoder().decode(source);
  const bytes = new TextEncoder().encode(text);
  let letters = "";
  for (let at = 0; at < bytes.length; at += 32768) letters += String.fromCharCode(...bytes.subarray(at, at + 32768));
  return import(`data:text/javascript;base64,${btoa(letters)}`);
}

async function start({ loader, machine, wasm, library, engine, lock }) {
  const kinds = { "pyodide.asm.wasm": [wasm, "application/wasm"], "python_stdlib.zip": [library, "application/zip"] };
  self.fetch = async (address) => {
    const [body, type] = kinds[String(address).replace(HOME, "")] ?? [];
    if (!body) throw new TypeError("nothing is fetched");
    return new Response(body, { headers: { "Content-Type": type } });
  };
  const [{ loadPyodide }, made] = await Promise.all([imported(loader), imported(machine)]);
  const python = await loadPyodide({
    indexURL: HOME, packageBaseUrl: HOME, createPyodideModule: made.default,
    lockFileContents: new TextDecoder().decode(lock),
    env: { HOME: "/home", PYTHONDONTWRITEBYTECODE: "1" },
  });
  python.FS.writeFile("/engine.zip", new Uint8Array(engine));
  python.runPython("import sys; sys.path.insert(0, '/engine.zip')");
  program = python.pyimport("kitbuilder.page.inside");
}

function answer({ id, method, args }) {
  try {
    const found = program.call(method, args, (done, total) => postMessage({ id, done, total }));
    const [text, file] = found.toJs();
    found.destroy();
    postMessage({ id, answer: text, bytes: file }, file.length ? [file.buffer] : []);
  } catch (error) {
    postMessage({ id, broken: String(error) });
  }
}

self.onmessage = async ({ data }) => {
  if (program) return answer(data);
  try {
    await start(data);
    return postMessage({ ready: true });
  } catch (error) {
    return postMessage({ failed: String(error) });
  }
};

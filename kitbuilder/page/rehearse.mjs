// Rehearses the engine in Pyodide and compiles what it used, with the very Python that will run it.
//   node rehearse.mjs FOLDER LIBRARY ENGINE   (FOLDER holds Pyodide; the archives are rewritten)

import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [folder, library, engine] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(`${folder}/pyodide.mjs`).href);
const python = await loadPyodide({ indexURL: `${folder}/`, stdLibURL: library });
python.FS.writeFile("/engine.zip", readFileSync(engine));
python.FS.writeFile("/library.zip", readFileSync(library));
try {
  python.runPython(`
import sys
sys.path.insert(0, "/engine.zip")
from kitbuilder.page.packed.rehearsal import compiled, rehearse
made = rehearse()
`);
  for (const [path, name] of [[library, "library"], [engine, "engine"]]) {
    writeFileSync(path, python.runPython(`compiled("/${name}.zip", made)`).toJs());
  }
} catch (error) {
  console.error(String(error.message).slice(-2000)); // Pyodide would print all of its own source
  process.exit(1);
}

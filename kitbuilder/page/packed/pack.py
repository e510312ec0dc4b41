"""Packs the page, Python for browsers and the program into one file that needs no network.

python -m kitbuilder.page.packed.pack --out kitbuilder.html
"""

import argparse
import gzip
import hashlib
import json
import re
import subprocess
import sys
import tarfile
from base64 import b64encode
from html import escape
from importlib.metadata import distribution
from importlib.resources import files
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from zipfile import ZIP_STORED, ZipFile, ZipInfo

from kitbuilder.design import load as designs
from kitbuilder.design.typefaces import FAMILIES, font_bytes, measures_name, measures_table
from kitbuilder.page.packed.screen import page
from kitbuilder.page.packed.shelf import shelf

PYODIDE = "314.0.7"
PYODIDE_SHA512 = (
    "d18bd7c4485f11da4b7dbfd790cd8114078c44eab488c517d9bcf31fda4eb6dc"
    "8c716930abe1db139bb2b860fcd8b37bcb6abe48dbe2ffa579244b0e943d91d4"
)
"""The package of Pyodide at npm, and the hash of its archive."""

MOST_BYTES = 9_500_000
"""Bytes that the packed file may have."""

PACKAGES = ("pydyf", "svgwrite", "fontTools")
"""Pure packages that the engine imports; of them only what it imports is packed."""

_LETTERS = "".join(chr(code) for code in range(33, 127) if chr(code) not in "<>&")

LICENSED = ("pydyf", "svgwrite", "fonttools", "fontpkg-abeezee")
"""Packages at Python's index whose licences are packed with what is taken from them."""

LEFT_OUT = re.compile(r"^kitbuilder/(cli|__main__|page/(pack|server|shelf|screen|faces))\b")
"""Our own modules that the engine never imports."""

LIBRARY_LEFT_OUT = re.compile(
    r"^(_pyrepl|unittest|multiprocessing|xmlrpc|wsgiref|email|http|html|pydoc|doctest|pdb|bdb|cmd"
    r"|tarfile|imaplib|smtplib|mailbox|poplib|ftplib|optparse|statistics|_pyio|_pydatetime"
    r"|pickletools|uuid|ctypes|sqlite3|configparser|difflib|ensurepip|venv|ipaddress|plistlib"
    r"|turtle|cProfile|webbrowser|mimetypes|socketserver|ssl|xml/(dom|sax)|logging/handlers"
    r"|concurrent/futures/process|asyncio/(windows_events|proactor_events)|modulefinder|wave"
    r"|encodings/(?!(__init__|aliases|ascii|latin_1|utf_8|utf_8_sig|utf_16|utf_16_le|utf_16_be|cp437|idna)\.))"
    r"(\b|_)"
)
"""Modules of the standard library that neither Pyodide nor the engine imports."""

NO_REQUESTS = b'''"""Stands in for the standard library's module: nothing is ever fetched."""


def urlopen(*given, **named):
    raise OSError("nothing is fetched")
'''
"""What a package that could fetch is given instead; it saves the modules of the network."""


OFFLINE = "kitbuilder-offline.js"
"""The service worker beside a page on a static host."""


def packed(archive: bytes, hosted: bool = False) -> str:
    """Return the page with everything inside; ``archive`` is Pyodide's package.

    A ``hosted`` page also asks its own host for the service worker, and for nothing else.
    """
    found = _pyodide(archive)
    worker = Path(__file__).parent.parent / "screen" / "worker.js"
    library, engine = _rehearsed(found, trimmed(found["python_stdlib.zip"]), engine_zip())
    parts = {
        "loader": found["pyodide.mjs"],
        "machine": found["pyodide.asm.mjs"],
        "wasm": found["pyodide.asm.wasm"],
        "library": library,
        "engine": engine,
        "lock": _lock(found["pyodide-lock.json"]),
    }
    held = [f'<script type="text/plain" id="part-licences">{escape(licences())}</script>']
    held += [_part("worker", b64encode(worker.read_bytes()).decode())]
    parts = {f"shelf-{name}": json.dumps(entry).encode() for name, entry in shelf().items()} | parts
    small = {name: _gzip(data) for name, data in parts.items()}
    held += [_part(name, lettered(data), len(data)) for name, data in small.items()]
    held += ['<meta name="offline" content="">'] if hosted else []
    workers = f"; worker-src data:{' ' + repr('self') if hosted else ''}"
    html, _ = page("\n".join(held), "data: blob:", "'wasm-unsafe-eval' data:", workers, ("inner",))
    return html


def service_worker(html: bytes, name: str) -> str:
    """Return the service worker that keeps the page ``html``, called ``name``, for offline use."""
    script = (Path(__file__).parent.parent / "screen" / "offline.js").read_text("utf-8")
    mark = hashlib.sha256(html).hexdigest()[:16]
    return script.replace("{mark}", mark).replace("{page}", name)


def licences() -> str:
    """Return what is inside and on which terms, with the licences that the packages bring."""
    said = [(Path(__file__).parent.parent / "licences.txt").read_text("utf-8")]
    for name in ("kitbuilder", *LICENSED):
        for path in distribution(name).files or ():
            if "licen" in path.name.lower() and path.suffix in ("", ".txt", ".md", ".rst"):
                text = Path(str(path.locate())).read_text("utf-8", "replace")
                said.append(f"{name}\n\n{text}")
    for file in sorted(
        (files("kitbuilder.design") / "faces").iterdir(), key=lambda file: file.name
    ):
        if file.name.endswith("-LICENSE.txt"):  # of the cuts that we bring ourselves
            said.append(f"{file.name.partition('-')[0]}\n\n{file.read_text('utf-8')}")
    return "\n\n----\n\n".join(said)


def _part(name: str, text: str, size: int = 0) -> str:
    return f'<script type="text/plain" id="part-{name}" data-bytes="{size}">{text}</script>'


def _gzip(data: bytes) -> bytes:
    return gzip.compress(data, 6, mtime=0)


def lettered(data: bytes) -> str:
    """Return ``data`` as letters: thirteen bits in two letters of 91, lowest bits first.

    That takes a thirteenth less room than base64. The last bits are filled up with zeros.
    """
    pairs = [_LETTERS[n % 91] + _LETTERS[n // 91] for n in range(1 << 13)]
    found: list[str] = []
    for start in range(0, len(data), 13):
        bits = int.from_bytes(data[start : start + 13], "little")
        found += [pairs[bits >> place & 0x1FFF] for place in range(0, 104, 13)]
    spare = 8 - -(-(len(data) % 13 or 13) * 8 // 13)
    return "".join(found[: len(found) - spare])


def fetched() -> bytes:
    """Return Pyodide's package from npm, checked by its hash."""
    with TemporaryDirectory() as folder:
        command = ["npm", "pack", "--silent", f"pyodide@{PYODIDE}"]
        try:
            subprocess.run(command, cwd=folder, check=True, stdout=subprocess.DEVNULL)
        except (OSError, subprocess.CalledProcessError):
            raise SystemExit("npm could not fetch pyodide; install npm and try again.") from None
        return (Path(folder) / f"pyodide-{PYODIDE}.tgz").read_bytes()


def _pyodide(archive: bytes) -> dict[str, bytes]:
    """Return the files of Pyodide's package. Raises ``ValueError`` for another package."""
    told = hashlib.sha512(archive).hexdigest()
    if told != PYODIDE_SHA512:
        raise ValueError(f"the package pyodide {PYODIDE} is not the one known: {told}")
    with tarfile.open(fileobj=BytesIO(archive)) as held:
        return {
            member.name.removeprefix("package/"): file.read()
            for member in held.getmembers()
            if (file := held.extractfile(member))
        }


def _lock(whole: bytes) -> bytes:
    """Return what Pyodide's list of packages says of itself, and no package."""
    return json.dumps({"info": json.loads(whole)["info"], "packages": {}}).encode()


def trimmed(library: bytes) -> bytes:
    """Return the standard library without what is never imported."""
    with ZipFile(BytesIO(library)) as whole:
        files = {name: whole.read(name) for name in whole.namelist() if not name.endswith("/")}
    files["urllib/request.py"] = NO_REQUESTS
    return _zip({name: data for name, data in files.items() if not LIBRARY_LEFT_OUT.match(name)})


def _rehearsed(found: dict[str, bytes], library: bytes, engine: bytes) -> tuple[bytes, bytes]:
    """Return both archives with what is used compiled, after every job was done with them."""
    script = Path(__file__).parent.parent / "rehearse.mjs"
    with TemporaryDirectory() as folder:
        for name, data in (*found.items(), ("library.zip", library), ("engine.zip", engine)):
            (Path(folder) / name).write_bytes(data)
        paths = [Path(folder) / "library.zip", Path(folder) / "engine.zip"]
        done = subprocess.run(["node", script, folder, *paths], check=False)
        if done.returncode:
            raise SystemExit("The engine does not run in Pyodide; see above.")
        return paths[0].read_bytes(), paths[1].read_bytes()


def engine_zip() -> bytes:
    """Return the program, its designs, its typefaces and the packages it imports."""
    files: dict[str, bytes] = {}
    for name in ("kitbuilder", *PACKAGES):
        spec = find_spec(name)
        if spec is None or spec.origin is None:
            continue
        root = Path(spec.origin).parent
        for path in sorted(root.rglob("*.py")):
            files[f"{name}/{path.relative_to(root).as_posix()}"] = path.read_bytes()
    for kind in ("kits", "looks", "paper", "words", "said", "page"):
        for name in designs.names(kind):
            text = (designs.folder() / kind / f"{name}.toml").read_bytes()
            files[f"kitbuilder/_designs/{kind}/{name}.toml"] = text
    for family in FAMILIES:
        files[f"kitbuilder/_faces/{family}.ttf"] = font_bytes(family)
        files[f"kitbuilder/design/faces/{measures_name(family)}"] = measures_table(family)
    return _zip({name: data for name, data in files.items() if not LEFT_OUT.match(name)})


def _zip(files: dict[str, bytes]) -> bytes:
    """Return ``files`` as a ZIP archive that is not compressed: it is, as a whole, later."""
    archive = BytesIO()
    with ZipFile(archive, "w", ZIP_STORED) as held:
        for name, data in sorted(files.items()):
            held.writestr(ZipInfo(name), data)
    return archive.getvalue()


def main() -> None:
    """Write the packed page."""
    parser = argparse.ArgumentParser(description="Pack the page into one file.")
    parser.add_argument("--out", type=Path, default=Path("kitbuilder.html"))
    parser.add_argument("--pyodide", type=Path, help="Pyodide's package, fetched before")
    parser.add_argument("--host", action="store_true", help="for a static host, with offline use")
    given = parser.parse_args()
    archive = given.pyodide.read_bytes() if given.pyodide else fetched()
    whole = packed(archive, given.host).encode()
    if len(whole) > MOST_BYTES:
        raise SystemExit(f"The page has {len(whole)} bytes; it may have {MOST_BYTES}.")
    given.out.write_bytes(whole)
    if given.host:
        worker = given.out.with_name(OFFLINE)
        worker.write_text(service_worker(whole, given.out.name), "utf-8")
    sys.stdout.write(f"Wrote {given.out}, {len(whole) / 1e6:.1f} MB.\n")


if __name__ == "__main__":
    main()

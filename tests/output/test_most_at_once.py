"""What is too much work is refused before it begins; what is allowed goes to disk as it is made."""

import time
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitbuilder.cli import main
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.output.most_at_once import MOST_PILED, MOST_SECONDS, Work, check_work
from kitbuilder.output.pdf.document import Pages
from kitbuilder.pipeline import build
from kitbuilder.press.printing import Press
from kitbuilder.request.pupils import pupils
from kitbuilder.request.request import Request, fitted_paper

SHEET = Sheet(SheetKind.TASK_CARDS, 1, "card", 210, 297, ())


def run(*args: str) -> Result:
    return CliRunner().invoke(main, args)


def table(folder: Path, pupils: int, sums: int = 1) -> str:
    rows = [f"Child {n},{300 + n % 600}-{11 + k}" for n in range(pupils) for k in range(sums)]
    path = folder / "class.csv"
    path.write_text("\n".join(["name,sum", *rows]))
    return str(path)


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ((), "names 4001 pupils"),
        (("--each",), "names 4001 pupils"),
    ],
)
def test_too_many_pupils_are_refused_at_once(
    args: tuple[str, ...], says: str, tmp_path: Path
) -> None:
    start = time.process_time()
    result = run("cards", "--pupils", table(tmp_path, 4001), *args, "--out", str(tmp_path / "o"))
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert says in result.stderr
    assert time.process_time() - start < 5
    assert not (tmp_path / "o").exists()


def test_what_is_asked_besides_counts_and_is_named(tmp_path: Path) -> None:
    children = pupils(Path(table(tmp_path, 400)).read_text(), "class.csv", "pieces")
    request = Request((), fitted_paper("a4"), press=Press(ink=True), parts=("cards",))
    with pytest.raises(RefusedError, match="with ink more than a minute's work"):
        build(replace(request, pupils=children), tmp_path / "o")
    assert not (tmp_path / "o").exists()


def packs(pages: int) -> list[Sheet]:
    """Return ``pages`` pages of pupils who have three each."""
    return [replace(SHEET, section=str(page // 3)) for page in range(pages)]


@pytest.mark.parametrize(
    "work",
    [Work(), Work(svg=True), Work(dxf=True), Work(dpi=150), Work(ink=True), Work(each=True)],
)
def test_the_number_told_fits_and_one_in_ten_more_does_not(work: Work) -> None:
    many = 20_000
    with pytest.raises(RefusedError) as refused:
        check_work(packs(many), work)
    most = refused.value.slots["most"]
    assert isinstance(most, int)
    assert 0 < most < many
    check_work(packs(most - 3), work)
    with pytest.raises(RefusedError):
        check_work(packs(round(1.1 * most)), work)
    assert work.seconds(packs(most - 3)) <= MOST_SECONDS


def test_a_pile_has_a_most_of_its_own() -> None:
    check_work([replace(SHEET, copies=200)] * 100, Work(piled=True))
    with pytest.raises(RefusedError, match=f"{MOST_PILED} fit"):
        check_work([replace(SHEET, copies=200)] * 501, Work(piled=True))
    check_work([replace(SHEET, copies=200)] * 501, Work())


def test_files_for_machines_are_on_disk_before_the_last_page_is_drawn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[int] = []
    add = Pages.add

    def counted(pages: Pages, drawing: object) -> None:
        seen.append(len(list(tmp_path.glob(".sheet-*"))))
        add(pages, drawing)  # type: ignore[arg-type]

    monkeypatch.setattr(Pages, "add", counted)
    assert (
        run("kit", "--pieces", "0,40,0", "--cutter", "svg", "--out", str(tmp_path)).exit_code == 0
    )
    assert seen == list(range(len(seen)))
    assert len(seen) > 1


@pytest.mark.parametrize("lacking", ["PIL", "pypdfium2"])
@pytest.mark.parametrize("wish", ["png = 90", "[estimate]\nink = true"])
def test_a_library_for_pictures_that_lacks_is_a_sentence(
    lacking: str, wish: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import sys

    for name in [lacking, *(n for n in sys.modules if n.partition(".")[0] == lacking)]:
        monkeypatch.setitem(sys.modules, name, None)
    file = tmp_path / "ours.toml"
    file.write_text(f'sums = ["71-48"]\nonly = "cards"\n{wish}\n')
    result = run("kit", str(file), "--out", str(tmp_path / "kit"))
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert "pip install pillow pypdfium2" in result.stderr
    assert not (tmp_path / "kit").exists()
    assert run("kit", "71-48", "--only", "cards", "--out", str(tmp_path / "kit")).exit_code == 0

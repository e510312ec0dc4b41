"""The contract between the screen and the program: wishes in; plans, pictures and files out.

Everything that goes in or out is JSON, but for the files. The screen asks (``ask``), which lays
out and draws nothing, then has it drawn (``draw``). Nothing is decided here: what may be wished
for, what a kit holds and how its pages look is the business of the same rooms as ever.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from io import BytesIO
from itertools import chain
from typing import Any
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from kitbuilder.design.saying import language_of
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.errors import NameTooWideError, RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.card_records import Pupil
from kitbuilder.kit.child_words import child_words
from kitbuilder.layout.model import Sheet
from kitbuilder.layout.pages.check_sheet import check_sheets
from kitbuilder.layout.pages.marks_pages import marks_sheets
from kitbuilder.number import Sum
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.output.calibration import check_pdf
from kitbuilder.output.files import bind, content_bytes
from kitbuilder.output.store.folder import File
from kitbuilder.output.watch import Thing, Watch, Work
from kitbuilder.page.answers_shown import marks_told, read_marks, wording
from kitbuilder.page.leaves import Leaves
from kitbuilder.page.measured_printer import measured
from kitbuilder.page.plan_shown import builds_plan, kit_plan, pages_plan
from kitbuilder.page.read_back import cells_back, out_of, read_back
from kitbuilder.page.readings import Wished, point_of, rows, whole_number
from kitbuilder.page.refusal import RefusedRowsError, note_told, told
from kitbuilder.page.screen_words import file_name, screen_words, word
from kitbuilder.page.wishes import about_children, asked, checked_sum, chosen, printing
from kitbuilder.page.wishes_file import opened, wishes_toml
from kitbuilder.pipeline import Prepared, make, prepare
from kitbuilder.press.printing import fitted, press_for
from kitbuilder.request.request import Request

Progress = Callable[[int, int], None]
"""Is told how many of how many pages are drawn."""


HELD_JOBS, HELD_PAGES = 9, 400
"""Jobs that are held, and their pages, so that those of before may be looked at again."""


class StoppedError(Exception):
    """The person stopped the drawing."""


@frozen
class _Job:
    """A job laid out: the reader's language, its plan, its pages, and what makes its files.

    Where it has a ``name``, its whole PDF is saved under that.
    """

    language: str
    plan: dict[str, Any]
    leaves: Leaves
    files: Callable[[Watch], Iterable[File]]
    name: str = ""


@dataclass(slots=True)
class Engine:
    """The program behind one screen; it holds the last jobs asked for and nothing else.

    ``most_tasks`` is how many cards for pupils this device can bear, ``most_answers`` how many
    answers of children.
    """

    most_tasks: int = 20_000
    most_answers: int = 20_000
    _jobs: dict[int, _Job] = field(default_factory=dict)
    _count: int = 0

    def call(
        self,
        method: str,
        given: Sequence[Any],
        progress: Progress,
        stop: Callable[[], bool] = lambda: False,
    ) -> tuple[dict[str, Any], bytes]:
        """Do what the screen calls for by name; return an answer in JSON, and a file or nothing."""
        match method:
            case "ask":
                return self.ask(*given), b""
            case "draw" | "file":
                work = self.draw if method == "draw" else self.file
                try:
                    return work(int(given[0]), progress, stop)
                except RefusedError as error:
                    language = self._jobs[int(given[0])].language
                    return {"refusals": [told(error, language)]}, b""
            case "picture":
                return {"svg": self.picture(*given)}, b""
            case "keep":
                return {"text": self.keep(*given)}, b""
            case "open":
                return self.open(*given), b""
        raise KeyError(method)

    def ask(self, wishes: Wished) -> dict[str, Any]:
        """Return the id and plan of a job, or why it cannot be done; nothing is drawn.

        ``sums`` tells the exchanges of each row that can be read, whatever else is refused.
        """
        answer: dict[str, Any] = {"id": 0, "refusals": [], "plan": None, "sums": _kinds(wishes)}
        language = str(wishes.get("lang") or "en-GB")
        make_job = self._check_sheet if wishes["job"] == "measure" else self._kit
        try:
            job = make_job(wishes, language)
        except RefusedRowsError as rows_:
            answer["refusals"] = [told(error, language) for error in rows_.refusals]
        except RefusedError as error:
            answer["refusals"] = [told(error, language)]
        else:
            self._count += 1
            earlier = self._jobs.get(self._count - 1)
            job.leaves.after(earlier.leaves if earlier else None)
            self._jobs[self._count] = job
            while len(self._jobs) > 1 and self._holds_too_much():
                del self._jobs[next(iter(self._jobs))]
            answer |= {"id": self._count if job.plan else 0, "plan": job.plan or None}
        if wishes.get("choose"):  # they are shown whatever else is refused
            with suppress(RefusedError):
                answer["chosen"] = [[str(one.whole), str(one.part)] for one in chosen(wishes)]
        if wishes["job"] == "wrong":  # the answers may be read though their pack cannot be made
            with suppress(RefusedError, RefusedRowsError):
                self._few_rows(wishes)
                answer["marks"] = marks_told(wishes)
        name, text = _table(wishes)
        if name and any(refusal["field"] == name for refusal in answer["refusals"]):
            answer["cells"] = cells_back(text, name)
        if wishes["job"] == "measure":
            answer["printer"] = measured(wishes, answer["refusals"])
        return answer

    def draw(
        self, job_id: int, progress: Progress, stop: Callable[[], bool] = lambda: False
    ) -> tuple[dict[str, Any], bytes]:
        """Draw the first page of each group and return the pictures, and no file.

        Raises ``StoppedError`` soon after ``stop`` says so.
        """
        job = self._jobs[job_id]
        wanted = [group["from"] for group in job.plan["groups"]]
        pictures = [
            {"page": page, "svg": job.leaves.picture(page)}
            for page in _watching(progress, stop)(wanted, len(wanted), "pages")
        ]
        return {"plan": job.plan, "pages": pictures}, b""

    def file(
        self, job_id: int, progress: Progress, stop: Callable[[], bool] = lambda: False
    ) -> tuple[dict[str, Any], bytes]:
        """Return the name of the file to save, and what it holds.

        Where there are several files, it is a ZIP archive with all of them. Raises as ``draw``.
        """
        watch = _watching(progress, stop)
        job = self._jobs[job_id]
        files = [(file_name(job.language, n), content_bytes(held)) for n, held in job.files(watch)]
        files.sort(key=lambda file: not file[0].endswith(".pdf"))
        if job.name:
            files[0] = (f"{job.name}.pdf", files[0][1])
        name, file = files[0] if len(files) == 1 else zipped(files)
        return {"file": name}, file

    def picture(self, job_id: int, page: int) -> str:
        """Return the picture of one page of the job asked for."""
        leaves = self._jobs[job_id].leaves
        if not 1 <= page <= len(leaves):
            raise RefusedError("option.range", option="page", given=page, least=1, most=len(leaves))
        return leaves.picture(page)

    def _holds_too_much(self) -> bool:
        pages = sum(len(job.leaves) for job in self._jobs.values())
        return len(self._jobs) > HELD_JOBS or pages > HELD_PAGES

    def keep(self, wishes: Wished) -> str:
        """Return the wishes as a request file, which the command line reads too; no names."""
        return wishes_toml(wishes, asked(wishes).request)

    def open(self, text: str, language: str) -> dict[str, Any]:
        """Return the wishes of a request file, or why it cannot be read."""
        try:
            return {"wishes": opened(text), "refusals": []}
        except RefusedError as error:
            return {"wishes": None, "refusals": [told(error, language)]}

    def _few_rows(self, wishes: Wished) -> None:
        """Refuse a table of more rows than this device can bear, before any is read."""
        name, text = _table(wishes)
        lines = text.splitlines()
        rows_ = sum(not line.isspace() and line != "" for line in lines)
        most = self.most_answers if name == "answers" else self.most_tasks
        if rows_ > most:
            raise RefusedError("screen.too-many-rows", field=name, given=rows_, most=most)

    def _kit(self, wishes: Wished, language: str) -> _Job:
        self._few_rows(wishes)
        found = asked(wishes)
        request = found.request
        count = sum(len(pupil.tasks) for pupil in request.pupils)
        if count > self.most_tasks:
            raise RefusedError(
                "screen.too-many-cards", field="pupils", given=count, most=self.most_tasks
            )
        press = request.press
        if wishes["job"] == "wrong" and about_children(wishes):
            return self._about_children(request, wishes, language)
        if not request.pupils and wishes["job"] == "wrong":  # all is right: no pack to make
            return _Job(language, {}, Leaves((), request.paper, press), lambda watch: ())
        try:
            prepared = prepare(request)
        except NameTooWideError as error:
            error.field = "answers" if wishes["job"] == "wrong" else "pupils"
            raise
        plan = kit_plan(prepared, language) | {"ready_made": found.ready_made}
        plan |= {"sums_used": _used(prepared), "apart": found.apart}
        plan["notes"] = [note_told(note, language) for note in found.notes]
        plan |= {"read": read_back(map(_asked, found.pupils)), "out": [*found.out]}
        leaves = Leaves(prepared.laid.sheets, prepared.paper, press, prepared.drawings)

        def files(watch: Watch) -> Iterable[File]:
            made = make(replace(prepared, drawings=leaves.drawings()), watch).files
            return chain(made, [_order(language)]) if request.each else made

        return _Job(language, plan, leaves, files, _file_name(wishes, prepared, language))

    def _about_children(self, request: Request, wishes: Wished, language: str) -> _Job:
        paper, press = request.paper, request.press
        marks = read_marks(str(wishes["answers"]), press.words.language, out_of(wishes))
        press = replace(press, words=wording(marks, press.words))
        try:
            sheets = marks_sheets(marks, press.style(paper))
        except RefusedError as error:
            error.field = error.field or "answers"
            raise
        plan = _paper_plan(sheets) | {"class_pages": sum(not sheet.section for sheet in sheets)}
        pages = [said for child in marks.children if (said := child_words(child, press.words))]
        sums = tuple(dict.fromkeys(chain.from_iterable(said.built for said in pages)))
        plan["builds"] = builds_plan(sums, len(pages), language)
        leaves = Leaves(sheets, paper, press)

        def files(watch: Watch) -> Iterable[File]:
            drawings = leaves.drawings() or draw_pages(sheets, paper, press)
            return bind(drawings, sheets, "marks", press, None, watch).files

        return _Job(language, plan, leaves, files)

    def _check_sheet(self, wishes: Wished, language: str) -> _Job:
        how = printing(wishes)
        paper, press = fitted(how), press_for(how)
        sheets = check_sheets(press.style(paper))
        needs = [{"code": code, "count": 1} for code in ("pencil", "ruler")]
        plan = _paper_plan(sheets) | {"paper": 1, "needs": needs}  # its back is printed too
        leaves = Leaves(sheets, paper, press)

        def files(watch: Watch) -> Iterable[File]:
            drawings = watch(leaves.drawings(), len(sheets), "pages")
            yield "check.pdf", check_pdf(drawings, press)

        return _Job(language, plan, leaves, files)


def _table(wishes: Wished) -> tuple[str, str]:
    """Return the name of the table that a job reads, and its text; nothing where it reads none."""
    name = {"packs": "pupils", "wrong": "answers"}.get(wishes["job"], "")
    return name, str(wishes.get(name) or "")


def _asked(pupil: Pupil) -> tuple[str, Iterator[Sequence[object]]]:
    """Return a pupil's name, and the sums of the cards."""
    return pupil.name, ((task.sum.whole, task.sum.part) for task in pupil.tasks)


def _paper_plan(sheets: Sequence[Sheet]) -> dict[str, Any]:
    """Return the plan of pages to read: nothing is cut, and nothing else is needed."""
    plan = {"kits": 1, "card": 0, "paper": len(sheets), "minutes": 0, "later": {}, "needs": []}
    return plan | {**pages_plan(sheets, listed=True), "ready_made": False, "sums_used": []}


def _file_name(wishes: Wished, prepared: Prepared, language: str) -> str:
    """Return what the file of a job is called: what it is for, and never a pupil's name."""
    sums, job = prepared.request.sums, wishes["job"]
    match job:
        case "tonight" if sums:
            return "-".join([word(language, job), *re.findall(r"\d+", sums[0].typed)])
        case "class":
            children = whole_number(wishes["class"]["children"], "children")
            return f"{word(language, job)}-{children}"
        case "weeks":
            weeks = whole_number(wishes["plan"]["weeks"], "weeks")
            return f"{word(language, job)}-{weeks}"
        case "packs" | "wrong":
            tasks = (task for pupil in prepared.request.pupils for task in pupil.tasks)
            kind = ["decimals"] if any(task.sum.scale.decimals for task in tasks) else []
            return "-".join(word(language, name) for name in (job, *kind))
        case "lost":
            return word(language, job)
    return ""


def _order(language: str) -> File:
    """Return what says whose each pupil's file is: names stay out of names of files."""
    return "each/order.txt", f"{screen_words(language_of(language))['packs.each_order']}\n".encode()


def _watching(progress: Progress, stop: Callable[[], bool]) -> Watch:
    """Return what tells of things as they pass, until it is to stop."""

    def watch(things: Iterable[Thing], total: int, work: Work) -> Iterator[Thing]:
        for number, thing in enumerate(things, 1):
            if stop():
                raise StoppedError
            yield thing
            progress(number, total)

    return watch


def zipped(files: Sequence[tuple[str, bytes]]) -> tuple[str, bytes]:
    """Return ``files`` as one ZIP archive named after the first; always the same bytes."""
    archive = BytesIO()
    with ZipFile(archive, "w", ZIP_DEFLATED) as written:
        for name, data in files:
            written.writestr(ZipInfo(name), data, ZIP_DEFLATED)
    return f"{files[0][0].rpartition('.')[0]}.zip", archive.getvalue()


def _kinds(wishes: Wished) -> list[dict[str, Any]]:
    """Return the kind of each row's sum that can be read."""
    found = []
    for row, whole, part in rows(wishes):
        try:
            found.append({"row": row, "kind": kind(checked_sum(whole, part, point_of(wishes)))})
        except RefusedError:
            continue
    return found


_OF_DECIMALS = {"ones": "tenth", "tens": "one"}
"""What is exchanged where the hundredths are short, or the tenths."""


def kind(sum_: Sum) -> str:
    """Return what the exchanges of ``sum_`` are called on the screen."""
    name = pattern(sum_).name
    if name == "both" and sum_.places > 3:
        return "several"
    return _OF_DECIMALS.get(name, name) if sum_.scale.decimals else name


def _used(prepared: Prepared) -> list[list[str]]:
    """Return the kit's sums as they are written, decimals too."""
    return [[str(sum_.whole), str(sum_.part)] for sum_ in prepared.request.sums]

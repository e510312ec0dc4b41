"""The screen in a real browser, on the local server: keyboard, widths, refusals, undo, back."""

import re
import threading
from collections.abc import Callable
from pathlib import Path
from time import sleep
from typing import Any

import pytest
from browsing import (
    JOBS,
    SAVE,
    TABLES,
    WIDTHS,
    focused,
    opened,
    save_button,
    saved,
    saved_by_key,
    settled,
    show,
    tab_to,
)
from playwright.sync_api import Browser, Dialog, Locator, Page, expect

from kitbuilder.page.contract import Engine, Progress

pytestmark = pytest.mark.browser

Stop = Callable[[], bool]
Answer = tuple[dict[str, Any], bytes]

TITLES = {
    "tonight": "One sum, tonight",
    "kit": "A kit for my child",
    "weeks": "Weeks of practice",
    "class": "A class set",
    "packs": "Packs for named pupils",
    "wrong": "What went wrong?",
    "lost": "Lost a few pieces",
    "measure": "Measure my printer",
}
FILES = {
    "tonight": "tonight-53-27.pdf",
    "weeks": "weeks-4.pdf",
    "class": "class-30.pdf",
    "lost": "lost-pieces.pdf",
    "packs": "packs.pdf",
    "wrong": "next-packs.pdf",
    "measure": "check-sheet.pdf",
}


@pytest.mark.parametrize("job", JOBS)
def test_every_job_from_opening_to_the_saved_file_by_keyboard_alone(
    browser: Browser, native: str, job: str
) -> None:
    with opened(browser, native) as page:
        tab_to(page, TITLES[job])
        page.keyboard.press("Enter")
        expect(page.locator("h1")).to_be_focused()
        if job in TABLES:
            tab_to(page, re.compile("^Names[, ]"))
            page.keyboard.type(TABLES[job])
        settled(page)
        tab_to(page, SAVE)
        name, data = saved_by_key(page)
        assert name == FILES.get(job, "kit.pdf")
        assert data.startswith(b"%PDF")
        expect(page.locator("h1")).to_have_text("What to do now")
        expect(page.locator("h1")).to_be_focused()


def test_the_ready_made_kit_is_two_keys_away(browser: Browser, native: str) -> None:
    with opened(browser, native, locale="es-MX") as page:
        settled(page)
        tab_to(page, SAVE)
        assert saved_by_key(page)[1].startswith(b"%PDF")
        expect(page.locator("h1")).to_have_text("Qué hacer ahora")


def test_the_ready_made_kit_is_made_on_either_paper(browser: Browser, native: str) -> None:
    with opened(browser, native) as page:
        settled(page)
        page.get_by_label("Letter").check()
        settled(page)
        page.get_by_label("Letter").blur()
        page.keyboard.press("Control+z")
        expect(page.get_by_label("A4")).to_be_checked()


def unfold(page: Page, view: str) -> None:
    """Fill what a screen asks for, with names that are long, and open all that is folded."""
    if view == "packs":
        page.locator("textarea").fill("N" * 200 + "\t53 − 27\nBen")
        expect(page.locator(".bubble.wrong").first).to_be_visible()
    elif view == "wrong":
        page.locator("textarea").fill("N" * 60 + "\t53 − 27\t34\nBen\t90 − 36\t54")
        expect(page.locator(".found article")).to_have_count(2)
    else:
        settled(page)
    for more in page.locator("summary:visible").all():
        more.click()


@pytest.mark.parametrize("way", ["Back", "Close"])
def test_back_closes_a_page_seen_close_and_leaves_the_job_as_it_was(
    browser: Browser, native: str, way: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, file = threading.Event(), Engine.file

    def told(engine: Engine, job: int, progress: Progress, stop: Stop) -> Answer:
        found = file(engine, job, progress, stop)
        made.set()
        return found

    monkeypatch.setattr(Engine, "file", told)
    with opened(browser, native, 390) as page:
        show(page, "tonight")
        show(page, "kit")
        settled(page)
        assert made.wait(60)
        expect(page.locator(".working:visible")).to_have_count(0)  # nothing moves from now on
        seen = page.locator(".pages button").nth(3)
        seen.click()
        far = page.evaluate("scrollY")
        expect(page.locator("dialog")).to_be_visible()
        if way == "Back":
            page.go_back()
        else:
            page.get_by_role("button", name="Close", exact=True).click()
        page.wait_for_function("history.state === null")
        expect(page.locator("dialog")).to_have_count(0)
        expect(seen).to_be_focused()
        assert (page.evaluate("location.hash"), page.evaluate("scrollY")) == ("#kit", far) and far
        page.go_back()
        expect(page.locator("h1")).to_have_text("One sum, tonight")


@pytest.mark.parametrize(
    ("locale", "views"), [("en-GB", ("home", *JOBS)), ("es-MX", ("home", "packs", "wrong"))]
)
def test_nothing_keeps_people_out(
    browser: Browser, native: str, axe: str, locale: str, views: tuple[str, ...]
) -> None:
    with opened(browser, native, locale=locale) as page:
        page.evaluate(axe)

        def check(where: str) -> None:
            found = page.evaluate(
                "async () => (await axe.run()).violations.map(v => [v.id, v.nodes[0].html])"
            )
            assert found == [], where

        for view in views:
            show(page, view)
            unfold(page, view)
            check(view)
        show(page, "kit")
        page.locator(".sum .box").first.fill("1")
        page.locator(".sum .box").nth(1).fill("28")
        expect(page.locator(".wishes .bubble.wrong:visible")).to_have_count(1)
        check("a refusal")
        page.locator(".sum .box").first.fill("64")
        settled(page)
        page.locator(".pages button").first.click()
        check("a page enlarged")
        page.keyboard.press("Escape")
        page.locator(".wishes .step .link").last.click()
        check("the size")
        page.keyboard.press("Escape")
        saved(page)
        expect(page).to_have_url(re.compile("#kit/saved$"))
        check("saved")


LOW = """() => [...document.querySelectorAll(
  "button:not(.link):not(.pages button), .box, .pick, a.job")]
  .filter(node => node.offsetParent && node.getBoundingClientRect().height < 44)
  .map(node => node.outerHTML.slice(0, 80))"""
"""What is to be pressed and lower than 44 px, but for words to click in a line."""


def test_no_screen_scrolls_sideways_and_targets_are_large(browser: Browser, native: str) -> None:
    with opened(browser, native, locale="es-MX") as page:
        for view in ("home", *JOBS):
            show(page, view)
            unfold(page, view)
            for width in (*WIDTHS, 640):  # 640 is 1280 at 200 per cent
                page.set_viewport_size({"width": width, "height": 800})
                across = page.evaluate("document.documentElement.scrollWidth")
                assert across <= width, (view, width)
                assert page.evaluate(LOW) == [], (view, width)


def test_a_sum_turned_round_is_put_right_at_a_click(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        boxes = page.locator(".sum .box")
        boxes.nth(0).fill("27")
        boxes.nth(1).fill("53")
        mend = page.get_by_role("button", name="Turn it round: 53 − 27")
        mend.click()
        expect(boxes.nth(0)).to_have_value("53")
        expect(boxes.nth(0)).to_be_focused()
        expect(mend).to_be_hidden()
        settled(page)


@pytest.mark.parametrize("width", [360, 1280])
def test_save_leads_to_what_is_marked(browser: Browser, native: str, width: int) -> None:
    with opened(browser, f"{native}#kit", width=width) as page:
        settled(page)
        box = page.locator(".sum .box").first
        box.fill("12000")
        page.locator(".sum .box").nth(1).fill("7")
        expect(page.locator(".wishes .bubble.wrong:visible")).to_contain_text("9999")
        expect(page.locator(".desk .bubble")).to_contain_text("First put right what is marked")
        expect(page.locator(".bar .short")).to_have_text("First put right what is marked.")
        assert box.evaluate("node => node.scrollWidth <= node.clientWidth")  # all digits are seen
        save_button(page).click(force=True)
        expect(box).to_be_focused()
        described = box.get_attribute("aria-describedby")
        assert described
        expect(page.locator(f"#{described}")).to_contain_text("9999")


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("side", ["Top", "Left"])
def test_what_is_wrong_at_one_edge_is_told_in_a_line(
    browser: Browser, native: str, width: int, side: str
) -> None:
    with opened(browser, f"{native}#measure", width=width) as page:
        page.get_by_label("Bar across").fill("150")
        page.get_by_label("Bar down").fill("150")
        page.get_by_label(side, exact=True).fill("x")
        said = page.locator(".wishes .bubble.wrong:visible .said")
        expect(said).to_have_text("“x” is not a number.")
        box = said.bounding_box()
        assert box
        assert box["height"] < 50 < 200 < box["width"]
        boxes = [box.bounding_box() for box in page.locator(".four").first.locator("input").all()]
        assert len({box["y"] for box in boxes if box}) == 1  # still in one row


def test_pages_printed_once_say_so_beside_pages_of_many_copies(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#class") as page:
        settled(page)
        captions = page.locator(".desk .copies")
        said = set(captions.all_text_contents())
        assert said > {"1 copy"}
        assert all(re.fullmatch(r"1 copy|\d+ copies", one) for one in said)
        show(page, "lost")
        settled(page)
        assert set(page.locator(".desk .copies").all_text_contents()) == {""}


def test_on_a_phone_a_way_leads_from_the_answers_to_what_happened(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#wrong", width=360) as page:
        way = page.get_by_role("button", name="What probably happened")
        expect(way).to_be_hidden()
        page.locator("textarea").fill("Ada\t53 − 27\t34")
        way.click()
        happened = page.locator(".found .small").first.evaluate("node => node.textContent")
        assert "7\u00a0−\u00a03 was worked" in happened  # no line ends within a sum
        title = page.get_by_role("heading", name="What probably happened")
        expect(title).to_be_focused()
        expect(title).to_be_in_viewport()
        page.set_viewport_size({"width": 1280, "height": 800})
        expect(way).to_be_hidden()  # it stands beside the answers


def test_where_nothing_is_to_print_no_page_from_before_is_shown(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#wrong", width=390) as page:
        table, jump = page.locator("textarea"), page.locator(".bar .jump")
        table.fill("Ada\t53 − 27\t34")
        expect(jump).to_be_visible()
        table.fill("Ada\t53 − 27\t26\nAda\t61 − 34\t27\nAda\t402 − 186\t216")
        expect(page.locator(".bar .short")).to_have_text(re.compile("nothing to practise"))
        expect(jump).to_be_hidden()
        assert page.locator(".desk img:visible").count() == 0
        table.fill("Ada\t53 − 27\t34")
        expect(jump).to_be_visible()


def test_what_is_marked_among_more_wishes_is_seen(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        page.locator("details.more > summary").click()
        page.get_by_label("Margins").fill("30")
        settled(page)
        page.locator("details.more > summary").click()
        expect(page.locator("details.more[open]")).to_have_count(0)
        boxes = page.locator(".sum .box")
        boxes.nth(0).fill("3045")
        boxes.nth(1).fill("1582")
        page.locator("h1").click()
        told = page.locator(".more .bubble.wrong:visible")
        expect(told).to_have_text(re.compile("holds no thousand"))


def test_a_job_waits_for_another_and_says_so(
    browser: Browser, native: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, read, ask = threading.Event(), threading.Event(), Engine.ask

    def slow(engine: Engine, wishes: dict[str, Any]) -> dict[str, Any]:
        if wishes["job"] == "wrong":
            begun.set()
            read.wait(60)
        return ask(engine, wishes)

    monkeypatch.setattr(Engine, "ask", slow)
    with opened(browser, f"{native}#wrong") as page:
        page.locator("textarea").fill("Ada\t53 − 27\t34")
        expect(page.locator(".desk")).to_contain_text("Reading the answers.")
        expect(page.locator(".desk")).not_to_contain_text(re.compile("Paste or type|All right"))
        assert begun.wait(60)
        show(page, "lost")
        expect(page.get_by_role("button", name="Stop")).to_be_visible()
        expect(page.locator(".working")).to_contain_text("Making the pages")
        expect(page.get_by_text("Every sum has a card too")).to_be_hidden()
        read.set()
        settled(page)
        expect(page.locator(".working")).to_be_hidden()


def test_save_says_whether_one_file_is_saved_or_several(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#packs") as page:
        page.locator("textarea").fill(TABLES["packs"])
        settled(page)
        expect(save_button(page)).to_have_text("Save the PDF")
        page.get_by_label("Also one PDF for each pupil").check()
        expect(save_button(page)).to_have_text("Save the files")


def test_packs_of_whole_numbers_lead_on_to_those_of_decimals(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#packs") as page:
        page.locator("textarea").fill("Ann\t43-17\nBen\t6.34-2.58")
        expect(page.locator(".desk .apart")).to_contain_text("make two files")
        settled(page)
        save_button(page).focus()
        assert saved_by_key(page)[0] == "packs.pdf"
        page.get_by_role("button", name="Packs of decimals").click()
        expect(page.get_by_role("radio", name="Packs of decimals")).to_be_checked()
        settled(page)
        save_button(page).focus()
        assert saved_by_key(page)[0] == "packs-decimals.pdf"
        page.get_by_role("link", name="Back to the pages").click()
        page.locator("textarea").fill("Ann\t43-17")
        expect(page.locator(".desk .apart")).to_be_hidden()


def test_the_program_begins_with_what_the_youngest_can_do(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        page.get_by_role("radio", name="Choose for me").check()
        expect(page.get_by_role("radio", name="Exchange 1 ten")).to_be_checked()
        expect(page.locator(".chips li").first).to_have_text(re.compile(r"^\d\d\s−\s\d\d?$"))


def test_one_right_answer_is_not_called_enough(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#wrong") as page:
        page.locator("textarea").fill("Ada\t53 − 27\t34\nFay\t90 − 36\t54")
        fay = page.locator(".found article").nth(1)
        expect(fay).to_contain_text(re.compile(r"Right so far, but too few.*tell more: \d"))
        page.locator("textarea").fill("Fay\t90 − 36\t54?")
        expect(page.locator(".wishes")).to_contain_text("“54?” was read as 54.")
        page.locator("textarea").fill("Fay\t90 − 36\t54")
        expect(page.locator(".wishes")).not_to_contain_text("was read as")
        settled(page)  # the sums that would tell more are her pack
        expect(page.locator(".found article")).to_have_count(1)


def test_pages_about_the_children_are_saved_though_nobody_needs_a_pack(
    browser: Browser, native: str
) -> None:
    right = "\n".join(f"Ada\t{sum_}" for sum_ in ("53 − 27\t26", "61 − 34\t27", "402 − 186\t216"))
    with opened(browser, f"{native}#wrong", width=390) as page:
        page.locator("textarea").fill(right)
        expect(page.locator(".desk .body > .bubble")).to_contain_text("nothing to practise")
        page.get_by_role("radio", name="Pages about the children").check()
        settled(page)
        expect(page.locator(".pages:visible li")).to_have_text("1 What went wrong")
        page.locator("textarea").fill(f"{right}\nBen\t53 − 27\t34")
        expect(page.locator(".pages:visible li")).to_have_text(["1 What went wrong", "2 Ben"])
        settled(page)
        save_button(page).focus()
        name, data = saved_by_key(page)
        assert name == "what-went-wrong.pdf" and data.startswith(b"%PDF")
        expect(page.locator(".now h2")).to_have_text([re.compile("class"), re.compile("home")])
        expect(page.locator(".range")).to_have_text(["1", "2"])


def test_half_a_sum_is_refused_only_when_it_is_left(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        last = page.locator(".sum").last.locator(".box").first
        last.click()
        page.keyboard.type("64")
        expect(page.locator(".desk .bubble")).to_contain_text("No sum yet")
        expect(page.locator(".wishes .bubble.wrong:visible")).to_have_count(0)
        page.get_by_label("Letter").check()
        expect(page.locator(".wishes .bubble.wrong:visible")).to_contain_text("still missing")


def test_keys_within_a_sum(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        page.locator(".sum").last.locator(".box").first.click()
        page.keyboard.type("64-28")
        page.keyboard.press("Enter")
        page.keyboard.type("502 167")
        expect(page.locator(".sum .kind").filter(has_text="across a zero")).to_have_count(1)
        for _ in range(4):
            page.keyboard.press("Backspace")
        assert focused(page).endswith("the larger number")


@pytest.mark.parametrize("typed", [" 64 - 28", "64 -28", "64 − 28", "64– 28"])
def test_a_minus_between_spaces_is_part_of_neither_number(
    browser: Browser, native: str, typed: str
) -> None:
    with opened(browser, f"{native}#tonight") as page:
        boxes = page.locator(".sum .box")
        boxes.first.click()
        for sign in typed:
            page.keyboard.insert_text(sign) if sign in "−–" else page.keyboard.type(sign)
        expect(boxes.first).to_have_value("64")
        expect(boxes.last).to_have_value("28")


def test_what_comes_next_is_typed_over_the_old_number(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        boxes = page.locator(".sum .box")
        boxes.first.select_text()
        for row, sign in enumerate(("-", "−", " ", "Tab")):
            page.keyboard.type("62")
            if sign == "Tab":
                page.keyboard.press(sign)
            else:
                page.keyboard.insert_text(sign) if sign == "−" else page.keyboard.press(sign)
            page.keyboard.type("38")
            expect(boxes.nth(2 * row)).to_have_value("62")
            expect(boxes.nth(2 * row + 1)).to_have_value("38")
            page.keyboard.press("Tab")


def test_tab_leads_past_the_cross_to_what_turns_a_sum_round(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#weeks") as page:
        page.locator(".sum .box").first.focus()
        page.keyboard.type("28")
        page.keyboard.press("Tab")
        page.keyboard.type("53")
        page.keyboard.press("Tab")
        assert focused(page) == "Remove sum 1"
        expect(page.locator("#status")).to_contain_text("Turn it round: 53 − 28")
        page.keyboard.press("Tab")
        assert focused(page) == "Turn it round: 53 − 28"
        page.keyboard.press("Enter")
        expect(page.locator(".sum .box").first).to_have_value("53")
        expect(page.locator(".sum .box").nth(1)).to_have_value("28")


def test_a_number_clicked_into_is_typed_over(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#tonight") as page:
        first, second = page.locator(".sum .box").first, page.locator(".sum .box").nth(1)
        for box, typed in ((first, "72"), (second, "38")):
            box.click(position={"x": 20, "y": 10})
            page.keyboard.type(typed)
        expect(first).to_have_value("72")
        expect(second).to_have_value("38")


def test_days_later_in_the_year_are_told_where_there_are_some(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#weeks") as page:
        for weeks, later in (("4", True), ("1", False)):
            page.locator(".stepper .box").first.fill(weeks)
            settled(page)
            told = page.locator(".calendar p").first
            said = expect(told).to_contain_text if later else expect(told).not_to_contain_text
            said("Later in the year")


def test_weeks_keep_the_sums_that_open_them_in_their_file(
    browser: Browser, native: str, tmp_path: Path
) -> None:
    with opened(browser, f"{native}#weeks") as page:
        page.get_by_label("Sum 1: the larger number").fill("502")
        page.get_by_label("Sum 1: what is taken out").fill("287")
        settled(page)
        page.locator("details.more > summary").click()
        with page.expect_download() as download:
            page.get_by_role("button", name="Save the wishes").click()
        path = tmp_path / "wishes.toml"
        download.value.save_as(path)
    with opened(browser, f"{native}#kit") as page:
        page.locator("details.more > summary").click()
        page.locator(".more input[type=file]").last.set_input_files(path)
        expect(page.get_by_label("Sum 1: the larger number")).to_have_value("502")
        expect(page).to_have_url(re.compile("#weeks$"))


def test_a_pasted_list_takes_the_place_of_the_ready_made_sums(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#kit") as page:
        rows = page.locator(".sum")
        before = rows.count()

        def paste(text: str) -> None:
            page.get_by_role("button", name="Paste a list").click()
            page.locator("dialog textarea").fill(text)
            page.get_by_role("button", name="Use these sums").click()

        paste("sums for tonight")
        expect(page.locator("dialog")).to_contain_text("No sum stands there.")
        page.keyboard.press("Escape")
        listed = "a) 64 — 28 = ?\n2. 502 − 167\n3.- 71-48,90-36\n- 52 - 27\t41-15"
        paste(f"Homework:\n{listed}\n<b>7</b> - x")
        expect(rows).to_have_count(8)
        for row, sum_ in enumerate(("64-28", "502-167", "71-48", "90-36", "52-27", "41-15")):
            boxes = rows.nth(row).locator(".box").all()
            assert "-".join(box.input_value() for box in boxes) == sum_
        wrong = page.locator(".wishes .bubble.wrong:visible")
        expect(wrong).to_contain_text("<b>7</b> - x")
        assert wrong.locator("b").count() == 0
        page.get_by_role("button", name="Undo").click()
        expect(rows).to_have_count(before)
        rows.first.locator(".box").first.fill("86")
        paste("64 - 28\n502 − 167")
        expect(rows).to_have_count(4)


def test_the_first_sum_of_ones_own_takes_the_place_of_the_examples(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#kit") as page:
        rows, examples = page.locator(".sum"), page.get_by_text("Examples.")
        before = rows.count()
        expect(examples).to_be_visible()
        rows.nth(1).locator(".box").first.select_text()
        page.keyboard.type("64-28")
        assert focused(page).startswith("Sum 1")
        expect(rows).to_have_count(2)
        expect(rows.first.locator(".box").first).to_have_value("64")
        expect(examples).to_be_hidden()
        for _ in range(3):
            page.get_by_role("button", name="Undo").click()
        expect(rows).to_have_count(before)
        expect(examples).to_be_visible()


def test_a_sum_is_typed_where_the_last_one_was_removed(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        gone, boxes = page.locator(".sum .gone:visible"), page.locator(".sum .box")
        for left in range(page.locator(".sum").count() - 1, 0, -1):
            expect(gone).to_have_count(left)
            gone.first.click()
        expect(boxes).to_have_count(2)
        assert focused(page).startswith("Sum 1")
        page.keyboard.type("63-27")
        expect(boxes).to_have_count(4)
        expect(boxes.nth(0)).to_have_value("63")
        expect(boxes.nth(1)).to_have_value("27")
        expect(page.locator(".sum .kind").first).to_have_text("exchange 1 ten")


def test_an_example_keeps_the_number_that_is_not_typed_over(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        boxes = page.locator(".sum .box")
        whole = boxes.nth(2).input_value()
        boxes.nth(3).fill("11")
        expect(page.locator(".sum")).to_have_count(2)
        expect(boxes.nth(0)).to_have_value(whole)
        expect(boxes.nth(1)).to_have_value("11")
        settled(page)


def test_a_first_number_may_grow_past_what_is_taken_out(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        box = page.locator(".sum .box").first
        box.select_text()
        page.keyboard.type("6")
        expect(page.locator(".desk .bubble")).to_contain_text("No sum yet")
        expect(page.locator(".bubble.wrong:visible")).to_have_count(0)
        page.keyboard.type("2")
        settled(page)
        expect(page.locator(".desk .bubble")).to_be_hidden()
        box.fill("6")
        page.keyboard.press("Tab")
        page.get_by_label("Letter").check()
        expect(page.locator(".wishes .bubble.wrong:visible")).to_contain_text("more than there is")


def test_save_pressed_beside_half_a_sum_leads_to_what_is_missing(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        last = page.locator(".sum").last.locator(".box")
        last.nth(1).fill("99")
        expect(page.locator(".sum")).to_have_count(2)
        expect(page.locator(".desk .bubble")).to_contain_text("No sum yet")
        expect(save_button(page)).to_have_attribute("aria-disabled", "true")
        save_button(page).click(force=True)
        expect(page.locator(".sum .box").first).to_be_focused()
        expect(page.locator(".wishes .bubble.wrong:visible")).to_contain_text("still missing")
        expect(page.locator(".desk .bubble")).to_contain_text("from before")


def test_a_paper_without_its_measure_is_mended_at_a_click(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        page.locator("details.more summary").click()
        box = page.get_by_label("Other paper")
        box.fill("200x250")
        page.get_by_role("button", name="Take 200x250mm").click()
        expect(box).to_have_value("200x250mm")
        settled(page)
        unit = page.get_by_label("Width of a one")
        unit.fill("60")
        page.get_by_role("button", name="Make it 11\u00a0mm").click()
        expect(unit).to_have_value("11")
        unit.fill("-1")
        said = page.locator(".wishes .bubble.wrong:visible").first
        expect(said).to_have_text(re.compile("Width of a one: from 5 to 19, please; it was −1."))


def test_another_paper_is_seen_in_every_job_and_where_it_is_loaded(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#lost") as page:
        other = page.locator(".pick").nth(2)
        expect(other).to_be_hidden()
        page.locator("details.more summary").click()
        page.get_by_label("Other paper").fill("a3")
        expect(other).to_contain_text("A3")
        show(page, "tonight")
        expect(other.locator("input")).to_be_checked()
        expect(page.locator(".stack h3:visible").first).to_have_text(re.compile(", A3$"))
        saved(page)
        expect(page.locator(".now .care").first).to_contain_text("The pages are A3")
        expect(page.locator(".pile h3").first).to_have_text(re.compile(", A3$"))
        show(page, "measure")
        expect(other.locator("input")).to_be_checked()
        page.get_by_label("A4").check()
        expect(other).to_be_hidden()


def test_what_is_no_number_is_not_called_missing(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#tonight") as page:
        boxes = page.locator(".sum .box")
        boxes.nth(0).fill("−5")
        boxes.nth(1).fill("3")
        expect(page.locator(".wishes .bubble.wrong:visible")).to_contain_text("“−5 − 3” is not")


def test_another_screen_is_silent_about_the_last(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#tonight") as page:
        settled(page)
        expect(page.locator("#status")).not_to_be_empty()
        show(page, "home")
        expect(page.locator("#status")).to_be_empty()


def test_a_refused_row_asks_for_no_more_answers(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#wrong") as page:
        page.locator("textarea").fill("Ada\tx\t1")
        expect(page.locator(".wishes .bubble.wrong:visible")).to_have_count(1)
        expect(page.get_by_text("Paste or type answers")).to_be_hidden()


def test_a_long_table_pasted_leaves_the_page_awake(browser: Browser, native: str) -> None:
    table = "\n".join(f"P{n}\t{53 + n % 40} − 27" for n in range(2000))
    with opened(browser, f"{native}#packs") as page:
        area = page.locator("textarea")
        area.evaluate("(area, text) => { area.value = text; area.focus(); area.select(); }", table)
        page.keyboard.press("Control+x")
        page.evaluate(
            """() => { window.longest = 0; let last = performance.now(); setInterval(() => {
              const now = performance.now(); longest = Math.max(longest, now - last); last = now;
            }, 20); }"""
        )
        page.keyboard.press("Control+v")
        expect(page.get_by_role("button", name="Stop")).to_be_visible()
        page.get_by_role("button", name="Stop").click()
        area.press("Control+End")
        page.keyboard.press("Enter")
        page.keyboard.press("Control+v")  # between other lines
        expect(page.get_by_role("button", name="Stop")).to_be_visible()
        assert page.evaluate("longest") < 2000
        assert area.input_value() == f"{table}\n{table}"
        page.get_by_role("button", name="Stop").click()


def test_while_many_answers_are_read_the_bar_says_so_and_every_child_comes(
    browser: Browser, native: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    said, ask = threading.Event(), Engine.ask

    def slow(engine: Engine, wishes: dict[str, Any]) -> dict[str, Any]:
        said.wait(60)
        return ask(engine, wishes)

    monkeypatch.setattr(Engine, "ask", slow)
    with opened(browser, f"{native}#wrong") as page:
        page.locator("textarea").fill("\n".join(f"Child {n}\t53 − 27\t34" for n in range(25)))
        expect(page.locator(".working")).to_contain_text("Reading the answers")
        assert page.locator("progress").get_attribute("value") is None
        said.set()
        expect(page.locator(".found article")).to_have_count(25)
        page.locator("textarea").fill("Ada\t53 − 27\t34")
        expect(page.locator(".found article")).to_have_count(1)


def test_every_child_is_shown_once(browser: Browser, native: str) -> None:
    """Pasted, the answers are told before the pages and with them."""
    rows = [f"Child {n}\t{sum_}" for n in range(29) for sum_ in ("53 − 27\t34", "71 − 48\t37")]
    with opened(browser, f"{native}#wrong") as page:
        page.locator("textarea").fill("\n".join(rows))
        settled(page)
        expect(page.locator(".found article")).to_have_count(29)


def test_what_is_not_read_to_its_end_does_not_stay_said_to_be_read(
    browser: Browser, native: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(engine: Engine, wishes: dict[str, Any]) -> dict[str, Any]:
        raise KeyError

    monkeypatch.setattr(Engine, "ask", broken)
    with opened(browser, f"{native}#wrong") as page:
        page.locator("textarea").fill("Ada\t53 − 27\t34")
        expect(page.locator(".desk")).to_contain_text("could not be made")
        expect(page.locator(".desk")).not_to_contain_text("Reading the answers")


def test_only_what_was_tried_is_called_right(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#wrong") as page:
        numbers = page.locator(".step .number:visible")
        expect(numbers).to_have_text(["1", "2", "3", "4"])
        right = "Ada\t53 − 27\t26\nAda\t42 − 17\t25\nAda\t90 − 36\t54\nAda\t71 − 48\t23"
        page.locator("textarea").fill(f"{right}\nAda\t61 − 38\nBen\t53 − 27\tabsent")
        cards = page.locator(".found article")
        expect(cards.nth(0)).to_contain_text("All that was tried is right: nothing")
        expect(cards.nth(0)).to_contain_text("Not tried yet: 61\u00a0−\u00a038.")
        expect(cards.nth(1)).to_contain_text("Nothing answered yet")
        assert cards.nth(1).locator(".right").count() == 0


@pytest.mark.parametrize("job", ["packs", "wrong"])
def test_rows_that_are_refused_are_told_beside_the_table(
    browser: Browser, native: str, job: str
) -> None:
    with opened(browser, f"{native}#{job}") as page:
        area = page.locator("textarea")
        area.fill("Ada\t53 − 27\t34\n\t53 − 27\t34" if job == "wrong" else "Ada\t53 − 27\n53 − 27")
        said = page.locator(".wishes .bubble.wrong:visible")
        expect(said).to_have_text(re.compile("^Row 2, .*: there is no name before the sum"))
        described = (area.get_attribute("aria-describedby") or "").split()
        assert described[0] == said.locator("div div").get_attribute("id")
        expect(page.locator(f"#{described[1]}")).to_contain_text("columns")  # how to fill it in
        if job == "wrong":
            area.fill("Name\tQ1\tQ2\tQ3\nAda\t34\t23\t5\nBen\t34\t23\t5")
            once = r"^The first row must hold the sums .*of “Q1”, “Q2” and “Q3”, or leave[^.]*\.$"
            expect(said).to_have_text(re.compile(once))
        first = "Ada\t53 − 27\t34" if job == "wrong" else "Ada\t53 − 27"  # else it may be a title
        area.fill("\n".join([first, *(f"Ada\t9x{n}" for n in range(5))]))
        expect(said).to_have_text(re.compile(r"Row 4.*And 2 more, in rows 5 and 6\.$"))
        area.fill("Ada\t27 − 53")
        expect(said).to_contain_text("Row 1, “Ada, 27 − 53”: that takes out more")
        page.get_by_role("button", name="Turn it round").click()
        expect(area).to_have_value("Ada\t53 − 27")
        expect(said).to_have_count(0)
        if job == "packs":
            area.fill("Ada\t27\t53")
            page.get_by_role("button", name="Turn it round").click()
            expect(area).to_have_value("Ada\t53\t27")


def test_a_refused_sum_among_several_is_told_with_those_whose_it_is(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#packs") as page:
        area, said = page.locator("textarea"), page.locator(".wishes .bubble.wrong:visible")
        area.fill("Names\n\tAda\tBen\tCy\tDan\n1\t53 − 27\t18-53\t18-53\t5-9\n")
        expect(said).to_contain_text("Row 3, “Ben, Cy, 18−53”: that takes out more")
        expect(said).to_contain_text("Row 3, “Dan, 5−9”: that takes out more")
        expect(said.locator("p")).to_have_count(2)
        area.fill("Ada\t53 − 27\t12.4 - 3.8\t604 − 167")
        expect(said).to_contain_text("Row 1, “Ada, 12.4 − 3.8”: 12.4 − 3.8 passes 9.99")
        expect(said).to_contain_text("“Writing”, under “More”")


def test_the_row_that_is_wrong_is_brought_into_sight(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#wrong") as page:
        area = page.locator("textarea")
        rows = [f"Child {n}\t53 − 27\t34" for n in range(200)]
        rows[99] = "Child 99\t53 − 27\t3 4"
        area.fill("\n".join(rows))
        expect(page.locator(".wishes .bubble.wrong:visible")).to_contain_text("Row 100")
        area.press("Control+a")
        page.keyboard.press("Control+x")
        page.keyboard.press("Control+v")
        expect(page.locator(".wishes .bubble.wrong:visible")).to_contain_text("Row 100")
        far = area.evaluate("node => node.scrollTop / node.scrollHeight")
        assert 0.46 < far < 0.5  # row 100 of 200, with a few before it
        save_button(page).press("Enter")
        assert page.evaluate("getSelection().toString()") == rows[99]


CLASS = "\t53 − 27\t61 − 38\nAda\t34\t\nMax\t26\t23\nBen\t26\t37"


def test_what_was_read_stands_below_and_a_row_is_taken_out_and_put_back(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#wrong") as page:
        area, read = page.locator("textarea"), page.locator(".read")
        area.fill(CLASS)
        expect(read.locator("tr")).to_have_text(["53−2761−38", "Ada34–×", "Max2623×", "Ben2637×"])
        tab_to(page, "Take Max out")
        page.keyboard.press("Enter")
        expect(read.locator("tr")).to_have_text(["53−2761−38", "Ada34–×", "Ben2637×"])
        expect(page.locator(".found h3")).to_have_text(["Ada", "Ben"])
        back = page.get_by_role("button", name="Put Max back")
        expect(back).to_be_focused()
        back.press("Enter")
        expect(page.get_by_role("button", name="Take Max out")).to_be_focused()
        page.get_by_role("button", name="Take Max out").press("Enter")
        page.get_by_role("button", name="Undo").click()
        expect(read.locator("tr")).to_have_count(4)
        page.get_by_role("button", name="Take Max out").click()
        expect(read.locator("tr")).to_have_count(3)
        area.press("Control+a")
        page.keyboard.press("Control+x")
        page.keyboard.press("Control+v")  # another table: nobody is out of it
        expect(read.locator("tr")).to_have_count(4)
        page.get_by_role("button", name="Take Max out").click()
        expect(read.locator("tr")).to_have_count(3)
        area.fill(f"{CLASS}\nCy\t26\t23")
        expect(read.locator("tr")).to_have_count(4)
        area.fill("\t80 − 36\nMax\t44\nCy\t54")
        expect(read.locator("tr")).to_have_text(["80−36", "Max44×", "Cy54×"])


def test_thousands_pasted_with_a_space_stay_in_their_field(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        boxes = page.locator(".sum .box")
        boxes.nth(0).fill("4 002")
        expect(boxes.nth(0)).to_have_value("4 002")
        boxes.nth(1).fill("1 768")
        expect(page.locator(".sum .kind").first).to_have_text("across a zero")


def test_a_row_without_which_a_table_can_be_read_is_named(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#packs") as page:
        area, bubble = page.locator("textarea"), page.locator(".wishes .bubble.wrong:visible")
        area.fill("Week 3\tA1\tB1\nAda\t53 - 27\t61 - 34\nBen\t81 - 46\t72 - 38")
        expect(bubble).to_contain_text("The table can be read without row 1, “Week 3, A1")
        page.get_by_role("button", name="Leave row 1 out").click()
        expect(page.locator(".read tr")).to_have_count(2)
        settled(page)
        area.fill("Oak House\tWeek 3\nMaths\tMon 11 Jan\nAda\t53 - 27\nBen\t81 - 46")
        page.get_by_role("button", name="Leave rows 1, 2 out").click()
        expect(page.locator(".read tr")).to_have_count(2)


FORM = (
    "Kid\tStarted\tHouse\t52-37\t61-28\n"
    'Ada\tat 9:02\t"Oak, or ""Elm"""\t15\t47\nBen\tat 9:05\tOak\t25\t33'
)


def test_rows_and_columns_of_a_table_that_cannot_be_read_are_taken_out(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#wrong", width=390) as page:
        area, read = page.locator("textarea"), page.locator(".read")
        area.fill(FORM)
        expect(page.locator(".wishes .bubble.wrong:visible")).to_contain_text("one of those below")
        expect(page.locator(".shapes table:visible")).to_have_count(3)
        cells = page.locator(".cells tbody tr")
        expect(cells).to_have_count(3)
        tab_to(page, "Leave column 2 out")
        page.keyboard.press("Enter")
        expect(cells.nth(1).locator("td").nth(1)).to_have_text('Oak, or "Elm"')
        expect(page.get_by_role("button", name="Leave column 2 out")).to_be_focused()
        page.keyboard.press("Enter")
        expect(area).to_be_focused()  # it can be read, and there is nothing more to take out
        expect(page.locator(".cells")).to_be_hidden()
        expect(read.locator("tr")).to_have_text(["52−3761−28", "Ada1547×", "Ben2533×"])
        page.get_by_role("button", name="Undo").click()
        expect(cells).to_have_count(3)
        page.get_by_role("button", name="Leave row 3 out").click()
        expect(cells).to_have_count(2)
        area.fill("Ada; 53 − 27; 26\nBen; 53 −; 26")
        expect(page.locator(".shapes")).to_be_hidden()  # one row alone is wrong
        expect(cells.nth(1)).to_have_class("wrong")
        page.get_by_role("button", name="Leave row 2 out").click()
        expect(page.locator(".found h3")).to_have_text(["Ada"])


def test_what_goes_wrong_on_the_screen_does_not_end_it(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#packs") as page:
        page.evaluate(
            """() => {
              const { replaceChildren } = Element.prototype;
              Element.prototype.replaceChildren = function (...nodes) {
                if (nodes.some((one) => one.textContent?.includes("Zed"))) throw new Error("Zed");
                return replaceChildren.call(this, ...nodes);
              };
            }"""
        )
        page.locator("textarea").fill("Zed\t53 − 27")
        expect(page.locator(".desk .bubble")).to_contain_text("That could not be made.")
        page.locator("textarea").fill("Ada\t53 − 27")
        settled(page)
        expect(page.locator(".read")).to_contain_text("Ada")


def test_sums_that_differ_from_child_to_child_stand_beside_the_name(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#packs", width=390) as page:
        page.locator("textarea").fill("Ada\t53 − 27\t80 − 36\nZed\nBen\t61 − 38")
        page.get_by_role("button", name="Leave row 2 out").click()
        rows = page.locator(".read tr")
        expect(rows).to_have_text(["Ada53 − 27 80 − 36 ×", "Ben61 − 38 ×"])
        page.get_by_role("button", name="Take Ben out").click()
        expect(rows).to_have_text(["Ada53 − 27 80 − 36"])  # the last one stays


def break_at_zed(monkeypatch: pytest.MonkeyPatch, field: str) -> None:
    """Let the engine break at a table in ``field`` that holds Zed."""
    ask = Engine.ask

    def breaking(engine: Engine, wishes: dict[str, Any]) -> dict[str, Any]:
        if "Zed" in wishes.get(field, ""):
            raise ZeroDivisionError
        return ask(engine, wishes)

    monkeypatch.setattr(Engine, "ask", breaking)


def test_what_breaks_once_does_not_break_the_page(
    browser: Browser, native: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    break_at_zed(monkeypatch, "pupils")
    with opened(browser, f"{native}#packs") as page:
        page.locator("textarea").fill("Zed\t53 − 27")
        expect(page.locator(".desk .bubble")).to_contain_text("That could not be made.")
        page.get_by_role("button", name="Make the pages").click()
        expect(page.locator(".desk .bubble")).to_contain_text("That could not be made.")
        page.locator("textarea").fill("Ada\t53 − 27")
        settled(page)


def test_where_a_table_breaks_the_page_nothing_of_the_last_one_stays(
    browser: Browser, native: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    break_at_zed(monkeypatch, "answers")
    draw = Engine.draw

    def slowly(engine: Engine, job: int, progress: Progress, stop: Stop) -> Answer:
        sleep(0.6)  # the next table is typed meanwhile
        return draw(engine, job, progress, stop)

    monkeypatch.setattr(Engine, "draw", slowly)
    with opened(browser, f"{native}#wrong") as page:
        page.locator("textarea").fill("Ada 53-27=34")
        expect(page.locator(".desk")).to_contain_text("Ada")
        page.locator("textarea").fill("Zed 53-27=34")
        expect(page.locator(".desk .bubble").last).to_contain_text("That could not be made.")
        expect(page.locator(".desk")).not_to_contain_text("Ada")


def test_pages_drawn_for_what_is_wished_no_more_are_not_shown(
    browser: Browser, native: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    draw = Engine.draw

    def slowly(engine: Engine, job: int, progress: Progress, stop: Stop) -> Answer:
        sleep(0.8)  # the child is put back meanwhile
        return draw(engine, job, progress, stop)

    with opened(browser, f"{native}#wrong") as page:
        page.locator("textarea").fill(CLASS)
        settled(page)
        rows = page.locator(".read tr")
        monkeypatch.setattr(Engine, "draw", slowly)
        page.get_by_role("button", name="Take Max out").click()
        expect(rows).to_have_count(3)
        page.get_by_role("button", name="Put Max back").click()
        expect(rows).to_have_count(4)
        page.wait_for_timeout(1000)  # the pages without the child are drawn
        expect(rows).to_have_count(4)
        settled(page)


def test_undo_back_and_language_keep_what_was_wished(browser: Browser, native: str) -> None:
    with opened(browser, native) as page:
        page.locator('a[href="#kit"].job').click()
        box = page.locator(".sum .box").first
        before = box.input_value()
        box.fill("86")
        page.get_by_role("heading", name="Your paper").click()
        page.keyboard.press("Control+z")
        expect(box).to_have_value(before)
        box.fill("97")
        page.locator(".sum .box").nth(1).fill("58")
        page.get_by_role("button", name="Español").click()
        expect(page.locator("h1")).to_have_text("Un kit para mi hijo o hija")
        expect(page.locator(".sum .box").first).to_have_value("97")
        page.get_by_role("button", name="English").click()
        settled(page)
        saved(page)
        expect(page.locator("h1")).to_have_text("What to do now")
        page.go_back()
        expect(page.locator(".sum .box").first).to_have_value("97")
        page.go_back()
        expect(page.locator("h1")).to_have_text("Subtraction with pieces")
        page.go_forward()
        expect(page.locator(".sum .box").first).to_have_value("97")


def test_a_button_is_never_changed_while_it_is_pressed(browser: Browser, native: str) -> None:
    """Leaving a field says what is wrong there; the click that left it must still arrive."""
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        page.locator(".sum").last.locator(".box").first.click()
        page.keyboard.type("64")
        expect(save_button(page)).to_have_attribute("aria-disabled", "true")  # half a sum
        letter = page.locator(".pick").filter(has_text="Letter")
        letter.scroll_into_view_if_needed()
        place = letter.bounding_box()
        assert place
        page.mouse.move(place["x"] + 30, place["y"] + 20)
        page.mouse.down()
        page.wait_for_timeout(900)
        expect(page.locator(".wishes .bubble.wrong:visible")).to_have_count(0)
        page.mouse.up()
        expect(page.get_by_label("Letter")).to_be_checked()
        expect(page.locator(".wishes .bubble.wrong:visible").first).to_be_visible()


def test_a_table_is_read_from_a_file_and_names_stay_in_it(
    browser: Browser, native: str, tmp_path: Path
) -> None:
    table = tmp_path / "class.csv"
    table.write_bytes("name;sum\nZoë;53 - 27\n<img src=x>;71 - 48\n".encode("cp1252"))
    with opened(browser, f"{native}#packs") as page:
        page.locator('input[type="file"]').first.set_input_files(table)
        settled(page)
        expect(page.get_by_text("2 cards")).to_be_visible()
        expect(page.locator("textarea")).to_have_value(re.compile("Zoë"))
        assert "Zoë" not in page.title() + page.url
        assert page.locator('img[src="x"]').count() == 0
        assert page.evaluate("Object.keys(localStorage).length + document.cookie.length") == 0


def test_wishes_are_saved_and_opened_again(browser: Browser, native: str, tmp_path: Path) -> None:
    with opened(browser, f"{native}#class") as page:
        page.get_by_label("Children", exact=True).fill("29")
        page.get_by_label("Pages for home in each bag").check()
        page.get_by_label("Weeks", exact=True).fill("2")
        page.locator("details.more > summary").click()
        page.get_by_label("Large and bold").check()
        settled(page)
        expect(page.locator("details.more > summary")).to_have_text("More (1 changed)")
        with page.expect_download() as download:
            page.get_by_role("button", name="Save the wishes").click()
        path = tmp_path / "wishes.toml"
        download.value.save_as(path)
        assert "children = 29" in path.read_text()
    with opened(browser, f"{native}#kit") as page:
        page.locator("details.more > summary").click()
        page.locator('.more input[type="file"]').last.set_input_files(path)
        expect(page.locator("h1")).to_have_text("A class set")
        expect(page.get_by_label("Children", exact=True)).to_have_value("29")
        expect(page.get_by_label("Weeks", exact=True)).to_have_value("2")
        expect(page.locator(".sum .box").first).to_have_value("43")
        page.locator("details.more > summary").click()
        expect(page.get_by_label("Large and bold")).to_be_checked()


def test_the_look_holds_for_all_jobs(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#tonight") as page:
        page.locator("details.more > summary").click()
        page.get_by_label("Large and bold").check()
        show(page, "lost")
        expect(page.locator("details.more > summary")).to_have_text("More")
        settled(page)
        show(page, "packs")
        expect(page.locator("details.more > summary")).to_have_text("More (1 changed)")
        page.locator("details.more > summary").click()
        expect(page.get_by_label("Large and bold")).to_be_checked()


def test_what_probably_happened_is_read_out(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#wrong") as page:
        page.locator("textarea").fill("Ada\t53 − 27\t34")
        expect(page.locator("#status")).to_contain_text(
            "Ada: Perhaps smaller from larger. 2 sheets"
        )
        page.locator("textarea").fill("Ada\t53 − 27\t26")
        expect(page.locator("#status")).to_contain_text("Ada: Right so far")


def test_wishes_that_cannot_be_saved_or_opened_leave_every_mark(
    browser: Browser, native: str, tmp_path: Path
) -> None:
    path = tmp_path / "wishes.toml"
    path.write_text("sums = ['17-43']\n")
    with opened(browser, f"{native}#weeks") as page:
        page.get_by_label("Sum 1: the larger number").fill("48")
        page.get_by_label("Sum 1: what is taken out").fill("15")
        wrong = page.locator(".wishes .bubble.wrong:visible")
        expect(wrong).to_have_count(1)
        page.locator("details.more > summary").click()
        page.get_by_role("button", name="Save the wishes").click()
        expect(wrong).to_have_text([re.compile("exchange"), re.compile("First put right")])
        expect(page.get_by_label("Sum 1: the larger number")).to_be_focused()
        page.locator(".more input[type=file]").last.set_input_files(path)
        expect(wrong).to_have_text([re.compile("exchange"), re.compile("17-43.* takes out more")])


@pytest.mark.parametrize("job", ["kit", "wrong"])
def test_what_was_typed_and_not_saved_is_not_left_unasked(
    browser: Browser, native: str, job: str
) -> None:
    asked: list[str] = []

    def leave(dialog: Dialog) -> None:
        asked.append(dialog.type)
        dialog.accept()

    def typed(page: Page) -> None:
        if job == "kit":
            page.locator(".sum .box").first.fill("64")
        else:
            page.locator("textarea").fill(TABLES[job])

    with opened(browser, native) as page:
        page.on("dialog", leave)
        page.goto(f"{native}#{job}")
        page.locator("h2").first.click()  # browsers ask nobody who touched nothing
        page.reload()
        assert asked == []
        typed(page)
        page.reload()
        assert asked == ["beforeunload"]
        typed(page)
        saved(page)
        page.reload()
        assert asked == ["beforeunload"]
        page.remove_listener("dialog", leave)


def test_a_page_is_enlarged_and_turned_by_keys(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        first = page.locator(".pages button").first
        first.focus()
        page.keyboard.press("Enter")
        title = page.locator("dialog h2")
        expect(title).to_have_text(re.compile("^2 "))
        page.keyboard.press("ArrowRight")
        expect(title).to_have_text(re.compile("^3 "))
        page.keyboard.press("Escape")
        expect(first).to_be_focused()


def test_what_a_printer_measures_is_used(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        show(page, "measure")
        settled(page)
        page.get_by_label("Bar across").fill("147.3")
        page.get_by_label("Bar down").fill("147.2")
        expect(page.get_by_text("1.8 % too small")).to_be_visible()
        page.get_by_role("button", name="Use them in this tab").click()
        expect(page.get_by_text("drawn for the printer “printer”")).to_be_visible()
        page.get_by_role("link", name="Back to “A kit for my child”").click()
        expect(page.locator("details.more > summary")).to_have_text("More (1 changed)")
        settled(page)
        with page.expect_request(lambda made: '"ask"' in (made.post_data or "")) as asked:
            show(page, "home")
        assert "measured_mm" in (asked.value.post_data or "")  # the ready-made kit too
        expect(page.get_by_text("drawn for the printer “printer”")).to_be_visible()
        settled(page)


def test_a_wrong_measure_stands_at_its_box_and_the_sheet_can_be_saved(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#measure") as page:
        page.get_by_label("Bar across").fill("90")
        page.get_by_label("Bar down").fill("147")
        said = page.locator(".bubble.wrong:visible")
        expect(said).to_have_count(1)
        expect(said).to_contain_text("Bar across was 90")
        settled(page)
        save_button(page).focus()
        saved_by_key(page)
        page.get_by_role("link", name="Type what you measure").click()
        expect(page.get_by_label("Bar across")).to_be_focused()


def test_a_class_chooses_what_goes_home_and_what_is_printed(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#class") as page:
        settled(page)
        home = page.get_by_label("Pages for home in each bag")
        home.check()
        answers = page.locator(".pages li").filter(has_text="Answers")
        expect(answers.first).to_contain_text("30 copies")
        page.locator("details.more > summary").click()
        ticked = page.locator('[data-field="only"] input:checked')
        expect(ticked).to_have_count(5)  # what a class set holds, not what a kit does
        page.get_by_label("Large pieces for the class").check()
        expect(page.locator(".pages .caption").filter(has_text="Large pieces")).not_to_have_count(0)
        page.get_by_label("Large pieces for the class").uncheck()
        weeks = page.get_by_label("Weeks", exact=True)
        expect(weeks).to_have_value("0")
        expect(page.get_by_label("Days a week", exact=True)).to_be_hidden()
        weeks.fill("2")
        page.get_by_label("Days a week", exact=True).fill("3")
        expect(page.locator(".calendar")).to_contain_text("6 days")
        first_day = page.locator('input[type="date"]')
        expect(first_day).to_be_hidden()  # a shared bag goes home on other days
        share = page.get_by_label("Children sharing one kit", exact=True)
        share.fill("1")
        expect(first_day).to_be_visible()
        share.fill("2")
        expect(page.locator(".pages .caption").filter(has_text="Week 2")).not_to_have_count(0)
        page.get_by_label("Choose for me").check()
        expect(page.locator(".chips li")).to_have_count(6)  # not all that the weeks ask
        page.get_by_label("No exchange").check()
        refused = page.locator(".rows-part .bubble.wrong:visible")
        expect(refused).to_contain_text("The weeks practise exchanging.")
        expect(page.locator(".chips li").first).to_be_visible()
        page.get_by_label("I have sums").check()
        home.uncheck()
        expect(weeks).to_be_hidden()
        expect(page.locator(".pages .caption").filter(has_text="Week 2")).to_have_count(0)
        expect(page.locator("details.more > summary")).to_have_text("More")


def test_a_sum_that_does_not_go_with_decimals_is_marked(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        boxes = page.locator(".sum .box")
        for place, typed in enumerate(("3.4", "1.6", "53", "27")):
            boxes.nth(place).fill(typed)
        page.locator("h1").click()
        said = page.locator(".rows .bubble.wrong:visible")
        expect(said).to_contain_text("53 − 27 does not go with decimals")
        expect(boxes.nth(2)).to_have_attribute("aria-invalid", "true")
        boxes.nth(2).fill("5")
        boxes.nth(3).fill("2.7")
        settled(page)
        expect(page.locator(".sum .kind").first).to_have_text("exchange 1 one")
        for place, typed in ((4, "5,0"), (5, "2.7"), (6, "5"), (7, "2,7")):
            boxes.nth(place).fill(typed)
        kinds = page.locator(".sum .kind")
        expect(kinds.nth(3)).to_have_text("already above")
        expect(kinds.nth(1)).not_to_have_text("already above")


def test_of_a_sum_too_large_for_pieces_that_is_said_which_helps_here(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#tonight", locale="es-MX") as page:
        page.locator(".sum .box").first.fill("12,4")
        page.locator(".sum .box").nth(1).fill("3,8")
        page.locator("h1").click()
        said = page.locator(".wishes .bubble.wrong:visible")
        expect(said).to_contain_text("Los mayores valen en «Sobres con nombre», si ahí")
        show(page, "packs")
        page.locator("textarea").fill("Ada\t12,4 − 3,8")
        expect(said).to_contain_text("o, en «Más», que las tarjetas pidan")
        page.locator("details.more > summary").click()
        page.get_by_label("Las tarjetas piden").select_option("Por escrito")
        settled(page)
        expect(said).to_have_count(0)


UNSEEN = """() => {
  const ground = getComputedStyle(document.body).backgroundColor;
  return [...document.querySelectorAll("svg path, svg circle")].filter((node) => {
    const { fill, stroke } = getComputedStyle(node);
    const light = ["fill", "stroke"].some((name) => /^#f/.test(node.getAttribute(name) || ""));
    return !light &&
      [fill, stroke].every((colour) => colour === "none" || colour === ground);
  }).map((node) => node.outerHTML);
}"""
"""Finds what is drawn in the colour of the screen, but for faces and paper, which are filled so."""


def test_forced_colours_and_still_pictures(browser: Browser, native: str) -> None:
    context = browser.new_context(forced_colors="active", reduced_motion="reduce")
    page = context.new_page()
    page.goto(f"{native}#kit")
    settled(page)
    border = page.locator(".desk .save").evaluate("node => getComputedStyle(node).borderTopWidth")
    assert border == "2px"
    moving = page.locator(".pick").first.evaluate(
        "node => getComputedStyle(node).transitionDuration"
    )
    assert moving == "0s"
    shown, other = page.locator(".tongues button").all()
    assert line(shown) != line(other)
    assert (
        page.locator("details.more > summary").evaluate(
            "node => getComputedStyle(node, '::before').borderTopColor"
        )
        == "rgba(0, 0, 0, 0)"
    )  # a triangle, not a square
    for view in ("kit", "wrong", "home"):
        show(page, view)
        if view == "wrong":
            page.locator("textarea").fill("Ada\tx\t34")
            expect(page.locator(".wishes .bubble.wrong:visible")).to_have_count(1)
            assert line(page.locator(".desk .save")) != line(page.locator(".drop .button"))
            page.locator("textarea").fill("Ada\t53 − 27\t34")
            page.locator(".moment").wait_for()
        settled(page)
        grounds = page.evaluate(
            "() => [...document.images].map(node => getComputedStyle(node).backgroundColor)"
        )
        assert set(grounds) == {"rgb(255, 255, 255)"}  # pages are black on white
    unseen = page.evaluate(UNSEEN)
    assert unseen == []
    context.close()


def line(node: Locator) -> str:
    """Return the colour of the line under ``node``."""
    return str(node.evaluate("node => getComputedStyle(node).borderBottomColor"))


@pytest.mark.parametrize(
    ("job", "how", "first"),
    [
        ("kit", "Page 1 has a frame", "Print page 1 alone"),
        ("class", "Page 2 has a frame", "Print pages 1\u2060–\u20602 first"),
        ("tonight", "Print page 1 first. Then lay a ruler along the bar", "Print page 1 alone"),
    ],
)
def test_the_size_is_checked_on_the_page_that_shows_it(
    browser: Browser, native: str, job: str, how: str, first: str
) -> None:
    with opened(browser, f"{native}#{job}") as page:
        settled(page)
        page.get_by_role("button", name="Check the size with a bank card").click()
        expect(page.locator("dialog")).to_contain_text(how)
        page.keyboard.press("Escape")
        saved(page)
        step = page.locator(".now .step").first
        expect(step).to_contain_text(first)
        expect(step).to_contain_text("ruler" if job == "tonight" else "bank card")


@pytest.mark.parametrize(("width", "side"), [(1280, 85.6), (390, 53.98)])
def test_pieces_on_the_screen_are_true_where_the_frame_fits_a_bank_card(
    browser: Browser, native: str, width: int, side: float
) -> None:
    with opened(browser, f"{native}#kit", width=width) as page:
        page.get_by_role("button", name="Check the size with a bank card").click()
        slider = page.locator('dialog input[type="range"]')
        slider.focus()
        page.keyboard.press("End")
        frame = page.locator("dialog .frame").evaluate("node => node.getBoundingClientRect().width")
        assert frame > 5.8 * side or width > 390  # a phone's 5.8 px a mm
        drawn = page.locator("dialog .true svg").evaluate(
            "node => node.getBoundingClientRect().width"
        )
        assert drawn / 101 == pytest.approx(frame / side, rel=0.01)


def test_packs_lead_to_the_pieces_they_need(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#packs") as page:
        page.locator("textarea").fill("Ada\t4004 − 1167")
        settled(page)
        page.get_by_role("button", name="Print pieces and a mat").click()
        expect(page.locator("h1")).to_have_text("A kit for my child")
        expect(page.locator("details.more > summary")).to_have_text("More (1 changed)")
        expect(page.get_by_text("Only pieces and a mat")).to_be_visible()
        settled(page)
        captions = page.locator(".pages .caption")
        expect(captions.filter(has_text="Mat").first).to_be_visible()
        expect(captions.filter(has_text="Lesson")).to_have_count(0)
        expect(captions.filter(has_text="Thousand").first).to_be_visible()
        page.get_by_role("button", name="Undo").click()
        expect(page.locator("h1")).to_have_text("Packs for named pupils")


def test_pieces_for_packs_are_a_set_for_each_child_and_change_no_other_wish(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#packs") as page:
        page.locator("textarea").fill("Ada\t53 − 27\nBen\t71 − 48")
        settled(page)
        page.get_by_role("button", name="Print pieces and a mat").click()
        expect(page.locator("h1")).to_have_text("A class set")
        expect(page.get_by_label("Children", exact=True)).to_have_value("2")
        settled(page)
        page.get_by_role("link", name="All jobs").click()
        page.get_by_role("link", name="A class set").click()
        expect(page.get_by_label("Children", exact=True)).to_have_value("30")
        expect(page.get_by_text("Only pieces and a mat")).to_be_hidden()


def test_save_is_off_while_the_file_is_made(
    browser: Browser, native: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, file = threading.Event(), Engine.file

    def slow(engine: Engine, job: int, progress: Progress, stop: Stop) -> Answer:
        made.wait(0.8)  # until the desk says how far it is
        progress(41, 44)
        made.wait(60)
        return file(engine, job, progress, stop)

    monkeypatch.setattr(Engine, "file", slow)
    with opened(browser, f"{native}#weeks", width=360) as page:
        page.get_by_role("button", name="Weeks: one more").click()
        expect(page.locator(".working")).to_contain_text("page 41 of 44")
        expect(page.get_by_role("button", name="Stop")).to_be_visible()
        expect(save_button(page)).to_have_attribute("aria-disabled", "true")
        expect(page.locator(".bar .short")).to_contain_text("page 41 of 44")
        made.set()
        expect(page.locator(".working")).to_be_hidden()
        settled(page)
        with page.expect_download():
            save_button(page).click()


def test_whose_each_pupils_file_is_is_said_beside_the_wish(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#packs") as page:
        expect(page.get_by_text("in the order of your table: pupil-\u20600001.pdf")).to_be_visible()
        page.locator("textarea").fill(TABLES["packs"])
        page.get_by_label("Also one PDF for each pupil").check()
        settled(page)
        saved(page)
        expect(page.locator(".now")).to_contain_text("The steps below are for packs.pdf.")


def test_a_missing_corner_leads_to_the_margins(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        saved(page)
        page.get_by_role("button", name="It does not fit").click()
        page.get_by_role("button", name="Margins").click()
        expect(page.get_by_label("Margins")).to_be_focused()
        page.get_by_label("Margins").fill("10")
        expect(page.locator("details.more > summary")).to_have_text("More (1 changed)")
        settled(page)
        show(page, "packs")
        page.locator("details.more > summary").click()
        expect(page.get_by_label("Margins")).to_be_visible()


def test_where_own_sums_come_is_said(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        expect(page.locator(".desk")).to_contain_text("Every sum has a card too")
        expect(page.get_by_text("The first sum is the first lesson")).to_be_visible()
        page.locator("details.more > summary").click()
        page.get_by_label("Cards", exact=True).uncheck()
        expect(page.get_by_text("Every sum has a card too")).to_be_hidden()
        page.get_by_label("The first week", exact=True).uncheck()
        expect(page.get_by_text("The first sum is the first lesson")).to_be_hidden()


NAMELESS = """() => [...document.querySelectorAll("a, button, input, select, textarea, summary")]
  .filter(node => node.checkVisibility() && !(node.getAttribute("aria-label")
    || [...(node.labels ?? [])].some(label => label.textContent.trim())
    || (node.localName !== "select" && node.textContent.trim())))
  .map(node => node.outerHTML.slice(0, 80))"""
"""What can be used and has no name for those who do not see it."""

REACHED = """() => {
  const node = document.activeElement;
  if (node === document.body) return null;
  document.reached.add(node.type === "radio" ? node.name : node);
  return true;
}"""

MISSED = """() => [
    ...document.querySelectorAll("a[href], button, input, select, textarea, summary")]
  .filter(node => node.checkVisibility())
  .filter(node => !document.reached.has(node.type === "radio" ? node.name : node))
  .map(node => node.outerHTML.slice(0, 80))"""
"""What can be used and Tab never comes to; of a group of choices it comes to one."""


@pytest.mark.parametrize("job", JOBS)
def test_tab_comes_to_every_control_and_each_has_a_name(
    browser: Browser, native: str, job: str
) -> None:
    with opened(browser, f"{native}#{job}", width=360) as page:
        if job in TABLES:
            page.locator("textarea").fill(TABLES[job])
        settled(page)
        for more in page.locator("summary:visible").all():
            more.click()
        expect(page.locator(".working:visible")).to_have_count(0)
        assert page.evaluate(NAMELESS) == []
        page.evaluate("document.reached = new Set(); document.activeElement.blur(); scrollTo(0, 0)")
        page.locator("h1").focus()  # from here on, round once
        for _ in range(200):
            page.keyboard.press("Tab")
            if page.evaluate(REACHED) is None:
                break
        page.keyboard.press("Tab")
        for _ in range(8):  # and what stands before the title
            page.evaluate(REACHED)
            page.keyboard.press("Tab")
        assert page.evaluate(MISSED) == []


def test_what_helps_with_a_field_is_read_with_it_and_drawings_are_not(
    browser: Browser, native: str
) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        page.locator("details.more > summary").click()
        for name, hint in (("Other paper", "A5"), ("Pieces for any sum below", "left empty")):
            box = page.get_by_role("textbox", name=name)
            expect(page.locator(f"#{box.get_attribute('aria-describedby')}")).to_contain_text(hint)
        assert page.locator("svg:not([aria-hidden]):not([role=img] *)").count() == 0
        page.get_by_role("radio", name="Choose for me").check()
        page.get_by_role("button", name="How many?: one more").click()
        expect(page.locator("#status")).to_have_text("How many?: 7")
        show(page, "measure")
        edges = page.get_by_role("group", name="Smallest number you can read at each edge")
        expect(edges.get_by_role("textbox")).to_have_count(4)


def test_the_focus_is_never_lost(
    browser: Browser, native: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, file = threading.Event(), Engine.file

    def slow(engine: Engine, job: int, progress: Progress, stop: Stop) -> Answer:
        made.wait(60)
        return file(engine, job, progress, stop)

    monkeypatch.setattr(Engine, "file", slow)
    with opened(browser, f"{native}#kit") as page:
        page.get_by_label("Letter").check()
        page.get_by_role("button", name="Stop").focus()  # and then there is nothing to stop
        made.set()
        expect(page.get_by_role("button", name="Save the PDF")).to_be_focused()
        page.locator(".sum .box").first.fill("62")
        page.locator(".sum .box").nth(1).fill("38")
        page.get_by_role("button", name="Remove sum 1").focus()
        page.keyboard.press("Control+z")
        page.keyboard.press("Control+z")
        expect(page.locator(".sum")).to_have_count(5)
        assert focused(page)
        assert page.evaluate("document.activeElement !== document.body")
        page.set_viewport_size({"width": 360, "height": 800})
        page.get_by_role("button", name="Español").focus()
        page.keyboard.press("Enter")
        expect(page.get_by_role("button", name="English")).to_be_focused()


def test_what_is_wrong_is_said_to_those_who_do_not_see_it(browser: Browser, native: str) -> None:
    with opened(browser, f"{native}#kit") as page:
        settled(page)
        status, boxes = page.locator("#status"), page.locator(".sum .box")
        expect(status).to_contain_text("sheets of card")
        boxes.nth(0).fill("27")
        boxes.nth(1).fill("53")
        expect(status).to_have_text(re.compile("^That takes out more than there is"))
        boxes.nth(0).fill("61")
        settled(page)
        expect(status).to_contain_text("of paper")


def test_a_sum_typed_meanwhile_is_not_told_the_exchange_of_the_one_before(
    browser: Browser, native: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask, begun, slow = Engine.ask, threading.Event(), threading.Event()

    def asked(engine: Engine, wishes: dict[str, Any]) -> dict[str, Any]:
        begun.set()
        found = ask(engine, wishes)
        slow.wait(1)
        return found

    monkeypatch.setattr(Engine, "ask", asked)
    with opened(browser, f"{native}#kit") as page:
        kinds = page.locator(".sum .kind")
        assert begun.wait(60)  # the examples are asked for
        page.evaluate(
            """() => {
              window.stale = false;
              const first = document.querySelector(".sum .kind");
              new MutationObserver(() => { stale ||= first.textContent === "exchange 1 ten"; })
                .observe(first, { childList: true, characterData: true, subtree: true });
            }"""
        )
        boxes = page.locator(".sum .box")
        boxes.nth(0).fill("96")
        boxes.nth(1).fill("43")
        expect(kinds.first).to_have_text("no exchange")
        assert not page.evaluate("stale")


COUNTED = """
const live = new Set();
const { createObjectURL, revokeObjectURL } = URL;
URL.createObjectURL = (held) => { const url = createObjectURL(held); live.add(url); return url; };
URL.revokeObjectURL = (url) => { live.delete(url); revokeObjectURL(url); };
globalThis.pictures_held = () => live.size;
"""
"""Counts the pictures and files that the page holds."""


def test_kits_leave_nothing_behind(browser: Browser, native: str) -> None:
    """What is counted here is the same on every machine; memory in MB is not."""
    context = browser.new_context(locale="en-GB")
    context.add_init_script(COUNTED)
    page = context.new_page()
    page.goto(f"{native}#kit")
    session = context.new_cdp_session(page)

    page.locator(".sum .box").nth(1).fill("28")

    def make(whole: int) -> None:
        cover = page.locator(".pages.paper img").first
        before = cover.get_attribute("src") or ""
        page.locator(".sum .box").first.fill(str(whole))
        expect(cover).not_to_have_attribute("src", before)  # it bears the sum
        settled(page)

    def held() -> tuple[int, int]:
        page.wait_for_timeout(1500)  # pictures of before are let go a second later
        session.send("HeapProfiler.collectGarbage")
        listeners = int(session.send("Memory.getDOMCounters")["jsEventListeners"])
        return int(page.evaluate("pictures_held()")), listeners

    make(61)
    pictures, listeners = held()
    for whole in range(62, 68):
        make(whole)
    more_pictures, more_listeners = held()
    assert 0 < more_pictures <= pictures + 4  # a page more, at times
    assert more_listeners <= listeners + 5
    context.close()


def test_every_picture_of_a_page_is_drawn(browser: Browser, drawn: str) -> None:
    """The other tests look at empty ones."""
    with opened(browser, drawn) as page:
        for view in ("home", *JOBS):
            show(page, view)
            if view in TABLES:
                page.locator("textarea").fill(TABLES[view])
            settled(page)
            decoded = page.evaluate(
                """() => Promise.all([...document.querySelectorAll("img[src]")].map(
                  node => node.decode().then(() => node.naturalWidth > 0, () => false)))"""
            )
            assert decoded and all(decoded), view

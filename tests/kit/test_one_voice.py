"""Guide, week page, plan, road and lesson say one thing: a word against the course fails here."""

import re
from collections.abc import Iterator

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.load import Words
from kitbuilder.kit.course.course_pages import week_pages
from kitbuilder.kit.lesson.again import again
from kitbuilder.kit.lesson.script import Cue, LessonStep, script
from kitbuilder.kit.lesson.strips import Strips, strips
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.number import Sum
from kitbuilder.number.course.schedule import LESSONS, PlanWish, plan

LANGUAGES = [name for name in designs.names("words") if name != "es-MX"]  # as es, but for a point
SUMS = (*LESSONS, Sum(634, 258), Sum(4003, 1758))

TERMS: dict[str, tuple[str, str]] = {
    "pieces": (r"\bpieces\b", r"\bpiezas\b"),
    "only pieces": (r"only pieces", r"solo piezas"),
    "pencil": (r"\bpencil\b", r"\blápiz\b"),
    "drawing": (r"\b(drawing|draw)\b", r"\b[dD]ibuj(o|ar)\b"),
    "writing": (r"\b(writing|written|write)\b", r"(por escrito|escri(tas|bir)\b)"),
    "in reach": (r"pieces in reach", r"las piezas a mano"),
    "nothing written": (r"(Write nothing yet|nothing is written|Nothing is written)",
                        r"(nada se escribe|sin escribir nada|No se escribe nada)"),
    "marks": (r"\bmarks?\b", r"\bmarcas?\b"),
    "move first": (r"(Move first, then write at once|each move at once, after the hand)",
                   r"(Primero mover; enseguida, escribir|en cuanto se mueve la pieza)"),
    "exchange": (r"\b(exchang|regroup)", r"\bcanj"),
    "put back, fetch": (r"\bput\b.*\bback\b.*\bfetch\b", r"\bentregar\b.*\btraer\b"),
    "only the exchange": (r"only the (exchange|regrouping)", r"solo el canje"),
    "check": (r"\b(check|checked|checks)\b", r"\bcompr(obar|ueba|obó|obación|obado)\b"),
    "unasked": (r"(unasked|without being told)", r"sin que se lo (pidieran|digan)"),
    "push together": (r"\b(push(es|ing)?) (them |both parts |it )?together", r"\bjunt(ar|ando|a)"),
    "says what marks show": (r"\bmarks? shows?\b|said the marks",
                             r"muestran? (cada |las )?marca|dijo las marcas"),
    "agree": (r"\bagree\b", r"\bcoinciden\b"),
    "small facts": (r"\bsmall facts?\b", r"\brestas? básicas?\b"),
    "fifteen": (r"(\bfifteen minutes\b|\b15 minutes\b)", r"(\bquince minutos\b|\b15 minutos\b)"),
    "even in the middle": (r"even in the middle", r"aunque falte algo"),
    "no clock": (r"\bno clock\b", r"\bsin reloj\b"),
    "eight of ten": (r"\b(eight|8) of (ten|10)\b", r"\b(ocho|8)( bien)? de (diez|10)\b"),
    "four of five": (r"\b(four|4) of (five|5)\b", r"\b(cuatro|4) de (cinco|5)\b"),
    "eight right, two days": (r"eight (of ten are )?right on two (different )?days",
                              r"dos días.*salen bien ocho.*uno en uno"),
    "two of three wrong": (r"two (wrong in|of) the last three",
                           r"dos (mal )?de las (tres )?últimas"),
    "a stage back": (r"one stage back for two (sums|problems)",
                     r"(dos restas de la etapa anterior|a la etapa anterior durante dos restas)"),
    "one week from the pieces": (r"one (more )?week.*from the pieces on",
                                 r"una semana.*(desde|empezando con) las piezas"),
    "four of four": (r"four of four", r"cuatro de cuatro"),
    "not in ones": (r"(counted|count back) in ones", r"de uno en uno"),
    "ten written": (r"ten written (sums|problems)", r"diez restas (por escrito|escritas)"),
    "show me": (r"Show me with the pieces", r"Muéstramelo con las piezas"),
    "only the whole": (r"Only the larger number|build only", r"solo se forma"),
    "still the number": (r"\bstill\b", r"\bsigue\b"),
    "two steps": (r"(to ten; then|two steps through ten|reach ten, then)",
                  r"(hasta diez; luego|dos pasos por el diez|llegar a diez, luego)"),
    "done again": (r"is done again", r"se repite"),
    "again tomorrow": (r"this one again if it went badly", r"repetir esta, si no salió bien"),
    "while it goes well": (r"while it still goes well", r"mientras sale bien"),
}  # fmt: skip
"""What the course says, in English and in Spanish: one wording or its equals each."""

SAYS: dict[str, tuple[str, ...]] = {
    "stages.pieces": ("pieces",),
    "stages.both": ("pieces", "pencil"),
    "stages.drawn": ("drawing",),
    "stages.written": ("writing",),
    "guide_pages.lead": ("pieces", "nothing written"),
    "guide_pages.end": ("while it goes well", "again tomorrow"),
    "guide_pages.end_week": ("fifteen", "even in the middle"),
    "strips.lead": ("check",),
    "strips.end": ("pieces", "pencil", "writing"),
    "write.lead": ("only pieces", "writing"),
    "write.rule": ("marks",),
    "write.told": ("move first",),
    "write.exchange": ("exchange", "writing"),
    "write.pushed": ("push together",),
    "write.pushed_back": ("push together", "exchange"),
    "write.now_told": ("exchange", "push together", "writing"),
    "write.draw": ("drawing", "writing"),
    "write.draw_told": ("exchange", "drawing", "in reach"),
    "week.note": ("fifteen",),
    "week.daily_facts": ("small facts",),
    "week.daily_push": ("check",),
    "week.facts_how": ("two steps", "not in ones"),
    "week.on_pieces": ("exchange", "check", "unasked"),
    "week.on_both": ("says what marks show",),
    "week.on_drawn": ("drawing", "marks", "agree"),
    "week.stop_practice": ("fifteen", "even in the middle", "done again"),
    "week.stop_check": ("fifteen", "even in the middle", "check"),
    "week.stop_return": (
        "no clock", "in reach", "eight of ten", "four of five", "one week from the pieces",
    ),
    "week.no_clock": ("no clock", "eight of ten"),
    "week.passed": ("eight of ten",),
    "plan.fact": ("small facts",),
    "plan.legend": ("two steps",),
    "plan.before": ("writing", "in reach"),
    "plan.day_is": ("fifteen", "small facts", "check"),
    "worksheet.spoken": ("pieces", "nothing written"),
    "worksheet.foot": ("move first",),
    "worksheet.pieces_foot": ("pieces", "nothing written"),
    "worksheet.key_foot": ("show me",),
    "road.back_told": ("two of three wrong", "a stage back"),
    "road.skip_told": ("four of four", "pieces"),
    "road.return_told": ("one week from the pieces",),
    "road.check": (
        "ten written", "no clock", "in reach", "eight right, two days", "not in ones",
    ),
    "outline.facts": ("small facts",),
    "outline.facts_told": ("two steps",),
    "outline.together_told": ("push together",),
    "outline.stuck_told": ("only the exchange", "put back, fetch"),
    "outline.pairs_told": ("only pieces", "pencil"),
    "outline.early_told": ("exchange", "check", "push together"),
    "outline.alone_told": ("only pieces", "exchange", "check", "unasked"),
    "evening.lead": ("only the whole", "nothing written"),
    "evening.exchange": ("exchange",),
    "evening.exchange_told": ("put back, fetch", "still the number"),
    "evening.together": ("push together",),
    "evening.say": ("show me",),
    "child_page.end": ("while it goes well",),
    "evening.stop": ("fifteen", "while it goes well"),
    "exchange.rule": ("put back, fetch",),
    "answers.facts": ("small facts",),
    "title.fact_cards": ("small facts",),
    "mistakes.first": ("show me",),
    "wrong.other_told": ("show me",),
}  # fmt: skip
"""Where it is said: a sentence by its key, and all that must be in it."""

LISTS: dict[str, tuple[tuple[str, ...], ...]] = {
    "write.ticks": (("exchange", "unasked"), ("check", "unasked", "push together")),
    "slip.ticks": (("exchange",), ("check",), ("says what marks show",)),
    "road.returns": (("eight of ten",), ("four of five",), ("four of five",)),
    "plan.check_steps": (
        ("ten written", "in reach", "no clock"),
        ("eight right, two days", "small facts", "not in ones"),
        ("two of three wrong", "a stage back"),
        ("eight of ten", "four of five", "one week from the pieces"),
    ),
}
"""The same of sentences that stand in a list."""

BARRED = (
    r"\b(borrow|carry|carried|trade|take away from the top|cross off|crossed)\w*",
    r"\b(prestad[oa]s?|pedir prestado|llevar(se)? una|cambiar|devolver|quitar y leer)\b",
)
"""Words of other ways of teaching, or a second word for what has one already."""

KINDS = ("ones", "tens", "both", "across-zero")
SHORT = {
    "ones": (r"\bones\b", r"\bunidades\b"),
    "tens": (r"\btens\b", r"\bdecenas\b"),
    "across-zero": (r"\bzero\b", r"\bcero\b"),
}
"""What names a kind of sum, wherever it is named."""


def which(language: str) -> int:
    return int(language == "es")


def lacking(text: str, wanted: tuple[str, ...], language: str) -> list[str]:
    """Return what ``text`` should say and does not, or says though it should not."""
    side = which(language)
    found = [term for term in wanted if not re.search(TERMS[term][side], text, re.IGNORECASE)]
    return [*found, *(m[0] for m in re.finditer(BARRED[side], text, re.IGNORECASE))]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_page_says_what_the_course_says(language: str) -> None:
    words = designs.words(language)
    for key, wanted in SAYS.items():
        text = str(words.entries[key])
        assert lacking(text, wanted, language) == [], (key, text)
    for key, rows in LISTS.items():
        for text, wanted in zip(words.entries[key], rows, strict=True):
            assert lacking(text, wanted, language) == [], (key, text)


@pytest.mark.parametrize("language", LANGUAGES)
def test_one_question_is_asked_before_every_sum(language: str) -> None:
    words = designs.words(language)
    guess = words("script.guess")
    assert re.search(("[Aa]bout how many", "[Mm]ás o menos cuánto")[which(language)], guess)
    assert all(guess in script(sum_, words)[0].asked[-1].asks for sum_ in SUMS)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_day_has_three_parts_of_the_minutes_it_is_said_to_last(language: str) -> None:
    words = designs.words(language)
    parts = [words(f"week.daily_{part}") for part in ("facts", "take", "push")]
    minutes = [int(re.findall(r"\d+", part)[0]) for part in parts]
    assert minutes == [3, 10, 2] and str(sum(minutes)) in words("week.note")
    assert parts[0].startswith(words("plan.fact"))


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_kind_of_sum_has_one_name_on_plan_and_road(language: str) -> None:
    words, side = designs.words(language), which(language)
    for kind in KINDS:
        pattern, row = words(f"patterns.{kind}"), words(f"road.{kind}")
        for name, terms in SHORT.items():
            if kind != "both":
                assert bool(re.search(terms[side], pattern)) is (name == kind), pattern
                assert bool(re.search(terms[side], row)) is (name == kind), row
    assert words("road.ones").lower() == words("patterns.ones")
    assert words("road.tens").lower() == words("patterns.tens")
    both = words("road.both").lower()
    assert all(re.search(SHORT[place][side], both) for place in ("ones", "tens"))


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_week_page_says_each_stage_by_its_own_test(language: str) -> None:
    wanted = {
        "pieces": ("exchange", "check", "unasked"),
        "both": ("says what marks show",),
        "drawn": ("drawing", "marks", "agree"),
    }
    for page in week_pages(plan(PlanWish()).tasks, designs.words(language)):
        for stage, text in page.on:
            assert lacking(text, wanted[stage], language) == [], text


MOVES: dict[Cue, tuple[str, str]] = {
    "build": (r"\b[Bb]uild\b", r"\b[Ff]ormar\b"),
    "guess": (r"\b[Aa]bout how many\b", r"[Mm]ás o menos cuánto\b"),
    "look": (r"\b[Ee]nough\b", r"\b[Bb]astan\b"),
    "hand": (r"([Ee]xchange|[Rr]egroup|[Oo]pen)\b", r"([Cc]anjear|abrir)\b"),
    "fetch": (r"([Ff]etch|[Ff]ill|ten hundreds over|one is ten)",
              r"([Tt]raer|[Ll]lenar|diez centenas encima|una en diez)"),
    "take": (r"\b[Tt]ake .*\bout\b|\b\d \w+ out\. ", r"\b[Ss]acar\b"),
    "read": (r"\bWhat is left\? What came out\?|How much stays\?",
             r"¿Qué queda\? ¿Qué salió\?|¿Cuánto queda\?"),
    "push": (r"\b[Pp]ush\b.*\btogether\b", r"\b[Jj]untar"),
    "back": (r"([Ee]xchange|[Rr]egroup)\b", r"\b[Cc]anjear\b"),
}  # fmt: skip
"""What is said where a child makes a move."""


def told(step: LessonStep) -> str:
    return " ".join((step.title, step.told, *(f"{a.asks} {a.says}" for a in step.asked)))


def steps_of(sum_: Sum, words: Words) -> Iterator[LessonStep]:
    yield from script(sum_, words)
    more = strips([(sum_, ""), (Sum(43, 17), "")], words)
    assert isinstance(more, Strips)
    yield from more.strips[0].steps


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_the_words_of_a_step_are_those_of_its_moves(language: str, sum_: Sum) -> None:
    words = designs.words(language)
    for step in steps_of(sum_, words):
        text = told(step)
        assert lacking(text, (), language) == [], text
        for cue in step.cues:
            word = MOVES[cue][which(language)]
            assert re.search(word, text), f"MOVES[{cue!r}] asks for {word} in: {text}"
        if "fetch" in step.cues and "look" not in step.cues:
            # What changes is exchanged: one of a place for ten of the next.
            assert re.search(r"\b(10|ten|diez)\b", text), text
    for move in writing([sum_], words).moves[1:]:
        verbs = [MOVES["take"][which(language)], MOVES["hand"][which(language)]]
        assert any(re.search(verb, move.title) for verb in verbs), move.title


@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_the_whole_is_what_is_left_as_soon_as_all_of_the_part_is_out(sum_: Sum) -> None:
    # each page had its own rule: 26 was named the whole beside "Write 2."
    words = designs.words("en-GB")
    written = [move.scene for move in writing([sum_], words).moves]
    child = [step.scene for step in again(sum_, sum_.rest - 10, "slip", 0, words).steps]
    for scenes in ([step.scene for step in steps_of(sum_, words)], written, child):
        for scene in scenes:
            whole, part = scene.zones
            lying = sum((pile.here + pile.new) * 10**k for k, pile in enumerate(part.piles))
            named = "what is left" if lying == sum_.part else "the whole"
            assert whole.name == named, scene


WRONG = [
    ("week.stop_practice", "fifteen", "twenty"),
    ("week.on_pieces", "unasked", "when told"),
    ("guide_pages.lead", "Write nothing yet", "Write it down"),
    ("write.told", "Move first, then write", "Write first, then move"),
    ("road.check", "eight right", "six right"),
    ("stages.both", "pencil", "counters"),
    ("plan.check_steps", "one stage back", "one stage on"),
    ("evening.exchange_told", "put 1", "borrow 1"),
]


@pytest.mark.parametrize(("key", "old", "new"), WRONG, ids=lambda text: str(text)[:12])
def test_a_changed_word_is_found(key: str, old: str, new: str) -> None:
    words = designs.words()
    entry = words.entries[key]
    said = (entry,) if isinstance(entry, str) else entry
    rows = LISTS[key] if key in LISTS else (SAYS[key],)
    changed = [re.sub(old, new, text, flags=re.IGNORECASE) for text in said]
    assert changed != list(said)
    found = [lacking(t, w, "en-GB") for t, w in zip(changed, rows, strict=True)]
    assert any(found), changed

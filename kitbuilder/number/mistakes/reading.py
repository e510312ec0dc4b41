"""Reads the answers of one child: what they say, how surely, and which of them say it."""

from collections.abc import Sequence
from dataclasses import replace
from enum import StrEnum

from kitbuilder.frozen import frozen
from kitbuilder.number.mistakes.fitting import by_place, comes_back, fitting
from kitbuilder.number.mistakes.one_out import one_out, shows_it
from kitbuilder.number.mistakes.posterior import Answered, Posterior, Ways, posterior
from kitbuilder.number.mistakes.profiles import PROFILES, RIGHT, answers
from kitbuilder.number.mistakes.slips import slip_place, swapped
from kitbuilder.number.mistakes.why import ORDER, SLIP, why
from kitbuilder.number.sums import Sum

SURE = 0.95
"""That a child works rightly is said, or works wrongly, only where it is at least this likely."""

LEAST_RIGHT = 3
"""Answers of a child who left others blank, from which on right ones say that it is ready all the
same, and slips that they are no more than slips."""

LEADS, LEAST_FITTING = 0.65, 2
"""A habit is named where it is so likely, and so many wrong answers fit it. Chosen in simulation:
it names most children at few wrong names (tests/bench)."""

LEAST_STRANGE = 3
"""Answers from which on it is said that none of the known mistakes fits."""

RIVAL = 0.05
"""A habit at least so likely is told beside the one that is named, where that is not certain."""

FEWEST, MOST_SLIPS = 4, 0.5
"""Where a larger share than this of at least so many answers would be slips, none of them is one.
Ours: one who slips in one of ten facts has every fourth sum wrong."""

LISTED, PERHAPS = 0.02, 0.2
"""A habit less likely than this is not listed; not named as perhaps the one, nor practised."""


class Verdict(StrEnum):
    """What the answers of one child say as a whole.

    ``MORE``: there is too little to say. ``UNTRIED``: nothing was answered.
    """

    RIGHT = "right"
    SLIPS = "slips"
    HABIT = "habit"
    UNKNOWN = "unknown"
    MORE = "more"
    UNTRIED = "untried"


class Fit(StrEnum):
    """What one answer is: right, as the habit has it, a slip, swapped digits, or none of these.

    ``NEAR`` is one out of what the habit gives, not of the right answer.
    """

    RIGHT = "right"
    HABIT = "habit"
    SLIP = "slip"
    NEAR = "near"
    SWAPPED = "order"
    OTHER = "other"


@frozen
class Likely:
    """A habit's ``key`` and how likely it is; ``place`` where it shows in one column alone."""

    key: str
    probability: float
    place: int | None = None


@frozen
class Read:
    """One answer read: what it is, and the habit's ``key`` where it fits one."""

    answered: Answered
    fit: Fit
    key: str = ""


@frozen
class Reading:
    """The answers of one child, read.

    ``habits`` are listed likeliest first, whatever the verdict; ``named`` are those that are
    sure. ``reads`` has the answers in their order, ``after`` what is likely after them.
    """

    verdict: Verdict
    habits: tuple[Likely, ...]
    named: tuple[str, ...]
    reads: tuple[Read, ...]
    after: Posterior

    @property
    def evidence(self) -> tuple[int, ...]:
        """Rows of the answers that speak for the verdict.

        They are those that fit the habits named, if any are, or are slips; where nothing fits,
        those unexplained.
        """
        kinds = {
            Verdict.HABIT: (Fit.HABIT,),
            Verdict.SLIPS: (Fit.SLIP, Fit.NEAR, Fit.SWAPPED, Fit.OTHER),
            Verdict.UNKNOWN: (Fit.OTHER,),
            Verdict.MORE: (Fit.HABIT,),
            Verdict.RIGHT: (),
            Verdict.UNTRIED: (),
        }[self.verdict]
        return tuple(
            read.answered.row
            for read in self.reads
            if read.fit in kinds
            and (read.fit is not Fit.HABIT or not self.named or read.key in self.named)
        )

    @property
    def right(self) -> int:
        """How many answers are right."""
        return sum(read.fit is Fit.RIGHT for read in self.reads)

    @property
    def rivals(self) -> tuple[str, ...]:
        """The habits that may as well be it where what is said is not certain, likeliest first.

        Beside slips they are those that give a wrong answer too, however often others were right.
        """
        if self.verdict is Verdict.SLIPS:
            wrong = [r.answered for r in self.reads if r.fit is not Fit.RIGHT]
            return tuple(dict.fromkeys(key for a in wrong for key in beside_slip(a.sum, a.answer)))
        if self.verdict is not Verdict.HABIT or self.habits[0].probability >= SURE:
            return ()
        others = (h for h in self.habits if h.key not in self.named)
        return tuple(h.key for h in others if h.probability >= RIVAL)

    @property
    def sure(self) -> bool:
        """Whether asking on would hardly change what is said."""
        if self.verdict is Verdict.RIGHT or self.verdict is Verdict.SLIPS:
            return self.after.right >= SURE
        return self.verdict in (Verdict.HABIT, Verdict.UNKNOWN)

    @property
    def told_first(self) -> bool:
        """Whether further sums, on paper, come before the pieces: to tell more."""
        doubted = self.verdict not in (Verdict.RIGHT, Verdict.UNTRIED)
        return doubted and (not self.sure or self.rivals != ())


def beside_slip(sum_: Sum, answer: int) -> tuple[str, ...]:
    """Return the habits that give a slip's ``answer`` as well, likeliest first."""
    causes = (c for c in why(sum_, answer) if c.likelihood >= RIVAL)
    return tuple(dict.fromkeys(c.key for c in causes if c.key not in (SLIP, ORDER)))


def place_beside(sum_: Sum, answer: int, key: str) -> int | None:
    """Return the only column in which the habit ``key`` gives ``answer``, None where it is all."""
    return next((c.place for c in why(sum_, answer) if c.key == key), None)


def read(answered: Sequence[Answered], blank: int = 0) -> Reading:
    """Return what the answers of one child say; ``blank`` of them were left out before."""
    after = posterior(answered)
    likely = after.keys()
    lead = _lead(after)
    reads = tuple(
        _read(a, way, lead) for a, way in zip(answered, _given(lead, answered), strict=True)
    )
    wrongly = after.right_here + after.unknown <= 1 - SURE
    leads = (key for key, share in likely.items() if wrongly and share >= LEADS)
    habits = tuple(
        Likely(key, share, _place(key, after)) for key, share in likely.items() if share >= LISTED
    )
    fit = tuple(key for key in leads if fitting(key, answered) >= LEAST_FITTING)
    named = tuple(key for key in fit if comes_back(key, after, fit, answered))
    verdict = _verdict(after, reads, named, blank)
    way = one_out(answered) if verdict is not Verdict.HABIT else ""
    if way:
        return _one_out(way, reads, after)
    if verdict is Verdict.SLIPS and _too_many(reads):
        verdict, reads = Verdict.UNKNOWN, tuple(_no_slip(one) for one in reads)
    return Reading(verdict, habits, named, reads, after)


def _too_many(reads: Sequence[Read]) -> bool:
    """Say whether so many answers are wrong that they are no slips."""
    wrong = sum(one.fit is not Fit.RIGHT for one in reads)
    return len(reads) >= FEWEST and wrong > MOST_SLIPS * len(reads)


def _no_slip(one: Read) -> Read:
    """Return a wrong answer as one that nothing explains."""
    return one if one.fit is Fit.RIGHT else replace(one, fit=Fit.OTHER, key="")


def _one_out(key: str, reads: Sequence[Read], after: Posterior) -> Reading:
    """Return what is said of answers that are nearly all one out, or swapped, in one way.

    How likely the next one is to be so as well is told by Laplace's rule of succession.
    """
    fits = [shows_it(key, one.answered) for one in reads]
    likely = Likely(key, (sum(fits) + 1) / (len(fits) + 2))
    fitted = tuple(
        replace(one, fit=Fit.HABIT, key=key) if fit else replace(one, key="")
        for one, fit in zip(reads, fits, strict=True)
    )
    return Reading(Verdict.HABIT, (likely,), (key,), fitted, after)


def _verdict(after: Posterior, reads: Sequence[Read], named: Sequence[str], blank: int) -> Verdict:
    wrong = sum(read.fit is not Fit.RIGHT for read in reads)
    strange = sum(read.fit is Fit.OTHER for read in reads)
    if not reads:
        return Verdict.UNTRIED
    enough = len(reads) >= LEAST_RIGHT or not blank
    if not wrong:
        return Verdict.RIGHT if enough and len(reads) > 1 else Verdict.MORE  # one says little
    if strange > max(2, wrong / 4):
        return Verdict.UNKNOWN
    if named:
        return Verdict.HABIT
    if after.right_here >= SURE:
        return Verdict.SLIPS if enough else Verdict.MORE
    strangely = after.unknown >= SURE and len(reads) >= LEAST_STRANGE
    return Verdict.UNKNOWN if strangely else Verdict.MORE


def _lead(after: Posterior) -> Ways:
    """Return the likeliest of the known ways; that all is right only where no habit is likelier."""
    return max(zip(after.ways, after.shares, strict=True), key=lambda pair: pair[1])[0]


def _given(lead: Ways, answered: Sequence[Answered]) -> tuple[int | None, ...]:
    return lead.given or (None,) * len(answered)


def _read(a: Answered, base: int | None, lead: Ways) -> Read:
    whole, part, rest = a.sum.whole, a.sum.part, a.sum.rest
    key = PROFILES[lead.profiles[0]].keys
    if a.answer == rest:
        return Read(a, Fit.RIGHT)
    if a.answer == base or (RIGHT not in lead.profiles and a.answer in _partly(a, lead)):
        return Read(a, Fit.HABIT, _shown_key(a, key))
    bases = [b for b in (rest, base) if b is not None]
    if slip_place(whole, part, rest, a.answer) is not None:
        return Read(a, Fit.SLIP)
    if base is not None and slip_place(whole, part, base, a.answer) is not None:
        return Read(a, Fit.NEAR)
    if any(swapped(b, a.answer) for b in bases):
        return Read(a, Fit.SWAPPED)
    return Read(a, Fit.OTHER)


def _partly(a: Answered, lead: Ways) -> set[int | None]:
    """Return what the lead's habits give where they show alone, or in one column alone."""
    held = {key for at in lead.profiles for key in PROFILES[at].keys}
    given = answers(a.sum.whole, a.sum.part)
    return {
        answer
        for profile, answer in zip(PROFILES, given, strict=True)
        if len(profile.keys) == 1 and profile.keys[0] in held
    }


def _shown_key(a: Answered, keys: Sequence[str]) -> str:
    """Return which of a child's habits gives this answer, the first where it is both at once."""
    return next((key for key in keys if _gives(key, a)), keys[0])


def _gives(key: str, a: Answered) -> bool:
    given = answers(a.sum.whole, a.sum.part)
    return any(
        a.answer == answer and profile.keys == (key,)
        for profile, answer in zip(PROFILES, given, strict=True)
    )


def _place(key: str, after: Posterior) -> int | None:
    """Return the only column in which ``key`` shows; None where it shows in all or is unclear."""
    places = by_place(key, after)
    best = max(places, key=lambda place: places[place])
    return best if places[best] >= SURE * sum(places.values()) else None

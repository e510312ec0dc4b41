"""How words are set: their size, leading, face and tone, by what they are for."""

from functools import lru_cache

from kitbuilder.design.look import Look
from kitbuilder.design.typefaces import FAMILY, HEADING_FAMILY
from kitbuilder.frozen import frozen
from kitbuilder.layout.parts.contents import Face, Tone

_FAMILIES: dict[Face, str] = {"text": FAMILY, "heading": HEADING_FAMILY}


@frozen
class Setting:
    """A size of type (the em in mm), its leading in mm, its face and its tone."""

    size: float
    lead: float
    face: Face = "text"
    tone: Tone = "text"

    @property
    def family(self) -> str:
        """The typeface's name."""
        return _FAMILIES[self.face]

    def quiet(self) -> "Setting":
        """Return the same, in the quiet tone."""
        return Setting(self.size, self.lead, self.face, "quiet")

    def sized(self, size: float) -> "Setting":
        """Return the same in another size, its leading with it."""
        return Setting(size, self.lead * size / self.size, self.face, self.tone)


@frozen
class Settings:
    """Every setting of a page for an adult, in one look."""

    cover: Setting
    title: Setting
    heading: Setting
    speech: Setting
    text: Setting
    least: Setting
    child: Setting
    digits: Setting


@lru_cache(16)
def settings(look: Look) -> Settings:
    """Return the settings of ``look``."""
    size = look.type_mm
    return Settings(
        cover=Setting(size.cover, 0.98 * size.cover, "heading"),
        title=Setting(size.title, 1.05 * size.title, "heading"),
        heading=Setting(size.heading, 1.16 * size.heading, "heading"),
        speech=Setting(size.speech, 1.26 * size.speech),
        text=Setting(size.adult, 1.28 * size.adult),
        least=Setting(size.least, 1.28 * size.least, tone="quiet"),
        child=Setting(size.child, 1.2 * size.child),
        digits=Setting(size.digits, 1.2 * size.digits),
    )


_USUAL = 3.9
# Size in mm of an adult's words in the usual look.


def growth(look: Look) -> float:
    """Return how much larger than usual the words of ``look`` are, and its pictures with them."""
    return max(1.0, look.type_mm.adult / _USUAL)

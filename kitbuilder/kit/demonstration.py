"""What a demonstration on the board or the floor needs: pieces, names of zones, and a picture."""

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.lesson.script import script
from kitbuilder.number import PLACES, Pieces, Sum


@frozen
class Demonstration:
    """Pieces for all sums that are shown, the names on the mat, and scenes of one: built, parted.

    ``columns`` are the names of the places, largest first; ``zones`` those of whole and part.
    Each scene has its caption.
    """

    pieces: Pieces
    columns: tuple[str, ...]
    zones: tuple[str, ...]
    scenes: tuple[MatScene, MatScene]
    captions: tuple[str, str]


def demonstration(pieces: Pieces, sum_: Sum, words: Words) -> Demonstration:
    """Return what shows sums with ``pieces``, ``sum_`` among them."""
    places = max(place for place, count in enumerate(pieces.counts) if count or not place) + 1
    columns = tuple(words(f"mat.headings.words.{place}") for place in reversed(PLACES[:places]))
    zones = (words("mat.two.whole"), words("mat.two.part"))
    steps = script(sum_, words)
    parted = next(k for k, step in enumerate(steps) if "push" in step.cues) - 1
    said = {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest}
    captions = words("demonstration.built", **said), words("demonstration.parted", **said)
    scenes = steps[0].scene, steps[parted].scene
    return Demonstration(pieces, columns, zones, scenes, captions)

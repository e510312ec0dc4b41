"""The pictogram of each mistake, on lesson pages and on those of marks."""

PICTOGRAMS = {
    "turned": "turned",
    "turned-lowered": "turned",
    "not-lowered": "not-lowered",
    "handed-no-fetch": "not-fetched",
    "empty-not-lowered": "not-read",
    "from-leftmost": "far-left",
    "zero-becomes-nine": "zero",
    "zero-becomes-ten": "zero-ten",
    "zero-skipped": "zero-skipped",
    "zero-top-bottom": "zero-below",
    "zero-top-zero": "zero-zero",
    "slip": "slip",
    "one-more": "one-more",
    "one-less": "one-less",
    "order": "order",
    "added": "push",
    "zero-when-short": "nothing",
    "top-not-brought": "left",
    "n-minus-0": "zero-taken",
    "two-wholes": "story-difference",
    "lone-digit": "not-read",
    "aligned-right": "order",
    "point": "order",
    "": "left",
}
"""The pictogram of each mistake."""


def pictogram_of(key: str) -> str:
    """Return the pictogram of the mistake ``key``; of none known for a mistake without its own."""
    return PICTOGRAMS.get(key, PICTOGRAMS[""])

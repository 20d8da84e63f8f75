"""The spread of a set-up in words: how its strikes come out, and where its balls stop."""

from game.text.units import METRIC, UnitSystem
from levels.strokes import SHOWN, ManyStrokes, StrikeKind

__all__ = ["kind_words", "solid_words", "spread_sentence", "stops_words"]

JUNIOR = {
    StrikeKind.SOLID: "good",
    StrikeKind.FAT: "dug in",
    StrikeKind.THIN: "thin",
    StrikeKind.OTHER: "missed",
}


def kind_words(many: ManyStrokes, numbers: bool = True) -> tuple[tuple[StrikeKind, str], ...]:
    """Each kind of strike among the strokes shown, with its count: `35 solid`; without numbers its name."""
    shown = many.kinds[:SHOWN]
    found = ((kind, shown.count(kind)) for kind in StrikeKind)
    return tuple((kind, f"{n} {kind}" if numbers else JUNIOR[kind]) for kind, n in found if n)


def solid_words(many: ManyStrokes) -> str:
    """`71 of 100 solid`."""
    return f"{many.solid_share.of_100} of 100 solid"


def stops_words(many: ManyStrokes, target: float, units: UnitSystem = METRIC, numbers: bool = True) -> str:
    """Median, and the share inside the target (m): `half stop by 7.2 m, 62 of 100 within 2.1 m`."""
    inside = many.inside(target)
    if not numbers:
        return _near(inside.value)
    return f"half stop by {units.far(many.middle)}, {inside.of_100} of 100 within {units.near(target)}"


def spread_sentence(
    many: ManyStrokes, target: float, units: UnitSystem = METRIC, numbers: bool = True
) -> str:
    """The same as a sentence: `Half stop by 7.2 m, 62 of 100 within 2.1 m of the hole.`"""
    words = stops_words(many, target, units, numbers)
    return f"{words[:1].upper()}{words[1:]}{' of the hole' if numbers else ''}."


def _near(share: float) -> str:
    for least, words in ((0.6, "most"), (0.4, "about half"), (0.1, "some")):
        if share >= least:
            return f"{words} stop near the hole"
    return "hardly any stop near the hole"

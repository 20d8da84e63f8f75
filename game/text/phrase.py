"""A piece of a told sentence with the place in the picture it is about, and pieces joined to a sentence."""

from collections.abc import Sequence
from dataclasses import dataclass

from game.text.quantity import decimal
from physics.constants import INCH

__all__ = ["Phrase", "joined", "small_length"]

COARSE = 0.995  # in, from which one decimal is enough


@dataclass(frozen=True)
class Phrase:
    """A piece of a sentence and the place it is about: hands, sole, edge, turf, ball, face, flight,
    landing, roll, hole or nothing ("")."""

    text: str
    place: str = ""
    linked: bool = False  # it begins with its own "so": no "and" before it


def joined(phrases: Sequence[Phrase], end: str = ".") -> tuple[Phrase, ...]:
    """Phrases as one sentence: capital first, commas between, 'and' before the last, a stop."""
    out = []
    # what follows the last piece that is not linked begins with its own "so"
    final = max((i for i, p in enumerate(phrases) if not p.linked), default=0)
    for i, p in enumerate(phrases):
        last = i == len(phrases) - 1
        text = p.text[0].upper() + p.text[1:] if i == 0 else p.text
        if i and i == final:
            text = f"and {text}"
        out.append(Phrase(text + (end if last else ", "), p.place))
    return tuple(out)


def small_length(metres: float, yards: bool) -> str:
    """A length in the turf, in the unit that goes with the long ones."""
    if not yards:
        return f"{decimal(metres * 1e3)} mm"
    inches = metres / INCH
    return f"{decimal(inches, 1 if abs(inches) >= COARSE else 2)} in"

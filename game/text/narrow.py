"""Letters for what a terminal or file cannot hold: `-` for the minus, ` deg` for the degree sign."""

import codecs

from game.text.quantity import DEGREE, MINUS

__all__ = ["STAND_INS", "STAND_IN_ERRORS"]

STAND_IN_ERRORS = "fringework-narrow"  # name of the error handler, for `errors=` of a stream
STAND_INS = {
    MINUS: "-", DEGREE: " deg", "\N{LEFT DOUBLE QUOTATION MARK}": '"', "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
    "\N{RIGHT SINGLE QUOTATION MARK}": "'", "\N{EN DASH}": "-", "\N{EM DASH}": "-",
}  # fmt: skip


def _stand_in(error: UnicodeError) -> tuple[str, int]:
    """The letters that cannot be written, each by its stand-in or a question mark."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    lost = error.object[error.start : error.end]
    return "".join(STAND_INS.get(letter, "?") for letter in lost), error.end


codecs.register_error(STAND_IN_ERRORS, _stand_in)

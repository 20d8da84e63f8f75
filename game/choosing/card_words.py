"""What stands on the cards and under them, with numbers or without."""

from game.choosing.answer import ChoiceAnswer
from game.choosing.cards import CardWords
from game.text import choice as words
from game.text.units import METRIC, UnitSystem
from levels.choose import ShotOption

__all__ = ["cards_of", "notes_of", "verdict_of"]


def cards_of(
    answer: ChoiceAnswer, numbers: bool = True, coach: bool = False, units: UnitSystem = METRIC
) -> tuple[CardWords, ...]:  # fmt: skip
    """A card for each option: before the pick only what it is."""
    options = answer.choice.options
    if answer.picked is None:
        return tuple(CardWords(_name(o), words.setup_plain(o)) for o in options)
    first = min(min(o.value.low, o.value.strokes) for o in options)
    last = max(max(o.value.high, o.value.strokes) for o in options)
    room = 0.08 * max(last - first, 0.05)
    out = []
    for i, option in enumerate(options):
        v = option.value
        tags = [*words.robust_words(answer.choice, i), *(["your pick"] if i == answer.picked else [])]
        reason = option.reason if len(options) > 1 else None
        if numbers:
            strokes = words.short_strokes(option)
            lines = [f"{line}." for line in words.odds_lines(option)]
            why = words.reason_words(reason, units) if reason else ""
        else:
            strokes, lines = words.strokes_plain(option), [words.odds_plain(option)]
            why = words.reason_plain(reason) if reason else ""
        setup = f"{words.how_words(option).capitalize()}." if coach and numbers else words.setup_plain(option)
        bar = (v.low, v.strokes, v.high, first - room, last + room)
        told = (*lines, *([why] if why else []))
        out.append(CardWords(_name(option), setup, strokes, told, tuple(tags), bar))
    return tuple(out)


def _name(option: ShotOption) -> str:
    name = words.option_name(option)
    return name[:1].upper() + name[1:]


def verdict_of(answer: ChoiceAnswer, numbers: bool = True) -> str:
    """The pick against the best."""
    assert answer.picked is not None
    return words.pick_words(answer.choice, answer.picked, numbers)


def notes_of(answer: ChoiceAnswer) -> tuple[str, ...]:
    """Whose strokes these are, and what the numbers mean; how the odds lean stands with the verdict."""
    return (answer.question.chooser.words, words.scale_words(), words.NO_SKILL)

"""Where everything goes on the page of one scenario. Where there is little room, words and picture take
turns: the one that matters at this step has it."""

from collections.abc import Callable
from dataclasses import dataclass

from game.draw.camera import Rect
from game.play.round import Step
from game.ui import Theme, layout

__all__ = ["READ", "Asked", "PlayPlaces", "play_is_tight", "play_places"]

STRIP = 0.40  # share of the height for the course
LOW, HIGH = 0.34, 0.47  # in little room: beside other pictures, and where marks stand on it
LEAST_CARD, MOST_CARD = 0.25, 0.58  # share of the width for the card
CARD = 59.2  # steps of the rhythm a card is wide
ROOM = 22.0  # steps of the rhythm under the course that leave room for pictures beside the card
PAIR = 62.0  # steps of the rhythm that turf and golfer need side by side
READ = (Step.CARD, Step.EXAMPLE, Step.RESULT)  # steps at which words may have all the room
NONE = Rect(0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Asked:
    """What there is to place. Heights in px."""

    step: Step
    foot: float  # height of the ways on
    film: bool  # there is a shot to move through
    moving: bool  # the picture is what matters now
    ribbon: Callable[[float], float]  # its height at a width
    card: Callable[[float], float]  # the card's height at a width


@dataclass(frozen=True)
class PlayPlaces:
    """The boxes; NONE where something has no room. `opened`: the turf is shown, `paired`: the golfer too."""

    strip: Rect = NONE
    card: Rect = NONE
    ways: Rect = NONE
    ribbon: Rect = NONE
    window: Rect = NONE
    figure: Rect = NONE

    @property
    def opened(self) -> bool:
        return self.window.h > 0.0

    @property
    def paired(self) -> bool:
        return self.figure.h > 0.0


def play_is_tight(box: Rect, theme: Theme) -> bool:
    """Whether there is too little room for words and pictures together."""
    return (1.0 - STRIP) * box.h - theme.target - theme.gap < ROOM * theme.gap


def play_places(box: Rect, theme: Theme, asked: Asked) -> PlayPlaces:
    """Course above, ways on at the foot, between them pictures on the left and the card on the right."""
    gap = theme.gap
    _, _, bar = layout.take(box, bottom=asked.foot + gap if asked.foot else 0.0)
    ways = Rect(box.x + gap, bar.y + gap / 2, box.w - 2 * gap, asked.foot)
    tight = play_is_tight(box, theme)
    whole = Rect(box.x, box.y, box.w, bar.y - box.y)
    inner = Rect(whole.x + gap / 2, whole.y, whole.w - gap, whole.h)
    share = STRIP
    if tight:
        share = LOW if asked.moving else HIGH if asked.step is Step.CALL else STRIP
    strip, rest, _ = layout.take(whole, top=round(share * box.h))
    if tight and not asked.moving:
        card = Rect(inner.x, rest.y, inner.w, rest.h)
        if asked.step in READ and asked.card(inner.w) > rest.h:
            return PlayPlaces(card=inner, ways=ways)
        return PlayPlaces(strip=strip, card=card, ways=ways)
    return _both(strip, rest, ways, theme, asked, tight)


def _both(strip: Rect, rest: Rect, ways: Rect, theme: Theme, asked: Asked, tight: bool) -> PlayPlaces:
    """Words and pictures beside each other."""
    gap = theme.gap
    share = min(max(CARD * gap / rest.w, LEAST_CARD), MOST_CARD)
    left, right = layout.split(rest, (1.0 - share, share))
    card, left, ribbon = Rect(right.x + gap / 2, right.y, right.w - gap, right.h), left.inset(gap), NONE
    if asked.film:
        side = card if tight else left  # where there is little room, under the words
        _, above, ribbon = layout.take(side, bottom=asked.ribbon(side.w), gap=gap)
        left, card = (left, above) if tight else (above, card)
    if left.w >= PAIR * gap:
        window, figure = layout.split(left, (0.62, 0.38), gap)
    else:
        window, figure = left, NONE
    return PlayPlaces(strip, card, ways, ribbon, window, figure)

"""The card after a shot: prediction, result and cause together, in as much as there is room for."""

from functools import partial

from game.play.card_parts import Acts, CardPage, Made, Room, Telling, block_of, main_button, read_button
from game.play.round import Round
from game.play.standing import StandingRow
from game.play.tally import TallyRow
from game.play.words import gap_lines, goal_tally, how_it_went, result_lines, target_of, why_line
from game.text.spread import spread_sentence
from game.text.units import system_of
from game.text.verdict import match_sentences, stroke_sentences
from game.ui import Button, Heading, Pair, TextBlock, Widget
from levels.strokes import MANY

__all__ = ["result_card"]

WAITING = "The set-up is being tried many times."


class _Part(Pair):
    """One part of the result; its name takes no more room than it must."""

    TERM = 0.22


def result_card(r: Round, t: Telling, acts: Acts) -> Made:
    """One page of the result with its ways on: Enter is always another try."""
    if t.room > Room.ALL and t.page is CardPage.MORE:
        return [Heading("More about this shot"), *_more(r, t)], _ways(r, t, acts)
    if t.room > Room.CAUSE and t.page is CardPage.WHY:
        return _cause(r, t, acts), _ways(r, t, acts)
    items = _result(r, t)
    if t.room <= Room.CAUSE:
        items += _cause(r, t, acts)
    if t.room is Room.ALL:
        items += _more(r, t)
    return items, _ways(r, t, acts)


def _parts(*named: tuple[str, tuple[str, ...]]) -> list[Widget]:
    return [_Part(name, " ".join(lines)) for name, lines in named if lines]


def _result(r: Round, t: Telling) -> list[Widget]:
    """Met or not, how far the task is, what was predicted and what came."""
    assert r.verdict is not None
    tally = goal_tally(r.scenario.goal, r.past.results, t.numbers)
    return [
        StandingRow(how_it_went(r), r.verdict.met, TallyRow(tally)),
        *_parts(("Prediction", gap_lines(r, t.numbers, t.yards)),
                ("Result", result_lines(r, r.verdict, t.numbers, t.yards))),
    ]  # fmt: skip


def _cause(r: Round, t: Telling, acts: Acts) -> list[Widget]:
    """The question why with its three causes; once one is picked, what the shot shows."""
    q = r.question if r.asking else None
    if q is None:
        return []
    if r.chosen is None:
        picks: list[Widget] = [
            Button(words, partial(acts.choose, i), hint=str(i + 1), group="causes")
            for i, words in enumerate(q.choices)
        ]
        return [TextBlock(q.ask, "strong"), *picks]
    right = r.chosen == q.right - 1
    said = why_line(right, q.choices[q.right - 1], r.asks_the_shot)
    return [
        *([TextBlock(q.ask, "strong")] if t.room is Room.RESULT else []),
        *_parts(("You said", (q.choices[r.chosen],)), ("Cause", (said, q.because.strip()))),
    ]  # fmt: skip


def _more(r: Round, t: Telling) -> list[Widget]:
    """The strike in sentences once the question is answered, the handle, the strokes, the coach's words."""
    assert r.verdict is not None
    told: list[Widget] = []
    if t.told and t.told.sentences and (not r.asking or r.chosen is not None):
        told.append(t.told)
    match = match_sentences(t.match) if t.match else (WAITING,)
    strokes = stroke_sentences(r.verdict, t.match) if t.numbers else ()
    return [
        *told,
        *_parts(("Handle return", match), ("Strokes", strokes), ("Spread", _spread(r, t))),
        *block_of(r.scenario.lesson.after),
    ]


def _spread(r: Round, t: Telling) -> tuple[str, ...]:
    """Where the strokes that stand as dots under the course stop, once all have been played."""
    if t.many is None or t.many.count < MANY:
        return ()
    return (spread_sentence(t.many, target_of(r.scenario), system_of(t.yards), t.numbers),)


def _ways(r: Round, t: Telling, acts: Acts) -> list[Button]:
    """Every page has the same row, so that nothing moves under a finger."""
    out = [main_button("Once more", acts.once_more), Button(t.onward, acts.onward, hint="G")]
    if not r.asking or t.room > Room.CAUSE:
        why = t.page is CardPage.WHY and t.room > Room.CAUSE
        out.append(Button("Result" if why else "Why?", acts.ask, hint="W"))
    if t.room > Room.ALL:
        back = t.page is CardPage.MORE
        out.append(Button("Result" if back else "More", acts.more, hint="M"))
    if r.has_example and not (t.tight and t.page is not CardPage.MORE):
        out.append(Button("Coach's set-up" if t.tight else "The coach's set-up", acts.example, hint="E"))
    return out if t.tight else [*out, read_button(t, acts)]

"""What the ladder says: one's own trio beside the one found, what suits each place, and the whole row."""

from math import degrees, isnan, nan, radians

from game.ladder.model import NOTED, TAUGHT, Best, Ladder, Played, Rung
from game.text.quantity import angle_words, decimal, percent, significant
from game.text.strike_facts import sole_bore
from game.text.units import system_of
from physics.cause import ground_of
from physics.cloud import Cloud
from physics.results import Contact, Outcome, Shot, Strike, TurfAction

__all__ = ["closing", "compared", "place_words", "struck", "suits", "taught_words", "trio_words"]


def trio_words(rung: Rung) -> str:
    """`lean 5°, release 1.0, follow-through 0.6, swing 45°`."""
    return (
        f"lean {angle_words(rung.shaft_lean)}, release {rung.release:.1f}, follow-through "
        f"{rung.follow_through:.1f}, swing {angle_words(rung.swing_length)}"
    )


def compared(own: Played | None, best: Best | None, *, junior: bool = False) -> tuple[str, ...]:
    """The player's own trio beside the one found, in sentences; empty before either is there."""
    if junior:
        return _compared_junior(own, best)
    out = []
    if own:
        out.append(f"Yours: {trio_words(own.rung)}. {_worth(own.cloud)}")
    if best:
        out.append(f"Found: {trio_words(best.rung)}. {_worth(best.cloud)}")
        out.append(_alike(best))
    return tuple(out)


def _alike(best: Best) -> str:
    if best.alike == 1:
        return f"No other of the {best.tried} settings tried does as well."
    return f"{best.alike} of the {best.tried} settings tried do as well; this is nearest to yours."


def taught_words() -> str:
    """Within what the search stays."""
    (low, high), (held, free), _ = TAUGHT
    return (
        f"The search stays within lean {angle_words(low)} to {angle_words(high)} and release {held:.1f} to "
        f"{free:.1f}, as chips are taught (common practice)."
    )


def place_words(ball: float) -> str:
    """`the standard`, `3 cm back`, `9 cm forward`."""
    if abs(ball) < 5e-4:
        return "the standard"
    far = significant(round(abs(ball) * 100.0, 1), 6)
    return f"{far} cm {'back' if ball < 0 else 'forward'}"


_TURF = {
    TurfAction.NONE: "the sole never touched the {ground}",
    TurfAction.BRUSH: "the sole brushed the {cover}",
    TurfAction.SKID: "the sole {slid} the {ground}",
    TurfAction.DIG: "the edge dug into the {ground}",
}
_STRUCK = {
    Contact.MISSED: "The club missed the ball",
    Contact.SOLID: "Struck solid",
    Contact.FAT: "Struck fat",
    Contact.THIN: "Struck thin",
    Contact.TOPPED: "The ball was topped",
    Contact.SPLASHED: "Splashed: the sand carried the ball",
    Contact.TWICE: "The ball was hit twice",
}


def _turf_words(strike: Strike) -> str:
    """What the head did in the ground: the sole only where it bore, a dig only where the edge did it."""
    if strike.contact is Contact.SPLASHED and strike.turf is TurfAction.DIG:
        return "the club went through the {ground}"
    if strike.turf in (TurfAction.BRUSH, TurfAction.SKID) and not sole_bore(strike):
        return "the club scraped the {ground}"
    return _TURF[strike.turf]


def struck(shot: Shot) -> str:
    """How the ball and the ground were met, in one sentence."""
    strike, ground = shot.strike, ground_of(shot.course)
    cover = "grass" if ground == "turf" else ground
    slid = "slid through" if ground == "sand" else "skidded over"
    sole = _turf_words(strike).format(ground=ground, cover=cover, slid=slid)
    return f"{_STRUCK[strike.contact]}; {sole}."


def suits(ladder: Ladder, best: dict[int, Best], *, junior: bool = False) -> tuple[tuple[str, str], ...]:
    """What suits each place of the row: (ball, its trio) from back to front; empty before any is found.

    For a junior it is told against the middle ball as it is set.
    """
    if not best:
        return ()
    out = []
    for i, rung in enumerate(ladder.rungs):
        name = f"Ball {i + 1}" if junior else f"{i + 1}, {place_words(rung.ball)}"
        if i not in best:
            out.append((name, "not looked for yet"))
        elif junior:
            out.append((name, _against(best[i].rung, ladder.rungs[ladder.middle])))
        else:
            out.append((name, trio_words(best[i].rung)))
    return tuple(out)


def _against(rung: Rung, middle: Rung) -> str:
    """More, less or the same of each of the trio."""
    told = []
    for word, change, least in (
        ("lean", rung.shaft_lean - middle.shaft_lean, radians(1.0)),
        ("release", rung.release - middle.release, 0.05),
        ("swing", rung.swing_length - middle.swing_length, radians(3.0)),
    ):
        told.append(f"{'same' if abs(change) < least else 'more' if change > 0 else 'less'} {word}")
    return ", ".join(told)


def _worth(many: Cloud) -> str:
    strokes = many.mean_strokes
    tail = "" if isnan(strokes) else f", {strokes:.1f} strokes to hole out"
    return f"{percent(many.solid_share)} solid{tail}."


def _compared_junior(own: Played | None, best: Best | None) -> tuple[str, ...]:
    if own is None or best is None:
        return ()
    a, b = own.rung, best.rung
    asks = [
        f"{'more' if change > 0 else 'less'} {word}"
        for change, least, word in (
            (b.shaft_lean - a.shaft_lean, radians(1.0), "lean"),
            (b.release - a.release, 0.1, "release"),
            (b.swing_length - a.swing_length, radians(3.0), "swing"),
        )
        if abs(change) >= least
    ]
    return (f"Try {' and '.join(asks)} here." if asks else "Your settings suit this ball.",)


def closing(
    ladder: Ladder, played: dict[int, Played], best: dict[int, Best], *, junior: bool = False,
    yards: bool = False,
) -> tuple[str, ...]:  # fmt: skip
    """What the row shows, in sentences; every number is read from what was played or found."""
    if ladder.middle not in played:
        return ("Play the middle ball first: it is the measure for the row.",)
    if len(played) < 2:
        return ("Now play the others. Then find what suits every ball.",)
    order = sorted(played)
    steady = max(order, key=lambda i: played[i].cloud.solid_share)
    shaky = min(order, key=lambda i: played[i].cloud.solid_share)
    if junior:
        out = [_flight_junior(played, order)]
        if shaky != steady:
            out.append(f"Ball {steady + 1} worked best, ball {shaky + 1} least.")
        return (*out, *_found_junior(best))
    share = [percent(played[i].cloud.solid_share) for i in (steady, shaky)]
    out = [_flight(played, order, yards)]
    if shaky != steady:
        out.append(
            f"Ball {steady + 1} forgave most, with {share[0]} of the strokes solid; ball {shaky + 1} "
            f"least, with {share[1]}."
        )
    return (*out, *_found(best, played))


def _launch(one: Played) -> float:
    return degrees(one.shot.launch.angle) if one.shot.launch else nan


def _flight(played: dict[int, Played], order: list[int], yards: bool) -> str:
    a, b = order[0], order[-1]
    angles = [_launch(played[i]) for i in (a, b)]
    far = system_of(yards).far
    rests = [played[i].shot.run.rest for i in order if played[i].shot.run.outcome is not Outcome.MISSED]
    ends = f"the balls ended {far(min(rests))} to {far(max(rests))} away" if rests else ""
    if any(isnan(v) for v in angles):
        missed = [str(i + 1) for i in order if played[i].shot.launch is None]
        return f"Ball {', '.join(missed)} was never met{'; ' + ends if ends else ''}."
    return (
        f"From ball {a + 1} to ball {b + 1} the start of the flight went from {decimal(angles[0])} to "
        f"{decimal(angles[1])} degrees, and {ends}."
    )


def _flight_junior(played: dict[int, Played], order: list[int]) -> str:
    low, high = _launch(played[order[0]]), _launch(played[order[-1]])
    if isnan(low) or isnan(high):
        return "One ball was missed."
    if abs(high - low) < 1.0:
        return "The balls flew much alike."
    return f"The balls at the {'front' if high > low else 'back'} flew higher."


def _found(best: dict[int, Best], played: dict[int, Played]) -> tuple[str, ...]:
    if not best:
        return ()
    order, out = sorted(best), []
    gains = {
        i: played[i].cloud.mean_strokes - best[i].cloud.mean_strokes
        for i in order
        if i in played and not isnan(best[i].cloud.mean_strokes)
    }
    if gains:
        most = max(gains, key=lambda i: gains[i])
        if gains[most] > NOTED:
            out.append(f"Most is to be won at ball {most + 1}: {gains[most]:.1f} strokes a try.")
        else:
            out.append("Your own settings are about as good as what the search found.")
    return tuple(out)


def _found_junior(best: dict[int, Best]) -> tuple[str, ...]:
    if len(best) < 2:
        return ()
    order = sorted(best)
    change = degrees(best[order[0]].rung.shaft_lean - best[order[-1]].rung.shaft_lean)
    if abs(change) < 1.0:
        return ("Front and back balls like the same lean.",)
    return (f"Balls at the {'back' if change > 0 else 'front'} like more lean.",)

"""Legal scenarios for hypothesis: every part of the model, every hazard, awkward numbers and texts."""

from typing import Any

from hypothesis import strategies as st

from levels.families import FAMILIES
from levels.parts import FILE_KEYS, file_value
from levels.scenario import Scenario
from levels.teaching import PREDICTIONS, STRIKES
from physics.address import CONTROLS
from physics.equipment import BAG
from physics.spread import PLAYERS
from physics.surfaces import SURFACES


def between(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


def words(most: int) -> st.SearchStrategy[str]:
    fine = st.characters(codec="utf-8", exclude_categories=("Cc", "Cs"))
    return st.text(fine | st.sampled_from('\n\t"\\#='), max_size=most)


def table(owner: str) -> st.SearchStrategy[dict[str, float]]:
    controls = [c for c in CONTROLS.values() if c.owner == owner]
    return st.fixed_dictionaries(
        {},
        optional={FILE_KEYS[c.name]: between(file_value(c, c.low), file_value(c, c.high)) for c in controls},
    )


@st.composite
def grounds(draw: st.DrawFn) -> tuple[list[dict[str, Any]], float]:
    """Points left to right through the ball at 0, and where their green is flat enough for a hole."""
    surface = st.sampled_from(sorted(SURFACES))
    behind = sorted(draw(st.sets(st.integers(-4000, -60), min_size=1, max_size=5)))
    ahead = sorted(draw(st.sets(st.integers(10, 3000), max_size=6)))
    green = max(ahead, default=10) + draw(st.integers(100, 500))
    end = green + draw(st.integers(300, 1500))
    places = [*behind, 0, *ahead, green, end]
    points = [{"x_m": x / 100, "y_m": draw(between(-0.05, 0.05)), "surface": draw(surface)} for x in places]
    points[len(behind)]["y_m"] = 0.0
    points[-2]["surface"] = "green"
    del points[-1]["surface"]
    return points, green / 100


@st.composite
def hazards(draw: st.DrawFn, hole: float, end: float) -> list[dict[str, Any]]:
    clear = st.sampled_from([hole / 2, hole + 1.6, -0.55])
    edges = sorted(draw(st.sets(st.integers(0, 40), max_size=6)))
    waters = [
        {"kind": "water", "left_m": end + a, "right_m": end + b, "level_m": draw(between(-30, 30))}
        for a, b in zip(edges[::2], edges[1::2], strict=False)
    ]
    others = st.one_of(
        st.fixed_dictionaries(
            {"kind": st.just("wall"), "x_m": clear, "height_m": between(0.05, 10)},
            optional={"thickness_m": between(0.02, 0.5)},
        ),
        st.fixed_dictionaries(
            {"kind": st.just("lip"), "x_m": clear, "height_m": between(0.01, 2)},
            optional={"overhang_m": between(0, 0.5)},
        ),
        st.fixed_dictionaries(
            {"kind": st.just("tree"), "x_m": clear, "trunk_m": between(0.5, 30), "radius_m": between(0.2, 9)},
            optional={"density": between(0, 1)},
        ),
        st.fixed_dictionaries({"kind": st.just("out_of_bounds"), "x_m": between(hole + 1, 150)}),
        st.just({"kind": "out_of_bounds", "x_m": -0.5, "side": "behind"}),
    )
    return draw(st.permutations([*waters, *draw(st.lists(others, max_size=4))]))


lines = words(30).filter(lambda t: t and not set(t) & set("\n\t"))
COUNTS = st.integers(1, 20)


def rising(low: float, high: float) -> st.SearchStrategy[list[float]]:
    """Two rising numbers."""
    pair = st.lists(between(low, high), min_size=2, max_size=2, unique=True).map(sorted)
    return pair.filter(lambda ends: ends[0] < ends[1])


def _owned(pinned: dict[str, float], owner: str) -> dict[str, float]:
    """The entries of one table."""
    return {FILE_KEYS[c.name]: pinned[FILE_KEYS[c.name]] for c in CONTROLS.values()
            if c.owner == owner and FILE_KEYS[c.name] in pinned}  # fmt: skip


@st.composite
def goals(draw: st.DrawFn) -> dict[str, Any]:
    kinds: dict[str, st.SearchStrategy[Any]] = {
        "leave_m": between(0.05, 20),
        "land_between_m": rising(0, 100),
        "ceiling_m": between(0.05, 20),
        "must_clear": st.fixed_dictionaries({"x_m": between(0.2, 100), "height_m": between(0.02, 20)}),
        "strike": st.sampled_from(STRIKES),
        "match_deg": between(0.5, 15),
    }
    asked = draw(st.lists(st.sampled_from(sorted(kinds)), min_size=1, unique=True))
    few, many = sorted((draw(COUNTS), draw(COUNTS)))
    return {kind: draw(kinds[kind]) for kind in asked} | {
        "shots": many, "successes": few, "in_a_row": draw(st.booleans()),
    }  # fmt: skip


@st.composite
def limits(draw: st.DrawFn, names: list[str]) -> tuple[dict[str, Any], dict[str, Any]]:
    """Limits of some open controls, and for each control of a table a value within them."""
    spans = {}
    for name in names:
        c = CONTROLS[name]
        if draw(st.booleans()):
            spans[FILE_KEYS[name]] = draw(rising(file_value(c, c.low), file_value(c, c.high)))
    inside = {key: between(*span) for key, span in spans.items()}
    return spans, inside


def questions() -> st.SearchStrategy[Any]:
    return st.none() | st.fixed_dictionaries(
        {
            "ask": lines,
            "choices": st.lists(lines, min_size=3, max_size=3, unique=True),
            "right": st.integers(1, 3),
            "because": words(40),
        }
    )


def values(names: list[str], inside: dict[str, Any]) -> st.SearchStrategy[dict[str, Any]]:
    """A value for some of the controls, within their limits."""
    whole = {FILE_KEYS[n]: between(*(file_value(CONTROLS[n], v) for v in (CONTROLS[n].low, CONTROLS[n].high)))
             for n in names}  # fmt: skip
    return st.fixed_dictionaries({}, optional=whole | inside)


@st.composite
def scenarios(draw: st.DrawFn) -> Scenario:
    ground, green = draw(grounds())
    hole = green + draw(between(0.06, 1.0))
    clubs = draw(st.lists(st.sampled_from(sorted(BAG)), unique=True))
    controls = draw(st.lists(st.sampled_from(sorted(CONTROLS)), unique=True))
    spans, inside = draw(limits(controls))
    pinned = draw(st.fixed_dictionaries(inside))
    reference = draw(values(controls, inside)) | ({"club": draw(st.sampled_from(clubs))} if clubs else {})
    data: dict[str, Any] = {
        "title": draw(words(20).filter(lambda t: t and not set(t) & set("\n\t"))),
        "player": draw(st.sampled_from(sorted(PLAYERS))),
        "clubs": clubs,
        "open_controls": controls,
        "limits": spans,
        "chapter": draw(words(20).filter(lambda t: not set(t) & set("\n\t"))),
        "order": draw(st.integers(1, 999)),
        "wind_m_per_s": draw(between(-20, 20)),
        "firmness": draw(between(0.5, 1.5)),
        "ground": ground,
        "hole": {"x_m": hole, "flagstick": draw(st.booleans())},
        "lie": draw(
            st.fixed_dictionaries(
                {}, optional={"surface": st.sampled_from(sorted(SURFACES)), "lift_mm": between(-30, 60)}
            )
        ),
        "hazards": draw(hazards(hole, ground[-1]["x_m"])),
        "default_setup": {
            **draw(table("setup")),
            **_owned(pinned, "setup"),
            "club": draw(st.sampled_from(clubs or sorted(BAG))),
        },
        "default_motion": {**draw(table("motion")), **_owned(pinned, "motion")},
        "goal": draw(goals()),
        "predict": draw(st.lists(st.sampled_from(PREDICTIONS), unique=True)),
        "hints": draw(st.lists(lines, max_size=3)),
        "question": draw(questions()),
        "reference": draw(st.sampled_from([None, {"family": draw(st.sampled_from(FAMILIES)), **reference}])),
        "lesson": {"before": draw(words(60)), "after": draw(words(60))},
    }
    speed = {"green_speed_m": between(1.2, 4.9), "green_speed_ft": between(4, 16)}
    data |= draw(st.sampled_from([{}, *({k: v} for k, v in speed.items())]).flatmap(st.fixed_dictionaries))
    return Scenario.model_validate(data)

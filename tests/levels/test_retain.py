"""Saving keeps what a person wrote, and never a value less or more than the data."""

import random
import tomllib
from collections.abc import Iterator
from itertools import count
from typing import Any

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st
from legal_scenarios import scenarios

from levels.draft import Draft, library_text
from levels.files import library, scenario_text
from levels.pieces import toml_sections
from levels.retain import same, text_with
from levels.revise import Revision
from levels.scenario import Scenario

WRITTEN = """# set on a windy day

format = 1 # the first
title = 'Willow'   # may change
wind_m_per_s = +1_0.50
ground = [
    # behind
    { x_m = -8.00, y_m = 0.0, surface = "fairway" }, # tee side

    # from here on measured

    # about two
    {x_m=2.0, y_m = 0, surface = "rough"},
    { x_m = 3.0, y_m = 0.10, surface = "green" }, # the green
    { x_m = 20.0, y_m = 0.10 } # end
    # closing
]
clubs = ["SW", "LW",]

# Where the cup is
[hole]
x_m = 6.0   # paced out

# why a goal
[goal]
leave_m = 2.0

# asked of juniors
[question]
ask = "q"

# how I would
[reference]
family = "low"
# the end
"""


def exact(original: str, data: dict[str, Any]) -> str:
    """The revised text, checked; not the one written anew."""
    text = Revision(original, tomllib.loads(original), data).revised()
    assert same(tomllib.loads(text), data)
    return text


def changed(*puts: tuple[tuple[str | int, ...], Any]) -> str:
    draft = Draft.parse(WRITTEN)
    for loc, value in puts:
        draft = draft.remove(loc) if value is None else draft.put(loc, value)
    return exact(WRITTEN, draft.data)


@pytest.mark.parametrize("name", library())
def test_unchanged_data_give_the_same_text(name: str) -> None:
    text = library_text(name)
    assert text_with(text, tomllib.loads(text)) == text
    assert "".join(map(str, toml_sections(text)[0])) + toml_sections(text)[1] == text


@settings(max_examples=60, deadline=None)
@given(scenarios(), scenarios())
def test_any_scenario_can_become_any_other(a: Scenario, b: Scenario) -> None:
    data = Draft.of(b).data
    text = exact(scenario_text(a), data)
    assert Draft.parse(text).scenario() == b
    assert same(tomllib.loads(text_with("", data)), data)


def test_one_number_changes_and_not_a_letter_else() -> None:
    assert changed((("ground", 2, "y_m"), 0.25)) == WRITTEN.replace(
        "x_m = 3.0, y_m = 0.10", "x_m = 3.0, y_m = 0.25"
    )
    assert changed((("title",), "Oak")) == WRITTEN.replace("'Willow'", '"Oak"')
    assert changed((("hole", "x_m"), 7)) == WRITTEN.replace("6.0   # paced", "7   # paced")
    assert changed((("clubs",), ["SW", "GW", "LW"])) == WRITTEN.replace('"SW", "LW",', '"SW", "GW", "LW",')
    assert changed((("clubs",), [])) == WRITTEN.replace('["SW", "LW",]', "[]")


def test_a_deleted_point_takes_its_own_comment_alone() -> None:
    text = changed((("ground", 1), None))
    assert text == WRITTEN.replace('    # about two\n    {x_m=2.0, y_m = 0, surface = "rough"},\n', "")
    text = changed((("ground", 0), None))
    assert "tee side" not in text
    assert "# from here on measured" in text


def test_a_new_point_stands_in_line() -> None:
    draft = Draft.parse(WRITTEN).insert(("ground", 3), {"x_m": 9.5, "y_m": 0.1, "surface": "green"})
    new = '    { x_m = 9.5, y_m = 0.1, surface = "green" },\n    { x_m = 20.0'
    assert exact(WRITTEN, draft.data) == WRITTEN.replace("    { x_m = 20.0", new)
    draft = Draft.parse(WRITTEN).insert(("ground", 4), {"x_m": 30.0})
    new = "    { x_m = 20.0, y_m = 0.10 }, # end\n    { x_m = 30.0 }\n    # closing"
    assert exact(WRITTEN, draft.data) == WRITTEN.replace(
        "    { x_m = 20.0, y_m = 0.10 } # end\n    # closing", new
    )


def test_a_new_key_goes_into_its_table_before_the_next_tables_comment() -> None:
    assert changed((("goal", "shots"), 3)) == WRITTEN.replace("leave_m = 2.0\n", "leave_m = 2.0\nshots = 3\n")
    assert changed((("order",), 3)) == WRITTEN.replace('"LW",]\n', '"LW",]\norder = 3\n')


def test_a_new_table_in_a_table_stands_behind_it() -> None:
    text = changed((("goal", "must_clear"), {"x_m": 3.0, "height_m": 1.0}))
    new = "leave_m = 2.0\n\n[goal.must_clear]\nx_m = 3.0\nheight_m = 1.0\n"
    assert text == WRITTEN.replace("leave_m = 2.0\n", new)


def test_a_deleted_table_takes_its_own_comment_alone() -> None:
    text = changed((("question",), None))
    assert "# asked of juniors" not in text
    assert text == WRITTEN.replace('\n# asked of juniors\n[question]\nask = "q"\n', "")


def test_all_points_moved_keep_their_comments() -> None:
    draft = Draft.parse(WRITTEN)
    for i in range(4):
        draft = draft.put(("ground", i, "x_m"), draft.at(("ground", i, "x_m")) - 1.0)
    text = exact(WRITTEN, draft.data)
    assert text.count("#") == WRITTEN.count("#")
    assert '{ x_m = 2.0, y_m = 0.10, surface = "green" }, # the green' in text


def test_hazards_that_change_places_take_their_comments_along() -> None:
    tables = "[[hazards]] # first\nkind = 'a'\n\n[[hazards]] # second\nkind = 'b' # bee\n"
    swapped = exact(tables, {"hazards": [{"kind": "b"}, {"kind": "a"}]})
    assert swapped.index("bee") < swapped.index("first")
    listed = "hazards = [\n  {kind='a'}, # first\n  {kind='b'}, # bee\n]\n"
    assert exact(listed, {"hazards": [{"kind": "b"}, {"kind": "a"}]}) == (
        "hazards = [\n  {kind='b'}, # bee\n  {kind='a'}, # first\n]\n"
    )


def test_a_table_of_an_array_can_go_and_come() -> None:
    text = "a = 1\n\n[[hazards]]\nkind = 'a' # one\n\n# kept apart\n\n# of b\n[[hazards]]\nkind = 'b'\n"
    text += "[hole]\nx = 1\n"
    assert exact(text, {"a": 1, "hazards": [{"kind": "a"}], "hole": {"x": 1}}) == (
        "a = 1\n\n[[hazards]]\nkind = 'a' # one\n\n# kept apart\n\n[hole]\nx = 1\n"
    )
    more = exact(text, {"a": 1, "hazards": [{"kind": "a"}, {"kind": "b"}, {"kind": "c"}], "hole": {"x": 1}})
    assert more == text.replace("[hole]", '\n[[hazards]]\nkind = "c"\n[hole]')


def test_windows_line_ends_stay() -> None:
    windows = WRITTEN.replace("\n", "\r\n")
    draft = (
        Draft.parse(windows).put(("goal", "must_clear"), {"x_m": 1.0}).insert(("ground", 4), {"x_m": 30.0})
    )
    text = exact(windows, draft.data)
    assert text.count("\r\n") == text.count("\n") > windows.count("\n")


def test_a_text_without_an_end_of_line_is_no_trap() -> None:
    assert exact("a = 1 # last", {"a": 1, "b": 2}) == "a = 1 # last\nb = 2\n"
    assert exact("[t] # only a head", {"t": {"b": {"c": 2}}}) == "[t] # only a head\n\n[t.b]\nc = 2\n"


def test_comments_of_a_text_without_values_stay() -> None:
    assert text_with("# nothing yet\n", {"a": 1}) == "# nothing yet\na = 1\n"
    assert exact("a = [ # none\n]\n", {"a": [1]}) == "a = [ # none\n    1,\n]\n"


def test_what_cannot_be_revised_is_written_anew_under_its_comments() -> None:
    odd = "# of the list\n[[e]] # e\na.y = 1 # dotted\n[[e]]\nn = '''\n# no comment\n'''\n"
    odd += "l = [ # in\n 1, # one\n]\n"
    data = {"e": [{"a": {"y": 1, "m": {"o": 1}}}, {"n": "# no comment\n", "l": [1]}]}
    assert not same(tomllib.loads(Revision(odd, tomllib.loads(odd), data).revised()), data)
    text = text_with(odd, data)
    assert same(tomllib.loads(text), data)
    assert text.startswith("# of the list\n# e\n# dotted\n# in\n# one\n\n")
    assert text.count("# no comment") == 1


@pytest.mark.parametrize(
    "value",
    [
        -0.0,
        1e300,
        5e-324,
        10**40,
        float("inf"),
        "a\r\nb",
        "\n",
        '"""',
        "'''\n\\",
        "\x7f\x1b",
        "\U0001f3cc",
        "\u2028",
    ],
)
def test_awkward_values_read_back_exactly(value: Any) -> None:
    for where in (value, [value], {"in": value}, [{"in": [value]}]):
        assert same(
            tomllib.loads(exact("k = 1 # c\n", {"k": where, "new": where})), {"k": where, "new": where}
        )


KEYS = st.sampled_from(["a", "b", "c", "d e", "\xe9", ""])
PLAIN = (
    st.integers(-(10**20), 10**20)
    | st.floats()
    | st.booleans()
    | st.text(st.characters(codec="utf-8") | st.sampled_from("\n\r\t\"'\\#"), max_size=8)
    | st.datetimes().map(lambda t: t.replace(fold=0))
)
VALUES = st.recursive(
    PLAIN, lambda v: st.lists(v, max_size=4) | st.dictionaries(KEYS, v, max_size=3), max_leaves=8
)
TABLES = st.dictionaries(KEYS, VALUES, max_size=5)


@settings(max_examples=150, deadline=None)
@given(TABLES, TABLES, st.booleans())
def test_any_data_can_become_any_other(a: dict[str, Any], b: dict[str, Any], windows: bool) -> None:
    text = tomli_w.dumps(a)
    exact(text.replace("\n", "\r\n") if windows else text, b)


def with_comments(text: str, rng: random.Random) -> Iterator[str]:
    """The lines of the text with numbered comments between and behind them, where TOML allows any."""
    number, quoted = count(1), False
    for line in text.splitlines():
        if not quoted and rng.random() < 0.3:
            yield f"  # remark {next(number)}."
        quoted ^= line.count('"""') % 2 == 1
        behind = (
            not quoted and rng.random() < 0.3 and (line.endswith(('"', ",", "]", "[")) or line[-1:].isdigit())
        )
        yield f"{line} # remark {next(number)}." if behind else line


@pytest.mark.parametrize("seed", range(12))
def test_no_comment_is_lost_while_values_change(seed: int) -> None:
    rng = random.Random(seed)
    plain = library_text(rng.choice(library()))
    text = "\n".join(with_comments(plain, rng)) + "\n"
    data = tomllib.loads(text)
    assert same(data, tomllib.loads(plain))
    draft = Draft(data)
    for i, point in enumerate(data["ground"]):
        draft = draft.put(("ground", i, "y_m"), point["y_m"] + rng.random())
    draft = (
        draft.put(("title",), "Another").put(("lesson", "before"), "Other\nwords").put(("hole", "x_m"), 9.25)
    )
    draft = draft.put(("goal", "shots"), 7).put(("default_setup", "stance_width_cm"), 11.5)
    result = exact(text, draft.data)
    for n in range(1, text.count("# remark") + 1):
        assert f"# remark {n}." in result


FRAGMENTS = (
    "# c\n", "\n", "a.x = 1 # k\n", "a.y.z = [1, # one\n 2 ]\n", "[c]\n", "[c.d]\nv=1\n",
    "b = { p = 1, q = [ {r=2}, {r=3, s.t=4} ] } # b\n", "[[e]] # e\n  n = 1 # n\n", "[[e]]\nn = 2\n",
    "[[e.f]]\nm = 3\n", "[e.g]\nh = 1\n", 'w = """\nab\n"""\n', "s = 'x'   \n", "t = []\n",
    "list = [\n  # first\n  1,\n\n  # all\n\n  2, # two\n  3 # three\n # last\n]\n", "u = [ # hm\n]\n",
    "[[e]]\n# only\n", "[k]\n", "  ind = 1\n", "  hex = 0x10 # hex\n", "[h.i.j]\nz = 1\n", "[h]\nq=2\n",
    "fl = 1_0.5e0\n", "d = 1979-05-27 07:32:00Z # d\n", "o = [[1, 2], # r\n [3]]\n",
)  # fmt: skip
NEW = (
    1,
    2.5,
    -0.0,
    "a",
    "l\nm",
    True,
    [],
    [1, 2],
    {},
    {"o": 1},
    [{"o": {"p": 1}}],
    [[1], [2]],
    {"o": {"q": {}}},
)


def mutated(value: Any, rng: random.Random) -> Any:
    """The value with a few entries changed, gone, come or in another order."""
    if isinstance(value, dict):
        kept = {
            k: mutated(v, rng) if rng.random() < 0.5 else v for k, v in value.items() if rng.random() > 0.12
        }
        return kept | ({rng.choice("xyzmnqab"): rng.choice(NEW)} if rng.random() < 0.25 else {})
    if isinstance(value, list):
        kept_items = [mutated(v, rng) if rng.random() < 0.4 else v for v in value if rng.random() > 0.2]
        if rng.random() < 0.35:
            kept_items.insert(rng.randint(0, len(kept_items)), rng.choice(NEW))
        if rng.random() < 0.15:
            rng.shuffle(kept_items)
        return kept_items
    return rng.choice(NEW) if rng.random() < 0.5 else value


def test_unusual_texts_are_revised_too_nearly_always() -> None:
    tried = anew = 0
    for seed in range(3000):
        rng = random.Random(seed)
        text = "".join(rng.choices(FRAGMENTS, k=rng.randint(1, 9))).rstrip("\n" if rng.random() < 0.2 else "")
        text = text.replace("\n", "\r\n") if rng.random() < 0.2 else text
        try:
            old = tomllib.loads(text)
        except ValueError:
            continue
        data = mutated(old, rng)
        assert same(tomllib.loads(text_with(text, data)), data)
        tried += 1
        try:
            anew += not same(tomllib.loads(Revision(text, old, data).revised()), data)
        except ValueError:
            anew += 1
    assert tried > 1500
    assert anew <= tried / 200

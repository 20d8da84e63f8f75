"""Hostile files: sound bases, ways to break them, and the texts that cost a reader most.

Run as a program it opens every costly text and prints by how many MB the memory grew.
"""

import os
import random
import sys
import tomllib
from collections.abc import Callable, Iterator
from contextlib import suppress
from copy import deepcopy
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

import tomli_w

__all__ = ["COSTLY", "FILE_NAMES", "LEAST", "broken_pack", "broken_scenario", "places_in"]

LEAST = """format = 1
title = "Least"
hole = { x_m = 5 }
goal = { leave_m = 1 }
ground = [
  { x_m = -1, y_m = 0, surface = "fairway" }, { x_m = 1, y_m = 0, surface = "green" }, { x_m = 9, y_m = 0 },
]
"""
FULLER = """# a coach's own note
format = 1
title = "Über den Graben"
clubs = ["SW", "LW"]
open_controls = ["shaft_lean", "swing_length"]
hints = ["Look at the sole."]
predict = ["landing"]
ground = [
  { x_m = -2, y_m = 0, surface = "rough" }, { x_m = 2, y_m = 0, surface = "green" }, { x_m = 12, y_m = 0.2 },
]
[limits]
shaft_lean_deg = [0, 12]
[hole]
x_m = 8
flagstick = false
[lie]
lift_mm = -2.5
[[hazards]]
kind = "wall"
x_m = 10
height_m = 0.4
[[hazards]]
kind = "water"
left_m = 13
right_m = 14.5
level_m = -0.5
[default_setup]
club = "SW"
shaft_lean_deg = 4
[goal]
land_between_m = [3, 6]
shots = 3
[lesson]
before = '''
Brush the grass.
"Then" look up.'''
[question]
ask = "Why?"
choices = ["a", "b", "c"]
right = 1
"""
PACK: dict[str, Any] = {
    "pack": 1,
    "title": "Winter",
    "from": "Keep it simple.\nSee you soon.",
    "plan": {
        "made": date(2025, 11, 25), "focus": ["Brush"], "drill": "Ten from the mat", "shots": 10,
        "successes": 6, "retest": date(2025, 12, 5),
    },
    "member": [{"name": "first", "text": LEAST}, {"name": "over-the-dyke", "text": FULLER}],
}  # fmt: skip
SCENARIOS: list[dict[str, Any]] = [tomllib.loads(LEAST), tomllib.loads(FULLER)]

DIGITS, DEEP = "@digits@", "@deep@"
RAW = {f'"{DIGITS}"': "9" * 5000, f'"{DEEP}"': "[" * 300 + "]" * 300}
NAMES = [
    "../../x", "..", "C:\\x", "C:x", "a/b", "/etc/x", "a\\b", "x\u0000", "\u202egnp.x", "con", "NUL", "com1",
    "", " ", ".", "-", "~", "$HOME", "%PATH%", "x" * 61, "x" * 5000, "FIRST", "first", "é", "a\nb", "a:b",
]  # fmt: skip
ODD: list[Any] = [
    True, False, -1, 0, 61, 10**30, 10**400, 1e308, -1e308, 5e-324, -0.0, float("nan"), float("inf"),
    float("-inf"), "", "green", "1", "\u202e\u200f", "\ufeff", "'''", '"""', "x" * 5000, "\r\n\t", "\\",
    [], {}, [[]], [{}], [[[[[1]]]]], {"a": {"b": {"c": {}}}}, {"kind": "water"}, [1.0] * 600, ["SW"] * 70,
    DIGITS, DEEP, date(2025, 2, 28), date(9999, 12, 31), date(1, 1, 1), datetime(2025, 11, 25, 7, 32),
    time(7, 32), *NAMES,
]  # fmt: skip
KEYS = [
    "x_m", "kind", "new.key", "surface", "", "format", "pack", "member", "name", "text", "plan", "__class__",
    "model_fields", "\u202e", "a b", "é", "x" * 300,
]  # fmt: skip
LINES = [
    "a.b.c = 1", "a." * 40 + "a = 1", "[ground]", "[[ground]]", "[goal.must_clear]", "[goal]", "format = 1",
    'title = "again"', "x = 2025-02-30", "x = 25:61:00", "= 1", "x =", "x = 0x", "x = 1e", "x = +-1",
    "x = nan", "x = 1e400", "x = " + "9" * 5000, "x = " + "[" * 2000, "x = " + "{a=" * 400,
    '"\\u202e" = 1', '"\\uD800" = 1', "x = '''", 'x = """', "x = \"\\", "\u202e = 1", "\x00", "\x1b[2J",
    "x = 1\rx = 2", "[[member]]", "[plan]", "member = 1", "[member]", "#" * 3000, "x.y = 1\nx = 2",
    "[a]\nb.c = 1\n[a.b]", "{}", "[]", "[[[a]]]", "\ufeff",
]  # fmt: skip
SIGNS = [b'"', b"[", b"]", b"{", b"}", b"=", b".", b"\n", b"#", b"'''", b'"""', b"-", b"9e999", b"\x00",
         b"\r", b"\xff", b"\xc3", b"\xed\xa0\x80", b"\xef\xbb\xbf", b"\xe2\x80\xae", b"\\"]  # fmt: skip
FILE_NAMES = [
    "plain", "con", "NUL", "Com1", "..", "...", "-rf", "~", "C:x", "C:\\x", "a\\b", "a b", "x\u202egnp", "é",
    "ß", "汉字", "x" * 200, "a\nb", "$(x)", "%TEMP%", "a:b", "*", "?", "'", '"', "PLAIN", "Plain", ".hidden",
    "a.toml", "a.pack", "\udcff",
]  # fmt: skip


def _dumped(data: dict[str, Any]) -> str:
    text = tomli_w.dumps(data)
    for sign, raw in RAW.items():
        text = text.replace(sign, raw)
    return text


def places_in(node: Any) -> Iterator[tuple[Any, Any]]:
    """Every place of a tree as (its dict or list, key), outer ones first."""
    for key in list(node) if isinstance(node, dict) else range(len(node)):
        yield node, key
        if isinstance(node[key], (dict, list)):
            yield from places_in(node[key])


def _structure(data: dict[str, Any], chance: random.Random) -> None:
    """One value somewhere in the tree replaced, dropped, repeated, renamed, swapped or buried."""
    places = list(places_in(data))
    if not places:
        return
    node, key = chance.choice(places)
    match chance.randrange(7):
        case 0:
            del node[key]
        case 1 if isinstance(node, dict):
            node[chance.choice(KEYS)] = node.pop(key)
        case 2 if isinstance(node, list):
            node.insert(key, deepcopy(node[chance.randrange(len(node))]))
        case 3:
            other, there = chance.choice(places)
            node[key] = deepcopy(other[there])
        case 4:
            node[key] = chance.choice([[deepcopy(node[key])], {"a": deepcopy(node[key])}])
        case 5 if isinstance(node, dict):
            node[chance.choice(KEYS)] = deepcopy(chance.choice(ODD))
        case _:
            node[key] = deepcopy(chance.choice(ODD))


def _lines(text: str, chance: random.Random) -> str:
    """Lines repeated, moved, dropped, or hostile ones put between."""
    lines = text.split("\n")
    for _ in range(chance.randint(1, 3)):
        at = chance.randrange(len(lines))
        match chance.randrange(4):
            case 0:
                lines.insert(at, chance.choice(lines))
            case 1:
                lines.insert(at, lines.pop(chance.randrange(len(lines))))
            case 2 if len(lines) > 1:
                del lines[at]
            case _:
                lines.insert(at, chance.choice(LINES))
    return "\n".join(lines)


def _bytes(raw: bytes, chance: random.Random) -> bytes:
    """Bytes flipped, cut out, put in, spliced; the tail cut off."""
    work = bytearray(raw)
    for _ in range(chance.randint(1, 5)):
        at = chance.randrange(len(work) or 1)
        match chance.randrange(6):
            case 0 if work:
                work[at] = chance.randrange(256)
            case 1:
                del work[at : at + chance.randint(1, 40)]
            case 2:
                work[at:at] = chance.choice(SIGNS)
            case 3:
                other = chance.randrange(len(work) or 1)
                work[at:at] = work[other : other + chance.randint(1, 60)]
            case 4 if work:
                work[at] ^= 1 << chance.randrange(8)
            case _ if chance.randrange(4) == 0:
                del work[at:]
    return bytes(work)


ENCODINGS: list[Callable[[str], bytes]] = [
    lambda t: t.encode("utf-16"), lambda t: t.encode("utf-16-le"), lambda t: t.encode("utf-32"),
    lambda t: t.encode("latin-1", "replace"), lambda t: t.encode("cp1252", "replace"),
    lambda t: t.encode("utf-8-sig"), lambda t: b"\xef\xbb\xbf" + t.encode("utf-8-sig"),
    lambda t: t.replace("\n", "\r\n").encode(), lambda t: t.replace("\n", "\r").encode(),
    lambda t: t.replace("\n", "\u2028").encode(), lambda t: t.encode("utf-7"), lambda t: b"\x00" * len(t),
    lambda t: t.encode("utf-8") + b"\x1a", lambda _: b"",
]  # fmt: skip


def _broken(data: dict[str, Any], chance: random.Random) -> bytes:
    kind = chance.randrange(10)
    for _ in range(chance.choice((1, 1, 2, 3)) if kind < 6 else 0):
        _structure(data, chance)
    text = _dumped(data)
    if kind in (5, 6, 7):
        text = _lines(text, chance)
    if kind == 9:
        return chance.choice(ENCODINGS)(text)
    raw = text.encode("utf-8", "surrogatepass")
    return _bytes(raw, chance) if kind == 8 else raw


def broken_scenario(chance: random.Random) -> bytes:
    """A scenario file with something done to it."""
    return _broken(deepcopy(chance.choice(SCENARIOS)), chance)


def broken_pack(chance: random.Random) -> bytes:
    """A pack with something done to it or to one of its members."""
    data = deepcopy(PACK)
    for member in data["member"]:
        if chance.randrange(3) == 0:
            member["text"] = broken_scenario(chance).decode("utf-8", "replace")
    if chance.randrange(3) == 0:
        chance.choice(data["member"])["name"] = chance.choice(NAMES)
    if chance.randrange(3) == 0:
        days: list[Any] = [date(2025, 12, 31), "2025-11-26", "tomorrow", datetime(2025, 12, 1, 1), 3]
        data["plan"][chance.choice(["made", "retest"])] = chance.choice(days)
    return _dumped(data).encode() if chance.randrange(3) == 0 else _broken(data, chance)


# ---- texts that cost most, each near the most that is allowed


def _pack_of(*texts: str, quote: str = "'''") -> str:
    told = (f"[[member]]\nname = 'm{i}'\ntext = {quote}{text}{quote}\n" for i, text in enumerate(texts))
    return "pack = 1\ntitle = 'x'\n" + "".join(told)


MANY, MB, MB5, SIXTIETH = 190_000, 990_000, 4_900_000, 80_000  # characters
_LONG_KEY = ".".join("abcdef")
COSTLY: dict[str, Callable[[], str]] = {
    "list of zeros": lambda: f"{LEAST}hazards = [{'0,' * (MANY // 2)}]",
    "list of tables": lambda: f"{LEAST}hazards = [{'{},' * (MANY // 3)}]",
    "many keys": lambda: LEAST + "".join(f"k{i}=1\n" for i in range(MANY // 9)),
    "many tables": lambda: LEAST + "".join(f"[t{i}]\n" for i in range(MANY // 9)),
    "many arrays of tables": lambda: LEAST + "[[hazards]]\n" * (MANY // 12),
    "many dotted keys": lambda: LEAST + "".join(f"{_LONG_KEY}{i}=1\n" for i in range(MANY // 20)),
    "many long tables": lambda: LEAST + "".join(f"[{_LONG_KEY}{i}]\n" for i in range(MANY // 20)),
    "many nested lists": lambda: LEAST + "".join(f"a{i}={'[' * 90}{']' * 90}\n" for i in range(MANY // 190)),
    "one inline table": lambda: f"{LEAST}q={{{','.join(f'a{i}=1' for i in range(MANY // 9))}}}",
    "floats": lambda: f"{LEAST}q=[{'1e9,' * (MANY // 4)}]",
    "long numbers": lambda: f"{LEAST}q=[{('9' * 4290 + ',') * (MANY // 4300)}]",
    "endless number": lambda: f"{LEAST}wind_m_per_s = {'9' * 100_000}",
    "endless fraction": lambda: f"{LEAST}wind_m_per_s = 0.{'9' * (MANY - 100)}",
    "dates": lambda: f"{LEAST}q=[{'1979-05-27T07:32:00Z,' * (MANY // 21)}]",
    "escaped dots": lambda: '"\\"".' * (MANY // 7) + "a = 1",
    "quoted dots": lambda: "''." * (MANY // 3) + "a = 1",
    "dots": lambda: "a." * (MANY // 2) + "a = 1",
    "deep lists": lambda: "a = " + "[" * MANY,
    "deep tables": lambda: "a = " + "{a=" * (MANY // 3),
    "long text": lambda: f'{LEAST}chapter = "{"a" * MB}"'[:MB] + '"',
    "long lines": lambda: f'{LEAST}chapter = """{"a " * (MB // 3)}"""',
    "long plain text": lambda: f"{LEAST}chapter = '''{chr(39).join('a' * (MB // 3))}'''",
    "escapes": lambda: f'{LEAST}chapter = "{chr(92)}n{"".join([chr(92) + "n"] * (MANY - 200))}"',
    "escapes in a key": lambda: f'{LEAST}"{"".join([chr(92) + "n"] * (MANY - 200))}" = 1',
    "comments": lambda: LEAST + "#\n" * (MANY - 500),
    "spaces": lambda: f"{LEAST}x{' ' * (MANY - 500)}= 1",
    "quotes": lambda: LEAST + "\"'" * (MB // 3),
    "open quotes": lambda: '\\"""\n' * (MB // 5),
    "lone quotes": lambda: '"\n' * (MANY - 500),
    "pack of zeros": lambda: _pack_of(*[f"{LEAST}hazards=[{'0,' * (SIXTIETH // 2)}]"] * 60),
    "pack of keys": lambda: _pack_of(
        *[LEAST + "".join(f"k{i}=1\n" for i in range(SIXTIETH // 9))] * 60
    ),
    "pack of nested lists": lambda: _pack_of(
        *[LEAST + "".join(f"a{i}={'[' * 90}{']' * 90}\n" for i in range(SIXTIETH // 190))] * 60
    ),
    "pack of two": lambda: _pack_of(*[LEAST + "".join(f"k{i}=1\n" for i in range(MANY // 9))] * 2),
    "pack of comments": lambda: _pack_of(*[LEAST + "#\n" * (SIXTIETH // 2)] * 60),
    "pack of long texts": lambda: _pack_of(*[f'{LEAST}chapter = """{"a" * SIXTIETH}"""'] * 60),
    "pack of long comments": lambda: _pack_of(*[LEAST + "#" * (MB - 9_000)] * 5),
    "pack of escapes": lambda: _pack_of(*[LEAST + "\\n" * (MANY // 12)] * 5, quote='"""'),
    "pack of quotes": lambda: "pack = 1\ntitle = 'x'\n" + "'" * MB5,
    "pack of open quotes": lambda: "pack = 1\ntitle = 'x'\n" + '\\"""\n' * (MB5 // 5),
    "pack of lines": lambda: "pack = 1\ntitle = 'x'\nzz = '''" + "\n" * MB5 + "'''",
    "pack with a long key": lambda: f'pack = 1\n"{"a" * MB5}" = 1',
    "pack of sixty-one": lambda: _pack_of(*[LEAST] * 61),
    "pack of small ones": lambda: _pack_of(*[""] * (MANY // 40)),
    "pack of grounds": lambda: _pack_of(
        *[LEAST.replace("{ x_m = 1,", "{ x_m = 1, y_m = 0, surface = 'x' },\n" * 490 + "{ x_m = 1,")] * 60
    ),
}  # fmt: skip


def main() -> None:
    """Open every costly text from a file; print the growth of memory (MB) since the first, sound one."""
    import resource

    from levels.packs import read_pack
    from levels.reading import ScenarioError

    path = Path(sys.argv[1])
    unit = 1e6 if sys.platform == "darwin" else 1e3  # bytes there, kB here
    path.write_text(_dumped(deepcopy(PACK)), encoding="utf-8")
    read_pack(path)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for made in COSTLY.values():
        pid = os.fork()  # so that the text of one is not counted for the next, and the making not at all
        if pid == 0:
            path.write_text(made(), encoding="utf-8")
            os._exit(0)
        os.waitpid(pid, 0)
        with suppress(ScenarioError):
            read_pack(path)
    print((resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / unit)


if __name__ == "__main__":
    main()

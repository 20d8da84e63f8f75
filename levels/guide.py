"""The guide to the files: a scenario and a pack with every key explained, and files to begin from.

`python -m levels.guide` writes guide.md anew. What it says of a key is what the reader checks, so a limit
can stand here only as it is.
"""

import re
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from importlib.resources import files
from pathlib import Path

from levels.annotate import GuidePart, annotated, toml_of
from levels.packs import PackTable
from levels.parts import Part
from levels.scenario import Scenario
from levels.whole_file import replace_file

__all__ = ["GuideChapter", "guide", "guide_text", "new_pack_text", "new_scenario_text", "write_guide"]

WEEK = 7  # days from a plan to its retest, assumed: lessons are weekly
TITLE = "Scenarios and packs, with every key"
ABOUT = """A scenario is a text file in TOML: `key = value`, tables under `[headers]`, comments after `#`.
The Builder writes such files, reads those written by hand, and keeps their comments.
Distances are metres from the ball, + toward the target. Keys name their unit: _m, _cm, _mm, _deg, _percent.
A wrong key or value is told with its line, its key and what is allowed."""
STEPS = """`fringework new mine.toml` writes a small scenario to begin from; with `--pack`, a pack.
`fringework check mine.toml` says what is wrong with it.
`fringework check mine.toml --prove` says whether it can be solved, and which control to open if not.
`fringework check mine.toml --prove --save` keeps the proof in the file.
`fringework pack out.pack.toml mine.toml --title "Mine"` puts it into one file to share.
In the Builder, Ctrl+O opens it, P plays it, and F1 shows this page."""
SCENARIO = "Every key once. Real scenarios need far fewer, and open two or three controls."
PACK = "Scenarios in playing order in one file, with or without a practice plan."
NEW = (
    "# {what} Change it, then let it be checked: fringework check {name}\n"
    "# Every key there is: F1 in the Builder, or levels/guide.md.\n"
)


@dataclass(frozen=True)
class GuideChapter:
    """A page's worth: its title, what is said first, and the annotated parts."""

    title: str
    words: str
    parts: tuple[GuidePart, ...] = ()


@cache
def guide() -> tuple[GuideChapter, ...]:
    """All of the guide: how to begin, the scenario, the pack."""
    return (
        GuideChapter("How to begin", f"{ABOUT}\n{STEPS}".replace("`", "")),
        GuideChapter("A scenario", SCENARIO, annotated(_example("scenario.toml"), Scenario)),
        GuideChapter("A pack", PACK, annotated(_example("pack.toml"), PackTable)),
    )


def guide_text() -> str:
    """The guide as Markdown, as kept in guide.md."""
    out = [f"# {TITLE}", ABOUT, "\n".join(f"- {step}" for step in STEPS.splitlines())]
    for chapter in guide()[1:]:
        out += [f"## {chapter.title}", chapter.words]
        for part in chapter.parts:
            out += [f"### {part.title}", *filter(None, [part.words]), f"```toml\n{toml_of(part)}```"]
    return "\n\n".join(out) + "\n"


def new_scenario_text(name: str) -> str:
    """A small scenario to begin from, every key explained; `name` is its file's."""
    return _commented(NEW.format(what="A scenario to begin from.", name=name), "new.toml", Scenario)


def new_pack_text(name: str, made: date) -> str:
    """A pack to begin from: one scenario and a practice plan made on that day."""
    text = _commented(NEW.format(what="A pack to begin from.", name=name), "pack.toml", PackTable)
    days = {"made": made, "retest": made + timedelta(WEEK)}
    for key, day in days.items():
        text = re.sub(rf"^{key} = .*$", f"{key} = {day}", text, flags=re.MULTILINE)
    return text


def _commented(head: str, example: str, model: type[Part]) -> str:
    out = [head]
    for part in annotated(_example(example), model, whole=False):
        said = [f"---- {part.title}", *part.words.splitlines()]
        out.append("".join(f"# {line}\n" for line in said) + toml_of(part))
    return "\n".join(out)


def _example(name: str) -> str:
    return (files("levels") / "examples" / name).read_text(encoding="utf-8")


def write_guide() -> None:
    """Write guide.md beside this module."""
    replace_file(Path(__file__).with_name("guide.md"), guide_text())


if __name__ == "__main__":
    write_guide()

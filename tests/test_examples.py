"""The examples in the docstrings of physics and levels run, and what a stranger calls first has one."""

import doctest
from importlib import import_module
from pkgutil import walk_packages

import pytest

import levels
import physics

MODULES = sorted(
    module.name
    for package in (physics, levels)
    for module in walk_packages(package.__path__, f"{package.__name__}.")
)
FIRST_CALLED = (
    "physics.address.Control", "physics.address.Intention", "physics.address.Motion",
    "physics.address.Setup", "physics.cause.lean_match", "physics.cloud.cloud",
    "physics.course.level_course", "physics.equipment.club_named", "physics.putting.strokes_left",
    "physics.repair.repairs", "physics.shot.play", "physics.spread.draw_strays",
    "levels.chapters.builtin_chapters", "levels.draft.Draft", "levels.facts.success_share",
    "levels.files.load_library", "levels.files.parse_scenario", "levels.files.read_scenario",
    "levels.packs.pack_text", "levels.packs.read_pack", "levels.prove.proved",
    "levels.shotfile.shot_to_json",
)  # fmt: skip


def examples_of(module: str) -> list[doctest.DocTest]:
    found = doctest.DocTestFinder(exclude_empty=True).find(import_module(module), module)
    return [test for test in found if test.examples]


@pytest.mark.parametrize("module", MODULES)
def test_examples_run(module: str) -> None:
    runner = doctest.DocTestRunner(verbose=False, optionflags=doctest.REPORT_NDIFF)
    said: list[str] = []
    for test in examples_of(module):
        runner.run(test, out=said.append)
    assert runner.summarize(verbose=False).failed == 0, "".join(said)


@pytest.mark.parametrize("name", FIRST_CALLED)
def test_what_is_called_first_has_an_example(name: str) -> None:
    assert name in [test.name for test in examples_of(name.rsplit(".", 1)[0])]

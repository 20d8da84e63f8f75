"""Any order of edits, undo, redo, saves and openings: the desk equals a plain list of drafts."""

import tomllib
from copy import deepcopy
from pathlib import Path
from random import Random
from shutil import rmtree
from tempfile import mkdtemp
from typing import Any

import pytest
from any_edit import EDITS
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from game.builder.model.document import Document
from game.builder.model.edits import STARTS, drag, handles
from game.builder.model.recovery import FOLDER
from levels.draft import Draft
from levels.files import ScenarioError, library, read_scenario
from levels.retain import same

SEEDS = st.integers(0, 2**32)


class Work(RuleBasedStateMachine):
    """`line`: copies of the data after each step; `at`: the place in it; `on_disk`: what was last saved."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(mkdtemp())
        self.document = Document(self.folder / "home")
        self.line: list[dict[str, Any]] = []
        self.at, self.on_disk = 0, dict[str, Any]()

    def begun(self) -> None:
        self.line, self.at = [deepcopy(self.document.draft.data)], 0
        self.on_disk = deepcopy(self.line[0])

    def stepped(self) -> None:
        self.document.autosave()
        now, history = deepcopy(self.document.draft.data), self.document.history
        if same(now, self.line[self.at]):
            del self.line[self.at + 1 if not history.can_redo else len(self.line) :]
        else:
            del self.line[self.at + 1 :]
            self.line.append(now)
            self.at += 1

    @initialize(name=st.sampled_from([*STARTS, *library()]))
    def begin(self, name: str) -> None:
        if name in STARTS:
            self.document.new(name)
        else:
            self.document.load_builtin(name)
        self.begun()

    @rule(name=st.sampled_from(sorted(EDITS)), seed=SEEDS)
    def edit(self, name: str, seed: int) -> None:
        self.document.history.do(name, EDITS[name](self.document.draft, Random(seed)))
        self.stepped()

    @rule(seed=SEEDS, pulls=st.integers(1, 4))
    def drag(self, seed: int, pulls: int) -> None:
        rng, start = Random(seed), self.document.draft
        handle = rng.choice(handles(start))
        self.document.history.settle()
        for _ in range(pulls):
            moved = drag(start, handle, rng.uniform(-10, 25), rng.uniform(-2, 3))
            self.document.history.do("drag", moved, "drag")
        self.document.history.settle()
        self.stepped()

    @rule()
    def undo(self) -> None:
        assert self.document.history.undo() == (self.at > 0)
        self.at = max(self.at - 1, 0)
        self.document.autosave()

    @rule()
    def redo(self) -> None:
        assert self.document.history.redo() == (self.at < len(self.line) - 1)
        self.at = min(self.at + 1, len(self.line) - 1)
        self.document.autosave()

    @rule()
    def undo_to_the_beginning(self) -> None:
        while self.document.history.undo():
            self.at -= 1
        assert self.at == 0
        self.document.autosave()

    @rule(name=st.sampled_from(["a", "b"]))
    def save(self, name: str) -> None:
        path = self.folder / f"{name}.toml"
        before = path.read_bytes() if path.exists() else None
        if self.document.draft.problems():
            with pytest.raises(ScenarioError):
                self.document.save_as(path)
            assert (path.read_bytes() if path.exists() else None) == before
        else:
            self.document.save_as(path)
            self.on_disk = deepcopy(self.line[self.at])
            assert same(tomllib.loads(path.read_text(encoding="utf-8")), self.on_disk)

    @precondition(lambda self: self.document.path is not None)
    @rule()
    def reload(self) -> None:
        self.document.open(self.document.path)
        assert same(self.document.draft.data, self.on_disk)
        self.begun()

    @invariant()
    def the_desk_equals_the_list(self) -> None:
        if not self.line:
            return
        assert same(self.document.draft.data, self.line[self.at])
        history = self.document.history
        assert (history.can_undo, history.can_redo) == (self.at > 0, self.at < len(self.line) - 1)
        assert self.document.dirty == (not same(self.line[self.at], self.on_disk))

    @invariant()
    def unsaved_work_is_kept_and_nothing_else(self) -> None:
        kept = list((self.folder / "home" / FOLDER).glob("*.json"))
        assert len(kept) == (1 if self.document.dirty else 0)

    @invariant()
    def every_file_is_a_valid_scenario(self) -> None:
        for path in self.folder.glob("*.toml"):
            assert Draft.of(read_scenario(path)).problems() == ()

    def teardown(self) -> None:
        while self.document.history.undo():
            pass
        assert not self.line or same(self.document.draft.data, self.line[0])
        self.document.close()
        rmtree(self.folder)


Work.TestCase.settings = settings(max_examples=25, stateful_step_count=40, deadline=None)
TestWork = Work.TestCase

"""An answer before it is written: the lines, which of them are struck, and what the pupil adds."""

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from game.handout import put_new
from game.library.notebook.pages import attempts_of, outside_of
from game.library.notebook.store import Notebook
from game.library.safe_names import plain_name
from levels.answers import MOST_LINES, MOST_OUTSIDE, AnswerFile, answer_of, answer_text, parse_answer
from levels.attempts import Attempt

__all__ = ["AnswerDraft", "draft_of", "write_draft"]

Told = tuple[date, int, int]  # day, shots, came off


@dataclass(frozen=True)
class AnswerDraft:
    """All that may go into the file. `struck` and `struck_outside` count lines from 0; `words` are only in it
    where `speaks`."""

    assignment: str
    pupil: str
    attempts: tuple[Attempt, ...] = ()
    outside: tuple[Told, ...] = ()
    struck: frozenset[int] = frozenset()
    struck_outside: frozenset[int] = frozenset()
    speaks: bool = False
    words: str = ""

    def turned(self, number: int) -> "AnswerDraft":
        """A line in or out."""
        return replace(self, struck=self.struck ^ {number})

    def turned_outside(self, number: int) -> "AnswerDraft":
        """A drill outside in or out."""
        return replace(self, struck_outside=self.struck_outside ^ {number})

    @property
    def kept(self) -> int:
        """How many lines go into the file."""
        return len(self.attempts) + len(self.outside) - self.left_out

    @property
    def too_many(self) -> tuple[int, int]:
        """How many lines, and drills outside, there are beyond what a file holds."""
        return max(len(self.attempts) - MOST_LINES, 0), max(len(self.outside) - MOST_OUTSIDE, 0)

    @property
    def left_out(self) -> int:
        """How many lines are struck."""
        return len(self.struck) + len(self.struck_outside)

    def file(self) -> AnswerFile:
        """What is written. AnswerError tells what is wrong with name or words."""
        outside = tuple(one for i, one in enumerate(self.outside) if i not in self.struck_outside)
        return answer_of(
            self.attempts, self.assignment, " ".join(self.pupil.split()), struck=self.struck,
            words=self.words.strip() if self.speaks else "", outside=outside,
        )  # fmt: skip


def draft_of(book: Notebook, player: str, assignment: str) -> AnswerDraft:
    """Every attempt of the player at the assignment, and every drill outside. Struck are only the oldest of
    more than a file holds."""
    found = attempts_of(book, player, assignment=assignment)
    lines = tuple(one for one in found if one.result.met is not None)
    told = outside_of(book, player, assignment)
    return AnswerDraft(
        assignment, player, lines, told,
        frozenset(range(len(lines) - MOST_LINES)), frozenset(range(len(told) - MOST_OUTSIDE)),
    )  # fmt: skip


def write_draft(draft: AnswerDraft, today: date) -> Path:
    """The file, new in the folder of what is taken home. AnswerError as in `AnswerDraft.file`, HandoutError
    when it cannot be written."""
    text = answer_text(draft.file())
    parse_answer(text)
    name = "-".join(filter(None, ("fringework-answer", plain_name(draft.pupil).lower(), today.isoformat())))
    return put_new(name, ".json", text)

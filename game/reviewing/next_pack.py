"""The next assignment: filled in from what the answer showed, written as a new pack on purpose."""

from datetime import date
from pathlib import Path

from game.handout import put_new
from game.library.assignments import keep_assignment, new_assignment_id
from game.library.safe_names import plain_name
from game.reviewing.reading import ReadAnswer
from levels.files import load_library
from levels.packs import Pack, pack_text
from levels.review import next_assignment

__all__ = ["next_pack", "proposed_titles", "save_next"]


def next_pack(read: ReadAnswer, today: date) -> Pack | None:
    """The new assignment under an id of its own; None when nothing is left to do."""
    if read.pack is None or read.found is None:
        return None
    return next_assignment(read.pack, read.found.proposal, today, new_assignment_id())


def save_next(home: Path | None, pack: Pack, pupil: str, today: date) -> Path:
    """Its file, new in the folder of what is taken home. PackError when it is not sound, HandoutError when
    it cannot be written; the copy for its answers is kept first."""
    if home is not None:
        keep_assignment(home, pack)
    name = "-".join(filter(None, ("fringework-pack", plain_name(pupil).lower(), today.isoformat())))
    return put_new(name, ".pack.toml", pack_text(pack))


def proposed_titles(read: ReadAnswer) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Titles of what is to be repeated, and of what comes next."""
    if read.pack is None or read.found is None:
        return (), ()
    titles = {member.name: member.scenario.title for member in read.pack.members}
    proposal = read.found.proposal
    again = tuple(titles[name] for name in proposal.repeat)
    return again, tuple(load_library(name).title for name in proposal.next)

"""The next assignment: filled in from what the answer showed, for the coach to change and write."""

from datetime import date

from game.reviewing.reading import ReadAnswer
from levels.files import load_library
from levels.packs import Pack
from levels.review import next_assignment

__all__ = ["next_pack", "proposed_titles"]


def next_pack(read: ReadAnswer, today: date) -> Pack | None:
    """The new assignment, still without an id; None when nothing is left to do."""
    if read.pack is None or read.found is None:
        return None
    return next_assignment(read.pack, read.found.proposal, today)


def proposed_titles(read: ReadAnswer) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Titles of what is to be repeated, and of what comes next."""
    if read.pack is None or read.found is None:
        return (), ()
    titles = {member.name: member.scenario.title for member in read.pack.members}
    proposal = read.found.proposal
    again = tuple(titles[name] for name in proposal.repeat)
    return again, tuple(load_library(name).title for name in proposal.next)

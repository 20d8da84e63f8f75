"""The door of the Builder: a scenario made, proved and handed out; the page of what is handed out."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from levels.packs import Pack

if TYPE_CHECKING:  # the model behind this door needs no screen
    from game.ui.screen import Host

__all__ = ["hand_on"]


def hand_on(
    app: "Host", home: Path, old: Pack, filled: Pack, note: str, on_written: Callable[[Path], None]
) -> None:
    """The page of what is handed out, `filled` in: the scenarios of the `old` assignment first, then the
    reader's own and the built-in ones. Nothing is kept before the file is written."""
    from game.builder.model.sharing import Sharing, builtin_offers, member_offers, own_offers
    from game.builder.ui.pack_flow import PackFlow
    from game.library.shelf import Shelf

    flow = PackFlow(app, home, on_written)
    flow.sharing = Sharing.of(filled)
    first = member_offers(old)
    there = {one.key for one in first}
    builtin = tuple(one for one in builtin_offers() if one.key not in there)
    flow.show((*first, *own_offers(Shelf(home), ())), builtin, note)

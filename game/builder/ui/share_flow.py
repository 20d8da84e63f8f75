"""What the Share button of the Builder starts: the reader's scenarios, and the open one chosen."""

from pathlib import Path

from game.builder.model.sharing import builtin_offers, own_offers
from game.builder.ui.editing import Editing
from game.builder.ui.pack_flow import PackFlow, is_same_file
from game.library.shelf import Shelf
from game.ui.screen import Host

__all__ = ["ShareFlow"]


class ShareFlow(PackFlow):
    """Scenarios of the Builder, handed out."""

    def __init__(self, app: Host, editing: Editing, home: Path) -> None:
        super().__init__(app, home)
        self.editing = editing

    def open(self) -> None:
        """Show what can be shared. The open scenario is chosen, when its file holds all of it."""
        self.editing.settle()
        document = self.editing.document
        self.near = document.path.parent if document.path else None
        own = own_offers(Shelf(self.home), document.recent())
        builtin = builtin_offers()
        self.sharing = self.sharing.refreshed((*own, *builtin))
        unsaved = ""
        if document.dirty or document.path is None:
            unsaved = f"“{document.name}” is not saved as it stands: only files can be shared."
        elif not self.sharing.chosen:
            path = document.path
            here = next((o for o in own if is_same_file(o.source, path)), None)
            self.sharing = self.sharing.turned(here) if here else self.sharing
        self.show(own, builtin, unsaved)

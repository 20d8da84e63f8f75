"""The proposal of a rest, the same on every screen: one sentence, once a sitting; it stops nothing."""

from datetime import UTC, datetime

from game.library.notebook.rest import rest_due
from game.text.notebook import nudge_words
from game.ui.screen import Host
from levels.practice import rhythm_of

__all__ = ["proposes_rest"]


def proposes_rest(app: Host, now: datetime | None = None) -> bool:
    """Say so where a rest is due to whoever plays; whether it was said."""
    junior = app.settings.detail == "junior"
    due = rest_due(app.book, app.player, junior, now or datetime.now(UTC))
    if due:
        app.say(nudge_words(rhythm_of(junior)))
    return due

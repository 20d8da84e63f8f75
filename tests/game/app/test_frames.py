"""What would make a frame long: drawing anew what stands still. Counted, not timed."""

from collections import Counter

import pytest

from game.app.frame import App
from game.draw.course import still
from game.library.settings import Settings
from tests.game.session import session

FRAME = 0.1  # s: long, so that shots are soon over
VIEWS = 8  # at the start, with the ball far out, on four grounds, in two sizes of text


@pytest.fixture(scope="module")
def drawn() -> Counter[str]:
    """How many views of the course were drawn in each part of the session."""
    app, views = App.headless((1280, 800), Settings(), "Bench"), Counter[str]()
    app.screen.ask_stops = lambda: None  # no cloud: its band is no part of a view
    still.cache_clear()
    for step in session(app):
        before = still.cache_info().misses
        if step.act:
            step.act()
        app.frame(step.events, FRAME)
        views[step.name] += still.cache_info().misses - before
    app.close()
    return views


def test_a_session_draws_few_views(drawn):
    assert 2 <= sum(drawn.values()) <= VIEWS, dict(drawn)


def test_nothing_that_stands_still_is_drawn_while_a_shot_plays(drawn):
    playing = {name: n for name, n in drawn.items() if name.endswith("playing")}
    assert len(playing) == 3
    assert not any(playing.values()), playing


@pytest.mark.parametrize("name", ["slider", "scrub", "jump", "first shot", "next shot"])
def test_a_view_once_drawn_is_kept(drawn, name):
    assert name in drawn
    assert drawn[name] == 0


def test_a_ball_out_of_view_costs_one_view(drawn):
    assert drawn["ball out of view"] == 1

"""The ladder's screen: keys, mouse, searching beside the picture, room at every size."""

from itertools import combinations, pairwise

import pygame
import pytest
from ui_events import key, press, release

from game.app.frame import App
from game.draw import fan
from game.draw.palette import DARK, LIGHT, Palette, contrast
from game.ladder import acts as ladder_flow
from game.ladder.model import search as module_search
from game.ladder.screen import LadderScreen
from game.ladder.words import place_words, trio_words
from game.library.settings import Settings
from game.shot_view import session
from game.sound.cues import Cue, score
from game.text.cautions import LIMITS, READ_CAUTIONS, cautions
from game.ui.widget import walk

FIRST = pygame.K_1


@pytest.fixture
def app() -> App:
    made = App.headless((1280, 800), Settings(reduced_motion=True), "Ladder")
    made.frame([], 0.0)
    return made


def screen(app: App) -> LadderScreen:
    assert isinstance(app.screen, LadderScreen)
    return app.screen


def press_keys(app: App, *codes: int, mod: int = 0) -> None:
    for code in codes:
        app.frame([key(code, mod, chr(code) if code < 128 else "")], 0.016)
        app.frame([], 0.016)


def test_numbers_choose_and_space_plays_that_ball(app: App) -> None:
    press_keys(app, FIRST + 1, pygame.K_SPACE)
    s = screen(app)
    assert s.chosen == 1
    assert set(s.played) == {1}
    assert s.played[1].rung == s.ladder.rungs[1]
    press_keys(app, pygame.K_9)
    assert s.chosen == 1


def test_a_plays_all(app: App) -> None:
    press_keys(app, pygame.K_a)
    assert set(screen(app).played) == set(range(7))


@pytest.mark.parametrize("left", [False, True])
def test_arrows_go_the_way_they_point(left: bool) -> None:
    app = App.headless((1280, 800), Settings(left_handed=left), "Ladder")
    s = screen(app)
    before = s._feet.spot(s.row(), s.chosen)[0]
    app.frame([key(pygame.K_RIGHT)], 0.0)
    assert s._feet.spot(s.row(), s.chosen)[0] > before
    assert s.chosen == (2 if left else 4)


def test_a_click_on_a_ball_chooses_it(app: App) -> None:
    s = screen(app)
    for at in (0, 6, 3):
        x, y = s._feet.spot(s.row(), at)
        app.frame([press(x, y), release(x, y)], 0.0)
        assert s.chosen == at
    box = s._strikes.boxes[5]
    app.frame([press(box.x + 5, box.y + 5), release(box.x + 5, box.y + 5)], 0.0)
    assert s.chosen == 5


def test_a_slider_changes_only_its_ball_and_its_flight_is_then_of_before(app: App) -> None:
    press_keys(app, FIRST, pygame.K_a)
    s, old = screen(app), screen(app).ladder
    app.focus.set(s._sliders["shaft_lean"])
    press_keys(app, pygame.K_RIGHT)
    assert s.ladder.rungs[0].shaft_lean > old.rungs[0].shaft_lean
    assert s.ladder.rungs[1:] == old.rungs[1:]
    assert not s.row().current(0)
    assert all(s.row().current(i) for i in range(1, 7))
    assert "Yours" not in s._words.label


def test_something_changes_in_the_picture_before_the_swing(app: App) -> None:
    s = screen(app)
    app.frame([], 0.0)
    before = pygame.surfarray.array3d(app.surface)
    s.set("shaft_lean", s.ladder.rungs[3].shaft_lean + 0.15)
    app.frame([], 0.0)
    after = pygame.surfarray.array3d(app.surface)
    for widget in (s._feet, s._strikes):
        r = widget.rect
        part = slice(int(r.x), int(r.right)), slice(int(r.y), int(r.bottom))
        assert (before[part] != after[part]).any()


def test_search_is_shown_beside_ones_own_and_can_be_taken(app: App, monkeypatch: pytest.MonkeyPatch) -> None:
    from game.ladder import acts as module

    grid = ((0.0, 0.1), (1.0, 1.5), (0.5,))
    monkeypatch.setattr(module, "search", lambda *a: module_search(*a, coarse=grid))
    press_keys(app, FIRST + 6, pygame.K_SPACE, pygame.K_s)
    s = screen(app)
    assert s.seeking is None
    assert "Yours" in s._words.label
    assert "Found" in s._words.label
    press_keys(app, pygame.K_t)
    assert s.ladder.rungs[6] == s.best[6].rung


def test_search_goes_on_beside_the_picture_and_stops_when_asked() -> None:
    """Step by step, as the worker's thread would do it."""
    app = App.headless((1280, 800), Settings(), "Ladder")
    s, worker = screen(app), app.worker
    s.seek()
    for _ in range(4):
        worker.step()
    while not worker._answers.empty():
        asked, answer = worker._answers.get()
        asked.then(answer)
    assert s.seeking
    assert f"{s.seeking[1].done} of {s.seeking[1].total}" in s._progress.label
    assert s.seeking[1].done >= 2
    s.seek()
    app.frame([], 0.0)
    assert s.seeking is None
    assert not s.best
    assert not worker.busy


def test_another_player_or_row_starts_afresh(app: App) -> None:
    press_keys(app, pygame.K_a)
    s = screen(app)
    s._who.set(2)
    assert s.spread.name == "beginner"
    assert not s.played
    s._count.set(1)
    app.frame([], 0.0)
    assert len(s.ladder.rungs) == 9
    press_keys(app, pygame.K_9, pygame.K_a)
    assert s.chosen == 8
    assert len(s.played) == 9


def test_balls_fly_until_they_rest() -> None:
    app = App.headless((1280, 800), Settings(), "Ladder")
    s = screen(app)
    s.play()
    app.frame([], 0.0)
    assert set(s.clock) == {3}
    app.frame([], 20.0)
    assert not s.clock


@pytest.mark.parametrize("detail", ["junior", "player", "coach"])
def test_the_level_of_detail_opens_controls(app: App, detail: str) -> None:
    app.change(detail=detail)
    names = set(screen(app)._sliders)
    assert {"shaft_lean", "release"} <= names
    assert ("lean_change" in names) == (detail == "coach")
    assert ("follow_through" in names) == (detail != "junior")


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800), (1920, 1080)])
@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
@pytest.mark.parametrize("count", [0, 1])
def test_everything_has_its_own_room(size: tuple[int, int], scale: float, count: int) -> None:
    app = App.headless(size, Settings(text_scale=scale, detail="coach"), "Ladder")
    s = screen(app)
    s._count.set(count)
    app.frame([], 0.0)
    for a, b in combinations(s.widgets, 2):
        assert not a.rect.inset(0.1).overlaps(b.rect.inset(0.1))
    assert all(app.box.holds(w.rect) for w in s.widgets)
    parts = [w for w in walk([s._column]) if not w.parts]
    for a, b in combinations(parts, 2):
        assert not a.rect.inset(0.1).overlaps(b.rect.inset(0.1)), (a.label, b.label)
    row = s.row()
    spots = [s._feet.spot(row, i) for i in range(row.count)]
    near = 2 * s._feet._radius(row)
    assert near >= 24
    for (ax, ay), (bx, by) in combinations(spots, 2):
        assert (ax - bx) ** 2 + (ay - by) ** 2 >= near**2
    assert all(a.right <= b.x for a, b in pairwise(s._strikes.boxes))


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=lambda p: p.name)
@pytest.mark.parametrize("count", [7, 9])
def test_every_ball_has_its_own_colour_and_shape_and_can_be_seen(palette: Palette, count: int) -> None:
    colours = [fan.colour_of(palette, i, count) for i in range(count)]
    assert len(set(colours)) == count
    assert len({fan.SHAPES[i + 4 - count // 2] for i in range(count)}) == count
    assert colours[count // 2] == palette.ink
    for colour in colours:
        for ground in (palette.sky_high, palette.sky_low, palette.halo, palette.field):
            assert contrast(colour, ground) >= 3.0


# ---- sounds, cautions, the whole way by keys


def heard(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the sounds given to the loudspeaker from now on."""
    names: list[str] = []

    class Ear:
        def play(self, cue: Cue) -> bool:
            names.append(cue.name)
            return True

    monkeypatch.setattr(session, "loudspeaker", lambda _: Ear())
    return names


@pytest.mark.parametrize("still", [False, True])
def test_a_played_ball_is_heard_and_said(still: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    names = heard(monkeypatch)
    app = App.headless((1280, 800), Settings(reduced_motion=still), "Ladder")
    app.frame([key(pygame.K_SPACE, 0, " ")], 0.016)
    for _ in range(60):
        app.frame([], 0.1)
    cues = score(screen(app).played[3].shot)
    run = screen(app).played[3].shot.run
    assert names == [c.name for c in cues if not still or c.time <= run.t[0]]
    assert names
    said = [k for k in app.toast.kept if k.startswith("Ball 4: ")]
    assert len(said) == len(names)


def test_of_a_whole_row_only_the_chosen_ball_is_heard(monkeypatch: pytest.MonkeyPatch) -> None:
    names = heard(monkeypatch)
    app = App.headless((1280, 800), Settings(), "Ladder")
    app.frame([key(pygame.K_2, 0, "2"), key(pygame.K_a, 0, "a")], 0.016)
    for _ in range(80):
        app.frame([], 0.1)
    assert set(screen(app).played) == set(range(7))
    assert names == [c.name for c in score(screen(app).played[1].shot)]


def test_cautions_are_said_once_and_stay_on_the_page() -> None:
    app = App.headless((1024, 640), Settings(text_scale=2.0), "Ladder")
    assert app.toast.sentence == READ_CAUTIONS
    labels = [w.label for w in walk(screen(app).widgets)]
    assert cautions() in labels
    assert LIMITS in labels
    app.toast.hide()
    app.open("Bench")
    app.open("Ladder")
    assert app.toast.sentence != READ_CAUTIONS


@pytest.mark.parametrize(("count", "left"), [(7, False), (7, True), (9, False), (9, True)])
def test_the_whole_way_by_keys_alone(count: int, left: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """Middle ball, all balls, what suits every ball, take the first: and the page names every trio."""
    grid = ((0.0, 0.1), (1.0,), (0.5,))
    monkeypatch.setattr(ladder_flow, "search", lambda *a: module_search(*a, coarse=grid))
    app = App.headless((1024, 640), Settings(left_handed=left, reduced_motion=True), "Ladder")
    s = screen(app)
    if count == 9:
        for _ in range(40):
            app.frame([key(pygame.K_TAB)], 0.016)
            if app.focus.widget is s._count:
                break
        app.frame([key(pygame.K_RIGHT)], 0.016)
    assert "middle ball first" in s._closing.label
    press_keys(app, FIRST + count // 2, pygame.K_SPACE)
    assert set(s.played) == {count // 2}
    assert "suits" in s._closing.label
    press_keys(app, pygame.K_a)
    app.frame([key(pygame.K_s, pygame.KMOD_LSHIFT, "S")], 0.016)
    app.frame([], 0.016)
    assert set(s.best) == set(range(count))
    labels = [w.label for w in walk(s.widgets)]
    for i, rung in enumerate(s.ladder.rungs):
        assert f"{i + 1}, {place_words(rung.ball)}: {trio_words(s.best[i].rung)}" in labels
    press_keys(app, FIRST, pygame.K_t, pygame.K_SPACE)
    assert s.ladder.rungs[0] == s.best[0].rung
    assert s.row().current(0)
    assert "Struck" in s._struck.label or "missed" in s._struck.label


def test_taking_what_was_not_found_says_what_to_do(app: App) -> None:
    press_keys(app, pygame.K_t)
    assert app.toast.sentence == "Nothing is found for this ball yet; S looks for it."

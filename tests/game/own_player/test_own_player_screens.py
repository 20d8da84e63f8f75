"""One's own player on the screen: balls typed by keyboard alone, fitted and kept, and the season's map."""

from datetime import date
from pathlib import Path

import pygame
import pytest

from game import cli
from game.app.frame import App
from game.bench.screen import Bench
from game.draw.season import plan_season
from game.draw.season_print import season_printed
from game.handout import places, season_pdf
from game.library.ball_draft import BallDraft, kept_draft
from game.library.bench_setup import OWN_PLAYER
from game.library.home import VARIABLE
from game.library.own_players import keep_own_player, kept_own_player, own_player_path
from game.library.season import keep_season
from game.library.settings import Settings
from game.own_player import own_player
from game.own_player.entry import CLUBS, BallEntry
from game.own_player.fitting import reports_of
from game.own_player.page import OwnPlayerPage
from game.own_player.ranges import RangeBars
from game.own_player.season_making import season_making
from game.own_player.season_page import SeasonPage
from game.text.choice import cell_words, season_place_words
from game.text.fit import assumed_words, told_words
from game.ui import clipboard
from game.ui.safety import SafetyPage
from game.ui.widget import walk
from levels.ball_log import balls_text, read_ball
from levels.choice_effort import ChoiceEffort
from levels.player_file import preset
from levels.season import Grid, SeasonMap, season
from physics.equipment import BAG
from physics.measured_balls import PracticeGround
from tests.game.pdf_text import pdf_lines
from tests.levels.test_own_player import fitted
from tests.ui_events import key

TINY = ChoiceEffort(lengths=5, look=4, start=2, rounds=(8,), children=2, finalists=1, final=16, judged=120)
GRID = Grid(("fairway", "rough"), (6.0, 10.0), ("much",))
ENTER, ESCAPE, B = key(pygame.K_RETURN), key(pygame.K_ESCAPE), key(pygame.K_b, 0, "b")
FIT = key(pygame.K_RETURN, pygame.KMOD_CTRL)
ASKED = [ENTER] * 5  # lie, club, mark, green and putting as they stand
SAID = {"solid": key(pygame.K_s, 0, "s"), "fat": key(pygame.K_f, 0, "f"), "thin": key(pygame.K_t, 0, "t")}
TEN = (
    ("5.1", "7.9", "solid"), ("4,0", "6.2", "solid"), ("2.1", "2.6", "fat"), ("5.5", "9.4", "solid"),
    ("4.9", "8.1", "solid"), ("7.2", "13.5", "thin"), ("4.4", "7.1", "solid"), ("", "7.7", "solid"),
    ("5.9", "9.9", "solid"), ("3.1", "4.0", "fat"),
)  # fmt: skip


def letters(text: str) -> list[pygame.event.Event]:
    """A key and the text it writes, letter by letter, as a window sends them."""
    out = []
    for c in text:
        out += [key(ord(c), 0, c), pygame.event.Event(pygame.TEXTINPUT, text=c)]
    return out


def type_ball(app: App, carry: str, stop: str, felt: str) -> int:
    """One ball by keyboard alone; how many keys it took."""
    events = [*letters(carry), ENTER, *letters(stop), ENTER, *([SAID[felt]] if felt else []), ENTER]
    app.frame(events, 0.02)
    return sum(e.type == pygame.KEYDOWN for e in events)


def entry(home: Path | None = None, **settings) -> tuple[App, BallEntry]:
    app = App.headless((1280, 800), Settings(safety_read=True, **settings), own_player, home)
    app.frame([B], 0.02)
    app.frame([], 0.02)
    assert isinstance(app.screen, BallEntry)
    return app, app.screen


def said(app: App) -> str:
    return "\n".join(w.caption for w in walk(app.screen.widgets))


@pytest.fixture(scope="module")
def made() -> SeasonMap:
    *_, last = season(preset("club"), GRID, TINY)
    assert last.whole
    return last.whole


# ---- balls


def test_the_cautions_come_first() -> None:
    app = App.headless((1280, 800), Settings(), own_player)
    app.frame([B], 0.02)
    assert isinstance(app.screen, SafetyPage)
    app.frame([ENTER], 0.02)
    assert isinstance(app.screen, BallEntry)


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_ten_balls_by_keyboard_alone(scale: float, tmp_path: Path) -> None:
    app, screen = entry(tmp_path, text_scale=scale)
    keys = len(ASKED)
    app.frame(ASKED, 0.02)
    for ball in TEN:
        keys += type_ball(app, *ball)
    assert keys < 180  # a key a second is three minutes
    balls = screen.draft.measured
    assert len(balls) == 10
    assert [b.felt for b in balls] == [felt for _, _, felt in TEN]
    assert balls[1].carry == 4.0
    assert balls[7].carry != balls[7].carry  # not measured
    assert {b.shot.lie for b in balls} == {"fairway"}
    assert {b.shot.target for b in balls} == {8.0}
    assert "Ctrl+Enter fits" in app.toast.sentence
    assert f"{sum(b.stop < 8.0 for b in balls)} of 10 stopped short" in said(app)


def test_backspace_and_up_correct() -> None:
    app, screen = entry()
    app.frame(ASKED, 0.02)
    type_ball(app, "5", "8", "solid")
    assert app.focus.widget is screen.rows[1].carry
    app.frame([key(pygame.K_BACKSPACE)], 0.02)
    assert app.focus.widget is screen.rows[0].carry
    app.frame([*letters("6"), ENTER], 0.02)  # what stood there was selected whole
    assert screen.draft.balls[0].carry == "6"
    assert screen.draft.balls[0].stop == "8"
    app.frame([key(pygame.K_DOWN)], 0.02)
    assert app.focus.widget is screen.rows[1].carry
    app.frame([key(pygame.K_UP)], 0.02)
    assert app.focus.widget is screen.rows[0].carry


def test_bad_values_are_told_beside_the_ball_and_nothing_is_fitted() -> None:
    app, screen = entry()
    app.frame(ASKED, 0.02)
    type_ball(app, "5x", "999", "")
    app.frame([], 0.02)
    row = screen.rows[0]
    assert row.problem == (
        "Landed '5x' is not a number; allowed: -5 to 100 m. Stopped 999 is too large; allowed: -5 to 100 m."
    )
    assert row.carry.wrong
    assert row.stop.wrong
    for _ in range(3):
        type_ball(app, "5", "8", "")
    app.frame([FIT], 0.02)
    assert "Ball 1 cannot be read yet" in app.toast.sentence
    assert not screen.fitting.going


def test_what_is_typed_survives_leaving_and_a_restart(tmp_path: Path) -> None:
    app, screen = entry(tmp_path)
    app.frame(ASKED, 0.02)
    type_ball(app, "5", "8", "solid")
    app.frame(letters("4."), 0.02)
    assert screen.moving  # not on the disk yet: frames go on until it is
    app.frame([], 0.5)
    app.frame([], 0.0)
    kept, problem = kept_draft(tmp_path, app.player)  # as after a sudden end
    assert problem == ""
    assert [(b.carry, b.stop, b.felt) for b in kept.balls] == [("5", "8", "solid"), ("4.", "", "")]
    app.frame(letters("2"), 0.02)
    app.frame([ESCAPE], 0.02)
    assert kept_draft(tmp_path, app.player)[0].balls[1].carry == "4.2"
    _, screen = entry(tmp_path)
    assert screen.draft.balls[1].carry == "4.2"
    assert screen.rows[0].stop.text == "8"


def test_a_spoilt_list_is_put_aside(tmp_path: Path) -> None:
    file = own_player_path(tmp_path, "Player 1", "-balls.json")
    file.parent.mkdir()
    file.write_text("{")
    kept, problem = kept_draft(tmp_path, "Player 1")
    assert kept == BallDraft()
    assert "could not be used" in problem
    assert any(one != file for one in file.parent.iterdir())


def test_a_table_is_dropped_and_a_bad_one_refused(tmp_path: Path) -> None:
    app, screen = entry()
    table = tmp_path / "balls.csv"
    balls = [
        read_ball({"lie": "rough", "club": "PW", "target_m": "9", "stop_m": s})[0] for s in ("8", "9", "11")
    ]
    table.write_text(balls_text([b for b in balls if b]))
    app.frame([pygame.event.Event(pygame.DROPFILE, file=str(table))], 0.02)
    assert [b.stop for b in screen.draft.measured] == [8.0, 9.0, 11.0]
    assert screen.draft.measured[0].shot.lie == "rough"
    clipboard.copy(str(table))
    app.frame([key(pygame.K_v, pygame.KMOD_CTRL)], 0.02)  # though a length has the focus
    assert len(screen.draft.measured) == 6
    table.write_text("lie,club\n")
    app.frame([pygame.event.Event(pygame.DROPFILE, file=str(table))], 0.02)
    assert "is missing" in app.toast.sentence
    assert len(screen.draft.measured) == 6


def test_each_ball_shows_its_club_and_another_can_be_given_it() -> None:
    app, screen = entry()
    app.frame(ASKED, 0.02)
    type_ball(app, "5", "8", "solid")
    type_ball(app, "5", "8", "solid")
    c, right = key(pygame.K_c, 0, "c"), key(pygame.K_RIGHT)
    app.frame([key(pygame.K_UP), c, right, ENTER], 0.02)  # of a ball that is there: its own
    assert app.focus.widget is screen.rows[1].carry
    assert [b.shot.club for b in screen.draft.measured] == ["SW", CLUBS[CLUBS.index("SW") + 1]]
    assert screen.rows[1].club.value == BAG[screen.draft.balls[1].club].short
    assert screen.draft.club == "SW"
    app.frame([key(pygame.K_DOWN), c, right, right, ENTER], 0.02)  # of an empty row: of all from here on
    type_ball(app, "4", "7", "")
    meant = CLUBS[CLUBS.index("SW") + 2]
    assert [b.shot.club for b in screen.draft.measured][2:] == [meant]
    assert (screen.draft.club, screen.draft.balls[0].club) == (meant, "SW")
    assert screen.rows[5].club.value == BAG[meant].short
    assert f"Club, {BAG[meant].label}" in said(app)


def test_green_and_putting_are_asked_once_and_what_is_assumed_is_said(tmp_path: Path) -> None:
    app, screen = entry(tmp_path)
    assert assumed_words(None, "") in said(app)
    app.frame([ENTER, ENTER, ENTER, *letters("9 m"), ENTER, ENTER], 0.02)
    assert "goes from" in said(app)
    for ball in TEN[:3]:
        type_ball(app, *ball)
    app.frame([FIT], 0.02)
    assert not screen.fitting.going
    assert app.focus.widget is screen._asks[3]
    app.frame([key(pygame.K_a, pygame.KMOD_CTRL), *letters("8ft"), ENTER, key(pygame.K_END)], 0.02)
    assert assumed_words(None, "") not in said(app)
    asked: list[tuple[object, ...]] = []
    screen.fitting.start = lambda *args: asked.append(args)  # type: ignore[method-assign]
    app.frame([FIT], 0.02)
    ((balls, ground, putter),) = asked
    assert len(balls) == 3  # type: ignore[arg-type]
    assert ground == PracticeGround(2.44)
    assert putter == "tour"
    screen.leave()
    assert (kept_draft(tmp_path, app.player)[0].green, kept_draft(tmp_path, app.player)[0].putter) == (
        "8ft", "tour"
    )  # fmt: skip


def test_the_progress_of_the_fit_stays_in_sight(tmp_path: Path) -> None:
    app = App.headless((1024, 640), Settings(safety_read=True, text_scale=2.0), own_player, tmp_path)
    app.frame([B], 0.02)
    app.frame([], 0.02)
    screen = app.screen
    assert isinstance(screen, BallEntry)
    app.frame(ASKED, 0.02)
    for ball in TEN:
        type_ball(app, *ball)
    app.worker.ask = lambda *_: None  # type: ignore[method-assign]
    app.frame([FIT], 0.02)
    bar = screen.bar_of_fit
    assert bar.rect.bottom <= screen._foot.rect.y
    assert bar.rect.y >= screen._left.rect.bottom
    assert 0.0 < bar.rect.y < 640.0


def test_five_from_another_lie_stay_what_they_were() -> None:
    app, screen = entry()
    app.frame(ASKED, 0.02)
    type_ball(app, "5", "8", "solid")
    screen._set(lie="rough")
    type_ball(app, "5", "8", "solid")
    assert [b.shot.lie for b in screen.draft.measured] == ["fairway", "rough"]


def test_a_ball_whose_lengths_are_taken_out_is_meant_anew() -> None:
    _, page = entry()
    page._set(club="SW")
    page._typed(0, "carry", "3.4")
    page._typed(0, "felt", "solid")
    page._set(club="GW")
    page._typed(0, "carry", "3.5")
    assert page.draft.balls[0].club == "SW"  # a mere correction
    page._typed(0, "carry", "")
    page._typed(0, "carry", "3.6")
    assert (page.draft.balls[0].club, page.draft.balls[0].felt) == ("GW", "solid")


def test_balls_are_fitted_kept_and_chosen(tmp_path: Path) -> None:
    app, _ = entry(tmp_path)
    app.frame(ASKED, 0.02)
    app.frame([FIT], 0.02)
    assert "3 more balls are needed" in app.toast.sentence
    for ball in TEN[:3]:
        type_ball(app, *ball)
    app.frame([FIT], 0.02)
    app.frame([], 0.02)
    assert isinstance(app.screen, OwnPlayerPage)
    kept, problem = kept_own_player(tmp_path, app.player)
    assert problem == ""
    assert kept is not None
    assert kept.balls == 3
    assert kept.label == app.player
    told = said(app)
    report = reports_of(app)[app.player]
    for sentence in told_words(report):
        assert sentence in told
    assert "8 times in 10" in told
    assert "skill" not in told.lower()
    bars = next(w for w in walk(app.screen.widgets) if isinstance(w, RangeBars))
    assert len(bars.bars) == 7
    speed = bars.bars[0]
    assert (speed.low, speed.middle, speed.high) == (
        kept.low.speed_percent, kept.spread.speed_percent, kept.high.speed_percent  # type: ignore[union-attr]
    )  # fmt: skip
    assert dict(speed.presets)["C"] == 8.0


def test_a_fit_can_be_stopped(tmp_path: Path) -> None:
    app, screen = entry(tmp_path)
    app.frame(ASKED, 0.02)
    for ball in TEN[:3]:
        type_ball(app, *ball)
    asked: list[str] = []
    app.worker.ask = lambda channel, *_: asked.append(channel)  # type: ignore[method-assign]
    app.frame([FIT], 0.02)
    assert asked == ["fit"]
    assert "being fitted" in said(app)
    app.frame([ESCAPE], 0.02)
    assert app.screen is screen
    assert not screen.fitting.going
    assert kept_own_player(tmp_path, app.player) == (None, "")


# ---- where the fitted player plays


def test_the_bench_offers_the_fitted_player_and_keeps_it_chosen(tmp_path: Path) -> None:
    app = App.headless((1280, 800), Settings(), "Bench", tmp_path)
    bench = app.screen
    assert isinstance(bench, Bench)
    assert len(bench.parts.player.options) == 4
    keep_own_player(tmp_path, app.player, fitted())
    app.push(own_player(app))
    app.frame([ESCAPE], 0.02)
    app.frame([], 0.02)
    assert bench.parts.player.options[-1] == fitted().label
    bench.parts.player.set(4)
    app.frame([], 0.02)
    assert bench.state.player == OWN_PLAYER
    assert bench.state.spread == fitted().player().spread
    app.close()
    again = App.headless((1280, 800), Settings(), "Bench", tmp_path)
    again.frame([], 0.02)
    assert again.screen.state.spread == fitted().player().spread  # type: ignore[attr-defined]
    again.close()
    own_player_path(tmp_path, "Player 1").unlink()
    without = App.headless((1280, 800), Settings(), "Bench", tmp_path)
    assert without.screen.state.player == "steady"  # type: ignore[attr-defined]


def test_names_that_look_alike_have_players_of_their_own(tmp_path: Path) -> None:
    paths = {own_player_path(tmp_path, name) for name in ("Ada", "Ada!", "Ädä", "../Ada", "愛")}
    assert len(paths) == 5
    assert {path.parent for path in paths} == {tmp_path / "players"}
    assert own_player_path(tmp_path, "ada") == own_player_path(tmp_path, "Ada")  # as in the notebook


def test_a_spoilt_player_is_told_in_a_sentence(tmp_path: Path) -> None:
    file = own_player_path(tmp_path, "Player 1")
    file.parent.mkdir()
    file.write_text("label = 3")
    found, problem = kept_own_player(tmp_path, "Player 1")
    assert found is None
    assert "cannot be used" in problem


# ---- the season


def season_app(tmp_path: Path, made: SeasonMap | None = None) -> tuple[App, SeasonPage]:
    app = App.headless((1280, 800), Settings(), own_player, tmp_path)
    making = season_making(app)
    making.grid, making.effort = GRID, TINY
    if made:
        assert keep_season(tmp_path, made) == ""
    app.frame([key(pygame.K_s, 0, "s")], 0.02)
    assert isinstance(app.screen, SeasonPage)
    return app, app.screen


def test_the_map_is_made_kept_and_found_again(tmp_path: Path) -> None:
    app, page = season_app(tmp_path)
    assert page.view is None
    app.frame([key(pygame.K_m, 0, "m")], 0.02)
    app.frame([], 0.02)
    assert page.view is not None
    assert "is made" in app.toast.sentence
    _, again = season_app(tmp_path)
    assert again.view is not None
    assert again.view.made == page.view.made
    keep_own_player(tmp_path, app.player, fitted())  # another player: that map is not his
    _, other = season_app(tmp_path)
    assert other.view is None


def test_the_making_goes_on_when_the_page_is_left_and_can_be_stopped(tmp_path: Path) -> None:
    app, page = season_app(tmp_path)
    asked: list[str] = []
    app.worker.ask = lambda channel, *_: asked.append(channel)  # type: ignore[method-assign]
    app.frame([key(pygame.K_m, 0, "m")], 0.02)
    app.frame([ESCAPE], 0.02)
    assert not isinstance(app.screen, SeasonPage)
    assert season_making(app).going
    app.frame([key(pygame.K_s, 0, "s")], 0.02)
    assert "being made" in said(app)
    app.frame([key(pygame.K_x, 0, "x")], 0.02)
    assert not season_making(app).going
    assert asked == ["season"]
    assert page.view is None


def test_arrows_go_from_place_to_place_and_tell_it(tmp_path: Path, made: SeasonMap) -> None:
    app, page = season_app(tmp_path, made)
    assert page.view is not None
    assert app.focus.widget is page.view
    places = [cell for cell, _ in page.view.plan(app.theme, page.view.rect.w).places]
    assert set(places) == set(made.cells)
    assert season_place_words(places[0]) in said(app)
    app.frame([key(pygame.K_RIGHT)], 0.02)
    app.frame([key(pygame.K_DOWN)], 0.02)
    assert page.view.cell == places[3]
    assert page._words.label == season_place_words(places[3])
    app.frame([key(pygame.K_RIGHT)], 0.02)
    assert page.view.cell == places[3]  # the edge


@pytest.mark.parametrize(("width", "scale"), [(500, 1.0), (900, 1.0), (1240, 2.0), (900, 2.0)])
def test_places_of_the_map_keep_apart(width: int, scale: float, made: SeasonMap) -> None:
    plan = plan_season(made, width, scale, bare=True)
    boxes = [box for _, box in plan.places]
    assert all(not a.overlaps(b) for i, a in enumerate(boxes) for b in boxes[i + 1 :])
    assert all(box.right <= width and box.bottom <= plan.height for box in boxes)
    words = [w.box for w in plan.words]
    assert all(not a.inset(1).overlaps(b.inset(1)) for i, a in enumerate(words) for b in words[i + 1 :])


def test_the_map_goes_onto_paper_with_selectable_words(
    tmp_path: Path, made: SeasonMap, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(places, "user_pictures_path", lambda: tmp_path / "pictures")
    app, _ = season_app(tmp_path, made)
    app.frame([key(pygame.K_p, 0, "p")], 0.02)
    app.frame([], 0.02)
    files = sorted((tmp_path / "pictures").iterdir())
    assert [file.suffix for file in files] == [".pdf", ".png"]
    assert all(str(file) in app.toast.sentence for file in files)
    lines = " ".join(pdf_lines(files[0].read_bytes()))
    for cell in made.cells:
        assert cell_words(cell).capitalize() in lines
    assert "hopeful" in lines


def test_forty_places_fit_one_side(made: SeasonMap) -> None:
    grid = Grid()
    cells = tuple(
        made.cells[0].model_copy(update={"lie": lie, "room": room, "distance": d, "club": "GW-high"})
        for lie in grid.lies for room in grid.rooms for d in grid.distances
    )  # fmt: skip
    for paper in ("A4", "Letter"):
        page = season_printed(made.model_copy(update={"cells": cells}), paper=paper)
        assert max(w.box.bottom for w in page.words) <= page.size[1] - 30.0
        assert max(w.box.right for w in page.words) <= page.size[0] - 30.0
        boxes = [w.box.inset(0.3) for w in page.words]
        assert not any(a.overlaps(b) for i, a in enumerate(boxes) for b in boxes[i + 1 :])


def test_the_command_writes_a_pdf_too(
    tmp_path: Path, made: SeasonMap, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv(VARIABLE, str(tmp_path))
    monkeypatch.setattr("game.commands.season.made_season", lambda *_: made)
    out = tmp_path / "map.pdf"
    assert cli.main(["season", "--out", str(out)]) == 0
    assert out.read_bytes() == season_pdf(made, date.today())
    assert cli.main(["season", "--out", str(tmp_path / "map.jpg")]) == 2
    assert "must end in .png or .pdf" in capsys.readouterr().err

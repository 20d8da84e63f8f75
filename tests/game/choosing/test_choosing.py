"""Choosing on the screen: the pick before the answer, the answer in full, and where an option goes."""

from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

import pygame
import pytest

from game.app.frame import App
from game.bench import which_shot
from game.bench.screen import Bench
from game.choosing import Choosing, ChoosingQuestion, ChoosingWay, ShotChooser, chooser_of
from game.choosing.cards import CardWords, OptionCard
from game.choosing.changes import ChangeRow
from game.choosing.verdict import PickVerdict
from game.draw.camera import Rect
from game.library.notebook.picks import Pick, PickTally, log_pick, pick_tally, picks_of
from game.library.notebook.store import Notebook
from game.library.own_players import keep_own_player
from game.library.settings import Settings
from game.play.round import Step, begin
from game.play.screen import Play
from game.play.which_shot import closed_words, with_option
from game.text import choice as words
from game.ui.widget import walk
from game.ui.work import Worker
from levels.choice_effort import ChoiceEffort
from levels.choose import ShotOption, chosen
from levels.files import load_library
from levels.player_file import preset
from levels.situation import bench_situation, scenario_situation, situation_digest
from physics.address import Motion, Setup
from physics.course import level_course
from tests.levels.test_own_player import fitted
from tests.ui_events import key

TINY = ChoiceEffort(lengths=5, look=4, start=2, rounds=(8,), children=2, finalists=1, final=16, judged=120)
COURSE = level_course("fairway", 8.0, "the plain green")
FREE = bench_situation(COURSE, Setup(), Motion())
PLACE = replace(FREE, space=replace(FREE.space, clubs=("7i", "PW", "SW")))
ENTER, ESCAPE = key(pygame.K_RETURN), key(pygame.K_ESCAPE)
J, W = key(pygame.K_j, 0, "j"), key(pygame.K_w, 0, "w")
TWO = key(pygame.K_2, 0, "2")


def asked() -> ChoosingQuestion:
    return ChoosingQuestion("the plain green", PLACE, ShotChooser(preset("club")), TINY)


def opened(taken: list[ShotOption] | None = None, **settings) -> tuple[App, Choosing]:
    app = App.headless((1280, 800), Settings(**settings), "Bench")
    got = [] if taken is None else taken
    screen = Choosing(app, asked(), [ChoosingWay("to the Bench", got.append)])
    app.push(screen)
    for _ in range(3):
        app.frame([], 0.1)
    assert screen.answer is not None
    return app, screen


def said(screen: Choosing) -> str:
    return "\n".join(w.caption for w in walk(screen.widgets))


def test_no_number_of_an_option_is_told_before_the_pick() -> None:
    app, screen = opened()
    before = said(screen)
    assert screen.picked is None
    assert "strokes (" not in before
    assert "flagstick" not in before
    assert "Which would you play?" in before
    options = screen.answer.choice.options  # type: ignore[union-attr]
    for option in options:
        assert words.option_name(option)[1:] in before
        assert words.setup_plain(option) in before
        for value in (option.value.strokes, option.value.low, option.value.high):
            assert f"{value:.2f}" not in before
    app.frame([ENTER], 0.1)  # the first card has the focus
    assert screen.picked == 0


def test_after_the_pick_everything_is_told_and_the_pick_is_kept() -> None:
    app, screen = opened()
    app.frame([TWO], 0.1)
    assert screen.picked == 1
    told = said(screen)
    choice = screen.answer.choice  # type: ignore[union-attr]
    for option in choice.options:
        assert words.short_strokes(option) in told
        for line in words.odds_lines(option):
            assert line in told
        assert option.reason is not None
        assert words.reason_words(option.reason) in told
    assert words.pick_words(choice, 1) in told
    assert words.leads_words(choice)[-1] in told
    assert words.HOPEFUL in told
    assert "Player presets are illustrative" in told
    assert "skill" not in told.lower()
    (kept,) = picks_of(app.book, app.player)
    assert kept.picked == words.option_name(choice.options[1])
    assert kept.best == words.option_name(choice.options[0])
    assert kept.picked_strokes == choice.options[1].value.strokes
    assert kept.when.utcoffset() is not None
    assert kept.as_good == choice.options[1].much_the_same
    good = int(kept.as_good)
    assert f"{good} of 1 so far" in told


def test_a_place_is_picked_once() -> None:
    app, screen = opened()
    app.frame([TWO], 0.1)
    app.frame([key(pygame.K_1, 0, "1")], 0.1)
    assert screen.picked == 1
    assert screen.at == 0
    app.frame([ESCAPE], 0.1)
    again = Choosing(app, asked(), [])
    app.push(again)
    assert not again.working  # kept while the window is open: nothing is worked out a second time
    assert again.picked == 1
    assert pick_tally(app.book, app.player).picks == 1


def test_escape_stops_the_working_out() -> None:
    app = App.headless((1280, 800), Settings(), "Bench")
    app.worker = Worker()  # a real thread: what is asked for is not there at once
    bench, screen = app.screen, Choosing(app, asked(), [])
    app.push(screen)
    app.frame([ESCAPE], 0.1)
    assert app.screen is bench
    assert "Stopped" in app.toast.sentence
    for _ in range(20):
        app.frame([], 0.05)
    assert screen.answer is None
    app.worker.close()


def test_progress_shows_after_half_a_second() -> None:
    app = App.headless((1280, 800), Settings(), "Bench")
    app.worker = Worker()
    screen = Choosing(app, asked(), [])
    app.worker.ask = lambda *_: None  # type: ignore[method-assign]
    app.push(screen)
    app.frame([], 0.1)
    early = pygame.image.tobytes(app.surface, "RGB")
    app.frame([], 0.2)
    assert pygame.image.tobytes(app.surface, "RGB") == early
    app.frame([], 0.3)
    assert pygame.image.tobytes(app.surface, "RGB") != early
    app.worker.close()


def test_what_if_lists_every_change() -> None:
    app, screen = opened()
    app.frame([W], 0.1)
    assert "Pick one first" in app.toast.sentence
    app.frame([TWO], 0.1)
    app.frame([W], 0.1)
    answer = screen.answer
    assert answer is not None
    assert answer.all_changed
    told = said(screen)
    for one in answer.changed:
        assert words.changed_words(one, answer.choice) in told
    assert {one.what.kind for one in answer.changed} == {"spread", "green_speed", "lie"}
    rows = [w for w in walk(screen.widgets) if isinstance(w, ChangeRow)]
    assert rows[0].line.strokes == tuple(f"{o.value.strokes:.2f}" for o in answer.choice.options)
    assert rows[1].line.verdict == words.changed_verdict(answer.changed[0])
    assert rows[-1].rect.bottom < screen._column.rect.bottom  # all in sight at 1280 by 800


def test_what_if_takes_the_place_of_the_cards_and_esc_brings_them_back() -> None:
    got: list[ShotOption] = []
    app, screen = opened(got)
    app.frame([TWO], 0.1)
    app.frame([W], 0.1)
    assert not any(isinstance(w, OptionCard) for w in walk(screen.widgets))
    app.frame([ENTER], 0.1)  # the one button: nothing is taken from a page that shows no option
    assert got == []
    assert app.focus.widget is screen.cards[1]
    app.frame([W], 0.1)
    app.frame([ESCAPE], 0.1)
    assert app.screen is screen
    assert any(isinstance(w, OptionCard) for w in walk(screen.widgets))


@pytest.mark.parametrize(("size", "scale"), [((1280, 800), 1.0), ((1024, 640), 2.0)])
def test_how_the_odds_lean_is_in_sight_at_once(size: tuple[int, int], scale: float) -> None:
    app = App.headless(size, Settings(text_scale=scale), "Bench")
    screen = Choosing(app, asked(), [ChoosingWay("to the Bench", lambda _: None)])
    app.push(screen)
    for _ in range(3):
        app.frame([], 0.1)
    app.frame([TWO], 0.1)
    head = next(w for w in walk(screen.widgets) if isinstance(w, PickVerdict))
    lean = next(at for item, at in head._boxes(app.theme, head.rect) if item.label == words.HOPEFUL)
    assert screen._column.rect.y <= lean.y
    assert lean.bottom <= screen._column.rect.bottom


def test_cards_are_pressed_as_buttons_are() -> None:
    heard: list[str] = []
    card = OptionCard(
        1, CardWords("low runner", ""), lambda: heard.append("press"), lambda: heard.append("enter")
    )
    card.rect = Rect(0, 0, 100, 50)
    down, up = (
        pygame.event.Event(kind, pos=(10, 10), button=1)
        for kind in (pygame.MOUSEBUTTONDOWN, pygame.MOUSEBUTTONUP)
    )
    for event in (key(pygame.K_SPACE, 0, " "), ENTER, key(pygame.K_KP_ENTER), down, up):
        assert card.handle(event)
    assert not card.handle(key(pygame.K_x, 0, "x"))
    assert heard == ["press", "enter", "enter", "press"]


def test_enter_takes_the_option_in_front() -> None:
    got: list[ShotOption] = []
    app, screen = opened(got)
    app.frame([TWO], 0.1)
    app.frame([key(pygame.K_1, 0, "1")], 0.1)
    assert isinstance(app.focus.widget, OptionCard)
    app.frame([ENTER], 0.1)
    assert [o.setup for o in got] == [screen.answer.choice.options[0].setup]  # type: ignore[union-attr]
    assert app.screen is not screen


def test_a_junior_sees_words_until_asked() -> None:
    app, screen = opened(detail="junior")
    app.frame([TWO], 0.1)
    told = said(screen)
    assert "strokes (" not in told
    assert "end close" in told
    app.frame([key(pygame.K_n, 0, "n")], 0.1)
    assert "strokes (" in said(screen)


def test_from_the_bench_by_j_and_back_with_the_set_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(which_shot, "ChoosingQuestion", partial(ChoosingQuestion, effort=TINY))
    monkeypatch.setattr(which_shot, "bench_situation", lambda *_: PLACE)
    app = App.headless((1280, 800), Settings(), "Bench")
    bench = app.screen
    assert isinstance(bench, Bench)
    app.frame([], 0.1)
    bench.set_control("swing_length", 1.4)
    app.frame([J], 0.1)
    screen = app.screen
    assert isinstance(screen, Choosing)
    app.frame([], 0.1)
    app.frame([TWO], 0.1)
    app.frame([ENTER], 0.1)
    assert app.screen is bench
    option = screen.answer.choice.options[1]  # type: ignore[union-attr]
    assert bench.state.now.setup == option.setup
    assert bench.state.now.motion == option.motion


def test_play_offers_it_before_the_shot_and_sets_it_up() -> None:
    scenario = load_library("harrow-fen-short-sided")
    app = App.headless((1280, 800), Settings(), lambda a: Play(a, scenario=scenario))
    play = app.screen
    assert isinstance(play, Play)
    app.frame([J], 0.1)
    assert app.screen is play  # the card: nothing to set yet
    play.go()
    assert play.r.step is Step.SET
    assert any(b.label == "Which shot?" for b in walk(play.widgets))
    option = chosen(scenario_situation(scenario), preset(scenario.player), TINY).options[-1]
    assert closed_words(play.r, option) == ""
    play._take(option)
    assert play.r.setup == option.setup
    assert play.r.motion == option.motion


def test_what_is_not_open_is_said() -> None:
    scenario = load_library("harrow-fen-short-sided")
    r = begin("here", scenario)
    option = chosen(scenario_situation(scenario), preset(scenario.player), TINY).options[0]
    closed = next(n for n in ("stance_width", "lead_weight", "drop") if n not in scenario.open_controls)
    owner = "setup" if closed in ("stance_width", "lead_weight") else "motion"
    part = getattr(option, owner)
    other = replace(option, **{owner: replace(part, **{closed: getattr(part, closed) + 0.1})})
    assert "not open here" in closed_words(r, other)
    assert with_option(r, other).setup.stance_width == r.setup.stance_width


def test_the_fitted_player_chooses_where_there_is_one(tmp_path: Path) -> None:
    app = App.headless((1280, 800), Settings(), "Bench", tmp_path)
    assert chooser_of(app, "beginner").player == preset("beginner")
    assert "illustrative" in chooser_of(app, "beginner").words
    assert keep_own_player(tmp_path, app.player, fitted()) == ""
    own = chooser_of(app, "beginner")
    assert own.player == fitted().player()
    assert "measured balls" in own.words


def test_the_digest_tells_places_and_players_apart() -> None:
    club, other = preset("club"), preset("steady")
    digest = situation_digest(PLACE, club.rows.tolist(), "ninety")
    assert digest == situation_digest(PLACE, club.rows.tolist(), "ninety")
    assert digest != situation_digest(PLACE, other.rows.tolist(), "ninety")
    rough = replace(PLACE, course=level_course("rough", 8.0))
    assert digest != situation_digest(rough, club.rows.tolist(), "ninety")


def test_picks_are_kept_over_a_restart_and_never_changed(tmp_path: Path) -> None:
    when = datetime(2026, 3, 1, 18, 30, tzinfo=UTC)
    one = Pick("Ada", when, "abc", "the fen", "club player", "low runner", "standard chip", 2.5, 2.4, False)
    with Notebook(tmp_path) as book:
        log_pick(book, one)
        log_pick(book, replace(one, picked="standard chip", as_good=True))  # the same place: the first stands
        log_pick(book, replace(one, situation="def", as_good=True))
        with pytest.raises(ValueError, match="offset"):
            log_pick(book, replace(one, when=when.replace(tzinfo=None)))
    with Notebook(tmp_path) as book:
        assert picks_of(book, "Ada") == (one, replace(one, situation="def", as_good=True))
        assert pick_tally(book, "Ada") == PickTally(1, 2)
        assert pick_tally(book, "nobody") == PickTally(0, 0)
        with pytest.raises(Exception, match="only ever added"):
            book.connection.execute("UPDATE picks SET as_good = 1")

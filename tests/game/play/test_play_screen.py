from dataclasses import replace
from functools import cache, partial
from itertools import combinations
from math import radians
from types import SimpleNamespace

import pygame
import pytest
import tomli_w
from ui_events import key, motion, press, release

from game.app.frame import App
from game.chapters.contents import ShelfChapter, shelf
from game.chapters.screen import Chapters
from game.chapters.section import places_on
from game.chapters.station import Station
from game.draw.camera import Rect
from game.library.notebook.pages import history, past_of, progress_of
from game.library.notebook.store import Notebook
from game.library.progress import FILE, Past, Progress, keep_progress
from game.library.settings import Settings
from game.play import acts as play_flow
from game.play.card_parts import CardPage, Room
from game.play.round import Step
from game.play.screen import Play
from game.play.standing import StandingRow
from game.play.tally import TallyRow
from game.play.words import NO_PREDICTION
from game.shot_view.called_place import CalledPlace
from game.shot_view.sheet import spans
from game.shot_view.strip_marks import brackets
from game.text.cautions import CAUTIONS, LIMITS, cautions
from game.text.mark import mark_words
from game.text.quantity import MINUS
from game.ui import Button, Choice, Slider, paint
from game.ui.widget import walk
from levels.attempts import replayed
from levels.files import library, load_library, parse_scenario
from levels.strokes import MANY, strokes_in_parts
from physics.results import Outcome
from physics.spread import PLAYERS

CTRL = pygame.KMOD_LCTRL
ENTER = key(pygame.K_RETURN)
ON = key(pygame.K_RETURN, CTRL)
SIZES = [(1024, 640), (1280, 800), (1920, 1080)]


@cache
def source():
    base = load_library("harrow-fen-plain-chip").model_dump(exclude_none=True)
    made = []
    for i, title in enumerate(("The brush", "More lean", "Land and roll")):
        made.append((f"one-{i}", parse_scenario(tomli_w.dumps(base | {
            "title": title, "order": i + 1, "predict": ["landing", "stop", "strike"],
            "hints": ["Look at the sole.", "Mind the lean.", "Keep the lean."],
            "reference": {"shaft_lean_deg": 4.0}, "limits": {"shaft_lean_deg": [0.0, 12.0]},
            "goal": {"leave_m": 1.5, "land_between_m": [3.0, 6.0],
                     "must_clear": {"x_m": 2.0, "height_m": 0.2},
                     "shots": 5, "successes": 3, "in_a_row": True},
        }))))  # fmt: skip
    return (ShelfChapter("The strike", tuple(made)), ShelfChapter("The flight", tuple(made[:2])))


def opened(size=(1280, 800), home=None, done=(), **settings):
    """An app on the chapter page."""
    app = App.headless(size, Settings(**settings), partial(Chapters, chapters=source), home)
    page = app.screen
    if done:
        for k in done:
            page.progress = page.progress.with_past(k, Past(3, True, (True,) * 3))
        page._build()
        app.arrange()
    app.frame([], 0.016)
    return app


def playing(**kw):
    """An app on the card of the first scenario."""
    app = opened(**kw)
    app.frame([ENTER], 0.016)
    app.frame([], 0.016)
    assert isinstance(app.screen, Play)
    return app


def predicted(app):
    """Predict what is asked, by keys: land two long steps out, stop at the hole, solid."""
    keys = {
        "landing": [key(pygame.K_PAGEUP)] * 2,
        "stop": [key(pygame.K_END)],
        "strike": [key(pygame.K_1, 0, "1")],
    }
    while app.screen.r.unset:
        what = app.screen.r.unset[0]
        app.frame([ENTER, *keys[what]], 0.016)  # Enter goes to what is still to be predicted
    app.toast.hide()
    return app.screen


def to(app, step):
    """Go on by keys until that step."""
    for _ in range(600):
        r = app.screen.r
        if r.step is step:
            app.frame([], 0.016)
            return app.screen
        if r.step is Step.CALL:
            predicted(app)
        waits = r.step is Step.PLAY and r.shot is None
        app.frame([] if waits else [ON], 0.016)
    raise AssertionError(f"never came to {step}")


def leaves(widgets):
    return [w for w in walk(widgets) if not w.parts]


def past_in(home, player="Player 1"):
    """What another window finds of the first scenario."""
    with Notebook(home) as book:
        return past_of(book, player, "one-0")


# ---- the chapter page


def test_the_shelf_holds_every_built_in_scenario_once():
    keys = [k for chapter in shelf() for k, _ in chapter.scenarios]
    assert sorted(keys) == sorted(library())
    for chapter in shelf():
        orders = [s.order for _, s in chapter.scenarios]
        assert orders == sorted(orders)


def test_the_first_open_place_is_chosen_and_all_can_be_opened(tmp_path):
    keep_progress(tmp_path, Progress().with_past("one-0", Past(3, True, (True,) * 3)))
    app = opened(home=tmp_path)
    places = [w for w in app.screen.widgets if isinstance(w, Station)]
    assert [f.done for f in places] == [True, False, False]
    assert app.focus.widget is places[1]
    app.frame([key(pygame.K_RIGHT)], 0.016)
    assert app.screen._chosen is places[2]
    app.frame([ENTER], 0.016)
    assert app.screen.r.key == "one-2"
    app.frame([key(pygame.K_ESCAPE)], 0.016)
    assert isinstance(app.screen, Chapters)
    assert app.focus.widget.key == "one-2"


def test_a_click_on_a_place_opens_it_and_a_key_turns_the_chapter():
    app = opened()
    app.frame([key(pygame.K_PAGEDOWN)], 0.016)
    assert app.screen.at == 1
    assert len([w for w in app.screen.widgets if isinstance(w, Station)]) == 2
    place = [w for w in app.screen.widgets if isinstance(w, Station)][1]
    x, y = place.rect.x + place.rect.w / 2, place.rect.y + place.rect.h / 2
    app.frame([motion(x, y), press(x, y), release(x, y)], 0.016)
    assert app.screen.r.key == "one-1"


def test_a_solved_place_has_ticks_and_an_open_one_none():
    ink = []
    for done in ((), ("one-0",)):
        app = opened(done=done)
        plate = app.screen._stations[0].plate
        app.focus.set(app.screen._stations[2])
        app.frame([], 0.016)
        part = app.surface.subsurface(
            (round(plate.right - 40), round(plate.y + 6), 34, round(0.5 * plate.h) - 4)
        )
        pixels = pygame.surfarray.array3d(part).astype(int)
        ink.append(int((abs(pixels - app.theme.palette.ink).sum(axis=2) < 90).sum()))
    assert ink[0] == 0
    assert ink[1] > 20


def test_places_on_the_ground_cover_it_without_overlap_and_end_at_true_holes():
    app = opened()
    stations = app.screen._stations
    for a, b in combinations(stations, 2):
        assert not a.rect.overlaps(b.rect)
        assert not a.plate.overlaps(b.plate)
    courses = tuple(s.scenario.course() for s in stations)
    for course, place in zip(courses, places_on(courses, app.screen._land), strict=True):
        assert (place.hole[0] - place.ball[0]) / place.camera.scale == pytest.approx(course.hole.x)


def test_two_windows_on_one_folder_lose_nothing(tmp_path):
    first, second = opened(home=tmp_path), playing(home=tmp_path)
    first.frame([ENTER], 0.016)
    for app in (first, second):
        to(app, Step.RESULT)
    assert past_in(tmp_path).tries == 2
    first.frame([key(pygame.K_ESCAPE)] * 2, 0.016)  # back on the page both are seen
    assert isinstance(first.screen, Chapters)
    assert first.screen.progress.of("one-0").tries == 2


def test_another_player_begins_with_a_clean_page(tmp_path):
    app = playing(home=tmp_path)
    to(app, Step.RESULT)
    app.frame([key(pygame.K_ESCAPE)] * 2, 0.016)
    app.change(player=app.book.add_player("Robin"))
    app.open("Bench")
    app.show(app.screen)
    page = Chapters(app, chapters=source)
    app.show(page)
    assert page.progress == Progress()
    app.frame([ENTER], 0.016)
    to(app, Step.RESULT)
    assert past_in(tmp_path, "Robin").tries == 1
    assert past_in(tmp_path).tries == 1


def test_a_bad_progress_file_is_told_and_set_aside(tmp_path):
    (tmp_path / FILE.name).write_text("nonsense")
    app = opened(home=tmp_path)
    assert app.toast.sentence.endswith("progress starts afresh.")
    assert (tmp_path / "progress.bad.json").exists()


# ---- the loop on the screen


def test_the_whole_loop_by_keys_alone_and_it_is_kept(tmp_path):
    app = playing(home=tmp_path)
    p = app.screen
    seen = [p.r.step]
    for _ in range(900):
        waits = p.r.step is Step.PLAY and p.r.shot is None
        if p.r.step is Step.CALL:
            predicted(app)
        app.frame([] if waits else [ON], 0.016)
        if p.r.step is not seen[-1]:
            seen.append(p.r.step)
        if p.r.step is Step.RESULT:
            break
    assert seen == [Step.CARD, Step.SET, Step.CALL, Step.PLAY, Step.RESULT]
    app.frame([], 0.016)
    assert p.match is not None
    assert past_in(tmp_path) == p.r.past
    assert p.r.past.tries == 1
    first = p.r.shot
    app.frame([ENTER], 0.016)  # one key for another try
    assert p.r.step is Step.SET
    to(app, Step.RESULT)
    assert p.r.shot.seed != first.seed
    assert p.r.shot.setup == first.setup
    assert past_in(tmp_path).tries == 2


def test_what_was_played_replays_from_its_row_with_prediction_and_cause(tmp_path):
    app = playing(home=tmp_path)
    p = to(app, Step.SET)
    p.hint()
    p.set("shaft_lean", radians(11.0))
    to(app, Step.RESULT)
    if not p.r.asking:
        app.frame([key(pygame.K_w, 0, "w")], 0.016)
    app.frame([key(pygame.K_1, 0, "1")], 0.016)
    app.frame([key(pygame.K_2, 0, "2")], 0.016)  # the first choice stands
    with Notebook(tmp_path) as book:
        (one,) = history(book, "Player 1")
    assert replayed(one) == p.r.shot
    assert (one.task.name, one.task.digest) == ("one-0", p.r.scenario.digest)
    assert (one.call, one.hints, one.passed, one.result.met) == (p.r.call, 1, p.r.done, p.r.verdict.met)
    assert one.cause == p.r.named_cause
    assert one.cause.chosen == p.r.question.choices[0]


def test_controls_move_by_slider_and_by_golfer_and_stay_in_the_limits():
    app = playing()
    p = to(app, Step.SET)
    slider = next(w for w in walk(p.widgets) if isinstance(w, Slider) and w.label == "Shaft lean")
    app.focus.set(slider)
    app.frame([key(pygame.K_END)], 0.016)
    assert p.r.setup.shaft_lean == pytest.approx(12.0 / 57.29578)
    knob = next(w for w in p.picture.golfer.parts if w.name == "shaft_lean")
    app.focus.set(knob)
    app.frame([key(pygame.K_RIGHT)], 0.016)
    assert p.r.setup.shaft_lean == pytest.approx(12.0 / 57.29578)  # not beyond
    for _ in range(2):
        app.frame([key(pygame.K_LEFT)], 0.016)
    assert slider.value == pytest.approx(10.0)
    to(app, Step.CALL)
    held = p.r.setup
    p.set("shaft_lean", 0.0)
    assert p.r.setup == held  # nothing moves once it is called


def test_the_main_button_names_the_key_that_presses_it():
    app = playing()
    p = to(app, Step.SET)
    app.focus.set(next(w for w in walk(p.widgets) if isinstance(w, Slider)))
    app.frame([], 0.016)
    main = next(b for b in p._card.ways if b.kind == "main")
    assert main.hint == "Ctrl+Enter"
    app.focus.set(main)
    app.frame([], 0.016)
    assert main.hint == "Enter"
    app.frame([ENTER], 0.016)
    assert p.r.step is Step.CALL


def test_marks_are_dragged_and_stepped():
    app = playing()
    p = to(app, Step.CALL)
    landing, stop = p.marks
    assert app.focus.widget is landing
    assert landing.x is stop.x is p.r.call.landing is None
    app.frame([key(pygame.K_RIGHT)] * 3, 0.016)
    assert p.r.call.landing == pytest.approx(1.5)  # from the ball outward
    app.frame([key(pygame.K_TAB), key(pygame.K_END), key(pygame.K_LEFT, pygame.KMOD_LSHIFT)], 0.016)
    assert app.focus.widget is stop
    assert p.r.call.stop == pytest.approx(p.r.scenario.hole.x_m - 0.1)
    app.frame([key(pygame.K_PAGEUP), key(pygame.K_PAGEDOWN), key(pygame.K_PAGEDOWN)], 0.016)
    stood = p.r.call.stop
    x, y = stop.rect.x + stop.rect.w / 2, stop.rect.y + stop.rect.h / 2
    step = 50.0
    app.frame([press(x, y), motion(x - step, y, True), release(x - step, y)], 0.016)
    assert p.r.call.stop == pytest.approx(stood - step / p.picture.stage.camera.scale, abs=0.02)
    app.frame([motion(1, 1), motion(1, 1)], 0.016)
    app.frame([press(*_middle(landing)), motion(-500, y, True), release(-500, y)], 0.016)
    assert p.r.call.landing == 0.0
    assert isinstance(app.focus.widget, CalledPlace)


def test_a_click_on_the_course_sets_the_mark_that_is_next_and_then_the_one_in_focus():
    app = playing()
    p = to(app, Step.CALL)
    strip, camera = p.places.strip, p.picture.stage.camera
    app.focus.set(None)
    for what, x in (("landing", 4.0), ("stop", 9.0)):
        at = strip.x + camera.at(x, 0)[0], strip.bottom - 20
        app.frame([motion(*at), press(*at), release(*at)], 0.016)
        assert getattr(p.r.call, what) == pytest.approx(x, abs=0.05)
        app.focus.set(None)
    app.focus.set(p.marks[0])
    at = strip.x + camera.at(6.0, 0)[0], strip.bottom - 20
    app.frame([motion(*at), press(*at), release(*at)], 0.016)
    assert p.r.call.landing == pytest.approx(6.0, abs=0.05)
    assert p.r.call.stop == pytest.approx(9.0, abs=0.05)


def test_play_waits_for_a_prediction_and_one_key_plays_without():
    app = playing()
    p = to(app, Step.CALL)
    app.frame([ENTER], 0.016)
    assert p.r.step is Step.CALL
    assert app.toast.sentence == (
        "Predict where the ball lands, where it stops and how it is struck, or press S to play without."
    )
    app.frame([key(pygame.K_s, 0, "s")], 0.016)
    assert p.r.step is Step.PLAY
    to(app, Step.RESULT)
    assert any(NO_PREDICTION in w.label for w in walk(p.widgets))
    assert p.r.past.gaps == p.r.past.calls == ()


def test_every_try_begins_with_nothing_predicted():
    app = playing()
    p = to(app, Step.RESULT)
    assert not p.r.call.none
    app.frame([ENTER], 0.016)
    to(app, Step.CALL)
    assert p.r.call.none
    assert [m.x for m in p.marks] == [None, None]
    assert next(w for w in walk(p.widgets) if isinstance(w, Choice)).value == "not chosen"


def test_met_and_not_met_differ_in_shape_word_and_sound(monkeypatch):
    heard, looks = [], []
    monkeypatch.setattr(
        play_flow, "loudspeaker", lambda _: SimpleNamespace(play=lambda cue: heard.append(cue.name))
    )
    for met in (True, False):
        app = playing(reduced_motion=True)
        monkeypatch.setattr(play_flow, "shot_of", judged(met))
        p = to(app, Step.RESULT)
        row = next(w for w in walk(p.widgets) if isinstance(w, StandingRow))
        flag = Rect(row.rect.x + 2.5 * p.theme.gap, row.rect.y + p.theme.gap, p.theme.gap, p.theme.gap)
        looks.append((row.label, app.surface.subsurface(paint.pixels(flag)).get_at((2, 2))[:3]))
    assert heard == ["met", "not_yet"]
    assert [words for words, _ in looks] == ["Goal met", "Not yet"]
    assert looks[0][1] != looks[1][1]


def judged(met):
    """The real shot, its verdict met or not."""
    real = play_flow.shot_of

    def job_of(r, course):
        made = real(r, course)()
        return lambda: replace(made, verdict=replace(made.verdict, met=met))

    return job_of


def test_the_result_is_read_without_scrolling_in_every_built_in_scenario_at_the_usual_size():
    """Two tries each would be many shots: what is long is the words, so every question is opened too."""
    for name in library():
        app = App.headless(
            (1280, 800), Settings(reduced_motion=True), partial(Play, scenario=load_library(name))
        )
        app.frame([], 0.016)
        p = to(app, Step.RESULT)
        app.frame([key(pygame.K_w, 0, "w")], 0.016)
        assert p._room <= Room.CAUSE, name
        assert p._column.overflow == 0.0, name
        causes = [w for w in walk(p.widgets) if isinstance(w, Button) and w.group == "causes"]
        assert len(causes) == 3
        app.frame([key(pygame.K_2, 0, "2")], 0.016)
        assert p._column.overflow == 0.0, name
        assert any(w.label.startswith("Cause:") for w in walk(p.widgets))


def _middle(w):
    return w.rect.x + w.rect.w / 2, w.rect.y + w.rect.h / 2


def test_the_strike_is_slow_first_and_space_stops_it():
    app = playing()
    p = to(app, Step.PLAY)
    for _ in range(20):
        app.frame([], 0.05)
    ball = p.r.shot.strike.time
    assert p.ribbon.time < ball  # a second of showing, and the swing is not yet through
    app.frame([key(pygame.K_s), key(pygame.K_TAB)], 0.016)
    app.focus.set(None)
    app.frame([key(pygame.K_SPACE, 0, " ")], 0.016)
    stood = p.ribbon.time
    app.frame([], 0.5)
    assert p.ribbon.time == stood
    app.frame([key(pygame.K_SPACE, 0, " ")], 0.016)
    for _ in range(400):
        app.frame([], 0.1)
        if p.r.step is not Step.PLAY:
            break
    assert p.r.step is Step.RESULT  # it goes on by itself when the ball lies still


def test_a_press_meant_for_the_film_that_has_just_ended_begins_nothing():
    app = playing()
    p = to(app, Step.PLAY)
    for _ in range(3000):
        app.frame([], 0.016)
        if p.r.step is Step.RESULT:
            break
    assert p.r.step is Step.RESULT
    app.frame([ENTER], 0.016)
    assert p.r.step is Step.RESULT
    for _ in range(100):
        if not p.moving:  # it asks for frames until then, so that the wait is never longer
            break
        app.frame([], 0.016)
    assert not p.moving
    app.frame([ENTER], 0.016)
    assert p.r.step is Step.SET


def test_who_asks_for_the_end_may_go_on_at_once():
    p = to(app := playing(), Step.PLAY)
    app.frame([], 0.016)
    app.frame([ON], 0.016)
    assert p.r.step is Step.RESULT
    app.frame([ENTER], 0.016)
    assert p.r.step is Step.SET


def test_with_reduced_motion_the_end_is_shown_at_once():
    app = playing(reduced_motion=True)
    p = to(app, Step.CALL)
    predicted(app)
    app.frame([ON], 0.016)
    app.frame([], 0.016)
    assert p.r.step is Step.RESULT
    assert p.ribbon.at_end


def test_hints_rise_by_key_and_are_said():
    app = playing()
    for words in ("Hint 1. Look at the sole.", "Hint 2. Mind the lean.", "Hint 3. Keep the lean."):
        app.frame([key(pygame.K_h, 0, "h")], 0.016)
        assert app.toast.sentence == words
        assert words in [w.label for w in walk(app.screen.widgets)]
    assert not any(w.label.startswith("Hint 4") for w in walk(app.screen.widgets))


def test_why_is_one_key_away_and_the_coachs_way_too():
    app = playing()
    p = to(app, Step.RESULT)
    p.r = replace(p.r, chosen=None, asking=False)
    p._build()
    app.frame([key(pygame.K_w, 0, "w")], 0.016)
    assert p.r.asking
    picks = [w for w in walk(p.widgets) if isinstance(w, Button) and w.group == "causes"]
    assert len(picks) == 3
    app.frame([press(*_middle(picks[2])), release(*_middle(picks[2]))], 0.016)
    assert p.r.chosen == 2
    app.frame([key(pygame.K_e, 0, "e")], 0.016)
    app.frame([], 0.016)
    assert p.r.step is Step.EXAMPLE
    assert p._film is p.r.example
    to(app, Step.RESULT)
    assert p._film is p.r.shot


def test_a_scenario_left_in_the_middle_goes_on_where_it_was():
    app = playing()
    p = to(app, Step.CALL)
    app.frame([key(pygame.K_ESCAPE)], 0.016)
    app.frame([], 0.016)
    assert app.screen._enter.label == "Go on"
    app.frame([ENTER], 0.016)
    assert app.screen is p
    assert p.r.step is Step.CALL


def test_one_key_opens_the_next_scenario():
    app = playing()
    p = to(app, Step.CALL)
    app.frame([key(pygame.K_g, 0, "g")], 0.016)
    assert app.screen is p  # only from a result
    to(app, Step.RESULT)
    app.frame([key(pygame.K_g, 0, "g")], 0.016)
    assert app.screen.r.key == "one-1"
    assert len(app.stack) == 2


def test_a_shot_that_cannot_be_worked_out_leads_back_to_the_set_up(monkeypatch):
    app = playing()
    p = to(app, Step.CALL)
    monkeypatch.setattr(play_flow, "shot_of", lambda *_: lambda: 1 / 0)
    predicted(app)
    app.frame([ON], 0.016)
    assert p.r.step is Step.SET
    assert app.toast.sentence.startswith("The shot could not be worked out")
    assert p.r.past.tries == 0


def test_a_shot_worked_out_while_another_screen_is_in_front_waits_there():
    app = playing()
    p = to(app, Step.CALL)
    predicted(app)
    app.handle(ON)
    app.handle(key(pygame.K_ESCAPE))
    focused = app.focus.widget
    app.frame([], 0.016)
    assert app.focus.widget is focused
    assert p.r.verdict is not None
    p.keep(p.r)
    app.frame([ENTER], 0.016)
    assert app.screen is p
    for _ in range(400):
        app.frame([], 0.1)
        if p.r.step is not Step.PLAY:
            break
    assert p.r.step is Step.RESULT


# ---- a junior


def marks_told(p):
    scene = p._scene()
    return [mark_words(mark, scene.units, scene.numbers) for mark in scene.marks]


def test_a_junior_reads_no_distance_of_a_ball_that_came_back():
    app = playing(detail="junior", size=(1280, 800))
    p = app.screen
    to(app, Step.RESULT)
    shot = p.r.shot
    p.r = replace(p.r, shot=replace(shot, run=replace(shot.run, outcome=Outcome.REST, rest=-1.0)))
    assert "stopped" in marks_told(p)
    p.with_numbers = True
    assert f"stopped {MINUS}1.0 m" in marks_told(p)


def test_a_junior_watches_first_and_reads_no_numbers_until_asked():
    app = playing(detail="junior", size=(1280, 800))
    p = app.screen
    app.frame([ENTER], 0.016)
    assert p.r.step is Step.EXAMPLE
    for step in (Step.EXAMPLE, Step.SET, Step.CALL, Step.RESULT):
        to(app, step)
        allowed = p.r.scenario.lesson.before + p.r.scenario.lesson.after + p.r.scenario.title
        words = [w.label for w in leaves(p.widgets) if w.label and w.label not in allowed]
        words += marks_told(p)
        words += [w.caption for w in p.picture.golfer.parts]
        words += [told for m in p.marks for told in (m.words, m.caption)]
        assert not any(c.isdigit() for text in words for c in text), (
            step,
            [text for text in words if any(c.isdigit() for c in text)],
        )
    app.frame([key(pygame.K_n, 0, "n")], 0.016)
    words = [w.label for w in leaves(p.widgets)]
    assert any(c.isdigit() for text in words for c in text)


# ---- room


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
def test_nothing_overlaps_in_any_step(size, scale):
    app = opened(size=size, text_scale=scale)
    _check(app)
    app.frame([ENTER], 0.016)
    app.frame([], 0.016)
    for step in (Step.CARD, Step.SET, Step.CALL, Step.PLAY, Step.RESULT):
        p = to(app, step)
        _check(app)
        at = p.places
        boxes = [b for b in (at.strip, at.card, at.ways, at.ribbon, at.window, at.figure) if b.h > 0]
        assert p._column.rect == at.card
        for a, b in combinations(boxes, 2):
            assert not a.inset(0.6).overlaps(b.inset(0.6)), (step, a, b)
        for box in boxes:
            assert app.box.holds(box, 1.0), (step, box)


def _check(app):
    for a, b in combinations([w for w in leaves(app.screen.widgets) if not isinstance(w, CalledPlace)], 2):
        inside = a.within is not None and b.within is not None  # phrases of one sentence share their lines
        if not (inside and a.group == b.group == "phrases") and a.within is b.within:
            assert not a.rect.inset(0.3).overlaps(b.rect.inset(0.3)), (a.label, b.label)
    for w in leaves(app.screen.widgets):
        assert w.rect.right <= app.surface.get_width() + 0.5, w.label
        if w.focusable and w.group != "phrases":
            assert min(w.rect.w, w.rect.h) >= 24, (w.label, w.rect)


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_the_next_thing_to_do_has_the_focus_and_can_be_seen(scale):
    app = playing(size=(1024, 640), text_scale=scale)
    for step in (Step.CARD, Step.SET, Step.CALL, Step.RESULT):
        to(app, step)
        widget = app.focus.widget
        assert widget is not None, step
        assert app.box.holds(widget.rect, 2.0), (step, widget.label)


def test_a_still_picture_is_the_same_when_drawn_again():
    app = playing()
    p = to(app, Step.RESULT)
    app.toast.hide()
    app.frame([], 0.0)
    kept = pygame.image.tobytes(app.surface, "RGB")
    p.picture._still.__init__()
    app.frame([], 0.0)
    assert pygame.image.tobytes(app.surface, "RGB") == kept


def test_arrows_go_through_all_chapters_where_one_bar_holds_them():
    app = App.headless((1024, 640), Settings(text_scale=2.0), "Play")
    app.frame([], 0.016)
    page = app.screen
    app.focus.set(next(w for w in walk(page.widgets) if isinstance(w, Choice)))
    for at in range(1, 4):
        app.frame([key(pygame.K_RIGHT)], 0.016)
        assert page.at == at
        assert isinstance(app.focus.widget, Choice)
    app.frame([key(pygame.K_PAGEDOWN)], 0.016)
    app.focus.set(page._chosen)
    app.frame([key(pygame.K_PAGEDOWN)], 0.016)
    assert isinstance(app.focus.widget, Station)  # who goes along the ground goes on there


def test_in_a_smaller_window_the_control_in_focus_is_still_in_sight():
    app = playing(size=(1280, 800), text_scale=2.0)
    p = to(app, Step.SET)
    last = [w for w in walk([p._column]) if isinstance(w, Slider)][-1]
    app.focus.set(last)
    app.surface = pygame.Surface((1024, 640), 0, 32)
    app.frame([], 0.016)
    assert app.focus.widget is last
    assert p._column.rect.holds(last.rect, 1.0)


def _tight(step, **settings):
    """An app at the smallest window with the largest text, come to that step."""
    app = playing(size=(1024, 640), text_scale=2.0, **settings)
    to(app, step)
    return app, app.screen


@pytest.mark.parametrize("detail", ["junior", "player"])
def test_all_three_causes_can_be_seen_at_once_with_the_largest_text(detail):
    app, p = _tight(Step.RESULT, detail=detail)
    if p._room is Room.RESULT:
        app.frame([key(pygame.K_w, 0, "w")], 0.016)
        assert p._page is CardPage.WHY
    picks = [w for w in walk(p.widgets) if isinstance(w, Button) and w.group == "causes"]
    assert len(picks) == 3
    assert all(p.places.card.holds(w.rect, 0.5) for w in picks)
    app.frame([key(pygame.K_v, 0, "v")], 0.016)
    assert p.places.opened
    assert p.places.strip.h > 0
    app.frame([key(pygame.K_v, 0, "v"), key(pygame.K_3, 0, "3")], 0.016)
    assert not p.places.opened
    assert p.r.chosen == 2


def test_showing_a_shot_again_brings_the_picture_back_and_then_the_words():
    app, p = _tight(Step.RESULT)
    assert not p.places.opened
    app.frame([key(pygame.K_p, 0, "p")], 0.016)
    app.frame([], 0.016)
    assert p.places.opened
    for _ in range(400):
        app.frame([], 0.1)
        if p.ribbon.at_end:
            break
    app.frame([], 0.016)
    assert not p.places.opened


def test_where_the_card_scrolls_no_line_is_cut_and_a_mark_says_so():
    app, p = _tight(Step.CARD)
    theme, sheet = app.theme, p._column
    assert sheet.overflow > 0
    for _ in range(12):
        top, foot = sheet.edges(theme)
        seen = [(a, b) for a, b in spans(sheet.items, theme) if b > sheet.rect.y and a < sheet.rect.bottom]
        cut = [(a, b) for a, b in seen if a < top < b - 0.5 or a + 0.5 < foot < b]
        assert not cut
        app.frame([], 0.0)
        middle = int(sheet.rect.x + sheet.rect.w / 2)
        mark = [app.surface.get_at((middle, y))[:3] for y in range(int(foot), int(sheet.rect.bottom))]
        assert (theme.accent in mark) == (sheet.offset < sheet.overflow - 0.5)
        app.frame([key(pygame.K_PAGEDOWN)], 0.0)
        if sheet.offset >= sheet.overflow - 0.5:
            break
    assert sheet.offset >= sheet.overflow - 0.5


def test_cautions_and_limits_stand_on_the_card_and_can_be_read_with_the_largest_text():
    app, p = _tight(Step.CARD)
    block = next(w for w in walk(p.widgets) if w.label == cautions())
    assert any(w.label == LIMITS for w in walk(p.widgets))
    for _ in range(8):
        app.frame([key(pygame.K_PAGEDOWN)], 0.0)
    assert p._column.rect.holds(block.rect, 1.0)
    for sentence in CAUTIONS:
        assert len(sentence.split()) <= 12


# ---- one try, one seed


def test_a_try_cannot_be_drawn_again_by_going_away_and_back(tmp_path):
    """Neither the way back, nor leaving, nor starting anew before the shot gives another stroke."""
    app = playing(home=tmp_path)
    p = to(app, Step.CALL)
    seed = p.r.seed
    app.frame([key(pygame.K_b, 0, "b"), key(pygame.K_ESCAPE)], 0.016)
    app.frame([ENTER], 0.016)
    assert app.screen is p
    assert p.r.seed == seed
    anew = playing(home=tmp_path)
    assert anew.screen.r.seed == seed
    to(app, Step.RESULT)
    assert p.r.shot.seed == seed
    later = playing(home=tmp_path)  # as after a crash right after the ball stopped: the try has counted
    assert later.screen.r.past.tries == 1
    assert later.screen.r.seed != seed
    to(app, Step.RESULT)
    app.frame([key(pygame.K_r, 0, "r")], 0.016)
    assert p.r.seed == later.screen.r.seed


def test_a_try_counts_before_it_is_shown(tmp_path):
    app = playing(home=tmp_path)
    to(app, Step.CALL)
    predicted(app)
    app.frame([ON], 0.016)
    app.frame([], 0.0)
    assert app.screen.r.step is Step.PLAY
    assert past_in(tmp_path).tries == 1


def test_a_shot_another_scenario_pushed_aside_is_worked_out_on_return():
    """Both ask on one channel, where the newest wins; the older one must not wait for ever."""
    app = playing()
    p = to(app, Step.CALL)
    predicted(app)
    app.handle(ON)
    app.handle(key(pygame.K_ESCAPE))
    app.worker.ask("shot", lambda: None)
    app.frame([], 0.016)
    assert p.r.step is Step.PLAY
    assert p.r.verdict is None
    app.frame([ENTER], 0.016)
    app.frame([], 0.016)
    assert p.r.verdict is not None


# ---- a trial for the builder


def test_a_trial_keeps_nothing_and_leads_back(tmp_path):
    kept = []
    app = opened(home=tmp_path)
    below = app.screen
    one = source()[0].scenarios[0][1]
    app.push(Play(app, scenario=one, keep=kept.append, trial=True))
    p = to(app, Step.RESULT)
    assert kept == []
    assert progress_of(app.book, app.player) == Progress()
    p.r = p.r.__class__(**{**p.r.__dict__, "past": Past(3, True, (True, True, True))})
    p._build()
    assert any(w.label == "Go back" for w in walk(p.widgets))
    app.frame([key(pygame.K_g, 0, "g")], 0.016)
    assert app.screen is below
    app.push(Play(app, scenario=one, trial=True))
    app.toast.hide()
    app.frame([key(pygame.K_ESCAPE)], 0.016)
    assert app.screen is below
    with pytest.raises(ValueError, match="a round or a scenario"):
        Play(app)


def test_thrown_turf_comes_with_the_shot_and_the_strobe_by_key():
    app = playing()
    p = to(app, Step.RESULT)
    assert p.picture.turf.spray is p._try.spray
    before = pygame.image.tobytes(app.surface, "RGB")
    app.frame([key(pygame.K_t, 0, "t")], 0.016)
    assert p.picture.turf.strobe
    assert app.toast.sentence == "Multiple exposure on."
    app.toast.hide()
    app.frame([], 0.016)
    assert pygame.image.tobytes(app.surface, "RGB") != before


# ---- small parts


def test_brackets_tell_the_gap_in_words():
    called, actual = {"landing": 4.0, "stop": 10.0}, {"landing": float("nan"), "stop": 11.2}
    never, past = brackets(called, actual, True, False)
    assert never.words == "never landed"
    assert past.words == "stopped 1.2 m past your mark"
    assert brackets(called, actual, False, False)[1].words == "stopped past your mark"
    assert brackets({"stop": 10.0}, {"stop": 10.01}, True, True)[0].words == "stopped on your mark"
    assert brackets({"stop": 10.0}, {"stop": 9.0}, True, True)[0].words == "stopped 1.1 yd short of your mark"


def test_the_tally_wraps_in_a_narrow_box():
    from game.play.tally import Tally
    from game.ui import Theme

    row = TallyRow(Tally((True, False, *[None] * 18), "1 of 20"))
    theme = Theme.of(False, 2.0)
    wide, narrow = row.height(theme, 2000.0), row.height(theme, 300.0)
    assert narrow > wide
    sheet = pygame.Surface((320, 400), 0, 32)
    sheet.fill(theme.palette.paper)
    row.place(Rect(4, 4, 300, narrow), theme)
    row.draw(sheet, theme)
    assert sheet.get_at((4 + int(2.25 * theme.gap / 2), 4 + int(1.25 * theme.gap)))[:3] == theme.accent


def test_after_a_shot_fifty_strokes_stand_as_dots_and_the_card_tells_where_they_stop():
    app = playing()
    p = to(app, Step.RESULT)
    for _ in range(20):
        app.frame([], 0.016)
    scene = p._scene()
    (row,) = scene.rows
    assert row.many.count == MANY
    assert row.target == p.r.scenario.goal.leave_m
    assert not scene.stops
    assert p.r.shot.setup == p.r.setup  # of this set-up, by this player
    *_, again = strokes_in_parts(p.course, p.r.setup, p.r.motion, PLAYERS[p.r.scenario.player])
    assert row.many == again
    if p._room is not Room.ALL:
        app.frame([key(pygame.K_m, 0, "m")], 0.016)
    said = " ".join(w.label for w in walk(p.widgets))
    assert f"{again.inside(row.target).of_100} of 100 within" in said
    app.frame([key(pygame.K_r, 0, "r")], 0.016)
    assert p._scene().rows == ()

from dataclasses import replace
from itertools import combinations
from math import radians

import numpy as np
import pygame
import pytest

from game.app.frame import App
from game.bench.compare import marks_of_both
from game.bench.parts import VIEWS
from game.bench.screen import HELLO, Bench
from game.draw.camera import Rect
from game.library.settings import DETAILS, Settings
from game.shot_view.intended_swing import swing_path_of
from game.shot_view.stage import Scene
from game.text.mark import mark_words
from game.text.story import explain
from game.ui.widget import walk
from levels.strokes import SHOWN
from physics.address import CONTROLS, Motion, Setup
from physics.cloud import cloud
from physics.course import level_course
from physics.equipment import FLAGSTICK
from physics.repair import Kind
from physics.results import Outcome
from physics.shot import play
from tests.ui_events import key

SPACE = key(pygame.K_SPACE, 0, " ")


def bench(size=(1280, 800), **settings) -> tuple[App, Bench]:
    app = App.headless(size, Settings(**settings), "Bench")
    assert isinstance(app.screen, Bench)
    app.frame([], 0.016)
    return app, app.screen


def run(app: App, seconds: float, dt: float = 0.05) -> None:
    for _ in range(round(seconds / dt)):
        app.frame([], dt)


def scene_of(screen: Bench) -> Scene:
    """What stands on the first stage."""
    return screen.pictures.scene(screen.look())


def marks_told(screen: Bench) -> list[str]:
    """What the marks along the foot of the first stage say."""
    scene = scene_of(screen)
    return [mark_words(mark, scene.units, scene.numbers) for mark in scene.marks]


def cut(app: App, r: Rect) -> np.ndarray:
    """The pixels in a box, (columns, rows, rgb)."""
    picture = pygame.surfarray.array3d(app.surface).astype(int)
    return picture[round(r.x) : round(r.right), round(r.y) : round(r.bottom)]


def played(app: App) -> None:
    """One shot, seen to its end."""
    app.frame([SPACE], 0.016)
    run(app, 20.0, 0.2)


def test_the_bench_is_the_first_screen_and_space_plays_a_shot():
    app, screen = bench()
    assert app.titles[0] == "Bench"
    app.frame([SPACE], 0.016)
    assert screen.state.shot is not None
    assert screen.ribbon.playing
    assert not screen.at_address


def test_space_pauses_and_goes_on_without_a_new_shot():
    app, screen = bench()
    app.frame([SPACE], 0.016)
    run(app, 1.0)
    shot = screen.state.shot
    app.frame([SPACE], 0.016)
    assert not screen.ribbon.playing
    time = screen.ribbon.time
    run(app, 0.5)
    assert screen.ribbon.time == time
    app.frame([SPACE], 0.016)
    assert screen.ribbon.playing
    assert screen.state.shot is shot


def test_the_end_is_not_told_before_it_is_seen():
    app, screen = bench()
    app.frame([SPACE], 0.016)
    run(app, 0.5)
    assert screen.said.text == ""
    run(app, 20.0, 0.2)
    assert "landed" in screen.said.text


def test_every_control_shows_at_once_and_leaves_a_ghost():
    app, screen = bench(detail="coach")
    played(app)
    before = pygame.surfarray.array3d(app.surface)
    for name, slider in screen.panel.sliders.items():
        setting = screen.state.now
        slider.handle(key(pygame.K_PAGEUP))
        assert screen.state.now != setting, name
        assert screen.at_address
    app.frame([], 0.016)
    assert (pygame.surfarray.array3d(app.surface) != before).any()
    assert screen.look().older == screen.state.settled
    assert scene_of(screen).ghost is screen.state.shot


def test_a_change_asks_for_new_likely_stops_and_a_machine_has_none():
    app, screen = bench()
    first = screen.many
    assert first.count == 500
    screen.set_control("swing_length", radians(60))
    app.frame([], 0.016)
    assert screen.many.stops != first.stops
    screen.parts.player.set(0)
    app.frame([], 0.016)
    assert screen.many is None
    assert screen.look().rows == ()


def test_the_next_shot_leaves_the_last_as_ghost():
    app, screen = bench()
    played(app)
    first = screen.state.shot
    played(app)
    assert scene_of(screen).ghost is first
    assert screen.state.shot.seed == first.seed + 1


def test_why_before_any_shot_is_advice_and_r_plays_it_repaired():
    app, screen = bench(reduced_motion=True)
    app.frame([key(pygame.K_r, 0, "r")], 0.016)
    assert "W" in app.toast.sentence
    screen.set_control("lean_change", radians(12))
    app.frame([key(pygame.K_w, 0, "w")], 0.016)
    app.frame([], 0.016)
    assert "The set-up would gain most from a change of the lean added by impact" in screen.parts.cost.label
    repair = screen.asked_why.repair
    app.frame([key(pygame.K_r, 0, "r")], 0.016)
    app.frame([], 0.016)
    assert screen.state.now.value(repair.control) == pytest.approx(repair.best)
    assert screen.state.shot is not None


def test_why_after_a_shot_says_what_cost_most_and_a_change_takes_it_back():
    app, screen = bench(reduced_motion=True)
    screen.set_control("lean_change", radians(12))
    app.frame([SPACE], 0.016)
    app.frame([key(pygame.K_w, 0, "w")], 0.016)
    app.frame([], 0.016)
    assert screen.parts.cost.label.startswith("What cost most: lean added by impact.")
    screen.set_control("lean_change", radians(10))
    assert screen.parts.cost.label == ""
    assert screen.asked_why.repair is None


@pytest.mark.parametrize("detail", DETAILS)
def test_why_names_only_what_can_be_moved_and_says_how_far_it_is(detail):
    app, screen = bench(detail=detail, reduced_motion=True)
    screen.set_control("depth", 0.012)  # not open below the level of a coach
    told: list[str] = []
    screen.asked_why.on_news = lambda: told.append(screen.asked_why.words)
    app.frame([key(pygame.K_w, 0, "w")], 0.016)
    app.frame([], 0.016)
    repair = screen.asked_why.repair
    assert repair is None or repair.control in screen.panel.names
    assert told[0].startswith("Looking for what to change")
    if detail == "coach":
        assert repair.control == "depth"
        assert repair.kind is Kind.MENDS
    else:  # what is out of place cannot be moved here: others are tried, and make up for it
        assert repair is None or repair.kind is Kind.MAKES_UP
        of = len(screen.panel.names)
        trying = f"Trying ball position, 1 of {of} \N{HORIZONTAL ELLIPSIS}"
        assert (trying in told) == (detail != "junior")
    assert detail != "junior" or not any(c.isdigit() for c in "".join(told))


C, V = key(pygame.K_c, 0, "c"), key(pygame.K_v, 0, "v")


def comparing(app: App, screen: Bench) -> None:
    """A kept, B with more lean, both played."""
    app.frame([C], 0.016)
    screen.set_control("lean_change", radians(9))
    app.frame([SPACE], 0.016)
    app.frame([], 0.016)


def test_compare_plays_the_same_stroke_with_both_in_step_at_the_ball():
    app, screen = bench(reduced_motion=True)
    comparing(app, screen)
    assert "lean added by impact" in screen.parts.between.label
    app.frame([V], 0.016)  # over each other
    a, b = screen.state.kept_shot, screen.state.shot
    assert (a.seed, a.stray) == (b.seed, b.stray)
    scene = scene_of(screen)
    assert scene.together is a
    assert b.strike.time + scene.apart == pytest.approx(a.strike.time)


def test_a_stays_however_often_c_is_pressed_and_only_shift_c_replaces_it():
    app, screen = bench(reduced_motion=True)
    comparing(app, screen)
    state = screen.state
    app.frame([C], 0.016)
    assert screen.state == state
    assert "Shift+C" in app.toast.sentence
    app.frame([key(pygame.K_c, pygame.KMOD_LSHIFT, "C")], 0.016)
    assert screen.state.kept == state.now
    app.frame([key(pygame.K_ESCAPE)], 0.016)
    assert not screen.state.comparing
    assert screen.state.now == state.now


def test_a_and_b_stand_side_by_side_at_one_scale_each_with_its_own_path_and_words():
    app, screen = bench(reduced_motion=True)
    app.frame([V], 0.016)
    assert "C first" in app.toast.sentence
    screen.set_control("release", 2.0)
    app.frame([SPACE], 0.016)  # a shot before: its stage has already looked far
    screen.standard()
    comparing(app, screen)
    look, places = screen.look(), screen.places
    b, a = screen.pictures.scene(look), screen.pictures.scene_a(look)
    assert (a.shot, b.shot) == (screen.state.kept_shot, screen.state.shot)
    assert (a.together, a.ghost, b.together, b.ghost) == (None, None, None, None)
    assert a.time - b.time == pytest.approx(a.shot.strike.time - b.shot.strike.time)
    course_b, turf_b = places.second
    assert places.course.x < course_b.x
    assert min(places.course.w, course_b.w, places.turf.w, turf_b.w) > 400
    first, second = (stage.camera for stage in screen.pictures.stages)
    assert first.scale == pytest.approx(second.scale, rel=0.01)  # a pixel of width
    assert first.x0 == pytest.approx(second.x0, abs=1.0)
    for shot, view, heading, many in (
        (a.shot, screen.said_a, screen.parts.of_a, screen.kept_many),
        (b.shot, screen.said, screen.parts.of_b, screen.many),
    ):
        assert view.text == " ".join(explain(shot))
        assert f"{many.solid_share.of_100} of 100 solid" in heading.label
    assert screen.said.rect.x > screen.said_a.rect.right
    app.frame([V], 0.016)
    assert screen.places.second is None
    marks = marks_told(screen)
    assert any(m.startswith("A landed") for m in marks)
    assert any(m.startswith("B landed") for m in marks)


def test_what_is_dashed_while_comparing_is_a():
    app, screen = bench(reduced_motion=True)
    app.frame([SPACE], 0.016)
    shot = screen.state.shot
    app.frame([C, V], 0.016)
    assert scene_of(screen).ghost is shot  # A is the set-up of that shot
    screen.set_control("lean_change", radians(9))
    app.frame([SPACE], 0.016)
    screen.set_control("lean_change", radians(6))
    assert scene_of(screen).ghost is screen.state.kept_shot


def test_dots_are_the_first_fifty_rows_of_the_cloud_for_a_and_for_b():
    app, screen = bench(reduced_motion=True)
    comparing(app, screen)
    s = screen.state
    for many, own in ((screen.kept_many, s.kept), (screen.many, s.now)):
        whole = cloud(s.course, own.setup, own.motion, s.spread, 0, 500)
        assert np.array_equal(many.stops, whole.rest)
        assert many.solid_share.value == pytest.approx(whole.solid_share)
        assert many.inside(FLAGSTICK.height).value == pytest.approx((whole.leave <= FLAGSTICK.height).mean())
    assert screen.many.kinds[:SHOWN] != screen.kept_many.kinds[:SHOWN]
    look = screen.look()
    assert [r.many for r in (*look.rows_a, *look.rows)] == [screen.kept_many, screen.many]
    app.frame([V], 0.016)
    assert [r.letter for r in screen.look().rows] == ["A", "B"]


def test_a_kept_while_its_strokes_are_still_being_played_is_not_given_those_of_the_set_up_before():
    app, screen = bench(reduced_motion=True)
    run(app, 0.5)
    before = screen.many
    screen.set_control("lean_change", radians(9))
    app.frame([C], 0.016)
    run(app, 0.5)
    s = screen.state
    whole = cloud(s.course, s.kept.setup, s.kept.motion, s.spread, 0, 500)
    assert np.array_equal(screen.kept_many.stops, whole.rest)
    assert not np.array_equal(before.stops, whole.rest)


@pytest.mark.parametrize(("detail", "on"), [("player", False), ("coach", True)])
def test_the_strobe_is_on_for_a_coach_and_t_turns_it(detail, on):
    app, screen = bench(detail=detail, reduced_motion=True)
    app.frame([SPACE], 0.016)
    app.frame([], 0.016)
    turf = screen.pictures.turfs[0]
    assert turf.strobe == on
    app.frame([key(pygame.K_t, 0, "t")], 0.016)
    assert turf.strobe != on


def test_thrown_turf_is_that_of_the_shot_shown():
    app, screen = bench()
    screen.set_control("lean_change", radians(12))
    played(app)
    track = next(one.spray for one in screen.thrown if one.shot is screen.state.shot)
    assert screen.pictures.turfs[0].spray is track
    screen.set_control("lean_change", radians(10))
    app.frame([], 0.016)
    assert screen.pictures.turfs[0].spray is None


@pytest.mark.parametrize(("start", "end"), [("Text", "Text"), ("Controls", "Text"), ("Turf", "Turf")])
def test_with_large_text_a_shot_is_seen_and_the_words_come_back(start, end):
    app, screen = bench((1024, 640), text_scale=2.0)
    played(app)
    assert VIEWS[screen.shown] == "Text"  # the first shot explains itself
    screen.show_view(VIEWS.index(start))
    app.frame([SPACE], 0.016)
    assert VIEWS[screen.shown] == ("Turf" if start == "Turf" else "Course")
    run(app, 20.0, 0.2)
    assert VIEWS[screen.shown] == end
    screen.show_view(0)
    run(app, 1.0)
    assert VIEWS[screen.shown] == "Course"  # once, not for ever


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800)])
def test_with_large_text_the_course_has_the_room_and_the_note_takes_one_line(size):
    app, screen = bench(size, text_scale=2.0)
    assert screen.said.text == HELLO  # to be read under its own tab; the button beside says what to press
    assert screen.places.course.bottom > screen.ribbon.rect.y - 2 * app.theme.gap
    assert screen.places.course.h > 0.25 * size[1]
    assert app.theme.type.width(screen.note, "small") <= screen._note.w


def test_with_large_text_no_part_of_the_guide_or_the_numbers_lies_on_another():
    app, screen = bench((1024, 640), text_scale=2.0, reduced_motion=True)
    screen.welcome()
    for _ in range(3):  # the lesson at impact, at rest, and the pupil's turn
        app.frame([SPACE], 0.016)
        app.frame([], 0.016)
    assert screen.guide_words
    for view in range(len(VIEWS)):
        screen.numbers = False
        screen.show_view(view)
        if VIEWS[view] == "Text":
            screen.toggle_numbers()
        app.frame([], 0.016)
        inside = [w for w in walk(screen.widgets) if not w.parts and w.within and w.group != "phrases"]
        for a, b in combinations(inside, 2):
            assert not a.rect.inset(0.3).overlaps(b.rect.inset(0.3)), (VIEWS[view], a.label, b.label)


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800)])
def test_what_cost_most_is_seen_without_scrolling_however_long_the_story(size):
    app, screen = bench(size, reduced_motion=True)
    for name in ("shaft_lean", "lean_change"):
        screen.set_control(name, CONTROLS[name].high)
    app.frame([SPACE], 0.016)
    app.frame([], 0.016)
    app.frame([], 0.016)
    cost = screen.parts.cost
    assert cost.label.startswith("What cost most")
    assert screen.parts.words.rect.holds(cost.rect, 1.0)


@pytest.mark.parametrize("name", CONTROLS)
def test_every_control_changes_a_picture_before_the_swing_or_says_why_not(name):
    """Only the pictures count: the sliders stand outside of them."""
    app, screen = bench(detail="coach")
    played(app)
    screen.set_control("stance_width", screen.state.now.value("stance_width"))  # back to the address
    app.frame([], 0.016)
    areas = screen.areas()[:-1]
    before = [cut(app, r) for r in areas]
    control, value = CONTROLS[name], screen.state.now.value(name)
    wide = control.high - control.low
    screen.set_control(name, value + (0.12 if value + 0.12 * wide <= control.high else -0.12) * wide)
    assert screen.look().older == screen.state.settled  # the old setting stays as a ghost
    app.frame([], 0.016)
    app.frame([], 0.016)
    moved = [abs(cut(app, r) - b).max(axis=2) > 40 for r, b in zip(areas[1:], before[1:], strict=True)]
    seen = max(m.sum() for m in moved)
    if name == "drop":
        assert "does nothing" in app.toast.sentence
        screen.set_control("lean_change", radians(9))
        screen.set_control("drop", 0.2)
        low = screen.state.now
        assert swing_path_of(low.setup, low.motion) != swing_path_of(low.setup, replace(low.motion, drop=1.0))
    else:
        assert seen > 60


def test_numbers_are_copied_as_text(monkeypatch):
    app, screen = bench(reduced_motion=True)
    copied = []
    monkeypatch.setattr(pygame.scrap, "put_text", copied.append)
    ctrl_c = key(pygame.K_c, pygame.KMOD_LCTRL)
    app.frame([ctrl_c], 0.016)
    assert copied == []
    app.frame([SPACE], 0.016)
    app.frame([key(pygame.K_n, 0, "n")], 0.016)
    app.frame([ctrl_c], 0.016)
    assert "carry\t" in copied[0]
    assert screen.numbers


def test_a_junior_has_two_controls_short_words_and_no_numbers():
    app, screen = bench(detail="junior", reduced_motion=True)
    assert set(screen.panel.names) == {"shaft_lean", "lean_change"}
    captions = [s.caption for s in screen.panel.sliders.values()]
    assert captions == ["Shaft lean, a bit forward", "Lean added by impact, as set"]
    app.frame([SPACE], 0.016)
    app.frame([], 0.016)
    words = screen.said.text
    assert not any(c.isdigit() for c in words)
    assert all(len(s.split()) <= 12 for s in words.split("."))
    labels = marks_told(screen)
    assert "stopped" in labels
    assert not any(c.isdigit() for c in "".join(labels))
    screen.toggle_numbers()
    assert any(c.isdigit() for text in marks_told(screen) for c in text)
    assert any(c.isdigit() for c in screen.panel.sliders["shaft_lean"].caption)


def test_a_holed_ball_of_either_set_up_keeps_its_mark_and_its_letter():
    course = level_course("fairway", 8.0)
    shot = play(course, Setup(), Motion())
    holed = replace(shot, run=replace(shot.run, outcome=Outcome.HOLED, rest=8.0))
    for first, second, told in (
        (holed, holed, ["A holed", "A landed", "B holed", "B landed"]),
        (shot, holed, ["A stopped", "A landed", "hole", "B holed", "B landed"]),
        (shot, None, ["A stopped", "A landed", "hole"]),
    ):
        marks = marks_of_both(course, first, second)
        assert [mark_words(mark, numbers=False) for mark in marks] == told


def test_other_ground_clears_the_scene():
    app, screen = bench()
    played(app)
    screen.parts.ground.set(3)
    app.frame([], 0.016)
    assert screen.state.shot is None
    assert screen.ribbon.line is None


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_what_the_view_cannot_show_is_said(scale):
    _, screen = bench((1024, 640), text_scale=scale)
    words = " ".join([screen.note, *(w.label for w in walk([screen.parts.controls]))])
    assert "not left and right" in words
    assert "illustrative" in words
    assert all(screen.parts.side.rect.holds(tab.rect) for tab in screen.parts.tabs if scale > 1.0)


def test_the_help_lists_the_keys_of_the_bench():
    app, screen = bench()
    app.frame([key(pygame.K_SLASH, 0, "?")], 0.016)
    assert app.screen is not screen
    assert any("compare" in w.caption for w in walk(app.screen.widgets))


@pytest.mark.parametrize("size", [(1024, 640), (1280, 800), (1920, 1080)])
@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
@pytest.mark.parametrize("detail", ["junior", "coach"])
def test_nothing_overlaps_and_everything_is_inside(size, scale, detail):
    app, screen = bench(size, text_scale=scale, detail=detail, reduced_motion=True)
    app.frame([key(pygame.K_c, 0, "c")] if detail == "coach" else [], 0.016)
    app.frame([SPACE], 0.016)
    for view in range(len(VIEWS)):
        screen.show_view(view)
        app.frame([], 0.016)
        tops = [w for w in screen.widgets if w is not screen.golfer]
        boxes = [w.rect for w in tops] + list({id(r): r for r in screen.areas()}.values())
        for a, b in combinations(boxes, 2):
            assert not a.inset(0.6).overlaps(b.inset(0.6)), (view, a, b)
        for box in boxes:
            assert app.box.holds(box, 1.0), (view, box)
        for w in walk(tops):
            if w.focusable and w.enabled and not w.parts and w.group != "phrases":
                assert min(w.rect.w, w.rect.h) >= 24, w.label


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_every_control_can_be_reached_and_seen(scale):
    app, _ = bench((1024, 640), text_scale=scale, detail="coach")
    for _ in app.focus.stops():
        app.frame([key(pygame.K_TAB)], 0.016)
        widget = app.focus.widget
        assert widget is not None
        assert not widget.within or widget.within.rect.holds(widget.rect, 1.0), widget.label

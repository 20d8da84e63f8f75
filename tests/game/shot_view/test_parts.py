"""The widgets of the scene, each by its own keys and pointer."""

from math import radians

import pygame
import pytest

from game.draw.camera import Rect
from game.shot_view import ControlPanel, GolferPanel, SentenceView, TimeRibbon, intend
from game.shot_view.controls import OPEN_CONTROLS, value_of
from game.shot_view.intended_swing import idle_words
from game.shot_view.numbers import rows_of
from game.text.junior import PLAIN, advice, plain_value
from game.text.story import Phrase, tell
from game.ui import Theme
from physics.address import CONTROLS, Motion, Setup
from tests.game.shot_view.shots import chip, leaning, over
from tests.ui_events import key, motion

THEME = Theme()


def ribbon(slow: bool = False) -> TimeRibbon:
    out = TimeRibbon()
    out.place(Rect(0, 0, 800, 50), THEME)
    out.load(chip(), slow=slow, at_end=False)
    return out


def test_the_ribbon_plays_to_the_end_and_again_from_the_start():
    r = ribbon()
    for _ in range(600):
        r.update(1 / 60)
    assert r.at_end
    assert not r.playing
    r.toggle()
    assert r.time == r.line.start
    assert r.playing


def test_a_hundredth_of_the_speed_is_a_hundredth():
    r = ribbon()
    r.pace(0.01)
    before, now = r.update(0.5)
    assert now - before == pytest.approx(0.005)
    r.pace(0.01)
    before, now = r.update(0.5)
    assert now - before == pytest.approx(0.5)


def test_keys_of_the_ribbon_jump_scrub_and_stop():
    r = ribbon()
    assert r.handle(key(pygame.K_PAGEDOWN))
    assert r.time in {m.time for m in r.line.moments}
    assert not r.playing
    at = r.time
    r.handle(key(pygame.K_RIGHT))
    assert r.time > at
    r.handle(key(pygame.K_END))
    assert r.at_end
    r.handle(motion(10.0, 5.0, held=True))
    assert r.time < 0.0


def golfer(mirrored: bool = False, **setup: float) -> tuple[GolferPanel, list[tuple[str, float]]]:
    heard: list[tuple[str, float]] = []
    panel = GolferPanel(lambda n, v: heard.append((n, v)))
    panel.place(Rect(100, 50, 360, 300), THEME)
    panel.show(intend(Setup(**setup), Motion()), mirrored, tuple(CONTROLS), True, THEME)
    return panel, heard


@pytest.mark.parametrize("mirrored", [False, True])
def test_a_knob_dragged_where_it_stands_changes_nothing_and_further_changes_its_control(mirrored):
    panel, heard = golfer(mirrored)
    ahead = -20 if mirrored else 20  # px toward the target
    for name in ("ball_position", "shaft_lean", "stance_width"):
        handle = panel._handles[name]
        x, y = handle.rect.x + handle.rect.w / 2, handle.rect.y + handle.rect.h / 2
        assert handle.pull((x, y)) == pytest.approx(handle.value(), abs=0.02)
        assert handle.pull((x + ahead, y)) > handle.value() + 0.02
        handle.handle(motion(x + ahead, y, held=True))
        assert heard[-1][0] == name
    up = panel._handles["face_open"]
    assert up.pull((0, up.rect.y - 10)) > up.value()


def test_knobs_stay_inside_the_panel_and_can_be_hit():
    for lean in (-10, 20):
        panel, _ = golfer(shaft_lean=radians(lean), ball_position=0.12, stance_width=0.45)
        for handle in panel.parts:
            assert panel.rect.holds(handle.rect)
            assert min(handle.rect.w, handle.rect.h) >= 24


def test_arrow_keys_move_the_ball_as_it_is_seen():
    panel, heard = golfer(mirrored=True)
    ball = panel._handles["ball_position"]
    ball.handle(key(pygame.K_LEFT))  # mirrored, the target is at the left
    assert heard[-1] == ("ball_position", pytest.approx(ball.value() + 0.005))


def test_a_knob_stops_at_the_limit_of_its_control():
    panel, heard = golfer(ball_position=CONTROLS["ball_position"].high)
    panel._handles["ball_position"].set(1.0)
    assert heard == []


def test_shown_values_tell_nobody_and_a_turned_slider_tells_once():
    heard = []
    panel = ControlPanel(OPEN_CONTROLS["coach"], lambda n, v: heard.append((n, v)))
    panel.sync(Setup(shaft_lean=radians(8)), Motion(depth=0.004))
    assert panel.sliders["shaft_lean"].value == pytest.approx(8.0)
    assert panel.sliders["depth"].value == pytest.approx(4.0)
    assert heard == []
    panel.sliders["depth"].handle(key(pygame.K_RIGHT))
    assert heard == [("depth", pytest.approx(0.005))]


def test_the_phrase_pointed_at_lights_its_place():
    view = SentenceView()
    view.tell(tell(leaning()))
    view.place(Rect(20, 20, 300, 200), THEME)
    assert view.lit == ""
    first, second = view.parts[0], view.parts[1]
    first.focused = True
    assert view.lit == "hands"
    second.hovered = True
    assert view.lit == "sole"


def test_no_word_of_a_sentence_is_lost_or_leaves_its_width():
    view = SentenceView()
    view.tell(tell(leaning()))
    for width in (180, 300, 900):
        view.place(Rect(0, 0, width, 400), THEME)
        words = "".join(w for p in view.parts for w, *_ in p.pieces)
        assert words.replace(" ", "") == view.text.replace(" ", "")
        assert not any(w.startswith(",") and x == 0.0 for p in view.parts for w, x, *_ in p.pieces)
        for phrase in view.parts:
            assert all(b.right <= width + 6 for b in phrase.boxes)  # a comma may hang out
            assert all(b.bottom <= view.height(THEME, width) + 1 for b in phrase.boxes)


def test_a_unit_stays_by_its_number():
    view = SentenceView()
    view.tell(((Phrase("the turf took 42 % of the speed, 111 mm before the ball.", "turf"),),))
    for width in range(90, 500, 7):
        view.place(Rect(0, 0, width, 400), THEME)
        pieces = [w for p in view.parts for w, *_ in p.pieces]
        assert not any(w.startswith(("%", "mm")) for w in pieces)


def test_a_panel_without_numbers_says_where_controls_stand_in_words():
    heard = []
    panel = ControlPanel(OPEN_CONTROLS["coach"], lambda n, v: heard.append((n, v)))
    panel.sync(Setup(), Motion())
    panel.numbers = False
    for name, slider in panel.sliders.items():
        assert slider.caption == f"{slider.label}, {plain_value(name, panel_value(name))}"
        assert not any(c.isdigit() for c in slider.caption)
        assert not slider.handle(key(pygame.K_5, 0, "5"))
        assert not slider.typing
    panel.sliders["depth"].handle(key(pygame.K_RIGHT))
    assert heard == [("depth", pytest.approx(Motion().depth + 0.001))]
    panel.numbers = True
    assert panel.sliders["shaft_lean"].caption == "Shaft lean, 5.0\N{DEGREE SIGN}"


def panel_value(name: str) -> float:
    return value_of(Setup(), Motion(), name)


@pytest.mark.parametrize("name", CONTROLS)
def test_every_control_has_plain_words_from_end_to_end_and_short_advice(name):
    control = CONTROLS[name]
    wide = control.high - control.low
    words = [plain_value(name, control.low + k / 100 * wide) for k in range(101)]
    assert list(dict.fromkeys(words)) == [w for _, w in PLAIN[name]]
    assert PLAIN[name][-1][0] == 1.0
    for a, b in ((control.low, control.high), (control.high, control.low)):
        assert len(advice(name, a, b).split()) <= 12
        assert not any(c.isdigit() for c in advice(name, a, b))
    assert advice(name, control.low, control.high) != advice(name, control.high, control.low)


def test_numbers_carry_a_degree_sign_and_a_true_minus():
    values = [v for shot in (chip(), leaning(), over()) for _, v in rows_of(shot)]
    assert any("\N{DEGREE SIGN}" in v for v in values)
    assert not any("deg" in v or "-" in v for v in values)
    assert not any(v.startswith("\N{MINUS SIGN}0 ") or v.startswith("\N{MINUS SIGN}0.0") for v in values)


def test_drop_is_told_to_do_nothing_while_no_reach_is_lost():
    assert "nothing" in idle_words("drop", Setup(), Motion())
    assert idle_words("drop", Setup(), Motion(lean_change=radians(9))) == ""
    assert idle_words("depth", Setup(), Motion()) == ""


def test_a_phrase_without_a_place_is_only_read():
    view = SentenceView()
    view.tell(((Phrase("Hello."), Phrase(" There.", "hole")),))
    assert [p.focusable for p in view.parts] == [False, True]


def test_numbers_have_units_and_stages_that_were_not_are_left_out():
    rows = dict(rows_of(chip(), "yd"))
    assert rows["carry"].endswith("yd")
    assert rows["depth of the mark"].endswith("in")
    missed = dict(rows_of(over()))
    assert "carry" not in missed
    assert not any("nan" in v for v in missed.values())

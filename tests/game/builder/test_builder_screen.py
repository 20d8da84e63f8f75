"""The Builder, worked by events only: mouse, keys, text, dropped files."""

import contextlib
import json
from dataclasses import replace
from pathlib import Path

import pygame
import pytest
from ui_events import key, motion, press, release, wheel

from game.app.frame import App
from game.builder.model.profile import profile
from game.builder.ui.ask import Ask
from game.builder.ui.chooser import Chooser
from game.builder.ui.screen import PARTS, Builder
from game.builder.ui.tabs import TABS
from game.library.settings import Settings
from game.play.screen import Play
from game.ui.textfield import TextField
from game.ui.widget import walk
from levels.draft import Draft
from levels.effort import SMALL
from levels.files import library, load_library, read_scenario, scenario_text
from levels.packs import Member, Pack, write_pack
from physics.address import CONTROLS

CTRL, SHIFT, ALT = pygame.KMOD_LCTRL, pygame.KMOD_LSHIFT, pygame.KMOD_LALT
ENTER, ESC, TAB = key(pygame.K_RETURN), key(pygame.K_ESCAPE), key(pygame.K_TAB)
TINY = replace(
    SMALL, draw=30, start=4, rounds=(6,), children=4, finalists=1, chosen=12, judged=50, near=4, side=3
)
SIZES = [
    (1024, 640, 1.0),
    (1024, 640, 2.0),
    (1280, 800, 1.0),
    (1280, 800, 1.5),
    (1920, 1080, 1.0),
    (1920, 1080, 2.0),
]


class Hand:
    """An app on the Builder and the events to work it with."""

    def __init__(self, home: Path, size=(1280, 800), **settings):
        self.app = App.headless(size, Settings(**settings), "Builder", home)
        self.b: Builder = self.app.stack[0]
        self.frame()

    def frame(self, *events, dt=0.2, n=1):
        self.app.frame(list(events), dt)
        for _ in range(n):
            self.app.frame([], dt)

    def letter(self, c, mod=0):
        self.frame(key(ord(c), mod, "" if mod else c))

    def text(self, words):
        self.frame(*(pygame.event.Event(pygame.TEXTINPUT, text=c) for c in words))

    def at(self, x, y=0.0):
        """Pixel of a place (m)."""
        px, py = self.b.canvas.viewport.camera.at(x, y)
        return self.b.canvas.rect.x + px, self.b.canvas.rect.y + py

    def drag(self, a, b, steps=4):
        self.frame(motion(*a), press(*a), n=0)
        for i in range(1, steps + 1):
            self.frame(motion(a[0] + (b[0] - a[0]) * i / steps, a[1] + (b[1] - a[1]) * i / steps, True), n=0)
        self.frame(release(*b))

    def click(self, at):
        self.frame(motion(*at), press(*at), release(*at))

    def click_on(self, widget):
        r = widget.rect
        self.click((r.x + r.w / 2, r.y + min(r.h / 2, 14)))

    def widget(self, label, kind=object):
        return next(w for w in walk(self.b.widgets) if w.label == label and isinstance(w, kind))

    def press(self, label):
        """Press a button of the question in front."""
        self.click_on(next(w for w in walk(self.app.screen.widgets) if w.label == label))

    @property
    def draft(self) -> Draft:
        return self.b.editing.draft

    @property
    def focus(self):
        return self.app.focus.widget


@pytest.fixture
def hand(tmp_path):
    return Hand(tmp_path)


def bunker_of(draft):
    """Left edge, right edge and depth of the sand."""
    ground = profile(draft)
    sand = [i for i, p in enumerate(ground) if p.surface == "sand"]
    return ground[sand[0]].x, ground[sand[-1] + 1].x, -min(ground[i].y for i in sand)


def is_short_sided(draft):
    left, right, depth = bunker_of(draft)
    hole = draft.at(("hole", "x_m"))
    lip = draft.at(("hazards", 0))
    return (
        left == pytest.approx(5.0, abs=0.15) and right == pytest.approx(7.0, abs=0.15) and depth > 0.3
        and lip["kind"] == "lip" and lip["x_m"] == pytest.approx(right, abs=0.01)
        and 0.8 < hole - right < 2.2
    )  # fmt: skip


# ---- a scenario by hand, and one by keys


def test_a_short_sided_bunker_by_mouse_and_text(hand, tmp_path):
    b = hand.b
    hand.click_on(b.toolbar.buttons["bunker"])
    hand.drag(hand.at(5.0), hand.at(7.0))
    hand.click_on(b.toolbar.buttons["hole"])
    hand.click(hand.at(8.4))
    hand.click_on(b.toolbar.buttons["clear"])
    hand.click(hand.at(7.0, 1.0))
    assert is_short_sided(hand.draft)
    assert b.editing.picked == ("goal", "must_clear")
    hand.click_on(hand.widget("Text"))
    title = hand.widget("Title", TextField)
    hand.click_on(title)
    hand.letter("a", CTRL)
    hand.text("Short-sided over sand")
    hand.click_on(hand.widget("Goal"))
    hand.click_on(hand.widget("Stops within"))
    hand.letter("a", CTRL)
    hand.text("2.5")
    hand.letter("s", CTRL)
    assert isinstance(hand.app.screen, Chooser)
    assert hand.app.screen._path.text == "short-sided-over-sand.toml"
    hand.frame(ENTER)
    saved = read_scenario(tmp_path / "scenarios" / "short-sided-over-sand.toml")
    assert (saved.title, saved.goal.leave_m) == ("Short-sided over sand", 2.5)
    assert saved.goal.must_clear.x_m == pytest.approx(7.0, abs=0.11)
    assert is_short_sided(Draft.of(saved))
    assert not b.editing.document.dirty


def steer(hand, x, y=None):
    """The cross of the keys to a place, by arrows alone."""
    gesture = hand.b.canvas.gesture
    for _ in range(400):
        cx, cy = gesture.place_cross()
        if abs(cx - x) > 0.051:
            hand.frame(key(pygame.K_RIGHT if cx < x else pygame.K_LEFT), n=0)
        elif y is not None and abs(cy - y) > 0.051:
            hand.frame(key(pygame.K_UP if cy < y else pygame.K_DOWN), n=0)
        else:
            return
    raise AssertionError(f"never came to {x}, {y}")


def tab_to(hand, label):
    for _ in range(60):
        if hand.focus and hand.focus.label == label:
            return
        hand.frame(TAB, n=0)
    raise AssertionError(f"Tab never came to {label}")


def test_the_same_by_keys_alone(hand, tmp_path):
    hand.letter("b")
    steer(hand, 5.0)
    hand.frame(ENTER)
    steer(hand, 7.0)
    hand.frame(ENTER)
    hand.letter("h")
    steer(hand, 8.4)
    hand.frame(ENTER)
    assert hand.focus is hand.b.canvas.grip_of(("hole",))
    hand.letter("c")
    steer(hand, 7.0, 1.0)
    hand.frame(key(pygame.K_SPACE))
    assert is_short_sided(hand.draft)
    hand.frame(*[key(pygame.K_PAGEDOWN)] * 3)
    assert hand.b.panel.tab == "text"
    hand.frame(key(pygame.K_TAB, CTRL))
    hand.frame(key(pygame.K_TAB, CTRL))
    assert hand.focus.label == "Title"
    hand.letter("a", CTRL)
    hand.text("By keys")
    hand.frame(key(pygame.K_PAGEUP, CTRL))
    assert hand.b.panel.tab == "goal"
    tab_to(hand, "Stops within")
    hand.text("2.5")  # a number is selected whole when the focus comes
    hand.letter("s", CTRL)
    hand.frame(ENTER)
    saved = read_scenario(tmp_path / "scenarios" / "by-keys.toml")
    assert (saved.title, saved.goal.leave_m) == ("By keys", 2.5)
    assert is_short_sided(Draft.of(saved))


def test_every_step_can_be_undone_and_done_again(hand):
    start = hand.draft
    hand.letter("t")
    hand.click(hand.at(3.0))
    hand.letter("w")
    hand.click(hand.at(6.0))
    grip = hand.b.canvas.grip_of(("hazards", 0))
    hand.drag(grip.at, (grip.at[0] + 60, grip.at[1]))
    hand.frame(key(pygame.K_DELETE))
    end = hand.draft
    assert len(end.at(("hazards",))) == 1
    assert "remove" in hand.b.toolbar.undo.tooltip
    for _ in range(4):
        hand.letter("z", CTRL)
    assert hand.draft == start
    assert "Undone: put a tree" in hand.app.toast.sentence
    for i in range(4):
        hand.frame(key(pygame.K_y, CTRL) if i % 2 else key(pygame.K_z, CTRL | SHIFT))
    assert hand.draft == end


# ---- taking hold


def test_a_drag_is_one_step_and_a_tree_grows_by_its_crown(hand):
    hand.letter("t")
    hand.click(hand.at(3.0))
    crown = next(g for g in hand.b.canvas.grips if g.of.loc == ("hazards", 0, "radius_m"))
    before = hand.draft
    hand.drag(crown.at, (crown.at[0] + 50, crown.at[1]), steps=8)
    assert hand.draft.at(("hazards", 0, "radius_m")) > before.at(("hazards", 0, "radius_m")) + 0.8
    assert "Drag its crown" in hand.b.sentence
    hand.letter("z", CTRL)
    assert hand.draft == before


def test_arrows_move_by_the_grid_shift_by_ten_alt_by_a_centimetre(hand):
    hand.letter("t")
    hand.click(hand.at(14.0))
    step, x = hand.b.canvas.viewport.step, hand.draft.at(("hazards", 0, "x_m"))
    hand.frame(key(pygame.K_RIGHT))
    assert hand.draft.at(("hazards", 0, "x_m")) == pytest.approx(x + step)
    hand.frame(key(pygame.K_RIGHT, SHIFT))
    assert hand.draft.at(("hazards", 0, "x_m")) == pytest.approx(x + 11 * step)
    hand.frame(key(pygame.K_LEFT, ALT))
    assert hand.draft.at(("hazards", 0, "x_m")) == pytest.approx(x + 11 * step - 0.01)


def test_a_second_one_and_its_numbers(hand):
    hand.letter("t")
    hand.click(hand.at(3.0))
    hand.letter("d", CTRL)
    assert [h["kind"] for h in hand.draft.at(("hazards",))] == ["tree", "tree"]
    assert hand.b.editing.picked == ("hazards", 1)
    hand.frame(ENTER)
    assert hand.focus.loc == ("hazards", 1, "x_m")
    hand.text("5.25")
    assert hand.draft.at(("hazards", 1, "x_m")) == 5.25
    hand.frame(key(pygame.K_UP))
    assert hand.draft.at(("hazards", 1, "x_m")) == pytest.approx(5.35)
    hand.frame(ESC)
    assert hand.focus is hand.b.canvas.grip_of(("hazards", 1))


def test_tab_walks_every_grip_and_leaves_the_course_again(hand):
    hand.app.focus.set(hand.b.canvas)
    walked = []
    for _ in range(len(hand.b.canvas.grips)):
        hand.frame(TAB, n=0)
        walked.append(hand.focus)
    assert walked == list(hand.b.canvas.grips)
    hand.frame(TAB, n=0)
    assert hand.focus not in hand.b.canvas.grips
    assert hand.b.editing.picked == walked[-1].loc


def test_the_picture_stays_when_the_ball_is_put_elsewhere(hand):
    hole = hand.b.canvas.grip_of(("hole",)).at
    ball = hand.b.canvas.grip_of(("ball",)).at
    hand.drag(ball, (ball[0] + 80, ball[1]))
    assert hand.draft.at(("hole", "x_m")) < 9.0
    assert hand.b.canvas.grip_of(("hole",)).at == pytest.approx(hole, abs=1.0)
    hand.letter("z", CTRL)
    assert hand.b.canvas.grip_of(("ball",)).at == pytest.approx(ball, abs=1.0)


def test_a_body_is_taken_where_it_is_pressed_and_empty_sky_moves_the_picture(hand):
    hand.letter("t")
    hand.click(hand.at(3.0))
    hand.frame(ESC)
    hand.frame(ESC)
    assert hand.b.editing.picked is None
    x = hand.draft.at(("hazards", 0, "x_m"))
    inside = hand.at(2.2, 3.6)  # in the crown, on no grip
    hand.drag(inside, (inside[0] + 90, inside[1]))
    assert hand.draft.at(("hazards", 0, "x_m")) > x + 1.5
    assert hand.b.editing.picked == ("hazards", 0)
    eye, draft = hand.b.canvas.viewport.eye, hand.draft
    hand.drag(hand.at(14.0, 4.0), hand.at(12.0, 4.0))
    assert hand.b.canvas.viewport.eye.x > eye.x + 1.0
    assert hand.draft is draft


def test_wheel_keys_and_buttons_zoom_and_push(hand):
    c = hand.b.canvas
    at = hand.at(10.0, 0.0)
    hand.frame(motion(*at), wheel(3))
    assert c.viewport.eye.scale > 60
    assert hand.at(10.0, 0.0) == pytest.approx(at, abs=2.0)
    hand.app.focus.set(c)
    x = c.viewport.eye.x
    hand.frame(key(pygame.K_RIGHT))
    assert c.viewport.eye.x > x
    x = c.viewport.eye.x
    hand.frame(
        pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=at, button=2),
        motion(at[0] + 50, at[1]),
        pygame.event.Event(pygame.MOUSEBUTTONUP, pos=at, button=2),
    )
    assert c.viewport.eye.x < x
    hand.frame(key(pygame.K_HOME))
    left, right = c.viewport.world((c.rect.x, 0))[0], c.viewport.world((c.rect.right, 0))[0]
    assert left <= -8.0
    assert right >= 26.0
    hand.frame(key(pygame.K_MINUS, 0, "-"), key(pygame.K_PLUS, 0, "+"))
    assert c.viewport.eye.scale == pytest.approx(c.viewport.eye.scale)


def test_snapping_is_on_the_grid_and_can_be_turned_off(hand):
    step = hand.b.canvas.viewport.step
    hand.letter("i")
    hand.click((hand.at(12.34)[0], hand.at(0, 0.27)[1]))
    x = next(p.x for p in profile(hand.draft) if 12.0 < p.x < 13.0)
    assert x / step == pytest.approx(round(x / step), abs=1e-6)
    hand.letter("m")
    hand.letter("g")
    hand.letter("i")
    hand.click((hand.at(15.137)[0], hand.at(0, 0.5)[1]))
    x = next(p.x for p in profile(hand.draft) if 15.0 < p.x < 15.4)
    assert abs(x / step - round(x / step)) > 1e-3


def test_a_surface_is_laid_and_a_stroke_can_be_given_up(hand):
    hand.letter("s")
    hand.click_on(next(w for w in hand.b.surfaces.parts if w.label == "rough"))
    hand.drag(hand.at(14.0), hand.at(17.0))
    rough = [p for p in profile(hand.draft) if p.surface == "rough"]
    assert rough
    assert rough[0].x == pytest.approx(14.0, abs=0.1)
    before = hand.draft
    hand.frame(press(*hand.at(5.0)), motion(*hand.at(9.0), True), n=0)
    hand.frame(ESC)
    hand.frame(release(*hand.at(9.0)))
    assert hand.draft is before
    assert hand.b.editing.tool == "surface"
    hand.frame(ESC)
    assert hand.b.editing.tool == "move"


def test_the_ground_is_drawn_with_one_stroke_and_evened_out(hand):
    hand.letter("d")
    hand.drag(hand.at(13.0, 0.0), hand.at(17.0, 1.0), steps=12)
    high = max(p.y for p in profile(hand.draft))
    assert high == pytest.approx(1.0, abs=0.15)
    count = len(profile(hand.draft))
    hand.letter("e")
    hand.drag(hand.at(15.0), hand.at(19.5))
    assert max(p.y for p in profile(hand.draft)) < high
    assert len(profile(hand.draft)) != count


# ---- what is wrong, in its place


def test_an_impossible_number_stays_and_its_sentence_stands_under_it(hand):
    hand.click_on(hand.widget("Goal"))
    hand.click_on(hand.widget("Latest shots that count"))
    hand.letter("a", CTRL)
    hand.text("99")
    field = hand.focus
    assert field.text == "99"
    assert field.problem.startswith("99 is too large; allowed:")
    assert hand.b.problem_button.label == "1 to fix"
    assert hand.b.editing.last_valid is not None  # the picture goes on
    hand.letter("a", CTRL)
    hand.text("many")
    assert (field.text, field.problem[:7]) == ("many", "'many' ")
    hand.letter("p", CTRL)
    assert hand.app.screen is hand.b
    assert "can be played once one thing is mended" in hand.app.toast.sentence
    hand.click_on(hand.widget("File"))
    hand.frame(key(pygame.K_F8))
    assert (hand.b.panel.tab, hand.focus.label) == ("goal", "Latest shots that count")
    assert "goal.shots" in hand.app.toast.sentence
    hand.text("5")
    assert hand.b.problem_button.label == "No problems"
    assert hand.focus.problem == ""


def test_a_field_takes_units_and_says_which_ones_fit(hand):
    hand.click_on(hand.widget("Goal"))
    field = hand.widget("Stops within", TextField)
    hand.click_on(field)
    hand.letter("a", CTRL)
    hand.text("3 ft")
    assert hand.draft.at(("goal", "leave_m")) == 0.9144
    assert field.text == "3 ft"  # as long as it is written in
    hand.frame(TAB)
    assert field.text == "0.9144"
    hand.click_on(field)
    hand.letter("a", CTRL)
    hand.text("3 deg")
    assert field.problem == "“3 deg” is an angle, not a length; allowed: m, cm, mm, yd, ft, in."


def test_a_ceiling_is_written_drawn_and_taken_away(hand):
    hand.click_on(hand.widget("Goal"))
    hand.frame(n=3)
    x, y = hand.at(4.0, 1.25)
    before = hand.app.surface.get_at((round(x), round(y)))
    hand.click_on(hand.widget("Stays below", TextField))
    hand.letter("a", CTRL)
    hand.text("1.25")
    hand.frame(n=3)
    assert hand.b.editing.scenario.goal.ceiling_m == 1.25
    landing = hand.app.theme.palette.landing
    assert any(hand.app.surface.get_at((round(x), round(y) + i))[:3] == landing for i in (-1, 0, 1))
    assert before[:3] != landing
    hand.letter("a", CTRL)
    hand.frame(key(pygame.K_BACKSPACE))
    assert hand.draft.at(("goal", "ceiling_m")) is None
    assert hand.b.editing.scenario is not None


def test_a_thing_that_breaks_a_rule_is_marked_on_the_course(hand):
    grip = hand.b.canvas.grip_of(("hole",))
    hand.click(grip.at)
    hand.frame(ENTER)
    hand.text("3.5")  # on the fringe
    grip = hand.b.canvas.grip_of(("hole",))
    x, y = grip.at
    hand.frame(n=3)
    assert hand.app.surface.get_at((round(x) - 5, round(y) - 30))[:3] == hand.app.theme.palette.landing
    assert "on green only" in hand.b.sentence
    hand.frame(ESC)
    hand.frame(key(pygame.K_F8))
    assert hand.focus.loc == ("hole", "x_m")


def test_a_part_without_a_field_is_told_at_the_head_of_its_leaf(hand):
    hand.click_on(hand.widget("Goal"))
    hand.click_on(hand.widget("Stops within"))
    hand.letter("a", CTRL)
    hand.frame(key(pygame.K_BACKSPACE))
    told = [w.label for w in walk(hand.b.panel.columns) if w.label.startswith("goal: ")]
    assert told
    assert "at least one of" in told[0]
    assert hand.focus.label == "Stops within"  # the fields were made anew under the hand


# ---- playing, keeping, coming back


def test_playing_it_and_coming_back_loses_nothing(hand, tmp_path):
    hand.letter("t")
    hand.click(hand.at(14.0))
    draft, picked = hand.draft, hand.b.editing.picked
    hand.letter("p")
    assert isinstance(hand.app.screen, Play)
    assert hand.app.screen.r.scenario == draft.scenario()
    hand.frame(ENTER)  # to the set-up
    hand.frame(ESC)
    hand.frame(ESC) if hand.app.screen is not hand.b else None
    assert hand.app.screen is hand.b
    assert (hand.draft, hand.b.editing.picked) == (draft, picked)
    assert hand.focus is hand.b.canvas.grip_of(picked)
    assert not [p for p in tmp_path.rglob("*") if "progress" in p.name]


def test_new_and_open_ask_what_becomes_of_the_work(hand, tmp_path):
    hand.letter("t")
    hand.click(hand.at(3.0))
    draft = hand.draft
    hand.b.files.new("slope up")
    hand.frame()
    assert isinstance(hand.app.screen, Ask)
    hand.frame(ESC)
    assert hand.draft is draft
    hand.b.files.new("slope up")
    hand.frame()
    hand.press("Keep unfinished")
    assert hand.draft.at(("title",)) == "New: slope up"
    kept = list((tmp_path / "unfinished").glob("*.toml"))
    assert Draft.parse(kept[0].read_text()) == draft
    hand.letter("o", CTRL)
    assert isinstance(hand.app.screen, Chooser)
    hand.press("Unfinished")
    hand.click_on(next(w for w in walk(hand.app.screen.widgets) if w.label == kept[0].name))
    assert hand.draft == draft
    assert hand.b.editing.document.path == kept[0]


def test_work_of_a_session_that_ended_suddenly_is_offered(tmp_path):
    first = Hand(tmp_path)
    first.letter("t")
    first.click(first.at(3.0))
    draft = first.draft
    first.b.editing.document._keeper._lock.close()  # what the system does when a process ends
    second = Hand(tmp_path)
    assert isinstance(second.app.screen, Ask)
    assert "not saved" in second.app.screen.title
    second.frame(ENTER)
    assert second.app.screen is second.b
    assert second.draft == draft
    second.b.editing.document._keeper._lock.close()
    third = Hand(tmp_path)
    third.press("Put it away")
    assert third.draft.at(("hazards",), []) == []
    kept = list((tmp_path / "unfinished").glob("*.toml"))
    assert Draft.parse(kept[0].read_text()) == draft


def dropped(path):
    return pygame.event.Event(pygame.DROPFILE, file=str(path))


def test_a_dropped_scenario_opens_wherever_one_is(hand, tmp_path):
    file = tmp_path / "given.toml"
    file.write_text(scenario_text(load_library(library()[0])))
    hand.app.open("Bench")
    hand.frame(dropped(file))
    assert hand.app.screen is hand.b
    assert hand.draft.scenario() == load_library(library()[0])
    assert hand.b.editing.document.recent() == [file]
    hand.letter("t")
    hand.click(hand.at(6.0))
    changed = hand.draft
    hand.frame(dropped(file))
    assert isinstance(hand.app.screen, Ask)
    hand.frame(dropped(file))  # while it is asked nothing else comes in
    assert isinstance(hand.app.screen, Ask)
    hand.frame(ESC)
    assert hand.draft is changed


def test_a_dropped_pack_goes_into_the_library(hand, tmp_path):
    scenario = load_library(library()[0])
    member = Member("one", scenario_text(scenario), scenario)
    write_pack(tmp_path / "week.toml", Pack("A week", (member,)))
    before = hand.draft
    hand.frame(dropped(tmp_path / "week.toml"))
    assert list((tmp_path / "packs").iterdir())
    assert hand.draft is before
    assert "A week" in hand.app.toast.sentence


def test_a_bad_file_is_told_in_one_sentence_and_changes_nothing(hand, tmp_path):
    bad = tmp_path / "bad.toml"
    bad.write_text("title = ")
    before = hand.draft
    hand.frame(dropped(bad))
    assert hand.draft is before
    assert hand.app.toast.sentence.startswith("bad.toml")
    hand.frame(dropped(tmp_path / "none.toml"))
    assert hand.app.toast.sentence.startswith("none.toml: cannot be read")


def test_a_file_that_breaks_rules_opens_to_be_mended(hand, tmp_path):
    file = tmp_path / "half.toml"
    file.write_text('format = 1\ntitle = "Half"\nground = [{x_m = 0.0}]\nhazards = 3\n')
    hand.frame(dropped(file))
    assert hand.draft.at(("title",)) == "Half"
    for tab in TABS:
        hand.b.panel.turn(tab.name)
        hand.frame()
    for _ in range(8):
        hand.frame(key(pygame.K_F8))
    assert hand.b.editing.problems


def test_the_end_asks_for_what_is_not_saved(hand, tmp_path):
    hand.letter("t")
    hand.click(hand.at(3.0))
    hand.app.open("Bench")
    hand.frame(pygame.event.Event(pygame.QUIT))
    assert hand.app.running
    assert isinstance(hand.app.screen, Ask)
    hand.frame(ESC)
    assert hand.app.screen is hand.b
    hand.letter("q", CTRL)
    hand.press("Keep it for next time")
    assert not hand.app.running
    kept = list((tmp_path / "recovery").glob("*.json"))
    assert "tree" in json.loads(kept[0].read_text())["draft"]


def test_the_end_asks_nothing_when_all_is_saved(hand):
    hand.frame(pygame.event.Event(pygame.QUIT))
    assert not hand.app.running


def test_saving_over_another_file_asks_first(hand, tmp_path):
    (tmp_path / "scenarios").mkdir(exist_ok=True)
    there = tmp_path / "scenarios" / "new-plain-green.toml"
    there.write_text("something else")
    hand.letter("s", CTRL)
    hand.frame(ENTER)
    assert isinstance(hand.app.screen, Ask)
    hand.frame(ESC)
    assert there.read_text() == "something else"
    hand.letter("s", CTRL)
    hand.frame(ENTER)
    hand.press("Replace it")
    assert read_scenario(there).title == "New: plain green"


# ---- every tab at every size


@pytest.mark.parametrize(("w", "h", "scale"), SIZES)
def test_nothing_lies_on_anything_at_any_size(tmp_path, w, h, scale):
    hand = Hand(tmp_path, (w, h), text_scale=scale, dark=scale == 1.5)
    hand.b.files.builtin("harrow-fen-short-sided")
    for i, part in enumerate(PARTS):
        if hand.b.tight:
            hand.b.show_part(i)
        elif part != "course":
            hand.b.panel.turn(part)
        hand.frame(n=0)
        parts = [p for p in hand.b.widgets if p.rect.w > 1]
        for j, a in enumerate(parts):
            assert hand.app.box.holds(a.rect, 1.0), (part, a.label)
            for other in parts[j + 1 :]:
                assert not a.rect.inset(0.6).overlaps(other.rect.inset(0.6)), (part, a, other)
    assert hand.b.tight == (scale > 1.4 and (w, h, scale) != (1920, 1080, 1.0))


def test_controls_open_with_limits_and_close_again(hand):
    hand.click_on(hand.widget("Shot"))
    hand.b.panel.columns[2].scroll(-9999)
    chips = [w for w in walk(hand.b.panel.columns[2].items) if w.label == "open"]
    opened = hand.draft.at(("open_controls",))
    hand.app.focus.set(chips[2])
    hand.frame(ENTER)
    assert hand.draft.at(("open_controls",)) != opened
    name = next(n for n in hand.draft.at(("open_controls",)) if n not in opened)
    assert name == "stance_width"
    limits = [
        w for w in walk(hand.b.panel.columns) if getattr(w, "loc", ())[:2] == ("limits", "stance_width_cm")
    ]
    hand.app.focus.set(limits[0])
    hand.text("10")
    assert hand.b.editing.problems  # one end alone is no range
    hand.frame(TAB)
    hand.text("30")
    assert hand.draft.at(("limits", "stance_width_cm")) == [10.0, 30.0]
    assert not hand.b.editing.problems
    for _ in range(20):
        hand.letter("z", CTRL)
    assert hand.draft.at(("open_controls",)) == opened


def test_question_hints_and_reference_are_written(hand):
    hand.click_on(hand.widget("Text"))
    for label, words in (("Hint 1", "Look at the lip."), ("Before the shot", "One.\n")):
        hand.app.focus.set(hand.widget(label))
        hand.text(words.rstrip("\n"))
    assert hand.draft.at(("hints",)) == ["Look at the lip."]
    assert hand.draft.at(("lesson", "before")) == "One."
    hand.app.focus.set(hand.widget("Ask a question after the shot"))
    hand.frame(ENTER)
    for k, cause in enumerate(("Too much lean.", "Too little loft.", "Too long.")):
        hand.app.focus.set(hand.widget(f"Cause {k + 1}"))
        hand.text(cause)
    assert not hand.b.editing.problems
    assert hand.draft.scenario().question.choices[1] == "Too little loft."
    hand.b.panel.turn("reference")
    hand.frame()
    hand.app.focus.set(hand.widget("Has a coach's set-up"))
    hand.frame(ENTER)
    hand.app.focus.set(hand.widget("Shaft lean"))
    hand.text("3")
    assert hand.draft.scenario().reference.shaft_lean_deg == 3.0


def test_without_a_home_nothing_is_written_into_the_folder_one_is_in(tmp_path):
    with contextlib.chdir(tmp_path):
        hand = Hand(None)
        hand.letter("t")
        hand.click(hand.at(3.0))
        assert list(tmp_path.iterdir()) == []


def test_with_large_text_one_part_shows_and_escape_leads_back_to_the_course(tmp_path):
    hand = Hand(tmp_path, (1024, 640), text_scale=2.0)
    assert hand.b.tight
    hand.letter("t")
    steer(hand, 3.0)
    hand.frame(ENTER)
    assert hand.draft.at(("hazards", 0, "kind")) == "tree"
    hand.frame(ENTER)
    assert (PARTS[hand.b.part], hand.focus.loc) == ("object", ("hazards", 0, "x_m"))
    hand.text("4")
    hand.frame(ESC)
    assert hand.b.part == 0
    assert hand.focus is hand.b.canvas.grip_of(("hazards", 0))
    assert hand.draft.at(("hazards", 0, "x_m")) == 4.0
    hand.frame(key(pygame.K_EQUALS, CTRL), key(pygame.K_0, CTRL))
    assert not hand.b.tight
    assert "m" in hand.b.sentence


def test_lengths_are_told_in_the_readers_unit(tmp_path):
    hand = Hand(tmp_path, units="yd")
    hand.click(hand.b.canvas.grip_of(("hole",)).at)
    assert hand.b.sentence.startswith("Hole, 10.9 yd out")


def test_the_list_of_objects_follows_the_units_at_once(hand):
    def listed():
        return [w.label for w in walk(hand.b.panel.columns)]

    assert "Hole, 10.0 m out" in listed()
    hand.app.open("Settings")
    hand.app.change(units="yd")
    hand.app.open("Builder")
    hand.frame()
    assert "Hole, 10.9 yd out" in listed()


def test_where_nothing_passes_the_control_to_open_is_found_told_and_opened(hand, monkeypatch):
    from levels import prove, unlock

    hand.b.files.builtin("harrow-fen-plain-chip")
    hand.frame()
    scenario = hand.b.editing.scenario
    closed = next(name for name in CONTROLS if name not in scenario.open_controls)
    found = prove.proved(scenario, TINY)
    lost = tuple(f.model_copy(update={"solvable": False, "pass_chance": 0.0}) for f in found.families)

    def quick(given, effort):
        yield prove.ProofProgress(1.0, "Proved.", found.model_copy(update={"families": lost}))

    def tried(given):
        yield unlock.UnlockProgress(0.5, closed)
        yield unlock.UnlockProgress(1.0, "", (unlock.Unlocked(closed, 0.71, True),))

    monkeypatch.setattr("game.builder.ui.proving.prove", quick)
    monkeypatch.setattr("game.builder.ui.proving.unlock", tried)
    hand.b.show_tab("prove")
    hand.frame()
    labels = [w.label for w in walk(hand.b.widgets)]
    assert "Which control to open" not in labels, "nothing is proved yet"
    hand.b.proving.start(SMALL)
    hand.frame(n=3)
    hand.click_on(hand.widget("Which control to open"))
    hand.frame(n=3)
    label = CONTROLS[closed].label
    assert any(w.label == f"Open the {label}: the best set-up found passes 7 of 10 goes."
               for w in walk(hand.b.widgets))  # fmt: skip
    hand.click_on(hand.widget(f"Open the {label}"))
    hand.frame()
    assert closed in hand.b.editing.scenario.open_controls
    assert "Which control to open" not in [w.label for w in walk(hand.b.widgets)], "of another scenario now"
    hand.frame(key(pygame.K_z, CTRL))
    assert closed not in hand.b.editing.scenario.open_controls


def test_a_proof_is_made_beside_the_picture_told_and_kept(hand, monkeypatch):
    from levels import prove

    scenario = load_library("harrow-fen-plain-chip")
    proof = prove.proved(scenario, SMALL)

    def quick(given, effort):
        yield prove.ProofProgress(0.4, "Looking.")
        yield prove.ProofProgress(1.0, "Proved.", proof)

    monkeypatch.setattr("game.builder.ui.proving.prove", quick)
    hand.b.files.builtin("harrow-fen-plain-chip")
    hand.click_on(hand.widget("Prove"))
    hand.app.focus.set(hand.widget("Quick look"))
    hand.frame(ENTER)
    picture = hand.widget("The proof")
    assert picture.view.proof == proof
    assert not picture.view.stale
    hand.app.focus.set(picture)
    hand.frame(key(pygame.K_END))
    assert hand.b.panel.columns[0].offset > 0
    hand.frame(key(pygame.K_HOME))
    assert hand.b.panel.columns[0].offset == 0
    hand.app.focus.set(hand.widget("Keep it in the file"))
    hand.frame(ENTER)
    assert hand.draft.scenario().proof == proof
    hand.letter("z", CTRL)
    assert hand.draft.scenario().proof is None
    hand.b.editing.set("change wind", ("wind_m_per_s",), 5.0)
    hand.frame()
    assert hand.widget("The proof").view.stale

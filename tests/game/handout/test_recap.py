"""The recap page: its numbers are the Shots' own, its one side holds everything, and no half file is left."""

import os
import re
from dataclasses import replace
from datetime import date, timedelta
from itertools import combinations, pairwise
from math import degrees, hypot, nan
from pathlib import Path

import numpy as np
import pygame
import pytest

from game.draw.camera import Rect
from game.draw.lesson import impact_camera, pose_at_impact
from game.draw.palette import contrast
from game.draw.printed import PAPERS, Clipped, Disc, Fill, Ruled, Words, print_lines, printed_width
from game.draw.printed_files import PIXELS_A_POINT, page_pdf, page_picture
from game.draw.recap_heads import PRINT
from game.draw.recap_page import MARGIN, recap_page
from game.handout import HandoutError, LetterError, write_page, write_recap
from game.text.cautions import CAUTIONS, MODEL_NOTE
from game.text.recap import (
    LATEST_RETEST,
    Apart,
    Recap,
    RecapSide,
    recap_apart,
    recap_cause,
    recap_drill,
    recap_focus,
    recap_rows,
    recap_title,
    side_did,
    side_names,
)
from game.text.units import YARDS
from levels.lessons import same_mistake
from physics.address import Motion, Setup
from physics.course import level_course
from physics.equipment import BAG
from physics.results import Contact, Outcome, Shot
from physics.shot import play
from physics.spread import EXACT, PLAYERS
from physics.surfaces import SURFACES
from tests.game.pdf_text import pdf_lines, pdf_objects, stream

LONG = {
    "pupil": "Wilhelmina-Alexandra of the long-name fen",
    "when": "it is Tuesday after tea and the mat lies out",
}


def said(recap: Recap, paper: str = "A4") -> list[str]:
    return pdf_lines(page_pdf(recap_page(recap, paper), recap.day))


# ---- one truth


def test_the_table_of_the_pdf_shows_the_shots_own_values(lean: Recap) -> None:
    lines = said(lean)
    a, b = lean.first.shot.strike, lean.second.shot.strike
    shown = {
        "Loft at impact": [f"{degrees(s.loft):.0f}°" for s in (a, b)],
        "Bounce at impact": [f"{degrees(s.bounce):.0f}°".replace("-", "\N{MINUS SIGN}") for s in (a, b)],
        "First turf before the ball": [f"{1e3 * s.lead:.1f} mm" for s in (a, b)],
        "Head speed lost before the ball": [f"{100 * s.head_loss:.0f} %" for s in (a, b)],
        "Solid, of 100": [f"{100 * side.solid.value:.0f}" for side in lean.sides if side.solid],
    }
    for label, values in shown.items():
        at = lines.index(label)
        assert lines[at + 1 : at + 3] == values
    assert len(recap_rows(lean)) == len(shown) == 5


def test_the_picture_and_the_sentence_tell_the_angles_of_the_table(lean: Recap) -> None:
    lines = said(lean)
    rows = {label: values for label, *values in recap_rows(lean)}
    assert [line for line in lines if line.startswith("bounce ")] == [
        f"bounce {value}" for value in rows["Bounce at impact"]
    ]
    strikes = [side.shot.strike for side in lean.sides]
    assert [line for line in lines if line.startswith("lean ")] == [
        f"lean {degrees(s.lean):.0f}°" for s in strikes
    ]
    more = round(degrees(strikes[1].lean - strikes[0].lean))
    assert f"{more}° further forward" in recap_cause(lean)
    assert "the leading edge digs" in recap_cause(lean)


def test_angles_are_drawn_as_large_as_they_are(lean: Recap) -> None:
    """The full arm of each angle stands at that angle from its dashed one, on the page itself."""
    for side, head in zip(
        lean.sides, [i for i in recap_page(lean).inks if isinstance(i, Clipped)], strict=True
    ):
        pose = pose_at_impact(side.shot)
        assert pose is not None
        drawn = [ink for ink in head.inks if isinstance(ink, Ruled) and ink.colour == PRINT.mark]
        arms = [ink for ink in drawn if len(ink.points) == 2]
        told = [side.shot.strike.bounce, side.shot.strike.lean]
        for arm, angle, level in zip(arms, told, ((-1.0, 0.0), (0.0, -1.0)), strict=True):
            (ax, ay), (bx, by) = arm.points
            x, y = (bx - ax) / hypot(bx - ax, by - ay), (by - ay) / hypot(bx - ax, by - ay)
            turned = np.arctan2(level[0] * y - level[1] * x, level[0] * x + level[1] * y)
            sense = -1.0 if level == (-1.0, 0.0) else 1.0
            assert sense * turned == pytest.approx(angle, abs=3e-4)  # the sample nearest to the touch


def test_both_heads_are_at_the_ball_in_boxes_of_one_scale(lean: Recap) -> None:
    heads = [ink for ink in recap_page(lean).inks if isinstance(ink, Clipped)]
    assert len(heads) == 2
    assert impact_camera(heads[0].box).scale == impact_camera(heads[1].box).scale
    assert heads[0].box.w > 0.4 * (PAPERS["A4"][0] - 2 * MARGIN)
    for side in lean.sides:
        pose = pose_at_impact(side.shot)
        assert pose is not None
        assert abs(side.shot.strike.sole.t[pose.step] - side.shot.strike.time) < 2e-4


def test_a_ball_that_sand_carried_on_is_drawn_where_the_club_meets_it() -> None:
    course = level_course("sand", 8.0)
    motion = Motion(depth=SURFACES["sand"].usual_depth)
    a, b = same_mistake(
        course, (Setup(), motion), (Setup(), replace(motion, lean_change=0.157)), PLAYERS["club"]
    )
    assert min(a.run.x[0], b.run.x[0]) > 0.03  # else this shows nothing
    page = recap_page(Recap(RecapSide(a), RecapSide(b), date(2026, 1, 2)))
    for shot, head in zip((a, b), (i for i in page.inks if isinstance(i, Clipped)), strict=True):
        ball = next(ink for ink in head.inks if isinstance(ink, Disc))
        steel = next(ink for ink in head.inks if isinstance(ink, Fill) and ink.colour == PRINT.steel)
        everything = [*steel.points, ball.at]
        assert all(head.box.x < x < head.box.right for x, _ in everything)
        nearest = min(hypot(x - ball.at[0], y - ball.at[1]) for x, y in _along(steel.points))
        packed = shot.strike.cushion * impact_camera(head.box).scale  # sand between face and ball
        assert nearest == pytest.approx(ball.radius + packed, rel=0.02)  # they touch


def _along(points: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
    """Points close together along the outline."""
    ring = np.array([*points, points[0]])
    parts = [a + (b - a) * t for a, b in pairwise(ring) for t in np.linspace(0.0, 1.0, 40)]
    return [(float(x), float(y)) for x, y in parts]


# ---- one side of paper


VARIANTS = [
    {}, {"junior": True}, LONG, {**LONG, "junior": True}, {"units": YARDS},
    {**LONG, "junior": True, "units": YARDS, "title": "Why the handle should come back as set"},
]  # fmt: skip


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("told", VARIANTS)
def test_everything_stands_inside_the_margins_and_apart(
    lean: Recap, paper: str, told: dict[str, object]
) -> None:
    page = recap_page(replace(lean, **told), paper)
    w, h = PAPERS[paper]
    inside = Rect(MARGIN, MARGIN, w - 2 * MARGIN, h - 2 * MARGIN)
    assert [word.text for word in page.words if not inside.holds(word.box, 1.0)] == []
    outer = [ink for ink in page.inks if isinstance(ink, Words)]
    clashes = [(a.text, b.text) for a, b in combinations(outer, 2) if a.box.overlaps(b.box)]
    assert clashes == []
    for head in (ink for ink in page.inks if isinstance(ink, Clipped)):
        assert [word.text for word in outer if word.box.overlaps(head.box)] == []
        named = [ink for ink in head.inks if isinstance(ink, Words)]
        assert len(named) == 2
        assert all(head.box.holds(word.box) for word in named)
        assert not named[0].box.overlaps(named[1].box)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_pdf_is_one_side_of_that_paper_with_its_type_inside(lean: Recap, paper: str) -> None:
    data = page_pdf(recap_page(lean, paper), lean.day)
    assert data.startswith(b"%PDF-")
    box = re.search(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", data)
    assert box is not None
    assert (float(box[1]), float(box[2])) == PAPERS[paper]
    objects = pdf_objects(data)
    fonts = [b for b in objects.values() if b"/Type /FontDescriptor" in b]
    assert len(fonts) == 2
    for font in fonts:
        file = re.search(rb"/FontFile2 (\d+) 0 R", font)
        assert file is not None
        assert stream(objects[int(file[1])])[:4] == b"\0\1\0\0"  # a TrueType font, not a name alone
    assert len(data) < 60_000


def test_what_the_pdf_says_is_what_the_page_holds(junior: Recap) -> None:
    page = recap_page(junior, "Letter")
    assert pdf_lines(page_pdf(page, junior.day)) == [word.text for word in page.words]


def test_same_page_same_bytes(lean: Recap) -> None:
    assert page_pdf(recap_page(lean), lean.day) == page_pdf(recap_page(lean), lean.day)


def test_the_picture_holds_the_same_words_in_the_same_places(lean: Recap) -> None:
    page = recap_page(lean)
    picture = page_picture(page)
    assert picture.get_size() == tuple(round(v * PIXELS_A_POINT) for v in page.size)
    dark = pygame.surfarray.array3d(picture).max(axis=2) < 110
    z = PIXELS_A_POINT
    for word in page.words:
        b = word.box
        there = dark[int(b.x * z) : int(b.right * z), int(b.y * z) : int(b.bottom * z)]
        assert there.mean() > 0.02, word.text
    assert not dark[: int(0.9 * MARGIN * z)].any()


def test_it_prints_well_in_grey() -> None:
    """Text 4.5:1 and marks 3:1 by lightness alone, soil and steel apart from paper and from each other."""
    grounds = (PRINT.paper, PRINT.shade, PRINT.soil, PRINT.sand, PRINT.mat)
    assert all(contrast(PRINT.ink, ground) >= 4.5 for ground in grounds)
    assert all(contrast(PRINT.mark, ground) >= 3.0 for ground in grounds)
    assert contrast(PRINT.muted, PRINT.paper) >= 4.5
    assert contrast(PRINT.steel, PRINT.soil) >= 1.5
    assert contrast(PRINT.soil, PRINT.paper) >= 1.3


def test_a_juniors_page_has_larger_type_and_short_sentences(lean: Recap, junior: Recap) -> None:
    def body(recap: Recap) -> float:
        return next(w.size for w in recap_page(recap).words if w.text == "Loft at impact")

    assert body(junior) >= 1.15 * body(lean)
    assert body(junior) >= 14.0
    for told in (recap_cause(junior), recap_focus(junior), recap_title(junior)):
        assert len(told.split()) <= 12
        assert not re.search(r"\d", told)


# ---- what it always says


@pytest.mark.parametrize("told", [{}, {"junior": True}])
def test_safety_and_model_note_stand_on_every_page(lean: Recap, told: dict[str, object]) -> None:
    text = " ".join(said(replace(lean, **told)))
    assert all(caution in text for caution in CAUTIONS)
    assert MODEL_NOTE in text
    assert "not left and right" in text


def test_the_cautions_name_every_danger() -> None:
    """The list of the issue, each by the word that carries it."""
    told = " ".join(CAUTIONS).lower()
    for word in (
        "clear",
        "line of flight",
        "soft balls",
        "rebounds",
        "mats",
        "wrists",
        "adult",
        "stop",
        "coach",
    ):
        assert word in told
    assert all(len(caution.split()) <= 12 for caution in CAUTIONS)


def test_one_focus_one_drill_with_a_pass_mark_an_if_then_line_and_a_date(lean: Recap) -> None:
    text = " ".join(said(replace(lean, when="it is Tuesday after tea")))
    assert recap_focus(lean) in text
    assert "Pass: 8 of 10." in recap_drill(lean)
    assert "If it is Tuesday after tea, then I do this drill" in text
    assert "By 10 December 2026" in text
    assert "If ____" in " ".join(said(lean))


def test_the_retest_is_within_a_fortnight(lean: Recap) -> None:
    assert LATEST_RETEST == 14
    assert lean.retest - lean.day == timedelta(days=14)
    across = replace(lean, day=date(2026, 12, 29), retest_days=5)
    assert "By 3 January 2027" in " ".join(said(across))


# ---- what sets two strokes apart


def shot(**motion: float) -> Shot:
    return play(level_course("fairway", 8.0), Setup(), Motion(**motion), EXACT, 0)


def struck(like: Shot, **changes: object) -> Shot:
    return replace(like, strike=replace(like.strike, **changes))


def test_cause_follows_what_differs_at_the_ball(lean: Recap) -> None:
    a = lean.first.shot
    s = a.strike
    cases = {
        Apart.FORWARD: struck(a, lean=s.lean + 0.06, bounce=s.bounce - 0.06),
        Apart.PASSED: struck(a, lean=s.lean - 0.06, bounce=s.bounce + 0.06),
        Apart.LESS_BOUNCE: struck(a, bounce=s.bounce - 0.06),
        Apart.MORE_BOUNCE: struck(a, bounce=s.bounce + 0.06),
        Apart.EARLIER: struck(a, lead=s.lead + 0.05),
        Apart.LITTLE: a,
        Apart.MISSED: struck(a, contact=Contact.MISSED, lean=nan, loft=nan, bounce=nan, time=nan),
    }
    assert set(cases) == set(Apart)
    for apart, b in cases.items():
        for junior in (False, True):
            recap = replace(lean, second=RecapSide(b), junior=junior)
            assert recap_apart(a, b) is apart
            text = " ".join(said(recap))
            assert recap_title(recap) in text
            assert recap_cause(recap).endswith(".")
            assert "nan" not in text
    assert "digs" not in recap_title(replace(lean, second=RecapSide(cases[Apart.FORWARD])))
    solid = replace(lean, second=RecapSide(struck(lean.second.shot, solid=True)), junior=True)
    assert "digs" not in recap_title(solid)
    assert "dug" not in recap_cause(solid)


@pytest.mark.parametrize("outcome", [one for one in Outcome if one is not Outcome.REST])
def test_a_ball_that_does_not_come_to_rest_is_told_in_a_sentence(lean: Recap, outcome: Outcome) -> None:
    made = lean.first.shot
    side = RecapSide(replace(made, run=replace(made.run, outcome=outcome)))
    assert re.search(r"; it (drops|ends|stays|is still)\b", side_did(lean, side))


def test_a_first_stroke_that_is_not_matched_is_not_called_so(lean: Recap) -> None:
    assert side_names(lean) == ("Matched", "Tried")
    assert side_names(replace(lean, first=lean.second))[0] == "First"


@pytest.mark.parametrize("lie", ["tight", "sand", "mat", "rough"])
@pytest.mark.parametrize("club", ["SW", "7i"])
def test_every_ground_and_club_fits_the_page(lie: str, club: str) -> None:
    course = level_course(lie, 8.0)
    setup = Setup(club=BAG[club])
    a = play(course, setup, Motion(), EXACT, 0)
    b = play(course, setup, Motion(lean_change=0.15), EXACT, 0)
    recap = Recap(RecapSide(a), RecapSide(b), date(2026, 1, 2))
    lines = said(recap)
    assert any(line.startswith("First ") and line.endswith("before the ball") for line in lines)
    assert lines[lines.index("Solid, of 100") + 1] == "-"


# ---- files


def test_a_name_without_ending_gets_both_files(lean: Recap, tmp_path: Path) -> None:
    a, b = lean.first.shot, lean.second.shot
    files = write_recap(a, b, None, tmp_path / "home", lean.day, "Letter", pupil="Ola", junior=True)
    assert [f.name for f in files] == ["home.pdf", "home.png"]
    assert sorted(tmp_path.iterdir()) == sorted(files)
    assert "For Ola" in pdf_lines(files[0].read_bytes())
    assert pygame.image.load(files[1]).get_size() == (1836, 2376)
    assert write_page(lean, tmp_path / "one.pdf") == (tmp_path / "one.pdf",)


def test_names_in_other_scripts(lean: Recap, tmp_path: Path) -> None:
    for name in ("Łukasz", "Нина", "Ελένη", "Nguyễn"):
        assert f"For {name}" in said(replace(lean, pupil=name))
    with pytest.raises(LetterError, match="has no letter"):
        write_page(replace(lean, pupil="\N{SNOWMAN}"), tmp_path / "x.pdf")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there_is_one_sentence(lean: Recap, tmp_path: Path) -> None:
    for target in (tmp_path / "none" / "x.pdf", tmp_path):
        with pytest.raises(HandoutError, match=r"^'.*' cannot be written: .*\.$"):
            write_page(lean, target.with_suffix(".pdf") if target != tmp_path else _folder(tmp_path))


def _folder(home: Path) -> Path:
    (home / "taken.pdf").mkdir()
    return home / "taken.pdf"


def test_a_disk_that_refuses_leaves_the_old_page(
    lean: Recap, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:  # fmt: skip
    old = tmp_path / "x.pdf"
    old.write_bytes(b"old")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(HandoutError, match="No space left on device"):
        write_page(lean, old)
    assert [f.name for f in tmp_path.iterdir()] == ["x.pdf"]
    assert old.read_bytes() == b"old"


# ---- lines of print


def test_lines_are_no_wider_than_asked_and_lose_nothing() -> None:
    text = "Draw a line across the turf, brush it ten times and write down " + "x" * 90
    lines = print_lines(text, 12.0, 200.0)
    assert all(printed_width(line, 12.0) <= 200.0 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_no_short_word_stands_alone_at_the_end() -> None:
    wide = printed_width("aaa bbb ccc ddd", 12.0)
    assert print_lines("aaa bbb ccc ddd eee", 12.0, wide + 1.0) == ("aaa bbb ccc", "ddd eee")

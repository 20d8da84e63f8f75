"""Tables of balls and files of players: read whole or refused with line and column; never a traceback."""

from math import isnan
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.text.fit import told_words
from levels.ball_log import COLUMNS, balls_text, parse_balls, read_balls
from levels.fitted import fit_balls
from levels.other_flight import other_flights, without_landings
from levels.player_file import (
    KnownPlayer,
    PlayerFile,
    fitted_file,
    parse_player,
    player_text,
    preset,
    read_player,
    write_player,
)  # fmt: skip
from levels.reading import ScenarioError
from physics.fit import PRIOR, Posterior, prior_players
from physics.measured_balls import PLAIN_GROUND, MeantShot, MeasuredBall, measured
from physics.spread import PLAYERS

HEAD = ",".join(COLUMNS)
GOOD = f"{HEAD}\nfairway,SW,8,3.4,7.9,solid\nfairway,sw,8,,7.1,\nmat,7i,8.0,2.0,9,Thin\n"


def fitted(seed: int = 3) -> PlayerFile:
    rows = prior_players(50, seed)
    return fitted_file(Posterior(rows, PRIOR.log_pdf(rows) * 0.0 + 0.02), "someone", 10)


def test_a_table_is_read_as_it_is_meant() -> None:
    log = parse_balls(GOOD)
    first, second, third = log.balls
    assert first == MeasuredBall(MeantShot("fairway", "SW", 8.0), 3.4, 7.9, "solid")
    assert isnan(second.carry)
    assert second.felt == ""
    assert third.shot == MeantShot("mat", "7i", 8.0)
    assert third.felt == "thin"
    assert log.lines == (2, 3, 4)


def test_semicolons_bring_decimal_commas() -> None:
    text = GOOD.replace(".", "\N{SINGLE LOW-9 QUOTATION MARK}").replace(",", ";")
    assert parse_balls(text.replace("\N{SINGLE LOW-9 QUOTATION MARK}", ",")).balls[0].carry == 3.4


def test_what_is_written_reads_back() -> None:
    balls = parse_balls(GOOD).balls
    again = parse_balls(balls_text(balls)).balls
    assert [(b.shot, b.stop, b.felt) for b in again] == [(b.shot, b.stop, b.felt) for b in balls]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "balls: is empty; allowed: a line of lie, club"),
        (HEAD, "balls: has 0 balls; allowed: 3 to 200."),
        (GOOD.replace("fairway,SW", "moon,SW"), "balls, line 2, lie: 'moon' is no surface"),
        (
            GOOD.replace("solid", "sold"),
            "balls, line 2, felt: 'sold' is no strike (did you mean solid?); allowed",
        ),
        (GOOD.replace("7.9", "far"), "balls, line 2, stop_m: 'far' is not a number; allowed: -5 to 100 m."),
        (GOOD.replace("7.9", "1e9"), "balls, line 2, stop_m: 1e9 is too large; allowed: -5 to 100 m."),
        (GOOD.replace("7.9", "nan"), "balls, line 2, stop_m: 'nan' is not a number"),
        (GOOD.replace("stop_m", "stop"), "balls, line 1: 'stop' is no column; allowed"),
        (GOOD.replace("7.9,solid", "7.9,solid,more"), "balls, line 2: has 1 cells too many"),
        (GOOD + 'fairway,"SW', "is no table"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(text: str, told: str) -> None:
    with pytest.raises(ScenarioError) as error:
        parse_balls(text)
    assert told in str(error.value)


def test_a_file_that_is_none_is_refused(tmp_path: Path) -> None:
    for path in (tmp_path, tmp_path / "nowhere.csv"):
        with pytest.raises(ScenarioError, match="cannot be read"):
            read_balls(path)


@given(st.text(max_size=300) | st.text(max_size=100).map(lambda t: f"{HEAD}\n{t}"))
def test_no_text_brings_it_down(text: str) -> None:
    problems: tuple[str, ...] = ()
    try:
        parse_balls(text)
    except ScenarioError as error:
        problems = error.problems
    assert all(len(problem) < 400 for problem in problems)


def test_a_player_s_file_reads_back(tmp_path: Path) -> None:
    made = fitted()
    assert parse_player(player_text(made)) == made
    write_player(tmp_path / "own.toml", made)
    assert read_player(tmp_path / "own.toml") == made
    assert len(player_text(made)) < 8000


def test_a_fitted_player_is_everyone_it_might_be() -> None:
    player = fitted().player()
    assert player.spread.label == "someone"
    assert player.rows.shape == (24, 9)
    assert preset("club") == KnownPlayer(PLAYERS["club"])
    assert preset("club").rows.shape == (1, 9)


def test_a_bad_player_is_told_with_line_and_key() -> None:
    text = player_text(fitted()).replace("label", "lable", 1)
    with pytest.raises(ScenarioError, match="lable: is no key of this table; allowed: format"):
        parse_player(text)
    lines = player_text(fitted()).splitlines()
    at = next(i for i, line in enumerate(lines) if line.startswith("up_mm"))
    lines[at] = "up_mm = 1000"
    with pytest.raises(ScenarioError, match=rf"line {at + 1}, spread.up_mm: 1000 is too large; allowed"):
        parse_player("\n".join(lines))


def test_balls_of_another_flight_than_the_standard_chip_are_fitted_without_their_landings() -> None:
    """Ten tight balls pitched to seven of ten metres once came out as a beginner's head speed."""
    shot = MeantShot("fairway", "GW", 10.0)
    pitched = tuple(
        MeasuredBall(shot, 6.9 + 0.06 * i, 9.7 + 0.08 * ((7 * i) % 10), "solid") for i in range(10)
    )
    (one,) = other_flights(pitched, PLAIN_GROUND)
    assert one.meant == pytest.approx(0.39, abs=0.02)
    left = without_landings(pitched, (one,))
    assert all(isnan(ball.carry) for ball in left)
    *_, last = fit_balls(pitched)
    assert last.report is not None
    assert last.report.flights == (one,)
    assert last.report.player.spread.speed_percent < 4.0
    assert any("landings are left out" in words for words in told_words(last.report))


def test_balls_of_the_standard_chip_keep_their_landings() -> None:
    shot = MeantShot("fairway", "GW", 10.0)
    rows = prior_players(6, 11)
    for seed, row in enumerate(rows):
        assert other_flights(measured(shot, PLAIN_GROUND, row, 10, seed), PLAIN_GROUND) == ()

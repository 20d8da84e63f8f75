"""The notebook keeps every attempt, gives it back as it was, and lets no disk stop the play."""

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import date, datetime, timedelta, timezone
from pathlib import Path
from tempfile import TemporaryDirectory
from zoneinfo import ZoneInfo

import pytest
from practised import SCENARIO, START, made_up, real_attempt

from game.library.notebook.copies import KEPT_COPIES, is_whole, keep_copy, last_copy
from game.library.notebook.files import newest, opened
from game.library.notebook.mending import mend
from game.library.notebook.pages import (
    attempts_of,
    day_lines_of,
    history,
    map_of,
    outside_of,
    past_of,
    progress_of,
)
from game.library.notebook.rows import AttemptRow, RowError, attempt_of_row, row_of, seal_of
from game.library.notebook.schema import MIGRATIONS, NEWEST, migrate
from game.library.notebook.store import Notebook, player_name, put_attempt
from game.library.notebook.takeover import take_over_progress
from game.library.progress import Past, Progress, keep_progress
from levels.attempts import NamedCause, attempt_of, replayed, same_as_kept, task_of
from levels.files import library, load_library
from levels.scoring import Prediction, judge
from levels.strengths import shot_places
from physics.address import Intention
from physics.course import level_course
from physics.shot import play
from physics.spread import PLAYERS
from tests.conftest import SEARCHING


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


@pytest.fixture
def book(home: Path) -> Iterator[Notebook]:
    with Notebook(home) as made:
        yield made


def kept(home: Path) -> int:
    """Attempts on the disk, once SQLite finds nothing wrong with the file."""
    with sqlite3.connect(newest(home)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        return int(connection.execute("SELECT count(*) FROM attempts").fetchone()[0])


# ---- as it was


@pytest.mark.parametrize("name", library()[::7])
def test_an_attempt_comes_back_and_replays_bit_for_bit(home: Path, name: str) -> None:
    scenario = load_library(name)
    shot = play(scenario.course(), scenario.setup(), scenario.motion(), PLAYERS[scenario.player], 11)
    one = attempt_of(
        shot, "Robin", START, task_of(name, scenario), judge(scenario, shot), call=Prediction(stop=8.0),
        hints=2,
    )  # fmt: skip
    with Notebook(home) as book:
        one = book.log(one)
        book.log_cause(one.uid, NamedCause("a", "b"))
    with Notebook(home) as book:
        (back,) = history(book, "Robin")
    assert back == replace(one, cause=NamedCause("a", "b"))
    assert repr(replayed(back)) == repr(shot)  # repr tells nan and the sign of zero
    assert same_as_kept(back, shot)
    assert back.task.scenario == scenario.model_copy(update={"proof": scenario.proof})


def test_a_shot_at_will_on_the_bench_is_kept_too(book: Notebook) -> None:
    meant = Intention().with_values({"face_open": -0.0, "shaft_lean": 0.123456789012345})
    shot = play(level_course("fairway", 8.0), meant.setup, meant.motion, PLAYERS["club"], 3)
    book.log(attempt_of(shot, "Robin", START))
    (back,) = history(book, "Robin")
    assert (back.task.name, back.task.scenario, back.call, back.result.met) == ("", None, None, None)
    assert repr(replayed(back)) == repr(shot)
    assert progress_of(book, "Robin") == Progress()  # a shot at will is no try of a scenario


def test_a_shot_is_not_the_kept_one_once_the_laws_differ() -> None:
    one = real_attempt()
    other = replace(one, stray=replace(one.stray, speed=one.stray.speed * 1.01))
    assert same_as_kept(one, replayed(one))
    assert not same_as_kept(one, replayed(other))


@pytest.mark.parametrize("statement", [
    "UPDATE attempts SET met = 1", "DELETE FROM attempts", "UPDATE causes SET chosen = 'b'",
    "DELETE FROM causes", "UPDATE parts SET text = ''", "REPLACE INTO attempts SELECT * FROM attempts",
])  # fmt: skip
def test_attempts_are_only_ever_added(book: Notebook, statement: str) -> None:
    book.log(replace(made_up(1), cause=NamedCause("a", "b")))
    if "REPLACE" in statement:
        names = [row[1] for row in book.connection.execute("PRAGMA table_info(attempts)")]
        statement = f"REPLACE INTO attempts ({', '.join(names)}) SELECT {', '.join(names)} FROM attempts"
    with pytest.raises(sqlite3.IntegrityError, match="only ever added"):
        book.connection.execute(statement)


def test_the_same_attempt_is_kept_once_and_the_first_cause_stands(book: Notebook) -> None:
    one = book.log(made_up(1))
    book.log(one)
    book.log_cause(one.uid, NamedCause("a", "a"))
    book.log_cause(one.uid, NamedCause("b", "a"))
    (back,) = history(book, "Robin")
    assert back.cause == NamedCause("a", "a")


def test_a_row_that_was_tampered_with_is_left_out(home: Path) -> None:
    with Notebook(home) as book:
        book.log(made_up(1))
        book.log(made_up(2))
        book.connection.execute("DROP TRIGGER attempts_are_never_changed")
        book.connection.execute("UPDATE attempts SET strokes = 1.0 WHERE id = 1")
        assert [a.uid for a in history(book, "Robin")] == [made_up(2).uid]


# ---- players, pages


def test_players_days_and_drills_outside(book: Notebook) -> None:
    book.log(made_up(1))
    book.log(made_up(2, player="Sam"))
    assert (book.players, book.player) == (("Robin", "Sam"), "Robin")
    assert book.add_player("  sam ") == "Sam"
    assert len(history(book, "Sam")) == 1
    book.write_line("Sam", date(2025, 11, 3), "windy")
    book.write_line("Sam", date(2025, 11, 3), "calm")
    book.log_outside("Sam", "winter-1", date(2025, 11, 4), 20, 12)
    assert day_lines_of(book, "Sam") == {date(2025, 11, 3): "calm"}
    assert outside_of(book, "Sam", "winter-1") == ((date(2025, 11, 4), 20, 12),)
    assert outside_of(book, "Robin", "winter-1") == ()


@pytest.mark.parametrize("name", ["", "  ", "a" * 41, "a\nb\x00", "=cmd", "\u202eabc"])
def test_an_odd_name_is_refused(name: str) -> None:
    with pytest.raises(ValueError, match="A name has"):
        player_name(name)


def test_pages_newest_first_with_search(book: Notebook) -> None:
    for i in range(120):
        book.log(made_up(i, name="100%" if i % 40 == 0 else "plain", when=START + timedelta(days=i // 60)))
    pages = [history(book, "Robin", page) for page in range(4)]
    assert [len(page) for page in pages] == [50, 50, 20, 0]
    assert [a.uid for page in pages for a in page] == [made_up(i).uid for i in reversed(range(120))]
    assert len(history(book, "Robin", words="100%")) == 3
    assert len(history(book, "Robin", words="%")) == 3
    assert len(history(book, "Robin", words="no such")) == 0
    assert len(history(book, "Robin", day=date(2025, 11, 4), size=99)) == 60
    assert len(list(attempts_of(book, since=date(2025, 11, 4)))) == 60


def test_progress_is_a_view_of_the_attempts(book: Notebook) -> None:
    past = Past()
    for i in range(260):
        met = i % 3 == 0
        one = book.log(made_up(i, met=met, passed=i == 50, gap=float(i)))
        assert one.call
        calls = (abs(one.result.carry - one.call.landing) <= 1.0, one.call.strike == one.result.strike)
        past = past.after(met, i == 50, float(i), calls)
    assert past_of(book, "Robin", SCENARIO) == past
    assert progress_of(book, "Robin") == Progress({SCENARIO: past})
    assert past_of(book, "Sam", SCENARIO) == Past()


def test_the_map_in_sql_says_what_the_map_of_the_attempts_says(book: Notebook) -> None:
    made = [made_up(i, strokes=2.0 + i % 5 / 7, solid=i % 3 > 0, gap=i / 9 - 2) for i in range(40)]
    made += [replace(one, uid=f"b{i}", lie="rough", distance=float(i)) for i, one in enumerate(made)]
    made += [replace(one, uid=f"c{i}", call=None, distance=None) for i, one in enumerate(made)]
    for one in made:
        book.log(one)
    found, expected = map_of(book, "Robin"), shot_places(made)
    assert found.keys() == expected.keys()
    for place, tally in expected.items():
        assert vars(found[place]) == pytest.approx(vars(tally))


# ---- days


def test_a_day_is_the_players_own(book: Notebook) -> None:
    """23:50 in winter time is that day, whatever UTC says, and the flight west gives the day once more."""
    evening = datetime(2025, 11, 3, 23, 50, tzinfo=ZoneInfo("Pacific/Auckland"))
    west = evening.astimezone(ZoneInfo("America/Los_Angeles")) + timedelta(minutes=20)
    for i, when in enumerate((evening, west)):
        book.log(made_up(i, when=when.replace(tzinfo=timezone(when.utcoffset() or timedelta()))))
    days = [a.day for a in attempts_of(book, "Robin")]
    assert days == [date(2025, 11, 3), date(2025, 11, 3)]
    assert [a.offset for a in attempts_of(book, "Robin")] == [13 * 3600, -8 * 3600]


def test_the_hour_that_comes_twice_keeps_its_order(book: Notebook) -> None:
    """2 November 2025, 01:30 comes twice in New York: first at -4 h, then at -5 h."""
    zone = ZoneInfo("America/New_York")
    twice = [datetime(2025, 11, 2, 1, 30, tzinfo=zone, fold=fold) for fold in (0, 1)]
    for i, when in enumerate(twice):
        book.log(made_up(i, when=when))
    back = [a.when for a in attempts_of(book, "Robin")]
    assert [w.utcoffset() for w in back] == [timedelta(hours=-4), timedelta(hours=-5)]
    assert back[1] - back[0] == timedelta(hours=1)
    assert {a.day for a in attempts_of(book, "Robin")} == {date(2025, 11, 2)}


def test_a_time_without_its_zone_is_no_time() -> None:
    with pytest.raises(ValueError, match="offset"):
        made_up(1, when=datetime(2025, 11, 3))


# ---- the old progress file


def test_progress_is_taken_over_once_and_nothing_is_lost(home: Path) -> None:
    old = Progress(
        {SCENARIO: Past(7, True, (True, False), (0.5,), (True, False)), "other": Past(1, False, (False,), ())}
    )
    assert keep_progress(home, old) == ""
    for _ in range(2):
        with Notebook(home) as book:
            assert take_over_progress(book, home) == ""
            assert progress_of(book, book.player) == old
    with Notebook(home) as book:
        book.log(made_up(1, met=False, player=book.player))
        past = past_of(book, book.player, SCENARIO)
        assert (past.tries, past.done, past.results) == (8, True, (True, False, False))
        take_over_progress(book, home)  # an older version has played on
        later = old.with_past(SCENARIO, Past(9, True, (True, False, True), (0.5, 0.25)))
        keep_progress(home, later)
        take_over_progress(book, home)
        assert past_of(book, book.player, SCENARIO).tries == 10
    assert (home / "progress.json").exists()


def test_a_spoilt_progress_file_is_told_and_kept(home: Path) -> None:
    home.mkdir()
    (home / "progress.json").write_text("{")
    with Notebook(home) as book:
        assert take_over_progress(book, home).startswith("The progress file could not be used")
    assert (home / "progress.bad.json").read_text() == "{"


# ---- two windows, killed windows

WRITER = """
import sys; sys.path.insert(0, {tests!r})
from pathlib import Path
from practised import made_up
from game.library.notebook.store import Notebook
with Notebook(Path({home!r})) as book:
    for i in range({first}, {last}):
        book.log(made_up(i))
        print(i, flush=True)
    while not book.flush():
        pass
"""


def writer(home: Path, first: int, last: int) -> "subprocess.Popen[str]":
    code = WRITER.format(tests=str(Path(__file__).parents[2]), home=str(home), first=first, last=last)
    return subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True)


def test_two_windows_keep_the_sum(home: Path) -> None:
    both = [writer(home, n * 1000, n * 1000 + 300) for n in (1, 2)]
    for one in both:
        one.communicate()
        assert one.returncode == 0
    assert kept(home) == 600
    with Notebook(home) as book:
        assert past_of(book, "Robin", SCENARIO).tries == 600


def test_one_window_sees_what_the_other_wrote(home: Path) -> None:
    with Notebook(home) as a, Notebook(home) as b:
        a.log(made_up(1))
        b.log(made_up(2))
        assert past_of(a, "Robin", SCENARIO).tries == past_of(b, "Robin", SCENARIO).tries == 2


def written_until_killed(home: Path, first: int, wait: float) -> set[int]:
    """Numbers that a window said it had kept, before it was killed `wait` (s) after the first of them."""
    out, into = os.pipe()
    child = os.fork()
    if not child:
        with Notebook(home) as book:
            for i in range(first, first + 100_000):
                book.log(made_up(i))
                os.write(into, f"{i}\n".encode())
        os._exit(0)
    os.close(into)
    with os.fdopen(out) as said:
        numbers = [said.readline()]
        time.sleep(wait)
        os.kill(child, signal.SIGKILL)
        numbers += said.readlines()
    os.waitpid(child, 0)
    return {int(line) for line in numbers if line.endswith("\n")}


@pytest.mark.skipif(sys.platform == "win32", reason="no fork there")
@pytest.mark.parametrize("times", [200 if SEARCHING else 6])
def test_a_killed_window_loses_no_kept_attempt(home: Path, times: int) -> None:
    """`log` returns after the commit; whatever was said to be kept is there, and the file is whole."""
    chance = random.Random(None if SEARCHING else 5)
    real_attempt()  # worked out here, so that no child has to
    said: set[int] = set()
    for n in range(times):
        said |= written_until_killed(home, n * 100_000, chance.uniform(0.0, 0.05))
        assert kept(home) >= len(said)
    with sqlite3.connect(newest(home)) as connection:
        there = {int(uid, 16) for (uid,) in connection.execute("SELECT uid FROM attempts")}
    assert len(said) > times
    assert said <= there


def test_a_busy_file_is_waited_for_and_the_attempt_held(home: Path) -> None:
    with Notebook(home, patience=0.01) as book, sqlite3.connect(newest(home)) as other:
        other.execute("BEGIN IMMEDIATE")
        book.log(made_up(1))
        assert (book.state, len(book.held)) == ("away", 1)
        assert "held in memory" in book.new_problem()
        assert past_of(book, "Robin", SCENARIO).tries == 1
        other.execute("ROLLBACK")
        book.log(made_up(2))
        assert (book.state, book.held, book.new_problem()) == ("open", (), "")
    assert kept(home) == 2


# ---- no room, no rights


LIMITED = """
import resource, sys; sys.path.insert(0, {tests!r})
from pathlib import Path
from practised import made_up
from game.library.notebook.store import Notebook
home = Path({home!r})
with Notebook(home) as book:
    for i in range(10):
        book.log(made_up(i))
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, hard))
    said = []
    for i in range(10, 60):
        book.log(made_up(i))
        said.append(book.new_problem())
    print(sum(map(bool, said)), [s for s in said if s][0], sep='|')
    print(len(book.held))
    resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    print(book.flush(), len(book.held))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no such limit there")
def test_a_full_disk_is_told_once_and_nothing_is_lost(home: Path) -> None:
    code = LIMITED.format(tests=str(Path(__file__).parents[2]), home=str(home))
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    told, held, end = out.splitlines()
    assert told.startswith("1|The notebook cannot be written (")
    assert int(held) > 0
    assert end == "True 0"
    assert kept(home) == 60


READ_ONLY = """
import os, sys; sys.path.insert(0, {tests!r})
from pathlib import Path
from practised import made_up
from game.library.notebook.store import Notebook
from game.library.notebook.pages import attempts_count, history
one = made_up(5)
if os.getuid() == 0:
    os.setuid(65534)
with Notebook(Path({home!r})) as book:
    print(book.state, len(history(book, "Robin")), attempts_count(book, "Robin"))
    for _ in range(3):
        book.log(one)
        print(book.new_problem())
    print(len(history(book, "Robin")), len(book.held))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="rights work otherwise there")
@pytest.mark.parametrize(("before", "version"), [(0, NEWEST), (2, NEWEST), (2, 1)])
def test_a_read_only_folder_is_told_once_and_play_goes_on(before: int, version: int) -> None:
    """In a folder of its own: the test's may be closed to everybody else, and root has every right."""
    with TemporaryDirectory() as room:
        Path(room).chmod(0o755)
        home = Path(room) / "home"
        home.mkdir()
        for i in range(before):
            with closing(opened(home / "notebook.db", 1.0)) as connection:
                migrate(connection, {step: MIGRATIONS[step] for step in range(version)})
                put_attempt(connection, made_up(i))
        for path in home.iterdir():
            path.chmod(0o444)
        home.chmod(0o555)
        code = READ_ONLY.format(tests=str(Path(__file__).parents[2]), home=str(home))
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        state, told, *rest = done.stdout.splitlines()
        assert state == f"away {before} {before}"
        assert told.startswith("The notebook cannot be written (")
        assert rest == ["", "", f"{before + 3} 3"]
        home.chmod(0o755)
        assert sorted(p.name for p in home.iterdir()) == (["notebook.db"] if before else [])


def test_a_notebook_of_a_newer_version_is_only_read(home: Path) -> None:
    with Notebook(home) as book:
        book.log(made_up(1))
    with sqlite3.connect(newest(home)) as connection:
        connection.execute(f"PRAGMA user_version = {NEWEST + 1}")
    before = newest(home).read_bytes()
    with Notebook(home) as book:
        book.log(made_up(2))
        assert (book.state, len(book.held)) == ("newer", 1)
        assert "newer version" in book.new_problem()
        assert len(history(book, "Robin")) == 2
    assert newest(home).read_bytes() == before


# ---- copies, damage


def test_a_copy_a_day_and_the_newest_few_stay(home: Path) -> None:
    assert keep_copy(home, date(2025, 11, 1)) is None
    with Notebook(home) as book:
        for i in range(5):
            book.log(made_up(i))
            made = keep_copy(home, date(2025, 11, 1) + timedelta(days=i))
            assert made is not None
            assert is_whole(made)
        assert keep_copy(home, date(2025, 11, 5)) == made
    copies = sorted(p.name for p in (home / "notebook-copies").iterdir())
    assert copies == [f"notebook-2025-11-0{d}.db" for d in range(6 - KEPT_COPIES, 6)]
    assert last_copy(home) == made


def test_a_damaged_notebook_is_read_told_and_mended(home: Path) -> None:
    with Notebook(home) as book:
        for i in range(30):
            book.log(made_up(i))
    keep_copy(home, date(2025, 11, 3))
    with Notebook(home) as book:
        for i in range(30, 200):
            book.log(made_up(i))
        book.write_line("Robin", date(2025, 11, 3), "windy")
    path = newest(home)
    raw = bytearray(path.read_bytes())
    for page in range(12, len(raw) // 4096, 9):
        raw[page * 4096 : page * 4096 + 600] = bytes(random.Random(page).randbytes(600))
    path.write_bytes(raw)
    with Notebook(home) as book:
        for i in range(200, 400):
            book.log(made_up(i))
            list(attempts_of(book))
        assert book.state == "damaged"
        assert book.new_problem() == (
            "The notebook notebook.db is damaged: it is only read now, "
            "your shots are held until it is mended."
        )
        assert book.held
        damaged = path.read_bytes()
        done = mend(home)
        assert done.from_copy == 30
        assert done.salvaged > 50
        assert "from the copy of 2025-11-03 and" in done.sentence
        assert path.read_bytes() == damaged
        held = {a.uid for a in book.held}
        assert book.flush()
        assert (book.state, book.path) == ("open", done.path)
        there = {int(a.uid, 16) for a in attempts_of(book)}
        assert there >= set(range(30))
        assert len(there) == done.from_copy + done.salvaged + len(held)
    assert newest(home).name == "notebook-2.db"
    assert not [p for p in home.iterdir() if p.name.startswith(".mending")]
    kept(home)


def mutated(raw: bytes, chance: random.Random) -> bytes:
    """A few bytes changed, a piece cut out, doubled or zeroed, or the end cut off."""
    data = bytearray(raw)
    for _ in range(chance.choice((1, 3, 30))):
        at, wide = chance.randrange(len(data)), chance.choice((1, 4, 100, 4096))
        match chance.randrange(6):
            case 0:
                data[at : at + wide] = chance.randbytes(min(wide, len(data) - at))
            case 1:
                data[at : at + wide] = bytes(min(wide, len(data) - at))
            case 2 if len(data) > 2 * wide:
                del data[at : at + wide]
            case 3:
                data[at:at] = data[at : at + wide]
            case 4:
                data[chance.randrange(min(200, len(data)))] = chance.randrange(256)
            case _:
                data[at] ^= 1 << chance.randrange(8)
    return bytes(data[: chance.randrange(len(data))] if chance.random() < 0.1 else data)


@pytest.mark.parametrize("count", [10_000 if SEARCHING else 150])
def test_a_mutated_notebook_is_one_sentence_and_no_wrong_attempt(tmp_path: Path, count: int) -> None:
    sound = tmp_path / "sound"
    made = [replace(made_up(i), cause=NamedCause("a", "b")) for i in range(12)]
    with Notebook(sound) as book:
        for one in made:
            book.log(one)
    raw = newest(sound).read_bytes()
    told: set[str] = set()
    for n in range(count):
        chance = random.Random(n)
        home = tmp_path / "home"
        home.mkdir()
        (home / "notebook.db").write_bytes(mutated(raw, chance))
        with Notebook(home, patience=0.0) as book:
            found = list(attempts_of(book))
            assert all(_like(one, made) for one in found), n
            progress_of(book, "Robin")
            map_of(book, "Robin")
            day_lines_of(book, "Robin")
            problem = book.new_problem()
            told.add(book.state)
            assert problem.count(".") <= 2 + problem.count(".db")
        if n % 10 == 0:
            before = (home / "notebook.db").read_bytes()
            done = mend(home)
            assert (home / "notebook.db").read_bytes() == before
            with Notebook(home) as book:
                assert book.state == "open"
                assert all(_like(one, made) for one in attempts_of(book)), n
                assert done.salvaged == len(list(attempts_of(book)))
        for path in sorted(home.rglob("*"), reverse=True):
            path.unlink() if path.is_file() else path.rmdir()
        home.rmdir()
    assert {p.name for p in tmp_path.iterdir()} == {"sound"}
    assert told > {"open"}


@pytest.mark.parametrize("column", ["stray", "player", "utc_us"])
def test_bytes_where_words_or_numbers_stand_are_no_attempt(column: str) -> None:
    """A damaged file says so of a column: its words come back as bytes."""
    row = row_of(made_up(1))
    torn = AttemptRow({**row.columns, column: str(row.columns[column]).encode()}, row.parts)
    with pytest.raises(RowError, match="seal"):
        attempt_of_row(torn, seal_of(row))


def test_a_torn_word_of_the_schema_is_damage_and_no_traceback(home: Path) -> None:
    """SQLite quotes the torn schema in its message, which is then no UTF-8."""
    with Notebook(home) as book:
        book.log(made_up(1))
    raw = newest(home).read_bytes()
    newest(home).write_bytes(raw.replace(b"CREATE TABLE players", b"CREATE TABLE \xa4layers", 1))
    with Notebook(home) as book:
        assert (book.state, len(history(book, "Robin"))) == ("damaged", 0)


def _like(one: object, made: list[object]) -> bool:  # type: ignore[type-arg]
    """One of those that were made, its cause aside: a cause carries no seal."""
    return any(replace(one, cause=None) == replace(m, cause=None) for m in made)  # type: ignore[type-var]

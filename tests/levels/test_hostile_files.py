"""Other people's files: each opens or is refused in clear sentences, with little work and in little memory.

Nothing is written but into the library.
Work is counted in calls, for time is the machine's: the costliest texts take 5 million, less than a second
where this was written, the worst of the small ones 40 thousand. 200 MB is what a reader would notice. Files
are seeded, so that a failure can be repeated.
"""

import hashlib
import os
import random
import stat
import subprocess
import sys
import tracemalloc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import hostile
import pytest
from hostile import COSTLY, FILE_NAMES, LEAST, broken_pack, broken_scenario

from game.library.shelf import PACKS, SCENARIOS, HeldPack, Shelf, Taken
from levels.files import ScenarioError, parse_scenario, read_scenario
from levels.packs import LARGEST_PACK, PackError, parse_pack, read_pack
from tests.work_done import counted

HOUSE = Path(__file__).parents[2]
MEMORY = 200.0  # MB
COSTLIEST, SMALL, HARDLY = 10_000_000, 100_000, 2_000  # calls: any legal size; a few kB; not read at all
EACH = 1000 if os.environ.get("FRINGEWORK_SEARCH") else 250  # all with the long random search
KINDS: dict[str, Callable[[random.Random], bytes]] = {"scenario": broken_scenario, "pack": broken_pack}
HUGE = 100_000_000  # bytes


def clear(sentence: str) -> bool:
    """One line of readable length that says all it says."""
    return 10 < len(sentence) < 900 and sentence.isprintable() and sentence.endswith(".")


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A folder with a home in it and things around that must not change."""
    home = ("home/settings.json", "home/notes/a.toml")
    for place in (*home, "outside/x.toml", "outside/deep/x", "x", "x.toml"):
        (tmp_path / place).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / place).write_text(f"keep {place}", encoding="utf-8")
    return tmp_path


def fingerprint(root: Path) -> str:
    """Names, kinds, rights and contents of everything but the library."""
    library = {root / "home" / SCENARIOS, root / "home" / PACKS}
    told = hashlib.sha256()
    for folder, names, files in os.walk(root):
        names[:] = sorted(n for n in names if Path(folder, n) not in library)
        for name in sorted([*names, *files]):
            path = Path(folder, name)
            told.update(f"{path}\0{path.lstat().st_mode}\0".encode("utf-8", "surrogateescape"))
            if stat.S_ISREG(path.lstat().st_mode):
                told.update(path.read_bytes())
    return told.hexdigest()


def taken_in(shelf: Shelf, path: Path) -> tuple[Taken, int]:
    """What came of it, and the calls it took."""
    with counted() as calls:
        taken = shelf.take(path)
    return taken, calls[0]


def check(taken: Taken, shelf: Shelf) -> None:
    """Whatever came of it was told clearly, and what was added lies in the library and can be read."""
    for sentence in (taken.sentence, *taken.problems):
        assert clear(sentence), sentence
    for path in taken.added:
        assert path.resolve().is_relative_to(shelf.home / SCENARIOS) or path.resolve().is_relative_to(
            shelf.home / PACKS
        )
        if path.name != "pack.toml":
            read_scenario(path)


@pytest.mark.parametrize("seed", range(10))
@pytest.mark.parametrize("kind", KINDS)
def test_thousands_of_broken_files(
    kind: str, seed: int, house: Path, record_property: Callable[[str, object], None],
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    """So many a seed and kind, each taken into the library; twenty thousand in the long random search."""
    monkeypatch.setattr("levels.files.os.fsync", lambda _: None)  # the disk's time is not what is tried here
    chance = random.Random(f"{kind} {seed}")
    shelf, most, opened = Shelf(house / "home"), 0, 0
    source = house.parent / f"{house.name}-source"
    source.mkdir()
    before = fingerprint(house)
    for i in range(EACH):
        path = source / f"{chance.choice(FILE_NAMES)}{i if chance.randrange(5) else ''}.toml"
        raw = KINDS[kind](chance)
        path.write_bytes(raw)
        taken, spent = taken_in(shelf, path)
        most = max(most, spent)
        assert spent <= SMALL, raw[:2000]
        check(taken, shelf)
        assert path.read_bytes() == raw
        opened += bool(taken.added)
        path.unlink()
    assert fingerprint(house) == before
    assert not [p for p in (house / "home").rglob(".*")], "nothing half done is left"
    record_property("most_calls", most)
    record_property("opened", opened)
    assert EACH * 0.03 < opened < EACH * 0.8, "mutations should neither all break nor all pass"
    look = [*shelf.scenarios(), *shelf.packs()]
    assert len(look) >= min(opened, 500) / 2
    assert all(not isinstance(one, HeldPack) or one.entries for one in look)


@pytest.mark.parametrize("name", COSTLY)
def test_what_costs_most_is_still_bounded(name: str, tmp_path: Path) -> None:
    """The texts near every limit, as scenario and as pack."""
    path = tmp_path / "costly.toml"
    path.write_text(COSTLY[name](), encoding="utf-8")
    for read in (read_scenario, read_pack):
        told: tuple[str, ...] = ()
        with counted() as calls:
            try:
                read(path)
            except ScenarioError as error:
                told = error.problems
        assert calls[0] <= COSTLIEST
        assert all(clear(t) for t in told), told[0]
    taken, spent = taken_in(Shelf(tmp_path / "home"), path)
    check(taken, Shelf(tmp_path / "home"))
    assert spent <= 2 * COSTLIEST  # it is looked at twice: which kind, and what it holds


def test_memory_stays_small(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, hostile.__file__, str(tmp_path / "costly.toml")], cwd=HOUSE, check=True, text=True,
        capture_output=True, env={**os.environ, "PYTHONPATH": str(HOUSE)}, timeout=300,
    )  # fmt: skip
    assert float(done.stdout) <= MEMORY


@contextmanager
def traced() -> Iterator[list[float]]:
    """MB at the most, once the block is left."""
    peak: list[float] = []
    tracemalloc.start()
    try:
        yield peak
    finally:
        peak.append(tracemalloc.get_traced_memory()[1] / 1e6)
        tracemalloc.stop()


@pytest.mark.parametrize("fill", ["sparse", "zeros", "comment", "text"])
def test_a_hundred_megabytes_are_never_read(fill: str, house: Path) -> None:
    path = house / "huge.pack.toml"
    block = {"zeros": b"\0", "comment": b"#", "text": b"pack = 1\ntitle = 'x'\nfrom = '''" + b"y" * 31}
    with open(path, "wb") as file:
        if fill == "sparse":
            file.write(LEAST.encode())
            file.truncate(HUGE)
        else:
            piece = block[fill] * (1_000_000 // len(block[fill]))
            for _ in range(HUGE // len(piece)):
                file.write(piece)
    shelf, before = Shelf(house / "home"), fingerprint(house)
    with traced() as peak:
        taken = shelf.take(path)
        for read in (read_scenario, read_pack):
            with pytest.raises(ScenarioError, match=r"is too large; allowed: \d+ bytes\.$"):
                read(path)
    with counted() as calls:
        shelf.take(path)
    assert calls[0] <= HARDLY
    assert peak[0] <= 3 * LARGEST_PACK / 1e6
    assert taken.sentence == "huge.pack.toml: is too large; allowed: 5000000 bytes."
    assert fingerprint(house) == before


def odd_places(root: Path) -> dict[str, Path]:
    """Paths at which no plain file is to be read."""
    (root / "folder.toml").mkdir()
    places = {
        "folder": root / "folder.toml", "nothing": root / "none.toml", "nul": root / "a\0b.toml",
        "under a file": root / "x.toml" / "y.toml", "long name": root / ("n" * 5000 + ".toml"),
    }  # fmt: skip
    if hasattr(os, "mkfifo"):
        os.mkfifo(root / "pipe.toml")
        places["pipe"] = root / "pipe.toml"
    for device in ("/dev/zero", "/dev/null", "/dev/full", "/dev/random", "/proc/self/mem", "/dev/tty"):
        if os.path.exists(device):
            places[device] = Path(device)
    (root / "a.toml").symlink_to(root / "b.toml")
    (root / "b.toml").symlink_to(root / "a.toml")
    (root / "self.toml").symlink_to("self.toml")
    (root / "dangling.toml").symlink_to(root / "nowhere.toml")
    return places | {"loop": root / "a.toml", "self": root / "self.toml", "dangling": root / "dangling.toml"}


def test_odd_places_are_refused_at_once(house: Path) -> None:
    places, shelf = odd_places(house), Shelf(house / "home")
    before = fingerprint(house)
    for what, path in places.items():
        for read in (read_scenario, read_pack):
            with pytest.raises(ScenarioError) as caught:
                read(path)
            assert all(clear(t) for t in caught.value.problems), what
            assert "cannot be read" in str(caught.value), what
        taken, calls = taken_in(shelf, path)
        assert not taken.added
        assert "cannot be read" in taken.sentence, what
        assert calls <= HARDLY, what
    assert fingerprint(house) == before


@contextmanager
def nobody() -> Iterator[None]:
    """As a user without rights; the owner of a file without rights is one already."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    if root:
        os.seteuid(65534)
    try:
        yield
    finally:
        if root:
            os.seteuid(0)


def test_without_the_right_to_read(tmp_path: Path) -> None:
    path = tmp_path / "secret.toml"
    path.write_text(LEAST, encoding="utf-8")
    path.chmod(0)
    with nobody(), pytest.raises(PackError, match=r"^secret\.toml: cannot be read: Permission denied\.$"):
        read_pack(path)
    with nobody():
        assert Shelf(tmp_path / "home").take(path).sentence.endswith("cannot be read: Permission denied.")


def test_a_home_that_takes_nothing(tmp_path: Path) -> None:
    home, path = tmp_path / "home", tmp_path / "a.toml"
    path.write_text(LEAST, encoding="utf-8")
    home.write_text("a file where the folder should be", encoding="utf-8")
    taken = Shelf(home).take(path)
    assert taken.sentence.startswith("Your library cannot be written: ")
    assert clear(taken.sentence)
    assert not taken.added
    assert home.read_text(encoding="utf-8") == "a file where the folder should be"


def test_odd_things_in_the_library_are_told_and_nothing_hangs(house: Path) -> None:
    shelf = Shelf(house / "home")
    room = house / "home" / SCENARIOS
    room.mkdir()
    odd_places(room)
    (room / "away.toml").symlink_to(house / "outside" / "x.toml")
    (room / "sound.toml").write_text(LEAST, encoding="utf-8")
    before = fingerprint(house)
    told = shelf.scenarios()
    assert [one.key for one in told if not isinstance(one, str)] == ["scenarios/sound"]
    sentences = [one for one in told if isinstance(one, str)]
    assert all(clear(t) for t in sentences)
    for name in ("folder.toml", "pipe.toml", "a.toml", "self.toml", "away.toml"):
        assert any(t.startswith(name) for t in sentences), name
    assert any("link out of your library" in t for t in sentences)
    assert fingerprint(house) == before


def test_the_hostile_bases_are_sound() -> None:
    assert parse_scenario(LEAST).title == "Least"
    assert parse_scenario(hostile.FULLER).question is not None
    assert parse_pack(hostile._dumped(hostile.PACK)).problems == ()

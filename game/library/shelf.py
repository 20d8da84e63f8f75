"""The reader's own library: scenarios and packs in two folders of the data home, and what is taken in.

    HOME/scenarios/NAME.toml
    HOME/packs/PACK/pack.toml           title, the coach's words, the plan
    HOME/packs/PACK/01-NAME.toml ...    the scenarios in playing order

A file from elsewhere is checked whole before anything is written; what is written lies in HOME, takes
nothing's place, and a pack comes in with all its sound scenarios or not at all.
"""

import os
import re
import shutil
import tempfile
from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from game.library.safe_names import holds, moved, numbered, placed, plain_name, same_name, stamp, text_of
from levels.draft import library_text
from levels.files import library, parse_scenario, read_scenario
from levels.packs import LARGEST_PACK, RESERVED, Member, Pack, PackError, head_text, parse_head, parse_pack
from levels.packs import write_pack as write
from levels.plan import PracticePlan
from levels.reading import ScenarioError, file_name, legible, read_text, tables
from levels.scenario import Scenario
from levels.whole_file import replace_file

__all__ = [
    "HEAD", "PACKS", "SCENARIOS", "Entry", "HeldPack", "Shelf", "Source", "Taken", "first", "hand_out",
    "is_pack", "plain_name",
]  # fmt: skip

SCENARIOS, PACKS, HEAD = "scenarios", "packs", "pack.toml"
# a file, the name of a built-in scenario where no file has it, or a member of another pack as it stands there
Source = str | os.PathLike[str] | Member
MOST = 500  # files or packs shown, assumed
_MEMBER = re.compile(r"\d+-.+\.toml", re.IGNORECASE)


@dataclass(frozen=True)
class Entry:
    """A scenario of the library. `key` is the name it has in practice logs."""

    key: str
    path: Path
    scenario: Scenario


@dataclass(frozen=True)
class HeldPack:
    """A pack of the library: what can be played of it, in order, and a sentence for each bad file."""

    folder: Path
    title: str
    words: str
    plan: PracticePlan | None
    entries: tuple[Entry, ...]
    problems: tuple[str, ...]
    id: str = ""  # of an assignment; "" for a pack that asks for no answer


@dataclass(frozen=True)
class Taken:
    """What came of taking a file in: one sentence, the files added, a sentence for each thing wrong.

    `kept` says where it is in the library now, also when it had been there before; None when refused.
    """

    sentence: str
    added: tuple[Path, ...] = ()
    problems: tuple[str, ...] = ()
    kept: Path | None = None


class Shelf:
    """The library below `home`. Looking never raises and never writes; unchanged files are read once."""

    def __init__(self, home: Path) -> None:
        self.home = Path(os.path.realpath(home))
        self._known: dict[Path, tuple[tuple[int, ...], Scenario | str]] = {}

    def scenarios(self) -> list[Entry | str]:
        """Every scenario of one's own by name; for a file that cannot be used one sentence."""
        out: list[Entry | str] = []
        for path in self._inside(SCENARIOS):
            if isinstance(path, str):
                out.append(path)
            elif path.suffix.lower() == ".toml":
                out.append(self._entry(path, SCENARIOS))
        return out

    def packs(self) -> list[HeldPack | str]:
        """Every pack by name; for one of which nothing can be used one sentence."""
        found = [p if isinstance(p, str) else self._pack(p) for p in self._inside(PACKS)]
        return [one for one in found if one is not None]

    def _inside(self, *folders: str) -> Iterator[Path | str]:
        """What lies in a folder of the library, by name, hidden files left out; links out of it are told."""
        folder = self.home.joinpath(*folders)
        try:
            names = sorted(name for name in os.listdir(folder) if not name.startswith("."))
        except FileNotFoundError:
            return
        except OSError as error:
            yield f"{file_name(folder)}: cannot be read: {error.strerror or error}."
            return
        for name in names[:MOST]:
            path = folder / name
            if Path(os.path.realpath(path)).is_relative_to(self.home):
                yield path
            else:
                yield f"{file_name(path)}: is a link out of your library, which is not followed."
        if len(names) > MOST:
            yield f"{file_name(folder)}: holds {len(names)} files; the first {MOST} are shown."

    def _entry(self, path: Path, *folders: str) -> Entry | str:
        """A scenario file, or the first thing wrong with it."""
        seal = stamp(path)
        kept = self._known.get(path)
        if kept is None or kept[0] != seal or not seal:
            kept = self._known[path] = (seal, _scenario_or_problem(path))
        value = kept[1]
        return value if isinstance(value, str) else Entry("/".join((*folders, path.stem)), path, value)

    def _pack(self, folder: Path) -> HeldPack | str | None:
        if not folder.is_dir():
            return None
        entries: list[Entry] = []
        problems: list[str] = []
        for path in self._inside(PACKS, folder.name):
            if isinstance(path, Path) and not _MEMBER.fullmatch(path.name):
                continue
            one = path if isinstance(path, str) else self._entry(path, PACKS, folder.name)
            if isinstance(one, Entry):
                entries.append(one)
            else:
                problems.append(f"Pack {file_name(folder)}, {one}")
        title, words, plan, own = folder.name, "", None, ""
        try:
            head = parse_head(read_text(folder / HEAD), HEAD)
            title, words, plan, own = head.title, head.words, head.plan, head.id or ""
        except ScenarioError as error:
            problems.append(f"Pack {file_name(folder)}, {first(error.problems)}")
        if not entries:
            return problems[0]
        return HeldPack(folder, title, words, plan, tuple(entries), tuple(problems), own)

    def contains(self, path: str | os.PathLike[str]) -> bool:
        """Whether that place is inside the library's own two folders."""
        place = Path(os.path.realpath(path))
        return any(place.is_relative_to(self.home / folder) for folder in (SCENARIOS, PACKS))

    # ---- taking in

    def take(self, path: str | os.PathLike[str]) -> Taken:
        """Take a scenario or pack into the library; the file itself stays where it is. Never raises."""
        try:
            text = read_text(path, LARGEST_PACK)
            name = file_name(path)
            stem = _own_name(path)
            if "pack" in tables(text, name, LARGEST_PACK):
                return self._take_pack(parse_pack(text, name), stem)
            return self._take_scenario(parse_scenario(text, name), text, stem)
        except ScenarioError as error:
            return Taken(first(error.problems), (), error.problems)
        except OSError as error:
            sentence = f"Your library cannot be written: {error.strerror or error}."
            return Taken(sentence, (), (sentence,))

    def _take_scenario(self, scenario: Scenario, text: str, stem: str) -> Taken:
        folder = self._room(SCENARIOS)
        for name in numbered(stem):
            target = folder / f"{name}.toml"
            there = same_name(folder, target.name)
            if there is None and placed(target, text):
                return Taken(f"'{legible(scenario.title)}' is in your library.", (target,), kept=target)
            if there is not None and text_of(there) == text:
                return Taken(f"'{legible(scenario.title)}' was in your library already.", kept=there)
        raise AssertionError("names never end")

    def _take_pack(self, pack: Pack, stem: str) -> Taken:
        folder = self._room(PACKS)
        files = {HEAD: head_text(pack)}
        files |= {f"{i:02}-{m.name}.toml": m.text for i, m in enumerate(pack.members, 1)}
        part = Path(tempfile.mkdtemp(prefix=".", suffix=".part", dir=folder))
        try:
            for name, text in files.items():
                replace_file(part / name, text)
            for name in numbered(stem):
                there = same_name(folder, name)
                if there is not None and holds(there, files):
                    sentence = f"'{legible(pack.title)}' was in your library already."
                    return Taken(sentence, (), pack.problems, there)
                if there is None and moved(part, folder / name):
                    added = tuple(folder / name / one for one in files)
                    return Taken(_told_of(pack), added, pack.problems, folder / name)
        finally:
            shutil.rmtree(part, ignore_errors=True)
        raise AssertionError("names never end")

    def _room(self, name: str) -> Path:
        """A folder of the library, made where it is missing. OSError when it is not the library's own."""
        folder = self.home / name
        folder.mkdir(parents=True, exist_ok=True)
        if Path(os.path.realpath(folder)) != folder:
            raise OSError(f"'{name}' is a link, which is not followed")
        return folder


def hand_out(
    sources: Sequence[Source], plan: PracticePlan | None, out: str | os.PathLike[str], *,
    title: str = "", words: str = "", assignment: str = "",
) -> Pack:  # fmt: skip
    """Write scenario files and built-in scenarios, in this order, as one pack.

    PackError tells everything wrong, OSError what the disk refuses.
    """
    members: list[Member] = []
    problems: list[str] = []
    for source in sources:
        try:
            members.append(_member(source, out, {m.name.lower() for m in members}))
        except ScenarioError as error:
            problems += error.problems
    if problems:
        raise PackError(problems)
    pack = Pack(title or plain_name(Path(out).name) or "Pack", tuple(members), words, plan, id=assignment)
    write(out, pack)
    return pack


def _member(source: Source, out: str | os.PathLike[str], names: Container[str]) -> Member:
    """A scenario as a member under a name that is not among `names`. ScenarioError when it cannot be one."""
    if isinstance(source, Member):
        return replace(source, name=next(n for n in numbered(source.name) if n.lower() not in names))
    if isinstance(source, str) and source in library() and not os.path.exists(source):
        text, stem = library_text(source), source
    elif os.path.realpath(source) == os.path.realpath(out):
        told = "would be written over; allowed: another name for the pack"
        raise ScenarioError([f"{file_name(source)}: {told}."])
    else:
        text, stem = read_text(source), _own_name(source)
    name = next(n for n in numbered(stem) if n.lower() not in names)
    return Member(name, text, parse_scenario(text, file_name(source)))


def _own_name(path: str | os.PathLike[str]) -> str:
    """The name in the library. ScenarioError when Windows keeps it for itself."""
    name = plain_name(os.path.basename(path)) or "untitled"
    if name.lower() in RESERVED:
        raise ScenarioError([
            f"{file_name(path)}: '{name}' is kept by Windows for a device; allowed: another name."
        ])  # fmt: skip
    return name


def _scenario_or_problem(path: Path) -> Scenario | str:
    try:
        return read_scenario(path)
    except ScenarioError as error:
        if is_pack(path):
            return f"{file_name(path)}: is a pack, not one scenario; import it to play what is in it."
        return first(error.problems)


def is_pack(path: str | os.PathLike[str]) -> bool:
    """Whether a file is a pack, sound or not, by its key."""
    try:
        return "pack" in tables(read_text(path, LARGEST_PACK), file_name(path), LARGEST_PACK)
    except ScenarioError:
        return False


def first(problems: tuple[str, ...]) -> str:
    """One sentence for all: the first, and how many more there are."""
    more = len(problems) - 1
    if not more:
        return problems[0]
    return f"{problems[0].rstrip('.')} (and {more} more {'problem' if more == 1 else 'problems'})."


def _told_of(pack: Pack) -> str:
    count = len(pack.members)
    what = "scenario" if count == 1 else "scenarios"
    told = f"'{legible(pack.title)}' is in your library with {count} {what}."
    if pack.problems:
        told = f"{told[:-1]}; left out: {first(pack.problems)}"
    return told

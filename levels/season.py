"""Which shots to seek: the best option from a grid of lies and distances, for one player.

Level ground, the hole where it says. With much green the ball lies three metres off it; with little, the
green begins two thirds of the way to the hole. Each cell is a choice of its own (`levels.choose`), so the
map says what that says. It is kept with a digest of the player and the grid, and is stale when they change.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated, Literal, get_args

from pydantic import Field

from levels.choice_effort import QUICK, ChoiceEffort
from levels.choose import ShotChoice, choose
from levels.families import Family
from levels.parts import Part
from levels.player_file import KnownPlayer
from levels.proof import digest_of
from levels.situation import ClubClass, Situation, bench_situation
from physics.address import Motion, Setup
from physics.bank import player_row
from physics.course import BEYOND, LIE, Course, Ground, Hole
from physics.equipment import BAG
from physics.surfaces import SURFACES

__all__ = [
    "CAREFUL_DISASTER", "GRID", "SEEK_DISASTER", "SEEK_INSIDE", "Grid", "SeasonCell", "SeasonMap",
    "SeasonProgress", "cell_course", "season", "season_digest",
]  # fmt: skip

Room = Literal["much", "little"]
Advice = Literal["seek", "play", "careful"]
BAG_OF_SEASON = ("8i", "PW", "GW", "SW", "LW")
LITTLE = 2.0 / 3.0  # of the way to the hole before the green begins
# Seek what ends within a flagstick's length more often than not and hardly ever badly; be careful with what
# ends badly one time in ten or more. Assumed.
SEEK_INSIDE, SEEK_DISASTER, CAREFUL_DISASTER = 0.5, 0.05, 0.10


@dataclass(frozen=True)
class Grid:
    """The rows and columns of a map: surfaces, distances of the hole (m), and how much green there is."""

    lies: tuple[str, ...] = ("tight", "fairway", "soft", "rough", "sand")
    distances: tuple[float, ...] = (6.0, 10.0, 15.0, 22.0)
    rooms: tuple[Room, ...] = get_args(Room)


GRID = Grid()


class SeasonCell(Part):
    """The best option from one place. Chances are shares of strokes; `low` to `high` eight times in ten."""

    lie: str
    distance: float
    room: Room
    clubs: ClubClass
    family: Family
    club: str
    strokes: float
    low: float
    high: float
    inside: float
    disaster: float
    alike: int = Field(description="other options that the strokes played cannot tell from it")

    @property
    def advice(self) -> Advice:
        """Whether to seek it, play it, or be careful with it."""
        if self.disaster >= CAREFUL_DISASTER:
            return "careful"
        return "seek" if self.inside >= SEEK_INSIDE and self.disaster <= SEEK_DISASTER else "play"


class SeasonMap(Part):
    """A whole map, as it is kept."""

    format: Literal[1] = 1
    digest: str
    label: str
    cells: Annotated[tuple[SeasonCell, ...], Field(min_length=1, max_length=1000)]


@dataclass(frozen=True)
class SeasonProgress:
    """How far a map is; a part that ends a place brings its cell, the last one the whole map."""

    share: float
    cell: SeasonCell | None = None
    whole: SeasonMap | None = None


def season_digest(player: KnownPlayer, grid: Grid = GRID, effort: ChoiceEffort = QUICK, seed: int = 0) -> str:
    """What a map of this player and grid carries."""
    rows = [[float(f"{v:.9g}") for v in row] for row in (player_row(player.spread), *player.rows)]
    return digest_of({
        "player": rows, "putter": player.spread.putter, "lies": list(grid.lies),
        "distances": list(grid.distances), "rooms": list(grid.rooms), "effort": repr(effort), "seed": seed,
    })  # fmt: skip


def cell_course(lie: str, distance: float, room: Room) -> Course:
    """The course of a cell: level, its lie up to a metre of fringe, then green."""
    edge = LITTLE * distance if room == "little" else LIE + 1.0
    xs = (-BEYOND, edge - 1.0, edge, distance + BEYOND)
    ground = Ground(xs, (0.0,) * 4, (lie, "fringe", "green"))
    return Course(ground, hole=Hole(distance), name=f"from {SURFACES[lie].label}")


def season(
    player: KnownPlayer, grid: Grid = GRID, effort: ChoiceEffort = QUICK, seed: int = 0
) -> Iterator[SeasonProgress]:
    """Make a map cell by cell; whoever stops asking for parts has cancelled it."""
    yield SeasonProgress(0.0)
    places = [
        (lie, distance, room) for lie in grid.lies for room in grid.rooms for distance in grid.distances
    ]
    cells = list[SeasonCell]()
    for n, place in enumerate(places):
        for part in choose(_situation(*place), player, effort, seed):  # small parts: others may come between
            cell = _cell(*place, part.choice) if part.choice else None
            yield SeasonProgress(min((n + part.share) / len(places), 0.99), cell)
            cells += [cell] if cell else []
    whole = SeasonMap(
        digest=season_digest(player, grid, effort, seed), label=player.spread.label, cells=tuple(cells)
    )
    yield SeasonProgress(1.0, cells[-1], whole)


def _situation(lie: str, distance: float, room: Room) -> Situation:
    plain = Setup(club=BAG["SW"]), Motion(depth=SURFACES[lie].usual_depth)
    free = bench_situation(cell_course(lie, distance, room), *plain)
    return replace(free, space=replace(free.space, clubs=BAG_OF_SEASON))


def _cell(lie: str, distance: float, room: Room, choice: ShotChoice) -> SeasonCell:
    best = choice.options[0]
    v = best.value
    return SeasonCell(
        lie=lie, distance=distance, room=room, clubs=best.clubs, family=best.family,
        club=best.setup.club.name, strokes=round(v.strokes, 3), low=round(v.low, 3), high=round(v.high, 3),
        inside=round(v.inside, 3), disaster=round(v.disaster, 3),
        alike=sum(o.much_the_same for o in choice.options[1:]),
    )  # fmt: skip

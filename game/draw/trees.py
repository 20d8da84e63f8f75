"""Trees from the side, as large as what the ball meets: a trunk, and a disc of leaves about its middle.

A crown that hangs to the ground weeps: its leaves are strands that end where the disc ends. Any other is a
round crown of leafy boughs. The branches a ball strikes are strewn anew for every shot and are not drawn.
"""

from math import cos, pi, sin, sqrt

import numpy as np

from game.draw.camera import Camera
from game.draw.palette import Colour, Palette, mix
from game.draw.pen import Pen, shade
from physics.course import Tree
from physics.scenery.tree import TRUNK

__all__ = ["draw_tree", "weeps"]

HANGS = 0.9  # m over the ground: a crown that reaches lower is a weeping one, assumed
SPRIG = 4.2  # px of crown a leafy strand or bough stands for, at line weight 1
ROOTS = 1.7  # times its width the trunk flares to at the ground


def weeps(tree: Tree) -> bool:
    """Whether the crown comes so low that it is drawn hanging.

    >>> weeps(Tree(0.0, trunk=3.6, radius=3.3)), weeps(Tree(0.0, trunk=4.5, radius=2.0))
    (True, False)
    """
    return tree.trunk - tree.radius < HANGS


def draw_tree(pen: Pen, tree: Tree, ground: float, camera: Camera, palette: Palette, unit: float) -> None:
    """The tree on ground `ground` m high."""
    if weeps(tree):
        _willow(pen, tree, ground, camera, palette, unit)
    else:
        _round(pen, tree, ground, camera, palette, unit)


def _trunk(pen: Pen, tree: Tree, ground: float, top: float, camera: Camera, palette: Palette) -> None:
    """As wide as the physics has it, flared at its foot, lit from the side of the sun."""
    for left, right, colour in ((-1.0, 1.0, shade(palette.bark, -0.10)), (-0.15, 1.0, palette.bark)):
        up = np.linspace(0.0, 1.0, 9)
        high = ground - 0.04 + up * (top - ground + 0.04)
        flare = TRUNK * (1.0 + (ROOTS - 1.0) * np.exp(-up * (top - ground) / 0.22))
        sides = [[camera.at(tree.x + side * w, y) for w, y in zip(flare, high, strict=True)]
                 for side in (left, right)]  # fmt: skip
        pen.fill([*sides[0], *sides[1][::-1]], colour)


def _boughs(
    pen: Pen, tree: Tree, ground: float, camera: Camera, palette: Palette,
    ends: tuple[tuple[float, float], ...],
) -> None:  # fmt: skip
    """Boughs from the fork to places in the crown, given in radii from its middle."""
    y, r = ground + tree.trunk, tree.radius
    fork = (tree.x, max(ground + 0.2, y - r) - 0.1)
    for dx, dy in ends:
        end = (tree.x + dx * r, y + dy * r)
        bow = (tree.x + 0.28 * dx * r, fork[1] + 0.62 * (end[1] - fork[1]))
        line = [
            camera.at(*((1 - t) ** 2 * fork[k] + 2 * t * (1 - t) * bow[k] + t * t * end[k] for k in (0, 1)))
            for t in np.linspace(0.0, 1.0, 9).tolist()
        ]
        pen.line(line, 1.7 * TRUNK * camera.scale, palette.bark, 255, 0.2)


def _tones(palette: Palette) -> tuple[Colour, ...]:
    """From the shade inside the crown to the leaves in the light."""
    return (
        shade(palette.leaf, -0.24), shade(palette.leaf, -0.10), palette.leaf,
        mix(palette.leaf, palette.leaf_lit, 0.6), palette.leaf_lit, mix(palette.leaf_lit, palette.sun, 0.22),
    )  # fmt: skip


def _willow(pen: Pen, tree: Tree, ground: float, camera: Camera, palette: Palette, unit: float) -> None:
    """Curtains of strands over arching boughs: dark ones behind, a trunk between, lit ones before."""
    rng = np.random.default_rng(7)
    tones = _tones(palette)
    count = max(int(2.0 * tree.radius * camera.scale / (SPRIG * unit)), 12)
    _dome(pen, tree, ground, camera, tones[1], 0.96)
    for n in range(count):
        _strand(pen, tree, ground, camera, (2.0 * (n + rng.random()) / count - 1.0), rng, tones[0], unit)
    _trunk(pen, tree, ground, ground + tree.trunk, camera, palette)
    ends = ((-0.72, 0.30), (-0.40, 0.62), (-0.05, 0.75), (0.38, 0.60), (0.74, 0.26))
    _boughs(pen, tree, ground, camera, palette, ends)
    for n in range(2 * count):
        at = 2.0 * rng.random() - 1.0
        if abs(at) * tree.radius < 2.6 * TRUNK and n % 4:  # a parting before the trunk
            continue
        lit = 0.5 - 0.5 * at + 0.25 * rng.normal()
        tone = tones[1 + int(np.clip(lit * 4.0, 0, 3.99))]
        _strand(pen, tree, ground, camera, at, rng, tone, unit)
    for n in range(count):  # crests from which the strands fall
        turn = pi * (0.08 + 0.84 * rng.random())
        far = tree.radius * (0.55 + 0.38 * sqrt(rng.random()))
        x, y = tree.x + far * cos(turn), ground + tree.trunk + far * sin(turn)
        tone = tones[3 + n % 3 if cos(turn) < 0.25 else 2 + n % 2]
        drop = 0.20 * tree.radius * (0.5 + rng.random())
        out = 0.10 * tree.radius * cos(turn)
        _lock(pen, camera, (x - out, y), drop, out, tone, unit)


def _dome(pen: Pen, tree: Tree, ground: float, camera: Camera, colour: Colour, share: float) -> None:
    """The head of the crown, above which no strand begins; open below, where only curtains hang."""
    r, y = share * tree.radius, ground + tree.trunk
    turn, rng = np.linspace(0.0, pi, 49).tolist(), np.random.default_rng(3)
    arc = [(tree.x + e * r * cos(a), y + e * r * sin(a)) for a in turn if (e := rng.uniform(0.93, 1.0))]
    low = [
        (tree.x + r * c, y - 0.34 * r * sqrt(1.0 - c * c) * (1.0 + 0.5 * (k % 2)))
        for k, c in enumerate(np.linspace(-1.0, 1.0, 25).tolist())
    ]
    pen.fill([camera.at(*p) for p in (*arc, *low)], colour)


def _strand(
    pen: Pen, tree: Tree, ground: float, camera: Camera, at: float, rng: np.random.Generator, colour: Colour,
    unit: float,
) -> None:  # fmt: skip
    """A hanging strand `at` radii beside the trunk, from inside the dome to the lower rim of the disc."""
    r, middle = tree.radius, ground + tree.trunk
    half = sqrt(max(1.0 - at * at, 0.0))
    top = middle + r * half * (0.10 + 0.75 * rng.random())
    low = max(middle - r * half * (1.0 - 0.30 * rng.random() ** 2), ground + 0.06)
    out = 0.05 * r * at * rng.random()
    _lock(pen, camera, (tree.x + at * r - out, top), top - low, out, colour, unit)


def _lock(
    pen: Pen, camera: Camera, top: tuple[float, float], drop: float, sway: float, colour: Colour, unit: float
) -> None:  # fmt: skip
    """A slim leaf-shaped lock that begins outward and then hangs plumb."""
    (x, y), wide = camera.at(*top), 1.5 * unit
    fall, out = drop * camera.scale, sway * camera.scale
    down = np.linspace(0.0, 1.0, 8)
    px = x + out * np.sin(0.5 * pi * np.minimum(2.5 * down, 1.0))
    half = wide * np.sin(pi * (0.06 + 0.90 * down)) ** 0.6
    left = list(zip((px - half).tolist(), (y + fall * down).tolist(), strict=True))
    right = list(zip((px + half).tolist(), (y + fall * down).tolist(), strict=True))
    pen.fill([*left, *right[::-1]], colour)


def _round(pen: Pen, tree: Tree, ground: float, camera: Camera, palette: Palette, unit: float) -> None:
    """A crown of leafy clumps, darker within and away from the sun, its rim that of the disc."""
    rng = np.random.default_rng(7)
    r, y, s = tree.radius, ground + tree.trunk, camera.scale
    tones = _tones(palette)
    _trunk(pen, tree, ground, max(ground + 0.3, y - 0.6 * r), camera, palette)
    _boughs(pen, tree, ground, camera, palette, ((-0.55, 0.05), (-0.2, 0.45), (0.25, 0.4), (0.55, -0.02)))
    pen.disc(camera.at(tree.x, y), 0.80 * r * s, tones[0])
    for ring, size in ((0.84, 0.17), (0.66, 0.27), (0.36, 0.33)):
        count = max(round(2.0 * pi * ring / (1.05 * size)), 5)
        for a in np.linspace(0.0, 2.0 * pi, count, endpoint=False) + rng.random():
            part = size * rng.uniform(0.7, 1.25)
            far = min(ring, 1.0 - part)
            at = (tree.x + far * r * cos(a), y + far * r * sin(a))
            lit = 0.42 * (sin(a) * far - 0.55 * cos(a) * far) + 0.42
            _clump(pen, camera, at, part * r, tones, lit, rng)


def _clump(
    pen: Pen, camera: Camera, at: tuple[float, float], r: float, tones: tuple[Colour, ...], lit: float,
    rng: np.random.Generator,
) -> None:  # fmt: skip
    """A bough's leaves: a scalloped disc, its upper side in the light."""
    k = int(np.clip(lit * 4.4, 0, 3))
    turn = np.linspace(0.0, 2.0 * pi, 25)[:-1]
    edge = r * (0.90 + 0.10 * np.abs(np.sin(3.5 * turn + 6.0 * rng.random())))
    for size, dx, dy, tone in ((1.0, 0.0, 0.0, tones[k]), (0.66, -0.14, 0.20, tones[k + 1])):
        shape = [
            camera.at(at[0] + dx * r + size * e * cos(a), at[1] + dy * r + size * e * sin(a))
            for e, a in zip(edge.tolist(), turn.tolist(), strict=True)
        ]
        pen.fill(shape, tone)

"""A sweep as a picture: lines for one control, shaded squares for two, every mark named where it stands."""

import logging
from io import BytesIO
from pathlib import Path
from typing import Any

import matplotlib as mpl
import numpy as np
from matplotlib.axes import Axes
from matplotlib.colors import LinearSegmentedColormap
from matplotlib.figure import Figure

from game.commands.options import Order, describe
from game.commands.report import PRESETS, SIDE_VIEW
from game.commands.swept import Axis, SweepPoint
from game.draw.palette import DARK, LIGHT, Colour, Palette, contrast
from game.text.quantity import decimal, significant
from game.text.units import UnitSystem
from physics.spread import EXACT

__all__ = ["drawn"]

INCHES, DPI = (11.0, 8.0), 150
LEFT = 0.085  # where titles, plots and notes begin, share of the width


def _unit(colour: Colour) -> tuple[float, float, float]:
    r, g, b = colour
    return r / 255, g / 255, b / 255


def _font() -> str:
    """Inter when it is there, else matplotlib's own."""
    from matplotlib import font_manager

    logging.getLogger("matplotlib.font_manager").setLevel(logging.ERROR)
    try:
        import fontpkg_inter

        file = next((Path(fontpkg_inter.__file__).parent / "files").glob("Inter[[]*.ttf"))
        font_manager.fontManager.addfont(file)
        return font_manager.FontProperties(fname=file).get_name()
    except (ImportError, OSError, RuntimeError, StopIteration):  # a missing or odd font costs no plot
        return "DejaVu Sans"


def _style(p: Palette) -> Any:
    ink, muted, paper = _unit(p.ink), _unit(p.muted), _unit(p.paper)
    return {
        "font.family": [_font(), "DejaVu Sans"], "font.size": 14.0, "text.color": ink,
        "figure.facecolor": paper, "axes.facecolor": paper, "axes.edgecolor": muted, "axes.labelcolor": ink,
        "axes.spines.top": False, "axes.spines.right": False, "axes.spines.left": False,
        "axes.grid": True, "axes.grid.axis": "y", "grid.color": _unit(p.rule), "axes.axisbelow": True,
        "xtick.color": muted, "ytick.color": muted, "xtick.labelcolor": ink, "ytick.labelcolor": muted,
        "ytick.left": False, "lines.linewidth": 3.0, "lines.solid_capstyle": "round",
    }  # fmt: skip


def drawn(
    order: Order, axes: tuple[Axis, ...], found: list[SweepPoint], units: UnitSystem, dark: bool
) -> bytes:
    """The sweep as PNG bytes."""
    p = DARK if dark else LIGHT
    with mpl.rc_context(_style(p)):
        figure = Figure(figsize=INCHES, dpi=DPI)
        if len(axes) == 1:
            _lines(figure, p, order, axes[0], found, units)
        else:
            _squares(figure, p, axes, found, units)
        what = " and ".join(a.control.label for a in axes)
        figure.text(LEFT, 0.935, f"What {what} {'does' if len(axes) == 1 else 'do'}", size=27)
        figure.text(LEFT, 0.892, describe(order, units), size=14, color=_unit(p.muted))
        note = SIDE_VIEW if order.spread == EXACT else f"{SIDE_VIEW} {PRESETS}"
        figure.text(LEFT, 0.022, note, size=12, color=_unit(p.muted))
        out = BytesIO()
        figure.savefig(out, format="png")
        return out.getvalue()


def _label(a: Axis, name: str | None = None) -> str:
    name = name or f"{a.control.label[:1].upper()}{a.control.label[1:]}"
    return f"{name}, {a.control.unit}" if a.control.unit else name


# ---- one control


def _lines(
    figure: Figure, p: Palette, order: Order, a: Axis, found: list[SweepPoint], units: UnitSystem
) -> None:
    exact = bool(found[0].contact)
    x = np.array([f.settings[0] for f in found])
    rows = figure.subplots(
        2 if exact else 3, 1, sharex=True,
        gridspec_kw={"height_ratios": (3, 1) if exact else (3, 1, 1), "hspace": 0.28,
                     "left": LEFT, "right": 0.85, "top": 0.81, "bottom": 0.145},
    )  # fmt: skip
    _distances(rows[0], p, order, x, found, units)
    below = [("leave", [f.leave * units.near_scale for f in found], units.near_unit, p.stops)]
    if not exact:
        below = [
            ("solid", [100.0 * f.solid for f in found], "%", p.path),
            ("strokes", [f.strokes for f in found], "", p.stops),
        ]
    for ax, (name, values, unit, colour) in zip(rows[1:], below, strict=True):
        ax.plot(x, values, color=_unit(colour), marker="o", markersize=7, clip_on=False)
        _name_ends(ax, x, [(values, f"{name}\n{significant(_last(values))} {unit}".rstrip(), colour)])
        ax.margins(y=0.25)
        if unit == "%":
            ax.set_ylim(-5, 105)
            ax.set_yticks((0, 50, 100), ("0 %", "50 %", "100 %"))
    for ax in rows:
        ax.tick_params(axis="x", length=0)
        for label in ax.get_yticklabels():
            label.set_verticalalignment("center")
    rows[-1].set_xlabel(_label(a), size=15, loc="left", labelpad=8)
    rows[-1].set_xlim(x[0], x[-1])


def _distances(
    ax: Axes, p: Palette, order: Order, x: Any, found: list[SweepPoint], units: UnitSystem
) -> None:
    k = units.far_scale
    rest, carry = [f.rest * k for f in found], [f.carry * k for f in found]
    low, high = [f.rest_low * k for f in found], [f.rest_high * k for f in found]
    if not found[0].contact:
        ax.fill_between(x, low, high, color=_unit(p.path), alpha=0.16, linewidth=0)
        _name_band(ax, p, x, low, high)
    ax.plot(x, rest, color=_unit(p.path), marker="o", markersize=7, clip_on=False)
    ax.plot(
        x, carry, color=_unit(p.landing), marker="s", markersize=7, clip_on=False, linestyle=(0, (4, 1.5))
    )
    named = [
        (rest, f"stops\n{decimal(_last(rest), 1)} {units.far_unit}", p.path),
        (carry, f"lands\n{decimal(_last(carry), 1)} {units.far_unit}", p.landing),
    ]
    if order.course.hole:
        hole = order.course.hole.x * k
        ax.axhline(hole, color=_unit(p.muted), linewidth=1.5, linestyle=(0, (1, 2)))
        ax.annotate("hole", (0, hole), xycoords=("axes fraction", "data"), xytext=(4, 4),
                    textcoords="offset points", size=13, color=_unit(p.muted))  # fmt: skip
    bottom, top = min(0.0, np.nanmin([*low, *carry, 0.0])), ax.get_ylim()[1]
    ax.set_ylim(bottom, top + 0.06 * (top - bottom))
    ax.set_title(f"Distance from the ball, {units.far_unit}", loc="left", size=14, color=_unit(p.muted))
    _name_ends(ax, x, named)


def _name_band(ax: Axes, p: Palette, x: Any, low: list[float], high: list[float]) -> None:
    """What the band is, just above it where it reaches highest, the very ends aside."""
    inner = np.array(high)[1:-1] if len(high) > 2 else np.array(high)
    if np.all(np.isnan(inner)):
        return
    k = int(np.nanargmax(inner)) + (1 if len(high) > 2 else 0)
    ax.annotate(
        "8 of 10 strokes stop in the band", (x[k], high[k]), xytext=(0, 9), textcoords="offset points",
        ha="left" if x[k] < 0.5 * (x[0] + x[-1]) else "right", va="bottom", size=13, color=_unit(p.muted),
    )  # fmt: skip


def _last(values: list[float]) -> float:
    real = [v for v in values if v == v]
    return real[-1] if real else float("nan")


def _name_ends(ax: Axes, x: Any, named: list[tuple[list[float], str, Colour]]) -> None:
    """Names to the right of each line's end, pushed apart where two ends meet."""
    low, high = ax.get_ylim()
    apart = 46.0 / (ax.bbox.height / ax.figure.dpi * 72.0) * (high - low)  # two lines of text, in data units
    ends = sorted(
        (_last(values), text, colour) for values, text, colour in named if _last(values) == _last(values)
    )
    places = [end for end, _, _ in ends]
    for i in range(1, len(places)):
        if places[i] - places[i - 1] < apart:
            middle = 0.5 * (places[i] + places[i - 1])
            places[i - 1], places[i] = middle - 0.5 * apart, middle + 0.5 * apart
    for (_, text, colour), y in zip(ends, places, strict=True):
        ax.annotate(text, (x[-1], y), xytext=(14, 0), textcoords="offset points", va="center", size=14,
                    color=_unit(colour), annotation_clip=False)  # fmt: skip


# ---- two controls


def _squares(
    figure: Figure, p: Palette, axes: tuple[Axis, ...], found: list[SweepPoint], units: UnitSystem
) -> None:
    across, up = axes
    shape = len(across.settings(2)), len(up.settings(2))
    exact = bool(found[0].contact)
    pairs = [
        ("Solid, %", [100.0 * f.solid for f in found], p.path, 0),
        ("Strokes to hole out, fewer is better", [f.strokes for f in found], p.stops, 2),
    ]
    if exact:
        pairs = [
            (f"Stops, {units.far_unit}", [f.rest * units.far_scale for f in found], p.path, 1),
            (f"Leave, {units.near_unit}", [f.leave * units.near_scale for f in found], p.stops, 1),
        ]
    cells = figure.subplots(
        1, 2, sharey=True,
        gridspec_kw={"wspace": 0.06, "left": LEFT, "right": 0.97, "top": 0.755, "bottom": 0.145},
    )  # fmt: skip
    for ax, (title, values, colour, places) in zip(cells, pairs, strict=True):
        _heat(ax, p, axes, np.array(values).reshape(shape).T, colour, places)
        ax.set_title(title, loc="left", size=16, pad=12)
        ax.set_xlabel(_label(across), size=15, loc="left", labelpad=8)
    cells[0].annotate(
        f"Upward: {_label(up, up.control.label)}", (0, 1), xycoords="axes fraction", xytext=(0, 42),
        textcoords="offset points", size=15, color=_unit(p.muted), annotation_clip=False,
    )  # fmt: skip


def _heat(ax: Axes, p: Palette, axes: tuple[Axis, ...], values: Any, colour: Colour, places: int) -> None:
    """One shaded table; the numbers stand in the squares while there is room for them."""
    ends = LinearSegmentedColormap.from_list("shades", [_unit(p.paper), _unit(colour)])
    shades = ends.with_extremes(bad=_unit(p.rule))
    ax.imshow(values, origin="lower", aspect="auto", cmap=shades)
    ax.grid(False)
    for k, a in enumerate(axes):
        settings = [v * a.control.scale for v in a.settings(2)]
        every = max(1, -(-len(settings) // 9))
        ticks = range(0, len(settings), every)
        (ax.set_xticks if k == 0 else ax.set_yticks)(list(ticks), [significant(settings[i]) for i in ticks])
    if max(values.shape) > 12:
        return
    span = np.nanmax(values) - np.nanmin(values) or 1.0
    for (j, i), v in np.ndenumerate(values):
        if v != v:
            continue
        share = (v - np.nanmin(values)) / span
        back = tuple(round(a + (b - a) * share) for a, b in zip(p.paper, colour, strict=True))
        tone = max((p.ink, p.paper), key=lambda c: contrast(c, back))
        size = 14 if max(values.shape) <= 8 else 11
        ax.text(i, j, decimal(v, places), ha="center", va="center_baseline", size=size, color=_unit(tone))

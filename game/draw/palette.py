"""Colours: one light and one dark set, and the contrast every pair of them must keep.

Marks (path, landing, ghost, pressure) keep the hues of the colour-blind-safe set of Okabe and Ito
(2008), darkened or lightened per theme until they hold 3:1 against sky and paper.
"""

from dataclasses import dataclass

__all__ = ["DARK", "LIGHT", "Colour", "Palette", "contrast", "contrast_pairs", "mix"]

Colour = tuple[int, int, int]


def _hex(text: str) -> Colour:
    return int(text[0:2], 16), int(text[2:4], 16), int(text[4:6], 16)


@dataclass(frozen=True)
class Palette:
    """One theme. Names say what a colour is for, never what it looks like."""

    name: str
    paper: Colour  # page
    ink: Colour  # text
    muted: Colour  # quiet text
    rule: Colour  # thin lines of the page
    sky_high: Colour
    sky_low: Colour
    cloud: Colour
    sun: Colour
    far: Colour  # furthest hedge line
    near: Colour  # nearer hedges and poplars
    field: Colour  # fen between hedges and course
    green: Colour
    fringe: Colour
    fairway: Colour
    rough: Colour
    mat: Colour
    sand: Colour
    sand_deep: Colour
    thatch: Colour
    soil: Colour
    deep: Colour
    water: Colour
    water_line: Colour
    bark: Colour
    leaf: Colour
    leaf_lit: Colour
    wall: Colour
    steel: Colour
    steel_lit: Colour
    steel_edge: Colour
    skin: Colour
    shirt: Colour
    shirt_shade: Colour
    trousers: Colour
    trousers_shade: Colour
    cap: Colour
    shoe: Colour
    grip: Colour
    ball: Colour
    outline: Colour  # dark rim of marks
    halo: Colour  # light rim around them
    path: Colour
    landing: Colour
    ghost: Colour
    pressure: Colour
    intended: Colour
    stops: Colour
    flag: Colour


LIGHT = Palette(
    name="light",
    paper=_hex("F7F3EA"), ink=_hex("1E2A2F"), muted=_hex("55605F"), rule=_hex("CFC8B8"),
    sky_high=_hex("D3E2E6"), sky_low=_hex("F6EFDF"), cloud=_hex("FBF8F0"), sun=_hex("FBF4DC"),
    far=_hex("C6D0C4"), near=_hex("A3B5A3"), field=_hex("D9D8B6"),
    green=_hex("86AE66"), fringe=_hex("759E59"), fairway=_hex("668F50"), rough=_hex("557A45"),
    mat=_hex("5E8A7C"), sand=_hex("EBDDB8"), sand_deep=_hex("DCC99C"),
    thatch=_hex("8A7A4C"), soil=_hex("B49A78"), deep=_hex("D8C7AB"),
    water=_hex("7FAAB9"), water_line=_hex("C9DEE4"),
    bark=_hex("6C5846"), leaf=_hex("5F8352"), leaf_lit=_hex("7A9C66"), wall=_hex("A59A8B"),
    steel=_hex("9BA6AB"), steel_lit=_hex("C9D1D4"), steel_edge=_hex("27343A"),
    skin=_hex("D9A98A"), shirt=_hex("3F7F86"), shirt_shade=_hex("336A71"),
    trousers=_hex("4A4E58"), trousers_shade=_hex("3C404A"), cap=_hex("EFE6D2"),
    shoe=_hex("27343A"), grip=_hex("1E2A2F"),
    ball=_hex("FFFFFF"), outline=_hex("1E2A2F"), halo=_hex("FFFDF7"),
    path=_hex("005F99"), landing=_hex("B34700"), ghost=_hex("6B7278"), pressure=_hex("B34700"),
    intended=_hex("5B6A70"), stops=_hex("8A5A00"), flag=_hex("C04A00"),
)  # fmt: skip

DARK = Palette(
    name="dark",
    paper=_hex("12181C"), ink=_hex("EFE9DC"), muted=_hex("A9B1AD"), rule=_hex("38434A"),
    sky_high=_hex("17222B"), sky_low=_hex("34444B"), cloud=_hex("36464D"), sun=_hex("5A6464"),
    far=_hex("2F3F44"), near=_hex("26353A"), field=_hex("2E3C38"),
    green=_hex("5C8A50"), fringe=_hex("4F7A46"), fairway=_hex("466E40"), rough=_hex("375834"),
    mat=_hex("3F6A5E"), sand=_hex("B5A47C"), sand_deep=_hex("8C7D5C"),
    thatch=_hex("4A4229"), soil=_hex("43382B"), deep=_hex("241F1A"),
    water=_hex("2C5363"), water_line=_hex("5F8C9B"),
    bark=_hex("4A3C30"), leaf=_hex("3B5A3A"), leaf_lit=_hex("4C7048"), wall=_hex("6F675C"),
    steel=_hex("8D999F"), steel_lit=_hex("B9C4C8"), steel_edge=_hex("E4EAEB"),
    skin=_hex("C4937A"), shirt=_hex("4C929A"), shirt_shade=_hex("3B7880"),
    trousers=_hex("79808C"), trousers_shade=_hex("646B77"), cap=_hex("E3D9C2"),
    shoe=_hex("8D999F"), grip=_hex("38434A"),
    ball=_hex("FFFFFF"), outline=_hex("0B0F12"), halo=_hex("0E1417"),
    path=_hex("6EC3F0"), landing=_hex("F59A4C"), ghost=_hex("A7AFB5"), pressure=_hex("F59A4C"),
    intended=_hex("A9B6BB"), stops=_hex("E8BE4A"), flag=_hex("F08A3C"),
)  # fmt: skip


def mix(a: Colour, b: Colour, share: float) -> Colour:
    """Colour between a (share 0) and b (share 1), in sRGB."""
    return (
        round(a[0] + (b[0] - a[0]) * share),
        round(a[1] + (b[1] - a[1]) * share),
        round(a[2] + (b[2] - a[2]) * share),
    )


def _luminance(colour: Colour) -> float:
    linear = [c / 255 / 12.92 if c / 255 <= 0.04045 else ((c / 255 + 0.055) / 1.055) ** 2.4 for c in colour]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a: Colour, b: Colour) -> float:
    """Contrast ratio 1 to 21 (WCAG 2.2, relative luminance)."""
    light, dark = sorted((_luminance(a), _luminance(b)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def contrast_pairs(p: Palette) -> tuple[tuple[str, Colour, Colour, float], ...]:
    """Every pair that must be told apart: (what, front, back, least contrast)."""
    text = [
        (f"{tone} on {back}", getattr(p, tone), getattr(p, back), 4.5)
        for tone in ("ink", "muted")
        for back in ("paper", "sky_high", "sky_low")
    ]
    text.append(("ink on deep soil", p.ink, p.deep, 4.5))
    marks = [
        (f"{mark} on {back}", getattr(p, mark), getattr(p, back), 3.0)
        for mark in ("path", "landing", "ghost", "intended", "flag", "stops")
        for back in ("sky_high", "sky_low", "halo", "field")
    ]
    marks += [
        ("pressure on deep soil", p.pressure, p.deep, 3.0),
        ("pressure on its halo", p.pressure, p.halo, 3.0),
        ("ball on its outline", p.ball, p.outline, 3.0),
        ("head rim on sky", p.steel_edge, p.sky_low, 3.0),
    ]
    return tuple(text + marks)

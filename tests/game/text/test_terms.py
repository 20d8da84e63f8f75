"""Terms are the trade's own, and each one that stands on a label is in the glossary."""

import re
from pathlib import Path

import pygame
import pytest

from game.app.frame import App
from game.app.help import Help
from game.shot_view.numbers import rows_of
from game.text.glossary import GLOSSARY, terms_in
from game.text.mark import TurfKind
from game.ui import Pair
from game.ui.widget import walk
from physics.address import CONTROLS, Motion, Setup
from physics.course import level_course
from physics.equipment import BAG
from physics.results import Contact, TurfAction
from physics.shot import play
from tests.ui_events import key

ROOT = Path(__file__).parents[3]
SHOT = play(level_course("fairway", 8.0), Setup(), Motion())
PLAIN = {  # words on labels that are no terms
    "contact", "depth of the mark", "depth of the edge", "turf before the ball", "from the hole", "no turf",
    "nothing", "turf",
}  # fmt: skip
OLD = (  # words that were given up, as they would stand in what is read
    "belly", "lowest place", "trios?", "careless", "hand out", "begin anew", "even out", "aimed depth",
    "lean change", "lead weight", "playable", "call the shot", "coach's way", "to mend", "strobe",
    "(?:lean|loft|bounce) at the ball",
)  # fmt: skip


@pytest.mark.parametrize("label", [c.label for c in CONTROLS.values()])
def test_every_control_is_a_term(label):
    assert label in GLOSSARY


@pytest.mark.parametrize(
    "label",
    [
        *(label for label, _ in rows_of(SHOT)),
        *(word.value for word in (*Contact, *TurfAction, *TurfKind)),
        "handle return", "multiple exposure", "coach's set-up", "set-up",
    ],
)  # fmt: skip
def test_every_trade_term_on_a_label_has_an_entry(label):
    assert terms_in(label) or label in PLAIN


def test_what_is_told_of_a_strike_uses_terms_that_are_explained():
    for word in ("solid", "fat", "thin", "topped", "splash", "dig", "brush", "skid", "match", "apex", "dip"):
        assert word in GLOSSARY


def said(path: Path):
    """What a file says to readers: its strings, without docstrings and names of fields."""
    text = re.sub(r'"""(?:.|\n)*?"""', "", path.read_text(encoding="utf-8"))
    text = re.sub(r"#[^\n]*", "", text)
    strings = re.findall(r'"(?:[^"\\\n]|\\.)*"', text)
    return [re.sub(r"\{[^}]*\}", "", s) for s in strings if " " in s]


@pytest.mark.parametrize("word", OLD)
def test_words_that_were_given_up_are_nowhere_said(word):
    files = [*ROOT.glob("game/**/*.py"), *ROOT.glob("levels/*.py"), *ROOT.glob("physics/*.py")]
    assert len(files) > 200
    for path in files:
        for string in said(path):
            assert not re.search(rf"\b{word}\b", string.lower()), (path, string)


def test_sand_wedges_are_named_by_their_bounce():
    assert [BAG[n].short for n in ("SW-low", "SW", "SW-high", "PW")] == ["SW-6", "SW", "SW-14", "PW"]


def test_f1_on_a_control_shows_its_sentence_and_then_its_terms_in_the_help():
    app = App.headless(screen="Bench")
    app.frame([], 0.0)
    slider = app.screen.panel.sliders["ball_position"]
    app.focus.set(slider)
    app.frame([key(pygame.K_F1)], 0.0)
    assert app.tip.widget is slider
    app.frame([key(pygame.K_F1)], 0.0)
    assert isinstance(app.screen, Help)
    entries = [w for w in walk(app.screen.widgets) if isinstance(w, Pair) and w.term.lower() in GLOSSARY]
    assert entries[0].term == "Ball position"
    assert len(entries) == len(GLOSSARY)

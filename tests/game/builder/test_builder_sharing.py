"""Sharing: three scenarios with a plan by keys alone, its warnings, and places that are never written to."""

from datetime import date, timedelta
from pathlib import Path

import pygame
import pytest
from ui_events import key

from game.app.frame import App
from game.builder.model.sharing import Offer, PlanForm, Sharing, builtin_offers, file_offer, own_offers
from game.builder.ui.ask import Ask
from game.builder.ui.chooser import Chooser
from game.builder.ui.screen import Builder
from game.builder.ui.share_page import SharePage
from game.builder.ui.share_warnings import ShareWarnings
from game.library.assignments import assignment_of
from game.library.safe_names import misnamed
from game.library.settings import Settings
from game.library.shelf import Entry, Shelf
from game.ui.widget import walk
from levels.families import FAMILIES
from levels.files import library, load_library, scenario_text
from levels.packs import read_pack
from levels.proof import FamilyProof, Proof

TODAY = date(2025, 11, 25)
CTRL = pygame.KMOD_LCTRL
TAB, ENTER, SPACE, ESC = (key(k) for k in (pygame.K_TAB, pygame.K_RETURN, pygame.K_SPACE, pygame.K_ESCAPE))
DOWN, RIGHT = key(pygame.K_DOWN), key(pygame.K_RIGHT)
SAVE, NEXT_PART = key(pygame.K_s, CTRL), key(pygame.K_PAGEDOWN, CTRL)


def offer(name: str, *cautions: str) -> Offer:
    return Offer(name, name.title(), "", cautions)


# ---- the value


def test_scenarios_go_in_at_the_end_and_change_places() -> None:
    made = Sharing()
    for name in "abc":
        made = made.turned(offer(name))
    made = made.moved(2, -1).moved(0, -1).moved(2, 1)
    assert [o.source for o in made.chosen] == ["a", "c", "b"]
    assert [o.source for o in made.turned(offer("c")).chosen] == ["a", "b"]


def test_only_scenarios_with_something_to_look_at_are_warned_of() -> None:
    made = Sharing((offer("a"), offer("b", "No."), offer("c", "One.", "Two.")))
    assert made.cautions == (("B", ("No.",)), ("C", ("One.", "Two.")))


def test_a_plan_is_checked_by_the_one_model_of_plans() -> None:
    form = PlanForm(("Brush", " "), "Ten", 10, 12, "2025-12-02")
    assert form.checked(TODAY) == (None, {"successes": "12 is more than the shots; allowed: 1 to 10"})
    plan, problems = PlanForm(("Brush", " "), "Ten", 10, 6, "2025-12-02").checked(TODAY)
    assert problems == {}
    assert plan is not None
    assert (plan.focus, plan.made, plan.retest, plan.caution) == (("Brush",), TODAY, date(2025, 12, 2), None)
    assert set(PlanForm().checked(TODAY)[1]) == {"focus", "drill", "shots", "successes", "retest"}


def test_the_retest_is_stepped_by_days_and_begins_in_a_week() -> None:
    assert PlanForm(retest="soon").stepped(1, TODAY).retest == "2025-12-02"
    assert PlanForm(retest="2025-12-02").stepped(-2, TODAY).retest == "2025-11-30"


def test_what_is_wrong_is_told_by_part() -> None:
    assert set(Sharing().problems(TODAY)) == {"chosen", "title"}
    one = Sharing((offer("a"),))
    assert one.problems(TODAY) == {}
    assert (one.name, one.file_name) == ("A", "a.pack.toml")
    assert "drill" in Sharing((offer("a"),), planned=True).problems(TODAY)
    many = Sharing(tuple(offer(f"s{i}") for i in range(61)), "T")
    assert many.problems(TODAY)["chosen"].startswith("61 scenarios are chosen; choose 1 to 60")


def test_own_files_come_before_recent_ones_and_none_twice(tmp_path: Path) -> None:
    text = scenario_text(load_library(library()[0]))
    (tmp_path / "home" / "scenarios").mkdir(parents=True)
    own, other, bad = tmp_path / "home" / "scenarios" / "a.toml", tmp_path / "b.toml", tmp_path / "c.toml"
    own.write_text(text)
    other.write_text(text)
    bad.write_text("title = 3")
    found = own_offers(Shelf(tmp_path / "home"), [other, bad, own])
    assert [Path(o.source) for o in found] == [own, other]
    assert [o.source for o in builtin_offers()] != []
    assert set(map(str, (o.source for o in builtin_offers()))) == set(library())


# ---- the window


class Hand:
    """A Builder with two scenarios of its own, worked by keys."""

    def __init__(self, folder: Path, size: tuple[int, int] = (1280, 800), scale: float = 1.0) -> None:
        self.home = folder / "data"
        (self.home / "scenarios").mkdir(parents=True)
        for name in library()[:2]:
            path = self.home / "scenarios" / f"my-{name}.toml"
            own = load_library(name).model_copy(update={"firmness": 1.2})  # so that it is not proved
            path.write_text(scenario_text(own), encoding="utf-8")
        self.app = App.headless(size, Settings(text_scale=scale), "Builder", self.home)
        self.keys()

    def keys(self, *events: pygame.event.Event) -> None:
        for event in (*events, None):
            self.app.frame([event] if event else [], 0.1)

    def text(self, words: str) -> None:
        self.keys(*(pygame.event.Event(pygame.TEXTINPUT, text=c) for c in words))

    def to(self, label: str, group: str = "none") -> None:
        """By Tab to a label, or to the group it is in."""
        for _ in range(60):
            if (w := self.app.focus.widget) and (w.label == label or w.group == group):
                return
            self.keys(TAB)
        raise AssertionError(f"no way to {label}")

    def share(self) -> SharePage:
        builder = self.app.stack[0]
        assert isinstance(builder, Builder)
        builder.show_tab("file")
        self.to("Save", "file")
        while self.app.focus.widget and self.app.focus.widget.label != "Share":
            self.keys(RIGHT)
        self.keys(ENTER)
        page = self.app.screen
        assert isinstance(page, SharePage)
        return page

    def tick_three(self) -> None:
        while not (self.app.focus.widget and self.app.focus.widget.group == "offers"):
            self.keys(TAB)
        self.keys(SPACE, DOWN, SPACE, DOWN, SPACE)


@pytest.fixture
def user(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    home = tmp_path / "user"
    (home / "Documents").mkdir(parents=True)
    for name in ("HOME", "USERPROFILE"):
        monkeypatch.setenv(name, str(home))
    return home


@pytest.mark.parametrize(("size", "scale"), [((1280, 800), 1.0), ((1024, 640), 2.0)])
def test_three_scenarios_with_a_plan_by_keys_alone(
    tmp_path: Path, user: Path, size: tuple[int, int], scale: float
) -> None:
    hand = Hand(tmp_path, size, scale)
    page = hand.share()
    hand.tick_three()
    mine = [o.title for o in page.own]
    assert [o.title for o in page.sharing.chosen][:2] == mine
    hand.keys(NEXT_PART)
    while not (hand.app.focus.widget and hand.app.focus.widget.group == "order 2"):
        hand.keys(TAB)
    hand.keys(ENTER)  # the third one earlier; the focus goes with it
    assert hand.app.focus.widget is not None
    assert (hand.app.focus.widget.group, hand.app.focus.widget.label) == ("order 1", "Earlier")
    assert [o.title for o in page.sharing.chosen][::2] == mine
    hand.keys(NEXT_PART)
    hand.to("Title")
    hand.text("Three for Ada")
    hand.to("With a practice plan")
    hand.keys(SPACE)
    for label, words in (("Focus 1", "Brush"), ("Drill", "Ten"), ("Shots", "20"), ("Pass mark", "14")):
        hand.to(label)
        hand.text(words)
    hand.to("Retest")
    hand.keys(key(pygame.K_UP), SAVE)
    assert isinstance(hand.app.screen, ShareWarnings)
    hand.keys(RIGHT, ENTER)
    assert isinstance(hand.app.screen, Chooser)
    hand.keys(ENTER)
    assert isinstance(hand.app.screen, Builder)
    pack = read_pack(user / "Documents" / "three-for-ada.pack.toml")
    assert [m.name for m in pack.members][::2] == [f"my-{n}" for n in library()[:2]]
    assert pack.plan is not None
    assert (pack.plan.shots, pack.plan.successes) == (20, 14)
    assert pack.plan.retest == date.today() + timedelta(8)
    assert all(isinstance(one, Entry) for one in Shelf(hand.home).scenarios())


def test_what_is_missing_is_shown_and_going_back_keeps_all(tmp_path: Path, user: Path) -> None:
    hand = Hand(tmp_path)
    page = hand.share()
    hand.keys(SAVE)
    assert hand.app.toast.sentence.startswith("No scenario is chosen")
    hand.tick_three()
    hand.to("With a practice plan")
    hand.keys(SPACE, SAVE)
    assert hand.app.screen is page
    assert page._fields["title"].problem.startswith("Give the pack a title")
    assert page._fields["drill"].problem.startswith("Is missing")
    hand.to("Drill")
    hand.text("Ten")
    assert page._fields["drill"].problem == ""
    hand.keys(ESC)
    assert hand.share().sharing.plan.drill == "Ten"
    assert list(user.rglob("*.toml")) == []


def test_each_thing_that_is_wrong_with_a_scenario_comes_up_in_the_window(
    tmp_path: Path, user: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    hand = Hand(tmp_path)
    made = load_library(library()[0]).model_copy(update={"firmness": 1.2})
    none = [FamilyProof(family=f, reachable=True, pass_chance=0.0) for f in FAMILIES]
    some = [
        FamilyProof(family=f, reachable=True, solvable=True, matched=True, pass_chance=0.9) for f in FAMILIES
    ]
    proofs = {
        "prove it again": {"digest": "0" * 16, "families": none, "rewards_match": "yes"},
        "Nobody can be expected": {"digest": made.digest, "families": none, "rewards_match": "cannot tell"},
        "comes back far off does as well": {"digest": made.digest, "families": some, "rewards_match": "no"},
    }
    numbers = {"effort": "small", "seed": 0, "strokes": 1, "default_chance": 0.0, "random_chance": 0.0,
               "forgiveness": 0.0}  # fmt: skip
    for i, given in enumerate(proofs.values()):
        proof = Proof.model_validate({**numbers, **given})
        text = scenario_text(made.model_copy(update={"proof": proof, "title": f"A{i}"}))
        (hand.home / "scenarios" / f"a{i}.toml").write_text(text, encoding="utf-8")
    page = hand.share()
    chosen = [w for w in walk(page.widgets) if w.group == "offers"][: len(proofs)]
    for line in chosen:
        hand.app.focus.set(line)
        hand.keys(SPACE)
    hand.to("Title")
    hand.text("Three")
    hand.keys(SAVE)
    assert isinstance(hand.app.screen, ShareWarnings)
    said = "\n".join(w.label for w in walk(hand.app.screen.widgets))
    assert [words for words in proofs if words not in said] == []


def test_a_warning_may_be_heeded(tmp_path: Path, user: Path) -> None:
    hand = Hand(tmp_path)
    page = hand.share()
    hand.tick_three()
    hand.to("Title")
    hand.text("Three")
    hand.keys(SAVE)
    assert isinstance(hand.app.screen, ShareWarnings)
    hand.keys(ENTER)
    assert hand.app.screen is page
    assert list(user.rglob("*.toml")) == []


def written_to(hand: Hand, path: Path) -> None:
    """Choose one scenario and write it there."""
    page = hand.share()
    page.host.sharing = Sharing((page.own[0],), "One")
    hand.keys(SAVE, RIGHT, ENTER)
    hand.keys(key(pygame.K_a, CTRL))
    hand.text(str(path))
    hand.keys(ENTER)


def test_the_library_is_never_written_to(tmp_path: Path, user: Path) -> None:
    hand = Hand(tmp_path)
    before = sorted(p for p in hand.home.rglob("*.toml"))
    written_to(hand, hand.home / "scenarios" / "new.toml")
    assert "inside your own library" in hand.app.toast.sentence
    assert isinstance(hand.app.screen, SharePage)
    assert sorted(p for p in hand.home.rglob("*.toml")) == before


def test_a_file_that_is_there_is_asked_about(tmp_path: Path, user: Path) -> None:
    hand, old = Hand(tmp_path), user / "old.toml"
    old.write_text("mine")
    written_to(hand, old)
    assert isinstance(hand.app.screen, Ask)
    hand.keys(ESC)
    assert old.read_text() == "mine"
    assert isinstance(hand.app.screen, SharePage)
    hand.app.pop()
    written_to(hand, old)
    hand.keys(RIGHT, ENTER)
    assert read_pack(old).title == "One"


def test_a_file_from_elsewhere_is_added_and_a_pack_is_not(tmp_path: Path, user: Path) -> None:
    hand = Hand(tmp_path)
    path = user / "else.toml"
    path.write_text(scenario_text(load_library(library()[5])), encoding="utf-8")
    page = hand.share()
    flow = page.host
    flow.add_shared()
    assert isinstance(hand.app.screen, Chooser)
    hand.text(str(path))
    hand.keys(ENTER)
    assert hand.app.screen is page
    assert page.sharing.chosen == (file_offer(path),)
    assert str(path) in page._ticks
    pack = user / "p.pack.toml"
    pack.write_text('pack = 1\ntitle = "x"\n')
    flow.add_shared()
    hand.text(str(pack))
    hand.keys(ENTER)
    assert "is a pack already" in hand.app.toast.sentence
    assert len(page.sharing.chosen) == 1


def test_a_file_to_be_handed_out_has_a_name_for_every_system(tmp_path: Path) -> None:
    """The signs Windows forbids (Microsoft, Naming Files, Paths, and Namespaces) and folders not there."""
    assert misnamed(tmp_path / "week-one.pack.toml") == ""
    for name in ("x?*|<>:.exe", 'a"b', "CON.toml", "nul", "end.", "a\tb"):
        assert misnamed(tmp_path / name).endswith(".")
    assert misnamed(tmp_path / "nowhere" / "x.toml").endswith("there is no such folder.")


@pytest.mark.parametrize("asks", [True, False])
def test_a_pack_with_a_plan_asks_for_an_answer_unless_told_not_to(
    tmp_path: Path, user: Path, asks: bool
) -> None:  # fmt: skip
    hand = Hand(tmp_path)
    flow = hand.app.screen.share_flow
    flow.open()
    page = hand.app.screen
    page.turn(page.builtin[0])
    page._turn_plan(True)
    if not asks:
        hand.to("Ask for an answer")
        hand.keys(SPACE)
    plan = PlanForm(("Brush", ""), "Ten", 10, 6, (date.today() + timedelta(7)).isoformat())
    flow.sharing = flow.sharing.with_plan(lambda _: plan)
    flow._write(tmp_path / "out.pack.toml")
    pack = read_pack(tmp_path / "out.pack.toml")
    assert bool(pack.id) is asks
    assert ("Drop their answer here" in hand.app.toast.sentence) is asks
    if asks:
        assert assignment_of(hand.home, pack.id) == pack
    hand.app.close()

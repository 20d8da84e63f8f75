"""One shot session shows, sounds and words a shot the same way on every screen."""

import pytest

from game.app.frame import App
from game.library.settings import Settings
from game.shot_view import session
from game.shot_view.session import Session
from game.sound.cues import Cue, score
from game.ui.toast import Toast
from tests.game.shot_view.shots import chip


class Ear:
    """Hears what goes to the loudspeaker."""

    def __init__(self) -> None:
        self.cues: list[Cue] = []

    def play(self, cue: Cue) -> bool:
        self.cues.append(cue)
        return True


@pytest.fixture
def ear(monkeypatch: pytest.MonkeyPatch) -> Ear:
    made = Ear()
    monkeypatch.setattr(session, "loudspeaker", lambda _: made)
    return made


def begun(**settings: bool) -> tuple[Session, Toast]:
    app = App.headless(settings=Settings(**settings), screen="Settings")
    return Session(app), app.toast


def test_a_film_sounds_every_cue_once_with_its_words_and_ends_once(ear: Ear) -> None:
    shown, toast = begun()
    shown.show(chip(), slow=True)
    ends = sum(shown.advance(0.05) for _ in range(2000))
    assert ends == 1
    assert not shown.moving
    assert ear.cues == list(score(chip()))
    assert len(toast.kept) == len(ear.cues)
    assert all(k[0].isupper() and k.endswith(".") for k in toast.kept)


def test_with_reduced_motion_the_shot_is_there_and_only_its_strike_is_heard(ear: Ear) -> None:
    shown, _ = begun(reduced_motion=True)
    shown.show(chip(), slow=True)
    assert shown.ribbon.at_end
    assert ear.cues == [cue for cue in score(chip()) if cue.time <= chip().run.t[0]] != []
    assert shown.advance(1.0) is False


def test_a_shot_shown_at_its_end_is_silent_and_can_be_watched_again(ear: Ear) -> None:
    shown, _ = begun()
    assert shown.watch() is False
    shown.show(chip(), slow=False, at_end=True)
    assert not ear.cues
    assert shown.watch()
    assert shown.moving
    shown.pause()
    assert shown.advance(1.0) is False
    assert not ear.cues


def test_scrubbing_is_silent(ear: Ear) -> None:
    shown, toast = begun()
    shown.show(chip(), slow=True)
    shown.jump(1)
    shown.advance(0.1)
    assert not ear.cues
    assert toast.sentence.startswith("At ")

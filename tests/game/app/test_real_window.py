"""The program in a real window, driven by keys alone as a reader would drive it.

Collected only where Xvfb and xdotool are installed (tests/game/app/conftest.py): no other module opens a
window. A display of its own is started on a free number and read back through its frame buffer file, so
that what is looked at is what a monitor would show.
"""

import json
import os
import struct
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from itertools import combinations
from pathlib import Path
from shutil import which

import numpy as np
import pytest

from game.app.window import LEAST
from game.draw.palette import DARK, LIGHT
from game.library.settings import Settings, kept_settings
from game.ui import Theme

ROOT = Path(__file__).parents[3]
WIDE, HIGH = LEAST
PATIENCE = 240.0  # s for the first start: it compiles the laws where no other test has done so yet
LARGE = (1600, 1000)
CHANGED = 0.02  # share of pixels that must differ for a picture to count as another
COURSE = slice(40, 215), slice(20, 720)  # rows, columns
SKY = slice(40, 150), COURSE[1]  # over the dots of likely stops
WORDS = slice(230, 320), slice(20, 720)
TURF = slice(350, 520), slice(15, 440)
CONTROLS = slice(160, 600), slice(760, 1020)
TO_LEAN_CHANGE = 4  # stops after the button to play: its neighbours, ball, lean, lean change


class Desk:
    """A display without a monitor and the program in it."""

    def __init__(self, folder: Path, screen: tuple[int, int] = LEAST, manager: str = "") -> None:
        self.home = folder / "home"
        self.home.mkdir()
        kept = {"width": WIDE, "height": HIGH, "text_scale": 1.0}
        (self.home / "settings.json").write_text(json.dumps(kept))
        self._frames = folder / "Xvfb_screen0"
        read, write = os.pipe()
        self._server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", f"{screen[0]}x{screen[1]}x24",
             "-nolisten", "tcp",
             "-fbdir", str(folder)],
            pass_fds=(write,), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        os.close(write)
        with os.fdopen(read) as told:
            self._env = os.environ | {
                "DISPLAY": f":{told.readline().strip()}", "SDL_AUDIODRIVER": "dummy",
                "SDL_VIDEODRIVER": "x11",
            }  # fmt: skip
        self._others = [subprocess.Popen([manager], env=self._env)] if manager else []
        self.game = subprocess.Popen(
            [sys.executable, "-m", "game", "--data-dir", str(self.home)], cwd=ROOT, env=self._env
        )

    def keys(self, *names: str) -> None:
        """Press and release them one after the other."""
        subprocess.run(["xdotool", "key", "--delay", "80", *names], env=self._env, check=True, timeout=120)

    def resize(self, wide: int, high: int) -> None:
        """Give the window that size, in the corner of the display."""
        found = subprocess.run(
            ["xdotool", "search", "--onlyvisible", "--pid", str(self.game.pid)],
            env=self._env, check=True, timeout=120, capture_output=True, text=True,
        )  # fmt: skip
        window = found.stdout.split()[-1]
        subprocess.run(
            ["xdotool", "windowmove", window, "0", "0", "windowsize", window, str(wide), str(high)],
            env=self._env, check=True, timeout=120,
        )  # fmt: skip

    def picture(self) -> np.ndarray:
        """What the display shows, (rows, columns, rgb). The file is an X window dump, words big-endian."""
        dump = self._frames.read_bytes()
        head = struct.unpack(">25I", dump[:100])
        size, wide, high, stride, colours = head[0], head[4], head[5], head[12], head[19]
        start = size + 12 * colours
        rows = np.frombuffer(dump, np.uint8, stride * high, start).reshape(high, stride)
        return rows[:, : 4 * wide].reshape(high, wide, 4)[:, :, 2::-1].astype(int)

    def until(self, true: Callable[[np.ndarray], bool], what: str, patience: float = 120.0) -> np.ndarray:
        """The first picture for which it is true."""
        end = time.monotonic() + patience
        while time.monotonic() < end:
            assert self.game.poll() is None, f"the program ended with {self.game.returncode}"
            if true(now := self.picture()):
                return now
            time.sleep(0.1)
        raise AssertionError(f"waited {patience:.0f} s in vain for {what}")

    def settled(self) -> np.ndarray:
        """The picture once it has stood still for half a second."""
        last = self.picture()
        end = time.monotonic() + 120.0
        while time.monotonic() < end:
            time.sleep(0.5)
            now = self.picture()
            if np.array_equal(now, last):
                return now
            last = now
        raise AssertionError("the picture never stood still")

    def close(self) -> None:
        for process in (self.game, *self._others, self._server):
            if process.poll() is None:
                process.kill()
            process.wait(timeout=120)


def share(picture: np.ndarray, colour: tuple[int, ...]) -> float:
    """Share of the pixels in exactly this colour."""
    return float((picture == np.array(colour[:3])).all(axis=2).mean())


def apart(a: np.ndarray, b: np.ndarray) -> float:
    """Share of the pixels that differ visibly."""
    return float((np.abs(a - b).max(axis=2) > 16).mean())


def ink(picture: np.ndarray) -> float:
    """Share of dark pixels: words on paper."""
    return float((picture.sum(axis=2) < 250).mean())


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    made = Desk(tmp_path)
    yield made
    made.close()


def is_bench(picture: np.ndarray) -> bool:
    """Paper, but not where the course and the turf are drawn."""
    drawn = (share(picture[part], LIGHT.paper) < 0.3 for part in (COURSE, TURF))
    return share(picture, LIGHT.paper) > 0.2 and all(drawn)


def test_a_first_sitting_by_keys_alone(desk: Desk) -> None:
    desk.until(is_bench, "the Bench", PATIENCE)
    start = desk.settled()
    accent = Theme().accent
    assert share(start[:90], accent) > 0.001  # the button to play

    desk.keys(*["Tab"] * TO_LEAN_CHANGE, "End")
    leaned = desk.settled()
    assert apart(start[TURF], leaned[TURF]) > CHANGED  # the club stands otherwise at once
    row = np.flatnonzero((start[CONTROLS] != leaned[CONTROLS]).any(axis=(1, 2)))
    assert row.size  # the slider itself has moved

    desk.keys("space")
    desk.until(lambda p: apart(leaned[TURF], p[TURF]) > CHANGED / 4, "the swing")
    desk.keys("f")  # at full speed
    told = desk.until(lambda p: ink(p[WORDS]) > 1.5 * ink(leaned[WORDS]), "the sentence", 30.0)
    assert share(told[SKY], LIGHT.path) > max(0.001, 4 * share(leaned[SKY], LIGHT.path))  # the ball's path
    assert apart(leaned[TURF], told[TURF]) > CHANGED

    seen = [desk.settled()]
    for name in ("F3", "F4", "F5", "F6", "F7"):
        desk.keys(name)
        before = seen[-1]
        desk.until(lambda p, old=before: apart(old, p) > 2 * CHANGED, f"the screen of {name}")
        seen.append(desk.settled())
    assert all(apart(a, b) > CHANGED for a, b in combinations(seen, 2))  # mostly paper, three of them

    desk.keys("Tab", "Right")  # from the text size to the light
    desk.until(lambda p: share(p, DARK.paper) > 0.3, "night")
    desk.keys("Escape", "ctrl+q")
    assert desk.game.wait(timeout=120) == 0
    assert kept_settings(desk.home) == (Settings(dark=True, width=WIDE, height=HIGH), "")


def test_another_size_is_laid_out_anew_at_once(tmp_path: Path) -> None:
    desk = Desk(tmp_path, LARGE)
    try:
        desk.until(lambda p: share(p, LIGHT.paper) > 0.1, "the window", PATIENCE)
        desk.resize(WIDE, HIGH)
        desk.until(lambda p: is_bench(p[:HIGH, :WIDE]), "the Bench", PATIENCE)
        small = desk.settled()
        desk.resize(1400, 900)
        grown = desk.until(
            lambda p: share(p[:80, WIDE:1400], Theme().accent) > 0.001, "the column on the right"
        )
        grown = desk.settled()
        desk.keys("ctrl+0")  # the text size it has already: everything is laid out, whether it was or not
        desk.until(lambda p: apart(p[860:900, :1400], grown[860:900, :1400]) > 0.001, "the caption line")
        assert apart(desk.settled()[:850], grown[:850]) == 0.0
        desk.resize(WIDE, HIGH)
        back = desk.until(lambda p: share(p[:80, :WIDE], Theme().accent) > 0.001, "the first column")
        back = desk.settled()
        assert apart(back[: HIGH - 50, :WIDE], small[: HIGH - 50, :WIDE]) == 0.0
    finally:
        desk.close()


@pytest.mark.skipif(which("openbox") is None, reason="only a window manager (openbox) fills a screen")
def test_filling_the_screen_is_laid_out_anew_at_once(tmp_path: Path) -> None:
    desk = Desk(tmp_path, LARGE, manager="openbox")
    try:
        desk.until(lambda p: share(p, LIGHT.paper) > 0.1, "the window", PATIENCE)
        desk.keys("F11")
        wide, high = LARGE
        desk.until(lambda p: share(p[:80, wide - 300 :], Theme().accent) > 0.001, "the far column", PATIENCE)
        full = desk.settled()
        assert share(full[high - 60 :], LIGHT.paper) > 0.5  # the caption line at the very foot
        desk.keys("F11")
        desk.until(lambda p: share(p, LIGHT.paper) < 0.8 * share(full, LIGHT.paper), "the window again")
    finally:
        desk.close()

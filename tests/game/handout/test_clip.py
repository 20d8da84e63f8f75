"""The clip, decoded back from its file: length and size, both strokes at the ball together, no half file."""

import os
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pygame
import pytest
from PIL import Image

from game.handout import HandoutError, clip_in_parts, write_clip
from game.handout.clip import MOST_BYTES
from game.handout.clip_frames import CLIP_SIZE, FRAMES_A_SECOND, ClipFrames, ball_met
from game.shot_view.stance import head_at
from game.text.cautions import MODEL_NOTE
from game.text.clip import OneShot, clip_words
from game.text.recap import Recap, recap_cause, side_did
from game.text.story import explain
from physics.equipment import BALL

NEAR = 12.0  # of 255: mean difference of a flattened frame from the one that was drawn


@pytest.fixture(scope="module")
def frames(lean: Recap) -> ClipFrames:
    return ClipFrames(lean)


@pytest.fixture(scope="module")
def gif(lean: Recap, tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("clip") / "lean.gif"
    shares = list(clip_in_parts(lean, file))
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
    assert len(shares) > 50
    assert [f.name for f in file.parent.iterdir()] == ["lean.gif"]
    return file


def decoded(file: Path) -> Iterator[tuple[float, float, np.ndarray]]:
    """(from, to, pixels) of every frame; seconds. The same frame twice is one of double length in a GIF."""
    with Image.open(file) as clip:
        time = 0.0
        for k in range(clip.n_frames):
            clip.seek(k)
            long = clip.info["duration"] / 1e3
            yield time, time + long, np.asarray(clip.convert("RGB"), dtype=float)
            time += long


def drawn(frames: ClipFrames, k: int) -> np.ndarray:
    """Frame k as it was drawn, rows first."""
    frames.draw(k)
    return pygame.surfarray.array3d(frames.surface).swapaxes(0, 1).astype(float)


# ---- as planned


def test_the_windows_take_two_thirds_of_the_frame_and_stand_apart(frames: ClipFrames) -> None:
    a, b = frames.windows
    assert a.w * a.h + b.w * b.h >= 2 / 3 * CLIP_SIZE[0] * CLIP_SIZE[1]
    assert (a.w, a.h) == (b.w, b.h)
    assert not a.overlaps(b)
    assert b.right <= CLIP_SIZE[0]


def test_at_the_strike_both_clubs_are_at_their_balls(lean: Recap, frames: ClipFrames) -> None:
    assert len(frames.at_strike) >= FRAMES_A_SECOND  # it stands for a second at least
    for side in lean.sides:
        met = ball_met(side.shot)
        assert met == side.shot.strike.time
        x, _, _ = head_at(side.shot, met + frames.times[frames.at_strike[0]])
        assert abs(x) < BALL.radius  # the edge is under the ball, and was behind it a moment before
        assert head_at(side.shot, met + frames.times[frames.at_strike[0] - 6])[0] < x


def test_the_strike_is_slow_and_time_never_goes_back(frames: ClipFrames) -> None:
    steps = np.diff(frames.times)
    assert (steps >= 0.0).all()
    near = steps[frames.at_strike[0] - 10 : frames.at_strike[0]]
    assert (near * FRAMES_A_SECOND < 1 / 50).all()


def test_captions_come_from_the_sentences_of_the_page(lean: Recap) -> None:
    words = clip_words(lean)
    assert words.cause == recap_cause(lean)
    assert words.did == tuple(side_did(lean, side) for side in lean.sides)
    assert MODEL_NOTE in words.note
    assert "bounce 5°" in words.at_ball[0]


def test_one_shot_alone_fills_the_frame_and_is_told_as_on_the_bench(lean: Recap) -> None:
    shot = lean.second.shot
    alone = ClipFrames(OneShot(shot))
    (box,) = alone.windows
    assert box.w * box.h >= 2 / 3 * CLIP_SIZE[0] * CLIP_SIZE[1]
    assert (alone.words.cause, alone.words.focus) == (explain(shot)[0], explain(shot)[-1])
    assert "bounce" in alone.words.at_ball[0]
    before, at_ball = drawn(alone, alone.at_strike[0] - 15), drawn(alone, alone.at_strike[0])
    assert np.abs(before - at_ball).mean() > 1.0
    assert not any(letter.isdigit() for letter in "".join(clip_words(OneShot(shot, True)).did))


# ---- as decoded


def test_a_gif_is_seven_seconds_of_1280_by_720_in_five_megabytes(gif: Path, frames: ClipFrames) -> None:
    assert gif.stat().st_size <= MOST_BYTES <= 5_000_000
    with Image.open(gif) as clip:
        assert clip.size == CLIP_SIZE == (1280, 720)
        assert clip.info["loop"] == 0
    every = list(decoded(gif))
    assert 6.0 <= every[-1][1] <= 8.0
    assert 40 <= len(every) <= len(frames)
    assert len({pixels.tobytes() for _, _, pixels in every}) >= 40  # it moves


def test_decoded_frames_at_the_strike_show_both_strokes_at_the_ball(gif: Path, frames: ClipFrames) -> None:
    each = round(100 / FRAMES_A_SECOND) / 100
    first, last = frames.at_strike[0], frames.at_strike[-1]
    shown = [
        p for start, end, p in decoded(gif) if start < (last + 0.5) * each and end > (first + 0.5) * each
    ]
    meant = {k: drawn(frames, k) for k in (first, first - 15)}
    for box in frames.windows:
        part = np.s_[int(box.y) : int(box.bottom), int(box.x) : int(box.right)]
        for pixels in shown:
            off = np.abs(pixels[part] - meant[first][part]).mean()
            assert off < NEAR
            assert off < 0.5 * np.abs(pixels[part] - meant[first - 15][part]).mean()


def test_captions_are_burnt_in(gif: Path, frames: ClipFrames) -> None:
    """Under the windows there is nothing before the strike, and the angles stand there while it is held."""
    every = list(decoded(gif))
    for box in frames.windows:
        low = np.s_[int(box.bottom) + 4 : int(box.bottom) + 34, int(box.x) : int(box.right)]
        assert (every[0][2][low].max(axis=2) < 110).mean() == 0.0
        assert (every[-1][2][low].max(axis=2) < 110).mean() > 0.02


def test_mp4_has_every_frame(lean: Recap, frames: ClipFrames, tmp_path: Path) -> None:
    av = pytest.importorskip("av")
    file = tmp_path / "lean.mp4"
    assert write_clip(lean, file)
    assert file.stat().st_size <= MOST_BYTES
    with av.open(str(file)) as box:
        stream = box.streams.video[0]
        assert (stream.width, stream.height) == CLIP_SIZE
        pixels = [frame.to_ndarray(format="rgb24").astype(float) for frame in box.decode(stream)]
        assert float(stream.duration * stream.time_base) == pytest.approx(7.0, abs=0.1)
    assert len(pixels) == len(frames)
    k = frames.at_strike[3]
    assert np.abs(pixels[k] - drawn(frames, k)).mean() < NEAR


# ---- stopped, refused


def test_a_clip_that_is_stopped_leaves_no_file(lean: Recap, tmp_path: Path) -> None:
    asked = iter([False, False, False, True])
    assert write_clip(lean, tmp_path / "x.gif", lambda: next(asked)) is False
    assert list(tmp_path.iterdir()) == []


def test_a_clip_that_is_left_leaves_the_old_one(lean: Recap, tmp_path: Path) -> None:
    old = tmp_path / "x.gif"
    old.write_bytes(b"old")
    parts = clip_in_parts(lean, old)
    assert next(parts) > 0.0
    assert len(list(tmp_path.iterdir())) == 2
    parts.close()
    assert [f.name for f in tmp_path.iterdir()] == ["x.gif"]
    assert old.read_bytes() == b"old"


def test_a_disk_that_refuses_is_one_sentence(
    lean: Recap, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Image.Image, "save", full)
    monkeypatch.setattr("game.handout.clip_frames.SHOWN_AT", (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6))
    with pytest.raises(HandoutError, match=r"^'.*x\.gif' cannot be written: No space left on device\.$"):
        write_clip(lean, tmp_path / "x.gif")
    assert list(tmp_path.iterdir()) == []


def test_what_cannot_be_written_is_said_before_any_frame(lean: Recap, tmp_path: Path) -> None:
    for file in (tmp_path / "none" / "x.gif", tmp_path / "x.avi"):
        with pytest.raises(HandoutError, match=r"\.$"):
            next(clip_in_parts(lean, file))


def test_without_the_extra_mp4_is_refused_in_one_sentence(
    lean: Recap, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(__import__("sys").modules, "av", None)
    with pytest.raises(HandoutError, match=r'extra "video"'):
        next(clip_in_parts(lean, tmp_path / "x.mp4"))


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_takes_no_files(lean: Recap, tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(HandoutError, match="takes no files"):
        next(clip_in_parts(lean, tmp_path / "x.gif"))

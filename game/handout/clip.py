"""The clip written to a file: GIF by Pillow, or MP4 by PyAV where that is installed.

Frames are drawn and packed one by one, so that the maker can be told of each and can stop between any two.
"""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

import pygame
from PIL import Image

from game.draw.palette import LIGHT
from game.handout.clip_frames import CLIP_SIZE, FRAMES_A_SECOND, ClipFrames
from game.handout.whole import HandoutError, hold
from game.text.clip import Film

__all__ = ["CLIP_ENDINGS", "MOST_BYTES", "can_write_clip", "clip_in_parts", "write_clip"]

CLIP_ENDINGS = (".gif", ".mp4")
MOST_BYTES = 5_000_000  # so that it can be mailed
COLOURS = (240, 96, 48)  # of a GIF: fewer until it is small enough
RATES = (28, 33, 38)  # x264's constant rate factor: 23 is its own default, more is smaller
KEPT = ("steel", "steel_lit", "steel_edge", "pressure", "path", "intended", "ink", "ball", "halo")
SWATCH = 300  # px beside the sheet that the colours to be kept take
NO_VIDEO = (
    'An MP4 needs the extra "video": pip install "fringework[video]". A name that ends in .gif does not.'
)


def can_write_clip(file: Path) -> None:
    """HandoutError in one sentence when no clip can be written there. Asked before long work."""
    if file.suffix.lower() not in CLIP_ENDINGS:
        raise HandoutError(f"A clip's name must end in .gif or .mp4, not '{file.name}'.")
    hold(file)
    if not os.access(file.parent, os.W_OK):
        raise HandoutError(f"'{file}' cannot be written: the folder takes no files.")
    if file.suffix.lower() == ".mp4":
        try:
            import av  # noqa: F401
        except ImportError:
            raise HandoutError(NO_VIDEO) from None


def write_clip(film: Film, file: Path, stop: Callable[[], bool] = lambda: False) -> bool:
    """Write the whole clip; False when `stop` said so between two frames: then there is no file."""
    return all(not stop() for _ in clip_in_parts(film, file))


def clip_in_parts(film: Film, file: Path) -> Iterator[float]:
    """Write the clip frame by frame; each time the share that is done, 1.0 when the file is in its place.
    Left before that, by close() or an error, there is no file. HandoutError in one sentence."""
    can_write_clip(file)
    pack = _pack_gif if file.suffix.lower() == ".gif" else _pack_mp4
    frames = ClipFrames(film)
    try:
        with TemporaryDirectory(prefix=".clip-", dir=file.parent) as folder:
            part = Path(folder) / file.name
            yield from pack(frames, part)
            if part.stat().st_size > MOST_BYTES:
                raise HandoutError(f"The clip is larger than {MOST_BYTES // 10**6} MB and was not kept.")
            os.replace(part, os.path.realpath(file))
    except OSError as error:
        raise HandoutError(f"'{file}' cannot be written: {error.strerror or error}.") from None
    yield 1.0


def _image(surface: pygame.Surface) -> Image.Image:
    return Image.frombytes("RGB", surface.get_size(), pygame.image.tobytes(surface, "RGB"))


# ---- GIF


def _pack_gif(frames: ClipFrames, part: Path) -> Iterator[float]:
    """One palette for all frames, so that nothing flickers; a frame is flattened as soon as it is drawn."""
    each = round(100 / FRAMES_A_SECOND) * 10  # ms; a GIF counts in hundredths of a second
    for colours in COLOURS:
        palette = _palette(frames, colours)
        flat: list[Image.Image] = []
        for k, surface in enumerate(frames):
            flat.append(_image(surface).quantize(palette=palette, dither=Image.Dither.NONE))
            yield 0.95 * (k + 1) / len(frames)
        flat[0].save(part, "GIF", save_all=True, append_images=flat[1:], duration=each, loop=0)
        if part.stat().st_size <= MOST_BYTES:
            return


def _palette(frames: ClipFrames, colours: int) -> Image.Image:
    """From the first frame, one at the strike and the last; beside them what is small but must keep its
    colour."""
    wide, tall = CLIP_SIZE
    which = (0, frames.at_strike[0], len(frames) - 1)
    sheet = Image.new("RGB", (wide + SWATCH, tall * len(which)))
    kept = [getattr(LIGHT, name) for name in KEPT]
    for row, colour in enumerate(kept):
        high = sheet.height // len(kept)
        sheet.paste(colour, (wide, row * high, wide + SWATCH, (row + 1) * high))
    for row, k in enumerate(which):
        frames.draw(k)
        sheet.paste(_image(frames.surface), (0, row * tall))
    return sheet.quantize(colors=colours, method=Image.Quantize.MEDIANCUT)


# ---- MP4


def _pack_mp4(frames: ClipFrames, part: Path) -> Iterator[float]:
    for rate in RATES:
        with _video(part, rate) as put:
            for k, surface in enumerate(frames):
                put(surface)
                yield 0.98 * (k + 1) / len(frames)
        if part.stat().st_size <= MOST_BYTES:
            return


@contextmanager
def _video(part: Path, rate: int) -> Iterator[Callable[[pygame.Surface], None]]:
    import av

    with av.open(str(part), "w", options={"movflags": "+faststart"}) as box:
        stream = box.add_stream(
            "libx264", rate=FRAMES_A_SECOND, options={"crf": str(rate), "preset": "medium"}
        )
        stream.width, stream.height = CLIP_SIZE
        stream.pix_fmt = "yuv420p"

        def put(surface: pygame.Surface) -> None:
            frame = av.VideoFrame.from_image(_image(surface))
            box.mux(stream.encode(frame))

        yield put
        box.mux(stream.encode())

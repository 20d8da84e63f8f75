"""Compare a drawn surface with the picture kept for it, pixel by pixel within a tolerance."""

import os
from pathlib import Path

import numpy as np
import pygame

__all__ = ["GOLDEN", "WRITE", "same_picture"]

GOLDEN = Path(__file__).parent / "golden"
SMALL = (400, 250)  # pictures are compared, and kept, at this size unless another is given
WRITE = "FRINGEWORK_WRITE_GOLDEN"  # set it to 1 to keep what is drawn now


def same_picture(
    surface: pygame.Surface, name: str, out: Path, near: int = 16, share: float = 0.01,
    size: tuple[int, int] = SMALL,
) -> None:  # fmt: skip
    """Pass when at most `share` of the pixels differ by more than `near` levels in any channel.

    On failure `out` receives actual, expected and diff (differences five times enlarged), and the
    message says where.
    """
    small = pygame.transform.smoothscale(surface, size)
    kept = GOLDEN / f"{name}.png"
    if os.environ.get(WRITE) == "1":
        GOLDEN.mkdir(exist_ok=True)
        pygame.image.save(small, str(kept))
    assert kept.exists(), f"no kept picture '{name}'; look at it, then run once with {WRITE}=1"
    expected = pygame.image.load(str(kept))
    a, b = (pygame.surfarray.array3d(s).astype(int) for s in (small, expected))
    assert a.shape == b.shape, f"'{name}' is {a.shape[:2]}, kept {b.shape[:2]}"
    apart = np.abs(a - b)
    wrong = float((apart.max(axis=2) > near).mean())
    if wrong > share:
        diff = pygame.surfarray.make_surface(np.clip(apart * 5, 0, 255).astype(np.uint8))
        for label, picture in (("actual", small), ("expected", expected), ("diff", diff)):
            pygame.image.save(picture, str(out / f"{name}-{label}.png"))
    assert wrong <= share, f"'{name}': {wrong:.1%} of the pixels differ; see {name}-*.png in {out}"

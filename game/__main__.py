"""`python -m game`: the same as `fringework`."""

from game.cli import main

__all__: list[str] = []

if __name__ == "__main__":
    raise SystemExit(main())

"""The Ladder: a row of balls from back to front of one stance."""

__all__: list[str] = []

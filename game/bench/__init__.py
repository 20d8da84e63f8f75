"""The Bench: set, play, see why. Free rehearsal on a simple green."""

__all__: list[str] = []

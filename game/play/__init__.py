"""One scenario played: predict, play, see the gap, ask why."""

__all__: list[str] = []

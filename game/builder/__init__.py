"""The Builder: a scenario made, proved and handed out."""

__all__: list[str] = []

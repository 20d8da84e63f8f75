"""Sounds from formulas, and when a shot sounds."""

__all__: list[str] = []

"""The frame round the screens: window, screen stack, settings, help, first start."""

__all__: list[str] = []

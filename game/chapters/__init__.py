"""The chapter page: every scenario to choose from, and what the coach plans."""

__all__: list[str] = []

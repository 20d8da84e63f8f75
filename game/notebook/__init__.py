"""The door of the notebook: what was played, where one is strong, and what is next."""

__all__: list[str] = []

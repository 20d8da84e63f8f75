"""The reader's own files: settings, progress, scenarios and packs on the shelf."""

__all__: list[str] = []

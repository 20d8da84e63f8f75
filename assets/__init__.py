"""Theme, icons and sounds drawn by our own code; holds files only, found by package path."""

__all__: list[str] = []

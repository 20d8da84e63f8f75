"""What is being built: the draft, its edits and steps, where it is kept. No pygame window, no screen."""

__all__: list[str] = []

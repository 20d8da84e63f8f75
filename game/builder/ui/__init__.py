"""The Builder's screen: canvas, tools, tabs, files, proof."""

__all__: list[str] = []

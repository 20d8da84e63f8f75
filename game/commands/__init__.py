"""One file a command, each with `add_options(parser)` and `run(args)`."""

__all__: list[str] = []

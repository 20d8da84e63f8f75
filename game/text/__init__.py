"""How things are said: quantities, units, glossary, verdicts as words. Nothing here draws."""

__all__: list[str] = []

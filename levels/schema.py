"""`python -m levels.schema` writes schema.json anew from the model."""

from pathlib import Path

from levels.files import replace_file
from levels.scenario import schema_text

__all__ = ["main"]


def main() -> None:
    """Write schema.json beside this module."""
    replace_file(Path(__file__).with_name("schema.json"), schema_text())


if __name__ == "__main__":
    main()

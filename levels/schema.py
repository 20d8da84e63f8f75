"""`python -m levels.schema` writes schema.json and pack_schema.json anew from the models."""

from pathlib import Path

from levels import packs, scenario
from levels.whole_file import replace_file

__all__ = ["write_schemas"]


def write_schemas() -> None:
    """Write schema.json and pack_schema.json beside this module."""
    replace_file(Path(__file__).with_name("schema.json"), scenario.scenario_schema_text())
    replace_file(Path(__file__).with_name("pack_schema.json"), packs.pack_schema_text())


if __name__ == "__main__":
    write_schemas()

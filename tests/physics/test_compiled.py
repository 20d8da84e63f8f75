"""The bridge between dataclasses and compiled laws."""

from dataclasses import astuple, dataclass
from math import nan

import pytest

from physics.compiled import as_record, as_records, law
from physics.equipment import BAG
from physics.surfaces import SURFACES


@dataclass(frozen=True)
class Item:
    label: str
    weight: float
    count: int
    firm: bool
    note: str = ""


@law
def weigh(item: Item) -> float:
    """Weight times count."""
    return item.weight * item.count


def test_record_holds_numbers_in_order_and_leaves_words_behind() -> None:
    record = as_record(Item("a", 0.5, 3, True))
    assert record.dtype.names == ("weight", "count", "firm")
    assert (record.weight, record.count, record.firm) == (0.5, 3, 1)
    assert [record.dtype[n].str[1:] for n in record.dtype.names] == ["f8", "i8", "i8"]


def test_records_keep_every_row() -> None:
    rows = as_records(Item("x", float(i), i, False) for i in range(5))
    assert rows.shape == (5,)
    assert rows.weight.tolist() == [0.0, 1.0, 2.0, 3.0, 4.0]


def test_no_rows_have_no_shape() -> None:
    with pytest.raises(IndexError):
        as_records([])


def test_law_reads_a_record_as_its_plain_function_reads_the_dataclass() -> None:
    item = Item("a", 0.25, 8, False)
    assert weigh(as_record(item)) == weigh.py_func(item) == 2.0  # type: ignore[attr-defined]
    assert weigh(as_record(Item("a", nan, 8, False))) != 2.0


@pytest.mark.parametrize("item", [*BAG.values(), *SURFACES.values()])
def test_every_club_and_surface_passes_whole(item: object) -> None:
    record = as_record(item)
    numbers = [v for v in astuple(item) if not isinstance(v, str)]  # type: ignore[call-overload]
    assert [float(record[n]) for n in record.dtype.names] == [float(v) for v in numbers]

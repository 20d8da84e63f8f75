"""The one switch that compiles a law, and the bridge from dataclass to compiled record.

A law is a small pure function. `law` compiles it with numba on first use; the plain Python
function stays reachable as ``.py_func`` so that tests can step through the formula.
"""

from collections.abc import Callable, Iterable
from dataclasses import fields
from typing import Any, TypeVar, cast

import numpy as np
from numba import njit

__all__ = ["as_record", "as_records", "law"]

F = TypeVar("F", bound=Callable[..., Any])


def law(function: F) -> F:
    """Compile a scalar law; cached on disk, free of the interpreter lock."""
    return cast(F, njit(cache=True, nogil=True)(function))


def as_records(items: Iterable[Any]) -> np.recarray[Any, Any]:
    """Numbers of frozen dataclasses as one record array, shape (n,), n >= 1.

    Fields that are not int, float or bool (names, labels) stay behind: a law never reads them.
    """
    rows = list(items)
    kinds = {float: "f8", int: "i8", bool: "i8"}
    picked = [(f.name, kinds[f.type]) for f in fields(rows[0]) if f.type in kinds]
    table = np.array(
        [tuple(getattr(row, name) for name, _ in picked) for row in rows],
        dtype=np.dtype(picked, align=True),
    )
    return cast("np.recarray[Any, Any]", table.view(np.recarray))


def as_record(item: Any) -> Any:
    """One frozen dataclass as a record whose fields a law reads as attributes."""
    return as_records([item])[0]

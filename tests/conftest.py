"""No test needs a screen or a loudspeaker, and no test runs laws that were compiled from older sources.

Random examples are the same on every run, unless FRINGEWORK_SEARCH=1 asks for the long random search.
"""

import os
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

from game.startup import prepare

os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
os.environ.setdefault("SDL_AUDIODRIVER", "dummy")
prepare()  # before physics is imported

SEARCHING = os.environ.get("FRINGEWORK_SEARCH") == "1"
TIMES_MORE = 25  # examples of the search for each one of the plain run
SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]

# Health checks of hypothesis measure time; a busy machine would fail them. How much is thrown away is
# still checked in the plain run.
settings.register_profile(
    "same", derandomize=True, deadline=None, database=None, suppress_health_check=SLOW[:1], print_blob=False
)
settings.register_profile(
    "search", derandomize=False, deadline=None, database=None, suppress_health_check=SLOW, print_blob=True,
    max_examples=100 * TIMES_MORE,
)  # fmt: skip
settings.load_profile("search" if SEARCHING else "same")


def searching(held: settings) -> settings:
    """The same with many more examples, for tests that name a number of their own."""
    if held.max_examples >= 100 * TIMES_MORE:  # from the profile, or as many already
        return held
    return settings(held, max_examples=held.max_examples * TIMES_MORE)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """A number written beside a test wins over the profile, so the search multiplies it here."""
    if not SEARCHING:
        return
    name = "_hypothesis_internal_use_settings"  # where hypothesis and its own pytest plugin keep them
    done: set[int] = set()
    for item in items:
        plain: Any = getattr(item, "obj", None)
        plain = getattr(plain, "__func__", plain)
        held = getattr(plain, name, None)
        if isinstance(held, settings) and id(plain) not in done:
            done.add(id(plain))
            setattr(plain, name, searching(held))
        machine = getattr(item, "cls", None)
        held = getattr(machine, "settings", None)  # a state machine carries them on its class
        if isinstance(held, settings) and id(machine) not in done:
            done.add(id(machine))
            machine.settings = searching(held)  # type: ignore[union-attr]

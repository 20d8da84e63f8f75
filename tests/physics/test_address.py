"""Set-up and motion as one intention: every control is read and set by its name, and nothing else moves."""

import pytest

from physics.address import CONTROLS, Intention, Motion, Setup
from physics.equipment import BAG


@pytest.mark.parametrize("name", sorted(CONTROLS))
@pytest.mark.parametrize("share", [0.1, 1.0])
def test_with_value_changes_one_control_alone(name: str, share: float) -> None:
    control, before = CONTROLS[name], Intention(Setup(BAG["LW"]), Motion(drop=0.5))
    value = control.low + share * (control.high - control.low)
    after = before.with_value(name, value)
    assert after.value(name) == pytest.approx(value)
    owner = after.setup if control.owner == "setup" else after.motion
    assert getattr(owner, name) == after.value(name)
    assert [n for n in CONTROLS if after.value(n) != before.value(n)] == [name]
    assert after.setup.club is BAG["LW"]


@pytest.mark.parametrize("name", sorted(CONTROLS))
def test_a_value_is_held_to_the_limits_of_its_control(name: str) -> None:
    control = CONTROLS[name]
    assert Intention().with_value(name, 1e3).value(name) == control.high
    assert Intention().with_value(name, -1e3).value(name) == control.low


def test_many_values_at_once_are_the_same_as_one_after_another() -> None:
    values = {name: control.high for name, control in CONTROLS.items()}
    one_by_one = Intention()
    for name, value in values.items():
        one_by_one = one_by_one.with_value(name, value)
    assert Intention().with_values(values) == one_by_one


def test_unknown_names_are_refused() -> None:
    with pytest.raises(KeyError, match="grip"):
        Intention().value("grip")
    with pytest.raises(KeyError, match="grip"):
        Intention().with_value("grip", 0.0)
    with pytest.raises(KeyError, match="no club 'spoon' in the bag; allowed: 7i"):
        Intention().with_club("spoon")

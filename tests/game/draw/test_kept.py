"""What is kept of an owner: made once for each, told apart by which one it is, and the oldest forgotten."""

from dataclasses import dataclass

from game.draw.kept import kept_of_last


@dataclass(frozen=True)
class Long:
    """Something that may not be hashed."""

    numbers: list[float]


def test_it_is_made_once_for_each_owner_and_the_oldest_goes():
    made = []

    @kept_of_last(2)
    def total(owner: Long) -> float:
        made.append(owner)
        return sum(owner.numbers)

    first, equal, third = Long([1.0, 2.0]), Long([1.0, 2.0]), Long([4.0])
    assert [total(o) for o in (first, first, equal, equal)] == [3.0] * 4
    assert [id(o) for o in made] == [id(first), id(equal)]
    assert total(third) == 4.0  # first is forgotten now
    assert total(equal) == 3.0
    assert len(made) == 3
    assert total(first) == 3.0
    assert len(made) == 4

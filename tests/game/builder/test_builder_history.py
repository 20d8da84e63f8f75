"""Steps: named, without limit, a drag as one, and none of them lost by going back and forth."""

from hypothesis import given
from hypothesis import strategies as st

from game.builder.model.history import History
from levels.draft import Draft


def draft(n: int) -> Draft:
    return Draft({"n": n})


def test_a_new_history_has_no_step() -> None:
    history = History(draft(0))
    assert not history.can_undo
    assert not history.can_redo
    assert not history.undo()
    assert not history.redo()
    assert (history.undo_name, history.redo_name, history.draft) == ("", "", draft(0))


def test_steps_have_names_both_ways() -> None:
    history = History(draft(0))
    assert history.do("one", draft(1))
    assert history.do("two", draft(2))
    assert (history.undo_name, history.redo_name) == ("two", "")
    assert history.undo()
    assert (history.undo_name, history.redo_name, history.draft) == ("one", "two", draft(1))


def test_what_changes_nothing_is_no_step() -> None:
    history = History(draft(0))
    history.do("one", draft(1))
    history.undo()
    assert not history.do("nothing", draft(0))
    assert history.can_redo


def test_a_step_after_an_undo_drops_what_was_undone() -> None:
    history = History(draft(0))
    history.do("one", draft(1))
    history.undo()
    history.do("other", draft(2))
    assert not history.can_redo
    history.undo()
    assert history.draft == draft(0)


def test_a_drag_is_one_step_until_settled() -> None:
    history = History(draft(0))
    for n in range(1, 5):
        history.do("drag", draft(n), "drag 1")
    history.settle()
    history.do("drag", draft(9), "drag 1")
    assert history.undo()
    assert history.draft == draft(4)
    assert history.undo()
    assert history.draft == draft(0)
    assert not history.can_undo


def test_a_drag_back_to_its_start_is_no_step() -> None:
    history = History(draft(0))
    history.do("one", draft(1))
    history.do("drag", draft(2), "d")
    history.do("drag", draft(1), "d")
    assert history.undo_name == "one"
    history.do("drag", draft(3), "d")
    history.undo()
    assert history.draft == draft(1)


def test_a_step_is_never_merged_with_one_gone_back_to() -> None:
    history = History(draft(0))
    history.do("drag", draft(1), "d")
    history.do("other", draft(2))
    history.undo()
    history.do("drag", draft(3), "d")
    history.undo()
    assert history.draft == draft(1)


@given(st.lists(st.sampled_from(["do", "undo", "redo"]), max_size=60))
def test_it_equals_a_plain_list_with_a_place_in_it(commands: list[str]) -> None:
    history, line, at = History(draft(0)), [draft(0)], 0
    for n, command in enumerate(commands, start=1):
        if command == "do":
            history.do("step", draft(n))
            line, at = [*line[: at + 1], draft(n)], at + 1
        elif command == "undo":
            assert history.undo() == (at > 0)
            at = max(at - 1, 0)
        else:
            assert history.redo() == (at < len(line) - 1)
            at = min(at + 1, len(line) - 1)
        assert history.draft == line[at]
        assert (history.can_undo, history.can_redo) == (at > 0, at < len(line) - 1)

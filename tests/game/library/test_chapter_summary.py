"""What a chapter's line counts, and which scenario it names next."""

from game.library.chapter_summary import CAME_TRUE, ChapterSummary, summary_of
from game.library.progress import Past, Progress
from game.text.chapter import chapter_line
from game.text.units import UNIT_SYSTEMS

METRIC = UNIT_SYSTEMS["m"]


def progress(**pasts: Past) -> Progress:
    return Progress(pasts)


def test_nothing_played_names_the_first() -> None:
    s = summary_of("abc", Progress())
    assert s == ChapterSummary(3, 0, 0, 0, 0, "a", "new")
    assert chapter_line(s, "The brush", METRIC) == "Next: The brush (new)."


def test_what_was_begun_comes_before_what_is_new() -> None:
    kept = progress(
        a=Past(4, True, (True,), (0.5, -3.0)), c=Past(2, False, (False,), (CAME_TRUE,), (True, False))
    )
    s = summary_of("abcd", kept)
    assert s == ChapterSummary(4, 1, 6, 5, 3, "c", "begun")  # two calls of landing or strike among them
    told = chapter_line(s, "Up the slope", METRIC)
    then = "Next: Up the slope (tried, not yet solved)."
    counted = "1 of 4 solved in 6 shots. 3 of 5 predictions came true (a place within 1.0 m)."
    assert told == f"{counted} {then}"
    assert chapter_line(s, "Up the slope", METRIC, numbers=False) == then


def test_all_solved_names_what_is_hardest_to_predict() -> None:
    kept = progress(a=Past(1, True, (True,), (0.2,)), b=Past(1, True, (True,), (-2.0,)))
    s = summary_of("ab", kept)
    assert (s.next_key, s.why) == ("b", "predict")
    assert "2 of 2 solved in 2 shots" in chapter_line(s, "B", METRIC)


def test_an_empty_chapter_says_nothing() -> None:
    assert chapter_line(summary_of((), Progress()), "", METRIC) == ""

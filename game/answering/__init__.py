"""The door of the answer: what a pupil hands on to the coach, on purpose."""

from game.answering.screen import answer_page

__all__ = ["answer_page"]

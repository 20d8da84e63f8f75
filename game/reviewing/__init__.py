"""The door of the review: a pupil's answer, read by the coach."""

from game.reviewing.screen import review_page

__all__ = ["review_page"]

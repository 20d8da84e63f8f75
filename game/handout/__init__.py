"""What is taken home from the bench: the recap page and the clip. Both are written whole or not at all."""

from game.handout.recap import check_letters, recap_of, write_page, write_recap
from game.handout.whole import HandoutError, LetterError, hold

__all__ = ["HandoutError", "LetterError", "check_letters", "hold", "recap_of", "write_page", "write_recap"]

"""What is taken home from the bench: the recap page and the clip. Both are written whole or not at all."""

from game.handout.clip import can_write_clip, clip_in_parts, write_clip
from game.handout.places import free_name, pictures_folder
from game.handout.recap import check_letters, recap_of, write_page, write_recap
from game.handout.season_files import season_pdf, write_season
from game.handout.whole import HandoutError, LetterError, hold

__all__ = [
    "HandoutError",
    "LetterError",
    "can_write_clip",
    "check_letters",
    "clip_in_parts",
    "free_name",
    "hold",
    "pictures_folder",
    "recap_of",
    "season_pdf",
    "write_clip",
    "write_page",
    "write_recap",
    "write_season",
]

"""The log: a text file in the data folder for what would help to mend a fault, tracebacks above all."""

import logging
from logging.handlers import RotatingFileHandler
from pathlib import Path

__all__ = ["LOG_FILE", "keep_log", "logger"]

LOG_FILE = "fringework.log"
LARGEST = 1_000_000  # bytes before it is begun anew; one older file is kept beside it
logger = logging.getLogger("fringework")
logger.addHandler(logging.NullHandler())  # until a file is named nothing is written, and nothing to stderr
logger.propagate = False


def keep_log(home: Path) -> None:
    """Write the log into that folder from now on. A disk that refuses costs the log, nothing else."""
    try:
        home.mkdir(parents=True, exist_ok=True)
        handler = RotatingFileHandler(
            home / LOG_FILE, maxBytes=LARGEST, backupCount=1, encoding="utf-8", delay=True
        )
    except OSError:
        return
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(message)s"))
    for old in [h for h in logger.handlers if isinstance(h, RotatingFileHandler)]:
        logger.removeHandler(old)
        old.close()
    logger.addHandler(handler)

"""No test needs a screen or a loudspeaker, and no test runs laws that were compiled from older sources."""

import os

from game.startup import prepare

os.environ.setdefault("SDL_VIDEODRIVER", "dummy")
os.environ.setdefault("SDL_AUDIODRIVER", "dummy")
prepare()  # before physics is imported

"""Sudden ends are tried where a process can be split in two; elsewhere all the rest is."""

import os

collect_ignore = [] if hasattr(os, "fork") else ["test_builder_sudden_end.py"]

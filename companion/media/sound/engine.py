"""Whether words can be spoken here: a speech engine is a program of its own, which may be installed or not."""

import shutil

PROGRAM = "espeak-ng"


def engine() -> str | None:
    """Where the program is, or None. Loads nothing, so the bot's own process may ask."""
    return shutil.which(PROGRAM)

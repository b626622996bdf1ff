"""The command that draws every picture there can be, to be looked at."""

import argparse
from pathlib import Path

from companion import app
from companion.cli.opening import Commands, settings_of
from companion.errors import UsedWrong


def offer(commands: Commands) -> None:
    """Offer it."""
    told = "draw every picture of every exercise, and pages of them side by side in three sizes and in grey"
    one = commands.add("pictures", _pictures, told, "content")
    one.add_argument("--out", required=True, type=Path, metavar="DIR", help="where the pictures (PNG) go")
    one.add_argument("--language", default="en", metavar="LANGUAGE", help="of the words in and with them, usually en")


def _pictures(arguments: argparse.Namespace) -> int:
    # only here: no other command of this process loads the drawing library
    from companion.media.pictures import gallery

    content = app.Content.read(settings_of(arguments).content)
    if arguments.language not in content.texts.languages:
        raise UsedWrong(f"There are no texts in {arguments.language!r}. There are: {', '.join(content.texts.languages)}.")
    try:
        count = gallery.write(arguments.out, arguments.language, content.library, content.texts)
    except OSError as error:
        raise UsedWrong(f"{arguments.out} can not be written: {error.strerror}. Name another folder with --out.") from None
    print(f"{count} pictures and the contact sheet are in {arguments.out}.")
    return 0

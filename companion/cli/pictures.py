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
    one.add_argument("exercises", nargs="*", metavar="EXERCISE", help="an exercise's id; without any, all there is")
    one.add_argument("--out", required=True, type=Path, metavar="DIR", help="where the pictures (PNG) go")
    one.add_argument("--language", default="en", metavar="LANGUAGE", help="of the words in and with them, usually en")


def _pictures(arguments: argparse.Namespace) -> int:
    # only here: no other command of this process loads the drawing library
    from companion.media.pictures import gallery

    content = app.Content.read(settings_of(arguments).content)
    out, language, library, texts = arguments.out, arguments.language, content.library, content.texts
    known = library.without_number.exercises
    if language not in texts.languages:
        raise UsedWrong(f"There are no texts in {language!r}. There are: {', '.join(texts.languages)}.")
    if unknown := sorted(set(arguments.exercises) - set(known)):
        raise UsedWrong(f"There is no exercise {', '.join(unknown)}. There are: {', '.join(known)}.")
    chosen = [known[one] for one in arguments.exercises]
    pictures = list(gallery.forms(chosen) if chosen else gallery.every(library))
    try:
        gallery.write(out, pictures, language, library, texts)
        if not chosen:
            gallery.write_contact_sheet(out, language, library, texts)
    except OSError as error:
        raise UsedWrong(f"{out} can not be written: {error.strerror}. Name another folder with --out.") from None
    print(
        f"{len(pictures)} pictures are in {out}." if chosen else f"{len(pictures)} pictures and the contact sheet are in {out}."
    )
    return 0

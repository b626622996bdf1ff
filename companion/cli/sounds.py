"""The command that makes voice notes, to be listened to."""

import argparse
from pathlib import Path

from companion import app
from companion.cli.opening import Commands, settings_of
from companion.errors import UsedWrong


def offer(commands: Commands) -> None:
    """Offer it."""
    told = "make voice notes as a session sends them: holds of 10, 30, 45 and 60 s, and sound checks"
    one = commands.add("sounds", _sounds, told, "content")
    one.add_argument("--out", required=True, type=Path, metavar="DIR", help="where the voice notes (Ogg Opus) go")
    one.add_argument("--language", default="en", metavar="LANGUAGE", help="of the words in them, usually en")


def _sounds(arguments: argparse.Namespace) -> int:
    # only here: no other command of this process loads the libraries for sound
    from companion.media.sound import engine, ogg, samples

    content = app.Content.read(settings_of(arguments).content)
    if arguments.language not in content.texts.languages:
        raise UsedWrong(f"There are no texts in {arguments.language!r}. There are: {', '.join(content.texts.languages)}.")
    try:
        for path in samples.write(arguments.out, arguments.language, content.texts):
            print(f"{path}\n    {ogg.comments(path.read_bytes())['DESCRIPTION']}")
    except OSError as error:
        raise UsedWrong(f"{arguments.out} can not be written: {error.strerror}. Name another folder with --out.") from None
    if engine.engine() is None:
        print(f"Tones only: there is no {engine.PROGRAM} here to speak with.")
    return 0

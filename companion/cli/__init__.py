"""The command line. Exit codes: 0 fine, 1 something was found wrong, 2 it was used wrong.

What a person can mend is told as plain sentences on stderr, without a traceback. Each module offers its own commands.
"""

import argparse
import sys
from collections.abc import Sequence

from companion import __version__
from companion.cli import bot, care, content, export, pictures, sounds
from companion.cli.opening import Command, Commands
from companion.errors import CompanionError


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; its exit code."""
    try:
        arguments = _parser().parse_args(argv)
    except SystemExit as end:  # argparse has said why
        return int(end.code or 0)
    try:
        command: Command = arguments.command
        return command(arguments)
    except CompanionError as wrong:
        print(wrong, file=sys.stderr)
        return wrong.exit_code
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        return 1


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="companion", description="A home-practice companion in a chat.")
    parser.add_argument("--version", action="version", version=f"companion {__version__}")
    commands = Commands(parser.add_subparsers(title="commands", required=True, metavar="COMMAND"))
    for module in (bot, care, content, export, pictures, sounds):
        module.offer(commands)
    return parser

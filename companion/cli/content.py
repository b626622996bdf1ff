"""The commands for who writes content: check it all, and print the hazards with their controls."""

import argparse
from pathlib import Path

from companion import app
from companion.cli.opening import Commands, settings_of
from companion.content import checking, hazard_file, library, text_list
from companion.content.folders import content_dir, folder_of_tests, scenarios_dir
from companion.content.texts import Texts
from companion.errors import Fault, FoundWrong


def offer(commands: Commands) -> None:
    """Offer them."""
    told = "check content and scenarios: every fault with file, line and what to do"
    one = commands.add("check", _check, told, "content")
    one.add_argument("folder", nargs="?", type=Path, metavar="DIR", help="a folder of content to check instead")
    one.add_argument("--texts", action="store_true", help="list every text for client and carer, the hardest to read first")
    told = "check an exercise of your own, draw, speak and rehearse it, and show it on one page"
    one = commands.add("exercise", _exercise, told, "content")
    one.add_argument("file", type=Path, metavar="FILE", help="the exercise, in YAML")
    one.add_argument("--out", type=Path, default=Path("exercise-out"), metavar="DIR", help="where the page goes")
    one.add_argument("--install", action="store_true", help="when all is well, put it into the folder named by --content")
    told = "print the hazards and controls; each must name a test that is there"
    one = commands.add("hazards", _hazards, told, "content")
    one.add_argument("folder", nargs="?", type=Path, metavar="DIR", help="a folder of content to read instead")


def _check(arguments: argparse.Namespace) -> int:
    chosen = arguments.folder or settings_of(arguments).content
    content = content_dir(chosen)
    if arguments.texts:
        return _texts(content)
    # The scenarios that came with the program are for the content that came with it.
    faults = checking.check(content, None if chosen else scenarios_dir())
    if not faults and not chosen:
        faults = _scenario_faults(content)
    if faults:
        raise FoundWrong(faults)
    print("Nothing wrong was found.")
    return 0


def _texts(content: Path) -> int:
    """Print every text for client and carer with how hard it reads; 1 if any is over a limit."""
    rows = text_list.rows(Texts(content / "texts"), library.load(content))
    lines = [text_list.HEADING, *(row.cells() for row in rows)]
    widths = [max(len(line[at]) for line in lines) for at in range(len(text_list.HEADING))]
    for line in lines:
        print("  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip())
    over = [row for row in rows if row.over]
    for row in over:
        print(f'{row.where}: "{row.key}": {"; ".join(row.over)}')
    print(f"{len(rows)} texts, {len(over)} over a limit.")
    return 1 if over else 0


def _scenario_faults(content: Path) -> list[Fault]:
    from companion.rehearsal import scenario_file

    folder = scenarios_dir()
    faults: list[Fault] = []
    read = app.Content.read(content)
    readers = scenario_file.Readers(folder, read.library, read.texts)
    for name in scenario_file.names(folder):
        try:
            scenario_file.load(scenario_file.path_of(name, folder), readers)
        except FoundWrong as wrong:
            faults += wrong.faults
    return faults


def _exercise(arguments: argparse.Namespace) -> int:
    # Only here: nothing else of the command line draws.
    from companion.cli.exercise import try_exercise

    return try_exercise(arguments.file, arguments.out, settings_of(arguments).content, arguments.install)


def _hazards(arguments: argparse.Namespace) -> int:
    """Print the hazards; faults where a control names a test that does not exist."""
    folder = content_dir(arguments.folder or settings_of(arguments).content)
    file = hazard_file.load(folder)
    for hazard in file.hazards:
        print(f"{hazard.id}: {hazard.hazard}\n  cause   {hazard.cause}\n  harm    {hazard.harm}")
        print(f"  before  {_risk(file, hazard.before)}\n  after   {_risk(file, hazard.after)}")
        for control in hazard.controls:
            print(f"  {control.kind:<10}{control.what} ({control.owner})\n            {control.proof}")
    print(f"{len(file.hazards)} hazards, {sum(len(hazard.controls) for hazard in file.hazards)} controls.")
    tests = folder_of_tests()
    if tests is None:
        print("The tests are not part of this installation, so it was not looked whether each is there.")
        return 0
    faults = hazard_file.unproved(folder, tests.parent)
    if faults:
        raise FoundWrong(faults)
    print("Each control names a test that is there.")
    return 0


def _risk(file: hazard_file.HazardsShape, risk: hazard_file.RiskShape) -> str:
    severity, likelihood = file.severity[str(risk.severity)], file.likelihood[str(risk.likelihood)]
    return f"severity {risk.severity} ({severity}), likelihood {risk.likelihood} ({likelihood})"

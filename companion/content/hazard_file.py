"""hazards.yaml: the hazards of this job and their controls, each control with the test that proves it. Parsed and checked here.

Nothing of it steers the companion: it is for the people who answer for its use.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from companion.content.yaml_lines import Id, Line, Page, Shape, Whole, parse, read, wrong
from companion.errors import Fault, FoundWrong

FILE = "hazards.yaml"
LEAST = 35
"""Fewer hazards than this would not cover the job."""

Kind = Literal["design", "warning", "procedure"]
Level = Annotated[Whole, Field(ge=1, le=5)]


def _test_name(given: str) -> str:
    path, _, name = given.partition("::")
    if not path.startswith("tests/") or not path.endswith(".py") or not name.startswith("test_"):
        raise wrong(f"{given!r} names no test", "Write it like tests/core/test_alerts.py::test_only_the_therapist_lifts")
    return given


class RiskShape(Shape):
    """How grave and how likely, each from 1 to 5 in the words of the file."""

    severity: Level
    likelihood: Level


class ControlShape(Shape):
    """What is done about a hazard: its kind, who answers for it, and the test that proves it."""

    id: Id
    kind: Kind
    what: Line
    owner: Literal["developer", "clinician", "therapist", "operator", "carer"]
    proof: Annotated[Line, AfterValidator(_test_name)]


class HazardShape(Shape):
    """One hazard."""

    id: Id
    hazard: Line
    cause: Line
    harm: Line
    before: RiskShape
    after: RiskShape
    controls: tuple[ControlShape, ...] = Field(min_length=1)


class HazardsShape(Shape):
    """The whole file. The scales say in a word what the numbers 1 to 5 mean."""

    severity: dict[str, Line]
    likelihood: dict[str, Line]
    kinds: dict[Kind, Line]
    hazards: tuple[HazardShape, ...] = Field(min_length=LEAST)


def load(folder: Path) -> HazardsShape:
    """The hazards in that folder of content. Raises FoundWrong with file and line."""
    page = read(folder / FILE)
    file = parse(page, HazardsShape)
    faults = list(_faults(page, file))
    if faults:
        raise FoundWrong(faults)
    return file


def unproved(folder: Path, root: Path) -> list[Fault]:
    """The controls that name a test which is not among the tests in `root`, each with its line."""
    page = read(folder / FILE)
    file = parse(page, HazardsShape)
    known = {path: _tests_in(root / path) for path in {c.proof.partition("::")[0] for h in file.hazards for c in h.controls}}
    faults = []
    for place, hazard in enumerate(file.hazards):
        for at, control in enumerate(hazard.controls):
            path, _, name = control.proof.partition("::")
            if name not in known[path]:
                loc = ("hazards", place, "controls", at, "proof")
                faults.append(page.fault(loc, f'there is no test "{control.proof}"', "Write the test, or name another"))
    return faults


def _faults(page: Page, file: HazardsShape) -> Iterator[Fault]:
    for name in ("severity", "likelihood"):
        if set(getattr(file, name)) != set("12345"):
            yield page.fault((name,), "each number from 1 to 5 needs a word", "Write 1, 2, 3, 4 and 5, each with a word")
    seen: set[str] = set()
    for place, hazard in enumerate(file.hazards):
        loc = ("hazards", place)
        ids = (hazard.id, *(control.id for control in hazard.controls))
        for id in ids:
            if id in seen:
                yield page.fault(loc, f'the id "{id}" is there twice', "Give each hazard and each control an id of its own")
            seen.add(id)
        if hazard.after.likelihood > hazard.before.likelihood or hazard.after.severity > hazard.before.severity:
            yield page.fault((*loc, "after"), "the risk is higher after the controls than before", "Mend one of the two")


def _tests_in(path: Path) -> frozenset[str]:
    """The names of the tests in that file; none if there is no such file."""
    if not path.is_file():
        return frozenset()
    heads = (line.strip().removeprefix("async ") for line in path.read_text(encoding="utf-8").splitlines())
    return frozenset(head[4:].partition("(")[0] for head in heads if head.startswith("def test_"))

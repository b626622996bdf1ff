"""`content/` as one value: the exercises, the signs and red flags, the rhythms, the order of progress, the briefing.

Reading tells every fault of every file at once. What is returned has passed all of them, the cases of each rule
included, so the core never meets a half-checked value.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from companion.content import briefing_file, exercise_files, progression_file, red_flag_file, spread_file, template_files
from companion.content.briefing_file import BriefingShape
from companion.content.caseload_file import CaseloadShape
from companion.content.consent_file import ConsentShape
from companion.content.exercise_files import ExerciseShape
from companion.content.picture_shape import PictureDetails
from companion.content.progression_file import ProgressionShape
from companion.content.red_flag_file import FlagCase, RedFlagsShape
from companion.content.safety_file import SafetyShape
from companion.content.spread_file import SpreadShape
from companion.content.template_files import DoseShape, TemplateShape
from companion.content.yaml_lines import Page, Shape, parse, read
from companion.core.programme import Exercise, Rules, Template
from companion.errors import Fault, FoundWrong

S = TypeVar("S", bound=Shape)


@dataclass(frozen=True, slots=True)
class Library:
    """All of content/ but the words. `pictures`: what is drawn of a form, by the ids of exercise and form."""

    without_number: Rules
    flag_cases: tuple[FlagCase, ...]
    folder: Path
    pictures: Mapping[tuple[str, str], PictureDetails]

    def rules(self, emergency_number: str) -> Rules:
        """What the core is given; the number to call comes from the settings of this service."""
        return replace(self.without_number, emergency_number=emergency_number)


def load(folder: Path) -> Library:
    """The library in that folder. Raises FoundWrong with every fault of every file."""
    faults: list[Fault] = []
    exercises = dict(_exercises(folder / "exercises", faults))
    safety = _one(folder / "safety.yaml", SafetyShape, faults)
    flags = _one(folder / "red_flags.yaml", RedFlagsShape, faults)
    progression = _one(folder / "progression.yaml", ProgressionShape, faults)
    briefing = _one(folder / "carer_briefing.yaml", BriefingShape, faults)
    consent = _one(folder / "consent.yaml", ConsentShape, faults)
    if safety is not None and flags is not None:
        faults += red_flag_file.faults(flags[0], flags[1], safety[1].signs)
    caseload = _one(folder / "caseload.yaml", CaseloadShape, faults)
    if progression is not None:
        faults += progression_file.faults(*progression, None if faults else _core(exercises.values()))
    spread = _one(folder / "spread.yaml", SpreadShape, faults)
    if spread is not None:
        faults += spread_file.faults(*spread)
    dose = _one(folder / "dose.yaml", DoseShape, faults)
    if dose is not None:
        faults += template_files.dose_faults(*dose)
    if briefing is not None:
        faults += briefing_file.faults(briefing[0], briefing[1])
    if (
        faults
        or safety is None
        or flags is None
        or progression is None
        or briefing is None
        or consent is None
        or caseload is None
        or dose is None
        or spread is None
    ):
        raise FoundWrong(faults)
    rules = safety[1].rules(_core(exercises.values()), flags[1].core())
    rules = replace(rules, briefing=briefing[1].core(), consent=consent[1].core())
    rules = replace(rules, usual_dose=dose[1].core(), templates=tuple(_templates(folder / "templates", rules, faults)))
    if faults:
        raise FoundWrong(faults)
    rules = replace(rules, progression=progression[1].core(), listing=caseload[1].core(), noticeable=spread[1].core())
    pictures = {(one.id, form): details for one in exercises.values() for form, details in one.pictures().items()}
    return Library(rules, flags[1].cases(), folder, pictures)


def _core(exercises: Iterable[ExerciseShape]) -> Mapping[str, Exercise]:
    return {exercise.id: exercise.core() for exercise in exercises}


def _exercises(folder: Path, faults: list[Fault]) -> Iterator[tuple[str, ExerciseShape]]:
    paths = sorted(folder.glob("*.yaml"))
    if not paths:
        faults.append(Fault(str(folder), None, "there is no exercise here", "Name a folder with exercises/*.yaml"))
    for path in paths:
        found = _one(path, ExerciseShape, faults)
        if found is None:
            continue
        page, exercise = found
        faults += exercise_files.faults(page, exercise, path.stem)
        yield exercise.id, exercise


def _templates(folder: Path, rules: Rules, faults: list[Fault]) -> Iterator[Template]:
    """In their rank. A template is judged by the exercises, so these are read before."""
    ranked: list[tuple[int, Template]] = []
    for path in sorted(folder.glob("*.yaml")):
        found = _one(path, TemplateShape, faults)
        wrong = list(template_files.faults(*found, path.stem, rules)) if found is not None else []
        faults += wrong
        if found is not None and not wrong:
            ranked.append((found[1].rank, found[1].core(found[0], rules)))
    yield from (template for _, template in sorted(ranked, key=lambda one: one[0]))


def _one(path: Path, shape: type[S], faults: list[Fault]) -> tuple[Page, S] | None:
    try:
        page = read(path)
        return page, parse(page, shape)
    except FoundWrong as found:
        faults += found.faults
        return None

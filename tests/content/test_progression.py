"""progression.yaml: every case of the file holds, and a rule that is changed is noticed by a case."""

from pathlib import Path

import pytest

from companion.content import library, progression_file
from companion.content.folders import content_dir
from companion.content.progression_file import CaseShape, ProgressionShape, StepShape
from companion.content.yaml_lines import parse, read
from companion.errors import FoundWrong

PAGE = read(content_dir() / "progression.yaml")
FILE = parse(PAGE, ProgressionShape)
EXERCISES = library.load(content_dir()).without_number.exercises


@pytest.mark.parametrize("case", FILE.cases, ids=lambda case: case.name)
def test_a_case_proposes_what_it_must_and_nothing_else(case: CaseShape) -> None:
    assert case.found(FILE.core()) == case.proposes


@pytest.mark.parametrize("step", FILE.steps, ids=lambda step: f"{step.exercise} {step.form} {step.step}")
def test_the_next_step_of_an_exercise_is_the_one_written(step: StepShape) -> None:
    assert step.found(EXERCISES[step.exercise], FILE.core()) == (step.step, None if step.to is None else str(step.to))


def test_the_file_has_cases_that_must_and_that_must_not_propose() -> None:
    proposed = [case.proposes for case in FILE.cases]
    assert proposed.count("up") >= 3 and proposed.count("nothing") >= 8 and proposed.count("back") >= 2


@pytest.mark.parametrize(
    ("old", "new", "case"),
    [
        ("  sessions_running: 3 # clean", "  sessions_running: 2 # clean", "two clean sessions are too few"),
        ("  sessions_running: 3 # clean", "  sessions_running: 4 # clean", "three clean sessions running, both sides"),
        ("efforts: [easy, medium]", "efforts: [easy]", "three clean sessions running, both sides"),
        ("above_percent: 70", "above_percent: 60", "not adherent"),
        ("  sessions_running: 3\n", "  sessions_running: 4\n", "more bouts break than before"),
    ],
)
def test_a_rule_that_is_changed_is_noticed_by_a_case(tmp_path: Path, old: str, new: str, case: str) -> None:
    text = (content_dir() / "progression.yaml").read_text(encoding="utf-8")
    assert text.count(old) == 1
    path = tmp_path / "progression.yaml"
    path.write_text(text.replace(old, new), encoding="utf-8")
    page = read(path)
    faults = list(progression_file.faults(page, parse(page, ProgressionShape), EXERCISES))
    assert any(f'the case "{case}"' in fault.what for fault in faults), [fault.what for fault in faults]


@pytest.mark.parametrize("order", ["[less_hand, longer_hold, narrower_base, eyes_closed]"])
def test_another_order_is_noticed_by_a_step(tmp_path: Path, order: str) -> None:
    text = (content_dir() / "progression.yaml").read_text(encoding="utf-8")
    path = tmp_path / "progression.yaml"
    path.write_text(text.replace("[longer_hold, less_hand, narrower_base, eyes_closed]", order), encoding="utf-8")
    page = read(path)
    faults = list(progression_file.faults(page, parse(page, ProgressionShape), EXERCISES))
    assert [fault.what for fault in faults if "the step is less_hand to hovering" in fault.what]


def test_a_word_that_is_no_proposal_is_refused(tmp_path: Path) -> None:
    text = (content_dir() / "progression.yaml").read_text(encoding="utf-8")
    path = tmp_path / "progression.yaml"
    path.write_text(text.replace("proposes: up", "proposes: sideways", 1), encoding="utf-8")
    with pytest.raises(FoundWrong):
        parse(read(path), ProgressionShape)

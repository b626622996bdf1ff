"""What the two guides tell is what there is: modules of the core, scenarios, settings, and a file to enrol therapists with."""

import re
from pathlib import Path
from textwrap import dedent

import pytest

from companion.content import enrolment
from companion.settings import Settings, variable
from tests.architecture.sources import ROOT
from tests.playing import CONTENT

README = (ROOT / "README.md").read_text(encoding="utf-8")


def between(page: str, mark: str) -> str:
    """What stands between two marks of a guide."""
    return page.split(f"<!-- {mark} -->")[1].split(f"<!-- /{mark} -->")[0]


def test_the_map_of_the_core_lists_each_of_its_modules_once() -> None:
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    listed = re.findall(r"^  (\w+) +\S", between(page, "core"), re.MULTILINE)
    there = [path.stem for path in (ROOT / "companion" / "core").glob("*.py") if path.stem != "__init__"]
    assert sorted(listed) == sorted(there)


def test_the_readme_lists_each_scenario_once_with_its_title() -> None:
    told = " ".join(between(README, "scenarios").split())
    files = list((ROOT / "demo_scenarios").glob("*.yaml"))
    for path in files:
        title = path.read_text(encoding="utf-8").splitlines()[0].removeprefix("title: ")
        assert f"`{path.stem}` {title}" in told, f"put `{path.stem}` {title} into the list in README.md"
    assert len(re.findall(r"`\w+`", told)) == len(files)


@pytest.mark.parametrize("field", Settings.model_fields)
def test_the_readme_names_each_setting(field: str) -> None:
    assert re.search(rf"{variable(field)}\b", README)


def test_the_readmes_file_enrols_therapists_and_nobody_else(tmp_path: Path) -> None:
    blocks = re.findall(
        r"^ *```yaml\n(.*?)^ *```$", README.partition("## Run it for real")[2].partition("\n## ")[0], re.MULTILINE | re.DOTALL
    )
    assert len(blocks) == 1
    file = tmp_path / "people.yaml"
    file.write_text(dedent(blocks[0]), encoding="utf-8")
    enrolled = enrolment.load(file, CONTENT.library, CONTENT.texts)
    assert {person.role for person in enrolled.people} == {"therapist"} and not enrolled.clients

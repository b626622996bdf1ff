"""What the two guides list is what there is: no module of the core and no scenario is missing, and none is made up."""

import re

from tests.architecture.sources import ROOT


def between(page: str, mark: str) -> str:
    """What stands between two marks of a guide."""
    text = (ROOT / page).read_text(encoding="utf-8")
    return text.split(f"<!-- {mark} -->")[1].split(f"<!-- /{mark} -->")[0]


def test_the_map_of_the_core_lists_each_of_its_modules_once() -> None:
    listed = re.findall(r"^  (\w+) +\S", between("DEVELOPERS.md", "core"), re.MULTILINE)
    there = [path.stem for path in (ROOT / "companion" / "core").glob("*.py") if path.stem != "__init__"]
    assert sorted(listed) == sorted(there)


def test_the_readme_lists_each_scenario_once_with_its_title() -> None:
    told = " ".join(between("README.md", "scenarios").split())
    for path in (ROOT / "demo_scenarios").glob("*.yaml"):
        title = path.read_text(encoding="utf-8").splitlines()[0].removeprefix("title: ")
        assert f"`{path.stem}` {title}" in told, f"put `{path.stem}` {title} into the list in README.md"
    assert len(re.findall(r"`\w+`", told)) == len(list((ROOT / "demo_scenarios").glob("*.yaml")))

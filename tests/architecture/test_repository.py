"""The repository stands alone: nothing in it points outside, and the README's two lines are what is run."""

import re
import tomllib

import pytest

from tests.architecture.sources import ROOT, files_kept, name_of

# Folders of one machine, and papers that do not travel with the repository. Each pattern has a class of one
# letter, so that this file does not match itself.
OUTSIDE = re.compile(
    r"/(?:wor[k]|roo[t]|hom[e]/\w+|User[s]/\w+)/|/tm[p]/brief|\.\./share[d]|\bshare[d]/\w+\.md|(?<![\w)\]}])\.librar[y]\b"
    r"|storyboar[d]|\bdesign\.m[d]|\bissue [#]?\d",
    re.IGNORECASE,
)
PUBLIC_INDEX = ("https://pypi.org/", "https://files.pythonhosted.org/")


def lines_under(heading: str) -> list[str]:
    """What the fenced sh blocks under a heading of the README hold."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    section = re.search(rf"^## {heading}$(.*?)(?=^## |\Z)", readme, re.MULTILINE | re.DOTALL)
    assert section, f"README.md has no section '## {heading}'"
    blocks = re.findall(r"^```sh$\n(.*?)^```$", section[1], re.MULTILINE | re.DOTALL)
    return [line for block in blocks for line in block.splitlines()]


@pytest.mark.skipif(not (ROOT / ".git").exists(), reason="only a checkout knows which files are kept")
def test_no_file_points_outside_the_repository() -> None:
    told = []
    for path in files_kept():
        text = path.read_bytes().decode("utf-8", errors="ignore")
        told += [
            f"{name_of(path)}:{number}: {found[0]}"
            for number, line in enumerate(text.splitlines(), start=1)
            if (found := OUTSIDE.search(line))
        ]
    assert told == []


@pytest.mark.parametrize(("heading", "last"), [("Try it", "companion rehearse"), ("Test it", "pytest -q -n 2")])
def test_the_readme_tells_each_of_its_two_ways_in_one_line(heading: str, last: str) -> None:
    lines = lines_under(heading)
    assert len(lines) == 1
    assert lines[0].split(" && ")[-1] == f".venv/bin/{last}"


def test_the_lock_file_names_only_the_public_index() -> None:
    locked = tomllib.loads((ROOT / "uv.lock").read_text(encoding="utf-8"))["package"]
    sources = {source for package in locked for source in package["source"].values()}
    files = {file["url"] for package in locked for file in [*package.get("wheels", []), package.get("sdist", {"url": ""})]}
    addresses = (sources | files) - {".", ""}
    assert addresses
    assert [address for address in sorted(addresses) if not address.startswith(PUBLIC_INDEX)] == []

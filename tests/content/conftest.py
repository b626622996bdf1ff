"""The content that is shipped, read once, and a copy of it that a test may break."""

import shutil
from pathlib import Path

import pytest

from companion.content import library
from companion.content.folders import content_dir, scenarios_dir
from companion.content.library import Library
from companion.content.texts import Texts

CONTENT = content_dir()
EXAMPLE = scenarios_dir() / "people" / "fortnight.yaml"


@pytest.fixture(scope="session")
def shipped() -> Library:
    """The library that is shipped."""
    return library.load(CONTENT)


@pytest.fixture(scope="session")
def texts() -> Texts:
    """The texts that are shipped."""
    return Texts(CONTENT / "texts")


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of the shipped content, to be broken."""
    return Path(shutil.copytree(CONTENT, tmp_path / "content"))


@pytest.fixture
def example() -> str:
    """The enrolment file of the fortnight, as text."""
    return EXAMPLE.read_text(encoding="utf-8")

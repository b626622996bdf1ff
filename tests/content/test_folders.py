"""Where content is found: in a checkout, in a wheel, or where the user says."""

from pathlib import Path

import pytest

from companion.content import folders
from companion.content.folders import content_dir, scenarios_dir, shown

ROOT = Path(__file__).parents[2]


def test_a_checkout_uses_its_own_folders() -> None:
    assert content_dir() == ROOT / "content"
    assert scenarios_dir() == ROOT / "demo_scenarios"


def test_a_wheel_uses_what_it_carries(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "_data" / "content").mkdir(parents=True)
    monkeypatch.setattr(folders, "_PACKAGE", tmp_path)
    assert content_dir() == tmp_path / "_data" / "content"
    assert scenarios_dir() == tmp_path / "_data" / "demo_scenarios"


def test_a_chosen_folder_is_taken_as_it_is(tmp_path: Path) -> None:
    assert content_dir(tmp_path) == tmp_path
    assert scenarios_dir(tmp_path) == tmp_path


def test_a_path_is_shown_from_where_the_user_stands(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert shown(tmp_path / "a" / "b.yaml") == "a/b.yaml"
    assert shown(Path("/elsewhere/b.yaml")) == "/elsewhere/b.yaml"

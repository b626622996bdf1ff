"""Settings come from the environment, a file or an option; a wrong one is told with what to do."""

import pickle
from pathlib import Path

import pytest

from companion.errors import UsedWrong
from companion.settings import Settings, described, load, variable

TOKEN = "123456:" + "A" * 35


@pytest.fixture(autouse=True)
def _nothing_set(monkeypatch: pytest.MonkeyPatch) -> None:
    for field in Settings.model_fields:
        monkeypatch.delenv(variable(field), raising=False)


def test_every_setting_has_a_name_and_says_what_it_is() -> None:
    names = [variable(field) for field in Settings.model_fields]
    assert {"COMPANION_TELEGRAM_TOKEN", "COMPANION_TELEGRAM_API", "COMPANION_DATABASE"} <= set(names)
    assert {"COMPANION_EMERGENCY_NUMBER", "COMPANION_CONTENT", "COMPANION_RATE"} <= set(names)
    assert all(len(described(field)) > 20 for field in Settings.model_fields)


def test_settings_come_from_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COMPANION_EMERGENCY_NUMBER", "112")
    monkeypatch.setenv("COMPANION_DATABASE", "/srv/practice.sqlite3")
    settings = load()
    assert settings.emergency_number == "112"
    assert settings.database == Path("/srv/practice.sqlite3")


def test_an_option_wins_over_the_environment_and_that_over_the_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "settings"
    file.write_text("COMPANION_RATE=10\nCOMPANION_EMERGENCY_NUMBER=112\nCOMPANION_DATABASE=of-file\n")
    monkeypatch.setenv("COMPANION_RATE", "11")
    monkeypatch.setenv("COMPANION_DATABASE", "of-environment")
    settings = load(file, {"rate": "12", "database": None})
    assert (settings.rate, settings.database) == (12, Path("of-environment"))
    assert settings.emergency_number == "112"


def test_there_is_no_emergency_number_until_one_is_set() -> None:
    assert load().emergency_number is None


def test_what_is_needed_and_missing_is_named_all_at_once() -> None:
    with pytest.raises(UsedWrong) as told:
        load().needed("telegram_token", "emergency_number")
    assert "COMPANION_TELEGRAM_TOKEN is not set" in str(told.value)
    assert "COMPANION_EMERGENCY_NUMBER is not set" in str(told.value)
    assert "--settings" in str(told.value)


@pytest.mark.parametrize(
    ("name", "value", "to_do"),
    [
        ("COMPANION_RATE", "fast", "valid number"),
        ("COMPANION_ALERT_COMMAND", "tell 'the ward", "no command"),
        ("COMPANION_ALERT_COMMAND", "  ", "no command"),
        ("COMPANION_RATE", "31", "at most 30"),
        ("COMPANION_RATE", "0", "greater than 0"),
        ("COMPANION_EMERGENCY_NUMBER", "ask the ward", "Give digits only"),
        ("COMPANION_TELEGRAM_API", "api.example", "Give one that begins with https://"),
        ("COMPANION_TELEGRAM_API", "https://api.example:port", "Give one that begins with https://"),
        ("COMPANION_TELEGRAM_API", "https://[api.example", "Give one that begins with https://"),
        ("COMPANION_DATABASE", "postgresql://host/db", "Give the path of a file"),
    ],
)
def test_a_wrong_setting_is_told_with_its_value_and_what_to_do(
    monkeypatch: pytest.MonkeyPatch, name: str, value: str, to_do: str
) -> None:
    monkeypatch.setenv(name, value)
    with pytest.raises(UsedWrong) as told:
        load()
    assert name in str(told.value)
    assert value in str(told.value)
    assert to_do in str(told.value)


def test_a_misspelt_name_in_the_file_is_told(tmp_path: Path) -> None:
    file = tmp_path / "settings"
    file.write_text("COMPANION_EMERGENCY_NUMER=112\n")
    with pytest.raises(UsedWrong, match="no setting COMPANION_EMERGENCY_NUMER") as told:
        load(file)
    assert "COMPANION_EMERGENCY_NUMBER" in str(told.value)


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(UsedWrong, match="There is no file"):
        load(tmp_path / "none")


def test_a_file_that_is_no_text_is_told(tmp_path: Path) -> None:
    file = tmp_path / "settings"
    file.write_bytes(b"\xff\xfe\x00C")
    with pytest.raises(UsedWrong, match="not a text file"):
        load(file)


def test_the_token_is_in_no_text_of_the_settings(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", TOKEN)
    settings = load()
    assert settings.token == TOKEN
    assert TOKEN not in f"{settings!r} {settings} {settings.model_dump()} {settings.model_dump_json()}"
    assert pickle.loads(pickle.dumps(settings)) == settings


def test_a_wrong_token_is_told_without_showing_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", "secret-part")
    with pytest.raises(UsedWrong) as told:
        load()
    assert "COMPANION_TELEGRAM_TOKEN has not the form of a token" in str(told.value)
    assert "secret-part" not in repr(told.value)
    assert told.value.__context__ is None


def test_the_alert_command_is_taken_apart_as_a_shell_would_without_one() -> None:
    assert load(options={"alert_command": "/opt/tell --to 'the ward' $HOME"}).alert_words == (
        "/opt/tell",
        "--to",
        "the ward",
        "$HOME",
    )
    assert load().alert_words == ()

"""The command line: what works is listed, what is wrong is told in plain sentences, and the exit code says which."""

import asyncio
import os
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from companion.cli import main
from companion.content.folders import content_dir
from companion.settings import Settings, described, variable
from companion.store import Store
from tests.playing import FILE, Play, playing

TOKEN = "1000001:rehearsal-token"


@pytest.fixture(autouse=True)
def _elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """In an empty folder, with nothing set."""
    monkeypatch.chdir(tmp_path)
    for field in Settings.model_fields:
        monkeypatch.delenv(variable(field), raising=False)


@pytest.fixture
def told(capsys: pytest.CaptureFixture[str]) -> "Told":
    return Told(capsys)


class Told:
    """Runs a command and keeps what it said: `out` and `err`."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self._capsys = capsys
        self.out = self.err = ""

    def by(self, *argv: str | Path) -> int:
        code = main([str(word) for word in argv])
        self.out, self.err = self._capsys.readouterr()
        assert "Traceback" not in self.out + self.err
        return code


def enrol_file(old: str = "", new: str = "") -> Path:
    """The demo's people, with one thing changed, in the working folder."""
    text = FILE.read_text(encoding="utf-8")
    assert old in text
    file = Path("people.yaml")
    file.write_text(text.replace(old, new, 1) if old else text, encoding="utf-8")
    return file


def copy_of_content(folder: Path) -> Path:
    """All of content, to be broken."""
    for path in content_dir().rglob("*"):
        if path.is_file():
            copy = folder / path.relative_to(content_dir())
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.write_bytes(path.read_bytes())
    return folder


# --- what is listed -------------------------------------------------------------------------------------------


def test_help_lists_every_command(told: Told) -> None:
    assert told.by("--help") == 0
    commands = "run rehearse enrol check exercise export hazards pictures sounds report migrate doctor backup"
    for command in commands.split():
        assert f"    {command} " in told.out


def test_every_setting_is_shown_beside_its_option(told: Told) -> None:
    assert told.by("run", "--help") == 0
    shown = " ".join(told.out.split())
    for field in Settings.model_fields:
        assert variable(field) in shown
        assert described(field) in shown
        assert (f"--{field.replace('_', '-')} " in shown) == (field != "telegram_token")


def test_a_rehearsal_takes_no_settings_that_it_would_not_use(told: Told) -> None:
    assert told.by("rehearse", "--settings", "settings") == 2
    assert "--settings" in told.err
    assert told.by("rehearse", "--help") == 0
    assert "--settings" not in told.out and "--out" in told.out


@pytest.mark.parametrize("argv", [[], ["dance"], ["enrol"], ["report", "mara"], ["run", "--telegram-token", TOKEN]])
def test_a_wrong_call_is_told_with_code_2(told: Told, argv: list[str]) -> None:
    assert told.by(*argv) == 2
    assert "usage: companion" in told.err


# --- bad input ------------------------------------------------------------------------------------------------


def test_a_missing_token_is_told(told: Told) -> None:
    assert told.by("run", "--emergency-number", "112") == 2
    assert "COMPANION_TELEGRAM_TOKEN is not set" in told.err


def test_a_missing_emergency_number_is_told(told: Told, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", TOKEN)
    assert told.by("run") == 2
    assert "COMPANION_EMERGENCY_NUMBER is not set" in told.err
    assert TOKEN not in told.err


@pytest.mark.parametrize(("name", "value"), [("emergency_number", "the ward"), ("rate", "99"), ("telegram_api", "somewhere")])
def test_a_wrong_setting_is_told_with_its_value(told: Told, name: str, value: str) -> None:
    assert told.by("run", f"--{name.replace('_', '-')}", value) == 2
    assert variable(name) in told.err
    assert value in told.err


def test_a_settings_file_is_read_and_its_faults_told(told: Told) -> None:
    Path("settings").write_text("COMPANION_DATABASE=kept/here.sqlite3\nCOMPANION_COLOUR=red\n")
    assert told.by("migrate", "--settings", "settings") == 2
    assert "There is no setting COMPANION_COLOUR" in told.err
    assert told.by("migrate", "--settings", "nowhere") == 2
    assert "There is no file nowhere" in told.err


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("exercise: heel_to_toe", "exercise: heel_to_hoe", "        - exercise: heel_to_toe", "heel_to_hoe"),
        ("rest_s: 60", "rest_s: 6000000", "      rest_s: 60", "rest_s"),
        ("form: toes_pat", "form: toes_pat\n          target: 99", "          form: toes_pat", "99 times is no possible dose"),
        ("zone: Europe/London", "zone: Europe/Atlantis", "    zone: Europe/London", "Europe/Atlantis"),
        ("user_id: 7002", "user_id: 7001", "    user_id: 7002", "have one user id, 7001"),
        ("carer: tomas", "carer: thomas", "    carer: tomas", 'there is no person "thomas"'),
        ("role: therapist", "role: doctor", "    role: therapist", "role"),
    ],
)
def test_a_fault_in_an_enrolment_is_told_with_file_and_line(told: Told, old: str, new: str, line: str, said: str) -> None:
    """Unknown exercise, impossible rest and dose, wrong time zone, one user id twice, a stranger, a wrong role."""
    file = enrol_file(old, new)
    number = FILE.read_text(encoding="utf-8").splitlines().index(line) + 1 + new.count("\n")
    assert told.by("enrol", file, "--bot", "some_bot") == 1
    assert f"people.yaml:{number}: " in told.err
    assert said in told.err
    assert not Path("companion.sqlite3").exists()


def test_an_enrolment_that_is_not_there_is_told(told: Told) -> None:
    assert told.by("enrol", "nobody.yaml", "--bot", "some_bot") == 1
    assert "nobody.yaml: the file is not there" in told.err


def test_broken_content_is_told_with_file_and_line_and_nothing_starts(
    told: Told, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = copy_of_content(tmp_path / "mine")
    safety = content / "safety.yaml"
    safety.write_text(safety.read_text().replace("gate_s: 600", "gate_s: soon"))
    (content / "exercises" / "one_leg.yaml").write_text("id: one_leg\nrole: : main\n")
    number = next(n for n, line in enumerate(safety.read_text().splitlines(), 1) if "gate_s" in line)
    assert told.by("check", content) == 1
    assert f"mine/safety.yaml:{number}: " in told.err
    assert "mine/exercises/one_leg.yaml:2: " in told.err
    monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", TOKEN)
    assert told.by("run", "--emergency-number", "112", "--content", content) == 1
    assert f"mine/safety.yaml:{number}: " in told.err


def test_content_that_is_not_there_is_told(told: Told) -> None:
    assert told.by("check", "nowhere") == 1
    assert "nowhere" in told.err


def test_a_database_that_is_none_is_told_and_left_alone(told: Told, monkeypatch: pytest.MonkeyPatch) -> None:
    Path("notes.txt").write_text("These are my notes, and no database at all. " * 20)
    before = Path("notes.txt").read_bytes()
    monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", TOKEN)
    monkeypatch.setenv("COMPANION_EMERGENCY_NUMBER", "112")
    for command in (["migrate"], ["run"], ["doctor"]):
        assert told.by(*command, "--database", "notes.txt") in (1, 2)
        assert "notes.txt can not be used" in told.out + told.err
    assert Path("notes.txt").read_bytes() == before


def test_a_database_in_a_folder_that_is_not_there_is_told(told: Told) -> None:
    assert told.by("migrate", "--database", "no/such/folder/companion.sqlite3") == 1
    assert "no/such/folder" in told.err


def test_a_database_of_a_newer_version_is_told(told: Told) -> None:
    assert told.by("migrate") == 0
    with sqlite3.connect("companion.sqlite3") as connection:
        connection.execute("update alembic_version set version_num = '9999'")
    connection.close()
    assert told.by("migrate") == 1
    assert "newer" in told.err


def test_a_second_start_is_told(told: Told, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", TOKEN)
    first = asyncio.run(Store.open(Path("companion.sqlite3")))
    assert told.by("run", "--emergency-number", "112") == 2
    assert "Another companion is running on companion.sqlite3" in told.err
    asyncio.run(first.close())


@pytest.mark.parametrize("week", ["48", "2026-48", "2026-W54", "2026-W00", "next week", "2026-W4"])
def test_a_week_that_is_none_is_told(told: Told, week: str) -> None:
    assert told.by("report", "mara", "--week", week, "--out", "week.png") == 2
    assert "Write it like 2026-W48" in told.err


def test_a_client_who_is_not_enrolled_is_told(told: Told) -> None:
    assert told.by("report", "nell", "--week", "2026-W48", "--out", "week.png") == 2
    assert "There is no database" in told.err
    assert told.by("enrol", enrol_file(), "--bot", "some_bot") == 0
    assert told.by("report", "nell", "--week", "2026-W48", "--out", "week.png") == 2
    assert 'There is no client "nell". Enrolled are: mara.' in told.err


@pytest.mark.parametrize("name", ["x", "some bot", "https://t.me/some_bot", "1bot_bot"])
def test_a_name_that_no_bot_has_is_told(told: Told, name: str) -> None:
    assert told.by("enrol", enrol_file(), "--bot", name) == 2
    assert "is not a bot's name" in told.err


# --- what works -----------------------------------------------------------------------------------------------


def test_the_content_that_came_with_the_program_has_no_fault(told: Told) -> None:
    assert told.by("check") == 0
    assert told.out == "Nothing wrong was found.\n"


def test_enrolling_prints_one_start_link_a_person(told: Told) -> None:
    assert told.by("enrol", enrol_file(), "--bot", "@some_bot") == 0
    lines = told.out.splitlines()
    assert [line.partition(" ")[0] for line in lines] == ["ines", "rafe", "mara", "tomas"]
    assert all("https://t.me/some_bot?start=" in line for line in lines)
    assert "works once" in told.err


def test_therapists_are_enrolled_without_clients_and_make_theirs_in_the_chat(told: Told) -> None:
    Path("people.yaml").write_text("people:\n  ines: {role: therapist, name: Ines, zone: Europe/London}\n", encoding="utf-8")
    assert told.by("enrol", "people.yaml", "--bot", "some_bot") == 0
    assert told.out.startswith("ines (Ines, therapist): https://t.me/some_bot?start=")
    assert len(told.out.splitlines()) == 1


def test_enrolling_twice_says_so_and_gives_new_links(told: Told) -> None:
    assert told.by("enrol", enrol_file(), "--bot", "some_bot") == 0
    first = told.out
    assert told.by("enrol", enrol_file(), "--bot", "some_bot") == 0
    assert "mara is enrolled already" in told.err
    assert not set(told.out.splitlines()) & set(first.splitlines())


def test_a_week_is_drawn_into_a_file_and_told_in_words(told: Told) -> None:
    told.by("enrol", enrol_file(), "--bot", "some_bot")
    assert told.by("report", "mara", "--week", "2026-W48", "--out", "week.png") == 0
    with Image.open("week.png") as picture:
        assert picture.format == "PNG"
    assert "Mara" in told.out
    assert told.by("report", "mara", "--week", "2026-W48", "--out", "no/such/folder/week.png") == 2
    assert "can not be written" in told.err


def test_a_backup_holds_what_the_database_holds_and_overwrites_nothing(told: Told) -> None:
    told.by("enrol", enrol_file(), "--bot", "some_bot")
    assert told.by("backup", "copy.sqlite3") == 0
    assert told.by("report", "mara", "--week", "2026-W48", "--out", "week.png", "--database", "copy.sqlite3") == 0
    assert told.by("backup", "copy.sqlite3") == 2
    assert "is there already" in told.err


async def test_the_doctor_looks_at_everything_and_the_platform_tells_the_bots_name(
    told: Told, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with playing(tmp_path / "companion.sqlite3") as play:
        await play.enrol()
        for field, value in settings_of(play).items():
            monkeypatch.setenv(field, value)
        assert await asyncio.to_thread(told.by, "doctor") == 0
        assert "clients: 1, people: 4" in told.out
        assert "the bot is @rehearsal_bot" in told.out
        assert await asyncio.to_thread(told.by, "enrol", enrol_file()) == 0
        assert "https://t.me/rehearsal_bot?start=" in told.out
        monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", "1000001:another-secret")
        assert await asyncio.to_thread(told.by, "doctor") == 2
        assert "platform: NOT WELL" in told.out
        assert "another-secret" not in told.out + told.err


@pytest.mark.parametrize(
    ("command", "said"), [("true --at once", "all that is needed"), ("/no/such/tell", "/no/such/tell to run")]
)
def test_the_doctor_looks_whether_the_alert_command_is_there(
    told: Told, monkeypatch: pytest.MonkeyPatch, command: str, said: str
) -> None:
    monkeypatch.setenv("COMPANION_TELEGRAM_TOKEN", TOKEN)
    told.by("doctor", "--emergency-number", "112", "--alert-command", command, "--telegram-api", "http://127.0.0.1:9")
    assert said in next(line for line in told.out.splitlines() if line.startswith("settings: "))


async def test_the_bot_runs_until_it_is_told_to_end_and_its_log_holds_no_token(tmp_path: Path) -> None:
    """The real process, with the signal that a service manager sends."""
    async with playing(tmp_path / "companion.sqlite3") as play:
        settings = settings_file(play)
        process = await asyncio.create_subprocess_exec(
            *(sys.executable, "-m", "companion.cli", "run", "--settings", settings),
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        )
        try:
            await asyncio.wait_for(play.server.wait_quiet(), 60)
            process.send_signal(signal.SIGTERM)
            out, err = await asyncio.wait_for(process.communicate(), 60)
        finally:
            if process.returncode is None:
                process.kill()
    assert process.returncode == 0, err.decode()
    assert "finishing what is under way" in err.decode()
    assert "rehearsal-token" not in (out + err).decode()


def settings_of(play: Play) -> dict[str, str]:
    return {
        "COMPANION_TELEGRAM_TOKEN": play.server.token,
        "COMPANION_TELEGRAM_API": play.server.base_url,
        "COMPANION_DATABASE": str(play.database),
        "COMPANION_EMERGENCY_NUMBER": "112",
    }


def settings_file(play: Play) -> str:
    """The same as a file of lines; its name."""
    file = Path("settings")
    file.write_text("".join(f"{name}={value}\n" for name, value in settings_of(play).items()), encoding="utf-8")
    return file.name

"""An own exercise is tried with one command: drawn, spoken, rehearsed, shown on one page, or its faults are told."""

import re
import shutil
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

import pytest

from companion.app import Content
from companion.cli import main
from companion.cli.exercise_cards import Card
from companion.cli.exercise_page import MARK, ExercisePage, FormShown, Sent, SideShown
from companion.content.checking import check
from companion.content.folders import content_dir
from companion.core.programme import Side
from companion.rehearsal import invented
from tests.own_exercise import NAME, example, line_of, write

FORMS, SIDES, HANDS = 2, 2, 3
ALONE = {"meta", "img"}
COUNTED = """\
id: nod
role: main
sides: none
usual: seated
clocks: [none]
forms:
  - {id: seated, posture: seated, stance: seated, measure: counted, target: 4, least: 2, most: 6, hands: [one_hand]}
words:
  en:
    name: Nod
    notice: Notice your neck.
    normal: A little pull is normal.
    stop: Stop if you feel dizzy.
    caution: Go slowly.
    forms:
      seated:
        name: seated
        setup: Sit tall.
        short: Sit tall. Nod.
        do: Nod {target} times.
        carer: Stay close.
"""


class Tags(HTMLParser):
    """Which tags a page has, and whether each is closed where it must be."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.opened: list[str] = []
        self.count: dict[str, int] = {}
        self.sources: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.count[tag] = self.count.get(tag, 0) + 1
        self.sources += [value or "" for name, value in attrs if name in ("src", "href")]
        if tag not in ALONE:
            self.opened.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.opened.pop() == tag


@pytest.fixture(autouse=True)
def _elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@dataclass(frozen=True)
class Tried:
    """The README's example, tried and installed."""

    code: int
    content: Path
    out: Path
    page: str


@pytest.fixture(scope="module")
def tried(tmp_path_factory: pytest.TempPathFactory) -> Tried:
    folder = tmp_path_factory.mktemp("tried")
    content = Path(shutil.copytree(content_dir(), folder / "content"))
    out = folder / "out"
    out.mkdir()
    (out / "notes.txt").write_text("mine", encoding="utf-8")
    (out / f"{NAME}.html").write_text(f"{MARK} of an earlier trial", encoding="utf-8")
    code = main(["exercise", str(write(folder)), "--out", str(out), "--content", str(content), "--install"])
    return Tried(code, content, out, (out / f"{NAME}.html").read_text(encoding="utf-8"))


def test_the_readmes_example_passes_and_has_everything_on_one_page(tried: Tried) -> None:
    assert tried.code == 0
    tags = Tags(tried.page)
    assert tags.opened == []
    assert tags.count["img"] == FORMS * SIDES * (HANDS + 1)
    assert tags.count["audio"] == FORMS * SIDES
    assert tags.count["pre"] == FORMS
    assert "nothing wrong was found" in tried.page and "Not right yet" not in tried.page


def test_the_page_stands_alone(tried: Tried) -> None:
    sources = Tags(tried.page).sources
    assert sources and all(source.startswith(("data:image/png;base64,", "data:audio/ogg;base64,")) for source in sources)
    assert "<script" not in tried.page and "@import" not in tried.page


def test_the_page_shows_what_the_client_reads_and_sees_by_side(tried: Tried) -> None:
    assert "\nWeaker foot half a step in front. Move your weight onto it.\n" in tried.page
    assert "\nStronger foot half a step in front. Move your weight onto it.\n" in tried.page
    assert "Hold: usually 10 s, from 5 to 30 s" in tried.page
    described = re.findall(r'<img alt="([^"]+)"', tried.page)
    assert {text for text in described if "Weaker foot half a step in front" in text}
    assert {text for text in described if "Stronger foot half a step in front" in text}


def test_each_form_is_rehearsed_to_its_closing_and_the_session_is_on_the_page(tried: Tried) -> None:
    sessions = re.findall(r"<pre>(.*?)</pre>", tried.page, re.DOTALL)
    assert len(sessions) == FORMS
    assert all("Weight forward" in session and "You did all 3 parts." in session for session in sessions)


def test_a_second_trial_replaces_its_own_page_and_nothing_else(tried: Tried) -> None:
    assert "of an earlier trial" not in tried.page
    assert sorted(path.name for path in tried.out.iterdir()) == ["notes.txt", f"{NAME}.html"]
    assert (tried.out / "notes.txt").read_text(encoding="utf-8") == "mine"


def test_what_passed_is_put_into_the_own_content_and_nothing_else_changes_there(tried: Tried) -> None:
    added = {path.relative_to(tried.content) for path in tried.content.rglob("*")}
    added -= {path.relative_to(content_dir()) for path in content_dir().rglob("*")}
    assert added == {Path("exercises") / f"{NAME}.yaml"}
    assert (tried.content / "exercises" / f"{NAME}.yaml").read_text(encoding="utf-8") == example()
    assert check(tried.content) == []


@pytest.mark.parametrize(
    ("old", "new", "at", "said"),
    [
        ("    stop:", "    stpo:", "stpo:", 'the key "stpo" is not known here. Write "stop".'),
        ("target: 10, least: 5", "target: 3, least: 5", "target: 3", "the usual dose 3 is outside 5 to 30."),
        ("Both feet stay", "Don't lift a foot. Both feet stay", "Don't", "a short form"),
        ("hands: [two_hands, one_hand", "hands: [one_hand, two_hands", "[one_hand, two", "the hand stages are not in order"),
    ],
)
def test_a_slip_ends_it_with_the_file_the_line_and_what_to_do(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], old: str, new: str, at: str, said: str
) -> None:
    path = write(tmp_path, old, new)
    assert main(["exercise", path.name]) == 1
    told = capsys.readouterr().err
    assert f"{path.name}:{line_of(path, at)}: " in told and said in told
    assert not (tmp_path / "exercise-out").exists()


def test_a_fault_beside_words_of_the_content_names_the_files_that_people_know(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = write(tmp_path, f"id: {NAME}", "id: reach", name="reach")
    assert main(["exercise", path.name]) == 1
    told = capsys.readouterr().err
    assert f'reach.yaml:{line_of(path, "name:")}: "ex-reach" is also in {content_dir()}/texts/en/exercises.ftl:' in told
    assert "/companion-" not in told


def test_a_file_that_is_not_there_or_has_another_ending_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["exercise", str(tmp_path / "gone.yaml")]) == 1
    assert "gone.yaml: the file is not there" in capsys.readouterr().err
    path = write(tmp_path).rename(tmp_path / f"{NAME}.yml")
    assert main(["exercise", str(path)]) == 1
    assert f"Name it {NAME}.yaml" in capsys.readouterr().err


def test_a_page_that_is_somebody_elses_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = tmp_path / f"{NAME}.html"
    page.write_text("<p>My own notes.</p>", encoding="utf-8")
    assert main(["exercise", str(write(tmp_path)), "--out", str(tmp_path)]) == 2
    assert "is no page of a trial" in capsys.readouterr().err
    assert page.read_text(encoding="utf-8") == "<p>My own notes.</p>"


@pytest.mark.parametrize(
    ("option", "said"), [("--content", "There is no folder no-such"), ("--out", "is no folder. Name a folder with --out.")]
)
def test_a_folder_that_is_none_is_told_before_anything_is_done(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], option: str, said: str
) -> None:
    path = write(tmp_path)
    assert main(["exercise", str(path), option, str(path) if option == "--out" else "no-such"]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("chosen", [[], ["--content", str(content_dir())]])
def test_nothing_is_put_into_the_content_that_came_with_the_program(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], chosen: list[str]
) -> None:
    before = sorted(content_dir().rglob("*"))
    assert main(["exercise", str(write(tmp_path)), "--install", *chosen]) == 2
    assert "Copy the folder" in capsys.readouterr().err
    assert sorted(content_dir().rglob("*")) == before


def test_an_exercise_that_does_not_come_to_its_closing_is_shown_and_not_installed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content = Path(shutil.copytree(content_dir(), tmp_path / "content"))
    place = content / "texts" / "en" / "session.ftl"
    text = place.read_text(encoding="utf-8")
    assert "= All ready\n" in text
    place.write_text(text.replace("= All ready\n", "= Ready to go\n"), encoding="utf-8")
    file = tmp_path / "nod.yaml"
    file.write_text(COUNTED, encoding="utf-8")
    assert main(["exercise", str(file), "--out", str(tmp_path), "--content", str(content), "--install"]) == 1
    assert "WRONG  seated: 1 clean bouts were to come, and 0 came" in capsys.readouterr().out
    page = (tmp_path / "nod.html").read_text(encoding="utf-8")
    assert "Not right yet: seated: 1 clean bouts were to come" in page and "nothing wrong was found" not in page
    assert not (content / "exercises" / "nod.yaml").exists()


def test_everything_that_comes_from_elsewhere_is_escaped() -> None:
    content = Content.read()
    exercise = content.library.without_number.exercises["half_step"]
    drawn = invented.picture('a "foot" & <b>')
    sent = Sent(Card("client", "Stand <i>still</i> & wait", ("<Ready>",), None), invented.voice_note("<u>tone</u>", 2))
    side = SideShown(Side.WEAKER, tuple((hand, drawn) for hand in exercise.forms[0].hands), (sent,))
    shown = tuple(FormShown(form, (side,), "<pre>Mara</pre>", "<wrong>") for form in exercise.forms)
    page = ExercisePage(exercise, shown, content.texts, "en").html()
    assert not {"b", "i", "u", "ready", "wrong"} & {tag for tag in Tags(page).count if tag != "b"}
    assert "Stand &lt;i&gt;still&lt;/i&gt; &amp; wait" in page and "&lt;Ready&gt;" in page and "&lt;wrong&gt;" in page
    assert page.count("<b>") == page.count("<figure>") and page.count("<pre>") == len(exercise.forms)

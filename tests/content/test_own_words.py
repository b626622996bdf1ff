"""An exercise may carry its words in its own file, and they keep all the rules."""

import re
from datetime import time
from pathlib import Path

import pytest

from companion.content import library
from companion.content.checking import check
from companion.content.own_texts import read_own
from companion.content.own_words import LETTERS_IN_A_NAME, LETTERS_IN_A_TEXT
from companion.content.texts import Texts
from companion.core.effects import words
from companion.core.how import How
from companion.core.programme import Clock, Hand, Place, Plan, Planned, Practice, ReportTime, Side
from companion.core.script import compile_session
from companion.core.steps import Ask
from companion.media.version import edition
from companion.runtime.transport import CAPTION
from tests.own_exercise import NAME, example, line_of, write

COUNTED = [
    ("measure: timed", "measure: counted"),
    ("measure: timed", "measure: counted"),
    ("clocks: [screen, sound, carer]", "clocks: [none]"),
]
CARER = "        carer: Stand on their weaker side, a little behind.\n"
SETUP = "".join(
    f"          {side}: Feet wide. {side.title()} foot half a step in front. Move your weight onto it.\n"
    for side in ("weaker", "stronger")
)
DO = (f"{CARER}      close:\n", f"{CARER}        do: Lean. Do it {{target}} times.\n      close:\n")


def changed(copy: Path, *changes: tuple[str, str]) -> Path:
    path = write(copy / "exercises")
    text = path.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    path.write_text(text, encoding="utf-8")
    return path


def test_the_words_in_the_file_are_texts_like_all_others(copy: Path) -> None:
    write(copy / "exercises")
    texts = Texts(copy / "texts")
    assert check(copy) == []
    assert texts.text(words("ex-weight-forward.stop"), "en") == "Stop if it hurts or you feel dizzy."
    assert texts.text(words("form-weight-forward-close"), "en") == "feet close"
    setup = [
        texts.text(words("form-weight-forward-close.setup", side=side, again="no"), "en") for side in ("weaker", "stronger")
    ]
    assert setup == [f"{side} foot half a step in front. Move your weight onto it." for side in ("Weaker", "Stronger")]
    assert texts.text(words("form-weight-forward-wide.short", side="weaker"), "en") == "Weaker foot in front. Weight onto it."


def test_the_number_of_the_plan_is_filled_into_what_is_counted(copy: Path) -> None:
    changed(copy, *COUNTED, DO, ("      close:\n", "      close:\n        do: '{target} times: lean.'\n"))
    texts = Texts(copy / "texts")
    assert check(copy) == []
    assert texts.text(words("form-weight-forward-wide.do", target=6), "en") == "Lean. Do it 6 times."
    assert texts.text(words("form-weight-forward-close.do", target=6), "en") == "6 times: lean."


def test_every_text_of_the_example_is_known_by_the_line_it_is_written_on(copy: Path) -> None:
    path = write(copy / "exercises")
    lines = path.read_text(encoding="utf-8").splitlines()
    own = {key: source for key, source in Texts(copy / "texts").keys("en").items() if source.path == path}
    assert len(own) == 5 + 2 * 4
    for key, source in own.items():
        part = key.partition(".")[2] or "name"
        assert lines[source.line - 1].strip().startswith(f"{part}:"), key


@pytest.mark.parametrize(
    ("old", "new", "at", "what", "do"),
    [
        ("    notice: ", "    notcie: ", "notcie:", 'the key "notcie" is not known here', 'Write "notice"'),
        ("        short:", "        shrot:", "shrot:", 'the key "shrot" is not known here', 'Write "short"'),
        ("words:", "wrods:", "wrods:", 'the key "wrods" is not known here', 'Write "words"'),
        ("      close:\n", "      colse:\n", "colse:", 'there is no form "colse"', 'Write "close"'),
        ("      close:\n", "      colse:\n", "    forms:", 'the form "close" has no words', 'Write "close:"'),
        (CARER, "", "      wide:", '"carer" is missing', "Add it"),
        ("    stop: Stop if it hurts or you feel dizzy.", "    stop:", "    stop:", '"stop" must be text', "Put it in quotes"),
        (SETUP, "", "        setup:", "a text is missing", "Write one line"),
        ("          weaker: Weaker foot in front.", "          waeker: Weaker foot in front.", "waeker:",
         'the key "waeker" is not known here', 'Write "weaker"'),
        ("name: Weight forward", "name: Weight {side}", "{side}", "has a brace", "Take it out"),
        ("          weaker: Weaker foot in front.", "          weaker: Lean { target } times.", "{ target }",
         "has a brace", "Write {target}"),
        (CARER, CARER + "        do: Press.\n", "        do:", "a timed form counts nothing", "Take do out"),
        ("sides: front_foot", "sides: none", "setup:", "the exercise has no sides, and this text has", "Write one text"),
        ("stronger: Feet wide. Stronger", "stronger: Feet wide. Weaker", "setup:",
         "the set-up is the same for both sides", "Write weaker: and stronger:"),
        ("  en:\n", "  xx:\n", "  xx:", 'there are no texts in the language "xx"', "Use en"),
        ("notice: Notice", "notice: First of all you should notice all of", "notice:",
         "a sentence of 14 words", "make two of it"),
        ("name: Weight forward", f"name: {'Weight ' * 6}", "    name:", "a name of 41 letters", "Write 40 or fewer"),
        ("notice: Notice", f"notice: {'Lean. ' * 20}Notice", "notice:", "a text of ", "Write 120 or fewer"),
        ("weaker: Weaker foot in front. Weight", "weaker: Weaker foot in front, and now weight", "short:",
         "has 9 words", "Write 8 or fewer"),
        ("A front leg", "A left leg", "normal:", "left or right alone", "Say weaker or stronger"),
        ("Both feet stay", "Don't lift them. Both feet stay", "caution:", "a short form", "Write it out"),
        ("Both feet stay", "Your two feet stay", "caution:", "a number in letters", "Write digits"),
        ("    stop: Stop", "\tstop: Stop", "stop:", "not YAML", "indent with spaces"),
        ("    stop: Stop if", "    stop: Stop: if", "stop:", "not YAML", "a text with : or #"),
    ],
)  # fmt: skip
def test_a_slip_is_told_with_its_line_and_what_to_do(copy: Path, old: str, new: str, at: str, what: str, do: str) -> None:
    path = write(copy / "exercises", old, new)
    found = [fault for fault in check(copy) if Path(fault.where).name == path.name]
    assert any(fault.line == line_of(path, at) and what in fault.what and do in fault.do for fault in found), found


@pytest.mark.parametrize("clock", [Clock.SCREEN, Clock.SOUND, Clock.CARER])
@pytest.mark.parametrize("short", [False, True])
def test_the_longest_words_that_a_file_may_have_fit_under_their_picture(copy: Path, clock: Clock, short: bool) -> None:
    text = re.sub(
        r"(?m)^( +)(notice|stop|caution|weaker|stronger): .*$",
        lambda found: f"{found[1]}{found[2]}: {found[2].ljust(LETTERS_IN_A_TEXT, 'x')}",
        example(),
    )
    name = "N" * LETTERS_IN_A_NAME
    text = re.sub(r"(?m)^( +name: ).*$", lambda found: found[1] + name, text)
    (copy / "exercises" / f"{NAME}.yaml").write_text(text, encoding="utf-8")
    rules, texts = library.load(copy).without_number, Texts(copy / "texts")
    how = How("s", "c", "N" * 40, "client", "carer", "112", False, rules.signs, rules.patience, short=short)
    item = Planned(NAME, "close", 10, Hand.FINGERTIPS, clock, "close", Hand.FINGERTIPS, (Side.WEAKER,))
    plan = Plan(1, (item,), Practice((0,), (time(10),)), ReportTime(0, time(8), "UTC"), Place("worktop", "shoes"))
    steps = compile_session(plan, rules.exercises, how).steps
    captions = [
        "\n".join(texts.text(line, "en") for line in step.words) for step in steps if isinstance(step, Ask) and step.media
    ]
    of_it = [caption for caption in captions if name in caption]
    assert of_it and max(map(len, of_it)) <= CAPTION


def test_a_counted_form_must_say_what_to_do(copy: Path) -> None:
    path = changed(copy, *COUNTED, DO)
    (fault,) = check(copy)
    assert fault.line == line_of(path, "      close:") and "Write do:" in fault.do


def test_words_both_in_the_file_and_in_another_are_a_fault(copy: Path) -> None:
    path = write(copy / "exercises")
    more = copy / "texts" / "en" / "exercises.ftl"
    more.write_text(f"{more.read_text(encoding='utf-8')}\nex-weight-forward = Weight\n", encoding="utf-8")
    (fault,) = check(copy)
    assert (fault.line, fault.do) == (line_of(path, "    name:"), "Keep one of them")
    assert '"ex-weight-forward" is also in ' in fault.what and "exercises.ftl:" in fault.what


def test_an_exercise_without_words_is_told_once(copy: Path) -> None:
    path = write(copy / "exercises")
    path.write_text(path.read_text(encoding="utf-8").partition("words:")[0], encoding="utf-8")
    (fault,) = check(copy)
    assert fault.what == 'the exercise has no words in the language "en"' and "Write words:" in fault.do


def test_what_can_not_be_read_is_told_by_the_library_and_breaks_no_texts(copy: Path) -> None:
    (copy / "exercises" / "broken.yaml").write_bytes(b"words: \xff")
    (copy / "exercises" / "odd.yaml").write_text("words: [en]\n", encoding="utf-8")
    assert list(read_own(copy / "exercises")) == []
    assert {Path(fault.where).name for fault in check(copy)} >= {"broken.yaml", "odd.yaml"}


def test_a_changed_word_of_an_exercise_makes_its_pictures_and_sounds_anew(copy: Path) -> None:
    write(copy / "exercises")
    before = edition(copy)
    write(copy / "exercises", "A front leg", "A warm leg")
    assert edition(copy) != before


def test_the_exercise_is_in_the_library_with_its_pictures(copy: Path) -> None:
    write(copy / "exercises")
    found = library.load(copy)
    assert [form.id for form in found.without_number.exercises[NAME].forms] == ["wide", "close"]
    assert {form for exercise, form in found.pictures if exercise == NAME} == {"wide", "close"}

"""The baseline on the therapist's phone: every question and answer has words, and every screen fits the platform."""

import random
from dataclasses import replace

import pytest

from companion.chat.buttons import NAMES, encode
from companion.content import library
from companion.content.folders import content_dir
from companion.content.plain_words import LETTERS_IN_A_MESSAGE
from companion.content.texts import Texts
from companion.core import person as people
from companion.core import visit
from companion.core.baseline import About, Baseline
from companion.core.dialogues import Enrolling
from companion.core.effects import Invite, Reply, Say, words
from companion.core.events import Control, Controlled, Pressed, Typed
from companion.core.person import Part, Person
from companion.core.questionnaire import BETWEEN
from companion.core.visit import Visit, questions
from companion.runtime.letting_in import LINK_LIFE
from tests.core.practice import MONDAY, ZONE

RULES = library.load(content_dir()).rules("000")
TEXTS = Texts(content_dir() / "texts")
LONGEST = "t" * 16  # the longest id that an enrolment takes
FULL = {"tap_hand": "either", "supervision": "always", "orthosis": "ankle_free"}
TYPED = ("Ann", "", "x" * 40, "Dov, Eva", "America/New_York", "21-7", "123", "Settings", "\N{SNOWMAN}")


def test_every_question_and_every_answer_has_words() -> None:
    table = questions(FULL, Visit(ZONE, RULES.can_be_usual, deputy="Rafe"))
    for question in table.questions:
        name = f"baseline-{question.id.replace('_', '-')}"
        assert TEXTS.text(words(name), "en") and TEXTS.text(words(f"{name}.ask"), "en")
        assert question.reads is None or TEXTS.text(words(f"{name}.again"), "en")
        for choice in question.choices:
            assert TEXTS.text(table.label(question, choice), "en")
        if question.many:
            said = table.said(question, "")
            assert not isinstance(said, str) and TEXTS.text(said, "en")
    for section in table.sections():
        assert TEXTS.text(words(f"baseline-{section}"), "en")


@pytest.mark.parametrize("answer", ["unknown", "one", "some_way"])
def test_what_only_a_file_says_has_words_too(answer: str) -> None:
    of = {"unknown": ("weaker-side", "orthosis", "falls-last-year"), "one": ("tap-hand",), "some_way": ("call-for-help",)}
    for question in of[answer]:
        assert TEXTS.text(words(f"baseline-{question}-{answer.replace('_', '-')}"), "en")


def test_every_sign_that_can_be_usual_is_a_sign_of_the_check_and_chest_pain_never_is() -> None:
    assert set(RULES.can_be_usual) < set(RULES.signs) and "chest" not in RULES.can_be_usual
    assert set(RULES.can_be_usual) <= set(NAMES)


def test_no_answer_holds_what_stands_between_several() -> None:
    table = questions(FULL, Visit(ZONE, RULES.can_be_usual, deputy="Rafe"))
    assert not [one for question in table.questions for one in question.choices if BETWEEN in one]


@pytest.mark.parametrize("seed", range(12))
def test_whatever_is_pressed_and_typed_every_screen_has_words_and_fits(seed: int) -> None:
    chance = random.Random(seed)
    person = Person(LONGEST, Part.THERAPIST, "Cleo", ZONE, (), user_id=3, deputy="t2", deputy_name="Rafe")
    standing: list[Pressed] = []
    written = 0
    for _ in range(700):
        if not isinstance(person.dialogue, Enrolling) or chance.random() < 0.02:
            event: Pressed | Typed | Controlled = Controlled(MONDAY, LONGEST, Control.NEW_CLIENT)
            person = replace(person, dialogue=person.dialogue if isinstance(person.dialogue, Enrolling) else None)
        elif chance.random() < 0.25:
            event = Typed(MONDAY, LONGEST, chance.choice(TYPED))
        else:
            on = [one for one in standing if one.press.choice not in ("cancel", "back", "drop", "anew")]
            event = chance.choice(on if on and chance.random() < 0.9 else standing)
        decided = people.step(person, event, RULES)
        person = decided.person
        for effect in decided.effects:
            if isinstance(effect, Say):
                text = "\n".join(TEXTS.text(line, "en") for line in effect.words)
                assert 0 < len(text) <= LETTERS_IN_A_MESSAGE
                pressed = [button.press for button in effect.buttons]
                assert all(len(encode(press)) <= 64 for press in pressed) and len(set(pressed)) == len(pressed)
                assert all(0 < len(TEXTS.text(button.label, "en")) <= 64 for button in effect.buttons)
                standing = [Pressed(MONDAY, LONGEST, press) for press in pressed] or standing
            elif isinstance(effect, Invite):
                written += 1
                assert TEXTS.text(words(effect.words.key, **dict(effect.words.params), link="l"), "en")
            elif isinstance(effect, Reply) and effect.words is not None:
                assert TEXTS.text(effect.words, "en")
    assert written > 0, "nobody was ever enrolled"


def test_answers_come_back_from_the_baseline_they_made() -> None:
    chance = random.Random(1)
    for _ in range(200):
        asked = Visit(ZONE, RULES.can_be_usual)
        answers: dict[str, str] = {"name": "Ann", "carer": "Ben"}
        table = questions(answers, asked)
        while (missing := next((one for one in table.questions if one.id not in answers and one.choices), None)) is not None:
            answers[missing.id] = chance.choice(missing.choices)
            table = questions(answers, asked)  # an answer may bring a further question
        assert table.missing(answers) is None
        baseline = visit.baseline_of(table.filled(answers))
        again = visit.answers_of(baseline, About("Ann", ZONE))
        kept = {
            key: value
            for key, value in table.filled(answers).items()
            if key in again and key not in ("zone", "quiet", "contacts")
        }
        assert {key: again[key] for key in kept} == kept


def test_on_the_clients_page_stands_what_bears_on_safety_and_what_is_out_of_the_ordinary() -> None:
    found = Baseline("left", "either", "ankle_free", "unknown", "several", "alarm", deficits=("face",), reading="short_words")
    lines = [TEXTS.text(line, "en") for line in visit.notable(found)]
    assert lines[0] == "Weaker side: left" and lines[-2:] == ["Reading: short words only", "Usual deficits: Face"]
    assert len(lines) == len(visit.ON_SAFETY) + 2
    from_a_file = replace(found, weaker_side="unknown", tap_hand="one", orthosis="unknown", call_for_help="some_way")
    assert all(TEXTS.text(line, "en") for line in visit.notable(replace(from_a_file, falls_last_year="unknown")))


@pytest.mark.parametrize("part", ["client", "carer", "contact"])
def test_a_link_is_shown_with_how_long_it_is_good(part: str) -> None:
    shown = TEXTS.text(words(f"enrol-link-{part}", name="Ann", client="Ann", link="l"), "en")
    assert f"within {LINK_LIFE.days} days" in shown

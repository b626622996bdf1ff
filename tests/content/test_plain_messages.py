"""Whatever happens to a client and a carer, each message that reaches them reads well as a whole: led through many lives."""

import random
from collections.abc import Iterator
from datetime import timedelta

import pytest

from companion.content.plain_messages import Line, broken_together
from companion.content.plain_words import FOR_THE_THERAPIST, broken_rules
from companion.content.readers import BOTH, CARER, CLIENT, readers
from companion.core.effects import Say, Words
from tests.content.said import TEXTS
from tests.core import lives, practice
from tests.core.lives import Choose

LIVES, EVENTS = 800, 70
KEYS = TEXTS.keys("en")
NO_PART = {"typed-therapist", "baseline-not-theirs"}
"""What somebody hears who has no part here any more, or who claims to have been at a visit."""
OWN_WORDS = {"plan-reason-own", "carer-view-said", "carer-view-goal", "goal-is"}


def heard() -> Iterator[tuple[str, Say]]:
    """What client and carer are sent in many random lives, each different thing once."""
    chance = random.Random("whole messages")
    choose = Choose(lambda options: options[int(chance.random() * len(options))])
    happenings, weights = zip(*lives.SHARES, strict=True)
    seen: set[tuple[str, tuple[Words, ...], tuple[Words, ...]]] = set()
    for _ in range(LIVES):
        it = lives.any_home(choose, judged=False)
        at_home = it.client.people.at_home()
        for _ in range(EVENTS):
            (what,) = chance.choices(happenings, weights)
            it.now += timedelta(seconds=1 + int(chance.random() * 20))
            if what is lives.an_alarm:
                lives.time_passes(it, choose)
            event = what(it, choose)
            if event is not None:
                it.do(event)
        for who in at_home:
            for say in it.phone(who).said:
                key = (who, say.words, tuple(button.label for button in say.buttons))
                if key not in seen:
                    seen.add(key)
                    yield who, say


@pytest.fixture(scope="module")
def messages() -> list[tuple[str, Say]]:
    return [(who, say) for who, say in heard() if say.words[0].key not in NO_PART]


def in_the_library(words: Words) -> Words:
    """The exercises of the tests are not of the real library: one that is speaks for them."""
    name, dot, part = words.key.partition(".")
    if words.key not in KEYS and name.startswith("ex-"):
        name = "ex-heel-to-toe"
    elif words.key not in KEYS and name.startswith("form-"):
        name = "form-marching-low" if part in ("do", "short") else "form-heel-to-toe-touching"
    params = tuple((key, in_the_library(value) if isinstance(value, Words) else value) for key, value in words.params)
    return Words(name + dot + part, params)


def read(lines: tuple[Words, ...]) -> list[Line]:
    return [(line.key, TEXTS.text(line, "en")) for line in map(in_the_library, lines)]


def test_every_message_in_many_lives_reads_well_as_a_whole(messages: list[tuple[str, Say]]) -> None:
    assert len(messages) > 300
    for _, say in messages:
        lines, answers = read(say.words), read(tuple(button.label for button in say.buttons))
        own = any(line.key in OWN_WORDS for line in say.words)
        assert list(broken_together(lines, answers, own)) == [], (lines, answers)
        for _, text in lines if not own else []:
            assert [what for what, _ in broken_rules(text, button=False)] == [], text


def test_nobody_at_home_gets_a_therapists_words(messages: list[tuple[str, Say]]) -> None:
    said = {words for _, say in messages for words in (*say.words, *(button.label for button in say.buttons))}
    told = {line.key for line in said if KEYS[in_the_library(line).key].path.name in FOR_THE_THERAPIST}
    assert told == {"b-alert-seen"}  # which says what it means to both


def test_who_reads_a_text_is_who_it_is_sent_to(messages: list[tuple[str, Say]]) -> None:
    wrong = set()
    for who, say in messages:
        at = next((at for at, line in enumerate(say.words) if line.key == "for-helper"), len(say.words))
        reader = CLIENT if who == practice.CLIENT else CARER
        helped = at < len(say.words) or any("carer" in line.key for line in say.words)
        for line in (*say.words[:at], *(() if helped else [button.label for button in say.buttons])):
            told = readers(line.key, KEYS[in_the_library(line).key].path.name)
            if told not in (reader, BOTH) and not (who == practice.CLIENT and helped):
                wrong.add((line.key, reader, told))
    assert wrong == set()


Q = ("ask-how", "How did it go?")


@pytest.mark.parametrize(
    ("lines", "answers", "broken"),
    [
        ([Q], [("b-a", "It went well"), ("b-b", "Not quite")], ""),
        ([Q, ("ask-what", "What was it?")], [], "more than one question"),
        ([("a", "One line.")] * 11, [], "11 lines"),
        ([("a", "One line.")] * 10 + [("for-helper", "For your helper:"), ("a", "Stay close.")], [], ""),
        ([Q], [("b-a", "A"), ("b-b", "B"), ("b-c", "C"), ("b-d", "D")], "4 answers"),
        ([Q], [("b-count", str(number)) for number in range(5)], ""),
        ([Q], [("b-count", str(number)) for number in range(6)], "6 answers"),
        ([Q], [("b-number", "12"), ("b-number", "47"), ("b-number", "61"), ("b-a", "Away"), ("b-b", "Changed")], ""),
        ([Q], [("b-a", "I am ready"), ("b-b", "I am not ready")], "differ by a not alone"),
        ([Q], [("b-a", "Use it"), ("b-b", "Do not use it")], "differ by a not alone"),
        ([Q], [("b-a", "All is well"), ("b-b", "All is well, I saw a step")], "begin alike"),
        ([Q], [("b-a", "Make it easier"), ("b-b", "Make it harder")], "differ by one word behind their first"),
        ([Q], [("b-a", "I fell"), ("b-b", "I feel unwell")], "look alike"),
        ([Q], [("b-a", "Weaker leg"), ("b-b", "Stronger leg")], ""),
        ([("a", "Preparation necessitates considerable deliberation beforehand, everybody.")] * 2, [], "grade"),
    ],
)
def test_what_breaks_a_whole_message_is_noticed(lines: list[Line], answers: list[Line], broken: str) -> None:
    found = list(broken_together(lines, answers))
    assert [broken in what for what in found] == [True] * bool(broken), found

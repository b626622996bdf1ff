"""A person's own phone: the fixed row, and joining and leaving passed on to every client they belong to."""

import pytest

from companion.core import person as people
from companion.core.effects import Effect, Pass, Say
from companion.core.events import Joined, Left, Typed, Woke
from companion.core.person import Part, Person
from tests.core.practice import MONDAY, RULES, ZONE


def somebody(part: Part = Part.CARER) -> Person:
    return Person("k1", part, "Ben", ZONE, ("c1", "c2"), user_id=7)


def passed(effects: tuple[Effect, ...]) -> list[str]:
    return [effect.to.id for effect in effects if isinstance(effect, Pass)]


@pytest.mark.parametrize(
    ("part", "row"),
    [
        (Part.CLIENT, ["row-something-wrong", "row-enough", "row-more"]),
        (Part.CARER, ["row-something-wrong", "row-had-to-leave", "row-more"]),
        (Part.THERAPIST, ["row-caseload", "row-new-client", "row-settings"]),
        (Part.CONTACT, []),
    ],
)
def test_who_joins_gets_the_fixed_row_of_their_part_in_a_message_of_its_own(part: Part, row: list[str]) -> None:
    said = [effect for effect in people.step(somebody(part), Joined(MONDAY, "k1"), RULES).effects if isinstance(effect, Say)]
    assert [[label.key for label in say.fixed_row] for say in said if say.fixed_row or say is said[0]] == [row]
    assert said[0].buttons == () and said[0].card is None


def test_joining_and_leaving_are_told_to_every_client_they_belong_to() -> None:
    joined = people.step(somebody(), Joined(MONDAY, "k1"), RULES)
    left = people.step(somebody(), Left(MONDAY, "k1"), RULES)
    assert passed(joined.effects) == passed(left.effects) == ["c1", "c2"]
    assert joined.person.reachable and not left.person.reachable


def test_who_comes_back_can_be_reached_again() -> None:
    away = people.step(somebody(), Left(MONDAY, "k1"), RULES).person
    assert people.step(away, Left(MONDAY, "k1", back=True), RULES).person.reachable


def test_words_of_a_therapist_are_answered_and_anything_else_changes_nothing() -> None:
    them = somebody(Part.THERAPIST)
    answered = people.step(them, Typed(MONDAY, "k1", "hello"), RULES)
    assert answered.person == them and [effect.words[0].key for effect in answered.effects if isinstance(effect, Say)] == [
        "typed-therapist"
    ]
    assert people.step(them, Woke(MONDAY), RULES) == people.Decision(them, ())
    assert people.wake_at(them, RULES) is None

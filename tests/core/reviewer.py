"""A therapist's phone on which the measures of a review of Ann are entered: the driver of the tests. Not a test module."""

from typing import Any

from companion.core.baseline import Baseline
from companion.core.care import Client
from companion.core.dialogues import Reviewing
from companion.core.effects import Pass, Subject, Words
from companion.core.events import Press, Pressed, ReviewDone
from companion.core.observations import Reviewed
from companion.core.person import Part, Person
from companion.core.review_values import ReviewValues
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, THERAPIST, ZONE, client, plan, planned

DEE = "t2"
BASELINE = Baseline("left", "right", "none", "no", "none", "voice")
GOAL = "to walk to the gate"
MEASURES = ("b-review-open", "b-review-entered")
"""The buttons of the menu for one measure, without and with what is entered."""


def visit(**more: Any) -> People:
    """The therapist, a colleague who has no part, and the client's home. The client has a goal unless told otherwise."""
    persons = [
        Person(THERAPIST, Part.THERAPIST, "Cleo", ZONE, ("c1", "c2"), user_id=1),
        Person(DEE, Part.THERAPIST, "Dee", ZONE, ("c1",), user_id=2),
        Person(CLIENT, Part.CLIENT, "Ann", ZONE, ("c1",), user_id=3),
        Person(CARER, Part.CARER, "Ben", ZONE, ("c1",), user_id=4),
        Person(CONTACT, Part.CONTACT, "Dov", ZONE, ("c1",), user_id=5),
    ]
    of = more.pop("of", plan(planned("press"), planned("tandem")))
    return People(persons, [client(of, **{"baseline": BASELINE, "goal": GOAL} | more)])


def page(it: People, choice: str, by: str = THERAPIST) -> People:
    """A button of the client's page."""
    it.do(Subject("client", "c1"), Pressed(it.now, by, Press("c1", "page", "page", choice)))
    return it


def asked(it: People | None = None) -> People:
    """The review is opened from the page."""
    return page(it or visit(), "review")


def dialogue(it: People) -> Reviewing:
    found = it.persons[THERAPIST].dialogue
    assert isinstance(found, Reviewing), f"no review is entered, but {found}"
    return found


def values(it: People) -> ReviewValues:
    return dialogue(it).values


def ann(it: People) -> Client:
    return it.clients["c1"]


def keys(it: People, by: str = THERAPIST) -> list[str]:
    """The lines of the card, by key."""
    return [line.key for line in it.phone(by).cards["desk"].words]


def said(it: People, key: str) -> dict[str, str]:
    """The parameters of that line of the card, words by their key."""
    line = next(line for line in it.phone(THERAPIST).cards["desk"].words if line.key == key)
    return _params(line)


def labels(it: People) -> list[tuple[str, dict[str, str]]]:
    """The buttons of the card, each as key and parameters."""
    return [(button.label.key, _params(button.label)) for button in it.phone(THERAPIST).cards["desk"].buttons]


def _params(line: Words) -> dict[str, str]:
    return {name: value.key if isinstance(value, Words) else value for name, value in line.params}


def choose(it: People, key: str, **params: str) -> People:
    """Press the button of the card whose label has that key and these parameters (words by their key)."""
    buttons = it.phone(THERAPIST).cards["desk"].buttons
    found = [one for one in buttons if one.label.key == key and _params(one.label).items() >= params.items()]
    assert found, f"no {key} {params}, but {labels(it)}"
    it.send(THERAPIST, found[0].press)
    return it


def open_measure(it: People, measure: str) -> People:
    """From the menu to that measure, whether or not something is entered."""
    there = [key for key, params in labels(it) if key in MEASURES and params["measure"] == measure]
    assert there, f"no {measure}, but {labels(it)}"
    return choose(it, there[0], measure=measure)


def enter(it: People, measure: str, text: str) -> People:
    """A measure of one number, typed."""
    open_measure(it, measure)
    it.write(THERAPIST, text)
    return it


def stages(it: People, *typed: str) -> People:
    """The 4-stage test: "held" presses the button, anything else is typed. Ends at its screen."""
    open_measure(it, "review-four-stage")
    for one in typed:
        choose(it, "b-review-held") if one == "held" else it.write(THERAPIST, one)
    return it


def goal(it: People, level: str, weight: str, key: str = "b-review-goal-own") -> People:
    """A goal, from the menu and back to it."""
    choose(choose(it, key), f"review-level-{level}")
    return choose(it, "b-review-weight", weight=weight)


def whole(it: People) -> People:
    """Everything that can be entered, as far as the preview."""
    choose(stages(it, "held", "held", "7.2"), "b-review-menu")
    enter(it, "review-sit-to-stand-5", "14.2")
    enter(it, "review-one-leg-weaker", "4,5")
    enter(it, "review-one-leg-stronger", "12")
    enter(it, "review-berg", "41")
    goal(it, "1", "3")
    goal(it, "minus-1", "1", "b-review-goal-more")
    choose(open_measure(it, "review-decade"), "review-age-70")
    return choose(it, "b-review-preview")


def saved(it: People) -> list[ReviewDone]:
    """What the last thing that happened passed on to the care."""
    return [one.event for one in it.all(Pass) if isinstance(one.event, ReviewDone)]


def reviewed(it: People) -> list[Reviewed]:
    """The reviews on record."""
    return [one for one in it.records if isinstance(one, Reviewed)]

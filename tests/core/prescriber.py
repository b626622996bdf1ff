"""A therapist's phone on which the plan of Ann is written: the driver of the tests of prescribing. Not a test module."""

from dataclasses import replace
from typing import Any

from companion.core.baseline import Baseline
from companion.core.care import Client, facts
from companion.core.dialogues import Prescribing
from companion.core.effects import Words
from companion.core.events import Opened, Opens
from companion.core.person import Part, Person
from companion.core.programme import CheckStyle, Plan, Supervision, Template, UsualDose
from tests.core.people import People
from tests.core.practice import CLIENT, PEOPLE, RULES, THERAPIST, ZONE, full_plan, plan, planned
from tests.core.practice import client as made

ITEMS = (planned("press"), planned("together"), planned("tandem", target=30), planned("toes"))
TEMPLATES = (
    Template("hand_on", ITEMS, Supervision.ALWAYS, CheckStyle.SIGN_BY_SIGN, 20, 60),
    Template("seated", (planned("press"), planned("sit")), Supervision.WHEN_FORM_NEEDS, CheckStyle.ONE_LOOK, 15, 60),
)
RULES_HERE = replace(RULES, templates=TEMPLATES, usual_dose=UsualDose(20, "a published page"))
BASELINE = Baseline("left", "right", "none", "no", "none", "voice")
COVER = "t2"
CHAIR = replace(full_plan().place, support="sturdy_chair")


def clinic(plan_now: Plan | None = None, rules: Any = RULES_HERE, **more: Any) -> People:
    """A therapist's phone, another therapist's, and Ann's care; Ann agreed and has joined unless told otherwise."""
    ann = made(plan_now, **({"baseline": BASELINE} | more))
    phones = [
        Person(THERAPIST, Part.THERAPIST, "Cleo", ZONE, (ann.id,), user_id=1),
        Person(COVER, Part.THERAPIST, "Dina", ZONE, (), user_id=2),
    ]
    return People(phones, [ann], rules)


def opened(it: People, by: str = THERAPIST) -> People:
    """The plan of Ann is opened on that phone, as her care is now."""
    it.tell(by, Opened(it.now, Opens.PLAN, facts(it.clients[CLIENT])))
    return it


def dialogue(it: People, by: str = THERAPIST) -> Prescribing:
    found = it.persons[by].dialogue
    assert isinstance(found, Prescribing), f"no plan is written on {by}"
    return found


def ann(it: People) -> Client:
    return it.clients[CLIENT]


def at(it: People) -> str:
    return dialogue(it).at


def draft(it: People) -> Plan:
    return dialogue(it).draft


def choose(it: People, key: str, **params: str) -> People:
    """Press the button whose label has that key and these parameters (words by their key)."""

    def shown(label: Words) -> dict[str, str]:
        return {name: value.key if isinstance(value, Words) else value for name, value in label.params}

    there = [button for button in it.buttons(THERAPIST) if button.label.key == key]
    found = [button for button in there if shown(button.label).items() >= params.items()]
    assert found, f"no {key} {params}, but {[(one.label.key, shown(one.label)) for one in it.buttons(THERAPIST)]}"
    it.send(THERAPIST, found[0].press)
    return it


def drafted(it: People | None = None) -> People:
    """A draft from the first template, three days a week at nine."""
    it = it or clinic()
    choose(opened(it), "b-plan-template", template="template-hand-on")
    choose(it, "b-plan-mon-wed-fri")
    return choose(it, "plan-time", time="09:00")


def changing() -> People:
    """The plan that holds is opened to be changed."""
    return opened(clinic(plan(*ITEMS)))


def exercise(it: People, number: int) -> People:
    choose(it, "b-plan-change")
    return choose(it, "b-plan-item", number=str(number))


def prescribe(it: People) -> People:
    choose(it, "b-plan-preview")
    return choose(it, "b-plan-prescribe")


def objections(it: People) -> list[str]:
    said = [line for say in it.phone(THERAPIST).said[-1:] for line in say.words if line.key in ("plan-refused", "plan-warned")]
    found = [dict(line.params)["said"] for line in said]
    return [one.key for one in found if isinstance(one, Words)]


def with_plan(*items: Any, **more: Any) -> People:
    """A draft that stands so, opened as the plan that holds."""
    carer = more.pop("carer", True)
    people = {} if carer else {"people": replace(PEOPLE, carer=None), "joined": (CLIENT, THERAPIST)}
    return opened(clinic(plan(*items, **more), baseline=None, **people))

"""Whatever is pressed while a plan is written with the shipped library: it reads, it fits, it is never contradictory.

Each step goes through the record, as if the process were killed after it.
"""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from companion.chat.buttons import MOST_BYTES, encode
from companion.content import library
from companion.content.folders import content_dir
from companion.content.plain_words import LETTERS_IN_A_MESSAGE
from companion.content.texts import Texts
from companion.core import person as people
from companion.core.baseline import Baseline
from companion.core.dialogues import Prescribing
from companion.core.effects import Effect, Pass, Say
from companion.core.events import Event, Facts, Opened, Opens, PlanAsked, Prescribed, Pressed, Typed
from companion.core.person import Part, Person
from companion.core.plan_rules import judge, refused
from companion.core.programme import Plan, Role
from companion.store.records import Records
from tests.core.practice import MONDAY

RULES = library.load(content_dir()).rules("112")
RECORDS = Records()
TEXTS = Texts(content_dir() / "texts")
ABLE = Baseline("left", "either", "none", "no", "none", "voice", supervision="always")
BASELINES = (
    ABLE,
    replace(ABLE, tap_hand="right", orthosis="ankle_blocked", support="sturdy_chair"),
    replace(ABLE, call_for_help="none", supervision="none"),
)
TYPED = ("09:30", "45", "2027-03-01", "We go on as it is.", "", "0", "\u0661\u0662")


def shown(say: Say) -> None:
    """Every line and every button of a screen is written, and fits what the platform carries."""
    assert len("\n".join(TEXTS.text(line, "en") for line in say.words)) <= LETTERS_IN_A_MESSAGE
    labels = [TEXTS.text(button.label, "en") for button in say.buttons]
    assert len(labels) == len(set(labels)), f"two buttons read alike: {labels}"
    assert len(labels) <= 30 and all(0 < len(label) <= 64 for label in labels), labels
    assert all(len(encode(button.press)) <= MOST_BYTES for button in say.buttons)


class Walk:
    """A therapist who presses this and types that."""

    def __init__(self, baseline: Baseline, carer: str | None, plan: Plan | None = None) -> None:
        self.person = Person("ines.12", Part.THERAPIST, "Ines", "Europe/London", ("ines.12.3",), user_id=1)
        self.facts = Facts("ines.12.3", "Mara", "Europe/London", plan, baseline, carer, previous=plan)
        self.last: Say | None = None
        self.plans: list[Plan] = []
        self.do(Opened(MONDAY, Opens.PLAN, self.facts))

    def do(self, event: Event) -> None:
        decision = people.step(self.person, event, RULES)
        # the process may be killed at any moment: what is written down is all there is
        self.person = RECORDS.person(RECORDS.dump(decision.person), "a therapist")
        assert self.person == decision.person
        for effect in decision.effects:
            self._take(effect)

    def _take(self, effect: Effect) -> None:
        if isinstance(effect, Say):
            shown(effect)
            self.last = effect
        elif isinstance(effect, Pass) and isinstance(effect.event, Prescribed):
            self.plans.append(effect.event.plan)
        else:
            assert not isinstance(effect, Pass) or isinstance(effect.event, PlanAsked)

    def go(self, number: int) -> None:
        """A press of one of the buttons that stand there, or now and then typed words."""
        dialogue = self.person.dialogue
        if self.last is None or not isinstance(dialogue, Prescribing) or not self.last.buttons:
            self.do(Opened(MONDAY, Opens.PLAN, self.facts))
        elif number % 11 == 10:
            self.do(Typed(MONDAY, self.person.id, TYPED[number % len(TYPED)]))
        else:
            press = self.last.buttons[number % len(self.last.buttons)].press
            self.do(Pressed(MONDAY, self.person.id, press))


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(BASELINES), st.sampled_from([None, "Tomas"]), st.lists(st.integers(0, 10_000), min_size=20, max_size=80))
def test_whatever_is_pressed_reads_fits_and_prescribes_nothing_contradictory(
    baseline: Baseline, carer: str | None, numbers: list[int]
) -> None:
    walk = Walk(baseline, carer)
    for number in numbers:
        walk.go(number)
        if walk.plans:
            break
    for plan in walk.plans:
        assert refused(judge(plan, RULES, carer is not None)) == ()
        assert RULES.exercises[plan.exercises[0].exercise].role is Role.WARM_UP
        # who prescribed may change it at once
        again = Walk(baseline, carer, plan)
        for number in numbers:
            again.go(number)

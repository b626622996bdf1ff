"""Templates and the published length: read with file and line, prescribed for a suiting baseline, refused for another."""

from dataclasses import replace
from pathlib import Path

import pytest

from companion.content import library
from companion.content.checking import check
from companion.content.library import Library
from companion.content.plain_words import LETTERS_IN_A_MESSAGE
from companion.content.texts import Texts
from companion.core import person as people
from companion.core.baseline import Baseline
from companion.core.dialogues import Prescribing
from companion.core.effects import Pass, Say, Words
from companion.core.events import Facts, Opened, Opens, Prescribed, Pressed
from companion.core.person import Part, Person
from companion.core.programme import Template
from companion.errors import Fault, FoundWrong
from tests.core.practice import MONDAY

ABLE = Baseline("left", "either", "none", "no", "none", "voice", supervision="always")
UNSUITING = {
    "hand_on": (replace(ABLE, supervision="none", call_for_help="none"), None, ("objection-alone", "objection-no-carer")),
    "to_half_step": (replace(ABLE, supervision="none", call_for_help="none"), None, ("objection-alone", "objection-no-carer")),
    "one_leg": (replace(ABLE, support="sturdy_chair"), "Ben", ("objection-tips",)),
    "toes_and_claps": (replace(ABLE, tap_hand="right", orthosis="ankle_blocked"), "Ben",
                       ("objection-two-hands", "objection-blocked-ankle")),
    "seated": (replace(ABLE, orthosis="ankle_blocked"), "Ben", ("objection-blocked-ankle",)),
}  # fmt: skip
IDS = tuple(UNSUITING)


class Phone:
    """A therapist's phone on which the plan of one client is written, every screen rendered."""

    def __init__(self, shipped: Library, texts: Texts, baseline: Baseline, carer: str | None) -> None:
        self.rules, self.texts = shipped.rules("112"), texts
        self.person = Person("t1", Part.THERAPIST, "Cleo", "Europe/London", ("c1",), user_id=1)
        self.shown: list[str] = []
        self.passed: list[Prescribed] = []
        self._do(Opened(MONDAY, Opens.PLAN, Facts("c1", "Ann", "Europe/London", baseline=baseline, carer=carer)))

    def _do(self, event: Opened | Pressed) -> None:
        decision = people.step(self.person, event, self.rules)
        self.person = decision.person
        for effect in decision.effects:
            if isinstance(effect, Say):
                self.last = effect
                self.shown.append("\n".join(self.texts.text(line, "en") for line in effect.words))
                self.labels = [self.texts.text(button.label, "en") for button in effect.buttons]
            elif isinstance(effect, Pass) and isinstance(effect.event, Prescribed):
                self.passed.append(effect.event)

    def press(self, label: str) -> None:
        """Press the button that begins so."""
        found = [button for button, text in zip(self.last.buttons, self.labels, strict=True) if text.startswith(label)]
        assert found, f"no {label!r}, but {self.labels}"
        self._do(Pressed(MONDAY, "t1", found[0].press))

    @property
    def objections(self) -> list[str]:
        lines = [line for line in self.last.words if line.key == "plan-refused"]
        return [said.key for line in lines if not isinstance(said := dict(line.params)["said"], str)]

    def draft(self, template: str) -> "Phone":
        """The draft of a template, every weekday at nine."""
        self.press(self.texts.text(Words(f"template-{template}".replace("_", "-")), "en"))
        self.press("5 days")
        self.press("09:00")
        return self


def template(shipped: Library, name: str) -> Template:
    return next(one for one in shipped.without_number.templates if one.id == name)


def test_at_least_four_templates_are_shipped_from_the_easiest_stance_up(shipped: Library) -> None:
    assert [one.id for one in shipped.without_number.templates] == list(IDS)
    assert all(len(one.exercises) == 4 for one in shipped.without_number.templates)


@pytest.mark.parametrize("name", IDS)
def test_each_template_is_prescribed_as_it_stands_for_a_baseline_that_suits(shipped: Library, texts: Texts, name: str) -> None:
    phone = Phone(shipped, texts, ABLE, "Ben").draft(name)
    assert phone.objections == []
    phone.press("Preview")
    phone.press("Prescribe")
    (event,) = phone.passed
    assert event.plan.exercises == template(shipped, name).exercises
    assert all(len(screen) <= LETTERS_IN_A_MESSAGE for screen in phone.shown)


@pytest.mark.parametrize("name", IDS)
def test_each_template_is_refused_with_the_reason_for_a_baseline_that_does_not_suit(
    shipped: Library, texts: Texts, name: str
) -> None:
    baseline, carer, reasons = UNSUITING[name]
    phone = Phone(shipped, texts, baseline, carer).draft(name)
    assert set(phone.objections) == set(reasons)
    assert not any(label.startswith("Preview") for label in phone.labels) and phone.passed == []


def test_claps_for_one_good_hand_become_the_form_with_pat_by_one_tap(shipped: Library, texts: Texts) -> None:
    phone = Phone(shipped, texts, replace(ABLE, tap_hand="right"), "Ben").draft("toes_and_claps")
    assert phone.objections == ["objection-two-hands"]
    phone.press("Instead")
    assert phone.objections == [] and isinstance(phone.person.dialogue, Prescribing)
    assert phone.person.dialogue.draft.exercises[3].form == "toes_pat"


def test_the_preview_holds_what_the_client_reads_and_presses(shipped: Library, texts: Texts) -> None:
    phone = Phone(shipped, texts, ABLE, "Ben").draft("toes_and_claps")
    phone.press("Preview")
    assert "Weaker foot in front" in phone.shown[-1] and "[ Ready ]" in phone.shown[-1]


def test_no_template_closes_the_eyes_for_that_is_a_permission_of_its_own(copy: Path) -> None:
    path = copy / "templates" / "one_leg.yaml"
    path.write_text(path.read_text().replace(
        "{exercise: one_leg, form: foot_up, target: 15, hand: fingertips, clock: screen}",
        "{exercise: feet_together_eyes_closed, hand: one_hand, clock: carer}"))  # fmt: skip
    (fault,) = refused(copy)
    assert "closes the eyes" in fault.what and fault.where.endswith("one_leg.yaml") and fault.line == 12


@pytest.mark.parametrize(
    ("old", "new", "what", "line"),
    [
        ("id: hand_on", "id: hand_off", "not the name of the file", 2),
        ("exercise: sit_to_stand", "exercise: sit_to_stnd", 'no exercise "sit_to_stnd"', 12),
        ("target: 30", "target: 900", "no possible dose", 10),
        (", clock: screen", "", "nobody keeps the time", 10),
        ("form: side_to_side, hand: one_hand", "form: side_to_side", "is not stated", 11),
        ("rest_s: 60", "rest_s: 600", "minutes or more and the plan says 20", 6),
        ("supervision: always", "supervison: always", "is not known here", 4),
    ],
)  # fmt: skip
def test_a_template_that_can_not_be_meant_is_refused_with_file_and_line(
    copy: Path, old: str, new: str, what: str, line: int
) -> None:
    path = copy / "templates" / "hand_on.yaml"
    assert old in path.read_text()
    path.write_text(path.read_text().replace(old, new))
    found = [fault for fault in refused(copy) if what in fault.what]
    assert found, refused(copy)
    assert found[0].where.endswith("hand_on.yaml") and found[0].line == line
    assert any(what in fault.what for fault in check(copy))


def test_a_template_without_a_name_in_the_texts_is_a_fault(copy: Path) -> None:
    path = copy / "templates" / "seated.yaml"
    (copy / "templates" / "sitting.yaml").write_text(path.read_text().replace("id: seated", "id: sitting"))
    assert any('no text "template-sitting"' in fault.what for fault in check(copy))


def test_each_case_of_the_published_length_is_held_against_it(copy: Path) -> None:
    path = copy / "dose.yaml"
    path.write_text(path.read_text().replace("begin_minutes: 20", "begin_minutes: 30"))
    (fault,) = refused(copy)
    assert fault.where.endswith("dose.yaml") and "25 minutes" in fault.what and fault.line == 7


def refused(folder: Path) -> tuple[Fault, ...]:
    with pytest.raises(FoundWrong) as found:
        library.load(folder)
    return found.value.faults

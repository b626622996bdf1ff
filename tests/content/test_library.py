"""What is shipped is whole; what is broken is told with file, line and remedy."""

from pathlib import Path

import pytest

from companion.content import library
from companion.content.checking import check
from companion.content.library import Library
from companion.core.programme import (
    HAND_STAGES,
    Clock,
    Eyes,
    Hand,
    Measure,
    Patience,
    Posture,
    Rhythm,
    Role,
    Sides,
)
from companion.errors import FoundWrong

TOES, HEEL, PRESS = "exercises/one_leg_toes.yaml", "exercises/heel_to_toe.yaml", "exercises/seated_press.yaml"
CLOSED = "exercises/feet_together_eyes_closed.yaml"


def test_at_least_fourteen_exercises_are_shipped(shipped: Library) -> None:
    assert len(shipped.rules("000").exercises) >= 14


@pytest.mark.parametrize(
    "wanted",
    [
        "seated_press", "feet_together", "feet_together_eyes_closed", "half_step", "heel_to_toe", "one_leg",
        "one_leg_toes", "heel_to_toe_walk", "weight_shift", "sit_to_stand", "heel_raises", "marching",
        "step_forward", "step_side",
    ],
)  # fmt: skip
def test_the_exercises_that_were_agreed_are_there_each_with_an_easier_form(shipped: Library, wanted: str) -> None:
    exercise = shipped.rules("000").exercises[wanted]
    assert exercise.forms[0].id != exercise.usual


def test_every_standing_exercise_can_be_made_easier_by_a_hand(shipped: Library) -> None:
    for exercise in shipped.rules("000").exercises.values():
        usual = exercise.form(exercise.usual)
        if usual.posture is Posture.STANDING:
            assert set(usual.hands) & {Hand.ONE_HAND, Hand.FINGERTIPS, Hand.TWO_HANDS}, exercise.id


def test_there_is_seated_practice_for_when_the_carer_has_to_leave(shipped: Library) -> None:
    seated = [
        exercise.id
        for exercise in shipped.rules("000").exercises.values()
        if exercise.role is Role.MAIN and exercise.forms[0].posture is Posture.SEATED
    ]
    assert len(seated) >= 5


def test_an_exercise_with_closed_eyes_is_kept_by_the_carer_or_by_sound_and_has_an_open_form(shipped: Library) -> None:
    closed = shipped.rules("000").exercises["feet_together_eyes_closed"]
    assert Clock.SCREEN not in closed.clocks and Clock.CARER in closed.clocks
    assert closed.forms[0].eyes is Eyes.OPEN
    assert Hand.NONE not in closed.form(closed.usual).hands


def test_the_toe_rise_has_every_form_that_was_agreed(shipped: Library) -> None:
    toes = shipped.rules("000").exercises["one_leg_toes"]
    assert toes.sides is Sides.LEG
    for one, two in (("both_pat", "both_clap"), ("flat_pat", "flat_clap"), ("toes_pat", "toes_clap"),
                     ("shut_pat", "shut_clap")):  # fmt: skip
        assert not toes.form(one).needs_two_hands and toes.form(two).needs_two_hands
    assert toes.form("shut_count").eyes is Eyes.CLOSED and toes.form("shut_count").target == 3


def test_up_to_three_lengths_can_be_walked_and_each_of_them_told(shipped: Library) -> None:
    for form in shipped.rules("000").exercises["heel_to_toe_walk"].forms:
        assert form.most == form.counts[0] == 3
        assert form.counts == (3, 2, 1, 0)


@pytest.mark.parametrize(
    ("exercise", "form"),
    [("marching", "high"), ("step_forward", "long_step"), ("step_side", "long_step"), ("weight_shift", "heel_light"),
     ("reach", "far"), ("reach", "across")],
)  # fmt: skip
def test_the_far_end_of_these_exercises_is_done_beside_a_carer_and_the_near_end_need_not(
    shipped: Library, exercise: str, form: str
) -> None:
    found = shipped.rules("000").exercises[exercise]
    assert found.form(form).needs_carer
    assert not found.forms[0].needs_carer and not found.form(found.usual).needs_carer


def test_each_claim_on_dose_lies_inside_its_range(shipped: Library) -> None:
    for exercise in shipped.rules("000").exercises.values():
        for form in exercise.forms:
            assert form.least <= form.target <= form.most


def test_the_number_to_call_is_the_settings_and_nothing_else_changes(shipped: Library) -> None:
    one, other = shipped.rules("000"), shipped.rules("111")
    assert (one.emergency_number, other.emergency_number) == ("000", "111")
    assert one.exercises is other.exercises and one.flags == other.flags


def test_the_waits_written_in_content_reach_the_core(copy: Path) -> None:
    path = copy / "safety.yaml"
    text = path.read_text().replace("gate_s: 600", "gate_s: 601").replace("next_contact_s: 900", "next_contact_s: 901")
    path.write_text(text.replace("emergency_next_contact_s: 300", "emergency_next_contact_s: 301"))
    rules = library.load(copy).rules("000")
    assert rules.patience == Patience(gate_s=601)
    assert rules.rhythm == Rhythm(next_contact_s=901, emergency_next_contact_s=301)


def test_the_hand_stages_of_a_form_run_from_most_support_to_least(shipped: Library) -> None:
    for exercise in shipped.rules("000").exercises.values():
        for form in exercise.forms:
            assert list(form.hands) == sorted(form.hands, key=HAND_STAGES.index)


def test_timed_exercises_have_a_timekeeper_and_counted_ones_none(shipped: Library) -> None:
    for exercise in shipped.rules("000").exercises.values():
        timed = exercise.forms[0].measure is Measure.TIMED
        assert (Clock.NONE in exercise.clocks) is not timed


def broken(folder: Path, file: str, old: str, new: str) -> int:
    """Break a file of the copy at the first place of `old`; the line where `new` then stands."""
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{file} has no {old!r}"
    at = text.index(old)
    path.write_text(text[:at] + new + text[at + len(old) :], encoding="utf-8")
    return text.count("\n", 0, at) + new.count("\n") + 1


@pytest.mark.parametrize(
    ("file", "old", "new", "what", "do"),
    [
        (HEEL, "role: main", "role: mane", '"role" must be one of those known', "'warm_up' or 'main'"),
        (HEEL, "id: heel_to_toe", "id: heel_too", "not the name of the file", 'Write "heel_to_toe"'),
        (HEEL, "usual: touching", "usual: tuching", 'no form "tuching"', "touching"),
        (HEEL, "sides: front_foot", "sidez: front_foot", 'the key "sidez" is not known', 'Write "sides"'),
        (HEEL, "clocks: [screen,", "clocks: [none,", "needs somebody who keeps the time", '"none" out'),
        (HEEL, "- id: small_gap", "- id: half_step", 'the form "half_step" is here twice', "Name one"),
        (HEEL, "target: 60", "target: 600", "the usual dose 600 is outside 3 to 120", "Mend target"),
        (HEEL, "target: 60", "target: soon", '"target" must be a whole number', "digits"),
        (HEEL, "hands: [two_hands, one_hand", "hands: [one_hand, two_hands", "not in order", "Most support first"),
        (HEEL, "measure: timed", "measure: timed\n    counts: [2, 1]", "a timed form has no counts", "Take counts"),
        (HEEL, "posture: standing", "posture: standing\n    posture: standing", "twice", "Mend"),
        (HEEL, "stance: half_step", "stance: seated", "posture and stance do not agree", "Make both seated"),
        (CLOSED, "clocks: [carer,", "clocks: [screen,", "closed eyes see no screen", '"screen" out'),
        (PRESS, "clocks: [none]", "clocks: [screen]", "at the client's own pace", "[none]"),
        (PRESS, "clocks: [none]", "clocks: [none]\nasks: [steadier_side]", "and has no sides", "steadier_side out"),
        (TOES, "counts: [3, 2, 1, 0]", "counts: [3, 2, 1]", "who managed none can not say so", "Add 0"),
        (TOES, "counts: [3, 2, 1, 0]", "counts: [0, 1, 2]", "the counts are not in order", "Most first"),
        (TOES, "counts: [3, 2, 1, 0]", "counts: [4, 3, 2, 1, 0]", "more than 4 counts", "4 or fewer"),
        (TOES, "hands: [two_hands, fingertips]", "hands: [fingertips]", "starts with two hands on", "two_hands first"),
        ("safety.yaml", "gate_s: 600", "gate_s: 6", '"gate_s" must be 60 or more', "Use 60 or more"),
        ("safety.yaml", "emergency_next_contact_s: 300", "emergency_next_contact_s: 7200",
         '"emergency_next_contact_s" must be 3600 or less', "Use 3600 or less"),
        ("safety.yaml", "  gate_s: 600 #", "  gates: 600 #", 'the key "gates" is not known', 'Write "gate_s"'),
        ("safety.yaml", "signs: [balance", "signs: [Balance", "is not an id", "small letters"),
        ("red_flags.yaml", "level: emergency", "level: mild", '"level" must be one of those known', "'emergency'"),
        ("red_flags.yaml", "when: [sign.balance]", "when: [sign.blance]", 'no fact "sign.blance"', "sign.balance"),
        ("red_flags.yaml", "trips: [[sign.eyes]", "trips: [[sign.arm]", "does not trip the rule", "Mend the rule"),
        ("red_flags.yaml", "passes: [[], [near_fall]]", "passes: [[sign.balance]]", "trips the rule", "the case"),
        ("red_flags.yaml", "  - id: sign_eyes", "  - id: sign_balance", '"sign_balance" is here twice', "Name one"),
        ("red_flags.yaml", "  - [near_fall]", "  - [fall]", 'the rule "fall" is tripped', "Mend the rule"),
        ("progression.yaml", "done: 7, planned: 10, adherent: no", "done: 7, planned: 10, adherent: yes",
         "the case 7 of 10 does not hold", "Mend the rule"),
        ("progression.yaml", "efforts: [easy, medium]", "efforts: [easy, medium, hard]", "nothing is made harder", "hard out"),
        ("progression.yaml", "to: hovering}", "to: none}", "the step is less_hand to hovering", "Mend the rule"),
        ("progression.yaml", "{exercise: heel_to_toe, form: touching, target: 60, hand: none, step: nothing}",
         "{exercise: heel_to_toe, form: touching, target: 60, hand: none, step: eyes_closed}", "the step is nothing", "Mend"),
        ("progression.yaml", "exercise: marching, form: low", "exercise: marching, form: lower",
         'no exercise "marching" with a form "lower"', "Name one"),
        ("caseload.yaml", "silent_days: 3", "silent_days: 0", '"silent_days" must be 1 or more', "Use 1 or more"),
        ("progression.yaml", "order: [longer_hold, ", "order: [", "named once", "longer_hold"),
        ("carer_briefing.yaml", "tell:", "tel:", 'the key "tel" is not known', 'Write "tell"'),
    ],
)  # fmt: skip
def test_broken_content_is_told_with_file_line_and_remedy(
    copy: Path, file: str, old: str, new: str, what: str, do: str
) -> None:
    line = broken(copy, file, old, new)
    with pytest.raises(FoundWrong) as found:
        library.load(copy)
    faults = [fault for fault in found.value.faults if what in fault.what]
    assert faults, str(found.value)
    assert faults[0].where.endswith(file)
    assert faults[0].line == line
    assert do in faults[0].do


@pytest.mark.parametrize(
    ("file", "form", "gone", "what"),
    [
        (TOES, "toes_clap", "needs_free_ankle: yes", "a rise on the toes needs a free ankle"),
        (TOES, "flat_pat", "needs_carer: yes", "need a carer beside the client"),
        (CLOSED, "apart_closed", "needs_carer: yes", "need a carer beside the client"),
    ],
)
def test_a_form_that_forgets_what_makes_it_safe_is_refused(copy: Path, file: str, form: str, gone: str, what: str) -> None:
    path = copy / file
    head, mark, rest = path.read_text().partition(f"- id: {form}\n")
    path.write_text(head + mark + rest.replace(f"    {gone}\n", "", 1))
    with pytest.raises(FoundWrong) as found:
        library.load(copy)
    (fault,) = found.value.faults
    assert what in fault.what and fault.do == f"Write {gone}"


def test_an_exercise_that_begins_with_closed_eyes_is_refused(copy: Path) -> None:
    path = copy / CLOSED
    text = path.read_text()
    begin, end = text.index("  - id: apart_open"), text.index("  - id: apart_closed")
    path.write_text(text[:begin] + text[end:])
    with pytest.raises(FoundWrong, match="the easiest form has the eyes closed"):
        library.load(copy)


def test_forms_of_two_measures_are_refused(copy: Path) -> None:
    path = copy / HEEL
    path.write_text(path.read_text().replace("measure: timed", "measure: counted", 1))
    with pytest.raises(FoundWrong, match="all forms of an exercise have one measure"):
        library.load(copy)


EMERGENCIES = ("sign.balance", "sign.eyes", "sign.face", "sign.arm", "sign.speech", "sign.chest", "sign.breath",
               "sign.dizzy", "still_down")  # fmt: skip


@pytest.mark.parametrize("fact", EMERGENCIES)
def test_an_emergency_made_less_is_refused_at_its_level(copy: Path, fact: str) -> None:
    rule = f"level: emergency\n    when: [{fact}]"
    line = broken(copy, "red_flags.yaml", rule, rule.replace("emergency", "urgent")) - 1
    (fault,) = check(copy)
    assert fault.where.endswith("red_flags.yaml") and fault.line == line
    assert fact in fault.what and "never softened" in fault.what and fault.do == "Write level: emergency"


@pytest.mark.parametrize("fact", EMERGENCIES)
def test_an_emergency_without_its_rule_is_refused(copy: Path, fact: str) -> None:
    path = copy / "red_flags.yaml"
    head, *rules = path.read_text().split("  - id: ")
    path.write_text("  - id: ".join([head, *(rule for rule in rules if f"when: [{fact}]" not in rule)]))
    (fault,) = check(copy)
    assert fault.where.endswith("red_flags.yaml") and fault.line == head.count("\n")
    assert fault.what == f'no rule makes "{fact}" by itself an emergency'
    assert fault.do == f"Add a rule with level: emergency and when: [{fact}]"


def test_an_emergency_that_asks_for_one_more_fact_is_refused(copy: Path) -> None:
    broken(copy, "red_flags.yaml", "when: [sign.face]", "when: [sign.face, sign.arm]")
    with pytest.raises(FoundWrong, match=r'no rule makes "sign\.face" by itself an emergency'):
        library.load(copy)


def test_a_rule_may_be_made_graver(copy: Path) -> None:
    broken(copy, "red_flags.yaml", "level: urgent\n    when: [sign.calf]", "level: emergency\n    when: [sign.calf]")
    assert next(rule for rule in library.load(copy).without_number.flags if rule.id == "sign_calf").level == "emergency"


def test_a_sign_that_raises_nothing_is_refused(copy: Path) -> None:
    path = copy / "safety.yaml"
    path.write_text(path.read_text().replace("signs: [balance", "signs: [smell, balance"))
    with pytest.raises(FoundWrong, match='the sign "smell" is asked for and raises nothing'):
        library.load(copy)


def test_a_folder_without_exercises_is_told_by_name(tmp_path: Path) -> None:
    with pytest.raises(FoundWrong, match="there is no exercise here") as found:
        library.load(tmp_path)
    assert {"safety.yaml", "red_flags.yaml", "progression.yaml", "caseload.yaml"} <= {
        Path(fault.where).name for fault in found.value.faults
    }


def test_the_faults_of_all_files_are_told_at_once(copy: Path) -> None:
    broken(copy, HEEL, "role: main", "role: mane")
    broken(copy, PRESS, "role: warm_up", "role: warm")
    broken(copy, "safety.yaml", "gate_s: 600", "gate_s: 6")
    with pytest.raises(FoundWrong) as found:
        library.load(copy)
    assert len({fault.where for fault in found.value.faults}) == 3

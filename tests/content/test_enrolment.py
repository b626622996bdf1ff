"""An enrolment file becomes people and plans, or is refused with file, line and remedy."""

from datetime import time
from pathlib import Path

import pytest

from companion.content import enrolment
from companion.content.enrolment import Enrolment
from companion.content.library import Library
from companion.content.texts import Texts
from companion.core.baseline import asked_at_a_visit
from companion.core.duty import Hours
from companion.core.intake import fit
from companion.core.ladder import ladder
from companion.core.programme import Clock, Hand, Side
from companion.errors import Fault, FoundWrong

PLAIN = """\
people:
  ines: {role: therapist, name: Ines, zone: Europe/London, user_id: 1}
  rafe: {role: therapist, name: Rafe, zone: Europe/London}
  mara: {role: client, name: Mara, zone: Europe/London, user_id: 2}
  tomas: {role: carer, name: Tomas, zone: Europe/London, user_id: 3}
clients:
  mara:
    therapist: ines
    carer: tomas
    contacts: [rafe]
    plan:
      practice: {days: [mon, wed, fri], times: ["10:30"]}
      report: {day: mon, time: "08:30"}
      place: {support: worktop, footwear: shoes, chair_behind: yes}
      baseline: {one_good_hand: yes, ankle_blocked: no, blood_thinner: no, can_call_for_help: yes}
      supervision: when_form_needs
      eyes_closed: no
      exercises:
        - exercise: seated_press
        - {exercise: heel_to_toe, hand: hovering, clock: screen}
        - {exercise: one_leg_toes, form: toes_pat, hand: fingertips}
"""
PRESS = "- exercise: seated_press"
HEEL = "- {exercise: heel_to_toe, hand: hovering, clock: screen}"
TOES = "- {exercise: one_leg_toes, form: toes_pat, hand: fingertips}"
CARER = "    carer: tomas\n"


@pytest.fixture
def enrol(tmp_path: Path, shipped: Library, texts: Texts) -> "Enrol":
    return Enrol(tmp_path / "people.yaml", shipped, texts)


class Enrol:
    """Reads a text as an enrolment file."""

    def __init__(self, path: Path, library: Library, texts: Texts) -> None:
        self.path, self.library, self.texts = path, library, texts

    def __call__(self, text: str) -> Enrolment:
        self.path.write_text(text, encoding="utf-8")
        return enrolment.load(self.path, self.library, self.texts)

    def refused(self, text: str) -> tuple[Fault, ...]:
        with pytest.raises(FoundWrong) as found:
            self(text)
        return found.value.faults


def test_people_and_plan_are_what_was_written(enrol: Enrol) -> None:
    found = enrol(PLAIN)
    assert [(person.id, person.role, person.user_id) for person in found.people] == [
        ("ines", "therapist", 1), ("rafe", "therapist", None), ("mara", "client", 2), ("tomas", "carer", 3),
    ]  # fmt: skip
    (client,) = found.clients
    assert (client.id, client.name, client.zone) == ("mara", "Mara", "Europe/London")
    assert client.people.therapist == "ines" and client.people.carer == "tomas"
    assert client.people.contacts == ("rafe",) and client.people.name("rafe") == "Rafe"
    assert client.plan.practice.weekdays == (0, 2, 4) and client.plan.practice.times == (time(10, 30),)
    assert client.plan.report.zone == "Europe/London" and client.plan.report.at == time(8, 30)


def test_what_is_left_out_of_an_exercise_is_as_usual_and_opens_nothing_harder(enrol: Enrol) -> None:
    press, heel, toes = enrol(PLAIN).clients[0].plan.exercises
    assert (press.form, press.target, press.clock) == ("edge", 10, Clock.NONE)
    assert (heel.form, heel.target, heel.hardest, heel.hand_hardest) == ("touching", 60, "touching", Hand.HOVERING)
    assert toes.hardest == "toes_pat"


def test_nothing_harder_is_on_the_ladder_of_a_plan_that_opens_nothing(enrol: Enrol) -> None:
    plan = enrol(PLAIN).clients[0].plan
    for planned in plan.exercises:
        exercise = enrol.library.without_number.exercises[planned.exercise]
        rungs = ladder(planned, exercise, plan, True)
        assert rungs and rungs[-1].eased == 0


def test_what_the_plan_opens_is_on_the_ladder(enrol: Enrol) -> None:
    plan = enrol(PLAIN.replace(HEEL, HEEL.replace("}", ", hand_hardest: none}"))).clients[0].plan
    exercise = enrol.library.without_number.exercises["heel_to_toe"]
    assert ladder(plan.exercises[1], exercise, plan, True)[-1].hand is Hand.NONE


def test_the_stronger_leg_comes_first_and_the_weaker_foot_is_first_in_front(enrol: Enrol) -> None:
    _, heel, toes = enrol(PLAIN).clients[0].plan.exercises
    assert heel.sides == (Side.WEAKER, Side.STRONGER)
    assert toes.sides == (Side.STRONGER, Side.WEAKER)


def test_a_plan_without_carer_and_without_what_needs_one_is_taken(enrol: Enrol) -> None:
    found = enrol(PLAIN.replace(CARER, "").replace(f"        {TOES}\n", ""))
    assert found.clients[0].people.carer is None


def test_several_clients_stand_in_one_file(enrol: Enrol) -> None:
    second = PLAIN[PLAIN.index("  mara:\n    therapist") :].replace("  mara:\n", "  oona:\n").replace(CARER, "")
    people = "  oona: {role: client, name: Oona, zone: Europe/Lisbon}\nclients:\n"
    found = enrol(PLAIN.replace("clients:\n", people) + second.replace(f"        {TOES}\n", ""))
    assert [client.id for client in found.clients] == ["mara", "oona"]
    assert found.clients[1].zone == "Europe/Lisbon" and found.clients[1].plan.report.zone == "Europe/London"


INES = "ines: {role: therapist, name: Ines,"


def test_a_therapist_may_have_hours_and_a_deputy(enrol: Enrol) -> None:
    duty = "hours: {days: [fri, mon], start: '22:00', end: '06:00'}, deputy: rafe,"
    ines = enrol(PLAIN.replace(INES, f"{INES} {duty}")).people[0]
    assert ines.hours == Hours((0, 4), time(22), time(6))
    assert (ines.deputy, ines.deputy_name) == ("rafe", "Rafe")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (INES, f"{INES} deputy: ines,", "can not stand in for themselves"),
        (INES, f"{INES} deputy: tomas,", "enrolled as carer and is named here as therapist"),
        (INES, f"{INES} deputy: nobody,", 'there is no person "nobody"'),
        ("tomas: {role: carer,", "tomas: {role: carer, deputy: rafe,", "only a therapist has deputy"),
        ("mara: {role: client,", "mara: {role: client, hours: {days: [mon], start: '08:00', end: '16:00'},", "has hours"),
    ],
)
def test_hours_and_deputy_that_can_not_be_are_refused(enrol: Enrol, old: str, new: str, said: str) -> None:
    faults = enrol.refused(PLAIN.replace(old, new))
    assert [said in fault.what for fault in faults] == [True]


def test_a_file_may_hold_therapists_only(enrol: Enrol) -> None:
    found = enrol(PLAIN[: PLAIN.index("  mara:")])
    assert [person.id for person in found.people] == ["ines", "rafe"] and found.clients == ()


def test_the_digest_is_due_when_the_report_of_the_first_client_is(enrol: Enrol) -> None:
    ines, rafe, *_ = enrol(PLAIN).people
    assert ines.digest == enrol(PLAIN).clients[0].plan.report
    assert rafe.digest is None


def test_the_example_that_is_shipped_is_taken(shipped: Library, texts: Texts, tmp_path: Path, example: str) -> None:
    assert "invented" in example.lower()
    path = tmp_path / "example.yaml"
    path.write_text(example)
    assert len(enrolment.load(path, shipped, texts).clients) == 1


def planned(line: str) -> tuple[str, str]:
    """A change that puts one more exercise, on a line of its own, at the end of the plan."""
    return TOES, f"{TOES}\n        - {line}"


@pytest.mark.parametrize(
    ("old", "new", "what", "do"),
    [
        # people
        ("zone: Europe/London, user_id: 2", "zone: Europe/Lodnon, user_id: 2", 'no time zone "Europe/Lodnon"', "Europe"),
        ("zone: Europe/London, user_id: 2", "zone: ../etc/passwd, user_id: 2", "there is no time zone", "Europe"),
        ("zone: Europe/London, user_id: 2", "zone: '', user_id: 2", "one line of text", "1 to 200"),
        ("user_id: 3", "user_id: 2", '"tomas" and "mara" have one user id, 2', "phone of their own"),
        ("user_id: 3", "user_id: tomas", '"user_id" must be a whole number', "digits"),
        ("user_id: 3", "user_id: 99999999999999999", '"user_id" must be', "or less"),
        ("user_id: 3", "user_id: -1", '"user_id" must be 1 or more', "1 or more"),
        ("role: carer", "role: helper", '"role" must be one of those known', "'carer'"),
        ("name: Tomas", "nmae: Tomas", 'the key "nmae" is not known', 'Write "name"'),
        ("name: Tomas", f"name: {'a' * 31}", "longer than 30", "called by"),
        ("name: Tomas", "name: Tomas, language: xx", 'no texts in "xx"', "Use en"),
        ("  tomas: {", "  a_helper_with_a_long_id: {", "longer than 16", "shorter"),
        ("  rafe: {", "  Rafe: {", "is not an id", "small letters"),
        ("  rafe: {role: therapist", "  rafe: {role: client", '"rafe" has no plan', 'Add "rafe" under clients'),
        # who is who
        ("therapist: ines", "therapist: inez", 'no person "inez"', 'Write "ines"'),
        ("therapist: ines", "therapist: tomas", '"tomas" is enrolled as carer', "Name another"),
        ("carer: tomas", "carer: rafe", '"rafe" is enrolled as therapist', "Name another"),
        ("contacts: [rafe]", "contacts: [rafe, rafe]", '"rafe" is told already', "out"),
        ("contacts: [rafe]", "contacts: [ines]", '"ines" is told already', "out"),
        ("contacts: [rafe]", "contacts: [mara]", '"mara" is enrolled as client', "Name another"),
        ("contacts: [rafe]", "contacts: [nobody]", 'no person "nobody"', "under people"),
        # the plan
        ("days: [mon, wed", "days: [monday, wed", "must be one of those known", "'mon'"),
        ('times: ["10:30"]', 'times: ["10:60"]', "is not a time of day", "09:30"),
        ('times: ["10:30"]', "times: [10]", "is not a time of day", "09:30"),
        ('times: ["10:30"]', "times: []", '"times" needs 1 or more', "Add"),
        ("support: worktop", "support: trolley", 'no words for the support "trolley"', "worktop"),
        ("footwear: shoes", "footwear: socks", 'no words for the footwear "socks"', "barefoot"),
        ("one_good_hand: yes, ", "", '"one_good_hand" is missing', "Add it"),
        ("blood_thinner: no, ", "", '"blood_thinner" is missing', "Add it"),
        ("blood_thinner: no", "blood_thinner: maybe", '"blood_thinner" must be yes or no', "yes or no"),
        ("      eyes_closed: no\n", "", '"eyes_closed" is missing', "Add it"),
        ("eyes_closed: no", "eyes_closed: no\n      into_place_s: 15", '"into_place_s" must be', "10, 20 or 30"),
        ("eyes_closed: no", "eyes_closed: no\n      minutes: 5", "minutes or more and the plan says 5", "or plan less"),
        ("supervision: when", "supervison: when", 'the key "supervison" is not known', 'Write "supervision"'),
        # one exercise
        (HEEL, HEEL.replace("heel_to_toe", "heel_to_to"), 'no exercise "heel_to_to"', '"heel_to_toe"'),
        (HEEL, HEEL.replace("}", ", form: tuching}"), 'has no form "tuching"', "touching"),
        (HEEL, HEEL.replace("}", ", hardest: tuching}"), 'has no form "tuching"', "touching"),
        (HEEL, HEEL.replace("}", ", target: 3600}"), "3600 s is no possible dose", "Use 3 to 120"),
        (HEEL, HEEL.replace("}", ", target: 0}"), "0 s is no possible dose", "Use 3 to 120"),
        (TOES, TOES.replace("}", ", target: 300}"), "300 times is no possible dose", "Use 1 to 3"),
        (PRESS, "- {exercise: seated_press, target: 1000}", "1000 times is no possible dose", "Use 3 to 20"),
        (HEEL, HEEL.replace("clock: screen", "clock: sound, target: 4"), "has no room for its tones", "5 s or more"),
        (HEEL, HEEL.replace("clock: screen", "clock: none"), 'on the clock "none"', "screen or carer or sound"),
        (HEEL, HEEL.replace(", clock: screen", ""), "nobody keeps the time", "screen or carer"),
        (TOES, TOES.replace("}", ", clock: screen}"), 'on the clock "screen"', "Use none"),
        (HEEL, HEEL.replace("hand: hovering, ", ""), "is not stated", "Use one_hand"),
        (HEEL, HEEL.replace("hovering", "two_hands"), "the client has one good hand", "Use one_hand"),
        (TOES, TOES.replace("fingertips", "none"), "is not done so", "fingertips"),
        (HEEL, HEEL.replace("}", ", hand_hardest: one_hand}"), "opens nothing harder", "less support"),
        (HEEL, HEEL.replace("}", ", hardest: half_step}"), 'hardest form "half_step" is easier', "touching"),
        (PRESS, "- {exercise: seated_press, sides: [weaker]}", "has no sides", "Take sides out"),
        (HEEL, HEEL.replace("}", ", sides: [weaker, weaker]}"), "a side is named twice", "once"),
        (*planned("{exercise: heel_to_toe, hand: hovering, clock: screen}"), "in the plan twice", "Keep one"),
        # contradictions
        (TOES, TOES.replace("toes_pat", "toes_clap"), "needs two good hands", 'form for one hand, "toes_pat"'),
        (TOES, TOES.replace("}", ", hardest: shut_pat}"), "closes the eyes and the plan does not permit", "eyes_closed"),
        (TOES, TOES.replace("}", ", hardest: toes_clap}"), "needs two good hands", 'form for one hand, "toes_pat"'),
        ("ankle_blocked: no", "ankle_blocked: yes", "needs an ankle that is not blocked", "flat_pat"),
        (*planned("{exercise: feet_together_eyes_closed, hand: one_hand, clock: carer}"),
         "closes the eyes and the plan does not permit", "eyes_closed: yes"),
        (f"        {PRESS}\n", "", "does not begin with a warm-up", "feet_together, seated_press"),
        (*planned("{exercise: feet_together, hand: one_hand, clock: screen}"), "a warm-up comes after", "before"),
        (CARER, "", "needs a carer and none is named", "Name one"),
    ],
)  # fmt: skip
def test_a_file_that_can_not_be_meant_is_refused_with_line_and_remedy(
    enrol: Enrol, old: str, new: str, what: str, do: str
) -> None:
    assert old in PLAIN
    text = PLAIN.replace(old, new, 1)
    faults = enrol.refused(text)
    found = [fault for fault in faults if what in fault.what]
    assert found, "\n".join(map(str, faults))
    assert found[0].where.endswith("people.yaml") and do in found[0].do, str(found[0])
    assert found[0].line is not None and 1 <= found[0].line <= text.count("\n")


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("user_id: 3", "user_id: 2", 5),
        ("therapist: ines", "therapist: inez", 8),
        ("support: worktop", "support: trolley", 14),
        (HEEL, HEEL.replace("clock: screen", "clock: none"), 20),
        (TOES, TOES.replace("toes_pat", "toes_clap"), 21),
        (TOES, "- exercise: one_leg_toes\n          form: toes_pat\n          hand: none", 23),
    ],
)
def test_the_line_is_the_one_to_mend(enrol: Enrol, old: str, new: str, line: int) -> None:
    assert [fault.line for fault in enrol.refused(PLAIN.replace(old, new, 1))] == [line]


@pytest.mark.parametrize("walk", ["heel_to_toe_walk", "one_leg"])
def test_one_leg_and_walking_are_refused_without_a_carer(enrol: Enrol, walk: str) -> None:
    clock = "" if walk == "heel_to_toe_walk" else ", clock: screen"
    text = PLAIN.replace(CARER, "").replace(TOES, f"- {{exercise: {walk}, hand: one_hand{clock}}}")
    (fault,) = enrol.refused(text)
    assert "needs a carer and none is named" in fault.what


def test_standing_is_refused_to_somebody_alone_who_can_not_call_for_help(enrol: Enrol) -> None:
    text = PLAIN.replace(CARER, "").replace(f"        {TOES}\n", "")
    text = text.replace("can_call_for_help: yes", "can_call_for_help: no")
    (fault,) = enrol.refused(text)
    assert "alone, by a client who can not call for help" in fault.what and '"heel_to_toe"' in fault.what
    assert enrol(text.replace(f"        {HEEL}\n", "")).clients[0].plan.can_call_for_help is False


@pytest.mark.parametrize(
    "item",
    [
        "one_leg, hand: one_hand, clock: screen",
        "one_leg, form: toes_rest, hand: one_hand, clock: screen",
        "one_leg_toes, form: both_pat, hand: fingertips",
        "heel_to_toe_walk, hand: one_hand",
    ],
)
def test_a_chair_is_no_support_for_one_leg_or_walking(enrol: Enrol, item: str) -> None:
    text = PLAIN.replace(TOES, f"- {{exercise: {item}}}")
    (fault,) = enrol.refused(text.replace("worktop", "sturdy_chair"))
    assert fault.where.endswith("people.yaml") and fault.line == 14
    assert "a chair can tip" in fault.what and f'"{item.partition(",")[0]}"' in fault.what
    assert "worktop, sink, rail or heavy_table" in fault.do
    for support in ("worktop", "sink", "rail", "heavy_table"):
        assert enrol(text.replace("worktop", support)).clients[0].plan.place.support == support


def test_a_chair_is_a_support_for_what_is_done_on_two_feet(enrol: Enrol) -> None:
    text = PLAIN.replace(f"        {TOES}\n", "").replace("worktop", "sturdy_chair")
    assert enrol(text).clients[0].plan.place.support == "sturdy_chair"


def test_closed_eyes_are_taken_with_the_permission_and_a_clock_that_is_heard(enrol: Enrol) -> None:
    item = "{exercise: feet_together_eyes_closed, hand: one_hand, clock: carer}"
    text = PLAIN.replace(*planned(item)).replace("eyes_closed: no", "eyes_closed: yes")
    for clock in ("carer", "sound"):
        assert enrol(text.replace("clock: carer", f"clock: {clock}")).clients[0].plan.eyes_closed
    (fault,) = enrol.refused(text.replace("clock: carer", "clock: screen"))
    assert "can not be done on the clock" in fault.what and fault.do == "Use carer or sound"


def test_a_carer_who_is_always_wanted_must_be_named(enrol: Enrol) -> None:
    text = PLAIN.replace(CARER, "").replace("when_form_needs", "always").replace(f"        {TOES}\n", "")
    (fault,) = enrol.refused(text)
    assert fault.what == "a carer is always wanted and none is named" and fault.line == 15


def test_a_carers_clock_needs_a_carer(enrol: Enrol) -> None:
    text = PLAIN.replace(CARER, "").replace(f"        {TOES}\n", "").replace("clock: screen", "clock: carer")
    (fault,) = enrol.refused(text)
    assert fault.what == "the carer keeps the time and none is named"


def test_all_faults_are_told_at_once_in_the_order_of_the_lines(enrol: Enrol) -> None:
    text = PLAIN.replace("user_id: 3", "user_id: 2").replace("worktop", "trolley").replace("toes_pat", "toes_clap")
    lines = [fault.line for fault in enrol.refused(text)]
    assert len(lines) == 3 and lines == sorted(lines, key=lambda line: line or 0)


@pytest.mark.parametrize("found", ["one_good_hand: yes", "one_good_hand: no"])
@pytest.mark.parametrize("more", ["ankle_blocked: no, blood_thinner: yes", "ankle_blocked: no, blood_thinner: no"])
def test_what_the_file_says_of_a_client_fits_its_own_plan_and_nobody_asked_for_the_rest(
    enrol: "Enrol", found: str, more: str
) -> None:
    text = PLAIN.replace("one_good_hand: yes, ankle_blocked: no, blood_thinner: no", f"{found}, {more}")
    (mara,) = enrol(text).clients
    assert fit(mara.plan, mara.baseline) == mara.plan
    assert mara.baseline.weaker_side == mara.baseline.falls_last_year == "unknown"
    assert not asked_at_a_visit(mara.baseline)


def test_a_weaker_side_in_the_file_is_for_the_pictures_and_no_visit(enrol: "Enrol") -> None:
    (mara,) = enrol(PLAIN.replace("{one_good_hand", "{weaker_side: left, one_good_hand")).clients
    assert mara.baseline.weaker_side == "left"
    assert not asked_at_a_visit(mara.baseline)

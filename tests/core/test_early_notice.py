"""Early notice of getting worse: the therapist hears of it quietly and once, practice goes on, nothing harder is proposed."""

from dataclasses import replace
from datetime import timedelta

import pytest

from companion.core.caseload import Reason, look
from companion.core.effects import Report, Say, Sheet, Urgency
from companion.core.events import Assessed, Control, CoverAgreed, Prescribed
from companion.core.observations import Course, CourseNoted, Proposed
from companion.core.programme import Direction
from tests.core.home import Home, holding, home
from tests.core.practice import CARER, CLIENT, MONDAY, RULES, THERAPIST, full_plan
from tests.core.test_proposals import DAY, OTHER, broken, practised, the_plan


def assess(it: Home, course: Course, p: float | None = 0.004, earlier: int = 40) -> Home:
    it.do(Assessed(it.now, course, earlier, p))
    return it


def noted(it: Home) -> list[Course]:
    return [one.course for one in it.all(CourseNoted)]


def told(it: Home, who: str) -> list[Say]:
    return [say for say in it.phone(who).said if any(line.key == "lower-noticed" for line in say.words)]


def assessments(it: Home) -> list[Report]:
    return [one for one in it.reports if one.sheet is Sheet.ASSESSED]


def test_a_session_with_bouts_asks_once_to_be_assessed() -> None:
    it = home(full_plan()).start().check().finish(("clean",))
    assert [(one.to, one.first, one.last) for one in assessments(it)] == [(CLIENT, MONDAY.date(), MONDAY.date())]


def test_a_session_cut_off_by_a_red_flag_is_assessed_by_what_was_done_before() -> None:
    it = holding()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert it.ended[-1].done == 1 and len(assessments(it)) == 1


def test_a_session_without_a_bout_is_not_assessed() -> None:
    it = home(full_plan()).start()
    it.row(CLIENT, Control.ENOUGH)
    assert [one.done for one in it.ended] in ([], [0]) and assessments(it) == []


def test_low_is_noted_and_each_therapist_hears_of_it_without_a_sound() -> None:
    it = home(full_plan())
    it.do(CoverAgreed(it.now, THERAPIST, OTHER, "Ola", it.now, it.now + 7 * DAY))
    assess(it, Course.LOW)
    assert it.client.lower_since == it.now
    assert it.all(CourseNoted) == [CourseNoted(it.now, Course.LOW, 40, 0.004)]
    for who in (THERAPIST, OTHER):
        (said,) = told(it, who)
        assert said.silent and said.urgency is Urgency.ANSWER
        assert dict(said.words[0].params) == {"name": it.client.name, "earlier": "40"}
        assert [(one.press.scope, one.press.choice) for one in said.buttons] == [("page", "open")]


def test_nothing_is_said_to_client_or_carer_and_practice_goes_on() -> None:
    it = home(full_plan())
    before = it.client
    assess(it, Course.LOW)
    assert not it.phone(CLIENT).said and not it.phone(CARER).said
    assert it.client.hold is None and it.client.day == before.day
    it.start().check().finish(("clean",))
    assert it.ended[-1].done


def test_it_is_told_once_while_it_stands() -> None:
    it = home(full_plan())
    for _ in range(3):
        assess(it, Course.LOW)
        it.wait(60)
    assert noted(it) == [Course.LOW] and len(told(it, THERAPIST)) == 1


@pytest.mark.parametrize(("course", "p"), [(Course.BETWEEN, 0.08), (Course.TOO_FEW, None)])
def test_between_and_too_few_leave_things_as_they_are(course: Course, p: float | None) -> None:
    it = assess(home(full_plan()), course, p)
    assert it.client.lower_since is None and noted(it) == []
    since = assess(it, Course.LOW).client.lower_since
    it.wait(60)
    assert assess(it, course, p).client.lower_since == since and noted(it) == [Course.LOW]


def test_usual_again_ends_it_and_is_noted_without_a_message() -> None:
    it = assess(home(full_plan()), Course.LOW)
    said = len(it.phone(THERAPIST).said)
    it.wait(60)
    assess(it, Course.USUAL, 0.4)
    assert it.client.lower_since is None and noted(it) == [Course.LOW, Course.USUAL]
    assert len(it.phone(THERAPIST).said) == said
    assess(it, Course.USUAL, 0.5)
    assert noted(it) == [Course.LOW, Course.USUAL]


def test_a_new_plan_ends_it_and_the_record_says_that_nothing_was_tested() -> None:
    it = assess(home(the_plan()), Course.LOW)
    plan = it.client.plan
    assert plan is not None
    it.do(Prescribed(it.now, replace(plan, version=plan.version + 1), THERAPIST, "easier"))
    assert it.client.lower_since is None and it.all(CourseNoted)[-1] == CourseNoted(it.now, Course.TOO_FEW, 0, None)


def test_a_client_who_is_discharged_is_not_noticed() -> None:
    it = home(full_plan(), discharged_at=MONDAY)
    assert noted(assess(it, Course.LOW)) == [] and not told(it, THERAPIST)


def test_it_stands_on_the_list_below_flags_and_falls_and_above_silence() -> None:
    it = assess(home(full_plan()), Course.LOW)
    assert look(it.client, it.now, RULES).reasons == (f"lower:{MONDAY.date()}",)
    order = list(Reason)
    assert order.index(Reason.NEAR_FALL) < order.index(Reason.LOWER) < order.index(Reason.SILENT)


def test_nothing_harder_is_proposed_while_it_stands() -> None:
    free = practised(home(the_plan()), 3)
    assert [one.direction for one in free.all(Proposed)] == [Direction.UP]
    lower = practised(home(the_plan(), lower_since=MONDAY - timedelta(days=1)), 3)
    assert lower.all(Proposed) == []


def test_a_step_back_is_still_proposed_while_it_stands() -> None:
    it = practised(home(the_plan(), lower_since=MONDAY - timedelta(days=1)), 3, "not_quite", "q1", "step")
    assert [one.direction for one in it.all(Proposed)] == [one.direction for one in broken().all(Proposed)] == [Direction.BACK]

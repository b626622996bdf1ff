"""What a therapist measured reaches the care and is recorded, for therapists only."""

from datetime import date, timedelta

import pytest

from companion.core.care import Cover, Hold
from companion.core.caseload import look
from companion.core.effects import Pass, Record, Report, Say, Sheet, Subject
from companion.core.events import Opened, Opens, Press, ReviewDone
from companion.core.observations import Reviewed
from companion.core.programme import Level
from companion.core.review_values import ReviewValues
from tests.core.people import People
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, RULES, STRANGER, THERAPIST, plan, planned
from tests.core.reviewer import DEE, ann, page, reviewed, visit

DAY = timedelta(days=1)
FOUND = ReviewValues(berg=41, decade=70)
TODAY = MONDAY.date()
HOLD = Hold("f1", "fall", Level.URGENT, ("fall",), CLIENT, MONDAY)


def done(it: People, by: str = THERAPIST, values: ReviewValues = FOUND) -> People:
    it.do(Subject("client", "c1"), ReviewDone(it.now, by, values))
    return it


def asked_again(it: People) -> str:
    """The line that the page answers with, when the reviews are asked for."""
    reply = page(it, "reviews").replies[-1]
    return reply.key if reply is not None else ""


def told(it: People) -> set[str]:
    return {say.to for say in it.all(Say)}


def test_a_review_is_recorded_and_who_entered_it_gets_the_page_of_all_reviews() -> None:
    it = done(visit(since=MONDAY - 30 * DAY))
    assert reviewed(it) == [Reviewed(MONDAY, THERAPIST, FOUND)]
    assert it.keys(THERAPIST) == ["review-kept"] and told(it) == {THERAPIST}
    assert it.all(Report) == [Report(THERAPIST, TODAY - 30 * DAY, TODAY, Sheet.REVIEWS)]


@pytest.mark.parametrize("by", [DEE, STRANGER, CONTACT, CLIENT, CARER])
def test_nothing_is_kept_of_anybody_who_does_not_see_to_the_client(by: str) -> None:
    it = visit()
    was = ann(it)
    done(it, by)
    assert ann(it) == was and not it.all(Record) and not it.all(Report)
    assert it.keys(by) == ([] if by in (CLIENT, CARER) else ["not-your-client"])


def test_who_covers_reviews_too_and_no_longer_when_the_cover_is_over() -> None:
    it = done(visit(cover=Cover(DEE, MONDAY, MONDAY + DAY, begun=True)), DEE)
    assert [one.by for one in reviewed(it)] == [DEE] and it.all(Report)[0].to == DEE
    it.now += DAY
    assert len(reviewed(done(it, DEE))) == 1 and it.keys(DEE) == ["not-your-client"]


def test_a_red_flag_does_not_prevent_a_review_and_a_review_does_not_lift_it() -> None:
    it = visit(hold=HOLD)
    page(it, "review")
    assert [one.event.what for one in it.all(Pass) if isinstance(one.event, Opened)] == [Opens.REVIEW]
    assert len(reviewed(done(it))) == 1 and ann(it).hold == HOLD


def test_a_discharged_client_takes_none_and_the_therapist_hears_why() -> None:
    it = visit(discharged_at=MONDAY)
    page(it, "review")
    assert it.replies[-1] is not None and it.replies[-1].key == "review-discharged" and not it.all(Pass)
    done(it)
    assert it.keys(THERAPIST) == ["review-discharged"] and not reviewed(it) and not it.all(Report)


def test_the_reviews_can_be_seen_again_from_the_page_also_after_discharge() -> None:
    it = visit()
    assert asked_again(it) == "review-none" and not it.all(Report)
    done(it)
    it.now += 3 * DAY
    assert asked_again(it) == "review-comes"
    assert it.all(Report) == [Report(THERAPIST, TODAY, TODAY + 3 * DAY, Sheet.REVIEWS)]
    it = visit(discharged_at=MONDAY, first_review=TODAY - DAY, last_review=TODAY - DAY)
    assert asked_again(it) == "review-comes"


def test_a_review_before_the_first_plan_stays_on_the_page() -> None:
    it = done(visit(of=None))
    it.now += 10 * DAY
    done(it)
    assert it.all(Report)[0].first == TODAY and it.all(Report)[0].last == TODAY + 10 * DAY
    assert (ann(it).first_review, ann(it).last_review) == (TODAY, TODAY + 10 * DAY)
    late = visit(since=MONDAY + 2 * DAY, first_review=TODAY, last_review=TODAY)
    late.now += 3 * DAY
    assert asked_again(late) and late.all(Report)[0].first == TODAY


def test_nobody_else_gets_the_reviews_from_the_page() -> None:
    it = visit(first_review=TODAY, last_review=TODAY)
    for by in (CLIENT, CARER, CONTACT, DEE, STRANGER):
        for choice in ("review", "reviews"):
            page(it, choice, by)
            assert it.replies[-1] is not None and it.replies[-1].key == "press-not-yours"
            assert not it.all(Report) and not it.all(Pass) and not it.all(Say)


@pytest.mark.parametrize(
    ("due", "says"),
    [(TODAY - DAY, False), (TODAY, False), (TODAY + DAY, True)],
    ids=["before the review", "on its day", "after it"],
)
def test_a_review_that_was_due_by_that_day_is_done(due: date, says: bool) -> None:
    it = visit(of=plan(planned("press"), review_on=due))
    it.now += 2 * DAY
    assert f"review:{due}" in look(ann(it), it.now, RULES).reasons
    it.now -= 2 * DAY
    done(it)
    assert (f"review:{due}" in look(ann(it), it.now + 2 * DAY, RULES).reasons) is says


def test_the_page_says_when_the_last_review_was_entered() -> None:
    it = visit()
    page(it, "open")
    assert "page-reviewed" not in it.keys(THERAPIST)
    page(done(it), "open")
    assert "page-reviewed" in it.keys(THERAPIST)


def test_nothing_of_a_review_reaches_the_clients_home_ever() -> None:
    """Not at once, and not in the days after it, whatever is asked for there."""
    with_review, without = done(visit(since=MONDAY - 9 * DAY)), visit(since=MONDAY - 9 * DAY)
    for it in (with_review, without):
        it.wait(3 * 86400)
        it.send(CLIENT, Press("c1", "menu", "more", "week"))
    assert without.phone(CLIENT).said, "nobody asked for anything there"
    for who in (CLIENT, CARER, CONTACT):
        assert with_review.phone(who).said == without.phone(who).said

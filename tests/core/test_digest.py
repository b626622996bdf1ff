"""The therapist's digest: at their own time, once a week, for all clients; then the charts of those with something to see."""

from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import Any

import pytest

from companion.core import client as care
from companion.core import person as people
from companion.core.effects import ClearButtons, Digest, Effect, LookUp, Pass, Report
from companion.core.events import ChartDue, Entry, Event, Found, Joined, Pressed, Woke
from companion.core.person import Part, Person
from companion.core.programme import ReportTime
from tests.core.practice import MONDAY, RULES, THERAPIST, client, plan

ZONE = "Europe/London"
TIME = ReportTime(0, time(8), ZONE)
LOOK, CALM, GONE = (
    Entry("c1", "Edda", ("silent:2026-03-01",)),
    Entry("c2", "Tove"),
    Entry("c3", "Per", ("discharged:2026-02-01",)),
)


def therapist(**fields: Any) -> Person:
    made = Person(THERAPIST, Part.THERAPIST, "Ines", ZONE, ("c1", "c2"), user_id=1, digest=TIME, digested_at=MONDAY)
    return replace(made, **fields)


def done(person: Person, event: Event) -> tuple[Person, tuple[Effect, ...]]:
    decided = people.step(person, event, RULES)
    return decided.person, decided.effects


def found(person: Person, *entries: Entry, what: str = "digest", at: datetime = MONDAY) -> tuple[Effect, ...]:
    return done(person, Found(at, what, 0, len(entries), entries))[1]


def charts(effects: tuple[Effect, ...]) -> list[str]:
    return [one.to.id for one in effects if isinstance(one, Pass) and isinstance(one.event, ChartDue)]


def test_it_is_due_at_the_therapists_own_time_and_asked_for_once() -> None:
    moment = people.wake_at(therapist(), RULES)
    assert moment is not None and moment.weekday() == 0 and moment > MONDAY
    early, nothing = done(therapist(), Woke(moment - timedelta(seconds=1)))
    assert nothing == ()
    after, effects = done(early, Woke(moment))
    assert effects == (LookUp("digest"),)
    following = people.wake_at(after, RULES)
    assert following is not None and following > moment
    assert done(after, Woke(moment))[1] == ()


def test_after_weeks_away_one_digest_stands_for_all() -> None:
    late = MONDAY + timedelta(days=40)
    after, effects = done(therapist(), Woke(late))
    following = people.wake_at(after, RULES)
    assert effects == (LookUp("digest"),) and following is not None and following > late


def test_who_joins_without_a_time_gets_monday_morning_in_their_own_zone() -> None:
    new = therapist(digest=None, digested_at=None)
    joined, _ = done(new, Joined(MONDAY, THERAPIST))
    assert joined.digest == TIME and joined.digested_at == MONDAY


@pytest.mark.parametrize("part", [Part.CLIENT, Part.CARER, Part.CONTACT])
def test_nobody_else_gets_one(part: Part) -> None:
    joined, _ = done(therapist(role=part, digest=None, digested_at=None), Joined(MONDAY, THERAPIST))
    assert people.wake_at(joined, RULES) is None


def test_who_needs_a_look_stands_first_with_the_reason_and_gets_a_chart() -> None:
    effects = found(therapist(), LOOK, CALM)
    [digest] = [one for one in effects if isinstance(one, Digest)]
    assert [line.key for line in digest.words] == ["digest-title", "digest-look", "desk-client-look", "digest-others"]
    assert dict(digest.words[0].params)["total"] == "2" and (digest.last - digest.first).days == 6
    assert charts(effects) == ["c1"]
    assert [button.label.key for button in digest.buttons] == ["b-digest-others"]


def test_a_discharged_client_is_in_no_digest() -> None:
    [digest] = [one for one in found(therapist(), LOOK, CALM, GONE) if isinstance(one, Digest)]
    assert dict(digest.words[0].params)["total"] == "2"
    assert found(therapist(), GONE) == ()


def test_without_clients_nothing_is_said() -> None:
    assert found(therapist()) == ()


def test_who_prefers_all_charts_gets_all_and_no_button() -> None:
    effects = found(therapist(all_charts=True), LOOK, CALM)
    assert charts(effects) == ["c1", "c2"]
    assert all(one.buttons == () for one in effects if isinstance(one, Digest))


def test_the_others_come_on_a_tap_and_the_button_goes() -> None:
    [digest] = [one for one in found(therapist(), LOOK, CALM) if isinstance(one, Digest)]
    press = digest.buttons[0].press
    _, effects = done(therapist(), Pressed(MONDAY, THERAPIST, press))
    assert LookUp("others") in effects and any(isinstance(one, ClearButtons) and one.card == "digest" for one in effects)
    assert charts(found(therapist(), LOOK, CALM, what="others")) == ["c2"]


def test_a_long_list_is_cut_and_counted() -> None:
    many = [Entry(f"c{place}", f"Name {place}", ("no_plan",)) for place in range(20)]
    [digest] = [one for one in found(therapist(), *many) if isinstance(one, Digest)]
    assert sum(line.key == "desk-client-look" for line in digest.words) == 15
    assert dict(next(line for line in digest.words if line.key == "digest-more").params)["count"] == "5"


# --- the client's side ----------------------------------------------------------------------------------------


def asked(by: str = THERAPIST, days: int = 0) -> ChartDue:
    last = MONDAY.date() + timedelta(days=days)
    return ChartDue(MONDAY, by, last - timedelta(days=6), last)


def test_a_chart_of_the_week_goes_to_the_therapist_who_sees_to_the_client() -> None:
    decided = care.step(client(plan()), asked(), RULES)
    [report] = [one for one in decided.effects if isinstance(one, Report)]
    assert (report.to, report.last) == (THERAPIST, MONDAY.date())


def test_somebody_else_gets_no_chart() -> None:
    assert not [one for one in care.step(client(plan()), asked("other"), RULES).effects if isinstance(one, Report)]


def test_a_client_without_a_plan_and_a_week_before_the_plan_have_no_chart() -> None:
    began = replace(client(plan()), since=MONDAY)
    assert not [one for one in care.step(began, asked(days=-7), RULES).effects if isinstance(one, Report)]
    without = replace(began, plan=None)
    assert not [one for one in care.step(without, asked(), RULES).effects if isinstance(one, Report)]

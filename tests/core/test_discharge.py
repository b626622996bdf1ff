"""Discharge: asked once, then quiet; what the client goes on with is safe; the summary tells reports, and what is unknown."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from companion.core.care import Cover
from companion.core.discharge import keep_going
from companion.core.effects import Pass, Say, Words
from companion.core.events import Control, Prescribed, Press
from companion.core.observations import Discharged
from companion.core.programme import Eyes, Posture, Supervision
from tests.core.home import Home, home
from tests.core.practice import (
    CARER,
    CLIENT,
    CONTACT,
    MONDAY,
    NINE,
    RULES,
    STRANGER,
    THERAPIST,
    alone,
    full_plan,
    plan,
    planned,
)
from tests.core.practice import client as made

ASK = Press("c1", "page", "page", "discharge")


def discharged(it: Home | None = None) -> Home:
    it = it or home(full_plan())
    it.send(THERAPIST, ASK)
    it.press(THERAPIST, "sure")
    return it


def lines(it: Home, who: str, key: str) -> list[dict[str, Any]]:
    return [
        dict(line.params) for say in it.last if isinstance(say, Say) and say.to == who for line in say.words if line.key == key
    ]


def test_it_is_asked_once_and_can_be_left() -> None:
    it = home(full_plan())
    it.send(THERAPIST, ASK)
    assert it.client.discharged_at is None and it.keys(THERAPIST) == ["discharge-ask"]
    it.press(THERAPIST, "keep")
    assert it.client.discharged_at is None and it.keys(THERAPIST) == ["discharge-kept"]


def test_after_it_nobody_is_reminded_and_nobody_starts_a_session() -> None:
    it = discharged()
    heard, drawn = len(it.phone(CLIENT).said), len(it.reports)
    it.until(NINE + timedelta(days=30))
    assert len(it.phone(CLIENT).said) == heard and len(it.reports) == drawn
    it.send(CLIENT, Press("c1", "menu", "more", "practise"))
    assert it.over and it.keys(CLIENT) == ["ended-start"]


def test_a_reminder_that_stands_there_starts_nothing_any_more() -> None:
    it = home(full_plan())
    it.until(NINE)
    offer = it.phone(CLIENT).buttons()[0].press
    discharged(it)
    it.send(CLIENT, offer)
    assert it.over


def test_everybody_hears_of_it_in_their_own_words() -> None:
    it = discharged()
    keys = it.keys(CLIENT)
    assert keys[0] == "ended-client" and {"keep-title", "keep-hand", "keep-place-worktop", "keep-helper", "keep-ask"} <= set(
        keys
    )
    assert keys[-1] == "typed-emergency" and it.keys(CARER) == ["ended-carer", "ended-carer-thanks"]
    assert it.keys(THERAPIST)[0] == "discharged-title" and [seen.by for seen in it.all(Discharged)] == [THERAPIST]


@pytest.mark.parametrize("by", [STRANGER, CLIENT, CARER, CONTACT, "t2"])
def test_nobody_but_the_own_therapist_discharges(by: str) -> None:
    it = home(full_plan())
    it.client = made(full_plan(), cover=Cover("t2", MONDAY, MONDAY + timedelta(days=7), begun=True))
    for choice in ("discharge", "sure"):
        it.send(by, Press("c1", "page", "discharge", choice))
        assert it.client.discharged_at is None


def test_under_a_red_flag_or_in_a_session_it_is_refused_with_the_reason() -> None:
    flag, session = home(full_plan()), home(full_plan()).start()
    flag.row(CLIENT, Control.SOMETHING_WRONG)
    for it, line in ((flag, "discharge-flag"), (session, "discharge-session")):
        it.send(THERAPIST, Press("c1", "page", "discharge", "sure"))
        assert it.keys(THERAPIST) == [line] and it.client.discharged_at is None


def test_a_second_press_says_that_it_is_done() -> None:
    it = discharged()
    it.send(THERAPIST, Press("c1", "page", "discharge", "sure"))
    assert it.keys(THERAPIST) == ["discharge-already"] and len(it.all(Discharged)) == 1


def test_a_new_plan_opens_it_again() -> None:
    it = discharged()
    it.do(Prescribed(it.now, replace(plan(planned("press"), planned("together")), version=2), THERAPIST))
    assert it.client.discharged_at is None
    it.until(NINE)
    assert "reminder" in it.keys(CLIENT)


def test_something_wrong_is_a_red_flag_after_discharge_too_and_lifting_it_sends_nobody_to_practise() -> None:
    it = discharged()
    it.row(CLIENT, Control.SOMETHING_WRONG)
    assert it.held and it.keys(CLIENT)[0] == "emergency-stop" and "alert-title" in it.keys(THERAPIST)
    it.lift()
    assert it.keys(CLIENT) == ["flag-lifted"]


def test_a_cover_ends_with_it() -> None:
    it = home(full_plan(), cover=Cover("t2", MONDAY, MONDAY + timedelta(days=7), begun=True))
    discharged(it)
    assert it.client.cover is None and [effect.to.id for effect in it.last if isinstance(effect, Pass)] == ["t2"]


# --- what to go on with -------------------------------------------------------------------------------------------


def test_what_to_go_on_with_is_the_easiest_form_with_open_eyes_and_warm_up_first() -> None:
    kept = keep_going(full_plan(), True, RULES)
    assert [exercise.id for exercise, _ in kept] == ["press", "together", "tandem", "dark", "toes", "rise", "sit"]
    assert [form.id for exercise, form in kept] == ["gentle", "apart", "half", "open", "both", "lean", "tall"]
    assert all(form.eyes is Eyes.OPEN for _, form in kept)


def test_without_a_carer_nobody_is_told_to_stand_unless_the_plan_let_them_stand_alone() -> None:
    always = keep_going(full_plan(), False, RULES)
    assert always and all(form.posture is Posture.SEATED for _, form in always)
    able = full_plan(supervision=Supervision.WHEN_FORM_NEEDS)
    let = keep_going(able, False, RULES)
    assert any(form.posture is Posture.STANDING for _, form in let) and not [form for _, form in let if form.needs_carer]
    unable = full_plan(supervision=Supervision.WHEN_FORM_NEEDS, can_call_for_help=False)
    assert all(form.posture is Posture.SEATED for _, form in keep_going(unable, False, RULES))


def test_what_the_client_has_not_is_not_asked_for() -> None:
    only_up = plan(planned("toes"), ankle_blocked=True, one_good_hand=True)
    assert [form.id for _, form in keep_going(only_up, True, RULES)] == ["both"]


def test_seated_only_is_said_and_without_a_plan_the_therapist_is_asked() -> None:
    it = discharged(home(full_plan(), **alone()))
    assert "keep-seated" in it.keys(CLIENT) and "keep-hand" not in it.keys(CLIENT) and "keep-helper" not in it.keys(CLIENT)
    assert "keep-none" in discharged(home(None)).keys(CLIENT)


# --- the summary --------------------------------------------------------------------------------------------------


def test_the_summary_counts_what_was_reported_and_says_what_is_unknown() -> None:
    it = home(plan(planned("press"), planned("together")), sessions=0).start().check().finish()
    it.until(NINE + timedelta(days=2))
    it.row(CLIENT, Control.MORE)
    it.send(CLIENT, Press("c1", "menu", "more", "fell"))
    it.press(CLIENT, "up")
    it.lift()
    it.wait(86400)
    discharged(it)
    (sessions,) = lines(it, THERAPIST, "discharged-sessions")
    (days,) = lines(it, THERAPIST, "discharged-days")
    (falls,) = lines(it, THERAPIST, "discharged-falls")
    bouts = lines(it, THERAPIST, "discharged-bouts")
    assert sessions["done"] == "1" and sessions["no_word"] == "0" and days["no_answer"] == "1" and days["held"] == "1"
    assert (falls["falls"], falls["near"], falls["unknown"]) == ("1", "0", "0")
    assert [(one["exercise"], one["bouts"], one["clean"]) for one in bouts] == [
        (Words("ex-press"), "1", "1"),
        (Words("ex-together"), "1", "1"),
    ]


def test_sessions_from_before_the_count_are_named_as_not_counted() -> None:
    it = discharged(home(full_plan(), sessions=3))
    assert [one["count"] for one in lines(it, THERAPIST, "discharged-earlier")] == ["3"]


def test_a_fall_that_nobody_told_apart_is_unknown_in_the_summary() -> None:
    it = home(full_plan())
    it.send(CLIENT, Press("c1", "menu", "more", "fell"))
    it.lift()
    discharged(it)
    (falls,) = lines(it, THERAPIST, "discharged-falls")
    assert (falls["falls"], falls["unknown"]) == ("0", "1")

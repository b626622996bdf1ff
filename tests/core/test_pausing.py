"""A pause: why, for how long, what is recorded, and coming back."""

from datetime import date, timedelta
from typing import Any

import pytest

from companion.core.events import Control, Press
from companion.core.observations import DayClosed, Ending, FlagRaised, PauseAgreed, PauseOver
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, MONDAY, NINE, SIGNS, THERAPIST, full_plan

DAY = timedelta(days=1)


def opened(it: Home) -> Home:
    """At the question why."""
    it.row(CLIENT, Control.MORE)
    for choice in ("else", "rest", "pause"):
        it.press(CLIENT, choice)
    return it


def paused(span: str, why: str = "holiday", **more: Any) -> Home:
    it = opened(home(full_plan(), **more))
    it.press(CLIENT, why)
    if why == "unwell":
        it.press(CLIENT, "same")
    it.press(CLIENT, span)
    return it


@pytest.mark.parametrize(("span", "back"), [("3_days", date(2026, 11, 5)), ("1_week", date(2026, 11, 9)), ("open", None)])
def test_a_pause_is_agreed_recorded_and_told_to_the_therapist(span: str, back: date | None) -> None:
    it = paused(span)
    assert it.all(PauseAgreed) == [PauseAgreed(MONDAY, "holiday", back)]
    assert it.keys(CLIENT)[0] == "paused" and it.keys(THERAPIST) == ["pause-therapist"]


def test_nobody_is_reminded_in_a_pause_and_its_days_are_recorded_as_paused() -> None:
    it = paused("3_days")
    it.until(MONDAY + 3 * DAY - timedelta(hours=8))
    assert "reminder" not in it.heard(CLIENT) and "reminder-carer" not in it.heard(CARER)
    assert [(one.day.day, one.ending) for one in it.all(DayClosed)] == [(day, Ending.PAUSED) for day in (2, 3, 4)]


def test_the_end_of_a_pause_is_told_kindly_and_that_day_is_reminded_again() -> None:
    it = paused("3_days")
    it.until(NINE + 3 * DAY)
    assert "pause-over" in it.heard(CLIENT) and "reminder" in it.heard(CLIENT)
    assert it.heard(THERAPIST)[-1] == "pause-over-therapist" and it.client.pause is None
    assert it.all(PauseOver) == [PauseOver(NINE + 3 * DAY, None)]


def test_an_open_pause_lasts_until_the_client_is_back_and_then_one_tap_ends_it() -> None:
    it = paused("open")
    it.until(MONDAY + 30 * DAY)
    assert "reminder" not in it.heard(CLIENT)
    it.press(CLIENT, "back")
    assert it.client.pause is None and it.keys(CLIENT)[0] == "pause-welcome"
    assert it.keys(THERAPIST) == ["pause-back-therapist"]
    it.until(NINE + 30 * DAY)
    assert "reminder" in it.heard(CLIENT)


def test_practise_now_in_a_pause_starts_nothing_but_offers_to_come_back() -> None:
    it = paused("1_week")
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "practise")
    assert it.over and it.keys(CLIENT)[0] == "paused"
    it.press(CLIENT, "back")
    it.press(CLIENT, "practise")
    assert not it.over


def test_a_pause_that_begins_after_the_reminder_makes_the_day_a_paused_one() -> None:
    it = home(full_plan())
    it.until(NINE)
    opened(it)
    it.press(CLIENT, "holiday")
    it.press(CLIENT, "3_days")
    it.until(MONDAY + DAY)
    assert [one.ending for one in it.all(DayClosed)] == [Ending.PAUSED]


def test_who_is_unwell_is_asked_for_the_signs_as_at_the_check() -> None:
    it = opened(home(full_plan()))
    it.press(CLIENT, "unwell")
    assert it.keys(CLIENT)[0] == "how-are-you" and it.keys(CLIENT).count("sign-row") == len(SIGNS)
    it.press(CLIENT, "same")
    assert it.keys(CLIENT) == ["pause-how-long"] and not it.held


def test_different_or_not_sure_gets_the_emergency_words_first_and_then_sign_by_sign() -> None:
    it = opened(home(full_plan()))
    it.press(CLIENT, "unwell")
    it.press(CLIENT, "different")
    assert it.keys(CLIENT)[0] == "emergency-stop" and it.keys(CLIENT)[-1] == f"sign-{SIGNS[0]}"
    it.press(CLIENT, "same")
    it.press(CLIENT, "different")
    assert it.held and it.all(FlagRaised)[0].facts == (f"sign.{SIGNS[1]}",)
    assert it.client.pause is None


def test_in_doubt_without_a_sign_today_is_off_the_therapist_is_told_and_the_pause_goes_on() -> None:
    it = opened(home(full_plan()))
    it.press(CLIENT, "unwell")
    it.press(CLIENT, "different")
    for _ in SIGNS:
        it.press(CLIENT, "same")
    assert it.client.off_day == date(2026, 11, 2) and it.keys(THERAPIST) == ["pause-unsure-therapist"]
    it.press(CLIENT, "1_week")
    assert it.client.pause is not None and it.client.pause.why == "unwell"


def test_after_a_pause_for_being_unwell_the_check_asks_sign_by_sign() -> None:
    it = paused("3_days", "unwell")
    it.until(NINE + 3 * DAY)
    it.press(CLIENT, "start")
    assert it.at == f"check.{SIGNS[0]}"
    well = paused("3_days")
    well.until(NINE + 3 * DAY)
    well.press(CLIENT, "start")
    assert well.at == "check"


def test_a_carer_hears_of_a_pause_only_if_the_client_lets_them_see_practice() -> None:
    assert "pause-carer" in paused("3_days", carer_sees=("sessions",)).heard(CARER)
    assert "pause-carer" not in paused("3_days").heard(CARER)


def test_a_pause_can_not_be_agreed_twice_and_an_old_button_shows_the_one_there_is() -> None:
    it = paused("1_week")
    was = it.client
    it.send(CLIENT, Press("c1", "menu", "holiday", "2_weeks"))
    assert it.client == was and it.keys(CLIENT)[0] == "paused" and len(it.all(PauseAgreed)) == 1


def test_back_pressed_twice_welcomes_once() -> None:
    it = paused("1_week")
    (back,) = [one.press for one in it.phone(CLIENT).buttons() if one.press.choice == "back"]
    it.send(CLIENT, back)
    it.send(CLIENT, back)
    assert it.keys(CLIENT) == ["pause-none"] and len(it.all(PauseOver)) == 1


def test_under_a_red_flag_the_end_of_a_pause_says_nothing_of_practice() -> None:
    it = paused("3_days")
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.until(NINE + 3 * DAY)
    assert it.client.pause is None and "pause-over" not in it.heard(CLIENT)

"""The therapist's settings: by taps or a typed time, kept at once, told to the care of every client."""

from dataclasses import replace
from datetime import time

import pytest

from companion.core.dialogues import Setting
from companion.core.duty import Hours
from companion.core.effects import Pass
from companion.core.events import Control, Entry
from companion.core.person import Part, Person
from companion.core.programme import ReportTime
from tests.core.people import People
from tests.core.practice import THERAPIST, ZONE, client, full_plan


def settings() -> People:
    """A therapist with one client and two colleagues, at the settings."""
    it = People([Person(THERAPIST, Part.THERAPIST, "Cleo", ZONE, ("c1",), user_id=1)], [client(full_plan())])
    it.colleagues = [Entry(THERAPIST, "Cleo"), Entry("t2", "Dee"), Entry("t3", "Eva")]
    it.row(THERAPIST, Control.SETTINGS)
    return it


def choose(it: People, *choices: str) -> None:
    """Press those choices of the card, one after the other."""
    for choice in choices:
        there = it.phone(THERAPIST).cards["desk"].buttons
        it.send(THERAPIST, next(one.press for one in there if one.press.choice == choice))


def card(it: People) -> list[str]:
    return [line.key for line in it.phone(THERAPIST).cards["desk"].words]


def me(it: People) -> Person:
    return it.persons[THERAPIST]


def test_hours_are_3_taps_and_every_client_is_told() -> None:
    it = settings()
    choose(it, "days", "mon_fri", "from_9_to_17")
    assert me(it).hours == Hours((0, 1, 2, 3, 4), time(9), time(17))
    assert [duty.hours for duty in it.clients["c1"].duties] == [me(it).hours]
    assert card(it)[0] == "setting-kept"


def test_any_days_are_chosen_one_by_one_and_a_second_press_of_a_day_is_harmless() -> None:
    it = settings()
    choose(it, "days", "pick", "n3")
    press = next(one.press for one in it.phone(THERAPIST).cards["desk"].buttons if one.press.choice == "n1")
    it.send(THERAPIST, press)
    it.send(THERAPIST, press)
    choose(it, "done")
    it.write(THERAPIST, "8:30 to 16.45")
    assert me(it).hours == Hours((1, 3), time(8, 30), time(16, 45))


def test_days_begun_again_are_none_and_no_days_are_not_taken() -> None:
    it = settings()
    choose(it, "days", "pick", "n3", "clear")
    assert "done" not in [one.press.choice for one in it.phone(THERAPIST).cards["desk"].buttons]


@pytest.mark.parametrize("text", ["nine to five", "09:00", "09:00-09:00", "25:00 to 26:00", "1:00 2:00 3:00"])
def test_typed_times_that_are_none_are_asked_again(text: str) -> None:
    it = settings()
    choose(it, "days", "mon_fri")
    it.write(THERAPIST, text)
    assert card(it)[0] == "setting-times-unread" and me(it).hours is None


def test_hours_can_be_taken_away_again() -> None:
    it = settings()
    choose(it, "days", "mon_fri", "from_8_to_16", "days", "no_hours")
    assert me(it).hours is None and it.clients["c1"].duties[0].hours is None


def test_the_deputy_is_a_colleague_and_never_oneself() -> None:
    it = settings()
    choose(it, "deputy")
    labels = [dict(one.label.params).get("name") for one in it.phone(THERAPIST).cards["desk"].buttons]
    assert labels[:2] == ["Dee", "Eva"]
    choose(it, "n1")
    duty = it.clients["c1"].duties[0]
    assert (me(it).deputy, duty.deputy, it.clients["c1"].people.name("t2")) == ("t2", "t2", "Dee")
    choose(it, "deputy", "no_deputy")
    assert me(it).deputy is None and it.clients["c1"].duties[0].deputy is None


def test_the_digest_comes_on_the_day_and_at_the_time_chosen_or_typed() -> None:
    it = settings()
    choose(it, "digest_day", "n4", "at_8")
    assert me(it).digest == ReportTime(4, time(8), ZONE) and me(it).digested_at == it.now
    choose(it, "digest_day", "n0")
    it.write(THERAPIST, "7:45")
    assert me(it).digest == ReportTime(0, time(7, 45), ZONE)
    choose(it, "digest_day", "no_digest", "all")
    assert me(it).digest is None and me(it).all_charts
    choose(it, "some")
    assert not me(it).all_charts


def test_closing_leaves_no_dialogue_and_an_older_screen_answers_in_one_line() -> None:
    it = settings()
    old = it.phone(THERAPIST).cards["desk"].buttons[0].press
    choose(it, "days")
    it.send(THERAPIST, old)
    assert it.replies[-1] is not None and it.replies[-1].key == "press-stale"
    choose(it, "back", "close")
    assert me(it).dialogue is None
    it.send(THERAPIST, old)
    assert it.replies[-1] is not None and it.replies[-1].key == "press-over"


def test_words_that_are_no_time_where_none_is_asked_change_nothing() -> None:
    it = settings()
    was = me(it)
    it.write(THERAPIST, "hello")
    assert me(it) == was and isinstance(was.dialogue, Setting)


def test_a_setting_that_is_changed_is_told_to_each_of_many_clients() -> None:
    it = settings()
    it.persons[THERAPIST] = replace(me(it), clients=tuple(f"c{number}" for number in range(1, 41)))
    choose(it, "days", "every_day", "from_8_to_18")
    assert len([effect for effect in it.effects if isinstance(effect, Pass)]) == 40

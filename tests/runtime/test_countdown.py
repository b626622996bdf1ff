"""When a countdown is drawn and what it shows, worked out without a sender."""

from dataclasses import replace
from datetime import datetime

from companion.core.effects import Countdown, words
from companion.runtime.countdown import Countdowns, with_left
from tests.runtime.hands import START, at

MINUTE = Countdown("ada", "session", (words("hold-left", seconds=60),), START, 60)


def at_once(to: str) -> datetime | None:
    return START


def held(to: str) -> datetime | None:
    return None


def drawn_at(countdown: Countdown, seconds: float) -> list[int]:
    """The seconds at which a countdown is drawn when the sender has all the time in the world."""
    countdowns, now, drawn = Countdowns(), countdown.began, []
    countdowns.replace("c1", [countdown], now)
    while (moment := countdowns.next_at(now, at_once)) is not None and moment <= at(seconds):
        now = moment
        due = countdowns.due(now, at_once)
        assert due is not None
        countdowns.drawn(due.countdown.to, now)
        drawn.append(round((now - countdown.began).total_seconds()))
    return drawn


def test_a_countdown_is_drawn_every_five_seconds_and_not_in_the_last_two() -> None:
    assert drawn_at(MINUTE, 100) == list(range(5, 60, 5))
    assert drawn_at(replace(MINUTE, seconds=17), 100) == [5, 10]
    assert drawn_at(replace(MINUTE, seconds=18), 100) == [5, 10, 15]
    assert drawn_at(replace(MINUTE, seconds=5), 100) == []


def test_it_shows_the_seconds_left_when_it_is_drawn() -> None:
    assert with_left(MINUTE, at(15)) == (words("hold-left", seconds=60, left=45),)
    assert with_left(MINUTE, at(15.05)) == (words("hold-left", seconds=60, left=45),)
    assert with_left(MINUTE, at(17.4)) == (words("hold-left", seconds=60, left=43),)


def test_a_step_that_is_late_is_drawn_once_with_what_is_left_then() -> None:
    countdowns = Countdowns()
    countdowns.replace("c1", [MINUTE], START)
    assert countdowns.due(at(4.9), at_once) is None
    assert countdowns.due(at(23), at_once) is not None
    countdowns.drawn("ada", at(23))
    assert countdowns.due(at(23), at_once) is None
    assert countdowns.next_at(at(23), at_once) == at(25)


def test_a_quarter_goes_before_a_step_that_is_further_behind() -> None:
    countdowns = Countdowns()
    countdowns.replace("c1", [MINUTE], START)
    countdowns.replace("c2", [replace(MINUTE, to="cem", began=at(4))], at(4))
    countdowns.drawn("cem", at(14))
    due = countdowns.due(at(15), at_once)
    assert due is not None and (due.countdown.to, due.quarter) == ("ada", True)
    due = countdowns.due(at(14.5), at_once)
    assert due is not None and (due.countdown.to, due.quarter) == ("ada", False)


def test_of_two_steps_the_one_that_is_further_behind_goes_first() -> None:
    countdowns = Countdowns()
    countdowns.replace("c1", [MINUTE], START)
    countdowns.replace("c2", [replace(MINUTE, to="cem")], START)
    countdowns.drawn("ada", at(5))
    due = countdowns.due(at(12), at_once)
    assert due is not None and due.countdown.to == "cem"


def test_a_chat_that_is_held_gets_none() -> None:
    countdowns = Countdowns()
    countdowns.replace("c1", [MINUTE], START)
    assert countdowns.due(at(20), held) is None
    assert countdowns.next_at(at(20), held) is None
    assert countdowns.next_at(at(1), lambda to: at(7)) == at(7)


def test_the_next_replaces_it_and_none_removes_it() -> None:
    countdowns = Countdowns()
    assert countdowns.replace("c1", [MINUTE], START)
    assert not countdowns.replace("c1", [replace(MINUTE, words=(words("other"),))], at(7))
    due = countdowns.due(at(7), at_once)
    assert due is not None and due.countdown.words == (words("other"),)
    assert countdowns.replace("c1", [replace(MINUTE, began=at(7))], at(7))
    assert countdowns.due(at(7), at_once) is None
    countdowns.replace("c1", [], at(8))
    assert countdowns.next_at(at(8), at_once) is None


def test_another_clients_event_leaves_it_alone() -> None:
    countdowns = Countdowns()
    countdowns.replace("c1", [MINUTE], START)
    countdowns.replace("c2", [], START)
    assert countdowns.runs(MINUTE)


def test_one_read_off_the_state_in_the_middle_goes_on_with_the_next_step() -> None:
    countdowns = Countdowns()
    countdowns.replace("c1", [MINUTE], at(22))
    assert countdowns.next_at(at(22), at_once) == at(25)


def test_another_message_to_the_chat_drops_it() -> None:
    countdowns = Countdowns()
    countdowns.replace("c1", [MINUTE], START)
    countdowns.drop("ada")
    assert countdowns.next_at(at(1), at_once) is None

"""What the carer can do beside a session: report a fall, a near-fall, a worry; see what the client allows."""

from datetime import timedelta
from typing import Any

import pytest

from companion.core.care import Past
from companion.core.effects import PassOn, Say
from companion.core.events import Control, Press, Typed
from companion.core.observations import Ending, FallKind, FallReported, FlagRaised, OwnWords, Reporter
from companion.core.programme import Level
from companion.core.recent import Said
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, CONTACT, MONDAY, THERAPIST, full_plan


def opened(*choices: str, **more: Any) -> Home:
    """The menu on the carer's phone, and so far into it."""
    it = home(full_plan(), **more)
    it.row(CARER, Control.MORE)
    for choice in choices:
        it.press(CARER, choice)
    return it


def choices(it: Home) -> list[str]:
    return [button.press.choice for button in it.phone(CARER).cards["menu"].buttons]


def test_the_menu_offers_at_most_3_things_a_screen_and_a_fall_is_on_the_first() -> None:
    assert choices(opened()) == ["fell", "report", "beside"]
    assert choices(opened("report")) == ["near_fall", "worry"]
    assert choices(opened("beside")) == ["how_it_goes", "briefing", "help"]


def test_a_fall_that_the_carer_reports_is_a_red_flag_at_once() -> None:
    it = opened("fell")
    assert it.held and it.hold.by == CARER and it.keys(CARER)[0] == "emergency-go-fall"


# --- a near-fall ----------------------------------------------------------------------------------------------


def test_a_near_fall_without_harm_is_recorded_and_told_and_stops_nothing() -> None:
    it = opened("report", "near_fall")
    assert it.keys(CARER) == ["near-fall-ask"] and choices(it) == ["not_hurt", "hurt"]
    it.press(CARER, "not_hurt")
    assert [(fall.fall, fall.by) for fall in it.all(FallReported)] == [(FallKind.NEAR_FALL, CARER)]
    assert it.keys(THERAPIST) == ["near-fall-therapist"] and it.keys(CLIENT) == []
    assert not it.held and not it.all(FlagRaised)
    assert it.keys(CARER) == ["near-fall-noted", "tell-passed", "near-fall-more"]


@pytest.mark.parametrize("again", [1, 2, 3])
def test_a_near_fall_pressed_again_is_counted_once_and_each_new_one_is_its_own(again: int) -> None:
    it = opened("report", "near_fall")
    press = it.phone(CARER).cards["menu"].buttons[0].press
    for _ in range(again):
        it.send(CARER, press)
    it.row(CARER, Control.MORE)
    for choice in ("report", "near_fall", "not_hurt"):
        it.press(CARER, choice)
    reports = it.all(FallReported)
    assert len(reports) == 2 and reports[0].flag != reports[1].flag


def test_a_near_fall_with_harm_is_a_red_flag_with_the_emergency_words_first() -> None:
    it = opened("report", "near_fall", "hurt")
    assert it.hold.rule == "hurt" and it.hold.level is Level.URGENT
    assert it.keys(CARER)[0] == "emergency-go" and it.keys(CLIENT)[1] == "emergency-stop"
    assert it.all(FallReported)[-1].fall is FallKind.NEAR_FALL
    it.press(CARER, "hit")
    assert {"near_fall", "hurt", "head_knock"} <= set(it.hold.facts)


def test_that_somebody_is_hurt_is_never_too_late_to_say() -> None:
    it = opened("report", "near_fall")
    hurt = it.phone(CARER).cards["menu"].buttons[1].press
    it.press(CARER, "not_hurt")
    it.now += timedelta(hours=3)
    it.send(CARER, hurt)
    assert it.held and "hurt" in it.hold.facts


def test_a_near_fall_is_told_to_whoever_covers_too_and_to_nobody_who_is_not_there() -> None:
    it = opened("report", "near_fall", joined=(CLIENT, CARER, CONTACT))
    it.press(CARER, "not_hurt")
    assert it.keys(THERAPIST) == [] and "tell-kept" in it.keys(CARER)


# --- a worry --------------------------------------------------------------------------------------------------


def test_a_worry_asks_first_whether_it_is_an_emergency() -> None:
    it = opened("report", "worry")
    assert it.keys(CARER) == ["typed-emergency", "worry-ask"] and choices(it) == ["help_now", "can_wait"]
    it.press(CARER, "help_now")
    assert it.held and it.keys(CARER)[0] == "emergency-go"


def test_a_worry_that_can_wait_is_kept_in_their_words_and_passed_on_and_not_read_at_once() -> None:
    it = opened("report", "worry", "can_wait")
    assert it.keys(CARER) == ["worry-how", "tell-not-read", "typed-emergency"]
    it.write(CARER, "She is so tired in the evening.")
    assert [(one.by, one.text) for one in it.all(OwnWords)] == [(Reporter.CARER, "She is so tired in the evening.")]
    assert it.keys(THERAPIST) == ["worry-therapist"] and it.keys(CARER) == ["tell-passed", "tell-not-read", "typed-emergency"]
    it.press(CARER, "done")
    it.write(CARER, "And one thing more.")
    assert it.keys(THERAPIST) == [] and it.keys(CARER)[0] == "typed-kept"


def test_a_voice_note_as_a_worry_is_passed_on_as_it_is() -> None:
    it = opened("report", "worry", "can_wait")
    it.do(Typed(it.now, CARER, "", "voice", 77))
    assert [(effect.to, effect.by, effect.message_id) for effect in it.last if isinstance(effect, PassOn)] == [
        (THERAPIST, CARER, 77)
    ]
    assert it.keys(THERAPIST) == ["worry-therapist-form"]


def test_words_long_after_the_question_are_kept_and_no_longer_taken_for_the_worry() -> None:
    it = opened("report", "worry", "can_wait")
    it.now += timedelta(seconds=it.rules.patience.writing_s)
    it.write(CARER, "Hello.")
    assert it.keys(THERAPIST) == [] and it.keys(CARER)[0] == "typed-kept"


def test_what_the_carer_reports_in_a_stance_leaves_the_clients_phone_quiet() -> None:
    it = home(full_plan()).start().check().reach(".hold")
    it.row(CARER, Control.MORE)
    for choice in ("report", "near_fall", "not_hurt"):
        it.press(CARER, choice)
    assert not it.over and not [effect for effect in it.last if isinstance(effect, Say) and effect.to == CLIENT]


def test_a_client_can_not_answer_for_the_carer() -> None:
    it = opened("report", "near_fall")
    asked = it.client.asked_carer
    assert asked is not None
    it.send(CLIENT, Press("c1", "menu", asked.id, "not_hurt"))
    assert it.client.asked_carer == asked and it.all(FallReported) == []


# --- how it goes ----------------------------------------------------------------------------------------------

WEEK = (Past(MONDAY.date(), Ending.DONE, 4, 4), Past(MONDAY.date(), Ending.PARTLY, 1, 4))
WORDS = (Said(MONDAY, Reporter.CLIENT, "My knee hurt."), Said(MONDAY, Reporter.CARER, "Not for them."))


@pytest.mark.parametrize(
    ("sees", "shown"),
    [
        ((), ["carer-view-none", "carer-view-ask"]),
        (("sessions", "flags"), ["carer-view-days", "carer-view-kind", "carer-view-no-stop"]),
        (
            ("sessions", "flags", "words"),
            ["carer-view-days", "carer-view-kind", "carer-view-no-stop", "carer-view-goal", "carer-view-said"],
        ),
    ],
)
def test_the_carer_sees_what_the_client_allows_and_no_more(sees: tuple[str, ...], shown: list[str]) -> None:
    it = opened("beside", "how_it_goes", carer_sees=sees, past=WEEK, goal="To the shop.", said=WORDS)
    assert it.keys(CARER) == shown
    assert ("My knee hurt." in repr(it.last)) == ("words" in sees) and "Not for them." not in repr(it.last)


def test_that_practice_is_stopped_every_carer_is_told() -> None:
    it = opened("fell", carer_sees=())
    it.row(CARER, Control.MORE)
    it.press(CARER, "beside")
    it.press(CARER, "how_it_goes")
    assert it.keys(CARER)[0] == "carer-view-stopped"


def test_a_week_without_practice_is_told_without_blame() -> None:
    it = opened("beside", "how_it_goes", carer_sees=("sessions",))
    assert it.keys(CARER) == ["carer-view-no-day"]

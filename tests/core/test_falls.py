"""Falls and near-falls, told apart as ProFaNE does (Lamb 2005), and what follows on silence."""

from companion.core.effects import Say
from companion.core.events import Control
from companion.core.observations import FallKind, FallReported, FlagRaised
from companion.core.programme import Level
from tests.core.home import Home, home
from tests.core.practice import CARER, CLIENT, CONTACT, THERAPIST, full_plan


def fallen(by: str = CLIENT, **more: object) -> Home:
    """Somebody pressed "I fell" (or "They fell") in the menu."""
    it = home(full_plan(**more))
    it.row(by, Control.MORE)
    it.press(by, "fell")
    return it


def kinds(it: Home) -> list[FallKind]:
    return [report.fall for report in it.all(FallReported)]


def facts(it: Home) -> tuple[str, ...]:
    assert it.held
    return it.hold.facts


def alerts_to(it: Home, who: str) -> list[str]:
    return [say.words[0].key for say in it.phone(who).said if say.words[0].key.startswith("alert-")]


def test_a_fall_gives_the_emergency_words_alerts_and_then_asks_up_and_safe() -> None:
    for by in (CLIENT, CARER):
        it = fallen(by)
        said = [effect for effect in it.last if isinstance(effect, Say)]
        asked = next(say for say in said if "flag-ask-fall" in [line.key for line in say.words])
        assert asked.to == by and said.index(asked) > 1 and len(asked.buttons) == 3
        assert alerts_to(it, THERAPIST) == ["alert-title"] and kinds(it) == [FallKind.UNKNOWN]


def test_after_a_fall_and_silence_each_step_comes_at_its_minute() -> None:
    """Asked again after 2 minutes, the next contact at 5, the therapist again at 10."""
    it = fallen()
    it.wait(119)
    assert it.heard(CLIENT).count("flag-ask-fall") == 1
    it.wait(1)
    assert it.heard(CLIENT).count("flag-ask-fall") == 2 and it.heard(CARER).count("flag-ask-fall") == 1
    assert it.keys(CLIENT)[0] == "emergency-stop"
    it.wait(179)
    assert alerts_to(it, CONTACT) == []
    it.wait(1)
    assert alerts_to(it, CONTACT) == ["alert-contact"] and it.keys(CLIENT) == ["told"]
    it.wait(299)
    assert alerts_to(it, THERAPIST) == ["alert-title"]
    it.wait(1)
    assert alerts_to(it, THERAPIST) == ["alert-title", "alert-again"] and "alert-fall-open" in it.keys(THERAPIST)


def test_a_fall_stays_open_until_a_person_closes_it() -> None:
    it = fallen()
    it.wait(7 * 86400)
    assert it.hold.fall is not None and not it.hold.fall.answered
    it.lift()
    assert not it.held


def test_up_and_safe_asks_for_the_head_and_stops_the_asking() -> None:
    it = fallen()
    it.press(CLIENT, "up")
    assert "flag-ask-head" in it.keys(CLIENT) and kinds(it) == [FallKind.UNKNOWN, FallKind.FALL]
    it.press(CLIENT, "not_hit")
    it.wait(600)
    assert it.heard(CLIENT).count("flag-ask-fall") == 1


def test_a_step_that_saved_them_is_a_near_fall_and_no_fall() -> None:
    """ProFaNE, Lamb 2005: a fall is coming to rest unexpectedly on the ground, floor or other lower level."""
    it = fallen()
    it.press(CLIENT, "saved")
    assert kinds(it) == [FallKind.UNKNOWN, FallKind.NEAR_FALL] and facts(it) == ("near_fall",)
    assert it.held, "the therapist still lifts it"


def test_client_and_carer_who_differ_are_both_in_the_record_and_a_fall_stays_a_fall() -> None:
    it = fallen(CARER)
    it.wait(120)  # asked again, on both phones
    it.press(CLIENT, "saved")
    it.press(CARER, "up")
    assert [(report.by, report.fall) for report in it.all(FallReported)[1:]] == [
        (CLIENT, FallKind.NEAR_FALL),
        (CARER, FallKind.FALL),
    ]
    assert "fall" in facts(it)


def test_an_answer_pressed_twice_is_told_once() -> None:
    for choice in ("up", "down", "saved"):
        it = fallen()
        press = next(button.press for button in it.phone(CLIENT).buttons() if button.press.choice == choice)
        it.send(CLIENT, press)
        records, alerted = len(it.records), len(alerts_to(it, THERAPIST))
        it.send(CLIENT, press)
        assert (len(it.records), len(alerts_to(it, THERAPIST))) == (records, alerted)


def test_still_down_is_an_emergency_and_is_never_slower_than_silence() -> None:
    it = fallen()
    it.wait(30)
    it.press(CLIENT, "down")
    assert it.hold.level is Level.EMERGENCY
    assert it.keys(CLIENT)[0] == "emergency-stop" and "emergency-call-now" in it.keys(CLIENT)
    it.wait(90)
    assert it.heard(CLIENT).count("flag-ask-fall") == 2, "they are asked again whether they are up"
    it.wait(180)
    assert alerts_to(it, CONTACT) == ["alert-contact"], "5 minutes after the fall"


def test_still_down_after_the_therapist_has_seen_the_fall_is_alerted_anew() -> None:
    it = fallen()
    it.press(THERAPIST, "seen")
    it.press(CLIENT, "down")
    it.wait(300)
    assert "alert-contact" in alerts_to(it, CONTACT)
    it.wait(300)
    assert "alert-again" in alerts_to(it, THERAPIST)


def test_a_knock_to_the_head_on_a_blood_thinner_is_an_emergency() -> None:
    """NICE QS74, statement 2; not sure is read on the safe side by content."""
    for thinner, level in ((True, Level.EMERGENCY), (False, Level.URGENT)):
        it = fallen(blood_thinner=thinner)
        it.press(CLIENT, "up")
        it.press(CLIENT, "hit")
        assert it.hold.level is level
        assert ("emergency-stop" in it.keys(CLIENT)) is thinner


def test_a_second_fall_under_an_open_flag_is_alerted_as_the_first_was() -> None:
    seen, answered = fallen(), fallen()
    seen.press(THERAPIST, "seen")
    answered.press(CLIENT, "up")
    for it in (seen, answered):
        it.wait(3600)
        before = len(alerts_to(it, THERAPIST))
        it.row(CLIENT, Control.MORE)
        it.press(CLIENT, "fell")
        assert it.keys(CLIENT)[0] == "emergency-stop" and "flag-ask-fall" in it.keys(CLIENT)
        assert len(alerts_to(it, THERAPIST)) == before + 1 and kinds(it)[-1] is FallKind.UNKNOWN
        assert it.hold.acknowledged_at is None


def test_a_fall_pressed_twice_says_the_words_twice_and_is_counted_once() -> None:
    it = fallen()
    it.press(CLIENT, "fell")
    assert it.keys(CLIENT)[0] == "emergency-stop" and kinds(it) == [FallKind.UNKNOWN] and len(it.all(FlagRaised)) == 1
    it.wait(300)
    assert alerts_to(it, CONTACT) == ["alert-contact"], "and puts nothing off"


def test_a_fall_told_under_another_flag_is_alerted() -> None:
    it = home(full_plan())
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.press(THERAPIST, "seen")
    it.press(CLIENT, "fell")
    assert facts(it) == ("pressed_wrong", "fall") and alerts_to(it, THERAPIST)[-1] == "alert-title"
    it.wait(120)
    assert it.heard(CLIENT).count("flag-ask-fall") == 2


def test_a_therapist_may_lift_while_a_fall_is_open_and_nothing_is_asked_any_more() -> None:
    it = fallen().lift()
    asked = it.heard(CLIENT).count("flag-ask-fall")
    it.wait(3600)
    assert not it.held and it.heard(CLIENT).count("flag-ask-fall") == asked

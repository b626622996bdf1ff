"""The client's consent: screen by screen on the client's own phone, and what it opens and keeps shut."""

from dataclasses import replace
from datetime import timedelta

import pytest

from companion.core.care import Client, Consent
from companion.core.events import Consented, Control, Declined, Joined, Opens, Prescribed, Press, Typed
from companion.core.observations import ConsentAnswer, ConsentNoted, DayClosed, OwnWords
from companion.core.person import Part, Person, own
from companion.core.programme import ConsentWords
from tests.core.home import home
from tests.core.people import People
from tests.core.practice import AGREED, CARER, CLIENT, MONDAY, NINE, RULES, THERAPIST, ZONE, alone, client, full_plan

ANN = Person(CLIENT, Part.CLIENT, "Ann", ZONE, ("c1",), user_id=5)
DAY = timedelta(days=1)


def joined(of: Client | None = None, again: bool = False) -> People:
    it = People([ANN], [of or client(full_plan(), consent=None)])
    it.tell(CLIENT, Joined(MONDAY, CLIENT, again))
    return it


def agreed(it: People, sees: str = "b-sees-practice") -> People:
    for label in ("b-consent-go-on", "b-consent-agree", sees):
        it.press(CLIENT, label)
    return it


def noted(it: People) -> list[ConsentNoted]:
    return [one for one in it.records if isinstance(one, ConsentNoted)]


def test_who_joins_reads_the_consent_one_screen_at_a_time_with_two_buttons_each() -> None:
    it = joined()
    assert it.keys(CLIENT) == ["hello", "consent-one", "consent-two"]
    assert it.labels(CLIENT) == ["b-consent-go-on", "b-consent-stop"]
    it.press(CLIENT, "b-consent-go-on")
    assert it.keys(CLIENT) == ["consent-three", "consent-ask"]
    assert it.labels(CLIENT) == ["b-consent-agree", "b-consent-disagree"]
    assert it.clients["c1"].consent is None


def test_who_agrees_says_what_the_carer_may_see_and_it_is_recorded_with_version_and_time() -> None:
    it = joined()
    it.now += timedelta(minutes=3)
    agreed(it, "b-sees-practice")
    care = it.clients["c1"]
    assert care.consent == Consent(RULES.consent.version, it.now) and care.carer_sees == ("sessions", "flags")
    assert noted(it) == [ConsentNoted(it.now, CLIENT, RULES.consent.version, ConsentAnswer.AGREED, ("sessions", "flags"))]
    assert it.keys(CLIENT) == ["consent-thanks", "consent-next"] and it.labels(CLIENT) == ["b-practise-now"]


@pytest.mark.parametrize(("label", "sees"), [("b-sees-all", ("sessions", "flags", "words")), ("b-sees-none", ())])
def test_the_carer_may_be_allowed_all_or_nothing(label: str, sees: tuple[str, ...]) -> None:
    assert agreed(joined(), label).clients["c1"].carer_sees == sees


def test_a_client_without_a_carer_is_not_asked_about_one() -> None:
    it = joined(client(full_plan(), consent=None, **alone()))
    it.press(CLIENT, "b-consent-go-on")
    it.press(CLIENT, "b-consent-agree")
    assert it.clients["c1"].consent == AGREED and it.clients["c1"].carer_sees == ()


@pytest.mark.parametrize("screen", [0, 1])
def test_declining_is_kind_and_the_therapist_is_told(screen: int) -> None:
    it = joined()
    if screen:
        it.press(CLIENT, "b-consent-go-on")
    it.press(CLIENT, ("b-consent-stop", "b-consent-disagree")[screen])
    assert it.keys(CLIENT) == ["consent-declined", "consent-declined-care"]
    assert it.keys(THERAPIST) == ["consent-declined-therapist"]
    assert it.clients["c1"].consent is None and it.clients["c1"].refused_at == MONDAY
    assert [one.answer for one in noted(it)] == [ConsentAnswer.DECLINED]


def test_who_declined_may_read_it_again_and_agree() -> None:
    it = joined()
    it.press(CLIENT, "b-consent-stop")
    it.press(CLIENT, "b-consent-read")
    assert it.keys(CLIENT) == ["consent-one", "consent-two"]
    agreed(it)
    assert it.clients["c1"].consent == AGREED and it.clients["c1"].refused_at is None


def test_a_second_press_of_each_button_changes_nothing() -> None:
    it = joined()
    for label in ("b-consent-go-on", "b-consent-agree", "b-sees-all"):
        (press,) = [one.press for one in it.buttons(CLIENT) if one.label.key == label]
        it.press(CLIENT, label)
        was = (it.persons[CLIENT], it.clients["c1"])
        it.send(CLIENT, press)
        assert (it.persons[CLIENT], it.clients["c1"]) == was and it.records == it.records[:1]
        assert it.replies[-1] is not None and it.replies[-1].key in ("press-stale", "press-over")


def test_a_forged_press_of_the_consent_agrees_to_nothing() -> None:
    it = joined()
    dialogue = it.persons[CLIENT].dialogue
    assert dialogue is not None
    for step, choice in (("9", "agree"), ("0", "nonsense"), ("1", "agree")):
        it.send(CLIENT, Press(own(CLIENT), dialogue.id, step, choice))
    assert it.clients["c1"].consent is None and it.persons[CLIENT].dialogue == dialogue


def test_typed_words_in_place_of_a_tap_are_answered_with_the_screen_and_nothing_is_kept() -> None:
    it = joined()
    it.press(CLIENT, "b-consent-go-on")
    it.write(CLIENT, "yes please")
    assert it.keys(CLIENT) == ["consent-first", "typed-emergency", "consent-three", "consent-ask"]
    assert it.clients["c1"].consent is None and not it.records
    agreed_now = it.labels(CLIENT)
    assert agreed_now == ["b-consent-agree", "b-consent-disagree"]


def test_start_pressed_again_in_the_middle_goes_on_where_it_was_left() -> None:
    it = joined()
    it.press(CLIENT, "b-consent-go-on")
    it.tell(CLIENT, Joined(it.now, CLIENT, again=True))
    assert it.keys(CLIENT)[-2:] == ["consent-three", "consent-ask"]
    it.press(CLIENT, "b-consent-agree")
    it.press(CLIENT, "b-sees-all")
    assert it.clients["c1"].consent == AGREED


def test_start_pressed_again_after_consent_asks_nothing() -> None:
    it = joined(client(full_plan()), again=True)
    assert it.keys(CLIENT) == ["hello"]


def test_something_is_wrong_and_i_fell_work_before_consent() -> None:
    for by in (CLIENT, CARER):
        it = home(full_plan(), consent=None)
        it.row(by, Control.SOMETHING_WRONG)
        assert it.held and it.keys(CLIENT)[0] in ("emergency-stop", "helper-pressed")
    it = home(full_plan(), consent=None)
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "fell")
    assert it.held


def test_words_under_a_red_flag_are_kept_even_before_consent() -> None:
    it = home(full_plan(), consent=None)
    it.row(CLIENT, Control.SOMETHING_WRONG)
    it.write(CLIENT, "my chest hurts")
    assert [one.text for one in it.all(OwnWords)] == ["my chest hurts"]


def test_nobody_without_consent_is_reminded_or_has_a_day_written_down() -> None:
    it = home(full_plan(), consent=None)
    it.until(MONDAY + 5 * DAY)
    assert "reminder" not in it.heard(CLIENT) and "reminder-carer" not in it.heard(CARER)
    assert it.all(DayClosed) == [] and it.client.day is None


def test_who_has_not_answered_is_asked_again_when_practice_is_due_and_who_declined_is_not() -> None:
    waiting = People([ANN], [client(full_plan(), consent=None)])
    waiting.wait((NINE - MONDAY).total_seconds())
    assert waiting.keys(CLIENT) == ["consent-one", "consent-two"]
    waiting.press(CLIENT, "b-consent-stop")
    said = len(waiting.phone(CLIENT).said)
    waiting.wait(3 * DAY.total_seconds())
    assert len(waiting.phone(CLIENT).said) == said


def test_practise_now_without_consent_opens_the_consent_and_no_session() -> None:
    it = People([ANN], [client(full_plan(), consent=None)])
    it.row(CLIENT, Control.MORE)
    it.press(CLIENT, "b-practise-now")
    assert it.keys(CLIENT) == ["consent-one", "consent-two"] and it.clients["c1"].session is None


def test_newer_words_are_asked_before_the_next_session_and_a_reminder_still_comes() -> None:
    newer = replace(RULES, consent=ConsentWords("third", (("consent-one",), ("consent-ask",))))
    it = People([ANN], [client(full_plan())], newer)
    it.wait((NINE - MONDAY).total_seconds())
    it.press(CLIENT, "b-start")
    assert it.clients["c1"].session is None and it.keys(CLIENT) == ["consent-one"]
    agreed(it)
    assert it.clients["c1"].consent == Consent("third", it.now)
    it.press(CLIENT, "b-practise-now")
    assert it.clients["c1"].session is not None


def test_words_that_change_while_they_are_read_start_at_their_first_screen() -> None:
    it = joined()
    it.press(CLIENT, "b-consent-go-on")
    it.rules = replace(RULES, consent=ConsentWords("third", (("consent-one",), ("consent-ask",))))
    it.press(CLIENT, "b-consent-agree")
    assert it.replies[-1] is not None and it.replies[-1].key == "consent-new-words"
    assert it.keys(CLIENT) == ["consent-one"]
    agreed(it)
    assert it.clients["c1"].consent == Consent("third", it.now)


def test_nobody_agrees_or_declines_in_place_of_the_client() -> None:
    it = home(full_plan(), consent=None)
    it.do(Consented(MONDAY, CARER, RULES.consent.version))
    assert it.client.consent is None
    it = home(full_plan())
    it.do(Declined(MONDAY, CARER, RULES.consent.version))
    assert it.client.consent == AGREED and it.all(ConsentNoted) == []


def test_a_first_plan_before_consent_waits_for_it() -> None:
    it = People([ANN], [client(None, consent=None)])
    it.tell(CLIENT, Joined(MONDAY, CLIENT))
    agreed(it)
    assert it.keys(CLIENT) == ["consent-thanks", "consent-next-no-plan"] and it.labels(CLIENT) == []
    later = home(None, consent=None)
    later.do(Prescribed(MONDAY, full_plan()))
    later.until(NINE)
    assert "reminder" not in later.heard(CLIENT)


def test_the_consent_is_opened_by_the_care_of_the_client_and_asks_nothing_where_there_are_no_words() -> None:
    it = People([ANN], [client(full_plan(), consent=None)], replace(RULES, consent=ConsentWords()))
    it.tell(CLIENT, Joined(MONDAY, CLIENT))
    assert it.keys(CLIENT) == ["hello"] and it.persons[CLIENT].dialogue is None
    assert Opens.CONSENT.value == "consent"


def test_what_is_no_text_is_not_kept_before_consent_either() -> None:
    it = home(full_plan(), consent=None)
    it.do(Typed(MONDAY, CLIENT, "", "voice", 4))
    assert it.keys(CLIENT) == ["consent-first", "typed-emergency"] and it.all(OwnWords) == []


def test_who_left_comes_back_by_a_link_and_is_asked_anew() -> None:
    it = People([ANN], [client(full_plan())])
    it.send(CLIENT, Press("c1", "menu", "leave", "leave"))
    assert it.clients["c1"].refused_at == MONDAY
    it.tell(CLIENT, Joined(it.now, CLIENT, again=True))
    assert it.keys(CLIENT) == ["hello", "consent-one", "consent-two"]
    agreed(it)
    care = it.clients["c1"]
    assert care.consent == AGREED and care.refused_at is None
    it.wait((NINE - MONDAY).total_seconds())
    assert "reminder" in it.keys(CLIENT)


def test_an_old_reminder_of_somebody_who_left_starts_nothing() -> None:
    it = home(full_plan())
    it.until(NINE)
    (start,) = [one.press for one in it.phone(CLIENT).buttons() if one.press.choice == "start"]
    it.send(CLIENT, Press("c1", "menu", "leave", "leave"))
    it.send(CLIENT, start)
    assert it.over and it.client.consent is None

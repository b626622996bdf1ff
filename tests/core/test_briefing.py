"""The carer's briefing: topic by topic, a check question each, and what it opens."""

from dataclasses import replace

from companion.core.dialogues import Briefing
from companion.core.effects import Pass, Say
from companion.core.events import Assigned, Briefed, Control, Joined
from companion.core.observations import CarerSeen
from companion.core.person import Part, Person
from companion.core.programme import Supervision
from tests.core.home import home
from tests.core.people import People
from tests.core.practice import BRIEFING, CARER, CLIENT, MONDAY, RULES, ZONE, client, full_plan, plan, planned


def carer(**more: object) -> Person:
    told: dict[str, object] = {"user_id": 7, **more}
    return replace(Person(CARER, Part.CARER, "Ben", ZONE, ("c1",)), **told)  # type: ignore[arg-type]


def joined(person: Person | None = None) -> People:
    it = People([person or carer()], [client(full_plan(), briefed=())])
    it.tell(CARER, Joined(MONDAY, CARER))
    return it


def through(it: People, by: str = CARER) -> People:
    """All of it, each question answered as it should be."""
    for topic in it.rules.briefing.topics:
        it.press(by, "b-go-on")
        it.press(by, topic.right)
    return it


def test_a_carer_who_joins_is_told_the_first_topic_and_may_take_their_time() -> None:
    it = joined()
    assert it.keys(CARER) == ["welcome-carer", "briefing-begin", "briefing-part", "where-told"]
    assert it.labels(CARER) == ["b-go-on"]
    it.wait(40 * 86400)
    it.press(CARER, "b-go-on")
    assert it.keys(CARER) == ["where-ask"] and it.labels(CARER) == ["front", "beside"]


def test_a_wrong_answer_is_explained_and_asked_again_and_the_next_topic_waits() -> None:
    it = joined()
    it.press(CARER, "b-go-on")
    for _ in range(3):
        it.press(CARER, "front")
        assert it.keys(CARER) == ["where-wrong", "where-ask"] and it.labels(CARER) == ["front", "beside"]
        assert it.clients["c1"].briefed == ()
    it.press(CARER, "beside")
    assert it.keys(CARER) == ["briefing-part", "call-told", "call-more"]


def test_who_answered_every_question_is_briefed_for_every_client_they_help() -> None:
    it = joined(carer(clients=("c1", "c2")))
    through(it)
    passed = [(effect.to.id, effect.event) for effect in it.all(Pass)]
    assert passed == [(one, Briefed(it.now, CARER, "1")) for one in ("c1", "c2")]
    assert it.clients["c1"].briefed == ((CARER, "1"),)
    assert it.keys(CARER) == ["briefing-done", "briefing-more"] and it.labels(CARER) == []


def test_the_buttons_of_an_older_screen_and_a_second_press_lose_nothing() -> None:
    it = joined()
    old = it.buttons(CARER)[0].press
    it.press(CARER, "b-go-on")
    before = it.persons[CARER]
    it.send(CARER, old)
    assert it.replies[-1] is not None and it.persons[CARER] == before and not it.all(Say)
    right = it.buttons(CARER)[1].press
    it.send(CARER, right)
    it.send(CARER, right)
    assert it.replies[-1] is not None and it.replies[-1].key == "press-stale"
    it.press(CARER, "b-go-on")
    it.press(CARER, "me")
    it.send(CARER, old)
    assert it.replies[-1] is not None and it.replies[-1].key == "press-over"


def test_no_choice_that_was_not_offered_answers_a_question() -> None:
    it = joined()
    it.press(CARER, "b-go-on")
    press = it.buttons(CARER)[0].press
    before = it.persons[CARER]
    for choice in ("0", "3", "99", "next", "", "²", "-1"):
        it.send(CARER, replace(press, choice=choice))
        assert it.persons[CARER] == before and it.replies[-1] is not None


def test_start_pressed_again_shows_where_they_are() -> None:
    it = joined()
    it.press(CARER, "b-go-on")
    it.tell(CARER, Joined(it.now, CARER, again=True))
    assert it.keys(CARER) == ["welcome-carer", "where-ask"] and it.labels(CARER) == ["front", "beside"]


def test_a_briefed_carer_who_gets_a_further_client_is_not_asked_again() -> None:
    it = through(joined())
    it.clients["c2"] = replace(client(full_plan(), briefed=()), id="c2")
    it.tell(CARER, Assigned(it.now, "c2"))
    assert it.clients["c2"].briefed == ((CARER, "1"),) and it.keys(CARER) == []


def test_new_words_are_read_anew_before_anybody_stands() -> None:
    it = through(joined())
    it.rules = replace(RULES, briefing=replace(BRIEFING, version="2"))
    it.tell(CARER, Joined(it.now, CARER, again=True))
    assert isinstance(it.persons[CARER].dialogue, Briefing) and it.keys(CARER)[1] == "briefing-begin"
    through(it)
    assert it.clients["c1"].briefed == ((CARER, "2"),)
    of_old = home(full_plan(), briefed=((CARER, "0"),)).start()
    assert of_old.keys(CARER) == ["carer-unbriefed"]
    of_old.reach("no-carer-briefed")


def test_words_that_change_in_the_middle_begin_again_at_the_next_press() -> None:
    it = joined()
    it.press(CARER, "b-go-on")
    it.rules = replace(RULES, briefing=replace(BRIEFING, version="2", topics=BRIEFING.topics[1:]))
    it.press(CARER, "beside")
    assert it.keys(CARER)[0] == "briefing-begin"
    through(it)
    assert it.clients["c1"].briefed == ((CARER, "2"),)


# --- a session before it is finished --------------------------------------------------------------------------


def test_with_a_carer_who_was_not_briefed_nobody_stands_and_both_are_told_why() -> None:
    it = home(full_plan(), briefed=()).start()
    assert it.keys(CARER) == ["carer-unbriefed"]
    it.reach("no-carer-briefed")
    assert it.keys(CLIENT) == ["no-carer-briefed"]
    assert [choice.press.choice for choice in it.phone(CLIENT).buttons()] == ["seated", "later"]
    it.press(CLIENT, "seated")
    it.finish()
    assert it.ended[-1].carer is CarerSeen.ABSENT
    assert {bout.stance.value for bout in it.bouts} == {"seated"}


def test_who_would_rather_wait_for_the_briefing_is_asked_again_later_and_then_may_stand() -> None:
    it = home(full_plan(), briefed=()).start().reach("no-carer-briefed")
    it.press(CLIENT, "later")
    it.do(Briefed(it.now, CARER, "1"))
    it.wait(RULES.patience.later_s)
    it.press(CLIENT, "start")
    it.check().reach(".hold")
    assert it.session.carer is CarerSeen.VERIFIED


def test_a_plan_that_needs_no_carer_does_not_wait_for_a_briefing() -> None:
    alone = plan(planned("press"), planned("together"), supervision=Supervision.WHEN_FORM_NEEDS)
    it = home(alone, briefed=()).start().check().reach(".hold")
    assert "carer-unbriefed" not in it.heard(CARER)


def test_the_reminder_offers_the_carer_what_is_still_to_be_read() -> None:
    it = home(full_plan(), briefed=())
    it.wait(3600)
    assert it.phone(CARER).cards["carer"].words[-1].key == "carer-unbriefed"
    assert [button.label.key for button in it.phone(CARER).buttons()] == ["b-read-briefing"]


def test_the_button_of_the_reminder_opens_the_briefing_or_goes_on_with_it() -> None:
    it = People([carer()], [client(full_plan(), briefed=())])
    it.wait(3600)
    press = it.buttons(CARER)[0].press
    it.send(CARER, press)
    assert it.keys(CARER) == ["briefing-begin", "briefing-part", "where-told"]
    it.press(CARER, "b-go-on")
    it.send(CARER, press)
    assert it.keys(CARER) == ["where-ask"]


def test_nobody_else_is_taken_for_a_briefed_carer() -> None:
    it = home(full_plan(), briefed=())
    it.do(Briefed(it.now, "somebody", "1"))
    it.do(Briefed(it.now, CARER, "0"))
    assert it.client.briefed == ((CARER, "0"),)
    it.start().reach("no-carer-briefed")


def test_words_typed_in_place_of_a_tap_get_a_kind_line_and_lose_nothing() -> None:
    it = joined()
    it.press(CARER, "b-go-on")
    before = it.persons[CARER]
    it.write(CARER, "On the weak side")
    assert it.keys(CARER)[:2] == ["typed-kept", "typed-emergency"] and it.persons[CARER] == before
    it.press(CARER, "beside")
    assert it.keys(CARER)[0] == "briefing-part"


def test_a_carer_in_the_briefing_can_still_say_that_something_is_wrong() -> None:
    it = joined()
    it.row(CARER, Control.SOMETHING_WRONG)
    assert it.clients["c1"].hold is not None and it.keys(CARER)[0] == "emergency-go"

"""The laws of the core, judged after every event of every test. Each is a claim that must hold whatever happens.

They read what was said, pressed and recorded, and keep their own book of the safety check; they do not ask the
interpreter whether it thinks that all is well.
"""

from collections.abc import Iterator
from copy import copy
from datetime import date, datetime, timedelta

from companion.core import client as care
from companion.core.care import Client, seeing, watching
from companion.core.client import Decision
from companion.core.cursor import Session
from companion.core.effects import Pass, Put, Record, Reply, Report, Say, Sheet, Urgency
from companion.core.events import (
    BaselineTaken,
    Control,
    Controlled,
    Event,
    Joined,
    Prescribed,
    Pressed,
    ReviewDone,
    Typed,
    Woke,
)
from companion.core.media import SoundCheck
from companion.core.observations import Bout, CarerSeen, DayClosed, FlagRaised, Reviewed, SessionEnded
from companion.core.person_turn import own
from companion.core.programme import HAND_STAGES, Clock, Eyes, Hand, Measure, Plan, Planned, Posture, Rules, Supervision
from companion.core.schedule import local_day
from companion.core.steps import Ask, BoutSpec, Counted, Gate, Phase, Sounded, Timed
from companion.core.waiting import due
from tests.core.own_media_laws import OwnMediaLaws

END_CUES = {"time", "carer-time"}
DURING_A_STANCE = {"hold-now", "nudge"}
SAFETY = ("check", "place", "helper", "unsure", "carer-unsure", "no-carer", "carer-not-there", "carer-left")
TRUST_S = 300
"""After Ready somebody stands: getting into place, or waiting for the carer's start, may outlast the check by this."""


class Laws:
    """Judges one client's life. Keeps the plan of the session under way and what was answered in its check."""

    def __init__(self, rules: Rules) -> None:
        self.rules = rules
        self.plan: Plan | None = None
        self.answered: dict[str, datetime] = {}
        self.heard: bool | None = None
        self.misheard = 0
        self.briefed: set[str] = set()
        self.numbered = False
        self.former: set[str] = set()
        self.bouts: frozenset[tuple[object, ...]] = frozenset()
        self.sessions: frozenset[str] = frozenset()
        self.days: frozenset[date] = frozenset()
        self.closed: frozenset[date] = frozenset()
        self.own_media = OwnMediaLaws()

    def copy(self) -> "Laws":
        twin = copy(self)
        twin.answered, twin.former = dict(self.answered), set(self.former)
        twin.own_media = self.own_media.copy()
        return twin

    def judge(self, before: Client, event: Event, decision: Decision) -> None:
        """AssertionError with the law that an event broke."""
        self._keep_the_book(before, event, decision)
        says = [effect for effect in decision.effects if isinstance(effect, Say)]
        self._nobody_is_forgotten(event, decision.client)
        self._a_press_is_counted_once(event, decision)
        self._what_happened_is_recorded_once(decision)
        _a_flag_holds(before, event, decision.client, says)
        _a_plan_is_the_therapists(before, event, decision)
        _emergency_words_come_first(before, decision, says, event.at)
        _who_has_no_part_changes_nothing(before, event, decision)
        _a_review_is_for_therapists(before, event, decision, says)
        self._a_former_carer_hears_no_more(before, event, decision.client, says)
        _after_discharge_nobody_practises(event, decision, says)
        _buttons_are_few_and_fit(decision.client, says)
        _reminders_fit(event, decision.client, says)
        _nobody_practises_without_consent(before, decision.client, says, self.rules)
        if decision.client.session is not None:
            self._judge_session(before, event, decision.client, decision.client.session, says)
        _cues_are_never_late(before, event, says, self.rules)
        _a_new_plan_waits_its_turn(before, event, decision.client, says)
        self.own_media.judge(before, event, decision)

    # --- the book -------------------------------------------------------------------------------------------

    def _keep_the_book(self, before: Client, event: Event, decision: Decision) -> None:
        old, new = before.session, decision.client.session
        if before.zone != decision.client.zone:
            self.days = self.closed = frozenset()  # in another zone the same hours are other days
        if new is not None and (old is None or old.id != new.id):
            self.plan, self.answered, self.numbered = decision.client.plan, {}, False
            self.heard, self.misheard = (True if before.sound_heard_at is not None else None), 0
            self.briefed = {by for by, version in decision.client.briefed if version == self.rules.briefing.version}
        elif old is not None and _the_carer_left(event, old, before.people.carer):
            self.answered = {}
        elif isinstance(event, Pressed) and old is not None and event.press.scope == old.id:
            self._note_answer(old, event)

    def _note_answer(self, session: Session, event: Pressed) -> None:
        step, choice = session.current, event.press.choice
        if event.press.step != str(session.turn):
            return
        if choice == "unheard" and event.by in (session.phone, session.carer_phone):
            self.heard, self.misheard = None, 0
        if not isinstance(step, Ask | Gate) or event.by != step.to:
            return
        if isinstance(step, Ask) and isinstance(step.media, SoundCheck) and choice in ("t2", "t3", "t4", "nothing"):
            self._note_tones(choice == f"t{step.media.tones}")
        elif choice == "without":
            self.heard = False
        if isinstance(step, Gate) and choice == f"n{session.numbers[0]}":
            self.answered["helper"] = event.at
            self.numbered = True
        elif step.id == "helper" and choice == "beside":
            assert session.carer_phone == session.phone, "a tap alone stood for the number on a phone of the carer's own"
            self.answered["helper"] = event.at
        elif step.id.startswith("check") and choice == "same":
            self.answered[step.id] = event.at
        elif step.id in ("place", "place-wait") and choice == "ready":
            self.answered["place"] = event.at

    def _note_tones(self, right: bool) -> None:
        self.misheard = 0 if right else self.misheard + 1
        self.heard = True if right else False if self.misheard > 1 else None

    # --- laws of every event --------------------------------------------------------------------------------

    def _nobody_is_forgotten(self, event: Event, after: Client) -> None:
        moment = care.wake_at(after, self.rules)
        plan = after.plan
        over = plan is None or after.discharged_at is not None
        # nothing is ahead of a plan without days, or one whose days are all over: then the therapist's list says so
        done = over or plan is None or not plan.practice.weekdays or plan.ends_on is not None
        assert done or moment is not None, "a client with a plan is never looked at again"
        if isinstance(event, Woke) and moment is not None:
            assert moment > event.at, f"woken at {event.at}, to be woken at {moment}"

    def _a_press_is_counted_once(self, event: Event, decision: Decision) -> None:
        if isinstance(event, Pressed):
            again = care.step(decision.client, event, self.rules)
            assert again.client == decision.client, f"the second {event.press} changed something"
            assert not [effect for effect in again.effects if isinstance(effect, Record)], f"{event.press} twice in the record"

    def _what_happened_is_recorded_once(self, decision: Decision) -> None:
        for seen in [effect.observation for effect in decision.effects if isinstance(effect, Record)]:
            if isinstance(seen, Bout):
                key = (seen.session, seen.at, seen.exercise, seen.form, seen.side)
                assert key not in self.bouts, f"the bout {key} is recorded twice"
                self.bouts |= {key}
            elif isinstance(seen, SessionEnded):
                assert seen.session not in self.sessions, f"the session {seen.session} ends twice"
                assert self.numbered or seen.carer is not CarerSeen.VERIFIED, "a carer verified without a number"
                assert 0 <= seen.done <= seen.planned, f"{seen.done} bouts done of {seen.planned}"
                assert seen.day not in self.closed, f"{seen.day} had a session and counts as a day without one"
                self.sessions |= {seen.session}
                self.days |= {seen.day}
            elif isinstance(seen, DayClosed):
                assert seen.day not in self.days | self.closed, f"{seen.day} is closed twice"
                self.closed |= {seen.day}

    def _a_former_carer_hears_no_more(self, before: Client, event: Event, after: Client, says: list[Say]) -> None:
        told = [(say.to, say.words[0].key) for say in says if say.to in self.former]
        own = getattr(event, "by", None)
        polite = told in [[(own, key)] for key in ("nothing-runs", "typed-therapist", "baseline-not-theirs")]
        assert polite or not told, f"{told}: the carer no longer, and heard more"
        if before.people.carer is not None and after.people.carer is None:
            self.former.add(before.people.carer)
            heard = [say.words[0].key for say in says if say.to == before.people.carer]
            assert heard == ["carer-removed"], f"the carer who goes heard {heard}"

    # --- laws of a session ----------------------------------------------------------------------------------

    def _judge_session(self, before: Client, event: Event, after: Client, session: Session, says: list[Say]) -> None:
        old = before.session
        assert session.outcome is None, "a session that is over is still there"
        waits = isinstance(session.current, Ask | Gate | Timed | Counted | Sounded)
        assert waits, "a session waits where nothing is waited for"
        assert len(set(session.done)) == len(session.done), f"a bout counts twice in {session.done}"
        entered = old is None or (old.id, old.turn) != (session.id, session.turn)
        stance = _stance(session)
        if entered and stance is not None:
            self._the_check_is_complete_and_fresh(event, after, session, stance)
            self._never_harder_than_opened(session, stance)
            _nothing_starts_by_itself(old, event, session)
        if isinstance(session.current, Sounded):
            assert self.heard is True, "a voice note is the clock, and nobody knows whether it is heard"
            _a_note_plays_in_quiet(session.current, entered, event, session, says)
        if stance is not None and old is not None and (not entered or _stance(old) is not None):
            _a_stance_is_quiet(event, after, says)

    def _the_check_is_complete_and_fresh(self, event: Event, after: Client, session: Session, spec: BoutSpec) -> None:
        assert self.plan is not None
        asked = self.answered
        signs = {"check", "check-back"} & asked.keys() or all(f"check.{sign}" in asked for sign in self.rules.signs)
        assert signs and "place" in asked, f"somebody stands after no more than {sorted(asked)}"
        form = self.rules.exercises[spec.exercise].form(spec.form)
        alone = self.plan.supervision is Supervision.WHEN_FORM_NEEDS and self.plan.can_call_for_help
        if not alone or form.needs_carer or spec.clock is Clock.CARER or spec.eyes is Eyes.CLOSED:
            assert "helper" in asked, f"{spec.exercise} {spec.form} with nobody shown to be there"
            assert self.briefed & {session.carer_phone, after.people.carer}, (
                f"{spec.exercise} {spec.form} with a carer who was not briefed"
            )
        assert not session.seated_only, "somebody stands in a seated session"
        step, patience = session.current, self.rules.patience
        trust = TRUST_S if isinstance(step, Timed) and step.phase is Phase.HOLD else 0
        last = max(asked.values())
        age = (event.at - last).total_seconds()
        assert age <= patience.check_fresh_s + trust, f"somebody stands {age:.0f} s after the check"
        # no answer may lean on one that was given long before it
        whole = (last - min(asked.values())).total_seconds()
        assert whole <= patience.check_fresh_s + patience.gate_s, f"the answers of one check are {whole:.0f} s apart"

    def _never_harder_than_opened(self, session: Session, spec: BoutSpec) -> None:
        assert self.plan is not None
        planned = next(item for item in self.plan.exercises if item.exercise == spec.exercise)
        assert_in_range(spec, planned, self.plan, self.rules)
        if spec.eyes is Eyes.CLOSED:
            by_sound = spec.clock is Clock.SOUND and self.heard is True
            told = spec.clock is Clock.CARER or spec.measure is Measure.COUNTED or by_sound
            assert self.plan.eyes_closed and told and session.carer_phone, "eyes closed without leave"


def _the_carer_left(event: Event, session: Session, carer: str | None) -> bool:
    """Whether the carer of the session says that they had to leave, with their row or, on a shared phone, in the menu."""
    if isinstance(event, Pressed):
        menu = event.press.scope == "menu" and event.press.choice == "left"
        return menu and session.carer_phone == session.phone == event.by
    if not isinstance(event, Controlled) or event.control is not Control.HAD_TO_LEAVE or session.carer_phone is None:
        return False
    return event.by in (session.carer_phone, carer)


def assert_in_range(spec: BoutSpec, planned: Planned, plan: Plan, rules: Rules) -> None:
    """A way to do a bout lies within what the plan opened, and is nothing that the plan rules out."""
    exercise = rules.exercises[spec.exercise]
    ids = [form.id for form in exercise.forms]
    form, at = exercise.form(spec.form), ids.index(spec.form)
    assert at <= max(ids.index(planned.form), ids.index(planned.hardest)), f"{spec.form} is harder than {planned.hardest}"
    opened = max(HAND_STAGES.index(planned.hand), HAND_STAGES.index(planned.hand_hardest))
    able = [hand for hand in form.hands if hand is not Hand.TWO_HANDS or not plan.one_good_hand]
    possible = [hand for hand in able if HAND_STAGES.index(hand) <= opened]
    assert spec.hand in able, f"{spec.form} is not done with {spec.hand}"
    assert not possible or spec.hand in possible, f"{spec.hand} is less than {planned.hand_hardest}"
    assert spec.target <= max(planned.target, form.target) and (spec.form != planned.form or spec.target == planned.target)
    assert not (form.needs_free_ankle and plan.ankle_blocked) and not (form.needs_two_hands and plan.one_good_hand)


def _stance(session: Session) -> BoutSpec | None:
    """The bout that somebody stands for, or is getting into place for, on this session's word; None if nobody is."""
    step = session.current
    if isinstance(step, Counted | Sounded) or (isinstance(step, Timed) and step.bout is not None):
        spec = step.bout
    elif (isinstance(step, Timed) and step.phase is Phase.INTO_PLACE) or (isinstance(step, Ask) and step.id.endswith(".start")):
        spec = next(one.bout for one in session.script.steps[session.step :] if isinstance(one, Timed) and one.bout is not None)
    else:
        return None
    return spec if spec is not None and spec.posture is Posture.STANDING else None


def _nothing_starts_by_itself(old: Session | None, event: Event, session: Session) -> None:
    step = session.current
    if isinstance(event, Woke) and not (isinstance(step, Counted) and step.unhurried):
        before = old.current if old is not None else None
        from_place = isinstance(before, Timed) and before.phase is Phase.INTO_PLACE
        assert isinstance(step, Timed) and step.phase is Phase.HOLD and from_place, "a stance began though nobody pressed"


def _a_note_plays_in_quiet(step: Sounded, entered: bool, event: Event, session: Session, says: list[Say]) -> None:
    """The note, and then nothing until it can have been played and answered. Nobody is asked to tap by another message."""
    mine = [say for say in says if say.to == session.phone]
    if entered:
        assert [say.media for say in mine] == [step.media] and mine[0].put is Put.NEW, f"{mine} beside the note"
    elif not (isinstance(event, Pressed | Controlled | Typed | Joined) and event.by == session.phone):
        played = session.since + timedelta(seconds=step.media.into_place_s + step.media.seconds)
        assert not mine or event.at > played, f"{mine} while the note may be playing"


def _a_stance_is_quiet(event: Event, after: Client, says: list[Say]) -> None:
    """What somebody asks for with their own phone is answered there; else a phone in a stance gets next to nothing."""
    if isinstance(event, Pressed | Controlled | Typed | Joined) and event.by == after.people.client:
        return
    for say in says:
        if say.to == after.people.client and say.urgency is not Urgency.ALERT:
            first = say.words[0].key
            assert first in DURING_A_STANCE, f"{first!r} came in a stance"
            assert first == "nudge" or say.put is Put.IN_PLACE, f"{first!r} made a sound in a stance"


def _cues_are_never_late(before: Client, event: Event, says: list[Say], rules: Rules) -> None:
    cues = [say for say in says if say.words and say.words[0].key in END_CUES]
    if cues:
        assert before.session is not None and isinstance(before.session.current, Timed), "an end cue, and nothing ran"
        ended = due(before.session, rules.patience)
        assert ended is not None
        latest = ended + timedelta(seconds=rules.patience.late_cue_s)
        assert event.at <= latest, f"an end cue {event.at - ended} late"
        assert all(say.not_after == latest for say in cues), "an end cue that may be sent late"


# --- laws of flags, buttons, reminders ------------------------------------------------------------------------


def _a_plan_is_the_therapists(before: Client, event: Event, decision: Decision) -> None:
    """Nothing but a prescribed plan or a baseline changes a plan, and the care prescribes by a therapist's press only."""
    if before.plan != decision.client.plan:
        assert isinstance(event, Prescribed | BaselineTaken), f"{event} changed the plan"
    for passed in [effect.event for effect in decision.effects if isinstance(effect, Pass)]:
        if isinstance(passed, Prescribed):
            assert isinstance(event, Pressed) and event.by == passed.by, f"{event} prescribed a plan"
            assert event.by in seeing(before, event.at), f"{event.by} prescribed a plan"


def _a_flag_holds(before: Client, event: Event, after: Client, says: list[Say]) -> None:
    if before.hold is not None and after.hold is None:
        lifted = isinstance(event, Pressed) and event.by in seeing(before, event.at) and event.press.step == "lift"
        assert lifted, f"{event} lifted a red flag"
    if after.hold is not None:
        assert after.session is None, "a session goes on under a red flag"
        for say in says:
            assert say.topic not in ("session", "reminder"), f"{say.words} under a red flag"
            assert not [one for one in say.buttons if one.press.scope[0] in "so"], f"{say.buttons} under a red flag"
    if before.hold is not None and after.hold is None:
        assert after.session is None, "a lifted flag sent somebody back to their feet"


def _emergency_words_come_first(before: Client, decision: Decision, says: list[Say], at: datetime) -> None:
    raised = [one for one in decision.effects if isinstance(one, Record) and isinstance(one.observation, FlagRaised)]
    if before.hold is None and raised:
        for who in decision.client.people.at_home():
            about = ("happened-", "helper-pressed")
            lines = [line.key for say in says if say.to == who for line in say.words]
            lines = [line for line in lines if not line.startswith(about)]
            stop = "emergency-stop" if who == decision.client.people.client else "emergency-go"
            known = lines[0].removesuffix("-fall") == stop and lines[1].startswith("emergency-call")
            assert known, f"{who} heard first: {lines[:2]}"
        first = says[0]
        assert first.urgency is Urgency.ALERT and not first.buttons, "a question came before the emergency words"
        told = {say.to for say in says}
        assert set(watching(decision.client, at)) <= told, "somebody who is told of a red flag at once was not told"


def _who_has_no_part_changes_nothing(before: Client, event: Event, decision: Decision) -> None:
    """A stranger, a former therapist or carer, another therapist: one line, nothing seen, nothing changed."""
    if not isinstance(event, Pressed):
        return
    told = before.hold.alerted if before.hold is not None else ()
    if event.by in (*before.people.at_home(), *before.people.contacts, *seeing(before, event.at), *told):
        return
    assert decision.client == before, f"{event.by} has no part in this care and changed it by {event.press}"
    assert [type(effect) for effect in decision.effects] == [Reply], f"{event.by} has no part and saw more than a line"


def _a_review_is_for_therapists(before: Client, event: Event, decision: Decision, says: list[Say]) -> None:
    """Only who sees to the client reviews, and nothing of it comes to anybody else."""
    therapists = seeing(before, event.at)
    if [one for one in decision.effects if isinstance(one, Record) and isinstance(one.observation, Reviewed)]:
        assert isinstance(event, ReviewDone) and event.by in therapists, f"{event} was recorded as a review"
        assert before.discharged_at is None, "a review after discharge"
    for one in [effect for effect in decision.effects if isinstance(effect, Report)]:
        assert one.sheet is not Sheet.REVIEWS or one.to in therapists, f"the reviews came to {one.to}"
    for say in says:
        told = [line.key for line in say.words if line.key.startswith("review-")]
        assert not told or say.to in therapists, f"{told} came to {say.to}"


def _after_discharge_nobody_practises(event: Event, decision: Decision, says: list[Say]) -> None:
    if decision.client.discharged_at is not None:
        assert decision.client.session is None, "a session after discharge"
        assert not [say for say in says if say.topic in ("session", "reminder")], "told to practise after discharge"
        asked = isinstance(event, Pressed)
        assert asked or not [one for one in decision.effects if isinstance(one, Report)], "a chart after discharge"


def _buttons_are_few_and_fit(after: Client, says: list[Say]) -> None:
    for say in [one for one in says if one.buttons]:
        choices = [button.press.choice for button in say.buttons]
        at_home = say.to in after.people.at_home()
        assert len(set(choices)) == len(choices) <= (5 if at_home else 12), f"{choices}"
        assert say.card is not None and not say.fixed_row, "buttons that can not be taken away again"
        numbers = [choice for choice in choices if choice[:1] == "n" and choice[1:].isdigit()]
        if (
            at_home and _is_safety(say, after) and not {"3_days", "open"} <= set(choices)
        ):  # how long a pause lasts is an ordered scale
            assert len(choices) - len(numbers) <= 3, f"{choices} in a safety question"
        for press in [button.press for button in say.buttons]:
            assert press.client in (after.id, own(say.to)), f"a button of {press.client} on the phone of {say.to}"
            assert len(f"{press.client}:{press.scope}:{press.step}:{press.choice}".encode()) <= 64


def _is_safety(say: Say, after: Client) -> bool:
    if say.topic != "session":
        return True
    step = after.session.current if after.session is not None else None
    return isinstance(step, Gate) or (isinstance(step, Ask) and step.id.startswith(SAFETY))


def _reminders_fit(event: Event, after: Client, says: list[Say]) -> None:
    for say in [one for one in says if one.topic == "reminder"]:
        assert say.to in after.joined, f"a reminder to {say.to}, who is not there"
        assert after.session is None and after.hold is None, "a reminder to somebody in a session or held"
        assert after.day is not None and not after.day.declined, "a reminder after 'not today'"
        today = local_day(event.at, after.zone)
        assert after.off_day != today and after.day.day == today, "a reminder of another day, or on a day that is off"
        assert after.plan is not None and not after.plan.over(today), "a reminder after the last day of the plan"


def _a_new_plan_waits_its_turn(before: Client, event: Event, after: Client, says: list[Say]) -> None:
    """Only who sees to the client changes the plan; a session goes on as it began; what is new is told to who is idle."""
    if isinstance(event, Prescribed):
        assert event.by is None or event.by in seeing(before, event.at) or after.plan == before.plan, "a stranger prescribed"
        kept = after.session is None or before.session is None or after.session.script == before.session.script
        assert kept, "a plan changed a session under way"
    if any(say.topic == "plan" and say.to in after.people.at_home() for say in says):
        assert after.session is None and after.hold is None and after.pause is None, "a new plan was told at a bad moment"


def _nobody_practises_without_consent(before: Client, after: Client, says: list[Say], rules: Rules) -> None:
    """Not even started: consent to the very words that hold today. Nor is anybody reminded who did not agree, or pauses."""
    began = after.session is not None and (before.session is None or before.session.id != after.session.id)
    if began:
        assert after.consent is not None and after.consent.version == rules.consent.version, "a session without consent"
        assert after.pause is None, "a session in a pause"
    assert after.session is None or after.consent is not None, "a session of somebody who left goes on"
    if [say for say in says if say.topic == "reminder"]:
        assert after.consent is not None, "a reminder to somebody who did not agree"
        assert after.pause is None, "a reminder in a pause"


def standing_specs(session: Session) -> Iterator[BoutSpec]:
    """The standing bouts of a script, in every form."""
    for step in session.script.steps:
        if isinstance(step, Timed | Counted) and step.bout is not None and step.bout.posture is Posture.STANDING:
            yield step.bout

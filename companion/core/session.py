"""The one interpreter of a session: `advance(session, event, patience)`. When it is due, `waiting` says.

Rules kept here:
- nothing starts by itself: a clock runs only after somebody pressed Ready or Start, and a rest has no most;
- a screen clock begins when the platform took its words, and an end cue that is late is never given: it asks instead;
- standing needs a complete check no older than `check_fresh_s`; an old one is asked again before anybody stands;
- after a standing bout silence is followed up: the client, then the carer, then the session ends without word;
- while a voice note may be playing nothing is sent, and nobody gets one as a clock before tones were found to be heard;
- a press counts once: it names the session and the turn it answers, and a turn has one answer.
"""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import assert_never

from companion.core.answering import CARD, also, copy, may_answer, told
from companion.core.bouts import Draft, write_down
from companion.core.cursor import Outcome, Session
from companion.core.effects import (
    ClearButtons,
    Effect,
    PersonId,
    Put,
    Record,
    Reply,
    Say,
    TakeBack,
    Urgency,
    Words,
    words,
)
from companion.core.events import Arrived, Event, Lost, Pressed, Woke
from companion.core.observations import Answer, CarerSeen, Quality, Reporter
from companion.core.programme import Patience
from companion.core.showing import TOPIC, ask_again, choices_at, filled, question, sounding_s
from companion.core.sound_blocks import AGAIN, CHECK
from companion.core.steps import Ask, Choice, Counted, Gate, Label, Over, Phase, Script, Show, Sounded, Timed
from companion.core.waiting import due, rest_allowed, watched

MOST_WRONG_NUMBERS = 2


def begin(
    script: Script, phone: PersonId, carer_phone: PersonId | None, at: datetime, seed: int, patience: Patience
) -> tuple[Session, tuple[Effect, ...]]:
    """Start a session at its safety check."""
    session = Session(script.id, script.client, phone, carer_phone, script, began=at, since=at)
    run = _Run(session, at, seed, patience)
    run.go("check")
    return run.session, tuple(run.effects)


def advance(session: Session, event: Event, patience: Patience) -> tuple[Session, tuple[Effect, ...]]:
    """What the session makes of an event. Total: an event that does not fit changes nothing (a press gets a kind reply)."""
    run = _Run(session, event.at, event.seed, patience)
    if session.outcome is None:
        if isinstance(event, Pressed):
            run.pressed(event)
        elif isinstance(event, Woke):
            run.woke()
        elif isinstance(event, Arrived):
            run.arrived(event)
        elif isinstance(event, Lost):
            run.lost(event)
    elif isinstance(event, Pressed):
        run.effects.append(Reply(words("press-over")))
    return run.session, tuple(run.effects)


def interrupt(session: Session, at: datetime, quality: Quality | None) -> tuple[Session, tuple[Effect, ...]]:
    """Cut off whatever is under way: a bout under way is written down with the time its clock ran, and `quality`.

    A bout that was not surely under way did not end early: how it went is unknown. Takes back what is written down
    and not yet sent. The session has no draft afterwards and no clock running.
    """
    effects: list[Effect] = [TakeBack(TOPIC)]
    draft, step = session.draft, session.current
    if draft is not None:
        if session.clock_began is not None and isinstance(step, Timed):
            ran = (at - session.clock_began).total_seconds()
            draft = replace(draft, practised_s=round(min(max(ran, 0.0), step.seconds), 1))
        # where nobody said Ready, or where the bout was over, nobody knows that it ended early
        under_way = isinstance(step, Timed) or (isinstance(step, Counted) and step.watch and not step.unhurried)
        cut = quality if under_way or quality is not Quality.ENDED_EARLY else Quality.UNKNOWN
        # what somebody has said of a bout stays said
        effects.append(Record(write_down(draft, session.id, None if draft.get("quality") else cut)))
    return replace(session, draft=None, clock_began=None), tuple(effects)


def carer_left(session: Session, at: datetime, seed: int, patience: Patience) -> tuple[Session, tuple[Effect, ...]]:
    """The carer had to leave: standing ends at once. Coming back takes a new check and a new number."""
    session, effects = interrupt(session, at, Quality.ENDED_EARLY)
    session = replace(session, checked_at=None, resume=session.block, carer=CarerSeen.ABSENT)
    run = _Run(session, at, seed, patience)
    run.effects += effects
    run.go("carer-left")
    return run.session, tuple(run.effects)


def in_doubt(session: Session) -> bool:
    """Whether somebody said that something may be different, and it is not yet known what."""
    return isinstance(session.current, Ask) and session.current.doubt


def stopped(session: Session, outcome: Outcome) -> Session:
    """The session, over."""
    return replace(session, outcome=outcome, draft=None, clock_began=None)


class _Run:
    """One call of the interpreter: the session as it changes and the effects so far. Never leaves this module."""

    def __init__(self, session: Session, at: datetime, seed: int, patience: Patience) -> None:
        self.session = session
        self.at = at
        self.seed = seed
        self.patience = patience
        self.effects: list[Effect] = []

    # --- events -------------------------------------------------------------------------------------------

    def pressed(self, event: Pressed) -> None:
        session, step = self.session, self.session.current
        fits = event.press.scope == session.id and event.press.step == str(session.turn)
        if isinstance(step, Timed) and fits and event.by == step.to:
            self._tapped(step, event.press.choice)
            return
        if isinstance(step, Label | Show | Timed) or not fits or not may_answer(session, step, event.by):
            self.effects.append(Reply(words("press-stale")))
            return
        if isinstance(step, Ask | Gate) and step.patience is not None and self._waited() >= step.patience:
            # what was to follow without an answer is due, and was not yet seen to
            self.effects.append(Reply(words("press-over")))
            self.woke()
            return
        for choice in choices_at(session, step):
            if choice.id == event.press.choice:
                self.effects.append(Reply())
                if isinstance(step, Gate) and choice.id.startswith("n") and choice.id[1:].isdigit():
                    self._picked(step, int(choice.id[1:]))
                else:
                    self._chose(step, choice, event.by)
                return
        self.effects.append(Reply(words("press-stale")))

    def _tapped(self, step: Timed, choice: str) -> None:
        session, draft = self.session, self.session.draft
        if step.tap is None or choice != step.tap.id or draft is None or session.clock_began is None:
            self.effects.append(Reply(words("press-stale")))
            return
        if draft.tapped_s is None:
            seconds = round((self.at - session.clock_began).total_seconds(), 1)
            seconds = min(max(seconds, 0.0), float(step.seconds))
            self.session = replace(session, draft=replace(draft, tapped_s=seconds))
            # kept beside the client's own answer, whatever that will be
            exercise = draft.spec.exercise
            self.effects.append(Record(Answer(self.at, session.id, exercise, "tap", str(seconds), Reporter.CARER)))
        self.effects.append(Reply(words("tap-noted")))

    def _picked(self, step: Gate, number: int) -> None:
        if number == self.session.numbers[0]:
            self.session = replace(self.session, wrong_numbers=0)
            self.effects.append(self._edit(step.to, (words("gate-carer-right"),), "carer"))
            self._next()
            return
        # a wrong number proves nothing: a new one is shown, and asked for; who can not see it at all is not there
        self.session = replace(self.session, wrong_numbers=self.session.wrong_numbers + 1)
        if self.session.wrong_numbers > MOST_WRONG_NUMBERS:
            self.go(step.not_there.go or step.otherwise)
        else:
            self._enter(self.session.step, before=(words("gate-carer-wrong"),))

    def _chose(self, step: Ask | Counted | Sounded | Gate, choice: Choice, by: PersonId) -> None:
        asked, said = self.session, len(self.effects)
        self._follow(step, choice, by)
        effects = self.effects[said:]
        told(asked, self.session, by, effects)
        self.effects[said:] = effects

    def _follow(self, step: Ask | Counted | Sounded | Gate, choice: Choice, by: PersonId) -> None:
        session = self.session
        if choice.starts and self._stale():
            self.session = replace(session, resume=session.block)
            self.go("check")
            return
        another = session.carer_phone if session.carer_phone != session.phone else None
        if session.nudged > 1 and step.to == session.phone == by and another and not choice.facts:
            self.effects.append(Say(another, (words("nudge-answered"),), topic=TOPIC))
        if choice.sets and session.draft is not None:
            self.session = session = replace(session, draft=session.draft.with_sets(self._sets(step, choice, by)))
        if isinstance(step, Ask) and step.question is not None:
            answer = Answer(self.at, session.id, step.exercise, step.question, choice.id, Reporter.CLIENT)
            self.effects.append(Record(answer))
            if step.question == "confidence":
                self.session = session = replace(session, confidence=True)
            if step.question == "effort":
                self.session = session = replace(session, effort=choice.id)
        if choice.facts:
            self._finish(Over.FLAG, choice.facts, by)
        elif choice.ends is not None:
            self._finish(choice.ends, (), by)
        elif choice.unheard:
            self._sound_not_heard()
        else:
            if choice.seated_only:
                self.session = replace(session, seated_only=True, carer=CarerSeen.ABSENT)
            tapped = session.draft is not None and session.draft.tapped_s is not None
            target = choice.go_tapped if tapped and choice.go_tapped else choice.go
            if target is None:
                self._next()
            else:
                self.go(target)

    def _sets(self, step: Ask | Counted | Sounded | Gate, choice: Choice, by: PersonId) -> tuple[tuple[str, str], ...]:
        """What an answer writes into the bout under way, with who gave it where that is the carer.

        Who answers sooner than the note can have been played through has kept another time than its own: it is unknown.
        """
        carer = (("by", "carer"),) if by != self.session.phone else ()
        early = isinstance(step, Sounded) and self._waited() < sounding_s(step)
        return (*choice.sets, *carer, *((("clock", "lost"),) if early else ()))

    def _sound_not_heard(self) -> None:
        """Nothing was heard of the note: the bout is as if it had not been, and the sound is checked again, once a session."""
        session = self.session
        heard = None if not session.unheard else False
        self.session = replace(session, draft=None, heard=heard, unheard=session.unheard + 1)
        self.go(session.block or "check")

    def woke(self) -> None:
        moment = due(self.session, self.patience)
        if moment is None or self.at < moment:
            return
        step = self.session.current
        if isinstance(step, Timed):
            self._time_is_up(step, moment)
        elif isinstance(step, Gate):
            self.go(step.otherwise)
        elif isinstance(step, Ask | Counted | Sounded):
            self._no_answer(step)

    def _time_is_up(self, step: Timed, moment: datetime) -> None:
        late = (self.at - moment).total_seconds()
        grace = self.patience.late_cue_s if step.phase is Phase.HOLD else self.patience.receipt_s
        never_began = step.by_receipt and self.session.clock_began is None
        if step.lost is not None and (never_began or late > grace):
            self._clock_lost(step)
            return
        if step.phase is Phase.HOLD and self.session.draft is not None:
            draft = replace(self.session.draft, practised_s=float(step.seconds))
            self.session = replace(self.session, draft=draft)
        self._next(cue_at=moment if step.phase is Phase.HOLD else None)

    def _clock_lost(self, step: Timed) -> None:
        assert step.lost is not None
        self.effects.append(TakeBack(TOPIC))
        if step.tap is not None:
            self.effects.append(ClearButtons(step.to, step.card))
        if step.phase is Phase.INTO_PLACE:
            self.session = replace(self.session, draft=None)
        self.go(step.lost)

    def _no_answer(self, step: Ask | Counted | Sounded) -> None:
        session = self.session
        waited = self._waited() - rest_allowed(session, self.patience)
        if isinstance(step, Ask) and step.patience is not None and waited >= step.patience:
            self.effects.append(ClearButtons(step.to, step.card))
            if step.otherwise is not None:
                self.go(step.otherwise)
            else:
                self._finish(Over.UNSURE, (), None)
        elif not watched(step):
            self._finish(Over.IDLE, (), None)
        elif waited >= self.patience.no_word_s:
            self._finish(Over.NO_WORD, (), None)
        elif waited >= self.patience.carer_nudge_s:
            self.session = replace(session, nudged=2)
            if session.carer_phone:
                marked = (words("for-helper"),) if session.carer_phone == session.phone else ()
                said = (*marked, words("nudge-carer"), words("nudge-carer-wrong"))
                self.effects.append(Say(session.carer_phone, said, topic=TOPIC, urgency=Urgency.ALERT))
        else:
            self.session = replace(session, nudged=1)
            again = ask_again(session, (words("nudge"),), session.phone)
            if again is not None:
                self.effects.append(again)

    def arrived(self, event: Arrived) -> None:
        session, step = self.session, self.session.current
        if event.tag != self._tag():
            return
        if isinstance(step, Sounded) and session.draft is not None:
            # it can not have been played before
            self.session = replace(session, since=event.at, draft=replace(session.draft, at=event.at))
        elif isinstance(step, Timed) and step.by_receipt and session.clock_began is None:
            draft = replace(session.draft, at=event.at) if session.draft else None
            self.session = replace(session, clock_began=event.at, draft=draft)

    def lost(self, event: Lost) -> None:
        step = self.session.current
        if event.tag != self._tag():
            return
        if isinstance(step, Timed) and step.lost is not None and self.session.clock_began is None:
            self._clock_lost(step)
        elif isinstance(step, Ask) and step.late is not None:
            self.effects.append(TakeBack(TOPIC))
            self.go(step.late)
        elif isinstance(step, Ask | Sounded) and step.lost is not None:
            self.effects.append(TakeBack(TOPIC))
            carer = also(self.session)
            if carer is not None:
                self.effects.append(ClearButtons(carer, CARD))
            self.go(step.lost)

    # --- moving through the script ------------------------------------------------------------------------

    def go(self, label: str) -> None:
        """Jump to a label and on to the next step that waits."""
        self._enter(self.session.script.find(label))

    def _next(self, cue_at: datetime | None = None) -> None:
        self._enter(self.session.step + 1, cue_at=cue_at)

    def _enter(self, index: int, before: tuple[Words, ...] = (), cue_at: datetime | None = None) -> None:
        """Enter steps from `index` until one waits, or the script is done. `cue_at`: when a hold ended just now."""
        steps = self.session.script.steps
        while True:
            if index >= len(steps):
                self._finish(Over.DONE, (), None)
                return
            step = steps[index]
            if isinstance(step, Label):
                index = self._label(step, index)
            elif isinstance(step, Show):
                said = filled(self.session, step.words)
                say = Say(step.to, said, urgency=step.urgency, topic=TOPIC, card=step.card, put=step.put, media=step.media)
                # the end of a carer's clock is a cue like any other: late, it is not given
                self.effects.append(say if cue_at is None else replace(say, not_after=self._latest(cue_at)))
                index += 1
            else:
                self.session = replace(
                    self.session,
                    step=index,
                    turn=self.session.turn + 1,
                    since=self.at,
                    clock_began=None,
                    nudged=0,
                )
                self._wait_at(step, before, cue_at)
                return

    def _label(self, label: Label, index: int) -> int:
        """Pass a label; the index of the next step."""
        session = self.session
        find = session.script.find
        if label.closes and session.draft is not None:
            bout = write_down(session.draft, session.id)
            self.effects.append(Record(bout))
            clean = session.clean + (bout.quality is Quality.CLEAN and bout.practised_s is not None)
            done = (*session.done, session.draft.spec.key)
            # from here the session goes on after a new check: what is done is not asked for again
            practised = session.practised_s + (bout.practised_s or 0.0)
            self.session = session = replace(
                session, draft=None, done=done, clean=clean, practised_s=practised, block=label.name
            )
        if label.fresh:
            resume = session.resume
            seen = session.carer
            if label.verified and not session.seated_only:
                seen = CarerSeen.NOT_VERIFIED if session.carer_phone == session.phone else CarerSeen.VERIFIED
            self.session = session = replace(session, checked_at=self.at, resume=None, carer=seen)
            if resume is not None:
                return find(resume)
        if label.block:
            # what was under way in another way of doing it has not been
            self.session = session = replace(session, block=label.name, draft=None)
        if label.standing and label.skip is not None and session.seated_only:
            return find(label.skip)
        if label.standing and self._stale():
            self.session = replace(session, resume=label.name)
            return find("check")
        if label.heard is not None and session.block is not None:
            self.session = replace(session, heard=label.heard)
            return find(session.block)
        if label.needs_sound is not None and session.heard is False:
            return find(label.needs_sound)
        if label.needs_sound is not None and session.heard is None:
            return find(AGAIN if session.unheard else CHECK)
        return index + 1

    def _wait_at(
        self, step: Ask | Gate | Timed | Counted | Sounded, before: tuple[Words, ...], cue_at: datetime | None
    ) -> None:
        if isinstance(step, Gate):
            self._ask_the_helper(step, before)
        elif isinstance(step, Timed):
            self._start_timing(step)
        elif isinstance(step, Counted):
            self.session = replace(self.session, draft=Draft(step.bout, self.at))
            say = question(self.session, step.to, step.words, step.choices, step.card, step.put)
            self.effects.append(replace(say, media=step.media))
        elif isinstance(step, Ask | Sounded):
            self._ask(step, cue_at)
        else:
            assert_never(step)

    def _ask(self, step: Ask | Sounded, cue_at: datetime | None) -> None:
        if isinstance(step, Sounded):
            self.session = replace(self.session, draft=Draft(step.bout, self.at))
        copy(self.session, self.effects)
        put = Put.NEW if isinstance(step, Sounded) else step.put
        say = replace(question(self.session, step.to, step.words, step.choices, step.card, put), media=step.media)
        if isinstance(step, Ask) and step.late is not None and cue_at is not None:
            say = replace(say, tag=self._tag(), not_after=self._latest(cue_at))
        elif step.lost is not None:
            # a note that comes when nobody waits for it any more starts nobody
            say = replace(say, tag=self._tag(), not_after=self.at + timedelta(seconds=self.patience.nudge_s))
        self.effects.append(say)

    def _ask_the_helper(self, step: Gate, before: tuple[Words, ...]) -> None:
        self.session = replace(self.session, numbers=_three_numbers(self.seed))
        session = self.session
        self.effects.append(question(session, step.shown_to, step.shown, (), "session", Put.IN_PLACE))
        put = Put.IN_PLACE if before else Put.NEW
        lines = (*before, *step.words)
        self.effects.append(question(session, step.to, lines, choices_at(session, step), "carer", put))

    def _start_timing(self, step: Timed) -> None:
        if step.bout is not None:
            self.session = replace(self.session, draft=Draft(step.bout, self.at))
        say = question(self.session, step.to, step.words, (step.tap,) if step.tap else (), step.card, step.put)
        if step.by_receipt:
            not_after = self.at + timedelta(seconds=self.patience.receipt_s)
            say = replace(say, tag=self._tag(), not_after=not_after)
        else:
            self.session = replace(self.session, clock_began=self.at)
        self.effects.append(say)

    def _finish(self, over: Over, facts: tuple[str, ...], by: PersonId | None) -> None:
        quality = {Over.FLAG: None, Over.NO_WORD: Quality.UNKNOWN}.get(over, Quality.UNKNOWN)
        if "felt_unwell" in facts:
            quality = Quality.UNWELL
        session, effects = interrupt(self.session, self.at, quality)
        self.effects += effects
        self.session = replace(session, outcome=Outcome(over, facts, by))

    # --- small things -------------------------------------------------------------------------------------

    def _stale(self) -> bool:
        checked = self.session.checked_at
        return checked is None or (self.at - checked).total_seconds() > self.patience.check_fresh_s

    def _waited(self) -> float:
        return (self.at - self.session.since).total_seconds()

    def _latest(self, cue_at: datetime) -> datetime:
        return cue_at + timedelta(seconds=self.patience.late_cue_s)

    def _tag(self) -> str:
        return f"{self.session.id}.{self.session.turn}"

    def _edit(self, to: PersonId, lines: tuple[Words, ...], card: str) -> Say:
        return question(self.session, to, lines, (), card, Put.IN_PLACE)


def _three_numbers(seed: int) -> tuple[int, int, int]:
    """Three different numbers from 10 to 99 by the seed, the one to show first. Far apart, so none is nearly right."""
    shown = 10 + seed % 90
    return shown, 10 + (shown - 10 + 31) % 90, 10 + (shown - 10 + 58) % 90

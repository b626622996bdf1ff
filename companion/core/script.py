"""A session as data: `compile_session` turns a plan and the library into a frozen script of few step kinds.

    check -> place -> helper's number -> checked -> (set-up -> into place -> hold -> how did it go -> rest) ... -> effort

Side paths (a sign, not ready, no helper, helper left) stand before the main path and are only ever jumped to. Sides are two
blocks; every rung of a bout's ladder is a block of its own, so "make it easier" is a jump.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from companion.core.blocks import BoutWriter, bout_key
from companion.core.effects import PersonId, Put, Urgency, Words, words
from companion.core.how import How, key
from companion.core.ladder import Rung, ladder, stands
from companion.core.media import SignsPicture
from companion.core.programme import (
    AskAfter,
    CheckStyle,
    Clock,
    Exercise,
    Eyes,
    Plan,
    Planned,
    Role,
    Side,
    Sides,
    Supervision,
)
from companion.core.scenes import place_picture
from companion.core.sound_blocks import sound_check
from companion.core.steps import (
    Ask,
    Choice,
    Gate,
    Label,
    Over,
    Phase,
    Script,
    Show,
    Sounded,
    Step,
    Timed,
)

ASKED: Mapping[AskAfter, tuple[str, ...]] = {
    AskAfter.SWAY_AMOUNT: ("hardly", "a_little", "a_lot"),
    AskAfter.SWAY_DIRECTION: ("forward_or_back", "to_weaker", "to_stronger", "hardly"),
    AskAfter.AGAINST_WARM_UP: ("less", "same", "more"),
    AskAfter.STEADIER_SIDE: ("weaker", "stronger", "same"),
}


def planned_sides(planned: Planned, exercise: Exercise) -> tuple[Side | None, ...]:
    """The sides practised, in order; (None,) where the exercise has none."""
    if exercise.sides is Sides.NONE:
        return (None,)
    return planned.sides or usual_sides(exercise)


def usual_sides(exercise: Exercise) -> tuple[Side, ...]:
    """Both sides in order, empty where the exercise has none. The stronger leg takes the weight first: it stands alone first,
    and it is the one behind while the weaker foot is in front."""
    match exercise.sides:
        case Sides.NONE:
            return ()
        case Sides.FRONT_FOOT:
            return (Side.WEAKER, Side.STRONGER)
        case Sides.LEG:
            return (Side.STRONGER, Side.WEAKER)


def in_library(plan: Plan, exercises: Mapping[str, Exercise]) -> bool:
    """Whether the library still has every exercise and form that the plan names: content may have changed since."""
    forms = {exercise.id: {form.id for form in exercise.forms} for exercise in exercises.values()}
    return all({planned.form, planned.hardest} <= forms.get(planned.exercise, set()) for planned in plan.exercises)


def needs_carer(plan: Plan, exercises: Mapping[str, Exercise]) -> bool:
    """Whether the plan asks for a carer beside the client in this session: always, or for something planned or easier.

    Who can not call for help never stands alone: a carer's phone in the chat is not a carer in the room.
    """
    if plan.supervision is Supervision.ALWAYS or not plan.can_call_for_help:
        return True
    ladders = (ladder(planned, exercises[planned.exercise], plan, carer=True) for planned in plan.exercises)
    rungs = (rung for rungs in ladders for rung in rungs if rung.eased >= 0)
    return any(rung.form.needs_carer or rung.clock is Clock.CARER or rung.form.eyes is Eyes.CLOSED for rung in rungs)


def emergency(number: str, now: bool = False, first: str = "stop") -> tuple[Words, ...]:
    """The emergency words: said first, at once, before any question. `now`: an emergency was named, so no "if".
    `first`: "stop" for the client; "go" or "go-fall" for the carer, who goes to them (and lifts nobody who fell)."""
    call = words("emergency-call-now" if now else "emergency-call", number=number)
    return (words(f"emergency-{first}"), call, words("emergency-bot"))


def sign_rows(signs: Sequence[str], usual: Sequence[str]) -> tuple[Words, ...]:
    """All signs at a glance. Beside one that is usual for this client, only worse than that counts."""
    said = [(sign, words(f"sign-{key(sign)}.short")) for sign in signs]
    return tuple(words("usual-row" if sign in usual else "sign-row", sign=short) for sign, short in said)


def sign_asked(sign: str, usual: Sequence[str], person: str, name: str) -> tuple[Words, ...]:
    """One sign asked for, of the client (`person` "you") or of them ("they")."""
    asked = words(f"sign-{key(sign)}", person=person, name=name)
    return (asked, words("usual-asked", person=person)) if sign in usual else (asked,)


def compile_session(plan: Plan, exercises: Mapping[str, Exercise], how: How) -> Script:
    """The script of one session: what of the plan is not done today, warm-up first.

    Without a carer's phone, a plan that needs a carer, or a client who can not call for help, gives seated bouts only.
    A script without bouts (`bouts` empty) means that nothing is left to do.
    """
    return _Writer(plan, exercises, how).write()


class _Writer:
    """Writes one script; lives only inside `compile_session`."""

    def __init__(self, plan: Plan, exercises: Mapping[str, Exercise], how: How) -> None:
        self.plan = plan
        self.exercises = exercises
        self.how = how
        self.carer = how.carer_phone is not None
        # a form that needs a carer is offered only where one is shown to be there
        self.gate = self.carer and needs_carer(plan, exercises)
        alone = not self.carer and (plan.supervision is Supervision.ALWAYS or not plan.can_call_for_help)
        self.seated_only = alone
        self.bouts: list[str] = []
        self.planned = 0
        self.phone_shown = False

    def write(self) -> Script:
        items = sorted(self.plan.exercises, key=lambda planned: self._role(planned) is not Role.WARM_UP)
        blocks: list[Step] = []
        for number, planned in enumerate(items):
            blocks += self._item(number, planned)
        if any(isinstance(step, Timed) for step in blocks[-1:]):
            blocks.pop()  # nothing stands after the last rest
        heard = sound_check(self.how, self.plan) if any(isinstance(step, Sounded) for step in blocks) else []
        steps = (*self._side_paths(), *heard, *self._check(), *blocks, *self._effort(len(items)))
        return Script(self.how.session, self.how.client, steps, tuple(self.bouts), self.planned)

    def _role(self, planned: Planned) -> Role:
        return self.exercises[planned.exercise].role

    # --- the safety check ---------------------------------------------------------------------------------

    def _signs(self, prefix: str, to: PersonId, card: str, clean: Choice, person: str) -> list[Step]:
        """Sign by sign. Any sign raises its flag; the last clean answer does what `clean` says.

        A doubt is left open no longer than a gate; an answer of the check waits for the next no longer than it is good.
        """
        doubt = prefix != "check"
        patience = self.how.patience.gate_s if doubt else self.how.patience.check_fresh_s
        steps: list[Step] = []
        for sign in self.how.signs:
            last, first = sign == self.how.signs[-1], sign == self.how.signs[0]
            same = clean if last else Choice("same", words("b-same"))
            extra = ("carer_different",) if person == "they" else ()
            asked = sign_asked(sign, self.how.usual, person, self.how.name)
            steps.append(
                Ask(
                    f"{prefix}.{sign}",
                    to,
                    self.how.for_carer(*asked) if person == "they" else asked,
                    (same, Choice("different", words("b-different"), facts=(f"sign.{sign}", *extra))),
                    card=card,
                    patience=patience if doubt or not first else None,
                    otherwise=None if doubt or first else "check",
                    doubt=doubt,
                    media=SignsPicture(self.how.signs) if first else None,
                )
            )
        return steps

    def _side_paths(self) -> list[Step]:
        phone, number = self.how.phone, self.how.emergency_number
        unsure = Choice("same", words("b-same"), ends=Over.UNSURE)
        paths: list[Step] = [
            Label("unsure"),
            Show(phone, emergency(number), urgency=Urgency.ALERT),
            *self._signs("unsure", phone, "session", unsure, "you"),
            Label("place-wait"),
            Ask(
                "place-wait",
                phone,
                (words("place-wait"),),
                (
                    Choice("ready", words("b-all-ready-now"), go="helper"),
                    Choice("not_today", words("b-not-today"), ends=Over.NOT_READY),
                ),
                patience=self.how.patience.check_fresh_s,
                otherwise="check",
            ),
        ]
        if self.how.carer_phone:
            paths += self._without_carer(self.how.carer_phone, unsure)
        return paths

    def _without_carer(self, carer: PersonId, unsure: Choice) -> list[Step]:
        phone = self.how.phone
        offers = self._offers()
        go = emergency(self.how.emergency_number, first="go")
        going = [] if self.how.shared else [Show(carer, go, urgency=Urgency.ALERT)]
        # one look is enough for who comes back, unless the plan wants every sign
        again = "check" if self.plan.check is CheckStyle.SIGN_BY_SIGN else "check-back"
        return [
            Label("carer-unsure"),
            *going,
            Show(phone, emergency(self.how.emergency_number), urgency=Urgency.ALERT),
            Show(phone, (words("carer-looks"), words("sit-down")), card="session"),
            *self._signs("carer-unsure", carer, self.how.carer_card, unsure, "they"),
            Label("no-carer"),
            *self.how.show_carer(words("carer-too-late"), put=Put.IN_PLACE),
            self._no_carer("no-carer", "no-carer"),
            Label("carer-not-there"),
            *self.how.show_carer(words("carer-not-there"), put=Put.IN_PLACE),
            self._no_carer("carer-not-there", "no-carer-there"),
            Label("check-back"),
            self._one_look("check-back", "place"),
            Label("carer-left"),
            Ask(
                "carer-left",
                phone,
                (words("carer-left"), words("hand-down"), words("feet-apart"), words("sit-down")),
                (Choice("back", words("b-helper-back"), go=again), *offers),
                put=Put.NEW,
            ),
        ]

    def _no_carer(self, step: str, why: str) -> Ask:
        """Nobody who may stand by: what is left, with the reason."""
        return Ask(step, self.how.phone, (words(why),), self._offers(), put=Put.NEW)

    def _offers(self) -> tuple[Choice, ...]:
        """What can be done without a carer: the seated exercises if there are any, or all of it later."""
        seated = Choice("seated", words("b-seated"), go="checked", seated_only=True)
        later = Choice("later", words("b-later"), ends=Over.LATER)
        return (seated, later) if self._has_seated() else (later,)

    def _has_seated(self) -> bool:
        for planned in self.plan.exercises:
            exercise = self.exercises[planned.exercise]
            rungs = ladder(planned, exercise, self.plan, self.gate)
            if any(rung.eased == 0 and not stands(rung) for rung in rungs):
                return True
        return False

    def _check(self) -> list[Step]:
        phone = self.how.phone
        steps: list[Step] = [Label("check")]
        if self.how.sign_by_sign:
            steps += self._signs("check", phone, "session", Choice("same", words("b-same")), "you")
        else:
            steps.append(self._one_look("check", None))
        ready = Choice("ready", words("b-all-ready"), go="helper")
        not_ready = Choice("not_ready", words("b-not-ready"), go="place-wait")
        fresh = self.how.patience.check_fresh_s
        shown = place_picture(self.plan, self.how, self.gate)
        place = Ask("place", phone, self._place(), (ready, not_ready), patience=fresh, otherwise="check", media=shown)
        steps += [Label("place"), place, Label("helper")]
        if self.gate and self.how.carer_phone and self.how.briefed:
            steps.append(self._beside() if self.how.shared else self._gate(self.how.carer_phone))
        elif self.gate:
            steps.append(self._no_carer("no-carer-briefed", "no-carer-briefed"))
        steps.append(Label("checked", fresh=True, verified=self.gate))
        return steps

    def _one_look(self, name: str, then: str | None) -> Ask:
        listed = sign_rows(self.how.signs, self.how.usual)
        same = Choice("same", words("b-same"), go=then)
        different = Choice("different", words("b-different"), go="unsure")
        return Ask(name, self.how.phone, (words("how-are-you"), *listed), (same, different), media=SignsPicture(self.how.signs))

    def _place(self) -> tuple[Words, ...]:
        place = self.plan.place
        return (
            words("place-title"),
            words(f"place-support-{key(place.support)}", side=place.side),
            *((words("place-called", name=place.name),) if place.name else ()),
            *((words("place-chair"),) if place.chair_behind else ()),
            words("place-floor"),
            words(f"place-footwear-{key(place.footwear)}"),
            # who is asked sign by sign is new to the pictures, or was away from them
            *((words("place-letters"),) if self.how.sign_by_sign else ()),
            # the set-ups of the short style have no room for it
            *((words("place-stop"),) if self.how.short else ()),
        )

    def _beside(self) -> Ask:
        """On a shared phone no number proves that the carer is there: they say so, and reports show that."""
        here = Choice("beside", words("b-beside-them"))
        said = self.how.for_carer(words("gate-carer-look"))
        fresh = self.how.patience.check_fresh_s
        return Ask("helper", self.how.phone, said, (here, *self._not_beside()), patience=fresh, otherwise="check")

    def _not_beside(self) -> tuple[Choice, Choice]:
        not_there = Choice("not_there", words("b-not-there"), go="carer-not-there")
        return not_there, Choice("different", words("b-something-different"), go="carer-unsure")

    def _gate(self, carer: PersonId) -> Gate:
        name = self.how.name
        not_there, different = self._not_beside()
        return Gate(
            "helper",
            carer,
            (words("gate-carer", name=name), words("gate-carer-look"), words("gate-carer-pick")),
            self.how.phone,
            (words("gate-client"),),
            not_there,
            different,
            self.how.patience.gate_s,
            "no-carer",
        )

    # --- the exercises ------------------------------------------------------------------------------------

    def _item(self, number: int, planned: Planned) -> list[Step]:
        exercise = self.exercises[planned.exercise]
        rungs = self._rungs(planned)
        sides = [s for s in planned_sides(planned, exercise) if bout_key(planned, s) not in self.how.done]
        steps: list[Step] = [Label(f"i{number}")]
        self.planned += len(sides)
        if not rungs or not sides:
            return steps
        begin = next((at for at, rung in enumerate(rungs) if rung.eased == 0), 0)
        begin = begin if any(rung.eased == 0 for rung in rungs) else len(rungs) - 1
        for at, side in enumerate(sides):
            self.bouts.append(bout_key(planned, side))
            dosed = replace(planned, target=planned.dose(side))
            rungs = self._rungs(dosed)
            writer = BoutWriter(self.how, self.plan, exercise, dosed, rungs, begin)
            name, after = f"b{len(self.bouts)}", f"i{number + 1}"
            writer.place(name, after, side, first=at == 0, phone_shown=self.phone_shown, carer=self.gate)
            steps += writer.write()
            self.phone_shown = writer.phone_shown
            if stands(rungs[begin]) and side is not sides[-1]:
                steps.append(self._rest(f"i{number}.rest{at}"))
        steps += self._asks_after(exercise, sides)
        if stands(rungs[begin]):
            steps.append(self._rest(f"i{number}.rest"))
        return steps

    def _rungs(self, planned: Planned) -> tuple[Rung, ...]:
        rungs = ladder(planned, self.exercises[planned.exercise], self.plan, self.gate)
        return tuple(rung for rung in rungs if not (self.seated_only and stands(rung)))

    def _rest(self, step: str) -> Timed:
        said = (words("rest"), words("rest-sit"))
        return Timed(step, Phase.REST, self.how.phone, self.plan.rest_s, said, by_receipt=False)

    def _asks_after(self, exercise: Exercise, sides: Sequence[Side | None]) -> list[Step]:
        steps: list[Step] = []
        for asked in exercise.asks:
            if asked is AskAfter.STEADIER_SIDE and len(sides) < 2:
                continue
            kind = f"-{key(exercise.sides)}" if asked is AskAfter.STEADIER_SIDE else ""
            choices = tuple(Choice(answer, words(f"b-{key(asked)}{kind}-{key(answer)}")) for answer in ASKED[asked])
            question = (words(f"ask-{key(asked)}"),)
            step = f"{exercise.id}.{asked.value}"
            steps.append(Ask(step, self.how.phone, question, choices, question=asked.value, exercise=exercise.id))
        return steps

    def _effort(self, items: int) -> list[Step]:
        choices = tuple(Choice(answer, words(f"b-effort-{answer}")) for answer in ("easy", "medium", "hard"))
        asked: list[Step] = [
            Label(f"i{items}"),
            Ask("effort", self.how.phone, (words("ask-effort"),), choices, question="effort"),
        ]
        if self.how.confidence:
            sure = tuple(Choice(one, words(f"b-confidence-{key(one)}")) for one in ("sure", "a_little_sure", "not_sure"))
            asked.append(Ask("confidence", self.how.phone, (words("ask-confidence"),), sure, question="confidence"))
        return asked

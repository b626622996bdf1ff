"""A session as data: `compile_session` turns a plan and the library into a frozen script of few step kinds.

    check -> place -> helper's number -> checked -> (set-up -> into place -> hold -> how did it go -> rest) ... -> effort

Side paths (a sign, not ready, no helper, helper left) stand before the main path and are only ever jumped to. Sides are two
blocks; every rung of a bout's ladder is a block of its own, so "make it easier" is a jump.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from companion.core.effects import PersonId, Put, Urgency, Words, words
from companion.core.ladder import Rung, ladder, stands
from companion.core.programme import (
    AskAfter,
    Clock,
    Exercise,
    Hand,
    Measure,
    Patience,
    Plan,
    Planned,
    Role,
    Side,
    Sides,
    Stance,
    Supervision,
)
from companion.core.steps import (
    Ask,
    BoutSpec,
    Choice,
    Counted,
    Gate,
    Label,
    Over,
    Phase,
    Script,
    Show,
    Step,
    Timed,
)

HANDS_ON = (Hand.TWO_HANDS, Hand.ONE_HAND, Hand.FINGERTIPS)

ASKED: Mapping[AskAfter, tuple[str, ...]] = {
    AskAfter.SWAY_AMOUNT: ("hardly", "a_little", "a_lot"),
    AskAfter.SWAY_DIRECTION: ("forward_or_back", "to_weaker", "to_stronger", "hardly"),
    AskAfter.AGAINST_WARM_UP: ("less", "same", "more"),
    AskAfter.STEADIER_SIDE: ("weaker", "stronger", "same"),
}


@dataclass(frozen=True, slots=True)
class How:
    """What a script depends on beside plan and library: whose phones, how to check, what is done today already."""

    session: str
    client: str
    name: str
    phone: PersonId
    carer_phone: PersonId | None
    emergency_number: str
    sign_by_sign: bool
    signs: tuple[str, ...]
    patience: Patience
    done: frozenset[str] = frozenset()


def key(text: str) -> str:
    """A text key from an id: Fluent keys have hyphens."""
    return text.replace("_", "-")


def bout_key(planned: Planned, side: Side | None) -> str:
    """The name of a planned bout, the same whatever rung it is done on."""
    return f"{planned.exercise}:{side.value if side else 'both'}"


def planned_sides(planned: Planned, exercise: Exercise) -> tuple[Side | None, ...]:
    """The sides practised, the stronger first; (None,) where the exercise has none."""
    if exercise.sides is Sides.NONE:
        return (None,)
    return planned.sides or (Side.STRONGER, Side.WEAKER)


def needs_carer(plan: Plan, exercises: Mapping[str, Exercise]) -> bool:
    """Whether the plan asks for a carer beside the client in this session."""
    return plan.supervision is Supervision.ALWAYS or any(
        planned.clock is Clock.CARER or exercises[planned.exercise].form(planned.form).needs_carer
        for planned in plan.exercises
    )


def emergency(number: str) -> tuple[Words, ...]:
    """The emergency words: said first, at once, before any question."""
    return (words("emergency-stop"), words("emergency-call", number=number), words("emergency-bot"))


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
        self.gate = self.carer and needs_carer(plan, exercises)
        alone = not self.carer and (plan.supervision is Supervision.ALWAYS or not plan.can_call_for_help)
        self.seated_only = alone
        self.bouts: list[str] = []
        self.phone_shown = False

    def write(self) -> Script:
        items = sorted(self.plan.exercises, key=lambda planned: self._role(planned) is not Role.WARM_UP)
        blocks: list[Step] = []
        for number, planned in enumerate(items):
            blocks += self._item(number, planned)
        steps = (*self._side_paths(), *self._check(), *blocks, *self._effort(len(items)))
        return Script(self.how.session, self.how.client, steps, tuple(self.bouts))

    def _role(self, planned: Planned) -> Role:
        return self.exercises[planned.exercise].role

    # --- the safety check ---------------------------------------------------------------------------------

    def _signs(self, prefix: str, to: PersonId, card: str, clean: Choice, person: str) -> list[Step]:
        """Sign by sign. Any sign raises its flag; the last clean answer does what `clean` says."""
        steps: list[Step] = []
        for sign in self.how.signs:
            last = sign == self.how.signs[-1]
            same = clean if last else Choice("same", words("b-same"))
            extra = ("carer_different",) if to != self.how.phone else ()
            steps.append(
                Ask(
                    f"{prefix}.{sign}",
                    to,
                    (words(f"sign-{key(sign)}", person=person, name=self.how.name),),
                    (same, Choice("different", words("b-different"), facts=(f"sign.{sign}", *extra))),
                    card=card,
                    patience=self.how.patience.gate_s if to != self.how.phone else None,
                    otherwise="no-carer" if to != self.how.phone else None,
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
            ),
        ]
        if self.how.carer_phone:
            paths += self._without_carer(self.how.carer_phone, unsure)
        return paths

    def _without_carer(self, carer: PersonId, unsure: Choice) -> list[Step]:
        phone = self.how.phone
        seated = Choice("seated", words("b-seated"), go="checked", seated_only=True)
        later = Choice("later", words("b-later"), ends=Over.LATER)
        offers = (seated, later) if self._has_seated() else (later,)
        return [
            Label("carer-unsure"),
            Show(carer, emergency(self.how.emergency_number), urgency=Urgency.ALERT),
            Show(phone, (words("carer-looks"), words("sit-down")), card="session", put=Put.IN_PLACE),
            *self._signs("carer-unsure", carer, "carer", unsure, "they"),
            Label("no-carer"),
            Show(carer, (words("carer-too-late"),), card="carer", put=Put.IN_PLACE),
            Ask("no-carer", phone, (words("no-carer"),), offers, put=Put.NEW),
            Label("carer-left"),
            Ask(
                "carer-left",
                phone,
                (words("carer-left"), words("hand-down"), words("feet-apart"), words("sit-down")),
                (Choice("back", words("b-helper-back"), go="check"), *offers),
                put=Put.NEW,
            ),
        ]

    def _has_seated(self) -> bool:
        for planned in self.plan.exercises:
            exercise = self.exercises[planned.exercise]
            rungs = ladder(planned, exercise, self.plan, self.carer)
            if any(rung.eased == 0 and not stands(rung) for rung in rungs):
                return True
        return False

    def _check(self) -> list[Step]:
        phone = self.how.phone
        steps: list[Step] = [Label("check")]
        if self.how.sign_by_sign:
            steps += self._signs("check", phone, "session", Choice("same", words("b-same")), "you")
        else:
            same = Choice("same", words("b-same"))
            different = Choice("different", words("b-different"), go="unsure")
            signs = tuple(words(f"sign-{key(sign)}.short") for sign in self.how.signs)
            listed = tuple(words("sign-row", sign=sign) for sign in signs)
            steps.append(Ask("check", phone, (words("how-are-you"), *listed), (same, different)))
        ready = Choice("ready", words("b-all-ready"), go="helper")
        not_ready = Choice("not_ready", words("b-not-ready"), go="place-wait")
        steps += [Label("place"), Ask("place", phone, self._place(), (ready, not_ready)), Label("helper")]
        if self.gate and self.how.carer_phone:
            steps.append(self._gate(self.how.carer_phone))
        steps.append(Label("checked", fresh=True, verified=self.gate))
        return steps

    def _place(self) -> tuple[Words, ...]:
        place = self.plan.place
        return (
            words("place-title"),
            words(f"place-support-{key(place.support)}"),
            *((words("place-chair"),) if place.chair_behind else ()),
            words("place-floor"),
            words(f"place-footwear-{key(place.footwear)}"),
        )

    def _gate(self, carer: PersonId) -> Gate:
        name = self.how.name
        return Gate(
            "helper",
            carer,
            (words("gate-carer", name=name), words("gate-carer-look"), words("gate-carer-pick")),
            self.how.phone,
            (words("gate-client"),),
            Choice("not_there", words("b-not-there"), go="no-carer"),
            Choice("different", words("b-something-different"), go="carer-unsure"),
            self.how.patience.gate_s,
            "no-carer",
        )

    # --- the exercises ------------------------------------------------------------------------------------

    def _item(self, number: int, planned: Planned) -> list[Step]:
        exercise = self.exercises[planned.exercise]
        rungs = ladder(planned, exercise, self.plan, self.carer)
        if self.seated_only:
            rungs = tuple(rung for rung in rungs if not stands(rung))
        sides = [s for s in planned_sides(planned, exercise) if bout_key(planned, s) not in self.how.done]
        steps: list[Step] = [Label(f"i{number}")]
        if not rungs or not sides:
            return steps
        begin = next((at for at, rung in enumerate(rungs) if rung.eased == 0), 0)
        begin = begin if any(rung.eased == 0 for rung in rungs) else len(rungs) - 1
        for at, side in enumerate(sides):
            self.bouts.append(bout_key(planned, side))
            first = at == 0
            steps += _Bout(self, number, len(self.bouts), planned, side, rungs, begin, first).write()
            if stands(rungs[begin]) and side is not sides[-1]:
                steps.append(self._rest(f"i{number}.rest{at}"))
        steps += self._asks_after(exercise, sides)
        if stands(rungs[begin]):
            steps.append(self._rest(f"i{number}.rest"))
        return steps

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
        asked = Ask("effort", self.how.phone, (words("ask-effort"),), choices, question="effort")
        return [Label(f"i{items}"), asked]


class _Bout:
    """Writes the blocks of one bout, one for each rung of its ladder."""

    def __init__(  # noqa: PLR0913 - a bout is just this many facts
        self,
        session: _Writer,
        item: int,
        number: int,
        planned: Planned,
        side: Side | None,
        rungs: tuple[Rung, ...],
        begin: int,
        first: bool,
    ) -> None:
        self.session, self.how, self.plan = session, session.how, session.plan
        self.skip = f"i{item + 1}"
        self.name = f"b{number}"
        self.planned, self.side, self.rungs, self.begin, self.first = planned, side, rungs, begin, first
        self.exercise = session.exercises[planned.exercise]

    def write(self) -> list[Step]:
        steps: list[Step] = []
        for at in sorted(range(len(self.rungs)), key=lambda at: (at != self.begin, at)):
            steps += self._rung(at)
        return [*steps, Label(f"{self.name}.done", closes=True)]

    def _rung(self, at: int) -> list[Step]:
        rung = self.rungs[at]
        name = f"{self.name}.{at}"
        steps: list[Step] = [Label(name, block=True, standing=stands(rung), skip=self.skip)]
        if not stands(rung) and rung.form.measure is Measure.COUNTED:
            return [
                *steps,
                self._counted(rung, name, self._set_up(rung), Put.NEW if self.first else Put.IN_PLACE),
            ]
        put = Put.NEW if self.first and at == self.begin else Put.IN_PLACE
        steps.append(Ask(f"{name}.set", self.how.phone, self._set_up(rung), self._set_up_choices(at), put=put))
        steps.append(Label(f"{name}.go"))
        if rung.form.measure is Measure.COUNTED:
            slug = f"form-{key(self.exercise.id)}-{key(rung.form.id)}"
            said = (words(f"{slug}.do", target=rung.target), words("then-answer"))
            return [*steps, self._counted(rung, name, said, Put.IN_PLACE)]
        steps += self._carer_clock(rung, at) if rung.clock is Clock.CARER else self._screen_clock(rung, at)
        return [*steps, *self._questions(rung, name)]

    def _spec(self, rung: Rung) -> BoutSpec:
        form = rung.form
        return BoutSpec(
            key=bout_key(self.planned, self.side),
            exercise=self.exercise.id,
            form=form.id,
            posture=form.posture,
            stance=form.stance,
            eyes=form.eyes,
            hand=rung.hand,
            clock=rung.clock,
            measure=form.measure,
            target=rung.target,
            side=self.side,
            eased=rung.eased,
        )

    def _set_up(self, rung: Rung) -> tuple[Words, ...]:
        exercise, form = key(self.exercise.id), key(rung.form.id)
        side = self.side.value if self.side else "none"
        said = [words("set-up-title", name=words(f"ex-{exercise}"), form=words(f"form-{exercise}-{form}"))]
        if rung.clock is Clock.SCREEN and not self.session.phone_shown:
            self.session.phone_shown = True
            said.append(words("phone-in-view"))
        said.append(words(f"form-{exercise}-{form}.setup", side=side))
        if stands(rung):
            said.append(words(f"hand-{key(rung.hand)}"))
        elif rung.form.measure is Measure.COUNTED:
            said.append(words(f"form-{exercise}-{form}.do", target=rung.target))
        if self.first:
            said += [words(f"ex-{exercise}.notice"), words(f"ex-{exercise}.caution")]
        return tuple(said)

    def _set_up_choices(self, at: int) -> tuple[Choice, ...]:
        choices = [Choice("ready", words("b-ready"), go=f"{self.name}.{at}.go", starts=stands(self.rungs[at]))]
        if at > 0:
            choices.append(Choice("easier", words("b-easier"), go=f"{self.name}.{at - 1}"))
        if at + 1 < len(self.rungs) and at >= self.begin:
            choices.append(Choice("harder", words("b-harder"), go=f"{self.name}.{at + 1}"))
        elif at < self.begin:
            choices.append(Choice("as_planned", words("b-as-planned"), go=f"{self.name}.{self.begin}"))
        return tuple(choices)

    def _screen_clock(self, rung: Rung, at: int) -> list[Step]:
        name, phone = f"{self.name}.{at}", self.how.phone
        again = (words("clock-late"), words("hand-down"), words("feet-apart"), words("ready-again"))
        into = words("into-place", seconds=self.plan.into_place_s)
        back = Ask(f"{name}.again", phone, again, self._set_up_choices(at), put=Put.NEW)
        return [
            Timed(
                f"{name}.into",
                Phase.INTO_PLACE,
                phone,
                self.plan.into_place_s,
                (into,),
                by_receipt=True,
                lost=f"{name}.late-start",
            ),
            Timed(
                f"{name}.hold",
                Phase.HOLD,
                phone,
                rung.target,
                (words("hold-now", seconds=rung.target),),
                by_receipt=True,
                bout=self._spec(rung),
                lost=f"{name}.lost",
            ),
            Ask(
                f"{name}.how",
                phone,
                (words("time"), words("hand-down"), words("feet-apart"), words("ask-how")),
                self._how_choices(rung, name),
                put=Put.NEW,
                watch=True,
                late=f"{name}.lost",
            ),
            Label(f"{name}.late-start"),
            back,
        ]

    def _carer_clock(self, rung: Rung, at: int) -> list[Step]:
        name, phone, carer = f"{self.name}.{at}", self.how.phone, self.how.carer_phone
        assert carer is not None  # a rung on the carer's clock is only on the ladder with a carer
        exercise, form = key(self.exercise.id), key(rung.form.id)
        side = self.side.value if self.side else "none"
        start = Ask(
            f"{name}.start",
            carer,
            (
                words("carer-clock", name=words(f"ex-{exercise}"), seconds=rung.target),
                words(f"form-{exercise}-{form}.carer", side=side),
                words("carer-say-start"),
            ),
            (Choice("start", words("b-start-clock")),),
            put=Put.NEW,
            card="carer",
            patience=self.how.patience.carer_start_s,
            otherwise=f"{name}.no-start",
        )
        hold = Timed(
            f"{name}.hold",
            Phase.HOLD,
            carer,
            rung.target,
            (words("carer-hold", seconds=rung.target),),
            by_receipt=False,
            card="carer",
            bout=self._spec(rung),
            tap=Choice("tap", words("b-step-or-touch")),
            lost=f"{name}.lost",
        )
        wait = (words("carer-has-clock"), words("carer-says-start"))
        again = (words("carer-not-started"), words("hand-down"), words("feet-apart"), words("ready-again"))
        return [
            Show(phone, wait, card="session", put=Put.IN_PLACE),
            start,
            hold,
            Show(carer, (words("carer-time"), words("carer-say-down")), card="carer"),
            Ask(
                f"{name}.how",
                phone,
                (words("time"), words("hand-down"), words("feet-apart"), words("ask-how")),
                self._how_choices(rung, name),
                put=Put.NEW,
                watch=True,
                late=f"{name}.lost",
            ),
            Label(f"{name}.no-start"),
            Show(carer, (words("carer-clock-off"),), card="carer", put=Put.IN_PLACE),
            Ask(f"{name}.again", phone, again, self._set_up_choices(at), put=Put.NEW),
        ]

    def _how_choices(self, rung: Rung, name: str) -> tuple[Choice, ...]:
        clean = "b-clean-hand-on" if rung.hand in HANDS_ON or not stands(rung) else "b-clean"
        done = f"{self.name}.done"
        return (
            Choice("clean", words(clean, seconds=rung.target), go=done, sets=(("quality", "clean"),)),
            Choice(
                "not_quite",
                words("b-not-quite"),
                go=f"{name}.when",
                go_tapped=f"{name}.known",
                sets=(("quality", "broke"),),
            ),
            Choice("unwell", words("b-unwell"), facts=("felt_unwell",), sets=(("quality", "unwell"),)),
        )

    def _questions(self, rung: Rung, name: str) -> list[Step]:
        phone, done = self.how.phone, f"{self.name}.done"
        lost_said = (
            words("clock-stopped"),
            words("hand-down"),
            words("feet-apart"),
            words("ask-what-happened"),
        )
        unknown = (("clock", "lost"),)
        lost = (
            Choice("held", words("b-held"), go=done, sets=(*unknown, ("quality", "clean"))),
            Choice("broke", words("b-stepped-or-touched"), go=done, sets=(*unknown, ("quality", "broke"))),
            Choice("unwell", words("b-unwell"), facts=("felt_unwell",), sets=(("quality", "unwell"),)),
        )
        known = (
            Choice("right", words("b-known-right"), go=f"{name}.what", sets=(("moment", "tapped"),)),
            Choice("other", words("b-known-other"), go=f"{name}.when"),
        )
        return [
            Label(f"{name}.lost"),
            Ask(f"{name}.lost", phone, lost_said, lost, put=Put.NEW, watch=True),
            Label(f"{name}.known"),
            Ask(f"{name}.known", phone, (words("ask-known"),), known),
            Label(f"{name}.when"),
            Ask(f"{name}.when", phone, (words("ask-when"),), _quarters(rung.target)),
            Label(f"{name}.what"),
            Ask(f"{name}.what", phone, (words("step-is-good"), words("ask-what")), self._broke_by(rung, done)),
        ]

    def _broke_by(self, rung: Rung, done: str) -> tuple[Choice, ...]:
        causes = ["step"] if rung.hand in HANDS_ON else ["step", "hand", "both"]
        if self.plan.place.chair_behind:
            causes.append("leaned")
        return tuple(Choice(cause, words(f"b-broke-{cause}"), go=done, sets=(("broke_by", cause),)) for cause in causes)

    def _counted(self, rung: Rung, name: str, said: tuple[Words, ...], put: Put) -> Counted:
        done = f"{self.name}.done"
        spec = self._spec(rung)

        def counted(number: int, quality: str) -> Choice:
            sets = (("quality", quality), ("done", str(number)))
            return Choice(f"n{number}", words("b-count", number=number), go=done, sets=sets)

        if rung.target <= 3:
            choices = [counted(n, "clean" if n == rung.target else "ended_early") for n in range(rung.target, -1, -1)]
        else:
            fewer = Choice("fewer", words("b-fewer"), go=done, sets=(("quality", "ended_early"),))
            choices = [counted(rung.target, "clean"), fewer]
        if rung.form.stance in (Stance.ONE_LEG, Stance.ONE_LEG_TOES):
            sets = (("quality", "broke"), ("broke_by", "foot_down"))
            choices.append(Choice("foot_down", words("b-foot-down"), go=done, sets=sets))
        if len(choices) < 4:
            unwell = (("quality", "unwell"),)
            choices.append(Choice("unwell", words("b-unwell"), facts=("felt_unwell",), sets=unwell))
        return Counted(f"{name}.count", self.how.phone, said, tuple(choices), spec, stands(rung), put)


def _quarters(target: int) -> tuple[Choice, ...]:
    """When it first broke: one choice a quarter, as bounds in seconds, and "do not know"."""
    cuts = [round(target * part / 4) for part in range(5)]
    quarters = [
        Choice(
            f"q{part + 1}",
            words("b-quarter", low=cuts[part], high=cuts[part + 1]),
            go=None,
            sets=(("low", str(cuts[part])), ("high", str(cuts[part + 1]))),
        )
        for part in range(4)
    ]
    unknown = Choice("unknown", words("b-when-unknown"), sets=(("low", "0"), ("high", str(target))))
    return (*quarters, unknown)

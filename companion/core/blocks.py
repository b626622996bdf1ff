"""The blocks of one bout: set-up, getting into place, hold or count, how did it go. One for each rung of its ladder.

    set-up -> into place -> hold -> how did it go -> (when, what) -> done         on the client's screen
    set-up -> the carer starts -> hold -> how did it go -> (when, what) -> done   on the carer's clock
    set-up -> how many -> done                                                    at one's own pace

A clean bout costs one answer; more is asked only when there is more to tell.
"""

from companion.core.effects import Put, Words, words
from companion.core.how import How, key
from companion.core.ladder import Rung, stands
from companion.core.programme import Clock, Exercise, Eyes, Hand, Measure, Plan, Planned, Side, Stance
from companion.core.steps import Ask, BoutSpec, Choice, Counted, Label, Phase, Show, Step, Timed

MOST_CHOICES = 5
LEAVING = (Hand.FINGERTIPS, Hand.HOVERING, Hand.NONE)
HANDS_ON = (Hand.TWO_HANDS, Hand.ONE_HAND, Hand.FINGERTIPS)


def bout_key(planned: Planned, side: Side | None) -> str:
    """The name of a planned bout, the same whatever rung it is done on."""
    return f"{planned.exercise}:{side.value if side else 'both'}"


class BoutWriter:
    """Writes the blocks of one bout, one for each rung of its ladder. Lives only while a script is compiled."""

    def __init__(self, how: How, plan: Plan, exercise: Exercise, planned: Planned, rungs: tuple[Rung, ...], begin: int) -> None:
        self.how, self.plan, self.exercise, self.planned = how, plan, exercise, planned
        self.rungs, self.begin = rungs, begin
        self.name = self.skip = ""
        self.side: Side | None = None
        self.first = self.phone_shown = False

    def place(self, name: str, skip: str, side: Side | None, *, first: bool, phone_shown: bool) -> None:
        """Where in the session this bout stands. `skip`: the label behind the exercise; `first`: its first bout;
        `phone_shown`: the client was told in this session how to prop the phone."""
        self.name, self.skip, self.side = name, skip, side
        self.first, self.phone_shown = first, phone_shown

    def write(self) -> list[Step]:
        """The steps of this bout, the planned rung first, to the label that closes it."""
        steps: list[Step] = []
        for at in sorted(range(len(self.rungs)), key=lambda at: (at != self.begin, at)):
            steps += self._rung(at)
        return [*steps, Label(f"{self.name}.done", closes=True)]

    def _rung(self, at: int) -> list[Step]:
        rung = self.rungs[at]
        name = f"{self.name}.{at}"
        steps: list[Step] = [Label(name, block=True, standing=stands(rung), skip=self.skip)]
        if not stands(rung) and rung.form.measure is Measure.COUNTED:
            return [*steps, *self._counting(rung, at, self._set_up(rung), unhurried=False)]
        put = Put.NEW if self.first and at == self.begin else Put.IN_PLACE
        steps += self._told_to_carer(rung, put)
        if rung.form.measure is Measure.COUNTED and not self.first and at == self.begin:
            # the second side: the result is what starts it, so there is no Ready to press
            said = tuple(line for line in self._set_up(rung) if line.key != "ready-first")
            said = (*said, *self._to_do(rung), *self._shared_with_carer(rung))
            return [*steps, *self._counting(rung, at, said, unhurried=True)]
        said = (*self._set_up(rung), *self._shared_with_carer(rung))
        steps.append(Ask(f"{name}.set", self.how.phone, said, self._set_up_choices(at), put=put))
        steps.append(Label(f"{name}.go"))
        if rung.form.measure is Measure.COUNTED:
            return [*steps, *self._counting(rung, at, self._to_do(rung), unhurried=False)]
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
        name = words(f"ex-{exercise}")
        eased = words("set-up-title-form", name=name, form=words(f"form-{exercise}-{form}"))
        said = [eased if rung.form.id != self.planned.form else words("set-up-title", name=name)]
        if rung is not self.rungs[self.begin]:
            said.append(words("easier-now" if rung.eased > self.rungs[self.begin].eased else "harder-now"))
        if rung.clock is Clock.SCREEN and not self.phone_shown:
            self.phone_shown = True
            said.append(words("phone-in-view"))
        if stands(rung):
            # in the order in which it is done: hand on, feet placed, and the hand leaves last
            said += [words("ready-first"), words(f"hand-{key(rung.hand)}")]
        said.append(words(f"form-{exercise}-{form}.setup", side=side, again="no" if self.first else "yes"))
        if stands(rung) and rung.hand in LEAVING:
            said.append(words(f"hand-{key(rung.hand)}.then"))
        if not stands(rung) and rung.form.measure is Measure.COUNTED:
            said.append(words(f"form-{exercise}-{form}.do", target=rung.target))
        if self.first:
            said += [words(f"ex-{exercise}.{line}") for line in ("notice", "caution", "stop")]
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
        # watched: they were getting to their feet when the clock did not start
        back = Ask(f"{name}.again", phone, again, self._set_up_choices(at), put=Put.NEW, watch=stands(rung))
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
                (words("time"), *self._down(rung), words("ask-how")),
                self._how_choices(rung, name),
                put=Put.NEW,
                watch=stands(rung),
                late=f"{name}.lost",
            ),
            Label(f"{name}.late-start"),
            back,
        ]

    def _carer_clock(self, rung: Rung, at: int) -> list[Step]:
        name, phone, carer = f"{self.name}.{at}", self.how.phone, self.how.carer_phone
        assert carer is not None  # a rung on the carer's clock is only on the ladder with a carer
        start = Ask(
            f"{name}.start",
            carer,
            self.how.for_carer(
                words("carer-clock", name=words(f"ex-{key(self.exercise.id)}"), seconds=rung.target),
                self._carer_does(rung),
                words("carer-say-start"),
            ),
            (Choice("start", words("b-start-clock")),),
            put=Put.NEW,
            card=self.how.carer_card,
            patience=self.how.patience.carer_start_s,
            otherwise=f"{name}.no-start",
        )
        hold = Timed(
            f"{name}.hold",
            Phase.HOLD,
            carer,
            rung.target,
            self.how.for_carer(words("carer-hold", seconds=rung.target)),
            by_receipt=False,
            card=self.how.carer_card,
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
            *self.how.show_carer(words("carer-time"), _say_down(rung)),
            Ask(
                f"{name}.how",
                phone,
                (
                    words("time"),
                    *(self.how.for_carer(_say_down(rung)) if self.how.shared else self._down(rung)),
                    words("ask-how"),
                ),
                self._how_choices(rung, name),
                put=Put.NEW,
                watch=stands(rung),
                late=f"{name}.lost",
            ),
            Label(f"{name}.no-start"),
            *self.how.show_carer(words("carer-clock-off"), put=Put.IN_PLACE),
            Ask(f"{name}.again", phone, again, self._set_up_choices(at), put=Put.NEW, watch=stands(rung)),
        ]

    def _down(self, rung: Rung) -> tuple[Words, ...]:
        """How every standing bout ends."""
        eyes = (words("eyes-open"),) if rung.form.eyes is Eyes.CLOSED else ()
        return (words("hand-down"), *eyes, words("feet-apart"))

    def _lost_to_carer(self, rung: Rung) -> list[Step]:
        return self.how.show_carer(words("carer-clock-stopped"), _say_down(rung)) if rung.clock is Clock.CARER else []

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
            *self._down(rung),
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
            *self._lost_to_carer(rung),
            Ask(f"{name}.lost", phone, lost_said, lost, put=Put.NEW, watch=stands(rung)),
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

    def _to_do(self, rung: Rung) -> tuple[Words, ...]:
        slug = f"form-{key(self.exercise.id)}-{key(rung.form.id)}"
        then = "then-answer-eyes" if rung.form.eyes is Eyes.CLOSED else "then-answer"
        return (words(f"{slug}.do", target=rung.target), words(then))

    def _told_to_carer(self, rung: Rung, put: Put) -> list[Step]:
        """What the carer does in a form that needs one, where they are not told it with their clock."""
        if not rung.form.needs_carer or rung.clock is Clock.CARER:
            return []
        name = words("set-up-title", name=words(f"ex-{key(self.exercise.id)}"))
        return self.how.show_carer(name, self._carer_does(rung), put=put)

    def _shared_with_carer(self, rung: Rung) -> tuple[Words, ...]:
        """The same on a shared phone: below what the client reads."""
        if not self.how.shared or not rung.form.needs_carer or rung.clock is Clock.CARER:
            return ()
        return self.how.for_carer(self._carer_does(rung))

    def _carer_does(self, rung: Rung) -> Words:
        side = self.side.value if self.side else "none"
        return words(f"form-{key(self.exercise.id)}-{key(rung.form.id)}.carer", side=side)

    def _counting(self, rung: Rung, at: int, said: tuple[Words, ...], unhurried: bool) -> list[Step]:
        """How many? Where it was fewer on one leg, what happened. An `unhurried` question also offers the easier rung."""
        done, name = f"{self.name}.done", f"{self.name}.{at}"
        one_leg = rung.form.stance in (Stance.ONE_LEG, Stance.ONE_LEG_TOES)

        def counted(number: int, full: bool) -> Choice:
            sets = (("quality", "clean" if full else "ended_early"), ("done", str(number)))
            go = f"{name}.why" if one_leg and not full else done
            return Choice(f"n{number}", words("b-count", number=number), go=go, sets=sets)

        counts = [count for count in rung.form.counts if count <= rung.target]
        if counts:
            choices = [counted(count, count == counts[0]) for count in counts]
        else:
            fewer = Choice("fewer", words("b-fewer"), go=done, sets=(("quality", "ended_early"),))
            choices = [counted(rung.target, full=True), fewer]
        if unhurried and at > 0:
            choices.append(Choice("easier", words("b-easier"), go=f"{self.name}.{at - 1}"))
        if len(choices) < MOST_CHOICES:
            unwell = (("quality", "unwell"),)
            choices.append(Choice("unwell", words("b-unwell"), facts=("felt_unwell",), sets=unwell))
        put = Put.NEW if self.first and not stands(rung) else Put.IN_PLACE
        count = Counted(f"{name}.count", self.how.phone, said, tuple(choices), self._spec(rung), stands(rung), unhurried, put)
        if not one_leg:
            return [count]
        broke = (("quality", "broke"), ("broke_by", "foot_down"))
        why = (
            Choice("foot_down", words("b-foot-down"), go=done, sets=broke),
            Choice("stopped", words("b-i-stopped"), go=done),
        )
        return [count, Label(f"{name}.why"), Ask(f"{name}.why", self.how.phone, (words("ask-what-happened"),), why)]


def _say_down(rung: Rung) -> Words:
    """What the carer says aloud at the end of a hold."""
    return words("carer-say-down-eyes" if rung.form.eyes is Eyes.CLOSED else "carer-say-down")


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

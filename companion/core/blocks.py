"""The blocks of one bout: set-up, getting into place, hold or count, how did it go. One for each rung of its ladder.

    set-up -> into place -> hold -> how did it go -> (when, what) -> done         on the client's screen
    set-up -> the carer starts -> hold -> how did it go -> (when, what) -> done   on the carer's clock
    set-up -> a voice note, its answers under it -> (what, when) -> done          by sound, see `sound_blocks`
    set-up -> how many -> done                                                    at one's own pace

A clean bout costs one answer; more is asked only when there is more to tell.
"""

from companion.core.effects import PersonId, Put, Words, words
from companion.core.how import How, key
from companion.core.ladder import Rung, on_another_clock, stands
from companion.core.media import Media, Medium, medium
from companion.core.programme import Clock, Exercise, Eyes, Hand, Measure, Plan, Planned, Side, Stance
from companion.core.scenes import form_picture, own_before, own_instead, scene
from companion.core.sound_blocks import Note, note_blocks, sound_clock
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
        self.first = self.phone_shown = self.carer = False

    def place(self, name: str, skip: str, side: Side | None, *, first: bool, phone_shown: bool, carer: bool) -> None:
        """Where in the session this bout stands. `skip`: the label behind the exercise; `first`: its first bout;
        `phone_shown`: the client was told in this session how to prop the phone; `carer`: one is beside the client."""
        self.name, self.skip, self.side = name, skip, side
        self.first, self.phone_shown, self.carer = first, phone_shown, carer

    def write(self) -> list[Step]:
        """The steps of this bout, the planned rung first, to the label that closes it."""
        steps: list[Step] = []
        for at in sorted(range(len(self.rungs)), key=lambda at: (at != self.begin, at)):
            steps += self._rung(at)
        return [*steps, Label(f"{self.name}.done", closes=True)]

    def _rung(self, at: int) -> list[Step]:
        rung = self.rungs[at]
        name = f"{self.name}.{at}"
        if rung.clock is not Clock.SOUND:
            return self._block(rung, at, name)
        other = on_another_clock(rung, self.exercise, self.carer)
        if other is None:
            return self._block(rung, at, name, needs_sound=self.skip)
        told, self.phone_shown = self.phone_shown, False
        instead = self._block(other, at, f"{name}.other")
        self.phone_shown = told
        return [*self._block(rung, at, name, needs_sound=f"{name}.other"), *instead]

    def _block(self, rung: Rung, at: int, name: str, needs_sound: str | None = None) -> list[Step]:
        steps: list[Step] = [Label(name, block=True, standing=stands(rung), skip=self.skip, needs_sound=needs_sound)]
        steps += self._recorded(at)
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
        set_up = Ask(f"{name}.set", self.how.phone, said, self._set_up_choices(at, name), put=put, media=self._picture(rung))
        steps += [set_up, Label(f"{name}.go")]
        if rung.form.measure is Measure.COUNTED:
            return [*steps, *self._counting(rung, at, self._to_do(rung), unhurried=False)]
        if rung.clock is Clock.SOUND:
            return [*steps, *self._sound_clock(rung, at, name)]
        steps += self._carer_clock(rung, at, name) if rung.clock is Clock.CARER else self._screen_clock(rung, at, name)
        return [*steps, *self._questions(rung, name)]

    def _recorded(self, at: int) -> list[Step]:
        """What the therapist recorded that comes before the set-up, once an exercise."""
        if not self.first or at != self.begin:
            return []
        said = (words("own-media-here", name=words(f"ex-{key(self.exercise.id)}")),)
        return [Show(self.how.phone, said, media=media) for media in own_before(self.how.own, self.exercise.id)]

    def _picture(self, rung: Rung) -> Media | None:
        """What stands above the words of a set-up. What was recorded shows the planned form, so an easier one is drawn."""
        own = own_instead(self.how.own, self.exercise.id)
        if own is not None and rung.form.id == self.planned.form:
            return own.media if medium(own.media) is not Medium.VOICE else None
        return form_picture(self.exercise.id, rung, self.side, scene(self.plan, self.how, self.carer))

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
        name = words(f"ex-{exercise}")
        eased = words("set-up-title-form", name=name, form=words(f"form-{exercise}-{form}"))
        said = [eased if rung.form.id != self.planned.form else words("set-up-title", name=name)]
        if rung is not self.rungs[self.begin] and rung.eased != self.rungs[self.begin].eased:
            said.append(words("easier-now" if rung.eased > self.rungs[self.begin].eased else "harder-now"))
        if rung.clock is Clock.SCREEN and not self.phone_shown:
            self.phone_shown = True
            said.append(words("phone-in-view"))
        if self.how.short:
            return (*said, *self._in_short(rung))
        if stands(rung):
            said.append(words("sound-ready-first" if rung.clock is Clock.SOUND else "ready-first"))
        said += self._into_it(rung)
        if not stands(rung) and rung.form.measure is Measure.COUNTED:
            said.append(words(f"form-{exercise}-{form}.do", target=rung.target))
        if self.first:
            said += [words(f"ex-{exercise}.{line}") for line in ("notice", "caution", "stop")]
        return tuple(said)

    def _into_it(self, rung: Rung) -> tuple[Words, ...]:
        """How to get into it, in the order in which it is done: hand on, feet placed, and the hand leaves last."""
        side = self.side.value if self.side else "none"
        slug = f"form-{key(self.exercise.id)}-{key(rung.form.id)}"
        said = (words(f"{slug}.setup", side=side, again="no" if self.first else "yes"),)
        if not stands(rung):
            return said
        hand = f"hand-{key(rung.hand)}"
        return (words(hand), *said, *((words(f"{hand}.then"),) if rung.hand in LEAVING else ()))

    def _in_short(self, rung: Rung) -> tuple[Words, ...]:
        """The short style: one line under the picture, and what the hand does where the picture shows only its end."""
        side = self.side.value if self.side else "none"
        line = words(f"form-{key(self.exercise.id)}-{key(rung.form.id)}.short", side=side, target=rung.target)
        if not stands(rung):
            return (line,)
        hand = f"hand-{key(rung.hand)}"
        return (words(hand), line, *((words(f"{hand}.then"),) if rung.hand in LEAVING else ()))

    def _set_up_choices(self, at: int, name: str) -> tuple[Choice, ...]:
        choices = [Choice("ready", words("b-ready"), go=f"{name}.go", starts=stands(self.rungs[at]))]
        if at > 0:
            choices.append(Choice("easier", words("b-easier"), go=f"{self.name}.{at - 1}"))
        if at + 1 < len(self.rungs) and at >= self.begin:
            choices.append(Choice("harder", words("b-harder"), go=f"{self.name}.{at + 1}"))
        elif at < self.begin:
            choices.append(Choice("as_planned", words("b-as-planned"), go=f"{self.name}.{self.begin}"))
        return tuple(choices)

    def _sound_clock(self, rung: Rung, at: int, name: str) -> list[Step]:
        spec = self._spec(rung)
        note = Note(
            name=name,
            done=f"{self.name}.done",
            phone=self.how.phone,
            also=self._also(rung),
            also_words=(self._carer_does(rung),) if rung.form.needs_carer else (),
            bout=spec,
            media=sound_clock(self._into_it(rung), self.plan.into_place_s, rung.target, self._down(rung)),
            answers=self._how_choices(rung, name, then=f"{name}.what"),
            causes=self._broke_by(rung, f"{name}.when"),
            easier=f"{self.name}.{at - 1}" if at > 0 else None,
        )
        return note_blocks(note)

    def _also(self, rung: Rung) -> PersonId | None:
        """The carer who may answer in the client's place, where the client's hands and eyes are least free."""
        return self.how.carer_phone if rung.clock in (Clock.SOUND, Clock.CARER) and not self.how.shared else None

    def _screen_clock(self, rung: Rung, at: int, name: str) -> list[Step]:
        phone = self.how.phone
        again = (words("clock-late"), words("hand-down"), words("feet-apart"), words("ready-again"))
        into = words("into-place", seconds=self.plan.into_place_s)
        # watched: they were getting to their feet when the clock did not start
        back = Ask(f"{name}.again", phone, again, self._set_up_choices(at, name), put=Put.NEW, watch=stands(rung))
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

    def _carer_clock(self, rung: Rung, at: int, name: str) -> list[Step]:
        phone, carer = self.how.phone, self.how.carer_phone
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
                also=self._also(rung),
            ),
            Label(f"{name}.no-start"),
            *self.how.show_carer(words("carer-clock-off"), put=Put.IN_PLACE),
            Ask(f"{name}.again", phone, again, self._set_up_choices(at, name), put=Put.NEW, watch=stands(rung)),
        ]

    def _down(self, rung: Rung) -> tuple[Words, ...]:
        """How every standing bout ends."""
        eyes = (words("eyes-open"),) if rung.form.eyes is Eyes.CLOSED else ()
        return (words("hand-down"), *eyes, words("feet-apart"))

    def _lost_to_carer(self, rung: Rung) -> list[Step]:
        return self.how.show_carer(words("carer-clock-stopped"), _say_down(rung)) if rung.clock is Clock.CARER else []

    def _how_choices(self, rung: Rung, name: str, then: str = "") -> tuple[Choice, ...]:
        clean = "b-clean-hand-on" if rung.hand in HANDS_ON or not stands(rung) else "b-clean"
        done = f"{self.name}.done"
        return (
            Choice("clean", words(clean, seconds=rung.target), go=done, sets=(("quality", "clean"),)),
            Choice(
                "not_quite",
                words("b-not-quite"),
                go=then or f"{name}.when",
                go_tapped=None if then else f"{name}.known",
                sets=(("quality", "broke"),),
            ),
            Choice("unwell", words("b-unwell"), facts=("felt_unwell",), sets=(("quality", "unwell"),)),
        )

    def _questions(self, rung: Rung, name: str) -> list[Step]:
        phone, done, also = self.how.phone, f"{self.name}.done", self._also(rung)
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
            Ask(f"{name}.lost", phone, lost_said, lost, put=Put.NEW, watch=stands(rung), also=also),
            Label(f"{name}.known"),
            Ask(f"{name}.known", phone, (words("ask-known"),), known, also=also),
            Label(f"{name}.when"),
            Ask(f"{name}.when", phone, (words("ask-when"),), _quarters(rung.target), also=also),
            Label(f"{name}.what"),
            Ask(f"{name}.what", phone, (words("step-is-good"), words("ask-what")), self._broke_by(rung, done), also=also),
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
        # who pressed Ready looks at the picture already
        media = self._picture(rung) if unhurried or not stands(rung) else None
        spec, watch = self._spec(rung), stands(rung)
        count = Counted(f"{name}.count", self.how.phone, said, tuple(choices), spec, watch, unhurried, put, media=media)
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

"""The chart's small words: dates, moments, sides, counts. All come from the texts; times are the client's local ones."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from companion.content.texts import Texts, key_of
from companion.core.effects import words
from companion.core.observations import CarerSeen, FallKind
from companion.core.programme import Eyes, Measure, Side
from companion.core.summary import reason
from companion.measures.due import UNKNOWN, Day, State, Tally
from companion.reports.flags import Flag
from companion.reports.stances import FirstBreak, SideLine, StanceLine, Tried
from companion.reports.week import Lower, Said, Support, Week

MOST_FLAGS = 4
_COUNTED_AS = {
    "done": (State.DONE,),
    "partly": (State.PARTLY,),
    "missed": (State.DECLINED, State.NOT_READY),
    "unknown": tuple(UNKNOWN),
    "stopped": (State.STOPPED,),
    "paused": (State.PAUSED,),
    "held": (State.HELD,),
    "to-come": (State.TO_COME,),
}
_SAID_BY_FALL = frozenset({"fall", "near_fall"})


@dataclass(frozen=True, slots=True)
class Wording:
    """Puts the parts of a week into words of one language."""

    texts: Texts
    language: str
    zone: str
    roles: tuple[tuple[str, str], ...] = ()

    def say(self, key: str, **params: str | int) -> str:
        """A text of the report, by its key without `report-`."""
        return self.texts.text(words(key_of("report", key), **params), self.language)

    def _named(self, key: str, otherwise: str) -> str:
        """A name out of the library's own texts; the bare id for what the library no longer has."""
        if key in self.texts.keys(self.language):
            return self.texts.text(words(key), self.language)
        return otherwise.replace("_", " ")

    def many(self, parts: Iterable[str]) -> str:
        """Parts as one line."""
        return ", ".join(parts)

    # days and moments

    def weekday(self, day: date) -> str:
        """Short weekday."""
        return self.say(f"weekday-{day.isoweekday()}")

    def letter(self, day: date) -> str:
        """The weekday in one letter."""
        return self.say(f"weekday-{day.isoweekday()}.letter")

    def day(self, day: date) -> str:
        """Weekday and day of the month."""
        return self.say("day", weekday=self.weekday(day), day=day.day)

    def full_day(self, day: date) -> str:
        """Weekday, day and month."""
        return self.say("full-day", day=self.day(day), month=self.say(f"month-{day.month}"))

    def moment(self, at: datetime, after: datetime | None = None) -> str:
        """Day, month and local time; the time alone where it is the same day as `after`."""
        zone = ZoneInfo(self.zone)
        here = at.astimezone(zone)
        if after is not None and after.astimezone(zone).date() == here.date():
            return f"{here:%H:%M}"
        return self.say("moment", day=self.full_day(here.date()), time=f"{here:%H:%M}")

    def span(self, week: Week) -> str:
        """Which week it is."""
        return self.dates(week.first, week.last)

    def dates(self, first: date, last: date) -> str:
        """Which week it is, by its first and last day."""
        number = first.isocalendar().week
        return self.say("span", week=number, first=self.full_day(first), last=self.full_day(last), year=last.year)

    # flags

    def gravest(self, week: Week) -> tuple[Flag, ...]:
        """The flags there is room for: open ones first, then the newest."""
        newest = sorted(week.flags, key=lambda flag: flag.at, reverse=True)
        return tuple(sorted(newest, key=lambda flag: not flag.open)[:MOST_FLAGS])

    def who(self, person: str) -> str:
        """The role of a person."""
        return self.say(f"by-{dict(self.roles).get(person, 'somebody')}")

    def flag_title(self, flag: Flag) -> str:
        """Open or lifted, how grave, when."""
        state = self.say("flag-open" if flag.open else "flag-lifted")
        level = self.say(f"level-{flag.level or 'none'}")
        return self.say("flag-title", state=state, level=level, at=self.moment(flag.at))

    def flag_facts(self, flag: Flag) -> str:
        """What was reported, and by whom."""
        facts = [self.fact(fact) for fact in flag.facts if not (flag.fall and fact in _SAID_BY_FALL)]
        falls = [self.fall(flag.fall)] if flag.fall else []
        what = self.many([*falls, *facts]) or self.say("fact-none")
        return self.say("flag-facts", facts=what[0].upper() + what[1:], by=self.who(flag.by))

    def flag_course(self, flag: Flag) -> str:
        """Whether the alert was acknowledged; when, and for what reason, the stop was lifted."""
        if flag.lifted is not None:
            reason = self._named(key_of("lift-reason", flag.reason or "none"), "")
            tail = self.say("flag-reason", reason=reason) if reason else ""
            return self.say("flag-lifted-at", at=self.moment(flag.lifted, flag.at), reason=tail)
        seen = self.say("flag-seen", at=self.moment(flag.seen, flag.at)) if flag.seen else self.say("flag-not-seen")
        more = self.say("flag-more", at=self.moment(flag.more, flag.at)) if flag.more and flag.seen else ""
        return f"{seen} {more}".rstrip()

    def fall(self, fall: FallKind) -> str:
        """Fall, near-fall, or not told apart."""
        return self.say(f"fall-{fall}")

    def lower(self, lower: Lower | None) -> tuple[str, ...]:
        """An early notice of getting worse, if one stands."""
        if lower is None:
            return ()
        here = lower.since.astimezone(ZoneInfo(self.zone)).date()
        return (self.say("lower", since=self.full_day(here), earlier=lower.earlier or "unknown"),)

    def fact(self, fact: str) -> str:
        """What was pressed or asked, in words."""
        kind, _, sign = fact.partition(".")
        if kind == "sign":
            return self._named(key_of("sign", sign) + ".title", sign)
        return self._named(key_of("fact", fact), fact)

    def silences(self, week: Week) -> tuple[str, ...]:
        """On which of the days due nobody answered, nothing is on record, nobody spoke after standing, or the bot was away."""
        kinds = {
            "no-answer": week.days_of(State.NO_ANSWER),
            "no-record": week.days_of(State.NO_RECORD),
            "no-word": week.no_word_days,
            "not-asked": week.days_of(State.NOT_ASKED),
        }
        return tuple(
            self.say(kind, count=len(days), due=week.tally.due, days=self.many(map(self.day, days)))
            for kind, days in kinds.items()
            if days
        )

    def answered(self, week: Week) -> tuple[str, ...]:
        """That every day due has an answer, where that is so; nothing where nothing counted as due."""
        silent = week.days_of(State.NO_ANSWER, State.NO_RECORD, State.NO_WORD)
        return () if silent or not week.tally.due else (self.say("no-answer-none", due=week.tally.due),)

    # sessions

    def reported(self, tally: Tally, tail: str = "") -> str:
        """Sessions reported done or partly, of those due; `tail` ".title": standing alone."""
        if tally.due == 0:
            return self.say(f"reported-none-due{tail}")
        unknown = self.say("reported-unknown", count=tally.unknown) if tally.unknown else ""
        return self.say(f"reported{tail}", reported=tally.reported, due=tally.due, unknown=unknown)

    def states(self, tally: Tally) -> str:
        """Done, partly, missed, unknown, paused, and what else there was; each with its number, if it has one."""
        counts = {name: tally.count(*states) for name, states in _COUNTED_AS.items()} | {"extra": tally.extra}
        told = {name: self.say(f"count-{name}", count=count) for name, count in counts.items() if count}
        silent = tally.count(State.NO_WORD)
        if silent:  # among the unknown, and named: somebody stood and then said nothing
            told["unknown"] = self.say("count-no-word", count=tally.unknown, silent=silent)
        return self.many(told.values())

    def parts(self, week: Week) -> tuple[str, ...]:
        """The sessions of each plan, where there was more than one in the week."""
        return tuple(
            self.say(
                "part" if place else "part-first",
                plan=part.version,
                day=self.day(part.first),
                reported=self.reported(part.tally),
            )
            for place, part in enumerate(week.parts)
        )

    def sessions(self, week: Week) -> tuple[str, ...]:
        """How many sessions took place, where that is more than the days on which they did."""
        counts = [day.sessions for day in week.days if day.sessions]
        return (self.say("sessions", sessions=sum(counts), days=len(counts)),) if sum(counts) > len(counts) else ()

    def state(self, day: Day) -> str:
        """What became of a day; and how often, where it was practised more than once."""
        state = self.say(f"state-{day.state or 'not-due'}")
        return self.say("state-times", state=state, times=day.sessions) if day.sessions > 1 else state

    # stances

    def stance(self, line: StanceLine, *, hand: bool) -> str:
        """The stance with its eyes and target, and with its hand support where that is wanted."""
        name = self.say(f"stance-{line.stance}")
        if line.exercise is not None:
            exercise = self.exercise(line.exercise)
            name = self.say("stance-of", exercise=exercise, stance=name.lower()) if line.told_apart else exercise
        if line.eyes is Eyes.CLOSED:
            name = self.say("eyes-closed", name=name)
        unit = "target-timed" if line.measure is Measure.TIMED else "target-counted"
        target = self.say(unit, target=self._range(line.targets))
        if line.targets_before is not None:
            target = self.say("target-before", target=target, before=self.say(unit, target=self._range(line.targets_before)))
        parts = [name, target, *([self.hand_range(line)] if hand else [])]
        return self.many(parts if line.version is None else [*parts, self.say("plan", plan=line.version)])

    def _range(self, ends: tuple[int, int]) -> str:
        low, high = ends
        return str(low) if low == high else self.say("range", low=low, high=high)

    def hand_range(self, line: StanceLine) -> str:
        """The hand stage, or from which to which."""
        most, least = line.hands
        if most is least:
            return self.say(f"hand-{most}")
        return self.say("range", low=self.say(f"hand-{most}"), high=self.say(f"hand-{least}"))

    def side(self, side: Side | None) -> str:
        """Weaker, stronger, or no side."""
        return self.say(f"side-{side or 'none'}")

    def tried(self, tried: Tried) -> str:
        """Clean of tried; unknown where somebody tried and nobody answered."""
        if tried.tried:
            return self.say("tried", clean=tried.clean, tried=tried.tried)
        return self.say("tried-unknown" if tried.unknown else "tried-none")

    def usual(self, line: SideLine) -> str:
        """The usual quarter of the first break, or the usual count; empty where nothing was tried."""
        if not line.now.tried:
            return ""
        if line.usual_count is not None:
            return self.say("usual-count", count=line.usual_count)
        return self.say(f"break-{line.usual}")

    def side_in_words(self, line: SideLine) -> str:
        """A side with its numbers, last week's in brackets, the usual first break where there is one."""
        parts = [self.tried(line.now)]
        if line.side is not None:
            parts[0] = f"{self.side(line.side)} {parts[0]}"
        if line.before is not None:
            parts[0] = f"{parts[0]} ({self.tried(line.before)})"
        if line.now.tried and line.usual_count is not None:
            parts.append(self.usual(line))
        elif line.now.tried and line.usual is not FirstBreak.NO_BREAK:
            parts.append(self.say(f"break-{line.usual}.long"))
        if line.now.tried and line.now.unknown:
            parts.append(self.say("caption-unknown", count=line.now.unknown))
        return self.many(parts)

    # hand, steps, effort, carer, own words, decision

    def support(self, support: Support) -> tuple[str, ...]:
        """Hand stages, what broke the bouts, what was made easier."""
        hands = self.many(self.say("hand-count", hand=self.say(f"hand-{hand}"), count=count) for hand, count in support.hands)
        found = [self.say("hands", hands=hands, bouts=support.bouts)]
        broke = [self.say("broke", steps=support.steps, touches=support.touches)]
        if support.leaned:
            broke.append(self.say("leaned", count=support.leaned))
        if support.feet_down:
            broke.append(self.say("feet-down", count=support.feet_down))
        eased = [self.say("eased", count=support.eased, bouts=support.bouts)]
        if support.harder:
            eased.append(self.say("harder", count=support.harder))
        return (*found, " ".join(broke), " ".join(eased))

    def effort(self, effort: tuple[tuple[str | None, int], ...]) -> str:
        """How hard the sessions were, as answered."""
        if not effort:
            return self.say("effort-none")
        answers = self.many(self.say(f"effort-{answer or 'unknown'}", count=count) for answer, count in effort)
        return self.say("effort", efforts=answers, sessions=sum(count for _, count in effort))

    def confidence(self, answer: str | None) -> tuple[str, ...]:
        """How sure of their balance they are, as answered last; nothing where there is no answer."""
        if answer is None:
            return ()
        return (self.say("confidence", answer=self.say(f"confidence-{answer}".replace("_", "-"))),)

    def carer(self, carer: tuple[tuple[CarerSeen, int], ...]) -> str:
        """In how many sessions a carer was shown to be there."""
        if not carer:
            return self.say("carer-none")
        counts = self.many(self.say(f"carer-{seen}", count=count) for seen, count in carer)
        return self.say("carer", carer=counts, sessions=sum(count for _, count in carer))

    def carer_saw_more(self, sessions: int) -> tuple[str, ...]:
        """Where carer and client differ: both are told, neither is taken for right."""
        return (self.say("carer-saw-more", count=sessions),) if sessions else ()

    def near_falls(self, days: tuple[date, ...]) -> tuple[str, ...]:
        """Near-falls that raised no red flag, with their days."""
        if not days:
            return ()
        return (self.say("near-falls", count=len(days), days=self.many(self.full_day(day) for day in sorted(set(days)))),)

    def quote(self, said: Said) -> str:
        """Somebody's own words, and whose."""
        here = said.at.astimezone(ZoneInfo(self.zone)).date()
        by, day = self.say(f"words-by-{said.by}"), self.full_day(here)
        if said.form:
            return self.say("words-sent", form=said.form, by=by, day=day)
        return self.say("words", text=" ".join(said.text.split()), by=by, day=day)

    def decisions(self, week: Week) -> tuple[str, ...]:
        """What only the therapist can decide: the stop since the oldest open flag, the steps proposed."""
        lift = (self.say("decision-lift", at=self.moment(week.to_lift[0].at)),) if week.to_lift else ()
        steps = tuple(
            self.say("decision-step", exercise=self.exercise(one.exercise), way=one.direction, at=self.moment(one.at))
            for one in week.proposed
        )
        return (*lift, *steps) or (self.say("decision-none"),)

    def reason(self, one: str) -> str:
        """Why a client needs a look, as on the therapist's list."""
        return self.texts.text(reason(one), self.language)

    def exercise(self, exercise: str) -> str:
        """The name of an exercise."""
        return self._named(key_of("ex", exercise), exercise)

    def footer(self, week: Week) -> str:
        """As of when, and in which time zone."""
        return self.say("footer", at=self.moment(week.as_of), zone=week.zone)

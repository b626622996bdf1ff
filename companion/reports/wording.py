"""The chart's small words: dates, moments, sides, counts. All come from the texts; times are the client's local ones."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from companion.content.texts import key_of
from companion.core.observations import FallKind
from companion.core.programme import Rules
from companion.core.schedule import local_day
from companion.core.summary import reason
from companion.measures.due import REPORTED, UNKNOWN, Day, State, Tally
from companion.reports.flags import Flag
from companion.reports.pauses import Pause
from companion.reports.stance_wording import StanceWording
from companion.reports.week import Lower, Said, Week

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
class Wording(StanceWording):
    """Puts the parts of a week into words of one language. `rules`: the library, to say what a proposed step would change."""

    zone: str
    roles: tuple[tuple[str, str], ...] = ()
    rules: Rules | None = field(default=None, kw_only=True)

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
            return self.say("flag-lifted-at", at=self.moment(flag.lifted), reason=tail)
        seen = self.say("flag-seen", at=self.moment(flag.seen, flag.at)) if flag.seen else self.say("flag-not-seen")
        more = self.say("flag-more", at=self.moment(flag.more, flag.at)) if flag.more and flag.seen else ""
        return f"{seen} {more}".rstrip()

    def no_flag(self, week: Week) -> tuple[str, ...]:
        """That no red flag is on record, where none is; after what is not known, where nobody could have told of one."""
        if week.flags:
            return ()
        tally = week.tally
        if tally.due and tally.unknown == tally.due:
            asked = "yes" if self._unanswered_through(week) else "no"
            return (self.say("no-flag-unknown", due=tally.due, asked=asked),)
        if week.paused_through:
            return (self.say("no-flag-paused"),)
        return (self.say("no-flag", known="some" if tally.unknown or week.no_word_days else "all"),)

    def falls(self, week: Week) -> tuple[str, ...]:
        """How many falls were reported this week under a flag, and when; nothing where none was."""
        told = [(local_day(flag.at, self.zone), flag.fall) for flag in week.flags]
        falls = [(day, fall) for day, fall in told if day >= week.first and fall in (FallKind.FALL, FallKind.UNKNOWN)]
        if not falls:
            return ()
        days = self.many(map(self.day, sorted({day for day, _ in falls})))
        return (self.say("falls", count=len(falls), days=days, unsure=sum(fall is FallKind.UNKNOWN for _, fall in falls)),)

    def flag_days(self, week: Week) -> frozenset[date]:
        """The days on which a red flag was raised."""
        return frozenset(local_day(flag.at, self.zone) for flag in week.flags)

    def _unanswered_through(self, week: Week) -> bool:
        return 0 < week.tally.due == week.tally.count(State.NO_ANSWER) and not week.flags

    def fall(self, fall: FallKind) -> str:
        """Fall, near-fall, or not told apart."""
        return self.say(f"fall-{fall}")

    def lower(self, lower: Lower) -> tuple[str, str]:
        """An early notice of getting worse: since when, and what is lower against what."""
        told = self.say("lower", earlier=lower.earlier or "unknown")
        return self.say("lower-title", since=self.since(lower)), told

    def since(self, lower: Lower) -> str:
        """The day of an early notice."""
        return self.full_day(local_day(lower.since, self.zone))

    def fact(self, fact: str) -> str:
        """What was pressed or asked, in words."""
        kind, _, sign = fact.partition(".")
        if kind == "sign":
            return self._named(key_of("sign", sign) + ".title", sign)
        return self._named(key_of("fact", fact), fact)

    def silences(self, week: Week) -> tuple[str, ...]:
        """On which of the days due nobody answered, nothing is on record, nobody spoke after standing, or the bot was away."""
        kinds = {
            "no-answer": () if self._unanswered_through(week) else week.days_of(State.NO_ANSWER),  # there it is said first
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

    def states(self, tally: Tally, *, kinds: bool = False) -> str:
        """Done, partly, missed, unknown, paused, and what else there was; each with its number, if it has one.

        `kinds`: of missed and unknown also which, in the words that stand below the days.
        """
        counts = {name: tally.count(*states) for name, states in _COUNTED_AS.items()} | {"extra": tally.extra}
        told = {name: self.say(f"count-{name}", count=count) for name, count in counts.items() if count}
        silent = tally.count(State.NO_WORD)
        if silent and not kinds:  # among the unknown, and named: somebody stood and then said nothing
            told["unknown"] = self.say("count-no-word", count=tally.unknown, silent=silent)
        for name in ("missed", "unknown") if kinds else ():
            if name in told:
                told[name] = self.say("count-kinds", counted=told[name], kinds=self._kinds(tally, _COUNTED_AS[name]))
        return self.many(told.values())

    def _kinds(self, tally: Tally, states: Iterable[State]) -> str:
        counts = [(state, tally.count(state)) for state in State if state in states]
        return self.many(
            self.say("count-kind", state=self.say(f"state-{state}"), count=count) for state, count in counts if count
        )

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
        """How many sessions were reported of those due, where that is not the same as the days: the plan asks for several a
        day, or there were more than it asks for."""
        tally, every = week.tally, sum(day.reported for day in week.days)
        if all(day.asked <= 1 and day.reported <= 1 for day in week.days):
            return ()
        unknown = self.say("reported-unknown", count=tally.silent) if tally.silent else ""
        more = every if every > tally.sessions else 0
        return (self.say("sessions", reported=tally.sessions, due=tally.asked, unknown=unknown, all=more),)

    def pause(self, week: Week) -> tuple[str, ...]:
        """Who paused, since when, why, and until when, where a day of the week is paused."""
        if not week.days_of(State.PAUSED):
            return ()
        if week.pause is None:
            return (self.say("pause-unknown"),)
        told = self.say("pause", since=self.full_day(week.pause.since), why=week.pause.why)
        return (" ".join([told, *self.paused_until(week.pause)]),)

    def paused_until(self, pause: Pause | None) -> tuple[str, ...]:
        """The end of a pause, as far as it is on record."""
        if pause is None:
            return ()
        if pause.over is not None:
            return (self.say("pause-over", day=self.full_day(pause.over)),)
        if pause.until is None:
            return (self.say("pause-open"),)
        return (self.say("pause-last", day=self.full_day(pause.until - timedelta(days=1))),)

    def state(self, day: Day) -> str:
        """What became of a day; and how often, where it was practised more than once, or was to be."""
        state = self.say(f"state-{day.state or 'not-due'}")
        if day.state in REPORTED and day.asked > 1:
            key = "state-times-of" if day.reported <= day.asked else "state-times-more"
            return self.say(key, state=state, times=day.reported, asked=day.asked)
        return self.say("state-times", state=state, times=day.sessions) if day.sessions > 1 else state

    # hand, steps, effort, carer, own words, decision

    def support(self, week: Week) -> tuple[str, ...]:
        """Hand stages, what broke the bouts, what was made easier and where."""
        support = week.support
        hands = self.many(self.say("hand-count", hand=self.say(f"hand-{hand}"), count=count) for hand, count in support.hands)
        silent = self.say("hands-unanswered", count=week.unanswered) if week.unanswered else ""
        found = [self.say("hands", hands=hands, bouts=support.bouts, unanswered=silent)]
        broke = [self.say("broke", steps=support.steps, touches=support.touches)]
        if support.leaned:
            broke.append(self.say("leaned", count=support.leaned))
        if support.feet_down:
            broke.append(self.say("feet-down", count=support.feet_down))
        eased = [self.say("eased", count=support.eased, bouts=support.bouts, where=self._eased(week))]
        if support.harder:
            eased.append(self.say("harder", count=support.harder))
        return (*found, " ".join(broke), " ".join(eased))

    def _eased(self, week: Week) -> str:
        """In which stances and on which sides bouts were made easier, where that was not in all of them."""
        if week.support.eased in (0, week.support.bouts):
            return ""
        found = []
        for line in week.stances:
            for side in (one for one in line.sides if one.eased):
                key = "eased-line" if side.side is None else "eased-side"
                stance, own = self.stance_name(line), self.side(side.side)
                found.append(self.say(key, stance=stance, side=own, count=side.eased, bouts=side.now.tried))
        return self.say("eased-where", lines=self.many(found))

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

    def carer(self, week: Week) -> str:
        """In how many sessions a carer was shown to be there, and on which days one was not."""
        if not week.carer:
            return self.say("carer-none")
        counts = self.many(self.say(f"carer-{seen}", count=count) for seen, count in week.carer)
        told = self.say("carer", carer=counts, sessions=sum(count for _, count in week.carer))
        days = [(self.day(one.day), one.begun) for one in week.carer_absent]
        absent = self.many(day if begun else self.say("carer-not-begun", day=day) for day, begun in days)
        return f"{told} {self.say('carer-when', days=absent)}" if days else told

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
        by, day = self.say(f"words-by-{said.by}"), self.full_day(local_day(said.at, self.zone))
        if said.form:
            return self.say("words-sent", form=said.form, by=by, day=day)
        return self.say("words", text=" ".join(said.text.split()), by=by, day=day)

    def reason(self, one: str) -> str:
        """Why a client needs a look, as on the therapist's list."""
        return self.texts.text(reason(one), self.language)

    def footer(self, week: Week) -> str:
        """As of when, and in which time zone."""
        return self.say("footer", at=self.moment(week.as_of), zone=week.zone)

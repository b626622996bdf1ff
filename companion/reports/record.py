"""Documents for the record, on paper: a week, a review, the end of practice. Runs in the drawing process.

What was practised at home is told as reported, with what nobody told counted apart.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from functools import partial
from zoneinfo import ZoneInfo

from matplotlib.figure import Figure

from companion.content.texts import Texts
from companion.core.discharge import keep_going
from companion.core.effects import Sheet
from companion.core.how import key
from companion.core.observations import FlagLifted, FlagRaised, PlanPrescribed
from companion.core.programme import Plan, Rules
from companion.core.words import Words, words
from companion.measures import course
from companion.measures.adherence import Adherence, adherence, doses
from companion.measures.conditions import Condition
from companion.measures.dated import dated
from companion.measures.due import days
from companion.measures.holds import LEAST_SESSIONS, Between
from companion.measures.proportions import Share
from companion.measures.trend import Direction
from companion.reports import cert, figure, own_spread, review_page
from companion.reports.asking import Drawn, Task
from companion.reports.data import slug
from companion.reports.paper import SMALL, About, Document, pdf
from companion.reports.review_wording import ReviewWording
from companion.reports.reviews import reviews
from companion.reports.week import plans_of, summarise
from companion.reports.wording import Wording

TITLES = {Sheet.PDF_WEEK: "week", Sheet.PDF_REVIEW: "review", Sheet.PDF_DISCHARGE: "discharge"}


def document(task: Task, texts: Texts, rules: Rules) -> Drawn:
    """The PDF of that sheet, with its name."""
    name = TITLES[task.sheet]
    said = _Said(texts, task.language)
    title = said(f"record-{name}", name=task.case.name)
    about = About(title, task.language, task.as_of, task.paper)
    if task.sheet is Sheet.PDF_WEEK:
        week = summarise(task.case, task.first, task.last, task.observations, task.as_of)
        figures = [figure.draw(week, Wording(texts, task.language, week.zone, week.roles, rules=rules))]
    else:
        writer = _Record(task, said, rules, title)
        written = writer.review() if task.sheet is Sheet.PDF_REVIEW else writer.discharge()
        figures = written.finish(said("record-page", page="{page}", pages="{pages}"), writer.sheets)
    return Drawn(pdf(figures, about), title, f"{slug(task)}-{name}.pdf")


@dataclass(frozen=True, slots=True)
class _Said:
    """Texts of one language, by key."""

    texts: Texts
    language: str

    def __call__(self, key: str, **params: str | int | Words) -> str:
        return self.words(words(key, **params))

    def words(self, said: Words) -> str:
        return self.texts.text(said, self.language)


def _p(value: float) -> str:
    """A p value to three places, never as nought."""
    return "< 0.001" if value < 0.001 else f"= {value:.3f}"


class _Record:
    """Writes one document; lives only inside `document`."""

    def __init__(self, task: Task, said: _Said, rules: Rules, title: str) -> None:
        self.task, self.said, self.rules, self.exercises = task, said, rules, rules.exercises
        self.zone, self.plan = task.case.zone, task.case.plan
        self.wording = Wording(said.texts, task.language, self.zone, task.case.roles)
        self.seen = [what for at, what in task.observations if at <= task.as_of]
        self.bouts = dated(task.observations, self.zone)
        self.page = Document(task.paper, title)
        self.page.title(title)
        self.first = min((what.at.astimezone(self._here).date() for what in self.seen), default=task.last)
        self.last = task.as_of.astimezone(self._here).date()
        self.page.line(said("record-period", first=self.first.isoformat(), last=self.last.isoformat(), zone=self.zone))
        self.page.line(said("record-reported"))
        self.sheets: list[Callable[[str], Figure]] = []
        measured = reviews(task.observations, task.as_of, self.zone)
        if measured:
            wording = ReviewWording(said.texts, task.language, self.zone)
            self.sheets.append(partial(review_page.draw, task.case.name, measured, wording))
            self.page.line(said("review-page-own-page"))

    @property
    def _here(self) -> ZoneInfo:
        return ZoneInfo(self.zone)

    def review(self) -> Document:
        practised = self._adherence()
        self._practised(practised)
        self._stances()
        self._rates()
        self._course()
        self._own_spread()
        self._sides()
        self._flags()
        self._plans()
        self._cert(practised)
        self._definitions()
        return self.page

    def discharge(self) -> Document:
        self._practised(self._adherence())
        self._flags()
        self.page.heading(self.said("record-go-on"))
        carer = any(part == "carer" for _, part in self.task.case.roles)
        kept = keep_going(self.plan, carer, self.rules)
        for exercise, form in kept:
            name = key(exercise.id)
            self.page.pair(self.said(f"ex-{name}"), self.said(f"form-{name}-{key(form.id)}"))
        self.page.line(self.said("record-go-on-note" if kept else "record-go-on-none"))
        self._definitions()
        return self.page

    # --- the parts ----------------------------------------------------------------------------------------

    def _adherence(self) -> tuple[Adherence, ...]:
        yesterday = self.last - timedelta(days=1)
        if yesterday < self.first:
            return ()
        known = [(at, what) for at, what in self.task.observations if at <= self.task.as_of]
        plans = plans_of(self.task.case, known)
        return adherence(days(plans, (self.first, yesterday), known, self.last), doses(plans, self.exercises))

    def _practised(self, practised: tuple[Adherence, ...]) -> None:
        self.page.heading(self.said("record-heading-practised"))
        if not practised:
            self.page.line(self.said("record-nothing-due"))
        for one in practised:
            label = "unknown" if one.adherent is None else "yes" if one.adherent else "no"
            self.page.pair(
                self.said("record-plan", version=one.version, first=one.first.isoformat(), last=one.last.isoformat()),
                self.said(
                    "record-practised",
                    sessions=self._share(one.sessions),
                    bouts=f"{one.bouts.count}/{one.bouts.total}",
                    minutes=f"{one.seconds / 60:.0f}",
                    due=f"{one.seconds_due / 60:.0f}",
                    unknown=one.unknown,
                    out=one.left_out,
                    label=label,
                ),
            )

    def _stances(self) -> None:
        self.page.heading(self.said("record-heading-stances"))
        if not self.bouts:
            self.page.line(self.said("record-no-bouts"))
        for held in course.series(self.bouts):
            found = course.measured(held)
            lines = [self.said("record-clean", share=self._share(held.clean), unknown=held.unknown, target=held.target)]
            if found is not None and found.sessions < LEAST_SESSIONS:
                holds = ", ".join(self._between(Between(hold.low, hold.high)) for hold in found.listed)
                lines.append(self.said("record-holds-listed", sessions=found.sessions, holds=holds, least=LEAST_SESSIONS))
            elif found is not None and found.median_from is not None:
                median, limits = self._between(found.median), self._limits(found.median_from)
                lines.append(self.said("record-median", sessions=found.sessions, median=median, limits=limits))
                marks = ", ".join(f"{held.target * quarter:g}" for quarter in course.QUARTERS)
                shares = ", ".join(f"{100 * share:.0f}" for share in found.past)
                lines.append(self.said("record-lasting", marks=marks, shares=shares))
                if found.mean.interval is not None:
                    low, high = f"{found.mean.interval.low:.0f}", f"{found.mean.interval.high:.0f}"
                    mean = f"{found.mean.value:.0f}"
                    lines.append(self.said("record-mean", mean=mean, low=low, high=high, target=held.target))
            self.page.pair(self._condition(held.condition), " ".join(lines))

    def _rates(self) -> None:
        self.page.heading(self.said("record-heading-rates"))
        found = course.rates(self.bouts)
        if found is None:
            self.page.line(self.said("record-rates-none"))
            return
        for cause, one in (("step", found.steps), ("hand", found.touches)):
            told = self.said(
                "record-rate",
                cause=cause,
                count=one.count,
                minutes=f"{one.minutes:.0f}",
                value=f"{one.value:.2f}",
                low=f"{one.interval.low:.2f}",
                high=f"{one.interval.high:.2f}",
            )
            self.page.line(told)

    def _course(self) -> None:
        self.page.heading(self.said("record-heading-course"))
        shown = False
        for held in course.whole(self.bouts):
            found = course.course(held)
            if found is None:
                continue
            shown = True
            key_ = "record-trend-none" if found.direction is Direction.NOT_SHOWN else "record-trend"
            # z: no minus before a nought
            slope, low, high = (f"{one:z.1f}" for one in (found.slope, found.interval.low, found.interval.high))
            told = self.said(key_, direction=found.direction.value, slope=slope, low=low, high=high, weeks=found.weeks)
            self.page.pair(self._condition(held.condition), told)
        if not shown:
            self.page.line(self.said("record-no-course"))

    def _own_spread(self) -> None:
        self.page.heading(self.said("spread-heading"))
        self.page.line(self.said.words(own_spread.told(self.bouts, self.rules.noticeable)))

    def _sides(self) -> None:
        self.page.heading(self.said("record-heading-sides"))
        pairs = course.compared(self.bouts)
        if not pairs:
            self.page.line(self.said("record-no-sides"))
        for one in pairs:
            if one.sides is None:
                told = self.said("record-sides-not-measurable")
            else:
                ratio = f"{one.sides.at_least:.2f}" if one.sides.at_least is not None else "unknown"
                told = self.said("record-sides", share=self._share(one.sides.shorter), p=_p(one.sides.p), ratio=ratio)
            self.page.pair(self._stance(one.weaker.condition), told)

    def _flags(self) -> None:
        self.page.heading(self.said("record-heading-flags"))
        raised = [what for what in self.seen if isinstance(what, FlagRaised)]
        lifted = {what.flag: what.at for what in self.seen if isinstance(what, FlagLifted)}
        if not raised:
            self.page.line(self.said("record-no-flags"))
        for what in raised:
            ended = lifted.get(what.flag)
            facts = ", ".join(self.wording.fact(fact) for fact in what.facts)
            until = self.wording.moment(ended) if ended is not None else self.said("record-open")
            self.page.pair(
                self.wording.moment(what.at), self.said("record-flag", level=what.level.value, facts=facts, until=until)
            )

    def _plans(self) -> None:
        self.page.heading(self.said("record-heading-plans"))
        for what in self.seen:
            if isinstance(what, PlanPrescribed):
                self.page.line(self.said("record-plan-from", version=what.version, day=self.wording.moment(what.at)))
                plan = what.plan or (self.plan if self.plan.version == what.version else None)
                if plan is None:
                    self.page.line(self.said("record-plan-not-kept"), indent=30)
                else:
                    self._plan_lines(plan)

    def _plan_lines(self, plan: Plan) -> None:
        for name, how in cert.prescribed(plan, self.exercises):
            self.page.pair(self.said.words(name), self.said.words(how))

    def _cert(self, practised: tuple[Adherence, ...]) -> None:
        self.page.heading(self.said("record-heading-cert"))
        self.page.line(self.said("cert-source"), SMALL)
        for line, asks, told in cert.lines(self.plan, self.seen, practised, self.exercises):
            self.page.pair(f"{line} {self.said.words(asks)}", self.said.words(told))

    def _definitions(self) -> None:
        self.page.heading(self.said("record-heading-words"))
        for name in ("clean", "held", "unknown", "intervals", "fall", "not"):
            self.page.line(self.said(f"record-word-{name}"), SMALL)

    # --- words --------------------------------------------------------------------------------------------

    def _share(self, share: Share) -> str:
        interval = share.interval
        if interval is None:
            return f"{share.count}/{share.total}"
        low, high = f"{100 * interval.low:.0f}", f"{100 * interval.high:.0f}"
        return self.said("record-share", count=share.count, total=share.total, low=low, high=high)

    def _between(self, found: Between) -> str:
        low = f"{found.low:.0f}"
        if found.high is None:
            return self.said("record-not-reached", low=low)
        high = f"{found.high:.0f}"
        return self.said("record-second", second=low) if low == high else self.said("record-between", low=low, high=high)

    def _limits(self, found: Between) -> str:
        """An interval; one that is open above reaches past the target."""
        low = f"{found.low:.0f}"
        if found.high is None:
            return self.said("record-or-more", low=low)
        return self.said("record-from-to", low=low, high=f"{found.high:.0f}")

    def _stance(self, condition: Condition) -> str:
        hand = self.said(f"hand-{key(condition.hand)}.short")
        name = self.said(f"ex-{key(condition.exercise)}" if condition.exercise else f"report-stance-{key(condition.stance)}")
        return self.said("record-condition", stance=name, eyes=condition.eyes.value, hand=hand, clock=condition.clock.value)

    def _condition(self, condition: Condition) -> str:
        side = condition.side
        return (
            self._stance(condition) if side is None else self.said("record-side", side=side.value, of=self._stance(condition))
        )

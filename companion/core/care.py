"""The state of one client's care, as it is stored. Values only; `client.py` says what happens to them."""

from dataclasses import dataclass, replace
from datetime import date, datetime

from companion.core.baseline import About, Baseline
from companion.core.cursor import Session
from companion.core.duty import Duty, at_work
from companion.core.effects import ClientId, PersonId
from companion.core.events import Facts
from companion.core.media import OwnMedia
from companion.core.observations import Ending, FallKind
from companion.core.programme import Level, Plan, Quiet, Side
from companion.core.recent import Blank, Proposal, Run, Said, Slip


@dataclass(frozen=True, slots=True)
class People:
    """Who is who. `contacts` are told in order when the therapist does not answer an alert."""

    client: PersonId
    therapist: PersonId
    carer: PersonId | None = None
    contacts: tuple[PersonId, ...] = ()
    names: tuple[tuple[PersonId, str], ...] = ()

    def name(self, person: PersonId) -> str:
        """The call name of a person."""
        return dict(self.names).get(person, person)

    def at_home(self) -> tuple[PersonId, ...]:
        """The phones of client and carer."""
        return (self.client, self.carer) if self.carer else (self.client,)


@dataclass(frozen=True, slots=True)
class Day:
    """A day on which practice was due. `offer` is what its reminder's buttons carry; `again_at` after "later". `held`: it was
    due under a red flag, `paused`: in a pause."""

    day: date
    offer: str
    asked: bool = True
    declined: bool = False
    again_at: datetime | None = None
    held: bool = False
    paused: bool = False


@dataclass(frozen=True, slots=True)
class Fall:
    """A reported fall until we know they are up. `asked` counts how often "up and safe?" was asked; `told` are the answers,
    as "person:answer"."""

    since: datetime
    by: PersonId
    asked: int = 1
    answered: bool = False
    told: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Told:
    """One thing that was reported under a red flag, when and by whom. `fact` as in `red_flags`."""

    at: datetime
    by: PersonId
    fact: str


@dataclass(frozen=True, slots=True)
class Call:
    """A therapist, a deputy or a contact tells what came of calling the client ("reached", "not_reached", "with_them"), or
    writes it in their own words."""

    at: datetime
    by: PersonId
    answer: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class During:
    """What was under way when a red flag was raised. `exercise` empty: the safety check, or between bouts. `second` is that
    of the hold by the companion's clock, of `target` seconds; None: no clock ran."""

    exercise: str = ""
    form: str = ""
    side: Side | None = None
    second: int | None = None
    target: int = 0


@dataclass(frozen=True, slots=True)
class Hold:
    """A red flag: everything stays stopped until a therapist who sees to the client lifts it.

    `contact_saw`: the contact or deputy who has seen it, which does not speak for the therapist.
    `alerts` counts the alerts said to the therapist, `contacts_told` how many further contacts were told. Their rhythm counts
    from `rhythm_at` (None: from `raised_at`). `alerted` were sent it, `seen_by` are the therapists who have seen all of it,
    `lost` those to whom it can not be delivered. `told` and `calls` are what was reported and who called, in order.
    """

    id: str
    rule: str
    level: Level
    facts: tuple[str, ...]
    by: PersonId
    raised_at: datetime
    alerts: int = 1
    contacts_told: int = 0
    acknowledged_at: datetime | None = None
    contact_saw: PersonId | None = None
    mistake: bool = False
    fall: Fall | None = None
    told: tuple[Told, ...] = ()
    during: During | None = None
    calls: tuple[Call, ...] = ()
    rhythm_at: datetime | None = None
    seen_by: tuple[PersonId, ...] = ()
    alerted: tuple[PersonId, ...] = ()
    lost: tuple[PersonId, ...] = ()


@dataclass(frozen=True, slots=True)
class Past:
    """One line of the last sessions, for an alert and for the client's week. `practised_s`: the clocks of its bouts, in all.
    `asked`: for how many sessions the plan of then asked on that day."""

    day: date
    ending: Ending
    done: int
    planned: int
    practised_s: float = 0.0
    asked: int = 1


@dataclass(frozen=True, slots=True)
class Consent:
    """What the client agreed to: the version of the words, and when."""

    version: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Pause:
    """The client does not practise for a while: why, since when, and the first local day after it (None: no end agreed)."""

    why: str
    since: datetime
    until: date | None = None


@dataclass(frozen=True, slots=True)
class Writing:
    """What the client's next words are for: "tell" (passed on to the therapist) or "goal". Asked at `since`."""

    what: str
    since: datetime


@dataclass(frozen=True, slots=True)
class CarerAsked:
    """What the carer is asked beside a session: `id` is what the buttons carry, `what` is "near_fall" or "worry". From
    `writing_since` their next words are the worry."""

    id: str
    what: str
    writing_since: datetime | None = None


@dataclass(frozen=True, slots=True)
class Cover:
    """Another therapist sees to the client too, from `start` up to `end`. `begun`: everybody was told."""

    by: PersonId
    start: datetime
    end: datetime
    begun: bool = False


@dataclass(frozen=True, slots=True)
class Tally:
    """What was reported since the client began, for the summary at discharge. `falls` are (flag, kind), each report once."""

    counts: tuple[tuple[str, int], ...] = ()
    falls: tuple[tuple[str, FallKind], ...] = ()


@dataclass(frozen=True, slots=True)
class Client:
    """The care of one client. `looked_at`: the schedule is dealt with up to this instant; `reported_at`: the charts are.

    `since` is when the first plan began. `serial` numbers sessions, offers and flags. `off_day`: no practice on this local
    date. `done` on `done_day`: bouts. `after` is the session whose carer has not yet said that all is well. Without `consent`
    nobody practises. `briefed` are the phones on which a carer went through the briefing, each with its version.
    `shared_phone`: the therapist allows the carer's screens on the client's phone. `carer_sees` is what the client allows, of
    "sessions", "flags", "words". `refused_at`: when the client declined the consent, or left. `goal` is in their own words.
    `duties` are the hours and deputies of the therapists who see to the client. From `discharged_at` on nobody is
    reminded and nobody practises, until a new plan opens it again. `whose_news`: what client and carer are still to
    hear, from `whose_news_at` on, of who sees to them. `listed_at`: up to when the therapist's list is right; from
    `runs` to `proposal`: see `recent.py`. `previous` is the plan before, `news` the reason of a change that client and
    carer have not been told yet, None if there is none. `plan_over`: the end of the plan was told.
    `sound_heard_at`: when tones were last found to be heard at this place, None: not yet, or no more. `short_words`: a set-up
    is a picture and one line. `own_media` is what therapists recorded for this client. `lower_since`:
    when the last sessions were first found to be among the lowest of the client's own. `first_review`, `last_review`: the local
    days on which a therapist measured.
    """

    id: ClientId
    name: str
    zone: str
    people: People
    looked_at: datetime
    reported_at: datetime
    plan: Plan | None = None
    since: datetime | None = None
    quiet: Quiet | None = None
    session: Session | None = None
    day: Day | None = None
    hold: Hold | None = None
    after: str | None = None
    joined: tuple[PersonId, ...] = ()
    serial: int = 0
    off_day: date | None = None
    done_day: date | None = None
    done: tuple[str, ...] = ()
    sessions: int = 0
    last_session_at: datetime | None = None
    flagged_since: bool = False
    past: tuple[Past, ...] = ()
    confident_at: date | None = None
    consent: Consent | None = None
    carer_sees: tuple[str, ...] = ()
    briefed: tuple[tuple[PersonId, str], ...] = ()
    shared_phone: bool = False
    asked_carer: CarerAsked | None = None
    baseline: Baseline | None = None
    cover: Cover | None = None
    runs: tuple[Run, ...] = ()
    blanks: tuple[Blank, ...] = ()
    slips: tuple[Slip, ...] = ()
    said: tuple[Said, ...] = ()
    proposal: Proposal | None = None
    listed_at: datetime | None = None
    refused_at: datetime | None = None
    pause: Pause | None = None
    writing: Writing | None = None
    goal: str = ""
    duties: tuple[Duty, ...] = ()
    discharged_at: datetime | None = None
    whose_news: str = ""
    whose_news_at: datetime | None = None
    previous: Plan | None = None
    news: str | None = None
    plan_over: bool = False
    tally: Tally = Tally()
    sound_heard_at: datetime | None = None
    short_words: bool = False
    own_media: tuple[OwnMedia, ...] = ()
    lower_since: datetime | None = None
    first_review: date | None = None
    last_review: date | None = None


def usual_signs(client: Client) -> tuple[str, ...]:
    """The signs that are usual for this client, so that only worse counts."""
    return client.baseline.deficits if client.baseline is not None else ()


def seeing(client: Client, at: datetime) -> tuple[PersonId, ...]:
    """The therapists who see to this client at `at`: their own, and whoever covers then."""
    cover = client.cover
    covering = (cover.by,) if cover is not None and cover.start <= at < cover.end else ()
    return (client.people.therapist, *covering)


def off_duty(client: Client, at: datetime) -> bool:
    """Whether every therapist who sees to this client has said that they do not work at `at`."""
    duties = {duty.by: duty for duty in client.duties}
    return all(by in duties and not at_work(duties[by], at) for by in seeing(client, at))


def watching(client: Client, at: datetime) -> tuple[PersonId, ...]:
    """Who is told of a red flag at once: the therapists who see to the client and, while they are off duty, their deputies."""
    therapists = seeing(client, at)
    deputies = [duty.deputy for duty in client.duties if duty.by in therapists and duty.deputy] if off_duty(client, at) else []
    return tuple(dict.fromkeys((*therapists, *deputies)))


def facts(client: Client) -> Facts:
    """What a therapist's phone is told of a client when a dialogue about them opens there."""
    people = client.people
    carer = (people.carer, people.name(people.carer)) if people.carer is not None else None
    contacts = tuple((contact, people.name(contact)) for contact in people.contacts)
    return Facts(
        client=client.id,
        name=client.name,
        zone=client.zone,
        plan=client.plan,
        baseline=replace(client.baseline, shared_phone=client.shared_phone) if client.baseline is not None else None,
        carer=carer[1] if carer is not None else None,
        cover=people.name(client.cover.by) if client.cover is not None else None,
        about=About(client.name, client.zone, client.quiet, carer, contacts),
        previous=client.previous,
        goal=client.goal,
    )

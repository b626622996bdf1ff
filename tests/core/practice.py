"""A small library of exercises, plans and people for the core's tests. All of it is invented."""

from dataclasses import replace
from datetime import UTC, datetime, time
from typing import Any

from companion.core.care import Client, Consent, People
from companion.core.programme import (
    AskAfter,
    CarerBriefing,
    Clock,
    ConsentWords,
    Exercise,
    Eyes,
    FlagRule,
    Form,
    Hand,
    Level,
    Measure,
    Place,
    Plan,
    Planned,
    Posture,
    Practice,
    ReportTime,
    Role,
    Rules,
    Sides,
    Stance,
    Topic,
)

MONDAY = datetime(2026, 11, 2, 8, 0, tzinfo=UTC)
"""08:00 on a Monday in London, where it is winter: local time is UTC."""
NINE = MONDAY.replace(hour=9)
ZONE = "Europe/London"
SIGNS = ("balance", "face", "chest")

CLIENT, CARER, THERAPIST, CONTACT, STRANGER = "c1", "k1", "t1", "x1", "nobody"
NAMES = ((CLIENT, "Ann"), (CARER, "Ben"), (THERAPIST, "Cleo"), (CONTACT, "Dov"))
PEOPLE = People(CLIENT, THERAPIST, CARER, (CONTACT,), NAMES)

HELD = (Hand.TWO_HANDS, Hand.ONE_HAND, Hand.FINGERTIPS, Hand.HOVERING, Hand.NONE)


def standing(name: str, stance: Stance, **more: Any) -> Form:
    """A standing form held for 60 s, with any hand support unless told otherwise."""
    told: dict[str, Any] = {"measure": Measure.TIMED, "target": 60, "hands": HELD} | more
    return Form(name, Posture.STANDING, stance, **told)


def claps(name: str, stance: Stance, **more: Any) -> Form:
    """A standing form of 3 claps, counted."""
    told: dict[str, Any] = {"counts": (3, 2, 1, 0), "hands": (Hand.ONE_HAND, Hand.FINGERTIPS), "needs_carer": True} | more
    return Form(name, Posture.STANDING, stance, Measure.COUNTED, 3, **told)


def seated(name: str, target: int = 10, measure: Measure = Measure.COUNTED) -> Form:
    """A seated form."""
    return Form(name, Posture.SEATED, Stance.SEATED, measure, target, hands=(Hand.ONE_HAND, Hand.NONE))


EXERCISES = {
    exercise.id: exercise
    for exercise in (
        Exercise("press", Role.WARM_UP, Sides.NONE, (seated("gentle"), seated("full")), "full", (Clock.NONE,)),
        Exercise(
            "together",
            Role.MAIN,
            Sides.NONE,
            (standing("apart", Stance.FEET_APART), standing("close", Stance.FEET_TOGETHER)),
            "close",
            (Clock.SCREEN, Clock.CARER, Clock.SOUND),
            (AskAfter.SWAY_AMOUNT,),
        ),
        Exercise(
            "tandem",
            Role.MAIN,
            Sides.FRONT_FOOT,
            (
                standing("half", Stance.HALF_STEP),
                standing("gap", Stance.HEEL_TO_TOE),
                standing("touching", Stance.HEEL_TO_TOE),
                standing("long", Stance.HEEL_TO_TOE, target=90, needs_carer=True),
            ),
            "touching",
            (Clock.SCREEN, Clock.CARER, Clock.SOUND),
            (AskAfter.STEADIER_SIDE,),
        ),
        Exercise(
            "dark",
            Role.MAIN,
            Sides.NONE,
            (
                standing("open", Stance.FEET_APART),
                standing("shut", Stance.FEET_APART, eyes=Eyes.CLOSED, needs_carer=True),
                standing("shut_close", Stance.FEET_TOGETHER, eyes=Eyes.CLOSED, needs_carer=True),
            ),
            "shut",
            (Clock.CARER, Clock.SOUND),
            (AskAfter.SWAY_DIRECTION, AskAfter.AGAINST_WARM_UP),
        ),
        Exercise(
            "toes",
            Role.MAIN,
            Sides.LEG,
            (
                claps("both", Stance.TWO_LEG_TOES),
                claps("flat", Stance.ONE_LEG),
                claps("up", Stance.ONE_LEG_TOES, needs_free_ankle=True),
                claps("up_clap", Stance.ONE_LEG_TOES, needs_free_ankle=True, needs_two_hands=True),
                claps("up_shut", Stance.ONE_LEG_TOES, needs_free_ankle=True, eyes=Eyes.CLOSED),
            ),
            "up",
            (Clock.NONE,),
        ),
        Exercise(
            "rise",
            Role.MAIN,
            Sides.NONE,
            (
                seated("lean"),
                Form("push", Posture.STANDING, Stance.FEET_APART, Measure.COUNTED, 5),
                Form("free", Posture.STANDING, Stance.FEET_APART, Measure.COUNTED, 5, hands=(Hand.HOVERING, Hand.NONE)),
            ),
            "push",
            (Clock.NONE,),
        ),
        Exercise("sit", Role.MAIN, Sides.NONE, (seated("tall", 30, Measure.TIMED),), "tall", (Clock.SCREEN, Clock.CARER)),
    )
}

BRIEFING = CarerBriefing(
    "1",
    (
        Topic("where", ("where-told",), "where-ask", ("front", "beside"), "beside", "where-wrong"),
        Topic("call", ("call-told", "call-more"), "call-ask", ("me", "chat", "nobody"), "me", "call-wrong"),
    ),
)

RULES = Rules(
    exercises=EXERCISES,
    signs=SIGNS,
    flags=(
        *(FlagRule(f"sign_{sign}", Level.EMERGENCY, frozenset({f"sign.{sign}"})) for sign in SIGNS),
        FlagRule("pressed_wrong", Level.EMERGENCY, frozenset({"pressed_wrong"})),
        FlagRule("still_down", Level.EMERGENCY, frozenset({"still_down"})),
        FlagRule("head_knock_blood_thinner", Level.EMERGENCY, frozenset({"head_knock", "blood_thinner"})),
        FlagRule("hurt", Level.URGENT, frozenset({"hurt"})),
        FlagRule("head_knock", Level.URGENT, frozenset({"head_knock"})),
        FlagRule("head_unsure", Level.URGENT, frozenset({"head_unsure"})),
        FlagRule("fall", Level.URGENT, frozenset({"fall"})),
        FlagRule("felt_unwell", Level.URGENT, frozenset({"felt_unwell"})),
        FlagRule("carer_different", Level.URGENT, frozenset({"carer_different"})),
    ),
    emergency_number="112",
    briefing=BRIEFING,
    consent=ConsentWords("second", (("consent-one", "consent-two"), ("consent-three", "consent-ask"))),
)


AGREED = Consent(RULES.consent.version, MONDAY)


def planned(exercise: str, **more: Any) -> Planned:
    """An exercise as planned: its usual form, hovering where it may be, nothing harder opened, its first clock."""
    known = EXERCISES[exercise]
    form = known.form(str(more.get("form", known.usual)))
    hand = Hand.HOVERING if Hand.HOVERING in form.hands else form.hands[0]
    told: dict[str, Any] = {"form": form.id, "target": form.target, "hand": hand, "clock": known.clocks[0]} | more
    told = {"hardest": told["form"], "hand_hardest": told["hand"]} | told
    return Planned(exercise, **told)


def plan(*items: Planned, **more: Any) -> Plan:
    """Weekdays at 09:00 local, the chart on Sunday at 18:00, nothing out of the ordinary unless told."""
    told: dict[str, Any] = {
        "practice": Practice((0, 1, 2, 3, 4), (time(9),)),
        "report": ReportTime(6, time(18), ZONE),
        "place": Place("worktop", "shoes"),
    } | more
    return Plan(1, items, **told)


def full_plan(**more: Any) -> Plan:
    """One of every kind: seated count, screen clock, two sides, the carer's clock with eyes closed, claps, a seated rung."""
    items = (
        planned("press"),
        planned("together", hand_hardest=Hand.NONE),
        planned("tandem", hardest="long", hand_hardest=Hand.NONE),
        planned("dark", hardest="shut_close"),
        planned("toes", hardest="up_clap"),
        planned("rise", hardest="free"),
        planned("sit"),
    )
    return plan(*items, **({"eyes_closed": True} | more))


def sound_plan(**more: Any) -> Plan:
    """By sound: open eyes, two sides with easier and harder forms, and closed eyes with a carer beside."""
    items = (
        planned("press"),
        planned("together", clock=Clock.SOUND),
        planned("tandem", clock=Clock.SOUND, hardest="long"),
        planned("dark", clock=Clock.SOUND),
    )
    return plan(*items, **({"eyes_closed": True} | more))


def client(of: Plan | None, **more: Any) -> Client:
    """A client on Monday at 08:00, everybody's phone in the chat, past the first three sessions, agreed, the carer briefed."""
    told: dict[str, Any] = {
        "people": PEOPLE,
        "joined": (CLIENT, CARER, THERAPIST, CONTACT),
        "briefed": ((CARER, BRIEFING.version),),
        "consent": AGREED,
        "sessions": 3,
        "last_session_at": MONDAY.replace(month=10, day=30),
        "looked_at": MONDAY,
        "reported_at": MONDAY,
    } | more
    return Client("c1", "Ann", plan=of, **({"zone": ZONE} | told))


def alone(**more: Any) -> dict[str, Any]:
    """For a client who has no carer."""
    return {"people": replace(PEOPLE, carer=None), "joined": (CLIENT, THERAPIST, CONTACT), **more}

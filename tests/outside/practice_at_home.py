"""A client with the plan and the content that are shipped, for checks of what the companion does against what is published."""

from dataclasses import replace
from typing import Any

from companion.content import enrolment, library
from companion.content.folders import content_dir, scenarios_dir
from companion.content.texts import Texts
from companion.core.care import Consent
from companion.core.effects import Say
from companion.core.events import Control
from companion.core.observations import FlagRaised
from companion.core.programme import Plan
from tests.core.home import Home
from tests.core.practice import CARER, CLIENT, MONDAY
from tests.core.practice import client as client_with

NUMBER = "000"
LIBRARY = library.load(content_dir())
TEXTS = Texts(content_dir() / "texts")
RULES = LIBRARY.rules(NUMBER)
PLAN: Plan = enrolment.load(scenarios_dir() / "people" / "fortnight.yaml", LIBRARY, TEXTS).clients[0].plan


def at_home(sessions: int = 9, **plan: Any) -> Home:
    """That client on a Monday morning, in their ninth session unless told otherwise."""
    agreed, briefed = Consent(RULES.consent.version, MONDAY), ((CARER, RULES.briefing.version),)
    return Home(client_with(replace(PLAN, **plan), sessions=sessions, consent=agreed, briefed=briefed), RULES)


def reminded(sessions: int = 9, **plan: Any) -> Home:
    """At the reminder, 10 o'clock."""
    home = at_home(sessions, **plan)
    home.until(MONDAY.replace(hour=10))
    return home


def started(sessions: int = 9, **plan: Any) -> Home:
    """The client has pressed Start: the safety check, at a glance unless it is one of the first sessions."""
    home = reminded(sessions, **plan)
    home.press(CLIENT, "start")
    return home


def after_a_hold(**plan: Any) -> Home:
    """The first timed hold is over and the client is asked how it went."""
    return started(**plan).check().reach(".how")


def fallen(**plan: Any) -> Home:
    """The client has pressed "I fell"."""
    home = at_home(**plan)
    home.row(CLIENT, Control.MORE)
    home.press(CLIENT, "fell")
    return home


def text(say: Say) -> str:
    """A message as it is read."""
    return "\n".join(TEXTS.text(line, "en") for line in say.words)


def said(home: Home, who: str) -> list[str]:
    """Everything that was said to somebody, as it is read."""
    return [text(say) for say in home.phone(who).said]


def flag(home: Home) -> FlagRaised:
    """The newest state of the red flag."""
    return home.all(FlagRaised)[-1]

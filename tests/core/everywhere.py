"""Every step at which a session can wait, each with a home in which it does: found by trying whatever can happen."""

from collections import deque
from collections.abc import Callable, Iterator
from functools import cache

from companion.core.events import Control
from companion.core.programme import CheckStyle
from companion.core.showing import sounding
from companion.core.steps import Ask, Counted, Gate, Script, Sounded, Timed
from tests.core.home import Home, home
from tests.core.practice import CARER, full_plan, sound_plan

Happening = Callable[[Home], object]


def everywhere(start: Home) -> dict[str, Home]:
    """By the id of the step: the first home found that waits there."""
    found: dict[tuple[str, bool, str], Home] = {}
    todo = deque([start])
    while todo:
        here = todo.popleft()
        if here.over:
            continue
        draft = here.session.draft
        place = here.at, draft is not None and draft.tapped_s is not None, str(here.session.heard)
        if place not in found:
            found[place] = here
            todo += [_then(here, happening) for happening in _happenings(here)]
    return {place[0]: found[place] for place in sorted(found, reverse=True)}


def waiting_ids(script: Script) -> set[str]:
    """The ids of all the steps of a script at which it can wait."""
    return {step.id for step in script.steps if isinstance(step, Ask | Counted | Gate | Sounded | Timed)}


def _happenings(here: Home) -> Iterator[Happening]:
    step = here.session.current
    if isinstance(step, Gate):
        yield Home.number
        yield _press(step.to, step.not_there.id)
        yield _press(step.to, step.different.id)
        yield _time_runs_out
    elif isinstance(step, Ask | Counted | Sounded):
        for choice in step.choices:
            yield _press(step.to, choice.id)
        if isinstance(step, Ask | Sounded) and step.lost is not None:
            yield Home.lose
        yield _leave if step.id.endswith(".set") else _time_runs_out
    elif isinstance(step, Timed):
        yield _time_runs_out
        yield lambda twin: twin.away(7200)
        if step.tap is not None:
            yield _press(step.to, step.tap.id)


def _press(by: str, choice: str) -> Happening:
    def pressed(twin: Home) -> None:
        while sounding(twin.session, twin.now):
            twin.wait(1)
        twin.press(by, choice)

    return pressed


def _leave(twin: Home) -> None:
    twin.row(CARER, Control.HAD_TO_LEAVE)


def _time_runs_out(twin: Home) -> None:
    twin.until(twin.wake)


def _then(here: Home, happening: Happening) -> Home:
    twin = here.copy()
    happening(twin)
    return twin


@cache
def full() -> dict[str, Home]:
    """Every waiting step of the full plan, with the check at one look and sign by sign."""
    one_look, sign_by_sign = home(full_plan()), home(full_plan(check=CheckStyle.SIGN_BY_SIGN))
    return everywhere(sign_by_sign.start()) | everywhere(one_look.start())


@cache
def by_sound() -> dict[str, Home]:
    """Every waiting step of the plan by sound."""
    return everywhere(home(sound_plan()).start())

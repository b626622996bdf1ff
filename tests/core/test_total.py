"""The core is total: 100,000 events of every kind, fitting or not, and it never raises nor reaches a senseless state."""

import random
from datetime import timedelta

import pytest

from companion.core import client as care
from companion.core.care import Client
from companion.core.cursor import Session
from companion.core.steps import Ask, Counted, Gate, Sounded, Timed
from tests.core import lives
from tests.core.home import Home, home
from tests.core.lives import Choose
from tests.core.practice import RULES, full_plan, sound_plan

EVENTS = 100_000
A_LIFE = 100
PARTS = 10


@pytest.mark.parametrize("part", range(PARTS))
def test_the_core_never_raises_and_its_states_always_make_sense(part: int) -> None:
    chance = random.Random(part)
    choose = Choose(lambda options: options[int(chance.random() * len(options))])
    happenings, weights = zip(*lives.SHARES, strict=True)
    sessions = 0
    for life in range(EVENTS // PARTS // A_LIFE):
        it = lives.any_home(choose, judged=False) if life % 2 else in_a_session(choose)
        events = 0
        while events < A_LIFE:
            (what,) = chance.choices(happenings, weights)
            back = 4000 if chance.random() < 0.01 else 0  # the machine's clock was set back
            it.now += timedelta(seconds=int(chance.random() * 20) - back)
            if what is lives.an_alarm:
                lives.time_passes(it, choose)
            event = what(it, choose)
            if event is not None:
                it.do(event)
                events += 1
                assert_makes_sense(it.client)
                sessions += it.client.session is not None
    assert sessions > EVENTS // PARTS // 7, "too little of it happened in a session"


def in_a_session(choose: Choose) -> Home:
    more = {name: choose.flag() for name in ("one_good_hand", "ankle_blocked", "eyes_closed", "blood_thinner")}
    of = choose.of((full_plan, full_plan, sound_plan))
    it = home(of(**more)).start().check()
    it.laws = None
    return it


def assert_makes_sense(client: Client) -> None:
    """What must be true of any client that is stored."""
    assert client.session is None or client.hold is None
    plan = client.plan
    due = plan is not None and plan.practice.weekdays and plan.ends_on is None and client.discharged_at is None
    assert not due or care.wake_at(client, RULES) is not None
    assert client.serial >= 0 and len(client.past) <= 20 and len(set(client.joined)) == len(client.joined)
    assert 0 <= care.wake_class(client) <= 2 and care.phases(client)
    assert all(running.seconds > 0 and running.began is not None for running in care.countdowns(client, RULES))
    if client.session is not None:
        assert_session_makes_sense(client.session)


def assert_session_makes_sense(session: Session) -> None:
    step = session.current
    assert session.outcome is None and isinstance(step, Ask | Counted | Gate | Sounded | Timed)
    assert set(session.done) <= set(session.script.bouts) and session.nudged in (0, 1, 2)
    assert (session.draft is not None) or session.clock_began is None or not isinstance(step, Timed) or step.bout is None
    assert session.draft is None or session.draft.spec.key in session.script.bouts

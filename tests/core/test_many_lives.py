"""10,000 random lives: any plan, any home, with and without consent, and the laws of `laws.py` hold in each."""

import random
from datetime import timedelta

import pytest

from tests.core import lives
from tests.core.lives import Choose

LIVES = 10_000
PARTS = 20
EVENTS = 15


@pytest.mark.parametrize("part", range(PARTS))
def test_the_laws_hold_in_each_of_many_lives(part: int) -> None:
    chance = random.Random(f"many lives {part}")
    choose = Choose(lambda options: options[int(chance.random() * len(options))])
    happenings, weights = zip(*lives.SHARES, strict=True)
    agreed = practised = 0
    for _ in range(LIVES // PARTS):
        it = lives.any_home(choose)
        events = 0
        while events < EVENTS:
            (what,) = chance.choices(happenings, weights)
            it.now += timedelta(seconds=1 + int(chance.random() * 20))
            if what is lives.an_alarm:
                lives.time_passes(it, choose)
            event = what(it, choose)
            if event is not None:
                it.do(event)
                events += 1
        agreed += it.client.consent is not None
        practised += it.client.serial > 0
    # else the laws were never put to the test
    assert 0 < agreed < LIVES // PARTS and practised > LIVES // PARTS // 4

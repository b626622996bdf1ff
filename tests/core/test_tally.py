"""What a client's practice amounts to: counted as recorded, a fall by its newest word, a second fall as a second one."""

from companion.core.care import Tally
from companion.core.observations import FallKind, FallReported, Quality
from companion.core.tally import counted
from tests.core.home import home
from tests.core.practice import MONDAY, plan, planned


def fall(kind: FallKind, flag: str = "f1") -> FallReported:
    return FallReported(MONDAY, flag, kind, "c1")


def test_a_fall_counts_once_by_its_newest_word_and_a_second_one_apart() -> None:
    said = (fall(FallKind.UNKNOWN), fall(FallKind.FALL), fall(FallKind.NEAR_FALL), fall(FallKind.UNKNOWN))
    assert counted(Tally(), said).falls == (("f1", FallKind.NEAR_FALL), ("f1", FallKind.UNKNOWN))
    later = counted(counted(Tally(), said), (fall(FallKind.UNKNOWN, "f7"), fall(FallKind.FALL, "f7")))
    assert [kind for _, kind in later.falls] == [FallKind.NEAR_FALL, FallKind.UNKNOWN, FallKind.FALL]


def test_a_session_and_its_bouts_are_counted_as_they_were_reported() -> None:
    it = home(plan(planned("press"), planned("together"))).start().check().finish()
    count = dict(it.client.tally.counts)
    assert count["session.done"] == 1 == len(it.ended)
    for exercise in ("press", "together"):
        bouts = [bout for bout in it.bouts if bout.exercise == exercise]
        assert count[f"bout.{exercise}"] == len(bouts)
        assert count.get(f"clean.{exercise}", 0) == sum(bout.quality is Quality.CLEAN for bout in bouts)

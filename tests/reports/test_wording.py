"""The chart's small words: nothing on record lacks one, and times are local."""

from dataclasses import replace
from datetime import UTC, date, datetime
from enum import StrEnum

import pytest

from companion.content.texts import key_of
from companion.core.observations import CarerSeen, FallKind, Reporter
from companion.core.person import Part
from companion.core.programme import Hand, Level, Side, Stance
from companion.measures.due import State
from companion.reports.breaks import FirstBreak
from tests.reports.samples import TEXTS, wording
from tests.reports.weeks import week


@pytest.mark.parametrize(
    ("prefix", "members"),
    [
        ("state", State),
        ("stance", Stance),
        ("hand", Hand),
        ("side", Side),
        ("level", Level),
        ("fall", FallKind),
        ("carer", CarerSeen),
        ("break", FirstBreak),
        ("by", Part),
        ("words-by", Reporter),
    ],
)
@pytest.mark.parametrize("language", TEXTS.languages)
def test_everything_that_can_be_on_record_has_a_word(prefix: str, members: type[StrEnum], language: str) -> None:
    keys = TEXTS.keys(language)
    assert [member for member in members if key_of("report", prefix, member) not in keys] == []


def test_a_moment_is_local_and_leaves_out_a_day_that_was_just_said() -> None:
    said = wording(week())
    before, after = datetime(2026, 10, 24, 23, 30, tzinfo=UTC), datetime(2026, 10, 25, 9, 5, tzinfo=UTC)
    # 23:30 UTC is after midnight in summer time; the clocks go back that night
    assert said.moment(before) == "Sun 25 Oct 00:30"
    assert said.moment(after, before) == "09:05"


def test_a_name_the_library_no_longer_has_is_told_by_its_id() -> None:
    assert wording(week())._named("ex-an-exercise-of-long-ago", "an_exercise_of_long_ago") == "an exercise of long ago"
    assert wording(week())._named("ex-one-leg", "one_leg") == "One leg"


def test_a_week_over_new_year_names_its_iso_week_and_the_year_it_ends_in() -> None:
    shown = replace(week(), first=date(2026, 12, 28), last=date(2027, 1, 3))
    assert wording(shown).span(shown) == "Week 53: Mon 28 Dec to Sun 3 Jan 2027"

"""Right of access (ICO guidance): a copy is due in a month, on the day of the same number in the next month.

Where there is no such day, on the last of that month; from a weekend on to the next working day.
"""

from datetime import date, timedelta

import pytest

from companion.cli.export import due_by


def test_asked_for_on_3_september_it_is_due_on_3_october() -> None:
    assert due_by(date(2025, 9, 3)) == date(2025, 10, 3)


@pytest.mark.parametrize(("year", "due"), [(2025, date(2025, 2, 28)), (2024, date(2024, 2, 29))])
def test_asked_for_on_30_january_it_is_due_on_the_last_of_february(year: int, due: date) -> None:
    assert due_by(date(year, 1, 30)) == due


def test_the_end_of_a_month_on_a_weekend_rolls_on_to_monday() -> None:
    assert due_by(date(2026, 1, 30)) == date(2026, 3, 2)  # 28 February 2026 is a Saturday
    assert due_by(date(2027, 1, 31)) == date(2027, 3, 1)  # 28 February 2027 is a Sunday


def test_asked_for_in_december_it_is_due_in_january() -> None:
    assert due_by(date(2025, 12, 31)) == date(2026, 2, 2)  # 31 January 2026 is a Saturday


def test_on_every_day_of_four_years_it_is_due_on_a_working_day_in_28_to_33_days() -> None:
    for number in range(4 * 365 + 1):
        asked = date(2024, 1, 1) + timedelta(days=number)
        due = due_by(asked)
        assert due.weekday() < 5 and 28 <= (due - asked).days <= 33, asked

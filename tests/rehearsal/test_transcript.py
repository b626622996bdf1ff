"""The transcript: phones side by side, edits marked, presses and buttons shown, times local."""

from datetime import UTC, datetime, timedelta
from typing import Any

from companion.rehearsal.messages import Note, Shown
from companion.rehearsal.server import Entry
from companion.rehearsal.transcript import Column, Page, transcript

START = datetime(2026, 7, 6, 9, 0, tzinfo=UTC)
COLUMNS = (Column("olga", "Olga (client)"), Column("carl", "Carl (carer)"), Column("rita", "Rita (next contact)", always=False))
PAGE = Page("A title", "About it. All invented.", "Europe/London", COLUMNS)


def shown(person: str, seconds: int, way: Any, kind: Any, text: str, **how: Any) -> Shown:
    told = how.pop("told", None)
    return Shown(Entry(START + timedelta(seconds=seconds), 1, way, kind, text, **how), person, file=told)


def rows(*record: Shown | Note) -> list[str]:
    """The rows of the first day, without heading and rules."""
    lines = transcript(PAGE, record).split("```text\n")[1].split("\n```")[0].split("\n")
    assert set(lines[1]) == set(lines[-1]) == {"-", "+"}
    return lines[2:-1]


def cells(row: str) -> list[str]:
    return [cell.strip() for cell in row.split("|")]


def test_it_opens_with_what_it_is_about_and_how_to_read_it() -> None:
    text = transcript(PAGE, [shown("olga", 0, "out", "text", "Hello")])
    assert text.startswith("# A title\n\nAbout it. All invented.\n\nTimes are local (Europe/London). `*` new message")
    assert "## Monday 6 July 2026" in text


def test_times_are_local() -> None:
    assert cells(rows(shown("olga", 5, "out", "text", "Hello"))[0])[0] == "10:00:05"


def test_a_day_begins_at_local_midnight() -> None:
    to_midnight = 14 * 3600
    text = transcript(PAGE, [shown("olga", at, "out", "text", "Hello") for at in (to_midnight - 1, to_midnight)])
    assert [line for line in text.splitlines() if line.startswith("## ")] == ["## Monday 6 July 2026", "## Tuesday 7 July 2026"]


def test_what_comes_at_one_moment_stands_side_by_side() -> None:
    told = rows(shown("olga", 0, "out", "text", "For you"), shown("carl", 0, "out", "text", "For him"))
    assert [cells(row) for row in told] == [["10:00:00", "* For you", "* For him"]]


def test_what_a_person_does_stands_above_what_follows_from_it() -> None:
    told = rows(
        shown("olga", 0, "in", "press", "Ready"), shown("carl", 0, "out", "text", "Now"), shown("olga", 0, "out", "text", "Go")
    )
    assert [cells(row)[1:] for row in told] == [["> [Ready]", ""], ["* Go", "* Now"]]


def test_a_second_message_on_the_same_phone_stands_below_the_first() -> None:
    told = rows(shown("olga", 0, "out", "text", "One"), shown("olga", 0, "out", "text", "Two"))
    assert [cells(row)[1] for row in told] == ["* One", "* Two"]


def test_each_kind_has_its_mark() -> None:
    record = [
        shown("olga", 0, "out", "text", "New"),
        shown("olga", 1, "out", "edit", "Changed", silent=True),
        shown("olga", 2, "out", "text", "Quiet", silent=True),
        shown("olga", 3, "in", "text", "typed"),
        shown("olga", 4, "out", "toast", "Noted.", silent=True),
        shown("olga", 5, "out", "delete", "New", silent=True),
        shown("olga", 6, "out", "photo", "The week", file=b"png", told="chart-1.png"),
        shown("olga", 7, "in", "voice", "", file=b"Ogg", told="voice note 0:03"),
        shown("olga", 8, "in", "photo", "My chair", file=b"PNG", told="picture"),
    ]
    assert [cells(row)[1] for row in rows(*record)] == [
        "* New",
        "~ Changed",
        "*.Quiet",
        '> "typed"',
        "( Noted. )",
        "~ (deleted)",
        "* [chart-1.png]",
        "The week",
        "> [voice note 0:03]",
        "> [picture]",
        '"My chair"',
    ]


def test_buttons_are_shown_and_the_fixed_row_is_marked() -> None:
    told = rows(
        shown("olga", 0, "out", "text", "Q", buttons=(("One",), ("Two",))),
        shown("olga", 1, "out", "text", "Hello", buttons=(("Wrong",), ("Enough", "More"))),
    )
    assert [cells(row)[1] for row in told] == ["* Q", "[One] [Two]", "* Hello", "=Wrong= =Enough= =More="]


def test_no_cell_is_wider_than_its_column() -> None:
    long = "a label that is so long that it does not fit into one line of any column"
    text = transcript(PAGE, [shown("olga", 0, "out", "text", long, buttons=((long,), ("Short",)))])
    block = text.split("```text\n")[1].split("\n```")[0].split("\n")
    bars = {tuple(place for place, letter in enumerate(row) if letter in "|+") for row in block}
    assert len(bars) == 1
    assert all(len(row) <= 116 for row in block)


def test_a_card_that_lost_its_buttons_is_not_told_again() -> None:
    first = shown("olga", 0, "out", "text", "Q", buttons=(("One",),), message_id=7)
    told = rows(first, shown("olga", 1, "out", "edit", "Q", message_id=7))
    assert cells(told[-1])[1] == "~ (the buttons are gone)"


FEET, PLACE = {"file": b"feet", "told": "picture: two feet"}, {"file": b"place", "told": "picture: a worktop"}


def test_what_a_picture_shows_stands_above_its_caption() -> None:
    told = rows(shown("olga", 0, "out", "photo", "Feet together.", message_id=7, buttons=(("Ready",),), **FEET))
    assert [cells(row)[1] for row in told] == ["* [picture: two feet]", "Feet together.", "[Ready]"]


def test_a_picture_that_stays_under_changed_words_is_not_told_again() -> None:
    record = [
        shown("olga", 0, "out", "photo", "Feet together.", message_id=7, **FEET),
        shown("olga", 4, "out", "edit", "Stand still.", message_id=7, **FEET),
        shown("olga", 8, "out", "edit", "Stand still.", message_id=7, **PLACE),
        shown("olga", 9, "out", "photo", "Again.", message_id=8, **FEET),
    ]
    assert [cells(row)[1] for row in rows(*record)[2:]] == [
        "~ Stand still.",
        "~ [picture: a worktop]",
        "Stand still.",
        "* [picture: two feet]",
        "Again.",
    ]


def test_a_picture_is_told_in_full_once_on_each_phone_and_then_by_its_beginning() -> None:
    feet = {"file": b"feet", "told": "picture: You stand. Feet close. Hand on it. Eyes closed. Chair there. Helper there."}
    record = [
        shown("olga", 0, "out", "photo", "One.", message_id=7, **feet),
        shown("olga", 4, "out", "photo", "Two.", message_id=8, **feet),
        shown("carl", 5, "out", "photo", "Look.", message_id=9, **feet),
    ]
    text = " ".join(cell for row in rows(*record) for cell in cells(row)[1:] if cell)
    assert text == (
        "* [picture: You stand. Feet close. Hand on it. Eyes closed. Chair there. Helper there.] One. "
        "* [picture: You stand. Feet close. Hand on it. Eyes closed. Chair there. ...] Two. "
        "* [picture: You stand. Feet close. Hand on it. Eyes closed. Chair there. Helper there.] Look."
    )


def test_a_card_that_lost_its_buttons_and_got_a_picture_is_told() -> None:
    first = shown("olga", 0, "out", "text", "Q", buttons=(("One",),), message_id=7)
    told = rows(first, shown("olga", 1, "out", "edit", "Q", message_id=7, **FEET))
    assert [cells(row)[1] for row in told[-2:]] == ["~ [picture: two feet]", "Q"]


def test_a_clock_under_another_picture_is_another_clock() -> None:
    record = [
        shown("olga", 0, "out", "photo", "Go. 30 seconds.", message_id=7, **FEET),
        shown("olga", 5, "out", "edit", "25 seconds left.", message_id=7, **FEET),
        shown("olga", 10, "out", "edit", "20 seconds left.", message_id=7, **PLACE),
    ]
    assert [cells(row)[1] for row in rows(*record)[2:]] == [
        "~ 25 seconds left.",
        "~ [picture: a worktop]",
        "20 seconds left.",
    ]


def test_a_running_clock_is_told_in_one_line_where_it_began() -> None:
    record = [
        shown("olga", 0, "out", "edit", "Go. 30 seconds.", message_id=7),
        shown("olga", 5, "out", "edit", "25 seconds left.", message_id=7),
        shown("olga", 10, "out", "edit", "20 seconds left.", message_id=7),
        shown("carl", 12, "in", "press", "Step"),
        shown("olga", 15, "out", "edit", "15 seconds left.", message_id=7),
        shown("olga", 30, "out", "text", "Time.", message_id=8),
    ]
    told = [cells(row) for row in rows(*record)]
    assert [row[1] for row in told] == ["~ Go. 30 seconds.", "~ 25, 20, 15 seconds left.", "", "* Time."]
    assert told[2][2] == "> [Step]"


def test_a_clock_that_lost_its_button_is_not_told_again() -> None:
    record = [
        shown("olga", 0, "out", "text", "10 seconds.", message_id=7, buttons=(("Step",),)),
        shown("olga", 5, "out", "edit", "5 seconds.", message_id=7, buttons=(("Step",),)),
        shown("olga", 10, "out", "text", "Time.", message_id=8),
        shown("olga", 10, "out", "edit", "5 seconds.", message_id=7),
    ]
    assert cells(rows(*record)[-1])[1] == "~ (the buttons are gone)"


def test_two_clocks_are_two_lines() -> None:
    record = [
        shown("olga", 0, "out", "edit", "10 seconds.", message_id=7),
        shown("olga", 5, "out", "edit", "5 seconds.", message_id=7),
        shown("olga", 10, "out", "edit", "Go. 30 seconds.", message_id=7),
        shown("olga", 15, "out", "edit", "25 seconds left.", message_id=7),
    ]
    assert [cells(row)[1] for row in rows(*record)] == [
        "~ 10 seconds.",
        "~ 5 seconds.",
        "~ Go. 30 seconds.",
        "~ 25 seconds left.",
    ]


def test_what_no_phone_shows_runs_across() -> None:
    told = rows(shown("olga", 0, "out", "text", "Go"), Note(START + timedelta(seconds=9), "the power is cut"))
    assert told[-1] == "10:00:09 | --- the power is cut ---"


def test_a_contacts_phone_is_there_on_days_on_which_it_shows_something() -> None:
    quiet = transcript(PAGE, [shown("olga", 0, "out", "text", "Hello")])
    told = transcript(PAGE, [shown("olga", 0, "out", "text", "Hello"), shown("rita", 1, "out", "text", "Alert")])
    assert "Rita" not in quiet and "Carl" in quiet
    assert "Rita (next contact)" in told

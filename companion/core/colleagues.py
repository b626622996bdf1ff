"""Choosing among the other therapists on this bot, a page at a time: for a hand-over, a cover, a deputy.

A button carries the place in the whole list, so that one of a page that stood there before chooses nobody else.
"""

from companion.core.effects import Words, words
from companion.core.events import Entry, Found

Choices = list[tuple[str | Words, str]]
PAGE = 8


def others(found: Found, me: str) -> Choices:
    """The colleagues of this page as choices, and the next page if there is one."""
    names: Choices = [
        (words("b-colleague", name=entry.name), f"n{place}")
        for place, entry in enumerate(found.entries, start=found.first)
        if entry.id != me
    ]
    last = found.first + len(found.entries)
    return [*names, ("b-colleague-next", f"p{last}")] if found.entries and last < found.total else names


def chosen(choice: str, first: int, entries: tuple[Entry, ...]) -> Entry | None:
    """The colleague of that choice, if they stand on the page that begins at `first`."""
    place = place_in(choice, "n")
    return entries[place - first] if place is not None and first <= place < first + len(entries) else None


def page(choice: str) -> int | None:
    """Where the page begins that a choice asks for; None if it asks for none."""
    return place_in(choice, "p")


def place_in(choice: str, letter: str) -> int | None:
    """The number after that letter; None for anything else."""
    number = choice.removeprefix(letter)
    return int(number) if number != choice and number.isascii() and number.isdecimal() and len(number) < 6 else None

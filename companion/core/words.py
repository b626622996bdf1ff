"""Words by key: what is said, before it is put into a language."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Words:
    """A text of `content/texts` by key (a Fluent message, or message.attribute), with its parameters.

    A parameter that is itself `Words` is rendered first. Numbers are passed as strings.
    """

    key: str
    params: tuple[tuple[str, "str | Words"], ...] = ()


def words(key: str, **params: "str | int | Words") -> Words:
    """`Words` with parameters as keywords; numbers become digits."""
    return Words(key, tuple((name, str(value) if isinstance(value, int) else value) for name, value in params.items()))

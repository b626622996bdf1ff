"""consent.yaml: what a client is asked to agree to, screen by screen, and the version of these words."""

from pydantic import Field

from companion.content.yaml_lines import Line, Shape
from companion.core.programme import ConsentWords


class ConsentShape(Shape):
    """The whole file: keys of texts."""

    version: Line
    screens: tuple[tuple[Line, ...], ...] = Field(min_length=1)

    def core(self) -> ConsentWords:
        """The consent as a value."""
        return ConsentWords(self.version, self.screens)


def keys(consent: ConsentWords) -> frozenset[str]:
    """The texts that the consent asks for."""
    return frozenset(key for screen in consent.screens for key in screen)

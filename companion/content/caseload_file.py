"""caseload.yaml: from when a client stands on the therapist's list as somebody who needs a look."""

from pydantic import Field

from companion.content.yaml_lines import Line, Shape, Whole
from companion.core.programme import Listing


class CaseloadShape(Shape):
    """The whole file. Days."""

    silent_days: Whole = Field(ge=1, le=60)
    silent_source: Line
    window_days: Whole = Field(ge=7, le=28)
    window_source: Line
    fall_days: Whole = Field(ge=1, le=90)
    fall_source: Line

    def core(self) -> Listing:
        """The values of the core."""
        return Listing(self.silent_days, self.window_days, self.fall_days)

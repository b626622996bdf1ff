"""carer_briefing.yaml: what a carer is told before the first session, topic by topic, each with a check question."""

from collections.abc import Iterator

from pydantic import Field

from companion.content.yaml_lines import Id, Line, Page, Shape
from companion.core.programme import CarerBriefing, Topic
from companion.errors import Fault

NEEDED = ("where", "hold", "say", "stop", "fall", "call")
"""No briefing is whole without these, whatever a service adds: where to stand, what to hold, what to say aloud, when to stop,
what to do after a fall, when to call."""


class TopicShape(Shape):
    """One topic: keys of texts."""

    id: Id
    tell: tuple[Line, ...] = Field(min_length=1, max_length=3)
    ask: Line
    choices: tuple[Line, ...] = Field(min_length=2, max_length=3)
    right: Line
    wrong: Line


class BriefingShape(Shape):
    """The whole file. Carers read it again when `version` changes."""

    version: Line
    topics: tuple[TopicShape, ...]

    def core(self) -> CarerBriefing:
        """The briefing as a value."""
        topics = (Topic(one.id, one.tell, one.ask, one.choices, one.right, one.wrong) for one in self.topics)
        return CarerBriefing(self.version, tuple(topics))


def keys(briefing: CarerBriefing) -> frozenset[str]:
    """The texts that the briefing asks for."""
    return frozenset(key for one in briefing.topics for key in (*one.tell, one.ask, *one.choices, one.wrong))


def faults(page: Page, file: BriefingShape) -> Iterator[Fault]:
    """A topic missing or twice, a choice twice, a right answer that is no choice."""
    ids = [topic.id for topic in file.topics]
    for needed in NEEDED:
        if needed not in ids:
            yield page.fault(("topics",), f'there is no topic "{needed}"', f"Write it; needed are {', '.join(NEEDED)}")
    for place, topic in enumerate(file.topics):
        if topic.id in ids[:place]:
            yield page.fault(("topics", place, "id"), f'the topic "{topic.id}" is here twice', "Name one of them anew")
        if len(set(topic.choices)) < len(topic.choices):
            yield page.fault(("topics", place, "choices"), "a choice is here twice", "Take one of them out")
        if topic.right not in topic.choices:
            do = f"Use {', '.join(topic.choices)}"
            yield page.fault(("topics", place, "right"), f'"{topic.right}" is not one of the choices', do)

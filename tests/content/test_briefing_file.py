"""The carer's briefing as it is shipped is whole and answers itself; what is broken in it is told with line and remedy."""

from pathlib import Path

import pytest

from companion.content import library
from companion.content.briefing_file import NEEDED, keys
from companion.content.library import Library
from companion.content.texts import Texts
from companion.core.effects import words
from companion.errors import FoundWrong

FILE = "carer_briefing.yaml"


def told(texts: Texts, key: str) -> str:
    return texts.text(words(key, number="000"), "en")


def test_the_shipped_briefing_has_every_topic_that_no_briefing_may_lack(shipped: Library) -> None:
    briefing = shipped.without_number.briefing
    assert [topic.id for topic in briefing.topics] == list(NEEDED) and briefing.version


def test_every_text_it_names_is_written_and_needs_nothing_but_the_number_to_call(shipped: Library, texts: Texts) -> None:
    for key in keys(shipped.without_number.briefing):
        assert texts.parameters(key, "en") <= {"number"} and told(texts, key)


def test_where_the_right_answer_stands_gives_nothing_away(shipped: Library) -> None:
    places = [topic.choices.index(topic.right) for topic in shipped.without_number.briefing.topics]
    assert {places.count(place) for place in range(3)} == {2}


def test_what_is_said_to_a_wrong_answer_is_kind_and_explains(shipped: Library, texts: Texts) -> None:
    for topic in shipped.without_number.briefing.topics:
        said = told(texts, topic.wrong)
        assert said.startswith("Not quite.") and "?" not in said and len(said.split()) > 8
        assert told(texts, topic.ask).count("?") == 1


def test_the_emergency_number_is_this_services_own(shipped: Library, texts: Texts) -> None:
    call = next(topic for topic in shipped.without_number.briefing.topics if topic.id == "call")
    assert all("000" in told(texts, key) for key in (call.tell[0], call.ask, call.wrong))


@pytest.mark.parametrize(
    ("old", "new", "what", "do"),
    [
        ("right: b-briefing-where-weaker", "right: b-briefing-where-weak", "is not one of the choices", "b-briefing-where-far"),
        ("  - id: hold", "  - id: where", 'the topic "where" is here twice', "Name one of them anew"),
        ("  - id: call", "  - id: phone", 'there is no topic "call"', "Write it"),
        ("b-briefing-hold-weak, b-briefing-hold-good]", "b-briefing-hold-phone]", "a choice is here twice", "Take one"),
        ("[b-briefing-hold-phone, b-briefing-hold-weak, b-briefing-hold-good]", "[b-briefing-hold-phone]", "2 or more", "Add"),
        ('version: "2"', "version: 2", '"version" must be text', "quotes"),
        ("    wrong: briefing-hold-wrong\n", "", '"wrong" is missing', "Add it"),
    ],
)
def test_a_broken_briefing_is_told_with_line_and_remedy(copy: Path, old: str, new: str, what: str, do: str) -> None:
    path = copy / FILE
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")
    with pytest.raises(FoundWrong) as found:
        library.load(copy)
    faults = [fault for fault in found.value.faults if what in fault.what and do in fault.do]
    assert faults and faults[0].where.endswith(FILE) and faults[0].line, str(found.value)

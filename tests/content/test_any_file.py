"""Whatever a file says, the answer is a value or faults; nothing else ever comes out of the readers."""

import re
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from companion.content import enrolment, library
from companion.content.enrolment import Enrolment
from companion.content.folders import content_dir, scenarios_dir
from companion.content.library import Library
from companion.content.texts import Texts
from companion.errors import FoundWrong

LIBRARY = library.load(content_dir())
TEXTS = Texts(content_dir() / "texts")
ENROLMENT = (scenarios_dir() / "people" / "fortnight.yaml").read_text(encoding="utf-8")
WORDS = re.compile(r"[A-Za-z0-9_./]+")
ODD = st.sampled_from(
    ["", "no", "yes", "~", "0", "-1", "9" * 30, "1.5", "[]", "{}", "[1, 2]", "{a: 1}", '""', "carer", "none", "two_hands",
     "toes_clap", "shut_clap", "sound", "closed", "x" * 300, "2026-11-03", "12:99", "\\u0000", "&a", "*a", "!!python/x", "é"]
)  # fmt: skip


@st.composite
def changed(draw: st.DrawFn, text: str) -> str:
    """The text with some of its words replaced, and sometimes a line left out, moved in or doubled."""
    for _ in range(draw(st.integers(1, 3))):
        found = draw(st.sampled_from(list(WORDS.finditer(text))))
        text = text[: found.start()] + draw(ODD) + text[found.end() :]
    lines = text.splitlines()
    at = draw(st.integers(0, len(lines) - 1))
    lines[at : at + 1] = draw(st.sampled_from([[lines[at]], [], [f"  {lines[at]}"], [lines[at]] * 2]))
    return "\n".join(lines)


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(changed(ENROLMENT))
def test_any_enrolment_file_gives_people_or_faults(tmp_path: Path, text: str) -> None:
    path = tmp_path / "people.yaml"
    path.write_text(text, encoding="utf-8")
    try:
        found: Enrolment | None = enrolment.load(path, LIBRARY, TEXTS)
        faults = []
    except FoundWrong as wrong:
        faults = list(wrong.faults)
        found = None
    assert found is None or found.clients
    assert all(fault.what and fault.do and fault.where.endswith("people.yaml") for fault in faults)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_any_content_file_gives_a_library_or_faults(tmp_path: Path, data: st.DataObject) -> None:
    folder = tmp_path / "content"
    names = ["safety.yaml", "red_flags.yaml", "progression.yaml", "caseload.yaml", "carer_briefing.yaml"]
    names.append("exercises/one_leg_toes.yaml")
    name = data.draw(st.sampled_from(names))
    for one in names:
        text = (content_dir() / one).read_text(encoding="utf-8")
        (folder / one).parent.mkdir(parents=True, exist_ok=True)
        (folder / one).write_text(data.draw(changed(text)) if one == name else text, encoding="utf-8")
    try:
        found: Library | None = library.load(folder)
        faults = []
    except FoundWrong as wrong:
        faults = list(wrong.faults)
        found = None
    assert found is None or found.rules("000").flags
    assert all(fault.what and fault.do for fault in faults)

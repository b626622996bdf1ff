"""The table of controls in DEVELOPERS.md: each control, the line that switches it off, and the test that then fails."""

from companion.content import hazard_file
from companion.content.folders import content_dir
from tests.hazards.switching import ROOT, Switch, switches

PAGE = ROOT / "DEVELOPERS.md"
BEGIN, END = "<!-- controls -->\n", "<!-- /controls -->"
FEWEST_WORDS = 3
HEAD = ("| control | switched off by | test that then fails |", "| --- | --- | --- |")


def controls() -> dict[str, hazard_file.ControlShape]:
    """The controls of the hazard file, by id, in its order."""
    return {control.id: control for hazard in hazard_file.load(content_dir()).hazards for control in hazard.controls}


def controls_table() -> str:
    """The table as it ought to be."""
    off = switches()
    rows = (
        f"| `{id}`: {_cell(one.what)} | `{off[id].file}`: {_change(off[id])} | `{one.proof}` |"
        for id, one in controls().items()
    )
    return "\n".join((*HEAD, *rows)) + "\n"


def table_in_page() -> str:
    """The table as it stands in DEVELOPERS.md."""
    return PAGE.read_text(encoding="utf-8").split(BEGIN)[1].split(END)[0]


def renew() -> None:
    """Put the table as it ought to be into DEVELOPERS.md."""
    before, behind = PAGE.read_text(encoding="utf-8").split(BEGIN)
    PAGE.write_text(f"{before}{BEGIN}{controls_table()}{END}{behind.split(END)[1]}", encoding="utf-8")


def _change(switch: Switch) -> str:
    """What is replaced by what, without the words in which the two begin and end alike."""
    old, new = switch.old.split(), switch.new.split()
    shared = min(len(old), len(new))
    before = next((at for at in range(shared) if old[at] != new[at]), shared)
    rest = shared - before
    behind = next((at for at in range(rest) if old[-1 - at] != new[-1 - at]), rest)
    if len(old) - behind - before < FEWEST_WORDS:  # too little to know the place again
        before = max(0, before - FEWEST_WORDS)
        behind = behind if before + behind < len(old) else 0
    was, now = old[before : len(old) - behind], new[before : len(new) - behind]
    return f"{_code(was)} becomes {_code(now)}" if now else f"{_code(was)} goes"


def _code(parts: list[str]) -> str:
    return f"`{_cell(' '.join(parts))}`"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")

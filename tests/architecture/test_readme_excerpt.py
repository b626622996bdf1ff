"""What the README shows was really said: its excerpt stands word for word in the transcript that tests compare."""

from tests.architecture.sources import ROOT


def test_the_excerpt_in_the_readme_stands_in_the_fortnights_transcript() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    excerpt = readme.split("<!-- excerpt -->")[1].split("<!-- /excerpt -->")[0]
    lines = excerpt.split("```text\n")[1].split("```")[0].splitlines()
    assert len(lines) >= 20
    # the README leaves out the columns on the right, and the blanks at a line's end
    width = max(len(line) for line in lines)
    told = (ROOT / "demo_scenarios" / "fortnight.transcript.md").read_text(encoding="utf-8")
    kept = "\n".join(line[:width].rstrip() for line in told.splitlines())
    assert "\n".join(line.rstrip() for line in lines) in kept

"""`check` tells every fault of content and of the people in the scenarios at once, with what to do."""

from pathlib import Path

import pytest

from companion.content.checking import check, needed_keys
from companion.content.folders import content_dir, scenarios_dir
from companion.content.library import Library


def test_what_is_shipped_has_no_fault() -> None:
    assert [str(fault) for fault in check(content_dir(), scenarios_dir())] == []


def change(folder: Path, file: str, old: str, new: str) -> None:
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{file} has no {old!r}"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


EXERCISES, SESSION, SIGNS = "texts/en/exercises.ftl", "texts/en/session.ftl", "texts/en/signs.ftl"


@pytest.mark.parametrize(
    ("changed", "where", "what", "do"),
    [
        ((EXERCISES, "ex-heel-to-toe = Heel to toe\n    .notice = Notice how your ankles work.\n", "ex-heel-to-toe = Heel\n"),
         "exercises/heel_to_toe.yaml", '"ex-heel-to-toe.notice"', "Write it"),
        ((EXERCISES, ".do = Reach forward", ".done = Reach forward"),
         "exercises/reach.yaml", '"form-reach-near.do"', "Write it"),
        ((EXERCISES, "form-half-step-wide =", "form-half-step-broad ="),
         "exercises/half_step.yaml", '"form-half-step-wide"', "Write it"),
        ((EXERCISES, "[weaker] Weaker foot in front.\n       *[stronger] Stronger foot in front.", "*[stronger] One in front."),
         EXERCISES, "is the same for both sides", "Choose by $side"),
        ((SIGNS, "    .title = loss of balance: different or not sure\n", ""),
         "safety.yaml", '"sign-balance.title"', "Write it"),
        ((SESSION, "hand-down = Hand on.\n", ""),
         "texts/en", '"hand-down"', "Write it"),
        ((SESSION, "time = Time.", "time = Time. Now put your good hand down and move your two feet apart."),
         SESSION, "a sentence of 12 words", "make two of it"),
        ((SESSION, "b-ready = Ready", "b-ready = Yes"),
         SESSION, "does not say what it means", "say what is so"),
        ((SESSION, "b-ready = Ready", "b-ready = I can't"),
         SESSION, "a short form: \"can't\"", "Write it out"),
        ((SESSION, "hand-down = Hand on.", "hand-down = Left hand on."),
         SESSION, "left or right alone", "weaker"),
        ((SESSION, "ask-how = How did it go?", "ask-how = How was it? Did you step?"),
         SESSION, "more than one", "one"),
        ((SESSION, "time = Time.", f"time = {'Time. ' * 900}"),
         SESSION, "does not fit into one message", "Shorten"),
        (("texts/en/therapist.ftl", "fact-fall = fall\n", ""),
         "red_flags.yaml", '"fact-fall"', "Write it"),
        (("texts/en/briefing.ftl", "briefing-stop =", "briefing-halt ="),
         "carer_briefing.yaml", '"briefing-stop"', "it"),
        (("texts/en/place.ftl", "hand-none =", "hand-off ="),
         "texts/en", '"hand-none"', "Write it"),
        (("exercises/marching.yaml", "role: main", "role: mane"),
         "marching.yaml", "must be one of those known", "main"),
        ((SESSION, "time = Time.", "time = { $x"),
         SESSION, "this is not Fluent", "Mend the line"),
    ],
)  # fmt: skip
def test_broken_words_and_rules_are_told_with_file_and_remedy(
    copy: Path, changed: tuple[str, str, str], where: str, what: str, do: str
) -> None:
    change(copy, *changed)
    faults = check(copy)
    found = [fault for fault in faults if what in fault.what and fault.where.endswith(where) and do in fault.do]
    assert found, "\n".join(map(str, faults))


def test_the_therapists_words_may_be_long(copy: Path) -> None:
    change(copy, "texts/en/therapist.ftl", "alert-noted = Noted.", f"alert-noted = {'word ' * 30}.")
    assert check(copy) == []


def test_a_fault_in_the_words_hides_no_fault_in_the_rules(copy: Path) -> None:
    change(copy, SESSION, "time = Time.", "time = { $x")
    change(copy, "safety.yaml", "gate_s: 600", "gate_s: 6")
    assert {Path(fault.where).name for fault in check(copy)} == {"session.ftl", "safety.yaml"}


def test_a_broken_person_in_a_scenario_is_told(tmp_path: Path) -> None:
    (tmp_path / "people").mkdir()
    (tmp_path / "people" / "a.yaml").write_text("people: {}\nclients: {}\n")
    faults = check(content_dir(), tmp_path)
    assert [Path(fault.where).name for fault in faults] == ["a.yaml"]


def test_a_second_language_must_say_everything(copy: Path) -> None:
    folder = copy / "texts" / "de"
    folder.mkdir()
    (folder / "a.ftl").write_text("time = Zeit.\n")
    missing = [fault.what for fault in check(copy)]
    assert any('"hand-down"' in what for what in missing)
    assert not any('"time"' in what for what in missing)


def test_every_exercise_form_sign_and_fact_asks_for_its_words(shipped: Library) -> None:
    keys = needed_keys(shipped)
    assert {"ex-one-leg.caution", "form-one-leg-foot-up.setup", "form-one-leg-foot-up.carer"} <= set(keys)
    assert {"form-marching-low.do", "sign-calf.title", "fact-head-unsure", "hand-hovering.short"} <= set(keys)
    assert "form-one-leg-foot-up.do" not in keys and "fact-sign-calf" not in keys

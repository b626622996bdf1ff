"""`companion check`: every fault of content and scenarios at once, with file, line and what to do."""

from collections.abc import Iterator
from pathlib import Path

from companion.content import briefing_file, consent_file, enrolment, hazard_file, library
from companion.content.folders import content_dir, shown
from companion.content.library import Library
from companion.content.plain_words import FOR_THE_THERAPIST, LETTERS_IN_A_MESSAGE, broken_rules, is_button, words_in
from companion.content.texts import Source, Texts, key_of
from companion.core.programme import Hand, Measure, Sides
from companion.errors import Fault, FoundWrong

ABOUT_EXERCISE = ("", ".notice", ".normal", ".stop", ".caution")
ABOUT_FORM = ("", ".setup", ".short", ".carer")
ABOUT_SIGN = ("", ".short", ".title")
WORDS_UNDER_A_PICTURE = 8
"""A form's `.short` is one line, for who reads slowly."""


def check(content: Path, scenarios: Path | None = None) -> list[Fault]:
    """Every fault of the content in that folder, and of the people in the scenarios' folder if one is given."""
    faults: list[Fault] = []
    found: Library | None = None
    texts: Texts | None = None
    try:
        found = library.load(content)
    except FoundWrong as wrong:
        faults += wrong.faults
    try:
        hazard_file.load(content)
    except FoundWrong as wrong:
        faults += wrong.faults
    try:
        texts = Texts(content / "texts")
    except FoundWrong as wrong:
        faults += wrong.faults
    if texts is not None:
        faults += _text_faults(content, texts)
    if found is not None and texts is not None:
        said = _said_by_the_program()
        for language in texts.languages:
            faults += _missing(content, {**said, **needed_keys(found)}, texts, language)
            faults += _sides_untold(found, texts, language)
        if scenarios is not None:
            faults += _people_faults(scenarios, found, texts)
    return sorted(set(faults), key=lambda fault: (fault.where, fault.line or 0, fault.what))


def needed_keys(library: Library) -> dict[str, str]:
    """The texts that content asks for by its ids, each with the file that asks for it (from the folder of content)."""
    needed: dict[str, str] = {}
    for exercise in library.without_number.exercises.values():
        file = f"exercises/{exercise.id}.yaml"
        needed |= {key_of("ex", exercise.id) + part: file for part in ABOUT_EXERCISE}
        for form in exercise.forms:
            name = key_of("form", exercise.id, form.id)
            parts = (*ABOUT_FORM, ".do") if form.measure is Measure.COUNTED else ABOUT_FORM
            needed |= {name + part: file for part in parts}
    needed |= {key_of("template", one.id): f"templates/{one.id}.yaml" for one in library.without_number.templates}
    signs = library.without_number.signs
    needed |= {key_of("sign", sign) + part: "safety.yaml" for sign in signs for part in ABOUT_SIGN}
    facts = {fact for rule in library.without_number.flags for fact in rule.when if not fact.startswith("sign.")}
    needed |= {key_of("fact", fact): "red_flags.yaml" for fact in facts}
    needed |= {key_of("hand", hand) + part: "" for hand in Hand for part in ("", ".short")}
    briefed = briefing_file.keys(library.without_number.briefing)
    needed |= {key: "consent.yaml" for key in consent_file.keys(library.without_number.consent)}
    return needed | {key: "carer_briefing.yaml" for key in briefed}


def _said_by_the_program() -> dict[str, str]:
    """What the program itself says is what the content that came with it has, but for exercises and places."""
    keys = Texts(content_dir() / "texts").keys("en")
    return {key: "" for key in keys if key.partition("-")[0] not in ("ex", "form", "place", "")}


def _missing(content: Path, needed: dict[str, str], texts: Texts, language: str) -> Iterator[Fault]:
    folder = shown(content / "texts" / language)
    there = texts.keys(language)
    with_words = {file for key, file in needed.items() if key in there}
    for file in sorted({file for file in needed.values() if file.startswith("exercises/")} - with_words):
        what = f'the exercise has no words in the language "{language}"'
        yield Fault(shown(content / file), None, what, f"Write words: and under it {language}: with name, notice and so on")
    for key, file in needed.items():
        if key not in there and (file in with_words or not file.startswith("exercises/")):
            where = shown(content / file) if file else folder
            yield Fault(where, None, f'there is no text "{key}" in {folder}', "Write it, in any of the .ftl files")


def _sides_untold(library: Library, texts: Texts, language: str) -> Iterator[Fault]:
    for exercise in library.without_number.exercises.values():
        for form in exercise.forms:
            key = key_of("form", exercise.id, form.id) + ".setup"
            source = texts.keys(language).get(key)
            if source is None or (exercise.sides is Sides.NONE or len(texts.readings(key, language)) > 1):
                continue
            yield Fault(shown(source.path), source.line, f'"{key}" is the same for both sides', "Choose by $side")


def _text_faults(content: Path, texts: Texts) -> Iterator[Fault]:
    for language in texts.languages:
        for key, source in texts.keys(language).items():
            for reading in texts.readings(key, language):
                yield from _reading_faults(key, source, reading, english=language.partition("-")[0] == "en")


def _reading_faults(key: str, source: Source, reading: str, english: bool) -> Iterator[Fault]:
    where = shown(source.path)
    if len(reading) > LETTERS_IN_A_MESSAGE:
        yield Fault(where, source.line, f'"{key}" does not fit into one message', "Shorten it")
    count = len(words_in(reading)) if key.startswith("form-") and key.endswith(".short") else 0
    if count > WORDS_UNDER_A_PICTURE:
        yield Fault(where, source.line, f'"{key}" has {count} words', f"Write {WORDS_UNDER_A_PICTURE} or fewer")
    if source.path.name not in FOR_THE_THERAPIST:
        for what, do in broken_rules(reading, is_button(key), english):
            yield Fault(where, source.line, f'"{key}": {what}', do)


def _people_faults(scenarios: Path, found: Library, texts: Texts) -> Iterator[Fault]:
    for path in sorted((scenarios / "people").glob("*.yaml")):
        try:
            enrolment.load(path, found, texts)
        except FoundWrong as wrong:
            yield from wrong.faults

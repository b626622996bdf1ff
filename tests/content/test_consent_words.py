"""The consent is worded for the client, and what it says does not change without a new version."""

import hashlib

from companion.content import library
from companion.content.folders import content_dir
from companion.content.texts import Texts

CONSENT = library.load(content_dir()).without_number.consent
TEXTS = Texts(content_dir() / "texts")
SCREENS = 3
LINES = 4

KNOWN = {"1": "d326a8d15fb1d275", "2": "441778133ea3fcab"}
"""By version, the digest of its words. A version that was shipped keeps its digest; other words want another version."""

SAID = (
    "nobody watches",
    "can not call for help",
    "call 7",
    "local rules",
    "i keep your answers",
    "your clinic stores",
    "therapist sees",
    "chat service",
    "nobody reads what you write at once",
    "stop at any time",
)


def words() -> str:
    return "\n".join(reading for screen in CONSENT.screens for key in screen for reading in TEXTS.readings(key, "en"))


def test_the_words_of_the_consent_change_only_with_its_version() -> None:
    digest = hashlib.sha256(words().encode()).hexdigest()[:16]
    assert KNOWN.get(CONSENT.version) == digest, "raise the version in content/consent.yaml and write its digest here"


def test_the_consent_is_a_few_short_screens() -> None:
    assert len(CONSENT.screens) == SCREENS
    assert all(0 < len(screen) <= LINES for screen in CONSENT.screens)


def test_the_consent_says_what_matters_before_it_asks() -> None:
    said = words().lower()
    for about in SAID:
        assert about in said, about
    assert CONSENT.screens[-1][-1] == "consent-ask" and said.count("?") == 1


def test_the_page_for_the_clinic_names_use_users_limits_and_cautions() -> None:
    page = (content_dir() / "intended_use.md").read_text(encoding="utf-8")
    headings = [line.removeprefix("## ") for line in page.splitlines() if line.startswith("## ")]
    assert headings == ["Intended use", "Not meant for", "Limits", "Cautions", "Beside local codes and licensed practice"]
    assert "never instead" in page and len(page.split()) < 700

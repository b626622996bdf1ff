"""The words come out whole, or not at all."""

from pathlib import Path

import pytest

from companion.content.texts import Texts, key_of
from companion.core.effects import Words, words
from companion.errors import Fault, FoundWrong


def written(tmp_path: Path, **files: str) -> Texts:
    folder = tmp_path / "texts" / "en"
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / f"{name}.ftl").write_text(text, encoding="utf-8")
    return Texts(tmp_path / "texts")


def faults(tmp_path: Path, **files: str) -> tuple[Fault, ...]:
    with pytest.raises(FoundWrong) as found:
        written(tmp_path, **files)
    return found.value.faults


def test_a_parameter_is_filled_in_without_marks_around_it(tmp_path: Path) -> None:
    texts = written(tmp_path, a="hello = Hello { $name }.\n")
    assert texts.text(words("hello", name="Mara"), "en") == "Hello Mara."


def test_words_inside_words_are_filled_in_first(tmp_path: Path) -> None:
    texts = written(tmp_path, a="title = { $name }: { $form }\nname = Heel\nform = gap { $n }\n")
    assert texts.text(words("title", name=words("name"), form=words("form", n=3)), "en") == "Heel: gap 3"


def test_a_long_number_gets_no_comma_and_keeps_its_zeros(tmp_path: Path) -> None:
    texts = written(tmp_path, a="call = Call { $number }.\n")
    assert texts.text(words("call", number="0080012345"), "en") == "Call 0080012345."
    assert texts.text(words("call", number=1234567), "en") == "Call 1234567."


def test_a_parameter_given_twice_means_the_first(tmp_path: Path) -> None:
    texts = written(tmp_path, a="call = Call { $number }.\n")
    assert texts.text(Words("call", (("number", "000"), ("number", "47"))), "en") == "Call 000."


def test_an_attribute_is_a_text_of_its_own(tmp_path: Path) -> None:
    texts = written(tmp_path, a="ex = Press\n    .notice = Notice it.\n")
    assert texts.text(words("ex.notice"), "en") == "Notice it."


@pytest.mark.parametrize(("count", "said"), [(0, "None."), (1, "Once."), (3, "3 times."), (21, "21 times.")])
def test_a_text_may_choose_by_how_many(tmp_path: Path, count: int, said: str) -> None:
    ftl = "n = { $n-plural ->\n    [zero] None.\n    [one] Once.\n   *[other] { $n } times.\n}\n"
    assert written(tmp_path, a=ftl).text(words("n", n=count), "en") == said


def test_a_name_that_looks_like_fluent_is_said_as_it_is(tmp_path: Path) -> None:
    texts = written(tmp_path, a="hello = Hello { $name }.\nother = secret\n")
    assert texts.text(words("hello", name="{ other } { $name }"), "en") == "Hello { other } { $name }."


def test_each_language_has_its_own_words(tmp_path: Path) -> None:
    other = tmp_path / "texts" / "de"
    other.mkdir(parents=True)
    (other / "a.ftl").write_text("hello = Hallo.\n")
    texts = written(tmp_path, a="hello = Hello.\n")
    assert texts.languages == ("de", "en")
    assert [texts.text(words("hello"), language) for language in texts.languages] == ["Hallo.", "Hello."]


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        (words("hello"), "can not be filled in"),
        (words("gone"), 'there is no text "gone"'),
        (words("hello.gone", name="Mara"), 'there is no text "hello.gone"'),
        (words("hello", name=words("gone")), 'there is no text "gone"'),
        (words("only"), 'there is no text "only"'),
    ],
)
def test_a_text_with_a_hole_in_it_is_never_said(tmp_path: Path, asked: Words, why: str) -> None:
    texts = written(tmp_path, a="hello = Hello { $name }.\nonly =\n    .short = x\n")
    with pytest.raises(FoundWrong, match=why):
        texts.text(asked, "en")


def test_a_language_that_is_not_there_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(FoundWrong, match="in 'xx': there is no text \"a\""):
        written(tmp_path, a="a = b\n").text(words("a"), "xx")


@pytest.mark.parametrize(
    ("ftl", "line", "what"),
    [
        ("a = b\nc\n", 2, "this is not Fluent"),
        ("a = b\n\nc = { $x\n", 3, "this is not Fluent"),
        ("a = b\nc = d\na = e\n", 3, '"a" is also in'),
        ("a = b\nc = d\n    .x = { gone }\n", 3, 'there is no text "gone"'),
        ("a = { -gone }\n", 1, 'there is no text "-gone"'),
        ("a = { b.gone }\nb = c\n", 1, 'there is no text "b.gone"'),
        ("a = { $n ->\n    [one] x\n   *[other] { gone }\n}\n", 1, 'there is no text "gone"'),
    ],
)
def test_what_fluent_would_forgive_is_told_with_its_line(tmp_path: Path, ftl: str, line: int, what: str) -> None:
    (fault,) = faults(tmp_path, a=ftl)
    assert fault.where.endswith("a.ftl") and fault.line == line and what in fault.what


def test_a_text_in_two_files_is_told_with_both(tmp_path: Path) -> None:
    (fault,) = faults(tmp_path, a="x = 1\n", b="y = 1\nx = 2\n")
    assert fault.where.endswith("b.ftl") and fault.line == 2 and "a.ftl:1" in fault.what


def test_a_file_that_is_not_text_is_a_fault(tmp_path: Path) -> None:
    folder = tmp_path / "texts" / "en"
    folder.mkdir(parents=True)
    (folder / "a.ftl").write_bytes(b"a = \xff\n")
    with pytest.raises(FoundWrong, match="can not be read"):
        Texts(tmp_path / "texts")


def test_a_folder_that_names_no_language_is_a_fault(tmp_path: Path) -> None:
    folder = tmp_path / "texts" / "not a language"
    folder.mkdir(parents=True)
    (folder / "a.ftl").write_text("a = b\n")
    with pytest.raises(FoundWrong, match="is not the name of a language"):
        Texts(tmp_path / "texts")


def test_no_texts_at_all_is_a_fault(tmp_path: Path) -> None:
    with pytest.raises(FoundWrong, match="there are no texts here"):
        Texts(tmp_path)


def test_every_way_a_text_can_read_is_told(tmp_path: Path) -> None:
    ftl = '-t = T\na = { $s ->\n    [x] X { $n }\n   *[y] { b }\n} { -t } { "q" }\nb = B\n'
    assert written(tmp_path, a=ftl).readings("a", "en") == ("X 7 T q", "B T q")


def test_a_key_is_made_of_ids_with_hyphens() -> None:
    assert key_of("form", "heel_to_toe", "small_gap") == "form-heel-to-toe-small-gap"

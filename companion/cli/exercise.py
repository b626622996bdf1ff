"""`companion exercise FILE`: an own exercise is checked, drawn, spoken and rehearsed, and shown on one page.

It is tried beside the content that there is, in a copy of it, so nothing that is in use changes.
"""

import shutil
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskProgressColumn, TextColumn, TimeElapsedColumn

from companion.app import Content
from companion.cli.exercise_cards import Card, cards
from companion.cli.exercise_page import MARK, ExercisePage, FormShown, Sent, SideShown
from companion.content import checking
from companion.content.folders import content_dir, shown
from companion.content.yaml_lines import read
from companion.core.media import FormPicture, Made, Scene
from companion.core.programme import Exercise, Form, Plan, Side
from companion.errors import Fault, FoundWrong, UsedWrong
from companion.media import maker
from companion.rehearsal import each_form

LANGUAGE = "en"
"""What the invented people read."""

Tell = Callable[[str], None]
"""Told what was done now."""


def try_exercise(file: Path, out: Path, chosen: Path | None, install: bool) -> int:
    """Try the exercise in that file beside the chosen content; the exit code.

    Raises UsedWrong: a page that can not be written, nowhere to install. FoundWrong: every fault of the content.
    """
    content = content_dir(chosen)
    if install and content.resolve() == content_dir().resolve():
        raise UsedWrong("Only a content folder of your own is added to. Copy the folder, and name the copy with --content.")
    if not content.is_dir():
        raise UsedWrong(f"There is no folder {content}. Name a folder of content with --content.")
    page = out / f"{file.stem}.html"
    _must_be_ours(page)
    with tempfile.TemporaryDirectory(prefix="companion-") as folder:
        trial = _Trial.beside(content, file, Path(folder).resolve())
        forms = trial.forms()
    _write(page, ExercisePage(trial.exercise, forms, trial.content.texts, LANGUAGE).html())
    wrong = [f"{form.form.id}: {form.wrong}" for form in forms if form.wrong]
    for line in wrong:
        print(f"WRONG  {line}")
    print(f"page   {shown(page)}")
    if install and not wrong:
        place = content / "exercises" / file.name
        if place.resolve() != file.resolve():
            shutil.copyfile(file, place)
        print(f"put    {shown(place)}")
    return 1 if wrong else 0


@dataclass(frozen=True, slots=True)
class _Form:
    """A form with the plan that it is tried in, and what the phones show of it by side."""

    form: Form
    plan: Plan
    cards: Mapping[Side | None, tuple[Card, ...]]


@dataclass(frozen=True, slots=True)
class _Trial:
    """An exercise that is tried in `folder`, with the content that is there beside it."""

    file: Path
    exercise: Exercise
    content: Content
    folder: Path

    @classmethod
    def beside(cls, content: Path, file: Path, folder: Path) -> "_Trial":
        """With the file in a copy of the content. Raises FoundWrong, with the names of the files that were copied."""
        _must_be_named(file)
        copy = folder / "content"
        shutil.copytree(content, copy)
        shutil.copyfile(file, copy / "exercises" / file.name)
        names = {str(copy / "exercises" / file.name): shown(file), str(copy): shown(content)}
        faults = checking.check(copy)
        if faults:
            raise FoundWrong(_renamed(fault, names) for fault in faults)
        found = Content.read(copy)
        if LANGUAGE not in found.texts.languages:
            raise UsedWrong(f"The invented people read {LANGUAGE}. Add {LANGUAGE} to the texts of {shown(content)}.")
        return cls(file, found.library.without_number.exercises[file.stem], found, folder)

    def forms(self) -> tuple[FormShown, ...]:
        """Every form, drawn, spoken and rehearsed."""
        planned = [self._planned(form) for form in self.exercise.forms]
        wanted = {media: b"" for one in planned for media in self._wanted(one)}
        with _progress(len(wanted) + len(planned)) as tell:
            for media in wanted:
                wanted[media] = maker.make(media, LANGUAGE, self.content.library, self.content.texts)
                tell("draws" if isinstance(media, FormPicture) else "speaks")
            return tuple(self._shown(one, wanted, tell) for one in planned)

    def _planned(self, form: Form) -> _Form:
        try:
            scenario = each_form.scenario(self.exercise, form, self.content, self.folder)
        except FoundWrong as wrong:  # what contradicts itself only in a plan
            what = f'the form "{form.id}" can not be planned: {wrong.faults[0].what}'
            raise FoundWrong([Fault(shown(self.file), None, what, wrong.faults[0].do)]) from None
        plan = scenario.enrolment.clients[0].plan
        return _Form(form, plan, cards(self.exercise, form, plan, self.content, LANGUAGE))

    def _wanted(self, one: _Form) -> Iterator[Made]:
        for side, sent in one.cards.items():
            yield from self._pictures(one, side)
            yield from (card.media for card in sent if card.media is not None)

    def _pictures(self, one: _Form, side: Side | None) -> Iterator[FormPicture]:
        """The form with each hand support."""
        place = one.plan.place
        scene = Scene("left", place.support, place.side, place.chair_behind, carer=True)
        for hand in one.form.hands:
            yield FormPicture(self.exercise.id, one.form.id, hand, side, scene)

    def _shown(self, one: _Form, made: Mapping[Made, bytes], tell: Tell) -> FormShown:
        played = each_form.play(self.exercise, one.form, self.content, self.folder)
        tell("rehearses")
        sides = []
        for side, sent in one.cards.items():
            drawn = tuple((picture.hand, made[picture]) for picture in self._pictures(one, side))
            messages = tuple(Sent(card, made[card.media] if card.media is not None else None) for card in sent)
            sides.append(SideShown(side, drawn, messages))
        transcript = played.rehearsed.files.transcript.read_text(encoding="utf-8")
        return FormShown(one.form, tuple(sides), transcript, played.wrong)


def _must_be_named(file: Path) -> None:
    read(file)
    if file.suffix != ".yaml":
        what = "an exercise's file has the name of its id, and ends in .yaml"
        raise FoundWrong([Fault(shown(file), None, what, f"Name it {file.stem}.yaml")])


def _renamed(fault: Fault, names: Mapping[str, str]) -> Fault:
    """The fault with the files' own names in place of those of the copies."""
    told = [fault.where, fault.what, fault.do]
    for copy, name in names.items():
        told = [text.replace(copy, name) for text in told]
    return Fault(told[0], fault.line, told[1], told[2])


def _must_be_ours(page: Path) -> None:
    """A page of an earlier trial is replaced; nothing else is."""
    if page.parent.exists() and not page.parent.is_dir():
        raise UsedWrong(f"{page.parent} is no folder. Name a folder with --out.")
    try:
        if page.exists() and MARK not in page.read_text(encoding="utf-8", errors="replace"):
            raise UsedWrong(f"{page} is there already and is no page of a trial. Name another folder with --out.")
    except OSError as error:
        raise UsedWrong(f"{page} can not be read: {error.strerror}. Name another folder with --out.") from None


def _write(page: Path, html: str) -> None:
    try:
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(html, encoding="utf-8")
    except OSError as error:
        raise UsedWrong(f"{page} can not be written: {error.strerror}. Name another folder with --out.") from None


@contextmanager
def _progress(steps: int) -> Iterator[Tell]:
    columns = (TextColumn("{task.description}"), BarColumn(), TaskProgressColumn(), TimeElapsedColumn())
    with Progress(*columns, console=Console(stderr=True)) as progress:
        bar = progress.add_task("draws", total=steps)

        def tell(what: str) -> None:
            progress.update(bar, advance=1, description=what)

        yield tell

"""The page that shows a therapist an own exercise: one HTML file that stands alone, pictures and sounds inside it."""

from base64 import b64encode
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from html import escape

from companion.cli.exercise_cards import Card
from companion.content.texts import Texts, key_of
from companion.core.programme import Exercise, Form, Hand, Side
from companion.core.words import Words, words
from companion.rehearsal.seen_and_heard import File, look_at

MARK = '<meta name="generator" content="companion exercise">'
"""What a page of ours is known by."""

STYLE = """
body { font: 17px/1.5 sans-serif; max-width: 62rem; margin: 2rem auto; padding: 0 1rem; color: #111; background: #fff }
h2 { border-top: 3px solid #111; padding-top: .8rem; margin-top: 2.5rem }
figure { display: inline-block; vertical-align: top; width: 15rem; margin: 0 1rem 1rem 0 }
figcaption { font-size: .8rem }
img { width: 100%; border: 1px solid #bbb }
audio { width: 100% }
.phone { display: inline-block; vertical-align: top; width: 20rem; margin: 0 1rem 1rem 0; padding: .8rem;
  border: 2px solid #111; border-radius: .8rem; white-space: pre-line }
.phone small { display: block; margin-bottom: .6rem; font-style: italic; color: #444 }
.button { display: block; margin-top: .4rem; padding: .3rem; border: 1px solid #111; border-radius: .4rem; text-align: center }
.told { padding: .6rem 1rem; border-left: .5rem solid #111; background: #eee }
pre { overflow-x: auto; font-size: .75rem; line-height: 1.3 }
"""


@dataclass(frozen=True, slots=True)
class Sent:
    """A message on a phone, with the file that came with it, None for none."""

    card: Card
    file: bytes | None


@dataclass(frozen=True, slots=True)
class SideShown:
    """One side of a form: a picture for each hand support, and the messages."""

    side: Side | None
    drawn: tuple[tuple[Hand, bytes], ...]
    sent: tuple[Sent, ...]


@dataclass(frozen=True, slots=True)
class FormShown:
    """One form: its sides, the transcript of its session, and what did not come to pass, "" for nothing."""

    form: Form
    sides: tuple[SideShown, ...]
    transcript: str
    wrong: str


class ExercisePage:
    """Writes the page in one language. Everything that is not ours is escaped."""

    def __init__(self, exercise: Exercise, forms: tuple[FormShown, ...], texts: Texts, language: str) -> None:
        self._exercise, self._forms = exercise, forms
        self._texts, self._language = texts, language

    def html(self) -> str:
        """The whole page."""
        title = self._said("title", name=words(key_of("ex", self._exercise.id)))
        head = f'<meta charset="utf-8">{MARK}<meta name="viewport" content="width=device-width">'
        told = "".join(f'<p class="told">{line}</p>' for line in self._outcome())
        usual = self._said("usual", form=self._form_name(self._exercise.usual))
        forms = "".join(self._form(number, shown) for number, shown in enumerate(self._forms, 1))
        return (
            f'<!doctype html>\n<html lang="{escape(self._language)}"><head>{head}<title>{title}</title><style>{STYLE}</style>'
            f"</head><body><h1>{title}</h1>{told}<p>{usual} {self._said('invented')}</p>{forms}{self._checks()}</body></html>\n"
        )

    def _outcome(self) -> Iterator[str]:
        wrong = [shown for shown in self._forms if shown.wrong]
        for shown in wrong:
            yield self._said("wrong", what=f"{self._plain(self._form_name(shown.form.id))}: {shown.wrong}")
        if not wrong:
            yield self._said("fine")

    def _form(self, number: int, shown: FormShown) -> str:
        name = self._said("form", number=number, all=len(self._forms), form=self._form_name(shown.form.id))
        facts = "".join(f"<li>{fact}</li>" for fact in self._facts(shown.form))
        sides = "".join(self._side(side) for side in shown.sides)
        played = f"<details><summary>{self._said('rehearsed')}</summary><pre>{escape(shown.transcript)}</pre></details>"
        return f"<h2>{name}</h2><ul>{facts}</ul>{sides}{played}"

    def _facts(self, form: Form) -> Iterator[str]:
        stance = words(key_of("report", "stance", form.stance))
        yield self._said("stance", stance=stance, eyes=form.eyes.value)
        yield self._said(f"dose-{form.measure}", target=form.target, least=form.least, most=form.most)
        yield self._said("hands", hands=self._listed(words(f"{key_of('hand', hand)}.short") for hand in form.hands))
        clocks = self._listed(words(key_of("plan", "clock", clock, "short")) for clock in self._exercise.clocks)
        yield self._said("clocks", clocks=clocks)
        for need in ("needs_carer", "needs_free_ankle", "needs_two_hands"):
            if getattr(form, need):
                yield self._said(key_of(need))

    def _side(self, shown: SideShown) -> str:
        heading = f"<h3>{self._said('side', side=shown.side.value)}</h3>" if shown.side is not None else ""
        drawn = "".join(self._figure(hand, picture) for hand, picture in shown.drawn)
        drawn = f"<h4>{self._said('drawn')}</h4>{drawn}" if drawn else ""
        phones = ""
        for who in dict.fromkeys(sent.card.to for sent in shown.sent):
            phones += f"<h4>{self._said('phone', who=who)}</h4>"
            phones += "".join(self._message(sent) for sent in shown.sent if sent.card.to == who)
        return heading + drawn + phones

    def _figure(self, hand: Hand, picture: bytes) -> str:
        label = escape(self._plain(words(f"{key_of('hand', hand)}.short")))
        file = look_at(picture)
        told = f"<b>{label}</b>. {escape(file.description)}"
        return f"<figure>{_embedded(picture, file)}<figcaption>{told}</figcaption></figure>"

    def _message(self, sent: Sent) -> str:
        file = ""
        if sent.file is not None:
            seen = look_at(sent.file)
            file = _embedded(sent.file, seen)
            if seen.kind == "voice note":
                file += f"<small>{self._said('sound', seconds=round(seen.seconds), description=seen.description)}</small>"
        buttons = "".join(f'<span class="button">{escape(label)}</span>' for label in sent.card.buttons)
        return f'<div class="phone">{file}{escape(sent.card.text)}{buttons}</div>'

    def _checks(self) -> str:
        files = {sent.file for form in self._forms for side in form.sides for sent in side.sent if sent.file is not None}
        files |= {picture for form in self._forms for side in form.sides for _, picture in side.drawn}
        kinds = [look_at(file).kind for file in files]
        prefixes = (key_of("ex", self._exercise.id), *(key_of("form", self._exercise.id, one.form.id) for one in self._forms))
        texts = [key for key in self._texts.keys(self._language) if key.partition(".")[0] in prefixes]
        told = (
            self._said("check-file"),
            self._said("check-words", count=len(texts)),
            self._said("check-drawn", pictures=kinds.count("picture"), sounds=kinds.count("voice note")),
            self._said("check-played", forms=len(self._forms)),
        )
        return f"<h2>{self._said('checks')}</h2><ul>{''.join(f'<li>{line}</li>' for line in told)}</ul>"

    def _form_name(self, form: str) -> Words:
        return words(key_of("form", self._exercise.id, form))

    def _listed(self, items: Iterable[Words]) -> str:
        return ", ".join(self._plain(item) for item in items)

    def _plain(self, item: Words) -> str:
        return self._texts.text(item, self._language)

    def _said(self, key: str, **params: str | int | Words) -> str:
        return escape(self._plain(words(f"exercise-page-{key}", **params)))


def _embedded(content: bytes, file: File) -> str:
    data = b64encode(content).decode()
    if file.kind == "voice note":
        return f'<audio controls src="data:audio/ogg;base64,{data}"></audio>'
    return f'<img alt="{escape(file.description)}" src="data:image/png;base64,{data}">'

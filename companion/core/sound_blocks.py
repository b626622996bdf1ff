"""The blocks of a session that go by sound: a bout whose clock is a voice note, and finding out whether tones are heard.

    set-up -> the note, its answers under it -> (what, when) -> done
                 | it did not come -> sent again, or heard all the same
    test note -> how many tones -> heard
                    | wrong, or none -> louder, nearer, once more -> heard | not heard: on another clock, or left out

Nobody knows when a note is played, so from the set-up to the answer nothing else is sent, and no end is called.
"""

from dataclasses import dataclass

from companion.core.effects import PersonId, Put, Words, words
from companion.core.how import How
from companion.core.media import SoundCheck, SoundClock
from companion.core.programme import Plan, Posture
from companion.core.steps import Ask, BoutSpec, Choice, Label, Show, Sounded, Step

CHECK, AGAIN = "sound-check", "sound-again"
"""The check before the first sound, and the one after a client heard nothing of a note."""

TONES = (2, 3, 4)

_WITHOUT = Choice("without", words("b-without"), go="sound-unwanted")


@dataclass(frozen=True, slots=True)
class Note:
    """A bout whose clock is a voice note. `answers` stand under it, `causes` lead to the question of when; `easier` is the
    label of the next easier way, `also` the carer who may answer too, with `also_words` on their phone."""

    name: str
    done: str
    phone: PersonId
    bout: BoutSpec
    media: SoundClock
    answers: tuple[Choice, ...]
    causes: tuple[Choice, ...]
    easier: str | None = None
    also: PersonId | None = None
    also_words: tuple[Words, ...] = ()


def sound_clock(before: tuple[Words, ...], into_place_s: int, seconds: int, after: tuple[Words, ...]) -> SoundClock:
    """The voice note that is the clock of one hold."""
    return SoundClock((*before, words("sound-starts")), into_place_s, seconds, words("sound-breathe"), after)


def note_blocks(of: Note) -> list[Step]:
    """From the note to the label `done`."""
    name, phone = of.name, of.phone
    stands = of.bout.posture is Posture.STANDING
    # what the last tone means is read before, for not every note can speak
    told = (words("sound-play"), words("sound-lies"), words("sound-last-tone"), *of.media.after, words("sound-stop"))
    said = (*told, words("sound-then"))
    again = [
        Choice("again", words("b-sound-again"), go=f"{name}.go", starts=stands),
        Choice("heard", words("b-sound-heard"), go=f"{name}.how"),
    ]
    if of.easier is not None:
        again.append(Choice("easier", words("b-easier"), go=of.easier))
    down = (words("hand-down"), words("feet-apart")) if stands else ()
    unheard = Choice("unheard", words("b-unheard"), unheard=True)
    asked_what = (words("step-is-good"), words("ask-what"))
    return [
        Sounded(f"{name}.note", phone, said, of.answers, of.bout, of.media, f"{name}.no-note", of.also, of.also_words),
        Label(f"{name}.no-note"),
        Ask(f"{name}.no-note", phone, (words("sound-did-not-come"), *down), tuple(again), put=Put.NEW, watch=stands),
        Label(f"{name}.how"),
        Ask(f"{name}.how", phone, (words("ask-how"),), of.answers, also=of.also),
        Label(f"{name}.what"),
        Ask(f"{name}.what", phone, asked_what, (*of.causes, unheard), also=of.also),
        Label(f"{name}.when"),
        Ask(f"{name}.when", phone, (words("ask-when"),), _by_tones(of.bout.target, of.done), also=of.also),
    ]


def _by_tones(target: int, done: str) -> tuple[Choice, ...]:
    """When it first broke, told by the tones that were heard before: a quarter each, as bounds in seconds."""
    cuts = [round(target * part / 4) for part in range(5)]
    quarters = [
        Choice(
            f"q{part + 1}",
            words("b-tones", tones=part),
            go=done,
            sets=(("low", str(cuts[part])), ("high", str(cuts[part + 1]))),
        )
        for part in range(4)
    ]
    return (*quarters, Choice("unknown", words("b-when-unknown"), go=done, sets=(("low", "0"), ("high", str(target)))))


def sound_check(how: How, plan: Plan) -> list[Step]:
    """Whether tones are heard from where the client will stand: twice at most, and no number comes again in the check after a
    note that nobody heard."""
    first, second = how.tones
    third = sum(TONES) - first - second
    return [
        *_check(how, plan, CHECK, (first, second)),
        *_check(how, plan, AGAIN, (third, first)),
        *_given_up(how, "sound-unwanted"),
        *_given_up(how, "sound-unheard", words("sound-not-heard")),
        Label("sound-heard", heard=True),
    ]


def _given_up(how: How, name: str, *why: Words) -> list[Step]:
    said = (*why, words("sound-without"), words("sound-told"))
    return [Label(name), Show(how.phone, said, card="session"), Label(f"{name}.noted", heard=False)]


def _check(how: How, plan: Plan, name: str, tones: tuple[int, int]) -> list[Step]:
    once, twice = tones
    ready = words("sound-check-ready")
    first = (words("sound-check"), words("sound-check-phone"), words("sound-check-loud"), ready)
    louder = (words("sound-louder"), words("sound-nearer"), ready)
    return [
        Label(name),
        Ask(f"{name}.ready", how.phone, first, _ready(f"{name}.once"), put=Put.NEW),
        *_listened(how, plan, f"{name}.once", once, f"{name}.louder"),
        Label(f"{name}.louder"),
        Ask(f"{name}.louder", how.phone, louder, _ready(f"{name}.twice")),
        *_listened(how, plan, f"{name}.twice", twice, "sound-unheard"),
    ]


def _ready(then: str) -> tuple[Choice, ...]:
    return Choice("ready", words("b-ready"), go=then, starts=True), _WITHOUT


def _listened(how: How, plan: Plan, name: str, tones: int, otherwise: str) -> list[Step]:
    """One test note, and how many tones were heard."""
    said = (words("sound-play"), words("sound-count"), words("ask-tones"))
    media = SoundCheck((words("hand-down"), words("sound-count")), plan.into_place_s, tones)
    heard = [Choice(f"t{one}", words("b-heard", tones=one), go="sound-heard" if one == tones else otherwise) for one in TONES]
    choices = (*heard, Choice("nothing", words("b-heard-nothing"), go=otherwise))
    again = Choice("again", words("b-sound-again"), go=name, starts=True), _WITHOUT
    lost = f"{name}.no-note"
    return [
        Label(name),
        Ask(f"{name}.tones", how.phone, said, choices, put=Put.NEW, watch=True, media=media, lost=lost),
        Label(lost),
        Ask(lost, how.phone, (words("sound-did-not-come"), words("hand-down")), again, put=Put.NEW, watch=True),
    ]

"""The pictures of a session: what stands where at this client's place, and everything of a script that has to be made."""

from collections.abc import Iterable

from companion.core.how import How
from companion.core.ladder import Rung
from companion.core.media import FormPicture, Made, Media, Medium, OwnMedia, PlacePicture, Recorded, Scene, medium
from companion.core.programme import Plan, Side
from companion.core.steps import Ask, Counted, Script, Sounded


def scene(plan: Plan, how: How, carer: bool) -> Scene:
    """What stands where. `carer`: one is beside the client in this session."""
    place = plan.place
    return Scene(how.weaker, place.support, place.side, place.chair_behind, carer)


def place_picture(plan: Plan, how: How, carer: bool) -> PlacePicture:
    """The client's own place, ready to practise."""
    return PlacePicture(scene(plan, how, carer), plan.place.footwear)


def form_picture(exercise: str, rung: Rung, side: Side | None, at: Scene) -> FormPicture:
    """One way to do a bout."""
    return FormPicture(exercise, rung.form.id, rung.hand, side, at)


def own_instead(own: tuple[OwnMedia, ...], exercise: str) -> OwnMedia | None:
    """What the therapist recorded to come instead of the standard picture of that exercise; None if nothing."""
    return next((one for one in own if one.exercise == exercise and not one.beside), None)


def own_before(own: tuple[OwnMedia, ...], exercise: str) -> tuple[Recorded, ...]:
    """What the therapist recorded that comes in a message of its own before the set-up: what is beside the picture, and any
    sound, for a sound that is lost must not take the question with it."""
    mine = (one for one in own if one.exercise == exercise)
    return tuple(one.media for one in mine if one.beside or medium(one.media) is Medium.VOICE)


def to_be_made(script: Script) -> tuple[Made, ...]:
    """All pictures and sounds of a script, each once, those that are surely shown first."""
    return tuple(dict.fromkeys((*made_first(script), *_made(media for _, media in _shown(script)))))


def made_first(script: Script) -> tuple[Made, ...]:
    """The signs, the place, and the set-up of each bout as planned, which is its first block."""
    first: dict[str, Media] = {}
    for step, media in _shown(script):
        first.setdefault(step.partition(".")[0], media)
    return tuple(dict.fromkeys(_made(first.values())))


def _shown(script: Script) -> list[tuple[str, Media]]:
    """Each with the id of the step that shows it, in order."""
    asked = (step for step in script.steps if isinstance(step, Ask | Counted | Sounded))
    return [(step.id, step.media) for step in asked if step.media is not None]


def _made(media: Iterable[Media]) -> list[Made]:
    return [one for one in media if not isinstance(one, Recorded)]

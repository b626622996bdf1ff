"""One exercise file: its shape, its own rules, and the core's `Exercise` made of it.

The ladder of forms runs from the easiest to the hardest and is climbed a step at a time, so what can be said of a
ladder as a whole (one measure, the usual form is on it, eyes closed has an open form below it) is checked here.
"""

from collections.abc import Iterator

from pydantic import Field

from companion.content import own_words, picture_shape
from companion.content.own_words import WordsShape
from companion.content.picture_shape import Drawn, PictureDetails, PictureShape
from companion.content.yaml_lines import Id, Line, Loc, Page, Shape, Switch, Whole
from companion.core.programme import (
    HAND_STAGES,
    AskAfter,
    Clock,
    Exercise,
    Eyes,
    Form,
    Hand,
    Measure,
    Posture,
    Role,
    Sides,
    Stance,
)
from companion.errors import Fault


class FormShape(Shape):
    """A form as it is written."""

    id: Id
    posture: Posture
    stance: Stance
    measure: Measure
    target: Whole = Field(ge=1)
    least: Whole = Field(ge=1)
    most: Whole = Field(ge=1)
    eyes: Eyes = Eyes.OPEN
    hands: tuple[Hand, ...] = Field(min_length=1)
    counts: tuple[Whole, ...] = ()
    needs_carer: Switch = False
    needs_free_ankle: Switch = False
    needs_two_hands: Switch = False
    picture: PictureShape = PictureShape()

    def core(self) -> Form:
        """The core's form."""
        return Form(
            id=self.id,
            posture=self.posture,
            stance=self.stance,
            measure=self.measure,
            target=self.target,
            eyes=self.eyes,
            hands=self.hands,
            counts=self.counts,
            needs_carer=self.needs_carer,
            needs_free_ankle=self.needs_free_ankle,
            needs_two_hands=self.needs_two_hands,
            least=self.least,
            most=self.most,
        )


class ExerciseShape(Shape):
    """An exercise as it is written."""

    id: Id
    role: Role
    sides: Sides
    usual: Id
    clocks: tuple[Clock, ...] = Field(min_length=1)
    asks: tuple[AskAfter, ...] = ()
    forms: tuple[FormShape, ...] = Field(min_length=1)
    words: dict[Line, WordsShape] = Field(default_factory=dict)

    def core(self) -> Exercise:
        """The core's exercise."""
        forms = tuple(form.core() for form in self.forms)
        return Exercise(self.id, self.role, self.sides, forms, self.usual, self.clocks, self.asks)

    def pictures(self) -> dict[str, PictureDetails]:
        """What the picture of each form shows beyond the form, by the form's id."""
        return {form.id: form.picture.details(form.stance) for form in self.forms}


def faults(page: Page, exercise: ExerciseShape, stem: str) -> Iterator[Fault]:
    """What the shape alone can not tell: an id unlike its file, a ladder that does not hold together."""
    if exercise.id != stem:
        yield page.fault(("id",), f'the id "{exercise.id}" is not the name of the file', f'Write "{stem}"')
    ids = [form.id for form in exercise.forms]
    if exercise.usual not in ids:
        yield page.fault(("usual",), f'there is no form "{exercise.usual}"', f"Use one of {', '.join(ids)}")
    yield from _ladder_faults(page, exercise)
    for place, form in enumerate(exercise.forms):
        if form.id in ids[:place]:
            yield page.fault(("forms", place, "id"), f'the form "{form.id}" is here twice', "Name one of them anew")
        yield from _form_faults(page, ("forms", place), form)
        drawn = Drawn(form.posture, form.stance, exercise.sides)
        yield from picture_shape.faults(page, ("forms", place, "picture"), form.picture, drawn)
    yield from own_words.faults(page, exercise.words, exercise.sides, [form.core() for form in exercise.forms])


def _ladder_faults(page: Page, exercise: ExerciseShape) -> Iterator[Fault]:
    first = exercise.forms[0]
    for place, form in enumerate(exercise.forms):
        if form.measure is not first.measure:
            what = "all forms of an exercise have one measure, so that a dose carries over when it is made easier"
            yield page.fault(("forms", place, "measure"), what, f'Use "{first.measure}", or make it an exercise')
    if first.eyes is Eyes.CLOSED:
        yield page.fault(("forms", 0), "the easiest form has the eyes closed", "Put a form with open eyes before it")
    timed = first.measure is Measure.TIMED
    if timed and Clock.NONE in exercise.clocks:
        yield page.fault(("clocks",), "a timed exercise needs somebody who keeps the time", 'Take "none" out')
    if timed and Clock.SCREEN in exercise.clocks and any(form.eyes is Eyes.CLOSED for form in exercise.forms):
        yield page.fault(("clocks",), "closed eyes see no screen", 'Take "screen" out')
    if not timed and exercise.clocks != (Clock.NONE,):
        yield page.fault(("clocks",), "a counted exercise is done at the client's own pace", "Write [none]")
    asks_for_sides = AskAfter.STEADIER_SIDE in exercise.asks
    if asks_for_sides and exercise.sides is Sides.NONE:
        yield page.fault(("asks",), "it asks which side was steadier and has no sides", "Take steadier_side out")


def _form_faults(page: Page, loc: Loc, form: FormShape) -> Iterator[Fault]:
    if not form.least <= form.target <= form.most:
        what = f"the usual dose {form.target} is outside {form.least} to {form.most}"
        yield page.fault((*loc, "target"), what, "Mend target, least or most")
    if list(form.hands) != sorted(set(form.hands), key=HAND_STAGES.index):
        stages = ", ".join(HAND_STAGES)
        yield page.fault((*loc, "hands"), "the hand stages are not in order", f"Most support first: {stages}")
    if list(form.counts) != sorted(set(form.counts), reverse=True):
        yield page.fault((*loc, "counts"), "the counts are not in order", "Most first, each once")
    if form.counts and form.measure is Measure.COUNTED and 0 not in form.counts:
        yield page.fault((*loc, "counts"), "who managed none can not say so", "Add 0 at the end")
    if form.counts and form.measure is Measure.TIMED:
        yield page.fault((*loc, "counts"), "a timed form has no counts", "Take counts out")
    if len(form.counts) > 4:
        yield page.fault((*loc, "counts"), "more than 4 counts to choose from", "Keep 4 or fewer")
    if (form.posture is Posture.SEATED) != (form.stance is Stance.SEATED):
        yield page.fault((*loc, "stance"), "posture and stance do not agree", "Make both seated, or neither")
    toes = form.stance in (Stance.ONE_LEG_TOES, Stance.TWO_LEG_TOES)
    if toes and not form.needs_free_ankle:
        yield page.fault((*loc, "stance"), "a rise on the toes needs a free ankle", "Write needs_free_ankle: yes")
    alone = form.eyes is Eyes.CLOSED or form.stance in (Stance.ONE_LEG, Stance.ONE_LEG_TOES, Stance.WALKING)
    if alone and not form.needs_carer:
        what = "eyes closed, one leg, one leg on the toes and walking need a carer beside the client"
        yield page.fault((*loc, "stance"), what, "Write needs_carer: yes")
    if form.needs_two_hands and form.hands[0] is not Hand.TWO_HANDS:
        yield page.fault((*loc, "hands"), "a form for two hands starts with two hands on", "Put two_hands first")

"""What the therapist decides about the carer, from a client's page: one phone for both, or a carer who is one no longer.

Each is asked once more before it is done, and a button says which way it goes, so that a second press changes nothing.
"""

from companion.core import carer_leaving, carers
from companion.core.effects import Button, Words, words
from companion.core.events import Press, Pressed
from companion.core.turn import Turn

CHOICES = ("shared", "on", "off", "remove_carer")
SCOPE = "page"


def pressed(turn: Turn, event: Pressed) -> tuple[tuple[Words, ...], tuple[Button, ...]]:
    """One of `CHOICES`, pressed by the client's own therapist: what is done, and what the page then shows."""
    step, choice = event.press.step, event.press.choice
    if choice == "remove_carer":
        return _remove(turn, sure=step == "remove_carer")
    if choice in ("on", "off"):
        carers.share(turn, shared=choice == "on")
    return _shared(turn)


def _shared(turn: Turn) -> tuple[tuple[Words, ...], tuple[Button, ...]]:
    shared = turn.client.shared_phone
    way = "off" if shared else "on"
    state = words("page-shared-is-on" if shared else "page-shared-is-off")
    button = Button(words(f"b-page-shared-{way}"), Press(turn.client.id, SCOPE, "shared", way))
    return (state, words("page-shared-means")), (button, _back(turn))


def _remove(turn: Turn, sure: bool) -> tuple[tuple[Words, ...], tuple[Button, ...]]:
    people = turn.client.people
    if people.carer is None:
        return (words("page-carer-none"),), (_back(turn),)
    name = people.name(people.carer)
    if not sure:
        button = Button(words("b-page-remove-sure", carer=name), Press(turn.client.id, SCOPE, "remove_carer", "remove_carer"))
        return (words("page-remove-ask", carer=name), words("page-remove-means", carer=name)), (button, _back(turn))
    carer_leaving.remove(turn)
    return (words("page-removed", carer=name), words("page-removed-means")), (_back(turn),)


def _back(turn: Turn) -> Button:
    return Button(words("b-page-open"), Press(turn.client.id, SCOPE, "page", "open"))

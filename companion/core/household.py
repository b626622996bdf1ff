"""The people around a client, made of the answers at the visit: who is known already, and for whom a phone is made."""

from companion.core import visit
from companion.core.baseline import About
from companion.core.dialogues import Enrolling
from companion.core.effects import NewPerson
from companion.core.person_turn import PersonTurn
from companion.core.phone import Part
from companion.core.questionnaire import Answers
from companion.core.visit import Visit

Known = tuple[str, str]
"""Somebody's id and call name."""


def of(turn: PersonTurn, dialogue: Enrolling, filled: Answers, asked: Visit) -> tuple[About, tuple[NewPerson, ...]]:
    """What is kept beside the baseline, and whose rows have to be there: the client's own entry first, if they are new."""
    zone = visit.zone_of(filled, asked)
    before = dialogue.facts.about if dialogue.facts is not None else None
    fresh: list[tuple[Known, Part]] = [] if dialogue.facts is not None else [((dialogue.client, filled["name"]), Part.CLIENT)]
    carer = before.carer if before is not None else None
    if carer is not None:
        carer = (carer[0], filled["carer"])
    elif "carer" in filled:
        carer = (_new_id(turn, dialogue, "k"), filled["carer"])
        fresh.append((carer, Part.CARER))
    contacts: list[Known] = []
    for name in visit.contacts_of(filled):
        known = _known(turn, name, carer, before)
        contact = known or (_new_id(turn, dialogue, "n", len(contacts) + 1), name)
        contacts.append(contact)
        if known is None or contact[0] == turn.person.deputy:
            fresh.append((contact, Part.CONTACT))
    about = About(filled["name"], zone, visit.quiet_of(filled), carer, tuple(dict.fromkeys(contacts)))
    language = turn.person.language
    return about, tuple(NewPerson(one, part.value, name, zone, language) for (one, name), part in fresh)


def _known(turn: PersonTurn, name: str, carer: Known | None, before: About | None) -> Known | None:
    """The contact of that name who has a phone in the chat, or a link, already."""
    person = turn.person
    if carer is not None and name in (visit.CARER, carer[1]):
        return carer
    if person.deputy is not None and name in (visit.DEPUTY, person.deputy_name):
        return (person.deputy, person.deputy_name)
    return next((one for one in before.contacts if one[1] == name), None) if before is not None else None


def _new_id(turn: PersonTurn, dialogue: Enrolling, letter: str, place: int | str = "") -> str:
    """A name for a phone. Taken anew, it is one that nobody had before: a former carer keeps theirs."""
    if dialogue.facts is None:
        return f"{dialogue.client}.{letter}{place}"
    return f"{dialogue.client}.{turn.number(letter)}.{turn.person.id}"

"""What the core objects to in a plan, in words for who writes a file: what is wrong, and what to do."""

from companion.core.plan_rules import Objection
from companion.core.programme import Exercise

Told = tuple[str, str]


def of_exercise(objection: Objection, exercise: Exercise) -> Told:
    """What is wrong with one exercise of a plan, and what to do."""
    match objection.code:
        case "twice":
            return f'"{exercise.id}" is in the plan twice', "Keep one, with the dose it shall have"
        case "unknown_form":
            what = f'"{exercise.id}" has no form "{objection.param("id")}"'
            return what, f"Use one of {', '.join(objection.others)}"
        case "hardest_is_easier":
            what = f'the hardest form "{objection.param("id")}" is easier than "{objection.others[0]}"'
            return what, f"Use one of {', '.join(objection.others)}"
        case "dose":
            told = dict(objection.params)
            what = f'{told["dose"]} {told["unit"]} is no possible dose of "{exercise.id}"'
            return what, f"Use {told['least']} to {told['most']}"
        case "hand" | "one_hand":
            why = "the client has one good hand" if objection.code == "one_hand" else f'"{exercise.id}" is not done so'
            what = f'the hand support "{objection.param("hand")}" is not possible: {why}'
            return what, f"Use {', '.join(objection.others)}" if objection.others else "Take the exercise out"
        case "opens_nothing":
            hand, hardest = objection.param("hand"), objection.param("hand_hardest")
            what = f'"{hardest}" gives more support than "{hand}", so it opens nothing harder'
            return what, "Name less support than hand, or leave it out"
        case "no_sides":
            return f'"{exercise.id}" has no sides', "Take sides out"
        case "side_twice":
            return "a side is named twice", "Name each side once"
        case "tips":
            do = "Choose worktop, sink, rail or heavy_table, or take the exercise out"
            return f'the support "sturdy_chair" is not for "{exercise.id}": a chair can tip', do
        case "warm_up_late":
            return "a warm-up comes after the main part", "Put it before"
        case _:
            return _ruled_out(objection, exercise)


def of_clock(objection: Objection, exercise: Exercise, usable: tuple[str, ...]) -> Told:
    """What is wrong with the clock of an exercise; `usable` are those to choose from."""
    do = f"Use {' or '.join(usable)}"
    match objection.code:
        case "sound_short":
            least = objection.param("least")
            return f"a hold of less than {least} s has no room for its tones", f"Plan {least} s or more, or another clock"
        case "clock_no_carer":
            return "the carer keeps the time and none is named", "Name a carer, or use the clock screen"
        case _:
            return f'"{exercise.id}" can not be done on the clock "{objection.param("clock")}"', do


def of_plan(objection: Objection, warm_ups: str) -> Told:
    """What is wrong with a plan as a whole. `warm_ups` are the exercises that it may begin with."""
    match objection.code:
        case "no_carer":
            return "a carer is always wanted and none is named", "Name a carer, or write supervision: when_form_needs"
        case "no_warm_up":
            return "the plan does not begin with a warm-up", f"Put first: {warm_ups}"
        case "too_long":
            needed = objection.param("needed")
            what = f"the exercises take {needed} minutes or more and the plan says {objection.param('minutes')}"
            return what, f"Write minutes: {needed} or more, or plan less"
        case _:
            return f"the plan can not be meant ({objection.code})", f"Mend {objection.key}"


def _ruled_out(objection: Objection, exercise: Exercise) -> Told:
    """Why this client can not have this form at all."""
    name = f'"{exercise.id}", form "{objection.param("form")}"'
    others = objection.others
    instead = f"use one of {', '.join(others)}" if others else "take the exercise out"
    match objection.code:
        case "two_hands":
            do = f'Use the form for one hand, "{objection.same}"' if objection.same else instead.capitalize()
            return f"{name} needs two good hands and the client has one", do
        case "blocked_ankle":
            return f"{name} needs an ankle that is not blocked", instead.capitalize()
        case "eyes_closed":
            what = f"{name} closes the eyes and the plan does not permit it"
            return what, f"Write eyes_closed: yes if you permit it, or {instead}"
        case "needs_carer":
            return f"{name} needs a carer and none is named", f"Name one, or {instead}"
        case _:
            what = f"{name} is done standing, alone, by a client who can not call for help"
            return what, f"Name a carer, or {instead}"

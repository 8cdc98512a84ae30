"""What was noted of an item of a recital, in words: the exceptions for its row, and all of it with dates."""

from collections.abc import Iterable
from datetime import date, timedelta

from cockpit.studio.clocks.words import counted, near_date
from cockpit.studio.recital.readiness import Noted, NotedAnswer, Readiness, Ready
from cockpit.wording.pieces import tempo_words

_LATELY = timedelta(days=14)  # common practice, no source
_WEEK = 7
# What a trouble of the recital says, and what nobody has to say beforehand.
_ELSEWHERE = frozenset({Ready.PERMISSION, Ready.RECORDING})


def tempo_heard(found: Readiness) -> str:
    """The tempo heard last, of the one that is asked for: `72 of 80`; empty where none was heard."""
    if found.heard is None:
        return ""
    heard = str(found.heard.tempo)
    return heard if found.goal is None else f"{heard} of {tempo_words(found.goal, found.heard.beat)}"


def exceptions(found: Readiness, today: date) -> Iterable[str]:
    """What is not as it is to be: not heard lately, what is said not to be so; of what nobody said, how much there is."""
    if found.clean_runs is None:
        yield "not in your notes"
    elif found.heard is not None and found.heard.on < today - _LATELY:
        yield f"not heard in {(today - found.heard.on).days // _WEEK} weeks"
    elif found.heard is None and found.goal is not None:
        yield "not heard yet"
    asked = [each for each in found.noted if each.what not in _ELSEWHERE]
    for each in asked:
        if each.answer is NotedAnswer.NO:
            yield f"{each.what} no"
    if unsaid := sum(each.answer is NotedAnswer.NOT_SAID for each in asked):
        yield f"{unsaid} not said"


def worst_answer(found: Readiness, today: date) -> NotedAnswer | None:
    """Sums up the exceptions: NO if anything is said not to be ready, NOT_SAID if anything else is open, None if there are no exceptions."""
    said_no = any(each.answer is NotedAnswer.NO for each in found.noted if each.what not in _ELSEWHERE)
    return NotedAnswer.NO if said_no else NotedAnswer.NOT_SAID if [*exceptions(found, today)] else None


def answer_words(noted: Noted, today: date) -> str:
    """What is known of one thing, and since when: `yes, Tue, December 1`."""
    if noted.on is None or noted.answer is NotedAnswer.NOT_SAID:
        return str(noted.answer)
    return f"{noted.answer}, {near_date(noted.on, today)}"


def heard_facts(found: Readiness, today: date) -> Iterable[str]:
    """What the notes have of a piece: the tempo heard and the goal, clean run-throughs, when it was given last."""
    if found.clean_runs is None:
        yield "not in your notes"
        return
    if found.heard is not None:
        yield f"tempo {tempo_heard(found)}, heard {near_date(found.heard.on, today)}"
    elif found.goal is not None:
        yield "no tempo heard yet"
    yield f"{counted(found.clean_runs, 'clean run-through')} in 14 days"
    if found.last_given is not None:
        yield f"given {near_date(found.last_given, today)}"

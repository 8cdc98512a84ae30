"""What was noted of an item up to a date: a list of facts with their dates, never a score, and nothing foretold."""

from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from enum import StrEnum
from fractions import Fraction

from cockpit.studio.people.permissions import Permission, Shown, allowed
from cockpit.studio.pieces.history import PieceHearing, PieceHistory
from cockpit.studio.values import Value, field

_LATELY = timedelta(days=14)  # common practice, no source


class NotedAnswer(StrEnum):
    """What is known of one thing."""

    YES = "yes"
    NO = "no"
    NOT_SAID = "not said"


class Ready(StrEnum):
    """What she ticks of an item."""

    BY_HEART = "by heart"
    COSTUME = "costume"
    PROPS = "props"
    STORY = "story walked through"
    SOUND = "sound checked"
    TRACK = "track at the student's end"
    PERMISSION = "permission to be seen"
    RECORDING = "permission to be recorded"
    NAMED = "permission to be named"


class Tick(Value):
    """What she said of one thing, on a date of her clock."""

    is_yes: bool
    on: date


class ItemNeeds(Value):
    """What of an item there is to be ready: only that is asked about. `named` says that it is shown under a name that was typed."""

    costume: bool = False
    props: bool = False
    story: bool = False
    track: bool = False
    online: bool = False
    named: bool = False


class Noted(Value):
    """One thing of the list, and since when it is so; nothing that was not said has a date."""

    what: Ready
    answer: NotedAnswer
    on: date | None = None


class Readiness(Value):
    """What was noted of an item. `goal` is in quarters a minute; `clean_runs` are those of the last 14 days.

    Without a piece there is no tempo, and no clean run is known: that is None, not 0.
    """

    heard: PieceHearing | None
    goal: Fraction | None
    last_given: date | None
    clean_runs: int | None
    noted: tuple[Noted, ...]
    rehearsals: tuple[date, ...]


class ItemFacts(Value):
    """What is known of an item: its piece in the student's notes, what she ticked, permissions, rehearsals attended."""

    needs: ItemNeeds
    piece: PieceHistory | None = None
    ticks: Mapping[Ready, Tick] = field(default_factory=dict)
    permissions: tuple[Permission, ...] = ()
    rehearsals: tuple[date, ...] = ()


def readiness(facts: ItemFacts, recital_on: date, today: date) -> Readiness:
    """What was noted of an item by a date; permissions are those for the day of the recital."""
    piece = facts.piece
    hearings = [each for each in piece.now.hearings if each.on <= today] if piece is not None else []
    given = [each for each in piece.lines if each.on <= today] if piece is not None else []
    return Readiness(
        heard=hearings[-1] if hearings else None,
        goal=piece.now.goal if piece is not None else None,
        last_given=given[0].on if given else None,
        clean_runs=sum(each.clean_runs for each in given if each.on > today - _LATELY) if piece is not None else None,
        noted=(*_ticked(facts), *_permitted(facts, recital_on)),
        rehearsals=tuple(sorted(each for each in facts.rehearsals if each <= today)),
    )


def weeks_to(on: date, today: date) -> int:
    """The weeks up to a day, begun ones counted; 0 on the day and after it. Six to eight to prepare are common practice, no source."""
    return max(0, -(-(on - today).days // 7))


def _ticked(facts: ItemFacts) -> Iterable[Noted]:
    needs = facts.needs
    asked = {
        Ready.BY_HEART: True,
        Ready.COSTUME: needs.costume,
        Ready.PROPS: needs.props,
        Ready.STORY: needs.story,
        Ready.SOUND: needs.online,
        Ready.TRACK: needs.track,
    }
    for what in (each for each, is_asked in asked.items() if is_asked):
        tick = facts.ticks.get(what)
        if tick is None:
            yield Noted(what=what, answer=NotedAnswer.NOT_SAID)
        else:
            yield Noted(what=what, answer=NotedAnswer.YES if tick.is_yes else NotedAnswer.NO, on=tick.on)


def _permitted(facts: ItemFacts, recital_on: date) -> Iterable[Noted]:
    asked = [(Ready.PERMISSION, Shown.RECITAL), (Ready.RECORDING, Shown.RECORDED)]
    asked += [(Ready.NAMED, Shown.NAMED)] if facts.needs.named else []
    for what, shown in asked:
        said = [each for each in facts.permissions if each.what is shown and each.said_on <= recital_on]
        if not said:
            yield Noted(what=what, answer=NotedAnswer.NOT_SAID)
        else:
            is_given = allowed(said, shown, recital_on)
            on = max(each.said_on for each in said)
            yield Noted(what=what, answer=NotedAnswer.YES if is_given else NotedAnswer.NO, on=on)

"""What was understood of an assignment, in a short line for the screen."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from cockpit.studio.assignments.assignment import Assignment, Measures, Pages, Tempo, Times
from cockpit.studio.assignments.tokens import ARTICLES, JOINERS

_BEATS = {
    Fraction(4): "whole", Fraction(2): "half", Fraction(1): "quarter", Fraction(1, 2): "eighth",
    Fraction(1, 4): "sixteenth",
}  # fmt: skip
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_SIGNATURES = {"#": "-sharp", "b": "-flat"}


def understood(assignment: Assignment) -> str:
    """What was read out of a line: `measures 17–32 (16) · quarter 72 to 88 · 5 min`; empty where nothing was.

    A title is left out where all of it has capitals and it has no number; else it is said how far it goes: `"Menuett nur rechte
    Hand"`, `"Minuet 72"`.
    """
    return " · ".join(_phrases(assignment))


def _phrases(assignment: Assignment) -> Iterator[str]:
    yield from _name_phrases(assignment)
    if assignment.measures:
        yield _measures(assignment.measures)
    yield from _scale_phrases(assignment)
    if assignment.tempo:
        yield _tempo(assignment.tempo)
    if assignment.hands:
        yield assignment.hands.value
    yield from _amount_phrases(assignment)


def _name_phrases(assignment: Assignment) -> Iterator[str]:
    title = " ".join((assignment.title or "").split())
    has_number = any(map(str.isdigit, title)) and not assignment.named_so
    if has_number or (title[:1].isupper() and any(map(_is_no_name, title.split()))):
        yield f'"{title}"'
    if assignment.opus:
        yield assignment.opus
    if assignment.number:
        yield assignment.number if assignment.number.startswith("ex.") else f"no. {assignment.number}"
    if assignment.pages:
        yield _pages(assignment.pages)


def _is_no_name(word: str) -> bool:
    return word.islower() and word not in ARTICLES | JOINERS


def _scale_phrases(assignment: Assignment) -> Iterator[str]:
    if key := assignment.key:
        yield f"{key.tonic[0]}{_SIGNATURES.get(key.tonic[1:], '')} {key.mode}"
    for begins, ends in assignment.keys:
        yield f'"{" ".join(assignment.text[begins:ends].split())}"'
    if assignment.octaves:
        yield _counted(assignment.octaves, "octave")


def _amount_phrases(assignment: Assignment) -> Iterator[str]:
    if assignment.times:
        yield _times(assignment.times)
    if assignment.minutes:
        yield f"{assignment.minutes} min"
    if assignment.days:
        yield (
            "every day"
            if len(assignment.days) == len(_DAYS)
            else " ".join(_DAYS[day] for day in sorted(assignment.days))
        )
    if assignment.not_on and not assignment.days:
        yield f"not {' '.join(_DAYS[day] for day in sorted(assignment.not_on))}"
    if assignment.in_turns:
        yield "in turns"
    if assignment.by_heart:
        yield "by heart"


def _measures(ranges: tuple[Measures, ...]) -> str:
    counts = [each.count for each in ranges]
    known = [count for count in counts if count is not None]
    spans = _spans((each.first, each.last) for each in ranges)
    if counts == [1]:
        return f"measure {spans}"
    return f"measures {spans} ({sum(known)})" if len(known) == len(counts) else f"measures {spans}"


def _pages(ranges: tuple[Pages, ...]) -> str:
    is_one = len(ranges) == 1 and ranges[0].first == ranges[0].last
    return f"{'page' if is_one else 'pages'} {_spans((each.first, each.last) for each in ranges)}"


def _spans(ranges: Iterable[tuple[int, int | None]]) -> str:
    return ", ".join(
        str(first) if first == last else f"{first} to the end" if last is None else f"{first}–{last}"
        for first, last in ranges
    )


def beat_name(beat: Fraction) -> str:
    """A note value in words: `dotted quarter`."""
    plain = beat * Fraction(2, 3)
    return _BEATS.get(beat) or (f"dotted {_BEATS[plain]}" if plain in _BEATS else f"{beat} quarters")


def _tempo(tempo: Tempo) -> str:
    beat = beat_name(tempo.beat)
    about = "about " if tempo.is_about else ""
    if tempo.start is not None:
        return f"{beat} {about}{tempo.start} to {tempo.goal}"
    return f"{beat} {'up to ' if tempo.is_ceiling else ''}{about}{tempo.goal}"


def _times(times: Times) -> str:
    counted = {1: "once", 2: "twice"}.get(times.count, f"{times.count} times")
    return f"{counted} a day" if times.is_daily else counted


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"

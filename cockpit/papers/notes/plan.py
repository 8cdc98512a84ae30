"""A week's practice by day, in words: what comes every day is said once, and days that are alike stand together."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from fractions import Fraction
from functools import partial
from itertools import groupby

from cockpit.papers.notes.names import Called, names_of, text_in_words, turn_names
from cockpit.papers.notes.sentences import assignment_label, assignment_name, beginning
from cockpit.papers.words.dates import weekday_and_day
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.assignments.assignment import Assignment, Measures, Part, Tempo
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes.notes import NoteLine
from cockpit.studio.practice.week import DayPlan, PlanItem, Through, WeekPlan
from cockpit.studio.values import Value

_BEATS = {
    Fraction(4): "whole",
    Fraction(2): "half",
    Fraction(1): "quarter",
    Fraction(1, 2): "eighth",
    Fraction(1, 4): "sixteenth",
}
_NAMES = _BEATS | {value * Fraction(3, 2): f"dotted_{name}" for value, name in _BEATS.items()}
_A_RUN = 3  # so many days in a row become "Wednesday December 2 through Friday December 4"


class Block(Value):
    """Some days and what they have: a heading and items, all in plain words with typed ones among them."""

    heading: str
    items: tuple[str, ...]


def plan_lead(plan: WeekPlan, phrases: Phrases) -> str:
    """The minutes of a day, where they are the same on every practice day; else nothing."""
    practice = [day for day in plan.days if day.items]
    if not practice or not _is_said_once(practice, phrases) or not (amount := _amount(practice[0], phrases)):
        return ""
    daily = phrases.say("plan.each_practice_day", minutes=amount)
    return f"{beginning(daily)}{_beyond(practice[0], phrases)}."


class _Day(Value):
    """A practice day in words: its items, its minutes, and by how much they exceed the daily ones."""

    on: date
    items: tuple[str, ...]
    amount: str
    beyond: str


def plan_blocks(plan: WeekPlan, phrases: Phrases) -> tuple[Block, ...]:
    """A plan by day; rest days are not in it.

    Where the days differ in words, what they have in common comes first, once; then each practice day that has more, or
    days in a row that are alike, with what is theirs. What no practice day is named for comes last.
    """
    days = [day for day in plan.days if day.items]
    planned = [item.assignment for day in days for item in day.items]
    names, in_turns = names_of([*planned, *plan.never_due]), turn_names(planned, phrases)
    said = [
        _Day(
            on=day.on,
            items=tuple(_item(item, names[item.assignment], in_turns, phrases) for item in day.items),
            amount=_amount(day, phrases),
            beyond=_beyond(day, phrases),
        )
        for day in days
    ]
    return (*_blocks(said, phrases), *_never(plan.never_due, phrases))


def _blocks(days: Sequence[_Day], phrases: Phrases) -> Iterator[Block]:
    alike = [list(group) for _, group in groupby(days, key=lambda day: (day.items, day.amount, day.beyond))]
    common = _in_common(days) if len(alike) > 1 else Counter[str]()
    is_said_once = len({(day.amount, day.beyond) for day in days}) == 1
    if common:
        heading = _every_day(days, common, phrases, has_minutes=not is_said_once)
        yield Block(heading=heading, items=tuple(_only(days[0].items, common)))
    for group in alike:
        if items := tuple(_without(group[0].items, common)):
            minutes = "" if is_said_once else _minutes(group, phrases)
            heading = f"{beginning(days_words([day.on for day in group], phrases))}{minutes}"
            yield Block(heading=heading, items=items)


def _every_day(days: Sequence[_Day], common: Counter[str], phrases: Phrases, *, has_minutes: bool) -> str:
    """The heading of what all days have; it names them where one has nothing else, and so no heading of its own."""
    heading = phrases.say("plan.every_day")
    bare = next((day for day in days if Counter(day.items) == common), None)
    if bare is None:
        return heading
    each_day = phrases.say("plan.each_day", minutes=bare.amount)
    beyond = f", {each_day}{bare.beyond}" if has_minutes and bare.beyond else ""
    return f"{heading} ({days_words([day.on for day in days], phrases)}){beyond}"


def _minutes(alike: Sequence[_Day], phrases: Phrases) -> str:
    first = alike[0]
    whole = "plan.in_all" if len(alike) == 1 else "plan.each_day"
    return f", {phrases.say(whole, minutes=first.amount)}{first.beyond}" if first.amount else ""


def _in_common(days: Sequence[_Day]) -> Counter[str]:
    common = Counter(days[0].items) if days else Counter()
    for day in days[1:]:
        common &= Counter(day.items)
    return common


def _only(items: Iterable[str], wanted: Counter[str]) -> Iterator[str]:
    left = wanted.copy()
    for item in items:
        if left[item]:
            left[item] -= 1
            yield item


def _without(items: Iterable[str], taken: Counter[str]) -> Iterator[str]:
    left = taken.copy()
    for item in items:
        if left[item]:
            left[item] -= 1
        else:
            yield item


def _never(assignments: Sequence[Assignment], phrases: Phrases) -> Iterator[Block]:
    if assignments:
        items = tuple(f"{assignment_label(each, phrases)} {each.text}" for each in assignments)
        yield Block(heading=phrases.say("plan.never"), items=items)


def _is_said_once(days: Sequence[DayPlan], phrases: Phrases) -> bool:
    return len({(_amount(day, phrases), _beyond(day, phrases)) for day in days}) == 1


def _amount(day: DayPlan, phrases: Phrases) -> str:
    """The minutes of a day; nothing where an item has none of its own and nobody said how many a day has."""
    if day.spare:
        daily = phrases.minutes(day.minutes + day.spare)
        return phrases.say("plan.of_the_daily", count=day.minutes, minutes=daily)
    is_shared = any(item.minutes is not None and item.assignment.minutes is None for item in day.items)
    is_whole = day.exceeds_by or is_shared or all(item.minutes is not None for item in day.items)
    return phrases.minutes(day.minutes) if is_whole else ""


def _beyond(day: DayPlan, phrases: Phrases) -> str:
    excess = excess_words(day, phrases)
    return f", {excess}" if excess is not None else ""


def days_words(days: Sequence[date], phrases: Phrases) -> str:
    """Days in order: `Wednesday December 2 through Saturday December 5`, `Monday November 30 and Friday December 4`."""
    spans = list(_spans(days))
    say = partial(weekday_and_day, phrases=phrases, is_listed=len(days) > 1)
    words: list[str] = []
    for place, (first, last) in enumerate(spans):
        after = spans[place + 1][0] if place + 1 < len(spans) else None
        end = say(last, has_month=after is None or after.month != last.month)
        begin = say(first, has_month=first.month != last.month)
        words.append(end if first == last else phrases.say("dates.range", first=begin, last=end))
    return phrases.joined(words)


def _spans(days: Sequence[date]) -> Iterator[tuple[date, date]]:
    for _, numbered in groupby(enumerate(days), key=lambda each: each[1] - timedelta(days=each[0])):
        run = [on for _, on in numbered]
        if len(run) >= _A_RUN:
            yield run[0], run[-1]
        else:
            yield from ((on, on) for on in run)


def _item(item: PlanItem, called: Called, in_turns: Mapping[Assignment, str], phrases: Phrases) -> str:
    """An item of a day: `Piece: Bourrée, measures 1–8, quarter = 76, 5 min, about three times through`."""
    said = ", ".join(
        filter(None, [called.words, *_said_of(item, called, phrases), turns_words(item, in_turns, phrases)])
    )
    if not said:
        return assignment_name(item.assignment, phrases)
    return f"{assignment_label(item.assignment, phrases)} {said}"


def _said_of(item: PlanItem, called: Called, phrases: Phrases) -> Iterator[str | None]:
    """What the plan tells of the day beside the name, and does not stand in the name already."""
    assignment, says, is_all = item.assignment, called.says, not called.has_other_numbers
    if is_all and (Part.MEASURES not in says or item.measures != assignment.measures):
        yield passage_words(item.measures, phrases)
    if item.tempo is not None and (item.tempo != assignment.tempo or (is_all and Part.TEMPO not in says)):
        yield tempo_words(item.tempo, phrases)
    if item.again is not None and is_all:
        yield again_words(item, phrases)
    if assignment.times is not None and assignment.times.is_daily and Part.TIMES not in says:
        yield phrases.say("plan.times_a_day", times=phrases.times(assignment.times.count))
    if item.minutes is not None and (Part.MINUTES not in says or item.minutes != assignment.minutes):
        yield phrases.say("words.minutes_short", count=item.minutes)
    yield through_words(item.through, phrases) if item.through is not None and is_all else None


def assignment_text(assignment: NoteLine, phrases: Phrases) -> str:
    """An assignment without its label as it was typed, a tempo such as "q = 60" in the words of the language."""
    if "tempo.beat" not in phrases.by_key:  # the English file is gone, and her words are better than none
        return assignment.text
    return text_in_words(read_assignment(assignment), partial(tempo_words, phrases=phrases))


def again_words(item: PlanItem, phrases: Phrases) -> str:
    """The section that comes back beside a new one: `then again measures 17–24, quarter = 76`; the tempo where it is another."""
    if item.again is None:
        return ""
    passage, tempo = passage_words(item.again.measures, phrases), item.again.tempo
    again = phrases.say("plan.again", measures=passage)
    return f"{again}, {tempo_words(tempo, phrases)}" if tempo is not None and tempo != item.tempo else again


def passage_words(passage: Sequence[Measures], phrases: Phrases) -> str:
    """Ranges of measures with their noun: `measure 5`, `measures 17–24, 30–32`, `measure 32 to the end`; empty where there are none."""
    if not passage:
        return ""
    only = passage[0]
    if len(passage) == 1 and only.last is None:
        return phrases.say("plan.from_measure", first=only.first)
    noun = "plan.measure" if len(passage) == 1 and only.first == only.last else "plan.measures"
    return phrases.say(noun, measures=ranges_words(passage, phrases))


def ranges_words(passage: Sequence[Measures], phrases: Phrases) -> str:
    """Ranges of measures alone: `17–24, 30–32`."""
    return ", ".join(_range(each, phrases) for each in passage)


def _range(measures: Measures, phrases: Phrases) -> str:
    if measures.last is None:
        return phrases.say("plan.to_the_end", first=measures.first)
    return str(measures.first) if measures.first == measures.last else f"{measures.first}–{measures.last}"


def tempo_words(tempo: Tempo, phrases: Phrases, beat: str | None = None) -> str:
    """A tempo by the name of its beat, or by its sign: `quarter = 72`, `up to quarter = 96`, `quarter = 72 to 88`."""
    name = _NAMES.get(tempo.beat)
    if beat is None:
        beat = phrases.say(f"tempo.{name}") if name is not None else phrases.say("tempo.quarters", count=tempo.beat)
    is_range = tempo.start is not None
    said = phrases.say("tempo.range", first=tempo.start, last=tempo.goal) if is_range else str(tempo.goal)
    if tempo.is_about:
        said = phrases.say("tempo.about", tempo=said)
    said = phrases.say("tempo.beat", beat=beat, tempo=said)
    return phrases.say("tempo.up_to", tempo=said) if tempo.is_ceiling and not is_range else said


def through_words(through: Through, phrases: Phrases) -> str:
    """How often measures fit into some minutes, `about five times through`; where 4/4 was assumed, it says so: `(in 4/4)`.

    It is "about" because pauses and second thoughts are not counted.
    """
    said = (
        phrases.say("plan.through", times=phrases.times(through.times))
        if through.times
        else phrases.say("plan.less_than_once")
    )
    return phrases.say("plan.in_common_time", through=said) if through.is_meter_assumed else said


def turns_words(item: PlanItem, names: Mapping[Assignment, str], phrases: Phrases) -> str | None:
    """How an item is practiced in turns: `alternating with Minuet: 3 + 3 + 3 + 3 minutes`; None where it is not.

    `names` are those of the others.
    """
    if not item.turns_with:
        return None
    others = phrases.joined([names[other] for other in item.turns_with])
    if not item.turns:
        return phrases.say("plan.turns", names=others)
    lengths = " + ".join(str(turn) for turn in item.turns)
    is_one = len(item.turns) == 1
    minutes = phrases.minutes(item.turns[0]) if is_one else phrases.say("words.minutes_other", count=lengths)
    return phrases.say("plan.turns_of", names=others, minutes=minutes)


def excess_words(day: DayPlan, phrases: Phrases) -> str | None:
    """By how much a day's typed minutes exceed the daily ones: `5 minutes over the planned 30 a day`; None if they do not."""
    if not day.exceeds_by:
        return None
    more, daily = phrases.minutes(day.exceeds_by), day.minutes - day.exceeds_by
    return phrases.say("plan.more_than_daily", minutes=more, daily=daily)

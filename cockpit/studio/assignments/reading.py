"""An assignment's line as she types it, understood: piece, measures, tempo, key, minutes and days, and where they stand.

What is not clear is kept as text and claims nothing. A part that takes one value (a tempo, a key) and is said twice in
different ways is not clear; so are minutes and repetitions said twice, for they may add up. The cuts of a line are
tried from left to right, each by the few readers that begin with its word, so that the work grows with its length.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import TypeVar

from cockpit.studio.assignments import measures, music, tempo
from cockpit.studio.assignments.amounts import (
    HOUR_WORDS,
    TIMES_WORDS,
    is_hours,
    past_fraction,
    read_hours,
    read_minutes,
    read_times,
    read_times_word,
    with_products,
)
from cockpit.studio.assignments.assignment import Assignment, Hands, Key, Measures, Pages, Part, Stretch, Tempo, Times
from cockpit.studio.assignments.clauses import NEGATIONS, days_off, with_denied
from cockpit.studio.assignments.days import (
    DAY_WORDS,
    TURNS_WORDS,
    days_left_out,
    is_day,
    read_days,
    read_fused_days,
    read_in_turns,
)
from cockpit.studio.assignments.memory import MEMORY_WORDS, read_memory
from cockpit.studio.assignments.passages import without_passing
from cockpit.studio.assignments.summary import understood as understood
from cockpit.studio.assignments.tokens import (
    ARTICLES,
    BRACED,
    LONGEST_READ,
    OTHER_NUMBERS,
    SPELLED,
    Claim,
    Reader,
    Tokens,
    TokenValue,
    tokens_of,
    words_in,
)
from cockpit.studio.clocks.words import MONTHS
from cockpit.studio.notes.areas import AnyArea, Area, OwnArea
from cockpit.studio.notes.notes import NoteLine
from cockpit.studio.values import replace

_TITLED = frozenset(
    {Area.PIECE, Area.REVIEW, Area.ETUDE, Area.METHOD_BOOK, Area.LISTENING, Area.TECHNIQUE, Area.OTHER}
)  # fmt: skip
_OF_SCALES = frozenset({Area.SCALES, Area.WARM_UP})
_COUNTED_IN_ORDER = frozenset({Area.PIECE, Area.REVIEW, Area.SCALES, Area.OTHER})
_AROUND_TITLE = frozenset(",;:-–—([{/&+*_•·")
# "Gavotte from m. 5", "Gavotte at 72 bpm": the word before what was understood belongs to it.
_LEADING_ON = words_in(
    "from at in on with and for of the to up through thru ca about every each only before after until first last except skip least most "
    "play practice work repeat rest do but then max ab bis de du von jeden jede le les el los nur am vom zum dem hasta avant seulement solo à a"
)
_NO_TITLE = words_in("pickup upbeat rehearsal every weekly nightly monthly hs ht lh rh HS HT LH RH")
# "Twice a week", "alternate days", "a couple of times", "two or three days": how many, and of what.
_HOW_MANY = frozenset(SPELLED) | words_in(
    "once twice thrice couple few several some most many all both half alternate alternating other another odd even school each"
)
_IN_A_ROW = frozenset({",", ";", "&", "+", "/", "and", "or", "then"})
_BESIDE_HOW_MANY = words_in("a an the of or to per each every - – /")
_OF_WHAT = words_in(
    "day days week weeks weekend weekends weekday weekdays morning mornings afternoon afternoons evening evenings night nights time times "
    "minutes mins hours sessions month months"
)
_COUNTED_FROM = measures.MEASURE_WORDS | measures.PAGE_WORDS | {"q", "h", "e"}
_IN_NAMES = frozenset({Part.MINUTES, Part.TIMES, Part.HANDS, Part.DAYS, Part.BY_HEART})
_BY = words_in("by before since due bis vor ab seit avant depuis hasta desde")
_LIMITING = NEGATIONS | _BY | words_in("only until till til max unless")
_MONTHS = frozenset(month[:3].lower() for month in MONTHS)
_SHORTEST_TITLE, _LONGEST_TITLE = 3, 80
_ADDING_UP = frozenset({Part.MINUTES, Part.TIMES})
# Of these a number or a day's name tells where they stand.
_TOLD_BY_SIGHT = frozenset({Part.DAYS, Part.MEASURES, Part.PAGES})
_SEVERAL = frozenset({Part.MEASURES, Part.PAGES, Part.BRACED})
_AMOUNTS: tuple[Reader, ...] = (music.read_octaves, read_times, read_minutes, read_hours)
_BY_NUMBER: tuple[Reader, ...] = (tempo.read_bpm, *_AMOUNTS, measures.read_following)
_BY_OTHER: tuple[Reader, ...] = (music.read_key, read_fused_days)
_LONGEST_OTHER = 8


def _read_braced(tokens: Tokens, at: int) -> Claim:
    return Claim(Part.BRACED, at, at + 1, (tokens.typed[at],))


def _readers() -> Mapping[str, tuple[Reader, ...]]:
    """The readers by the word they begin with; of two the first that understands it."""
    found: dict[str, tuple[Reader, ...]] = {}
    for words, readers in (
        (tempo.METRONOME_WORDS, (tempo.read_metronome_tempo,)),
        (tempo.BEAT_WORDS, (tempo.read_beat_tempo,)),
        (tempo.BARE_TEMPO_WORDS, (tempo.read_bare_tempo,)),
        (measures.MEASURE_WORDS, (measures.read_measures,)),
        (measures.BEGINNING_WORDS, (measures.read_from_beginning,)),
        (measures.PAGE_WORDS, (measures.read_pages,)),
        (measures.NUMBER_WORDS, (measures.read_number,)),
        (measures.OPUS_WORDS, (measures.read_opus,)),
        (music.HAND_WORDS, (music.read_hands,)),
        (TIMES_WORDS, (read_times_word,)),
        (TURNS_WORDS, (read_in_turns,)),
        (MEMORY_WORDS, (read_memory,)),
        (music.KEY_WORDS, (music.read_key,)),
        (DAY_WORDS, (read_days,)),
        (frozenset(SPELLED), _AMOUNTS),
        (HOUR_WORDS, (read_hours,)),
        ({BRACED}, (_read_braced,)),
    ):
        for word in words:
            found[word] = (*found.get(word, ()), *readers)
    return found


_BY_WORD = _readers()
_Kind = TypeVar("_Kind")


@lru_cache(maxsize=2000)  # of all lines one changes at a key
def read_assignment(line: NoteLine) -> Assignment:
    """What a line that assigns something says. The line's area is a piece's where it has none."""
    area = line.area or Area.PIECE
    text, braced = out_of_braces(line.text, area)
    tokens = tokens_of(text, area, braced)
    read = _found_in(tokens)
    named = _named_so(tokens, read) if is_titled(area) else None
    asked = read[1:] if named is not None else read
    spoken_of = with_products(tokens, without_passing(tokens, with_denied(tokens, asked)))
    found = _clear(_with_one_climb(spoken_of))
    claimed = {each.begins for each in found}
    unclear = [each for each in spoken_of if each.begins not in claimed and each.part not in _TOLD_BY_SIGHT]
    keys = [each for each in unclear if each.part is Part.KEY and not each.is_denied]
    assignment = Assignment(
        area=area,
        text=text,
        typed=line.typed,
        own_label=line.own_label,
        stretches=tuple(
            Stretch(part=each.part, begins=tokens.begins[each.begins], ends=tokens.ends[each.ends - 1])
            for each in found
        ),
        number=_one(found, Part.NUMBER, str) or number_of(line),
        opus=_one(found, Part.OPUS, str),
        pages=_all(found, Part.PAGES, Pages),
        measures=_joined(_all(found, Part.MEASURES, Measures)),
        tempo=_one(found, Part.TEMPO, Tempo),
        key=_one(found, Part.KEY, Key),
        octaves=_one(found, Part.OCTAVES, int),
        hands=_one(found, Part.HANDS, Hands),
        times=_one(found, Part.TIMES, Times),
        minutes=_one(found, Part.MINUTES, int),
        days=frozenset(_all(found, Part.DAYS, int)) or None,
        not_on=days_left_out(tokens) | days_off(tokens, spoken_of),
        in_turns=_one(found, Part.IN_TURNS, int) is not None,
        by_heart=line.is_by_heart or _one(found, Part.BY_HEART, int) is not None,
        braced=tuple(text[begins:ends] for begins, ends in braced),
        keys=_columns(tokens, music.rows_of_keys(tokens, keys, spoken_of)),
        unclear=_columns(tokens, ((each.begins, each.ends) for each in unclear if each not in keys)),
        named_so=(text[tokens.begins[named.begins] : tokens.ends[named.ends - 1]],) if named is not None else (),
    )
    titled = _with_title(assignment, *_title_between(tokens, spoken_of, named)) if is_titled(area) else assignment
    if area is not Area.OTHER:
        return titled
    is_piece = titled.title is not None and titled.title[:1].isupper()
    return replace(titled, area=Area.PIECE) if is_piece else assignment


def out_of_braces(text: str, area: AnyArea) -> tuple[str, tuple[tuple[int, int], ...]]:
    """A text without the braces of theory at hand, and the columns in it of what is no part of the assignment's own words.

    In a line of scales, a scale or an arpeggio is read as if it had none: it is what is practiced. An answer that was written
    out is no part of them either.
    """
    if "}" not in text and "(= " not in text:
        return text, ()
    from cockpit.studio.theory.braces import (
        without_braces,  # with 10 ms of patterns, which no other line waits for
        written_in,
    )
    from cockpit.studio.theory.reading import ArpeggioNotes, ScaleNotes

    bare, found = without_braces(text)
    own = ScaleNotes | ArpeggioNotes if area in _OF_SCALES else ()
    hidden = [(each.begins, each.ends) for each in found if not isinstance(each.meaning, own)]
    written = (
        (each.answered_at + 1 if isinstance(each.answer, own) else each.begins, each.ends) for each in written_in(bare)
    )
    return bare, tuple(_apart((*hidden, *written)))


def words_asked(text: str) -> tuple[str, ...]:
    """The words of a text that theory at hand understands, in braces or with their answer behind them."""
    if "}" not in text and "(= " not in text:
        return ()
    from cockpit.studio.theory.braces import without_braces, written_in

    bare, found = without_braces(text)
    return (*(each.words for each in found), *(bare[each.begins : each.answered_at] for each in written_in(bare)))


def _apart(stretches: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Stretches in order, without those that begin within the one before."""
    last = 0
    for begins, ends in sorted(stretches):
        if begins >= last:
            yield begins, ends
            last = ends


def column_as_typed(text: str, at: int) -> int:
    """The column of a line's text for one of what an assignment has of it, which is without braces."""
    if "}" not in text:
        return at
    from cockpit.studio.theory.braces import without_braces

    _, found = without_braces(text)
    return at + sum((each.begins <= at) + (each.ends <= at) for each in found)


def is_titled(area: AnyArea) -> bool:
    """Whether the lines of an area begin with a title."""
    return area.is_titled if isinstance(area, OwnArea) else area in _TITLED


def number_of(line: NoteLine) -> str | None:
    """The number in a label, "Etude #5:"; "Piece 2:" is the second of them, and no piece of that number."""
    is_order = line.area in _COUNTED_IN_ORDER and (line.number or "").strip().isdigit()
    found = re.search(r"\d+\w?", line.number or "")
    return found[0] if found and not is_order else None


def _found_in(tokens: Tokens) -> list[Claim]:
    found: list[Claim] = []
    at, count = 0, len(tokens.words)
    while at < count:
        here = _read_at(tokens, at)
        if here is not None and tokens.ends[here.ends - 1] <= LONGEST_READ:
            found.append(here)
            at = here.ends
        else:
            at += 1
    return found


def _read_at(tokens: Tokens, at: int) -> Claim | None:
    word = tokens.words[at]
    readers = _BY_WORD.get(word)
    if readers is None:
        readers = _BY_NUMBER if word.isdigit() else _BY_OTHER if len(word) <= _LONGEST_OTHER else ()
    for read in readers:
        if (found := read(tokens, at)) is not None:
            return found
    return None


def _with_one_climb(found: list[Claim]) -> list[Claim]:
    """Two tempos made one where the second says how far the first may climb: "q = 60 ... up to 96"."""
    claims = [(at, each) for at, each in enumerate(found) if not each.is_denied]
    marks = [(at, value) for at, each in claims for value in each.values if isinstance(value, Tempo)]
    if len(marks) != 2:
        return found
    (first_at, first), (second_at, second) = marks
    is_climb = second.is_ceiling and not first.is_ceiling and first.start is None and second.start is None
    if not is_climb or first.goal >= second.goal or second.beat not in {first.beat, 1}:
        return found
    climb = replace(first, start=first.goal, goal=second.goal)
    return [each._replace(values=(climb,)) if at in {first_at, second_at} else each for at, each in enumerate(found)]


def _clear(found: Sequence[Claim]) -> list[Claim]:
    """What is left without the parts that the line does not say clearly, and without what it says is not to be."""
    said: dict[Part, list[Claim]] = {}
    for each in found:
        if each.is_aside:
            continue
        said.setdefault(each.part, []).append(each)
    unclear = {part for part, every in said.items() if not _is_clear(part, every)}
    return [each for each in found if each.part not in unclear and not each.is_denied]


def _columns(tokens: Tokens, places: Iterable[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    return tuple((tokens.begins[begins], tokens.ends[ends - 1]) for begins, ends in places)


def _is_clear(part: Part, every: Sequence[Claim]) -> bool:
    found = [each for each in every if not each.is_denied]
    denied = [value for each in every if each.is_denied for value in each.values]
    if not all(each.values for each in every) or any(
        _overlaps(value, other) for each in found for value in each.values for other in denied
    ):
        return False
    return len(found) == 1 or part in _SEVERAL or (part not in _ADDING_UP and len({each.values for each in found}) == 1)


def _overlaps(value: TokenValue, other: TokenValue) -> bool:
    """Whether one is the other, or has measures or pages in common with it."""
    if isinstance(value, Measures | Pages) and isinstance(other, Measures | Pages):
        return value.first <= (other.last or value.first) and other.first <= (value.last or other.first)
    return value == other


def _all(found: Sequence[Claim], part: Part, kind: type[_Kind]) -> tuple[_Kind, ...]:
    return tuple(value for each in found if each.part is part for value in each.values if isinstance(value, kind))


def _joined(ranges: Sequence[Measures]) -> tuple[Measures, ...]:
    """The same ranges, those that have measures in common made one, so that no measure counts twice: 1-4 and 1-16."""
    joined: list[Measures] = []
    for each in ranges:
        beside = [other for other in joined if _overlaps(each, other)]
        place = joined.index(beside[0]) if beside else len(joined)
        ends = [other.last for other in (each, *beside)]
        joined = [other for other in joined if other not in beside]
        joined.insert(
            place,
            Measures(
                first=min(other.first for other in (each, *beside)),
                last=max(end for end in ends if end is not None) if None not in ends else None,
            ),
        )
    return tuple(joined)


def _one(found: Sequence[Claim], part: Part, kind: type[_Kind]) -> _Kind | None:
    return next(iter(_all(found, part, kind)), None)


def _named_so(tokens: Tokens, found: Sequence[Claim]) -> Claim | None:
    """What is a part of a title: words with capitals that a title begins with, and that go on with one.

    "Daily Bread", "5 Minute Rag", "Left Hand Study"; "Memory" is one also where nothing goes on.
    """
    first = found[0] if found else None
    if first is None or first.part not in _IN_NAMES or not ARTICLES.issuperset(tokens.words[: first.begins]):
        return None
    words = range(first.begins, first.ends)
    if not all(tokens.is_capital(at) or tokens.words[at].isdigit() for at in words):
        return None
    if first.part is Part.BY_HEART:
        return first if tokens.words[first.begins] == "memory" else None
    behind = tokens.past_joiners(first.ends)
    is_one_name = (
        tokens.is_capital(behind) and not tokens.goes_on(behind) and (len(found) == 1 or found[1].begins > behind)
    )
    is_weekday = first.part is Part.DAYS and tokens.words[first.begins] not in {
        "daily",
        "every",
        "everyday",
        "weekends",
        "weekdays",
    }
    return first if is_one_name and not is_weekday else None


def _title_between(tokens: Tokens, spoken_of: Sequence[Claim], named: Claim | None) -> tuple[int, int]:
    """The columns that a title can begin at, and of the first word that is none of its.

    That is of what was understood, or would have been, had it been clear; "Memorize" may stand before a title. A small
    word that limits, such as "except" and "by Friday", ends it; where the line goes on with what it does not ask for, so
    does the first small word: "Minuet mom says 20 minutes is too much".
    """
    first, others = 0, list(spoken_of)
    if others and others[0].begins == 0 and others[0].part is Part.BY_HEART:
        first = others.pop(0).ends
    ends = others[0].begins if others else len(tokens.words)
    behind = max(first, named.ends if named is not None else first)
    at = next(
        (at for at in range(behind, ends) if _is_no_title(tokens, at) or (at > behind and _limits(tokens, at))), ends
    )
    if (
        at == ends
        and others
        and (others[0].is_denied or not others[0].values)
        and tokens.is_capital(first)
        and tokens.words[first] not in ARTICLES
    ):
        at = _past_capitals(tokens, first, ends)
    if 0 < first == len(tokens.words):
        return LONGEST_READ, LONGEST_READ
    begins = tokens.begins[first] if first else 0
    return begins, tokens.begins[at] if at < len(tokens.words) else LONGEST_READ


def _limits(tokens: Tokens, at: int) -> bool:
    """Whether a small word limits what is asked for: a negation, or a preposition before a day, a month or a number."""
    word, behind = tokens.words[at], tokens.word(at + 1)
    if word not in _LIMITING or not tokens.typed[at].islower():
        return False
    is_date = is_day(behind) or behind.isdigit() or (behind[:3] in _MONTHS and tokens.is_capital(at + 1))
    return is_date or word not in _BY


def _past_capitals(tokens: Tokens, at: int, ends: int) -> int:
    """The place behind the words of a name: "The Wild Horseman"."""
    behind = at
    while behind < ends and (tokens.is_capital(behind) or not tokens.typed[behind][0].isalpha()):
        at = behind + 1
        behind = tokens.past_joiners(at)
    return at


def _is_no_title(tokens: Tokens, at: int) -> bool:
    word = tokens.words[at]
    after = tokens.word(at + 1)
    if _is_how_often(tokens, at) or _is_row_of_tempos(tokens, at):
        return True
    if word.isdigit():
        sign = at + 2 if after in {"then", "or"} else tokens.past_range_sign(at + 1)
        is_counted = tokens.counts_something(past_fraction(tokens, at if sign is None else sign))
        return is_counted or after in {"x", "×"}
    if word == "letter":
        return len(after) == 1
    if word in HOUR_WORDS and is_hours(tokens, at):
        return True
    is_count = tokens.typed[at].islower() and tempo.is_count_of_beats(tokens, at)
    is_in_letters = word in measures.COUNTED_IN_LETTERS and after in SPELLED.keys() | OTHER_NUMBERS
    behind = tokens.word(tokens.past_dot(at + 1))
    is_counted = is_count or is_in_letters or (word in _COUNTED_FROM and behind.isdigit())
    return is_counted or behind == "=" or tokens.typed[at] in _NO_TITLE


def _is_how_often(tokens: Tokens, at: int) -> bool:
    """Whether an amount in words begins at a place that no reader takes: "twice a week", "alternate days"."""
    behind, is_counted = at, False
    while (word := tokens.word(behind)).isdigit() or word in _HOW_MANY or word in _BESIDE_HOW_MANY:
        is_counted = is_counted or word in _HOW_MANY
        behind += 1
    return is_counted and tokens.word(behind) in _OF_WHAT and "".join(tokens.typed[at : behind + 1]).islower()


def _is_row_of_tempos(tokens: Tokens, at: int) -> bool:
    """Whether numbers that a metronome has stand side by side without saying what they are: "60 to 72", "60 72 80"."""
    after = tokens.past_range_sign(at + 1) or at + 1 + (tokens.word(at + 1) in _IN_A_ROW)
    return all(tokens.number(each, *tempo.BARE) is not None for each in (at, after))


def _with_title(assignment: Assignment, first: int, ends: int) -> Assignment:
    """The same with its title: the words before the first that is none, without what leads on to that."""
    begins, behind = _without_aside(assignment.text, *_trimmed(assignment.text, first, ends))
    while ends < len(assignment.text) and (last := assignment.text[begins:behind].rsplit(maxsplit=1)[-1:]):
        if last[0] not in _LEADING_ON:
            break
        begins, behind = _trimmed(assignment.text, begins, behind - len(last[0]))
    title = assignment.text[begins:behind]
    if sum(sign.isalpha() for sign in title) < _SHORTEST_TITLE or len(title) > _LONGEST_TITLE:
        return assignment
    stretch = Stretch(part=Part.TITLE, begins=begins, ends=behind)
    return replace(
        assignment, title=title, stretches=tuple(sorted((stretch, *assignment.stretches), key=lambda each: each.begins))
    )


def _without_aside(text: str, begins: int, ends: int) -> tuple[int, int]:
    """A title that begins with a capital goes no further than a comma before a small letter: "Gavotte, slowly".

    Nor than a bracket that it does not close.
    """
    opened = text.rfind("(", begins, ends)
    if opened > text.rfind(")", begins, ends):
        return _without_aside(text, *_trimmed(text, begins, opened))
    at = begins
    while text[begins:ends][:1].isupper() and (at := text.find(", ", at + 1, ends)) > 0:
        if text[at + 2 : ends].lstrip()[:1].islower():
            return _trimmed(text, begins, at)
    return begins, ends


def _trimmed(text: str, begins: int, ends: int) -> tuple[int, int]:
    """Where a stretch of text begins and ends without the spaces and signs around it."""
    ends = min(ends, len(text))
    while begins < ends and (text[ends - 1].isspace() or text[ends - 1] in _AROUND_TITLE):
        ends -= 1
    while begins < ends and (text[begins].isspace() or text[begins] in _AROUND_TITLE):
        begins += 1
    return begins, ends

"""What a line of the notes is, who reads it, and what she should know of it, in words."""

from collections.abc import Iterator

from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.assignments.goals import TypedOn, goal_day
from cockpit.studio.assignments.reading import is_titled, read_assignment, words_asked
from cockpit.studio.assignments.summary import understood
from cockpit.studio.clocks.words import long_date
from cockpit.studio.notes.areas import Area
from cockpit.studio.notes.labels import why_no_label
from cockpit.studio.notes.notes import Line, NoteLine, things_of
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.values import Value, replace

_FOR_YOU, _FOR_FAMILY = "for you alone", "for the family"
_PLAIN = {Line.PRIVATE: "Private", Line.FOLLOW_UP: "Follow-up", Line.NEXT_TIME: "Next time"}
_SCALE_WORDS = frozenset(
    [
        "scale",
        "scales",
        "arpeggio",
        "arpeggios",
        "chord",
        "chords",
        "tonleiter",
        "tonleitern",
        "gamme",
        "gammes",
        "escala",
        "escalas",
        "arpège",
        "arpèges",
        "arpegio",
        "arpegios",
    ]
)
_BY_WORD = {
    "etude": Area.ETUDE,
    "étude": Area.ETUDE,
    "etüde": Area.ETUDE,
    "study": Area.ETUDE,
    "exercise": Area.TECHNIQUE,
}
_MOST_LABEL_WORDS = 3
_OF_A_NAME = frozenset({"of", "for", "the", "in"})


class LabelOffer(Value):
    """A label that would make a line an assignment, and the line with it."""

    label: str
    line: str


def kind_phrases(line: NoteLine) -> tuple[str, str]:
    """What a line is, and who reads it: `assignment: piece`, `for the family`."""
    if line.line is Line.ASSIGNMENT:
        area = read_assignment(line).area
        kind = "assignment" if area is Area.OTHER else f"assignment: {area}"
        return kind, _FOR_FAMILY
    return str(line.line), _FOR_YOU if line.line.is_kept_back else _FOR_FAMILY


def warnings_of(line: NoteLine, labels: Labels = BUILT_IN) -> Iterator[str]:
    """What she should know of the label of a line, in short: `"Mum:" is no label`."""
    if line.kept_back_by is not None:
        yield f'"{line.kept_back_by}" is taken for {_PLAIN[line.line]}'
    if line.no_label is not None:
        yield f'"{line.no_label}" {why_no_label(line.no_label, labels)}'
    if kept := _unread(line):
        yield f"not read: {', '.join(kept)}"


def sentence_of(line: NoteLine) -> str:
    """All that is understood of a line, in one row: `assignment: piece · for the family · measures 17–32 (16)`."""
    return " · ".join(filter(None, (*kind_phrases(line), meaning_of(line))))


def goal_phrases(line: NoteLine, typed: TypedOn) -> tuple[str, ...]:
    """The day of a goal, or why none is understood; nothing of any other line."""
    if line.line is not Line.GOAL:
        return ()
    day = goal_day(line.text, typed)
    return (f"by {long_date(day.by_on)}" if day.by_on is not None else day.fault or "no day",)


def meaning_of(line: NoteLine) -> str:
    """What is understood of an assignment, or the things to get; nothing of any other line."""
    if line.line is Line.ASSIGNMENT:
        return understood(read_assignment(line))
    return " · ".join(thing.text for thing in things_of(line))


def warning_of(line: NoteLine, offer: LabelOffer | None, labels: Labels = BUILT_IN) -> str | None:
    """What she should know of a line, in sentences; None where there is nothing."""
    said: list[str] = []
    if line.kept_back_by is not None:
        said.append(f'"{line.kept_back_by}" is taken for {_PLAIN[line.line]}: this line is kept back.')
    if line.no_label is not None:
        why = why_no_label(line.no_label, labels)
        if why == "is no label":
            as_what = " as a remark" if line.line is Line.REMARK else ""
            said.append(
                f'"{line.no_label}" is no label yet: the family will read this line{as_what}. See settings, [labels].'
            )
        else:
            said.append(f'"{line.no_label}" {why}: the family will read this line.')
    if kept := _unread(line):
        said.append(f"Kept as typed, not read: {', '.join(map(_quoted, kept))}.")
    if offer is not None:
        said.append(f'This looks like an assignment: it would take the label "{offer.label}".')
    return " ".join(said) or None


def label_offer(line: NoteLine, labels: Labels = BUILT_IN) -> LabelOffer | None:
    """The label that a remark would take that looks like an assignment: it has measures, a tempo or minutes in it."""
    if line.line is not Line.REMARK or line.label is not None or not line.text.strip():
        return None
    guess = read_assignment(replace(line, line=Line.ASSIGNMENT, area=Area.PIECE, text=line.text.strip()))
    if not (guess.measures or guess.tempo or guess.minutes):
        return None
    text = line.text.strip()
    words = text.split()
    for count in range(min(_MOST_LABEL_WORDS, len(words)), 0, -1):
        begins = " ".join(words[:count])
        is_name = begins[-1].isalnum() and _OF_A_NAME.isdisjoint(words[:count])
        meaning = labels.meaning(begins) if is_name else None
        if meaning is not None and meaning.area is not None and meaning.area is not Area.OTHER:
            label = f"{begins[:1].upper()}{begins[1:]}:"
            is_in_title = is_titled(meaning.area) and meaning.area is not Area.TECHNIQUE  # "Song of the wind"
            rest = text if is_in_title else text[len(begins) :].lstrip()
            return LabelOffer(label=label, line=f"{label} {rest}")
    label = f"{_area_for(guess, line)[:1].upper()}{_area_for(guess, line)[1:]}:"
    return LabelOffer(label=label, line=f"{label} {text}")


def _unread(line: NoteLine) -> tuple[str, ...]:
    if line.line is not Line.ASSIGNMENT:
        return ()
    from cockpit.studio.assignments.unread import unread  # with 15 ms of patterns, which no first screen waits for

    asked = words_asked(line.text)
    return tuple(each for each in unread(read_assignment(line)) if not any(each in words for words in asked))


def _quoted(words: str) -> str:
    return f'"{words}"'


def _area_for(guess: Assignment, line: NoteLine) -> str:
    """The area of a line without a label, by what is in it."""
    words = {word.strip(".,;:!?()").lower() for word in line.text.split()}
    as_scale = read_assignment(replace(line, line=Line.ASSIGNMENT, area=Area.SCALES, text=line.text.strip()))
    if not _SCALE_WORDS.isdisjoint(words) or (as_scale.octaves and as_scale.key):
        return Area.SCALES
    if found := next((area for word, area in _BY_WORD.items() if word in words), None):
        return found
    return Area.METHOD_BOOK if guess.pages and guess.title is None else Area.PIECE

"""The rows of a recital: the program in columns with its exceptions, what is to be looked at, rehearsals and sittings."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.recital.recitals import ListedRecital, RecitalsView
from cockpit.screens.look.show import (
    HAPPENED,
    NEEDS_HER,
    NOT,
    NOW,
    OPEN,
    PRIVATE,
    WIDEST,
    Piece,
    cut_at_word,
    hung,
    lines_of,
    placed,
    role,
)
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.changes.recital import PinnedTo, Recital, RecitalItem, RecitalItemId
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import clock_time, counted, near_date
from cockpit.studio.recital.lengths import length_words
from cockpit.studio.recital.program import ProgramRow, RecitalProgram, begins_at
from cockpit.studio.recital.readiness import NotedAnswer, Readiness
from cockpit.studio.shown import one_line
from cockpit.studio.values import Value
from cockpit.wording.readiness import answer_words, exceptions, heard_facts, tempo_heard, worst_answer
from cockpit.wording.recital import ends_words, exact_time, row_names, trouble_words, troubles_words

ITEM, OTHER, BETWEEN = "item", "recital", ":"
"""What the id of a row begins with: an item of the program, or a rehearsal or sitting; then its number."""
_WIDE, _ROOMY = 68, 100  # columns from which on lengths stand in a row of their own column, and instruments
_WHO, _WHO_NARROW, _INSTRUMENT, _TITLE, _TEMPO = 16, 11, 10, 28, 10
_WIDEST = 148  # columns of a row: what was noted of an item is told in full where there is room
_LONGEST_NAME = 34
_SHORT_TITLE = 12  # columns of a title beside which a sign of what is not ready has room, where its words have none
_ANSWERS = {NotedAnswer.NO: (NOT, role("absent", "bold")), NotedAnswer.NOT_SAID: (OPEN, role("text"))}
_GAP = 2
_HALVES = 12


class ShownRecital(Value):
    """A recital as it is shown: its program, what was noted of its items, and today on the teacher's clock."""

    program: RecitalProgram
    ready: Mapping[RecitalItemId, Readiness]
    home: TeacherClock
    today: date


def recital_options(shown: ShownRecital, width: int) -> list[Option]:
    """All rows of a recital in so many columns; groups without rows are left out."""
    width = min(width, _WIDEST)
    program, columns = shown.program, _Columns(shown, width)
    options: list[Option] = [group("program", width, counted(len(program.rows), "item") if program.rows else "")]
    if program.rows:
        options += columns.rows()
    else:
        said = 'No items yet. Press a, then type a student and a piece, such as "ilse the old mill 3:00, by heart".'
        options.append(Option(_quiet(said, width), disabled=True))
    if troubles := troubles_words(program.troubles, shown.home):
        options.append(group("to look at", width, len(troubles)))
        options += [Option(_trouble(each, width), disabled=True) for each in troubles]
    others = [("rehearsal", each) for each in program.rehearsals] + [("sitting", each) for each in program.sittings]
    if others:
        options.append(group("rehearsals and sittings", width, len(others)))
        options += [
            Option(_other(kind, each, shown, width), id=f"{OTHER}{BETWEEN}{each.id}")
            for kind, each in sorted(others, key=lambda pair: begins_at(pair[1]))
        ]
    return options


def item_facts(row: ProgramRow, shown: ShownRecital, width: int) -> list[Content]:
    """What is known of a number: what stands against it, what is worn and brought, what was noted of each who plays."""
    against = [
        trouble_words(each, shown.home)
        for each in shown.program.troubles
        if each.row is not None and each.row.number == row.number
    ]
    lines = [line for each in against for line in _lines(f"{NEEDS_HER} {each}", width, role("warning", "bold"))]
    item = row.shared
    said = "  ".join(filter(None, _item_words(item, shown)))
    for performer in row.performers:
        ready = shown.ready.get(performer.item.id)
        facts = [*heard_facts(ready, shown.today)] if ready is not None else []
        noted = [f"{each.what} {answer_words(each, shown.today)}" for each in ready.noted] if ready is not None else []
        worn = [f"costume: {performer.item.costume}" if performer.item.costume else ""]
        worn += [f"brings: {performer.item.props}" if performer.item.props else ""]
        who = f"{performer.called}: " if len(row.performers) > 1 else ""
        if width < _WIDE and ready is not None:  # its row has no room for them
            lines += _lines(who + "  ".join(exceptions(ready, shown.today)), width, role("text", "bold"))
        lines += _lines(who + "  ".join(filter(None, (*facts, *worn, *noted))), width, role("text"))
    if said:
        lines += _lines(said, width, role("quiet"))
    if item.note:
        lines += _lines(f"{PRIVATE} {one_line(item.note)}", width, role("private", "italic"))
    return lines


def list_options(view: RecitalsView, home: TeacherClock, today: date, width: int) -> list[Option]:
    """All recitals in so many columns: those to come with their rehearsals and sittings, then those past."""
    width = min(width, WIDEST)
    options: list[Option] = []
    for words, listed in (("to come", view.coming), ("past", view.past)):
        if listed:
            options.append(group(words, width, len(listed)))
            longest = max(cell_len(_full_name(each)) for each in listed)
            options += [Option(_listed(each, home, today, width, longest), id=str(each.recital.id)) for each in listed]
    if not options:
        said = 'No recital yet. Press n, then type a name, a day, and a time, such as "winter tales, sat dec 19 12pm".'
        options.append(Option(_quiet(said, width), disabled=True))
    return options


def shown_title(program: RecitalProgram, home: TeacherClock, today: date) -> tuple[str, str]:
    """The name and the theme of a recital; and when and where it is."""
    recital = program.recital
    where = "online" if recital.is_online else one_line(recital.place or "")
    local = home.local(program.starts_at)
    when = f"{near_date(local.date(), today)}, {clock_time(local, home.hours)}"
    kind = "rehearsal" if recital.is_rehearsal else "sitting" if recital.parent_id is not None else ""
    named = (kind, one_line(recital.name), one_line(recital.theme or ""))
    return "  ".join(filter(None, named)), "  ".join(filter(None, (when, where)))


class _Columns:
    """Where what stands in a row of the program; what there is no room for is left out of the row."""

    def __init__(self, shown: ShownRecital, width: int) -> None:
        self._shown, self._home, self._width = shown, shown.home, width
        rows = shown.program.rows
        self._is_wide = width >= _WIDE
        self._time = 8 if self._is_wide else 5
        half = 3 if self._home.hours == _HALVES else 0
        at = 6 + self._time + half + 1
        self._lasts = at if self._is_wide else 0
        self._who = at + 8 if self._is_wide else at
        most = _WHO if self._is_wide else _WHO_NARROW
        who = min(most, max((cell_len(row_names(row)) for row in rows), default=0))
        self._who_room = who
        at = self._who + who + _GAP
        self._instrument = at if width >= _ROOMY else 0
        at += _INSTRUMENT + _GAP if self._instrument else 0
        self._piece = at
        longest = max((cell_len(one_line(row.shared.piece)) for row in rows), default=0)
        self._ready = width - 1 if not self._is_wide and width - at >= _SHORT_TITLE + _GAP else 0
        self._piece_room = (
            min(_TITLE, longest, width - at) if self._is_wide else width - at - (_GAP if self._ready else 0)
        )
        at += self._piece_room + _GAP
        self._tempo = at if width >= _ROOMY else 0
        at += _TEMPO + _GAP if self._tempo else 0
        self._noted = at if self._is_wide and width - at >= len("by heart no") else 0

    def rows(self) -> Iterable[Option]:
        """The head, the welcome, the numbers, the thanks, and the end."""
        program, recital, times = self._shown.program, self._shown.program.recital, self._shown.program.times
        if self._is_wide:
            yield Option(placed(self._width, *self._head()), disabled=True)
        half = ""
        if recital.opening_seconds:
            words, half = self._around(program.starts_at, recital.opening_seconds, "welcome", half)
            yield Option(words, disabled=True)
        for row in program.rows:
            words, half = self._row(row, half)
            yield Option(words, id=f"{ITEM}{BETWEEN}{row.shared.id}")
        if recital.closing_seconds:
            words, half = self._around(times.closing_at, recital.closing_seconds, "thanks", half)
            yield Option(words, disabled=True)
        is_over = times.left is not None and times.left < 0
        end = _sentence(ends_words(program, self._home))
        style = role("warning", "bold") if is_over else role("quiet")
        sign = f"{NEEDS_HER} " if is_over else "  "
        yield Option(Content.styled(cut_at_word(f"{sign}{end}", self._width), style), disabled=True)

    def _head(self) -> list[Piece]:
        quiet = role("quiet")
        heads = [(3, "#"), (6 + self._time - len("starts"), "starts"), (self._lasts + 1, "lasts")]
        if self._noted:
            heads.append((self._tempo or self._noted, "readiness, as noted"))
        return [(column, words, quiet) for column, words in heads]

    def _row(self, row: ProgramRow, half: str) -> tuple[Content, str]:
        item, shown = row.shared, self._shown
        time, half = self._clock(row.time.starts_at, half)
        sign, style = self._sign(row)
        is_over = item.ended_at is not None or item.is_skipped
        name = role("quiet") if is_over else role("text", "bold")
        pieces: list[Piece] = [
            (0, sign, style),
            (2, f"{row.number:>2}", role("quiet")),
            (6, time, role("quiet")),
            (self._who, cut_at_word(row_names(row), self._who_room), name),
            (self._piece, _cut_title(one_line(item.piece), self._piece_room), role("text")),
        ]
        if self._lasts:
            pieces.append((self._lasts, f"{length_shown(row):>6}", role("quiet" if item.seconds else "warning")))
        if self._instrument:
            instruments = " and ".join(dict.fromkeys(each.instrument for each in row.items if each.instrument))
            pieces.append((self._instrument, cut_at_word(one_line(instruments), _INSTRUMENT), role("quiet")))
        readies = [shown.ready[each.id] for each in row.items if each.id in shown.ready]
        if self._tempo and readies and (tempo := tempo_heard(readies[0])):
            pieces.append((self._tempo, cut_at_word(tempo, _TEMPO), role("quiet")))
        if self._ready and (answer := _worst([worst_answer(each, shown.today) for each in readies])) is not None:
            pieces.append((self._ready, *_ANSWERS[answer]))
        if self._noted:
            said = "  ".join(dict.fromkeys(each for ready in readies for each in exceptions(ready, shown.today)))
            pieces.append((self._noted, cut_at_word(said, self._width - self._noted), role("text")))
        return placed(self._width, *pieces), half

    def _sign(self, row: ProgramRow) -> tuple[str, str]:
        item = row.shared
        if item.is_skipped:
            return NOT, role("cancelled", "bold")
        if item.ended_at is not None:
            return HAPPENED, role("finished")
        if item.began_at is not None:
            return NOW, role("clock_running")
        against = any(each.row is not None and each.row.number == row.number for each in self._shown.program.troubles)
        return (NEEDS_HER, role("warning", "bold")) if against else (OPEN, role("text"))

    def _around(self, at: datetime, seconds: int, words: str, half: str) -> tuple[Content, str]:
        time, half = self._clock(at, half)
        quiet = role("quiet")
        lasts: list[Piece] = [(self._lasts, f"{length_words(seconds):>6}", quiet)] if self._lasts else []
        return placed(self._width, (6, time, quiet), *lasts, (self._who, words, quiet)), half

    def _clock(self, at: datetime, before: str) -> tuple[str, str]:
        """A time with seconds where there is room, and its half of the day, which is named where it changes."""
        if self._is_wide:
            time, _, half = exact_time(at, self._home).partition(" ")
        else:
            time, half = self._home.time_and_half(at)
        shown_half = half if half != before and self._home.hours == _HALVES else ""
        return f"{time:>{self._time}} {shown_half}".rstrip(), half


def length_shown(row: ProgramRow) -> str:
    """How long a number lasts: `3:00`, `~4:00` where that was worked out, `?` where nobody knows."""
    seconds = row.shared.seconds
    return "?" if seconds is None else f"{'~' if row.shared.is_computed else ''}{length_words(seconds)}"


def _worst(answers: Sequence[NotedAnswer | None]) -> NotedAnswer | None:
    return next((each for each in (NotedAnswer.NO, NotedAnswer.NOT_SAID) if each in answers), None)


def _cut_title(title: str, room: int) -> str:
    return cut_at_word(title, room) if room > 1 else ""


def _item_words(item: RecitalItem, shown: ShownRecital) -> Iterable[str]:
    yield f"by {one_line(item.composer)}" if item.composer else ""
    yield f"with {one_line(item.with_whom)}" if item.with_whom else ""
    yield f"story: {one_line(item.story)}" if item.story else ""
    yield f"enters {one_line(item.enters)}" if item.enters else ""
    yield f"shown as {one_line(item.shown_as)}" if item.shown_as else ""
    match item.pin:
        case PinnedTo.FIRST | PinnedTo.LAST:
            yield f"pinned {item.pin}"
        case PinnedTo.AFTER:
            rows = [row for row in shown.program.rows if item.pinned_after in {each.id for each in row.items}]
            yield f"pinned after {row_names(rows[0])}" if rows else ""
        case PinnedTo.BEFORE if item.pinned_before is not None:
            yield f"pinned before {clock_time(item.pinned_before, shown.home.hours)}"
        case _:
            yield ""


def _other(kind: str, recital: Recital, shown: ShownRecital, width: int) -> Content:
    local = shown.home.local(begins_at(recital))
    when = f"{near_date(local.date(), shown.today)}, {clock_time(local, shown.home.hours)}"
    is_over = recital.ended_at is not None or local.date() < shown.today
    sign, style = (HAPPENED, role("finished")) if is_over else (OPEN, role("text"))
    return placed(width, (0, sign, style), (2, kind, role("text", "bold")), (13, when, role("quiet")))


def _listed(each: ListedRecital, home: TeacherClock, today: date, width: int, longest: int) -> Content:
    local = home.local(each.starts_at)
    when = f"{near_date(local.date(), today)}, {clock_time(local, home.hours)}"
    weeks = counted(each.weeks, "week") if each.weeks else ""
    tail = "  ".join(filter(None, (counted(each.numbers, "item"), weeks)))
    sign, style = (OPEN, role("text")) if local.date() >= today else (HAPPENED, role("finished"))
    room = min(longest, _LONGEST_NAME, width - 2)
    name = (2, cut_at_word(_full_name(each), room), role("text", "bold"))
    at = 2 + room + _GAP
    if at + cell_len(when) > width:
        return Content("\n").join(
            [
                placed(width, (0, sign, style), name),
                placed(width, (2, when, role("quiet")), (width - cell_len(tail), tail, role("quiet"))),
            ]
        )
    return placed(
        width, (0, sign, style), name, (at, when, role("quiet")), (width - cell_len(tail), tail, role("quiet"))
    )


def _full_name(each: ListedRecital) -> str:
    recital = each.recital
    kind = "rehearsal of " if recital.is_rehearsal else "sitting of " if recital.parent_id is not None else ""
    return f"{kind}{one_line(recital.name)}"


def _lines(words: str, width: int, style: str) -> list[Content]:
    return [Content.styled(line.plain, style) for line in lines_of(Content(one_line(words)), width)] if words else []


def _trouble(words: str, width: int) -> Content:
    sign = Content.styled(f"{NEEDS_HER} ", role("warning", "bold"))
    lines = hung(Content.styled(words, role("text")), width - 2)
    return Content("\n").join([sign + lines[0], *(Content("  ") + line for line in lines[1:])])


def _quiet(words: str, width: int) -> Content:
    return Content("\n").join(hung(Content.styled(words, role("quiet")), width))


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."

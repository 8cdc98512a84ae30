"""The rows of a student's page: pieces with what was heard, those that are done, the mix, the latest notes."""

from collections.abc import Iterable, Iterator
from datetime import date

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.day.looking_back import EarlierLesson
from cockpit.desk.pieces.pages import DonePiece, OpenGoal, PieceOnPage, StudentPage
from cockpit.screens.day.earlier import became
from cockpit.screens.day.last import area_of, mark_sign
from cockpit.screens.lessons.progress_rows import mix_row
from cockpit.screens.look.show import (
    HAPPENED,
    OPEN,
    PRIVATE,
    WIDEST,
    Piece,
    cut_at_word,
    hung,
    lines_of,
    placed,
    role,
    wrapped,
)
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.clocks.words import counted, near_day
from cockpit.studio.notes.notes import Line
from cockpit.studio.pieces.mix import is_over
from cockpit.studio.pieces.plot import heights
from cockpit.studio.pieces.rules import MixRules
from cockpit.studio.values import Value
from cockpit.wording.pieces import (
    a_week,
    attendance_words,
    done_words,
    measures_words,
    one_decimal,
    plot_words,
    repertoire_words,
    signed,
    tempo_words,
)

PIECE, DONE, LESSON = "piece", "done", "lesson"
BETWEEN = ":"
"""What a row is, and behind a sign the key of its piece or the number of its lesson: one taken up again stands twice."""
_NAME, _LONGEST_NAME = 16, 30
_NUMBER = 4  # columns of a tempo with a blank before it
_WEEKS, _PACE, _NEEDED = 5, 9, 10
_PLOT, _LONG_PLOT = 8, 16
_ROOM_FOR_COLUMNS = 68
_ROOM_FOR_LONG_PLOT = 96
_MEASURES = 16


class PieceColumns(Value):
    """Where the columns of the pieces stand in so many columns; on a narrow screen the numbers have a row of their own."""

    width: int
    is_ascii: bool = False

    @property
    def is_narrow(self) -> bool:
        """Whether the numbers stand below the name."""
        return self.width < _ROOM_FOR_COLUMNS

    @property
    def plot(self) -> int:
        """How many hearings the plot shows."""
        return _LONG_PLOT if self.width >= _ROOM_FOR_LONG_PLOT else _PLOT

    @property
    def needed(self) -> int:
        """Where the last column ends."""
        return self.width

    @property
    def pace(self) -> int:
        """Where the pace so far ends."""
        return self.needed - _NEEDED

    @property
    def goal(self) -> int:
        """Where the goal ends."""
        return self.pace - _PACE

    @property
    def heard(self) -> int:
        """Where what was heard begins: the first tempo, the plot, the last one."""
        return self.goal - _NUMBER - (_NUMBER + 1 + self.plot + _NUMBER)

    @property
    def weeks(self) -> int:
        """Where the weeks end."""
        return self.width if self.is_narrow else self.heard - 1

    @property
    def name(self) -> int:
        """How many columns the name has."""
        room = self.weeks - (len(" 11 weeks") if self.is_narrow else _WEEKS) - 2
        return room if self.is_narrow else min(_LONGEST_NAME, max(_NAME, room - _MEASURES))

    def heading(self, words: str, count: str) -> list[Option]:
        """The heading of a group of pieces, and the names of the columns."""
        rows: list[Option] = [group(words, self.width, count)]
        if not self.is_narrow:
            names = [
                _ending(self.weeks, "wks"), (self.heard + 1, "heard", ""), _ending(self.goal, "goal"),
                _ending(self.pace, "a week"), _ending(self.needed, "needed"),
            ]  # fmt: skip
            pieces = [(at, name, role("quiet")) for at, name, _ in names]
            rows.append(Option(placed(self.width, *pieces), disabled=True))
        return rows


def page_options(page: StudentPage, rules: MixRules, width: int, *, is_ascii: bool = False) -> list[Option]:
    """All rows of a page in so many columns; groups without rows are left out. Plots are figures where it `is_ascii`."""
    columns = PieceColumns(width=min(width, WIDEST), is_ascii=is_ascii)
    count = f"{len(page.open) + len(page.older)} open, {len(page.done)} done"
    options: list[Option] = []
    for words, pieces, said in (("pieces", page.open, count), ("older, still open", page.older, str(len(page.older)))):
        if pieces:
            options += columns.heading(words, said)
            options += [_piece_option(each, page, columns) for each in pieces]
    if page.goals:
        options.append(group("goals", columns.width, len(page.goals)))
        options += [_goal_option(each, page.on, columns.width) for each in page.goals]
    if page.done:
        options.append(group("done", columns.width, len(page.done)))
        options += [_done_option(each, page.on, columns) for each in page.done]
    if mix := _mix_rows(page, rules, columns.width):
        options.append(group("the mix, 8 weeks", columns.width, "oldest left"))
        options.append(Option(Content("\n").join(mix), disabled=True))
    if page.lessons:
        options.append(group("notes", columns.width, "n reads on"))
        options += [_lesson_option(each, page.on, columns.width) for each in page.lessons]
    last = [Content.styled(f"  {said}", role("quiet")) for said in _last_words(page)]
    return [*options, Option(Content("\n").join([Content(), *last]), disabled=True)]


def facts(page: StudentPage) -> str:
    """Attendance in words, with the day that it is counted from."""
    said = attendance_words(page.attended)
    return said if not page.attended.planned else f"since {near_day(page.since, page.on)}: {said}"


def _last_words(page: StudentPage) -> Iterator[str]:
    if page.unread:
        yield f"Not counted yet: {counted(page.unread, 'earlier lesson')} whose notes are still to be read."
    if page.open or page.older:
        yield "Numbers of what was heard. They do not predict."
    elif not page.done:
        yield "No pieces yet. A piece is listed here as soon as you give it in a lesson."


def _ending(at: int, words: str) -> Piece:
    return at - cell_len(words), words, ""


def _styled(pieces: Iterable[Piece], style: str) -> list[Piece]:
    return [(at, words, own or style) for at, words, own in pieces if words]


def _piece_option(piece: PieceOnPage, page: StudentPage, columns: PieceColumns) -> Option:
    rows = [*_piece_rows(piece, page.on, columns)]
    if (other := page.alike_to(piece.key)) is not None and (alike := page.piece(other)) is not None:
        said = f"{piece.history.title} and {alike.title}: one piece? j joins them, t keeps two"
        rows += [Content(" " * 4) + line for line in lines_of(Content.styled(said, role("asked")), columns.width - 4)]
    return Option(Content("\n").join(rows), id=f"{PIECE}{BETWEEN}{piece.key}")


def _piece_rows(piece: PieceOnPage, on: date, columns: PieceColumns) -> list[Content]:
    tempo, now = piece.tempo, piece.history.now
    sign = (HAPPENED, role("finished")) if tempo.at_goal_since is not None else mark_sign(now.state)
    count = now.weeks(on)
    weeks = _ending(columns.weeks, (counted(count, "week") if columns.is_narrow else str(count)) if count else "")
    title = cut_at_word(piece.history.title, columns.name - 1)
    detail = "" if columns.is_narrow else _detail(piece, columns.weeks - _WEEKS - columns.name - 3)
    named: list[Piece] = [
        (0, *sign), (2, title, role("text", "bold")), (2 + columns.name, detail, role("quiet")),
        (*weeks[:2], role("quiet")),
    ]  # fmt: skip
    rows = [placed(columns.width, *named, *([] if columns.is_narrow else _numbers(piece, on, columns)))]
    if columns.is_narrow:
        facts = [*_facts(piece, columns)]
        rows += [Content.styled(row, role("text")) for row in wrapped(facts, columns.width, " " * 4).splitlines()]
    if piece.measures is not None:
        rows.append(_measures_row(piece, columns))
    if state := repertoire_words(piece.history.said, piece.due, on):
        rows.append(placed(columns.width, (4, state, role("asked"))))
    return rows


def _numbers(piece: PieceOnPage, on: date, columns: PieceColumns) -> list[Piece]:
    """What was heard with its plot, the goal, the pace so far and the pace that is needed; or that nothing was heard."""
    tempo = piece.tempo
    goal = [_ending(columns.goal, tempo_words(tempo.goal, tempo.beat))] if tempo.goal is not None else []
    if tempo.first is None or tempo.last is None:
        return _styled([(columns.heard + 1, "not heard yet", ""), *goal], role("quiet"))
    heard = [each.quarters for each in piece.history.now.hearings]
    plot = plot_words(heights(heard[-columns.plot :], tempo.goal), is_ascii=columns.is_ascii)
    at = columns.heard + _NUMBER
    pieces = [_ending(at, tempo_words(tempo.first.quarters, tempo.beat))] if len(heard) > 1 else []
    behind = at + 1 + len(plot) + 1 if len(heard) > 1 else at - _NUMBER + 1
    last = tempo_words(tempo.last.quarters, tempo.beat)
    pieces += [(at + 1, plot, "")] if len(heard) > 1 else []
    pieces += [(behind, last, role("text", "bold")), *goal]
    if tempo.at_goal_since is not None:
        since = near_day(tempo.at_goal_since, on)
        said = f"at goal since {since}"
        is_short = cell_len(said) > columns.needed - columns.goal - 2
        pieces.append(_ending(columns.needed, "at the goal" if is_short else said))
        return _styled(pieces, role("text"))
    if tempo.so_far is not None:
        pieces.append(_ending(columns.pace, signed(tempo.so_far.beats)))
    if tempo.is_past:
        pieces.append(_ending(columns.needed, "past"))
    elif tempo.needed is not None:
        pieces.append(_ending(columns.needed, signed(tempo.needed.beats)))
    return _styled(pieces, role("text"))


def _facts(piece: PieceOnPage, columns: PieceColumns) -> Iterator[str]:
    """The same numbers, each with its name, where there are no columns."""
    tempo = piece.tempo
    if tempo.first is None or tempo.last is None:
        yield "not heard yet"
    else:
        heard = [each.quarters for each in piece.history.now.hearings]
        plot = plot_words(heights(heard[-columns.plot :], tempo.goal), is_ascii=columns.is_ascii)
        first, last = (tempo_words(each.quarters, tempo.beat) for each in (tempo.first, tempo.last))
        yield f"heard {first} {plot} {last}" if len(heard) > 1 else f"heard {last}"
    if tempo.goal is not None:
        yield "at the goal" if tempo.at_goal_since is not None else f"goal {tempo_words(tempo.goal, tempo.beat)}"
    if tempo.so_far is not None and tempo.at_goal_since is None:
        yield f"{signed(tempo.so_far.beats)} a week"
    if tempo.needed is not None:
        yield f"{signed(tempo.needed.beats)} needed"


def _measures_row(piece: PieceOnPage, columns: PieceColumns) -> Content:
    measures = piece.measures
    if measures is None:
        return Content()
    said = measures_words(measures)
    if columns.is_narrow:
        so_far = f"{a_week(measures.so_far)} so far" if measures.so_far is not None else ""
        return placed(
            columns.width, (4, cut_at_word("  ".join(filter(None, (said, so_far))), columns.width - 4), role("quiet"))
        )
    ends = [(columns.pace, measures.so_far), (columns.needed, measures.needed)]
    paces = [_ending(at, one_decimal(value)) for at, value in ends if value is not None]
    return placed(columns.width, (4, said, role("quiet")), *_styled(paces, role("quiet")))


def _detail(piece: PieceOnPage, room: int) -> str:
    """What of a piece is asked now: its measures, where it comes from, that it is by heart."""
    asked, said = piece.history.now.asked.read, piece.history.said
    measures = ", ".join(f"{each.first}-{each.last}" if each.last else f"{each.first} on" for each in asked.measures)
    facts = [f"mm. {measures}" if measures else "", "by heart" if asked.by_heart else ""]
    facts += [said.origin or "", said.composer or ""] if said is not None else []
    shown = ""
    for fact in filter(None, facts):
        longer = f"{shown}, {fact}" if shown else fact
        shown = longer if cell_len(longer) <= room else shown
    return shown


def _done_option(done: DonePiece, on: date, columns: PieceColumns) -> Option:
    state = repertoire_words(done.history.said, done.due, on)
    name = min(columns.name, _LONGEST_NAME)
    said = ", ".join(filter(None, (done_words(done.time, on), state)))
    style = role("asked" if done.due is not None and done.due.is_due(on) else "quiet")
    row = placed(
        columns.width,
        (0, HAPPENED, role("finished")),
        (2, cut_at_word(done.history.title, name - 1), role("text")),
        (2 + name if not columns.is_narrow else columns.width - cell_len(said), said, style),
    )
    return Option(row, id=f"{DONE}{BETWEEN}{done.history.key}")


def _goal_option(goal: OpenGoal, on: date, width: int) -> Option:
    """A goal as it was typed, and since when it is one; of one whose day has passed, that."""
    label = area_of(goal.given)
    words = hung(Content.styled(f"{label}: {goal.given.line.text}" if label else goal.given.line.text), width - 2)
    since = f"since {near_day(goal.given.since, on)}"
    passed = f"its day, {near_day(goal.by_on, on)}, has passed" if goal.by_on is not None and goal.is_past(on) else ""
    rows = [
        Content.assemble((OPEN if number == 0 else " ", role("text")), " ", row) for number, row in enumerate(words)
    ]
    rows.append(Content.styled(f"  {', '.join(filter(None, (since, passed)))}", role("quiet")))
    return Option(Content("\n").join(rows), disabled=True)


def _mix_rows(page: StudentPage, rules: MixRules, width: int) -> list[Content]:
    return [mix_row(each, page.on, rules, width) for each in page.mix.areas if each.touched or is_over(each, rules)]


def _lesson_option(earlier: EarlierLesson, on: date, width: int) -> Option:
    """A lesson's notes: its date, what was given, the first remark, and the first line that is hers alone."""
    areas = dict.fromkeys(
        (each.line.own_label or str(each.line.area or each.line.line)).capitalize() for each in earlier.given
    )
    remark = next((line.text for line in earlier.lines if line.line is Line.REMARK), "")
    private = next((line.text for line in earlier.lines if line.line is Line.PRIVATE), "")
    room = width - 20
    rows = [
        placed(
            width,
            (2, near_day(earlier.on, on), role("quiet")),
            (20, cut_at_word(", ".join(areas), room), role("text")),
        )
    ]
    if not areas:
        instead = next(iter(became(earlier, on)), Content.styled("nothing given", role("quiet")))
        rows = [Content.assemble(rows[0][:20], instead)]
    if remark:
        rows.append(placed(width, (20, cut_at_word(remark, room), role("text"))))
    if private:
        said = cut_at_word(private, room)
        rows.append(placed(width, (18, PRIVATE, role("private")), (20, said, role("private", "italic"))))
    return Option(Content("\n").join(rows), id=f"{LESSON}{BETWEEN}{earlier.lesson.id}")

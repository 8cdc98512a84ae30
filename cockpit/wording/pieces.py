"""How pieces come along and what the mix is, in words and in figures; numbers are rounded half up."""

from collections.abc import Sequence
from datetime import date
from fractions import Fraction
from math import floor

from cockpit.studio.calendar.attendance import Attendance
from cockpit.studio.changes.pieces import Piece, PieceState
from cockpit.studio.clocks.words import counted, near_day
from cockpit.studio.notes.notes import Mark
from cockpit.studio.pieces.history import PieceHearing, PieceTime
from cockpit.studio.pieces.kept_alive import DuePiece, KeptAlive
from cockpit.studio.pieces.mix import MixLine, StudioStrand
from cockpit.studio.pieces.pace import MeasuresProgress, Pace, PieceProgress

_BEATS = {
    Fraction(4): "w", Fraction(2): "h", Fraction(1): "q", Fraction(1, 2): "e", Fraction(1, 4): "s",
    Fraction(3): "h.", Fraction(3, 2): "q.", Fraction(3, 4): "e.",
}  # fmt: skip
_BEAT_NAMES = {
    Fraction(4): "whole", Fraction(2): "half", Fraction(1): "quarter", Fraction(1, 2): "eighth", Fraction(1, 4): "sixteenth",
}  # fmt: skip
_MINUS = "−"


def one_decimal(value: Fraction) -> str:
    """A number with one decimal, half up and away from zero: `7.8`, `−0.5`, `21.8`."""
    tenths = floor(abs(value) * 10 + Fraction(1, 2))
    sign = _MINUS if value < 0 and tenths else ""
    return f"{sign}{tenths // 10}.{tenths % 10}"


def signed(value: Fraction) -> str:
    """A change with one decimal and its sign: `+4.0`, `−1.5`, `0.0`."""
    figures = one_decimal(value)
    return f"+{figures}" if value > 0 and figures != "0.0" else figures


def beat_sign(beat: Fraction) -> str:
    """The shorthand of a note value, as it is typed in notes: `q`, `h`, `q.`; of one without a sign, nothing."""
    return _BEATS.get(beat, "")


def beats_words(beat: Fraction) -> str:
    """The beats that a tempo counts: `quarter notes a minute`, `dotted quarter notes a minute`; else `beats a minute`."""
    plain, dotted = _BEAT_NAMES.get(beat), _BEAT_NAMES.get(beat / Fraction(3, 2))
    name = plain or (f"dotted {dotted}" if dotted else "")
    return f"{name} notes a minute" if name else "beats a minute"


def tempo_words(quarters: Fraction, beat: Fraction) -> str:
    """A tempo in beats of a note value: `72`, `37.5`."""
    figures = one_decimal(quarters / beat)
    return figures.removesuffix(".0")


def plot_words(heights: Sequence[int], *, is_ascii: bool = False) -> str:
    """A small plot, a sign for each height from 1 to 8: `▁▁▂▃▃`, or as figures, `11233`."""
    return "".join(str(height) if is_ascii else chr(0x2580 + height) for height in heights)


def heard_words(progress: PieceProgress) -> str:
    """The tempos heard first and last, in the beat of the piece: `60`, `60 to 72`; `not heard yet` before that."""
    first, last = (_heard(each, progress.beat) for each in (progress.first, progress.last))
    if not last or not first:
        return "not heard yet"
    return last if progress.first == progress.last else f"{first} to {last}"


def _heard(hearing: PieceHearing | None, beat: Fraction) -> str:
    return tempo_words(hearing.quarters, beat) if hearing is not None else ""


def a_week(value: Fraction) -> str:
    """How many a week: `4.0 a week`."""
    return f"{one_decimal(value)} a week"


def pace_words(pace: Pace) -> str:
    """A pace in beats a minute and in marks of a metronome: `4.0 a week, 1.3 marks a week`."""
    return f"{a_week(pace.beats)}, {one_decimal(pace.marks)} marks a week"


def needed_words(progress: PieceProgress, today: date) -> str:
    """What is needed up to the goal, or why nothing is: `7.8 a week`, `at the goal since November 24`, `December 19 is past`."""
    if progress.goal is None:
        return ""
    if progress.at_goal_since is not None:
        return f"at the goal since {near_day(progress.at_goal_since, today)}"
    if progress.is_past and progress.by_on is not None:
        return f"{near_day(progress.by_on, today)} is past"
    if progress.last is None:
        return "not heard yet"
    return a_week(progress.needed.beats) if progress.needed is not None else ""


def measures_words(progress: MeasuresProgress) -> str:
    """How many measures were given of all: `40 of 96 measures`."""
    return f"{progress.covered} of {counted(progress.all, 'measure')}"


def state_words(time: PieceTime) -> str:
    """How a piece went, as far as it is known: `more work`, `done`; `not heard yet` without a mark."""
    return str(time.state) if time.state is not None else "not heard yet"


def done_words(time: PieceTime, today: date) -> str:
    """When a piece was done or dropped: `October 6`, `dropped, October 6`."""
    on = near_day(time.last_on, today)
    return f"dropped, {on}" if time.state is Mark.DROPPED else on


def kept_alive_words(kept: KeptAlive, today: date) -> str:
    """When a piece that is kept alive is due: `due in 3 weeks`, `due since November 17`."""
    if kept.is_due(today):
        return f"due since {near_day(kept.due_on, today)}" if kept.due_on < today else "due today"
    return f"due in {counted(kept.weeks_left(today), 'week')}"


def repertoire_words(said: Piece | None, due: KeptAlive | None, today: date) -> str:
    """Where she has a piece: `kept alive, due in 3 weeks`, `resting since October 6`; nothing of one that is being learned."""
    if due is not None:
        return f"{PieceState.KEPT_ALIVE}, {kept_alive_words(due, today)}"
    if said is None or said.state is PieceState.LEARNING or said.state_since is None:
        return ""
    return f"{said.state} since {near_day(said.state_since, today)}"


def due_words(piece: DuePiece, today: date) -> str:
    """A piece that is due at the beginning of a lesson: `Keep alive: Little Canoe, due since November 17`."""
    return f"Keep alive: {piece.title}, {kept_alive_words(piece.due, today)}"


def since_words(line: MixLine) -> str:
    """How long ago an area was given last: `11 weeks ago`, `9 lesson weeks ago`, `never in 4 weeks`, `this week`."""
    weeks = counted(line.weeks_since, "lesson week" if line.has_breaks else "week")
    if line.last_on is None:
        return f"never in {weeks}" if line.weeks_since else "never"
    return f"{weeks} ago" if line.weeks_since else "this week"


def mention_words(line: MixLine) -> str:
    """An area or a strand that is mentioned at the beginning of a lesson: `Theory: 11 weeks ago`."""
    return f"{line.name[:1].upper()}{line.name[1:]}: {since_words(line)}"


def strand_words(strand: StudioStrand) -> str:
    """Who did not have a strand in eight weeks: `not Oskar (11 weeks), Ilse (9 weeks); never Wren`; or that everybody had it."""
    late = [f"{name} ({counted(line.weeks_since, 'week')})" for name, line in strand.others if line.last_on is not None]
    never = [name for name, line in strand.others if line.last_on is None]
    said = [f"not {', '.join(late)}" if late else "", f"never {', '.join(never)}" if never else ""]
    return "; ".join(filter(None, said)) or "everybody who is taught it"


def attendance_words(attended: Attendance) -> str:
    """Attendance with its denominator: `11 of 12 planned lessons taught (91.7 %), one made up`, and what became of others."""
    if not attended.planned or attended.percent_of_planned is None:
        return "no lessons yet"
    percent = one_decimal(attended.percent_of_planned)
    words = f"{attended.attended} of {counted(attended.planned, 'planned lesson')} taught ({percent} %)"
    others = (
        (attended.made_up, "made up"), (attended.absent, "absent"), (attended.cancelled, "canceled in time"),
        (attended.cancelled_late, "canceled late"), (attended.called_off, "called off"), (attended.unmarked, "not marked"),
    )  # fmt: skip
    return ", ".join((words, *(f"{count} {what}" for count, what in others if count)))

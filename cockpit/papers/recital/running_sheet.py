"""The sheet by which the teacher runs a recital, as Markdown. It is her own: it says what no family may see."""

from collections.abc import Iterator

from cockpit.papers.notes.literal import literal_inline, literal_line
from cockpit.studio.changes.recital import PinnedTo, RecitalItem
from cockpit.studio.clocks.moments import zone_at
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import city, clock_time
from cockpit.studio.recital.lengths import length_words
from cockpit.studio.recital.papers import there
from cockpit.studio.recital.program import Performer, ProgramRow
from cockpit.studio.recital.running_sheet import RunningSheet
from cockpit.studio.shown import one_line
from cockpit.wording.recital import ends_words, exact_time, noted_words, recital_title, row_names, trouble_words

_HERS = "For you alone: it has your notes, and what no other family may see."


def running_sheet_markdown(sheet: RunningSheet, home: TeacherClock) -> str:
    """A recital from beginning to end; times on the teacher's clock."""
    program = sheet.program
    name, when = recital_title(program, home).split("\n")
    blocks = [f"# Running sheet: {literal_inline(name)}", _HERS, literal_line(when)]
    blocks += _section("Look at this first", (trouble_words(each, home) for each in program.troubles))
    blocks += _section("Clocks", _clocks(sheet, home))
    if program.recital.opening_seconds:
        blocks.append(
            f"{exact_time(program.starts_at, home)} welcome ({length_words(program.recital.opening_seconds)})"
        )
    for row in program.rows:
        blocks += [f"## {row.number}. {literal_inline(_heading(row))}", _listed(_row(row, sheet, home))]
    closing = program.recital.closing_seconds
    thanks = f"{exact_time(program.times.closing_at, home)} thanks ({length_words(closing)}), " if closing else ""
    return "\n\n".join((*blocks, f"{thanks}{ends_words(program, home)}.")) + "\n"


def _section(heading: str, lines: Iterator[str]) -> list[str]:
    listed = _listed(lines)
    return [f"## {heading}", listed] if listed else []


def _listed(lines: Iterator[str]) -> str:
    return "\n".join(f"- {literal_inline(line)}" for line in lines)


def _clocks(sheet: RunningSheet, home: TeacherClock) -> Iterator[str]:
    """When it begins on the clock of each family."""
    for family in sheet.program.families:
        local = there(sheet.program.starts_at, family.zone)
        at = f"{local.at:%a} {clock_time(local.at, home.hours)}"
        yield f"{one_line(family.name)}: {at} in {city(zone_at(family.zone, sheet.program.starts_at))}"


def _heading(row: ProgramRow) -> str:
    return f"{row_names(row)}: {one_line(row.shared.piece)}"


def _row(row: ProgramRow, sheet: RunningSheet, home: TeacherClock) -> Iterator[str]:
    shared = row.shared
    lasts = length_words(shared.seconds) if shared.seconds is not None else "length not known"
    yield f"{exact_time(row.time.starts_at, home)}, {lasts}{', worked out' if shared.is_computed else ''}"
    for label, words in (
        ("Composer", shared.composer),
        ("Story", shared.story),
        ("Pinned", _pin(shared, sheet, home)),
    ):
        if words:
            yield f"{label}: {one_line(words)}"
    for each in row.performers:
        whose = f"{one_line(each.called)}: " if len(row.performers) > 1 else ""
        yield from (f"{whose}{line}" for line in _performer(each, sheet))


def _performer(each: Performer, sheet: RunningSheet) -> Iterator[str]:
    item = each.item
    yield f"on the program as {one_line(each.shown_as)}{f', {one_line(item.instrument)}' if item.instrument else ''}"
    for label, words in (
        ("with", item.with_whom),
        ("enters", item.enters),
        ("costume", item.costume),
        ("props", item.props),
        ("note", item.note),
    ):
        if words:
            yield f"{label}: {one_line(words)}"
    readiness = sheet.readiness.get(item.id)
    if readiness is not None:
        yield from noted_words(readiness)


def _pin(item: RecitalItem, sheet: RunningSheet, home: TeacherClock) -> str | None:
    if item.pin is PinnedTo.AFTER:
        return next(
            (
                f"after {_heading(row)}"
                for row in sheet.program.rows
                if item.pinned_after in {each.id for each in row.items}
            ),
            None,
        )
    if item.pin is PinnedTo.BEFORE and item.pinned_before is not None:
        local = home.local(sheet.program.starts_at).replace(
            hour=item.pinned_before.hour, minute=item.pinned_before.minute
        )
        return f"before {clock_time(local, home.hours)}"
    return str(item.pin) if item.pin is not None else None

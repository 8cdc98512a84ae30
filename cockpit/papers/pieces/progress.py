"""The progress sheet: as Markdown, as plain text, and as the body of a page with a small picture for each piece."""

from collections.abc import Iterator
from datetime import date
from html import escape

from cockpit.papers.notes.literal import literal, literal_inline, literal_line
from cockpit.papers.notes.plan import tempo_words
from cockpit.papers.notes.sentences import beginning
from cockpit.papers.pieces.plot import tempo_plot
from cockpit.papers.words.dates import chart_day, long_date, month_and_day
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.assignments.assignment import Tempo
from cockpit.studio.pieces.history import PieceHearing
from cockpit.studio.pieces.progress_sheet import ProgressSheet, SheetDone, SheetPiece
from cockpit.studio.shown import one_line, typed_lines


def progress_title(sheet: ProgressSheet, phrases: Phrases) -> str:
    """What the sheet is called."""
    return phrases.say("report.title", student=one_line(sheet.student))


def progress_markdown(sheet: ProgressSheet, phrases: Phrases) -> str:
    """The sheet as a Markdown document; parts without a line are left out."""
    blocks = [f"# {literal_inline(progress_title(sheet, phrases))}", literal_line(_when(sheet, phrases))]
    blocks += [literal(sheet.words)] if sheet.words.strip() else []
    for heading, lines in _parts(sheet, phrases):
        blocks += [f"## {literal_inline(heading)}", "\n".join(f"- {literal_inline(line)}" for line in lines)]
    return "\n\n".join((*blocks, "---", literal_line(phrases.say("report.no_forecast")))) + "\n"


def progress_text(sheet: ProgressSheet, phrases: Phrases) -> str:
    """The sheet as plain text, for a mail."""
    blocks = [progress_title(sheet, phrases), _when(sheet, phrases)]
    blocks += ["\n".join(typed_lines(sheet.words)).strip("\n")] if sheet.words.strip() else []
    for heading, lines in _parts(sheet, phrases):
        blocks.append("\n".join((heading, *(f"- {line}" for line in lines))))
    return "\n\n".join((*blocks, phrases.say("report.no_forecast"))) + "\n"


def progress_body(sheet: ProgressSheet, phrases: Phrases) -> str:
    """What stands on the page of the sheet, without its frame."""
    return "\n".join(_body(sheet, phrases)) + "\n"


def _body(sheet: ProgressSheet, phrases: Phrases) -> Iterator[str]:
    yield f"<h1>{escape(progress_title(sheet, phrases))}</h1>"
    yield f"<p>{escape(_when(sheet, phrases))}</p>"
    if sheet.words.strip():
        words = "<br>".join(map(escape, typed_lines(sheet.words.strip("\n"))))
        yield f'<section class="remarks">\n<p>{words}</p>\n</section>'
    for heading, lines in _parts(sheet, phrases):
        yield f"<h2>{escape(heading)}</h2>"
        if heading == phrases.say("report.now"):
            yield _table(sheet, phrases)
        else:
            yield "<ul>\n" + "".join(f"<li>{escape(line)}</li>\n" for line in lines) + "</ul>"
    yield f'<p class="legend">{escape(phrases.say("report.no_forecast"))}</p>'


def _when(sheet: ProgressSheet, phrases: Phrases) -> str:
    first, last = (long_date(on, phrases, is_in_sentence=True) for on in (sheet.from_on, sheet.until_on))
    return beginning(phrases.say("dates.range", first=first, last=last))


def _parts(sheet: ProgressSheet, phrases: Phrases) -> Iterator[tuple[str, list[str]]]:
    """The parts that have lines: the heading of each, and its lines."""
    yield phrases.say("report.lessons"), [_lessons(sheet, phrases)]
    if sheet.pieces:
        yield phrases.say("report.now"), [_piece_line(each, sheet.until_on, phrases) for each in sheet.pieces]
    if sheet.done:
        yield phrases.say("report.done"), [_done_line(each, sheet.until_on, phrases) for each in sheet.done]


def _lessons(sheet: ProgressSheet, phrases: Phrases) -> str:
    if not sheet.planned:
        return phrases.say("report.no_lessons")
    said = _counted("report.attended", sheet.planned, phrases, attended=sheet.attended)
    made_up = _counted("report.made_up", sheet.made_up, phrases) if sheet.made_up else ""
    return ", ".join(filter(None, (said, made_up)))


def _counted(key: str, count: int, phrases: Phrases, **words: object) -> str:
    return phrases.say(f"{key}_{'one' if count == 1 else 'other'}", count=count, **words)


def _called(piece: SheetPiece | SheetDone) -> str:
    """A piece with its composer and where it comes from, as far as that is known."""
    about = ", ".join(one_line(each) for each in (piece.composer, piece.origin) if each)
    return f"{one_line(piece.title)} ({about})" if about else one_line(piece.title)


def _day(on: date, today: date, phrases: Phrases) -> str:
    """A day, with its year where that is another one than that of `today`."""
    return month_and_day(on, phrases) if on.year == today.year else long_date(on, phrases, is_in_sentence=True)


def _piece_line(piece: SheetPiece, today: date, phrases: Phrases) -> str:
    since = phrases.say("report.since", date=_day(piece.since, today, phrases))
    return "; ".join((f"{_called(piece)}, {since}", *_facts(piece, today, phrases)))


def _facts(piece: SheetPiece, today: date, phrases: Phrases) -> Iterator[str]:
    if piece.hearings:
        yield _labeled("report.first", _heard(piece.hearings[0], today, phrases), phrases)
        if len(piece.hearings) > 1:
            yield _labeled("report.last", _heard(piece.hearings[-1], today, phrases), phrases)
    if piece.goal is not None:
        yield _labeled("report.goal", tempo_words(piece.goal, phrases), phrases)
    if piece.needs_more_work:
        yield phrases.say("report.more_work")


def _labeled(key: str, words: str, phrases: Phrases) -> str:
    return f"{phrases.say('notes.label', label=phrases.say(key))} {words}"


def _heard(hearing: PieceHearing, today: date, phrases: Phrases) -> str:
    return phrases.say(
        "report.heard",
        tempo=tempo_words(Tempo(beat=hearing.beat, goal=hearing.tempo), phrases),
        date=_day(hearing.on, today, phrases),
    )


def _done_line(piece: SheetDone, today: date, phrases: Phrases) -> str:
    return f"{_called(piece)}, {_day(piece.on, today, phrases)}"


def _table(sheet: ProgressSheet, phrases: Phrases) -> str:
    """The pieces as a table: each with its picture, and the tempos heard first and last, and the goal, as numbers."""
    heads = "".join(f'<th scope="col">{escape(phrases.say(f"report.{key}"))}</th>' for key in ("first", "last", "goal"))
    rows = "".join(_row(each, sheet.until_on, phrases) for each in sheet.pieces)
    return f'<table class="tempos">\n<thead><tr><td></td>{heads}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>'


def _row(piece: SheetPiece, today: date, phrases: Phrases) -> str:
    since = phrases.say("report.since", date=_day(piece.since, today, phrases))
    notes = [since, *([phrases.say("report.more_work")] if piece.needs_more_work else [])]
    plot = _plot(piece, today, phrases) if len(piece.hearings) > 1 else ""
    first = _cell(piece.hearings[0], today, phrases) if piece.hearings else ""
    last = _cell(piece.hearings[-1], today, phrases) if len(piece.hearings) > 1 else ""
    goal = escape(tempo_words(piece.goal, phrases)) if piece.goal is not None else ""
    return (
        f'<tr><th scope="row"><strong>{escape(_called(piece))}</strong> <small>{escape("; ".join(notes))}</small>{plot}</th>'
        f"<td>{first}</td><td>{last}</td><td>{goal}</td></tr>\n"
    )


def _cell(hearing: PieceHearing, today: date, phrases: Phrases) -> str:
    tempo = tempo_words(Tempo(beat=hearing.beat, goal=hearing.tempo), phrases)
    is_near = hearing.on.year == today.year
    on = chart_day(hearing.on, phrases, has_month=True)[1] if is_near else _day(hearing.on, today, phrases)
    return f"{escape(tempo)} <small>{escape(on)}</small>"


def _plot(piece: SheetPiece, today: date, phrases: Phrases) -> str:
    goal = piece.goal.goal * piece.goal.beat if piece.goal is not None else None
    said = [_heard(each, today, phrases) for each in piece.hearings]
    said += [_labeled("report.goal", tempo_words(piece.goal, phrases), phrases)] if piece.goal is not None else []
    return tempo_plot(piece.hearings, goal, phrases.say("report.tempos", piece=one_line(piece.title)), "; ".join(said))

"""The program of a recital, and the sheet of one family: as Markdown, as plain text, and as the body of a page."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from html import escape

from cockpit.papers.notes.literal import literal_inline, literal_line
from cockpit.papers.notes.plan import tempo_words
from cockpit.papers.notes.sentences import beginning
from cockpit.papers.words.dates import city, clock_time, long_date
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.post.letters import TimeThere
from cockpit.studio.recital.papers import FamilyProgram, OwnItem, PublicItem, PublicProgram, RehearsalTold
from cockpit.studio.shown import one_line

_SIZES = ((8, "few"), (12, "full"))  # items that go on one sheet, folded, in two sizes of type
_BREAK = "  \n"


def program_title(program: PublicProgram) -> str:
    """What the program is called: the name of the recital."""
    return one_line(program.name)


def program_markdown(program: PublicProgram, hours: int, phrases: Phrases, level: int = 1) -> str:
    """The program as Markdown; `level` is that of its heading."""
    head = [literal_line(program.theme)] if program.theme else []
    blocks = [
        f"{'#' * level} {literal_inline(program_title(program))}",
        *head,
        literal_line(_when(program, hours, phrases)),
    ]
    for item in program.items:
        first, *others = _item_lines(item, phrases)
        indent = " " * (len(str(item.number)) + 2)
        lines = (f"{item.number}. {literal_inline(first)}", *(f"{indent}{literal_line(each)}" for each in others))
        blocks.append(_BREAK.join(lines))
    return "\n\n".join((*blocks, literal_line(_closing(program, phrases)))) + "\n"


def program_text(program: PublicProgram, hours: int, phrases: Phrases) -> str:
    """The program as plain text."""
    head = [program_title(program), *([one_line(program.theme)] if program.theme else [])]
    blocks = ("\n".join((*head, _when(program, hours, phrases))), *_items_text(program.items, phrases))
    return "\n\n".join((*blocks, _closing(program, phrases))) + "\n"


# All families of a language have the same items: sixty of them took 1 ms as text, and 2 ms as a page, for each family.
@lru_cache(maxsize=8)
def _items_text(items: tuple[PublicItem, ...], phrases: Phrases) -> tuple[str, ...]:
    blocks = []
    for item in items:
        first, *others = _item_lines(item, phrases)
        indent = " " * (len(str(item.number)) + 2)
        blocks.append("\n".join((f"{item.number}. {first}", *(f"{indent}{each}" for each in others))))
    return tuple(blocks)


@lru_cache(maxsize=8)
def _items_body(items: tuple[PublicItem, ...], phrases: Phrases) -> str:
    return "".join(_item(each, phrases) for each in items)


def program_body(program: PublicProgram, hours: int, phrases: Phrases, level: int = 1) -> str:
    """What stands on the page of the program, without its frame; `level` is that of its heading."""
    size = next((name for most, name in _SIZES if len(program.items) <= most), "many")
    theme = f'<p class="theme">{_isolated(one_line(program.theme))}</p>\n' if program.theme else ""
    items = _items_body(program.items, phrases)
    listed = f"<ol>\n{items}</ol>\n" if items else ""
    return (
        f'<section class="program {size}">\n'
        f"<h{level}>{escape(program_title(program))}</h{level}>\n{theme}"
        f"<p>{escape(_when(program, hours, phrases))}</p>\n{listed}"
        f"<p>{escape(_closing(program, phrases))}</p>\n</section>\n"
    )


def sheet_title(papers: FamilyProgram, phrases: Phrases) -> str:
    """What a family's papers are called: the recital, and for whom."""
    return phrases.say("recital.for", name=program_title(papers.program), students=_students(papers, phrases))


def sheet_markdown(papers: FamilyProgram, hours: int, phrases: Phrases) -> str:
    """All that a family gets as Markdown: its own sheet, then the program."""
    blocks = [f"# {literal_inline(sheet_title(papers, phrases))}"]
    for heading, lines in _parts(papers, hours, phrases):
        blocks += [f"## {literal_inline(heading)}", "\n".join(f"- {literal_inline(line)}" for line in lines)]
    return "\n\n".join((*blocks, "---", program_markdown(papers.program, hours, phrases, level=2)))


def sheet_text(papers: FamilyProgram, hours: int, phrases: Phrases) -> str:
    """The same as plain text, for a mail."""
    blocks = [sheet_title(papers, phrases)]
    for heading, lines in _parts(papers, hours, phrases):
        blocks.append("\n".join((heading, *(f"- {line}" for line in lines))))
    return "\n\n".join((*blocks, "-" * 40, program_text(papers.program, hours, phrases)))


def sheet_body(papers: FamilyProgram, hours: int, phrases: Phrases) -> str:
    """The same as what stands on a page, without its frame; printed, the program is a sheet of its own."""
    parts = "".join(
        f"<h2>{_isolated(heading)}</h2>\n<ul>\n{_listed(lines)}</ul>\n"
        for heading, lines in _parts(papers, hours, phrases)
    )
    return (
        f"<h1>{escape(sheet_title(papers, phrases))}</h1>\n{parts}"
        f"{program_body(papers.program, hours, phrases, level=2)}"
    )


def _students(papers: FamilyProgram, phrases: Phrases) -> str:
    return phrases.joined([one_line(each) for each in papers.students]) if papers.students else ""


def _listed(lines: Iterable[str]) -> str:
    return "".join(f"<li>{_linked(line)}</li>\n" for line in lines)


def _isolated(text: str) -> str:
    """Text that runs the way of its own script, whatever stands around it."""
    return f"<bdi>{escape(text)}</bdi>"


def _linked(line: str) -> str:
    """A line of a list; an address that ends it can be followed."""
    before, found, address = line.rpartition("https://")
    if not found or any(sign.isspace() for sign in address):
        return escape(line)
    address = escape(f"{found}{address}")
    return f'{escape(before)}<a href="{address}">{address}</a>'


def _moment(at: TimeThere, hours: int, phrases: Phrases) -> str:
    return phrases.say(
        "letter.moment",
        date=long_date(at.at.date(), phrases),
        time=clock_time(at.at, hours, phrases),
        city=city(at.zone, phrases),
    )


def _when(program: PublicProgram, hours: int, phrases: Phrases) -> str:
    where = phrases.say("recital.online") if program.is_online else one_line(program.place or "")
    return "\N{NO-BREAK SPACE}· ".join(filter(None, (beginning(_moment(program.starts, hours, phrases)), where)))


def _closing(program: PublicProgram, phrases: Phrases) -> str:
    return phrases.say("recital.closing" if program.items else "recital.no_items")


def _names(names: Iterable[str | None], phrases: Phrases) -> list[str]:
    return [one_line(each) if each is not None else phrases.say("recital.somebody") for each in names]


def _item_lines(item: PublicItem, phrases: Phrases) -> Iterator[str]:
    """The lines of a number: the piece and its composer, who plays it on what, and its story."""
    yield f"{one_line(item.piece)} ({one_line(item.composer)})" if item.composer else one_line(item.piece)
    who = phrases.joined(_names(item.names, phrases))
    yield f"{who}, {one_line(item.instrument)}" if item.instrument else who
    if item.story:
        yield one_line(item.story)


def _item(item: PublicItem, phrases: Phrases) -> str:
    composer = f" <small>{_isolated(one_line(item.composer))}</small>" if item.composer else ""
    # What joins the names is escaped with them, so that they are put in only afterwards.
    marks = [f"\x00{place}\x00" for place in range(len(item.names))]
    who = escape(phrases.joined(marks))
    for mark, name in zip(marks, _names(item.names, phrases), strict=True):
        who = who.replace(mark, _isolated(name))
    instrument = f", {_isolated(one_line(item.instrument))}" if item.instrument else ""
    story = f"<br><em>{_isolated(one_line(item.story))}</em>" if item.story else ""
    return (
        f"<li><b>{item.number}.</b> <strong>{_isolated(one_line(item.piece))}</strong>{composer}"
        f"<br>{who}{instrument}{story}</li>\n"
    )


def _parts(papers: FamilyProgram, hours: int, phrases: Phrases) -> Iterator[tuple[str, list[str]]]:
    """The parts of the sheet: the day, each rehearsal, and each number that is played; the heading and the lines of each."""
    yield phrases.say("recital.day"), [*_day(papers, hours, phrases)]
    for rehearsal in papers.rehearsals:
        yield phrases.say("recital.rehearsal"), [*_rehearsal(rehearsal, hours, phrases)]
    for item in papers.own:
        label = phrases.say("notes.label", label=one_line(item.student))
        yield f"{label} {one_line(item.piece)}", [*_own(item, hours, phrases)]


def _day(papers: FamilyProgram, hours: int, phrases: Phrases) -> Iterator[str]:
    program = papers.program
    yield beginning(_moment(program.starts, hours, phrases))
    is_same_day = papers.be_there.at.date() == program.starts.at.date()
    early = clock_time(papers.be_there.at, hours, phrases) if is_same_day else _moment(papers.be_there, hours, phrases)
    yield phrases.say("recital.be_there", time=early)
    if papers.held is not None:
        held, here = (
            phrases.say(
                "recital.day_in",
                date=long_date(at.at.date(), phrases, is_in_sentence=True),
                city=city(at.zone, phrases),
            )
            for at in (papers.held, program.starts)
        )
        yield phrases.say("recital.other_date", held=held, here=here)
    if papers.changed_on is not None:
        day = long_date(papers.changed_on, phrases, is_in_sentence=True)
        yield phrases.say("recital.clock_changed", city=city(program.starts.zone, phrases), date=day)
    yield from _where(papers.link, program.place, phrases)


def _rehearsal(rehearsal: RehearsalTold, hours: int, phrases: Phrases) -> Iterator[str]:
    yield beginning(_moment(rehearsal.starts, hours, phrases))
    yield from _where(rehearsal.link, rehearsal.place, phrases)


def _where(link: str | None, place: str | None, phrases: Phrases) -> Iterator[str]:
    if place:
        yield _labeled("recital.place", one_line(place), phrases)
    if link:
        yield _labeled("recital.link", one_line(link), phrases)


def _own(item: OwnItem, hours: int, phrases: Phrases) -> Iterator[str]:
    number = phrases.say("recital.number", number=item.number)
    if item.starts is None:
        yield number
    else:
        yield phrases.say("recital.about", number=number, time=clock_time(item.starts.at, hours, phrases))
    said = {
        "composer": item.composer,
        "with": _with(item, phrases),
        "enters": item.enters,
        "costume": item.costume,
        "props": item.props,
        "story": item.story,
        "goal": tempo_words(item.goal, phrases) if item.goal is not None else None,
        "bring": _to_bring(item, phrases),
    }
    for name, words in said.items():
        if words:
            yield _labeled(f"recital.{name}", one_line(words), phrases)


def _with(item: OwnItem, phrases: Phrases) -> str | None:
    names = [*_names(item.partners, phrases), *([one_line(item.with_whom)] if item.with_whom else [])]
    return phrases.joined(names) if names else None


def _to_bring(item: OwnItem, phrases: Phrases) -> str | None:
    things = [*filter(None, (item.instrument, item.costume, item.props))]
    things += [phrases.say("recital.track")] if item.has_track else []
    return phrases.joined([one_line(each) for each in things]) if things else None


def _labeled(key: str, words: str, phrases: Phrases) -> str:
    return f"{phrases.say('notes.label', label=phrases.say(key))} {words}"

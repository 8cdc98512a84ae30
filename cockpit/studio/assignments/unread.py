"""What of an assignment's text was not understood, and may matter."""

import re
from collections.abc import Iterator

from cockpit.studio.assignments.assignment import Assignment, Part
from cockpit.studio.clocks.words import MONTHS

_CLAUSE_ENDS = re.compile(r"[,;()\[\]]")
_DAY = (
    r"(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:days?)?|(?:mon|diens|donners|frei|sams|sonn)tags?|mittwochs?"
    r"|sonnabends?|(?:lun|mar|mercre|jeu|vendre|same)dis?|dimanches?|lunes|martes|mi[ée]rcoles|jueves|viernes|s[áa]bados?|domingos?)"
)
_MONTH = "|".join(f"{month[:3]}(?:{month[3:]})?" for month in MONTHS)
_ON_DATE = (
    rf"\b(?:in|on|by|from|since|before|after|for|am|bis|vor|nach|ab|seit|für|le|avant|après|depuis|pour|el|hasta|antes del?|desde|para"
    rf"|jusqu['’]à)(?: (?:el|zum|au|den|dem))? (?:{_DAY}|{_MONTH})\b"
)
_NOT = (
    "nicht|keine?n?|außer|ausser|ohne|nie|pas|sauf|sans|jamais|excepté|salvo|excepto|sin|nunca|menos|oder|ou|o|und|et|y"
)
_LEFT_OUT = re.compile(
    rf"(?:\b(?:not?|never|without|except|skip|or|nor|{_NOT})\b(?: (?:practice|playing|on|for|am|le|les|el|los))*)?\s*\b(?:{_DAY}|weekends?|weekdays?)\b(?: (?:off|frei|libre)\b)?",
    re.IGNORECASE,
)
_UNITS = (
    r"(?:days?|weeks?|weekends?|weekdays?|mornings?|afternoons?|evenings?|nights?|hours?|minutes?|mins?|sessions?)"
    r"|times|(?:half|all|of) the time|once|twice|weekly|nightly|monthly"
)
# Days in short in other languages, two or more: "Mo Mi Fr", "lun/mer". "Do Mi" may be sung.
_GERMAN, _ROMANCE = "Mo|Di|Mi|Do|Fr|Sa|So", "lun|mar|mer|mi[eé]|jeu|jue|ven|vie|sam|s[áa]b|dim|dom"
_BETWEEN_DAYS = r"\.?(?:[,/&+\s–-]|und|et|y)+"
_SURELY_GERMAN = "Mo|Di|Fr|Sa|So"
_SHORT_DAYS = (
    rf"\b(?-i:(?:(?:{_SURELY_GERMAN}){_BETWEEN_DAYS}(?:{_GERMAN})|(?:Mi|Do){_BETWEEN_DAYS}(?:{_SURELY_GERMAN}))"
    rf"(?:{_BETWEEN_DAYS}(?:{_GERMAN}))*)\b|\b(?:{_ROMANCE})(?:{_BETWEEN_DAYS}(?:{_ROMANCE}))+\b"
)
# No title has one, nor a number that counts something; one that has a day may be a title or not.
_NO_NAME = re.compile(
    r"\d+(?:(?:\s?[-–,;&+]\s?|\s(?:up to|to|thru|through|then|and|or|bis|und|à|et|a|y)\s)\d+)+|\d{2,}\s?/\s?\d{2,}|[~≈<>]\s?\d+"
    r"|(?<![\w#.])\d+ (?!(?:with|without|and|in|of|from|by|to|for|de|at|on)\b)[a-zß-ÿ]+(?: [a-zß-ÿ]+){0,2}"
    rf"|(?i:{_ON_DATE})|(?i:{_SHORT_DAYS})"
)
_NUMBERS = (
    "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty"
    "|thirty|forty|fifty|sixty|eins|zwei|drei|vier|fünf|sechs|sieben|acht|neun|zehn|elf|zwölf|une?|deux|trois|quatre|cinq|sept|huit|neuf"
    "|dix|onze|douze|uno|dos|tres|cuatro|cinco|seis|siete|ocho|nueve|diez|once|doce"
)
_COUNTED = r"measures?|bars?|pages?|takte?n?|seiten?|mesures?|comp[aá]s(?:es)?|p[aá]ginas?"
# What may be an amount, a tempo, measures or days, or limits what was understood: "by Friday", "except the coda".
_UNREAD = re.compile(
    r"\d|\bevery (?:other|second|third)\b|\bonly \w|\w only\b|\ball but\b|\b(?:[lr]h|h[st])\b|n['’]t\b"
    rf"|{_SHORT_DAYS}|\b(?:{_COUNTED}) (?:{_NUMBERS})\b"
    rf"|\b(?:{_UNITS}|wk|not?|never|without|except|excluding|skip|omit|if|unless|until|till|til|max|daily|{_DAY})\b|{_ON_DATE}|\b(?-i:M[ /-]?W|T[ /-]?Th)(?![a-z])",
    re.IGNORECASE,
)
# How a measure is counted says something where no tempo does.
_BEATS = re.compile(rf"\b(?:in|en|à) (?:{_NUMBERS})(?=\W*$| at\b)|\bcut (?:time|c)\b|\balla breve\b", re.IGNORECASE)


# Names of notes as an answer of theory has them, "2 sharps: F♯ C♯", are no amounts.
_NOTES = re.compile("[♯♭𝄪𝄫]")


def unread(assignment: Assignment) -> tuple[str, ...]:
    """What stands between the understood stretches and may be an amount or days, up to the next sign that ends a clause."""
    text = assignment.text
    in_title = (text[each.begins : each.ends] for each in assignment.stretches if each.part is Part.TITLE)
    ranges = (found[0] for title in in_title for found in _NO_NAME.finditer(title))
    clauses = (
        text[begins:ends].strip(" .-–—")
        for begins, ends in _clauses(assignment)
        if _is_unread(assignment, begins, ends)
    )
    return (*assignment.named_so, *ranges, *clauses)


def _clauses(assignment: Assignment) -> Iterator[tuple[int, int]]:
    """The columns of what stands between the understood stretches, cut at the signs that end a clause."""
    gaps = [0, *(at for each in assignment.stretches for at in (each.begins, each.ends)), len(assignment.text)]
    for begins, ends in zip(gaps[::2], gaps[1::2], strict=True):
        at = begins
        for sign in _CLAUSE_ENDS.finditer(assignment.text, begins, ends):
            yield at, sign.start()
            at = sign.end()
        yield at, ends


def _is_unread(assignment: Assignment, begins: int, ends: int) -> bool:
    clause = assignment.text[begins:ends]
    if _NOTES.search(clause):
        return False
    is_spoken_of = any(first < ends and begins < last for first, last in assignment.unclear)
    is_count = assignment.tempo is None and _BEATS.search(clause) is not None
    asked = _LEFT_OUT.sub(" ", clause) if assignment.not_on else clause
    return is_spoken_of or is_count or _UNREAD.search(asked) is not None

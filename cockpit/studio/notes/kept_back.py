"""Labels kept from families: their spellings, short forms, other languages, and what is within one edit of them.

A line that only may be private is kept back, and said to be: a remark that stayed at home can be sent next week, a
private word that went out cannot be taken back. No setting of hers changes anything here.
"""

import re
from collections.abc import Iterator

from cockpit.studio.notes.spelling import (
    OTHER_COLONS,
    OTHER_DASHES,
    column_of,
    folded,
    is_within_one_edit,
    letters,
    with_plain_signs,
    without_unseen,
)
from cockpit.studio.values import Value

COLONS = frozenset(f":{OTHER_COLONS}")
# All patterns here are for lines `with_plain_signs`. In "lessons at 5:30" a colon is a time's.
COLON = r"(?:(?<!\d):|:(?!\d))"
_ASIDE = r"(?:\s*[(\[][^()\[\]]*[)\]])?"  # Private (to her mother):
# 1. a) Private: possessive, as a label begins with a letter: tried again, "1) 1) 1) ..." would take its length squared.
# "Pvt." is no number of a list.
_NUMBERED = r"[\W\d_]*+(?:(?!(?i:pvt|prv|nts|nt|fup)\b)[^\W_]{1,3}[.)][\W\d_]*+)?"
_ENDING = rf"{_ASIDE}(?:[\W_]*?{COLON}[*_]*|[!.]*\s+-+|-+(?=\s|$))"
_GAP = r"[\s'`´.,;&/_-]+"
_WORDS = rf"[^\W_]+(?:{_GAP}[^\W_]+){{0,6}}"
# In "N.T." and "F.U." the first letter with its dot is no number of a list.
_BEGINNINGS_OF_LINES = tuple(
    re.compile(rf"{number}(?P<words>{_WORDS}){_ENDING}(?:[\W_]*$)?") for number in (_NUMBERED, r"[\W\d_]*+")
)
_WITHIN = re.compile(rf"(?<![^\W_])(?P<words>{_WORDS})(?P<ends>{_ASIDE}[\W_]*?{COLON}|[!.]*\s+-+(?=\s|$)|[)\]])")
# A word that begins the line, or stands behind a sign, or has a capital P of its own.
_STANDING_OUT = re.compile(rf"(?:^{_NUMBERED}|[-(\[.;!?,*_/|\"«]\s*|\s(?=P))(?P<word>[^\W_]+)")
_OWED = re.compile(rf"{_NUMBERED}(?P<words>[^\W_]+(?:[\s_-]+up\b|-dos?\b)?)", re.IGNORECASE)
# "F.U. call mum", "n. t. coda": letters with dots, at the beginning of a line.
_DOTTED = re.compile(r"[\W\d_]*+(?:\d{1,3}[.)][\W_]*+)?(?P<words>(?:[^\W\d_]\.\s?){2,4})(?=\s|\w|$)")
_WORD = re.compile(r"[^\W_]+")
_SIGNS = COLONS | frozenset(f"-{OTHER_DASHES})]")

# Common practice, no source: what teachers write before a word that is not the family's.
_PRIVATE = """
private, private note, private notes, private remark, private remarks, private comment, priv, priv note, prv, pvt, pvt note, prvt,
confidential, conf, pers, in confidence, nts, just for me, only for me, for me only, for my eyes only, my eyes only, my notes, my own notes, internal, internal note,
internal notes, teacher only, teachers only, teacher note, teacher notes, teachers note, teachers notes, for teacher, for the teacher,
off the record, not for family, not for the family, not for parents, not for the parents, not for student, not for the student,
not for mum, not for mom, just me, only me, me only, just us, only us, us only, for us only, eyes only, my ears only, between ourselves, between us, just between us, between you and me, do not send, dont send, do not share, dont share, secret, hidden, personal, personal note, personal notes,
privat, private notiz, private notizen, privatnotiz, vertraulich, streng vertraulich, intern, interne notiz, persönlich, geheim,
nur für mich, nur fuer mich, nur f mich, nicht f eltern, im vertrauen, unter vier augen, nicht für eltern, nicht für die eltern, nicht für die familie, nicht senden, unter uns,
privé, privée, note privée, notes privées, confidentiel, confidentielle, perso, personnel, personnelle, note perso, pour moi seul,
pour moi seule, juste pour moi, interne, en confidence, ne pas envoyer, pas pour les parents, pas pour la famille, entre nous,
privado, privada, reservado, en confianza, nota privada, notas privadas, confidencial, solo para mí, sólo para mí, interno,
interna, entre nosotros, nota interna, nota personal, secreto, no enviar, no para los padres, no para la familia
"""
# "Note to self", "Reminder for me", "Notiz an mich": each of these behind each of those.
_NOTES = "note, notes, memo, memos, reminder, reminders, notiz, notizen, nota, notas, rappel, recordatorio"
_TO_HERSELF = """
to self, 2 self, to myself, to me, for me, for myself, für mich, fuer mich, f mich, an mich, an mich selbst, pour moi, à moi, à moi même, para mí
"""
_FOLLOW_UP = """
follow up, follow ups, follow up note, follow up notes, follow up item, follow up items, follow up email, follow up call,
fup, fups, f up, f u, todo, todos, to do, to dos, to do list, my todo, my to do, action item, action items, action point,
action points,
nachfassen, zu erledigen, noch zu erledigen, wiedervorlage, nachverfolgen, to do liste,
à faire, suivi, à suivre, à relancer,
seguimiento, pendiente, pendientes, por hacer, tareas mías
"""
_NEXT_TIME = """
next time, nexttime, nxt time, next x, nt,
nächstes mal, naechstes mal, fürs nächste mal, beim nächsten mal, das nächste mal, nächste mal,
prochaine fois, la prochaine fois, pour la prochaine fois, à la prochaine fois,
próxima vez, la próxima vez, para la próxima vez, para la próxima
"""
# What is within one edit of one of these is one. Of the shorter ones, half of the dictionary would be.
_NEAR = {
    "PRIVATE": ("private", "privatenote", "privatenotes", "notetoself", "confidential", "vertraulich", "confidentiel",
                "confidencial", "privado", "privada", "privee"),
    "FOLLOW_UP": ("followup", "followups", "followupnote"),
    "NEXT_TIME": ("nexttime", "prochainefois", "proximavez", "nachstesmal"),
}  # fmt: skip
# "Private lesson with mum:", "Priv. remark (her):": what follows this word is kept back with it.
_LEADING = frozenset((
    "private", "privat", "prive", "privee", "privado", "privada", "priv", "pvt", "prvt", "confidential",
    "vertraulich", "confidentiel", "confidencial", "confidentielle", "reservado", "prv", "conf", "pers",
))  # fmt: skip
# "Vertr.", "Confid.", "Persönl.": as much of one of these as leaves no other word. "Privately", "confidencialmente": with an ending.
_SHORTENED = frozenset(
    word[:count] for word in ("vertraulich", "confidential", "personlich") for count in range(5, 9)
) - {"perso", "person"}  # fmt: skip
_STRICTLY = frozenset(("strictly", "streng", "str", "very", "totally", "strictement", "estrictamente"))
_LENGTHENED = tuple(word for word in _LEADING if len(word) >= 6)
_LONGEST_ENDING = 5
# "Do not send to parents:", "Not for mum and dad:": with these a label begins, whatever follows.
_FORBIDDING = frozenset((
    "donotsend", "dontsend", "donottell", "donttell", "donotmention", "dontmention", "keepthisbetween", "donotshare", "dontshare", "donotforward", "dontforward", "notfor", "not4",
    "onlyformy", "nichtsenden", "nichtfur", "nepasenvoyer", "paspour", "rienquepourmoi", "noenviar", "nopara",
    "keepprivate", "keepitprivate", "keepthisprivate", "keeptoyourself", "keepittoyourself", "keepthistoyourself", "keepitbetween",
    "keepthatbetween", "keepthissecret", "keepitsecret", "strictlyconfidential",
))  # fmt: skip
# With these where they begin; "Play it in private: nobody listens" is the family's.
_OPENING = _FORBIDDING | {"inprivate", "imprivaten", "enprive", "enprivado"}
# Behind such a sign words are a label of their own, and what stands before it is the family's.
_APART = re.compile(r"\s-+\s|[.,;]")
_ENDED = re.compile(r"(?:[.!?;(\[]|\s-+)\s*$")
_MOST_WORDS, _MOST_BESIDE = 4, 3
# A word before the family's sentence begins, or behind a sign: there a label without a colon stands out.
_STANDS_OUT = re.compile(rf"(?:^{_NUMBERED}|[-(\[.;!?,*_/|\"«]\s*)(?=[^\W_])")
_WHOM = frozenset(map(folded, _TO_HERSELF.split(",")))
# Words of everyday too: in the middle of a line they are labels only behind a sign, or with a capital.
_EVERYDAY = frozenset((
    "personal", "perso", "secret", "hidden", "intern", "interna", "interne", "interno", "internal", "todo", "todos", "suivi",
    "nt", "fu", "fup", "myself", "afaire", "forteacher", "fortheteacher", "pendiente", "pendientes", "personnel", "personnelle",
    "notfor", "not4", "nichtfur", "paspour", "nopara", "justme", "onlyme", "meonly", "justus", "onlyus", "usonly", "eyesonly", *_WHOM,
))  # fmt: skip
# Signs that many put before what is nobody else's; a dash, a star, a dot or a number begins a list.
_ASIDE_SIGN = re.compile(
    r"(?:^\s*|(?<=\s)(?=//|/\*|<!))(?P<sign>/{2,}|/\*+|<!-*|>{2,}|<+(?![\d-])|\({2,}|\[{2,}|[{~^]+(?!\s?\d)|#+(?!\s?\d)|[%;|@$\\!?§]+|🔒+)"
    r"(?=[\s\w:])"
)
# Short forms, and words that English has in no other sense, at the beginning of a line: "nt coda", "intern sie hat geweint".
_NO_ENGLISH = frozenset(("nt", "nts", "fu", "fup", "nxttime", "intern", "interne", "interno", "interna", "perso"))
_SPEAKS_OF_IT = frozenset((
    "for", "the", "a", "an", "until", "till", "til", "by", "as", "of", "our", "your", "my", "his", "her", "their",
    "this", "that", "in", "before", "on", "to", "at", "with", "some", "any", "no", "every",
))  # fmt: skip
_KNOWN = {
    folded(words): name
    for name, every in (("PRIVATE", _PRIVATE), ("FOLLOW_UP", _FOLLOW_UP), ("NEXT_TIME", _NEXT_TIME))
    for words in every.split(",")
} | {note + whom: "PRIVATE" for note in ("", *map(folded, _NOTES.split(","))) for whom in _WHOM}
_FORBIDDING_ANYWHERE = _FORBIDDING - _EVERYDAY
# What says nothing but Private, wherever it stands.
_ANYWHERE = (_FORBIDDING | {words for words, name in _KNOWN.items() if name == "PRIVATE"}) - _EVERYDAY
_BEGUN = 3
_FORBIDDING_BEGUN = frozenset(words[:count] for words in _FORBIDDING_ANYWHERE for count in range(1, _BEGUN + 1))
_BEGINNINGS = frozenset(words[:count] for words in _KNOWN.keys() | _OPENING for count in range(1, _BEGUN + 1))
_PLAIN = {"PRIVATE": "private", "FOLLOW_UP": "followup", "NEXT_TIME": "nexttime"}


class KeptBack(Value):
    """A label kept from families: its name in `Line`, its words as typed, and from which column to which it goes.

    It `is_plain` where it is spelled as one of the three: all others are told of.
    """

    name: str
    words: str
    begins: int
    ends: int

    @property
    def is_plain(self) -> bool:
        """Whether it has the spelling of the three."""
        return folded(self.words) == _PLAIN[self.name]


def label_at_beginning(typed: str) -> KeptBack | None:
    """The label that a line begins with, of those kept from families.

    It counts too when it is numbered, bracketed, quoted or set in stars. A dash beside a space does for the colon. A
    rest of the line without a letter or digit is no text, so that the label still stands alone.
    """
    seen, columns = without_unseen(typed)
    line = with_plain_signs(seen)
    for beginning in _BEGINNINGS_OF_LINES:
        found = beginning.match(line)
        if found and (name := _name_at_beginning(found["words"])):
            words = seen[slice(*found.span("words"))]
            return KeptBack(name=name, words=words, begins=0, ends=column_of(columns, found.end(), typed))
    return None


def labels_within(typed: str, begins: int) -> Iterator[KeptBack]:
    """The labels kept from families in the middle of a line, from a column on."""
    seen, columns = without_unseen(typed)
    line = with_plain_signs(seen)
    start = begins if columns is None else sum(column < begins for column in columns)
    behind = 0 if start == 1 else start
    for found in _WITHIN.finditer(line, start):
        name, at = _name_at_end(line, found)
        if name and _is_label(
            name, line[behind:at].rstrip(), line[at : found.end("words")], found["ends"], line[found.end() :]
        ):
            begins_at, ends = _without_played(line, at, found.end("words")), column_of(columns, found.end(), typed)
            words, begins_in = seen[begins_at : found.end("words")], column_of(columns, begins_at, typed)
            yield KeptBack(name=name, words=words, begins=begins_in, ends=ends)
        behind = found.end()


def bare_label(typed: str, *, is_assigned: bool = False) -> str | None:
    """The words of a label kept from families that stand in a line without a colon, or a sign that keeps nothing back.

    What says nothing but Private counts anywhere in a line; words of everyday too, such as Next time, where they begin
    it, or stand behind a sign. A sentence to the family may go on behind them, and what is assigned has no sentences:
    "Minuet. Next time start with the coda". A line that begins with whom it is for, "pour moi", may be either.
    """
    seen, _ = without_unseen(typed)
    line = with_plain_signs(seen)
    if sign := _ASIDE_SIGN.search(line, 1 if is_assigned else 0):
        return seen[slice(*sign.span("sign"))]
    standing = (found["word"] for found in _STANDING_OUT.finditer(line) if _is_leading(found["word"]))
    if (short := _short_form(line)) is not None:
        return seen[slice(*short)]
    if word := next(standing, None):
        return word
    every = list(_WORD.finditer(line))
    plain = [folded(word[0]) for word in every]
    standing_out = {found.end() for found in _STANDS_OUT.finditer(line)}
    for at, first in enumerate(every):
        if plain[at][:_BEGUN] not in _BEGINNINGS:  # nearly all, at each key
            continue
        stands_out, is_spoken_of = first.start() in standing_out, at > 0 and plain[at - 1] in _SPEAKS_OF_IT
        for last in range(min(at + _MOST_WORDS, len(every) - 1), at - 1, -1):
            words, ends = "".join(plain[at : last + 1]), every[last].end()
            is_colon_behind = line[ends:].lstrip()[:1] == ":"  # "mm. 1-8 in private: she cried"
            is_private_word = words in _ANYWHERE or (at == last and _is_formed_anew(words))
            is_private = is_private_word and (stands_out or is_colon_behind or not is_spoken_of)
            is_owed = words in _KNOWN and is_colon_behind and not is_spoken_of  # "pp. 2-3 todo: call"
            is_label = words in _OPENING or (
                words in _KNOWN and (_is_cut_off(line, ends) or line[first.start() : ends].isupper())
            )
            is_begun = _KNOWN.get(words) == "NEXT_TIME" and at > 0 if is_assigned else words in _WHOM and at == 0
            if is_private or is_owed or (stands_out and (is_label or is_begun)):
                return seen[first.start() : ends] + (":" if is_colon_behind else "")
    return None


def _short_form(line: str) -> tuple[int, int] | None:
    """Finds where a label without a colon begins and ends that opens a line and can be nothing else: "Todo", "F.U.", "nt"."""
    for begun in filter(None, (_OWED.match(line), _DOTTED.match(line))):
        words = begun["words"].rstrip()
        name = _name_of(words)
        if name == "FOLLOW_UP" or (name is not None and (folded(words) in _NO_ENGLISH or begun.re is _DOTTED)):
            return begun.start("words"), begun.start("words") + len(words)
    return None


def _is_cut_off(line: str, ends: int) -> bool:
    """Whether no word goes on behind some words: "Next time, the coda" and not "Next time we start with the coda"."""
    behind = line[ends:].lstrip()[:1]
    return not behind.isalnum() and behind != "'"


def has_sign(typed: str) -> bool:
    """Whether a line has any sign that can end a label."""
    return not _SIGNS.isdisjoint(typed)


def speaks_of_next_time(words: str) -> bool:
    """Whether some words end in those for the next time: "Piece for next time" may be for the family or for her."""
    every = [folded(word) for word in _WORD.findall(words)]
    return any(_KNOWN.get("".join(every[at:])) == "NEXT_TIME" for at in range(1, len(every)))


def is_kept_back(words: str) -> bool:
    """Whether some words are a label kept from families, or within one edit of one: no setting can change them."""
    return _name_at_beginning(with_plain_signs(words)) is not None


def _name_of(words: str) -> str | None:
    plain = folded(words)
    if name := _KNOWN.get(plain):
        return name
    if _WORD.fullmatch(words) and _is_formed_anew(plain):
        return "PRIVATE"
    typed = letters(words)
    return next((name for name, every in _NEAR.items() if any(is_within_one_edit(typed, each) for each in every)), None)


def _is_leading(word: str) -> bool:
    plain = folded(word)
    is_one = plain in _LEADING or _is_formed_anew(plain)
    return is_one or is_within_one_edit(letters(word), _PLAIN["PRIVATE"])


def _is_formed_anew(plain: str) -> bool:
    """Whether a folded word is the beginning of a private one, "vertr", or one with an ending, "privately"."""
    if not plain.startswith(_LENGTHENED):
        return plain in _SHORTENED
    endings = (len(plain) - len(word) for word in _LENGTHENED if plain.startswith(word))
    return plain not in _LEADING and min(endings) <= _LONGEST_ENDING


def _name_at_beginning(words: str) -> str | None:
    """The name of a label, also of one whose last words are one: "Piece for me"."""
    if name := _name_begun(words):
        return name
    every = _WORD.findall(words)
    is_one = not _APART.search(words)
    ends_in_one = (_KNOWN.get(folded("".join(every[-count:]))) == "PRIVATE" for count in range(2, len(every)))
    return "PRIVATE" if is_one and any(ends_in_one) else None


def _name_begun(words: str) -> str | None:
    """The name of a label, of one with the word Private before a few others, or of one whose first words are one.

    "Next time with Ilse", "Do not send to parents".
    """
    if name := _name_of(words) or ("PRIVATE" if folded(words) in _OPENING else None):
        return name
    every = _WORD.findall(words)
    if len(every) > 1 and folded(every[0]) in _STRICTLY:
        return _name_begun(words[words.index(every[1], len(every[0])) :])
    if 1 < len(every) <= 1 + _MOST_BESIDE and _is_leading(every[0]):
        return "PRIVATE"
    begun = (folded("".join(every[:count])) for count in range(2, len(every)))
    return next((_KNOWN.get(first, "PRIVATE") for first in begun if first in _KNOWN or first in _OPENING), None)


def _name_at_end(line: str, found: re.Match[str]) -> tuple[str | None, int]:
    """The label that the last words of a match make, and where it begins: as many words as are known, else as are near."""
    every = [word.start() for word in _WORD.finditer(line, *found.span("words"))][::-1]
    spans = every[:_MOST_WORDS]
    names = [(line[at : found.end("words")], at) for at in spans]
    known = [(_KNOWN[plain], at) for words, at in names if (plain := folded(words)) in _KNOWN]
    near = [(name, at) for words, at in names if (name := _name_of(words))]
    leading = [("PRIVATE", at) for at in spans if (word := _WORD.match(line, at)) and _is_leading(word[0])]
    # Behind a sign, or with a capital, words are read as those that a line begins with: "Good lesson. Note for me:".
    begun = [
        (name, at)
        for at in every
        if _can_begin(line, at, found.end("words"))
        if (name := _name_at_beginning(line[at : found.end("words")]))
    ]
    meant = begun[-1:] or known[-1:] or near[:1] or leading[:1]
    return meant[0] if meant else (None, 0)


def _without_played(line: str, at: int, ends: int) -> int:
    """Where a label begins whose last words alone are one: behind "Gavotte" in "Piece: Gavotte not for mum:".

    Behind the end of a sentence the words before them are its own: "Good lesson. Remark for me:".
    """
    if _name_begun(line[at:ends]) or _ENDED.search(line[:at]):
        return at
    places = (word.start() for word in _WORD.finditer(line, at, ends))
    return next((place for place in places if _KNOWN.get(folded(line[place:ends])) == "PRIVATE"), at)


def _can_begin(line: str, at: int, ends: int) -> bool:
    """Whether a label can begin at a word: behind a sign, with a capital, or with words that forbid to send what follows."""
    if _belongs_before(line, at):
        return False
    return _stands_apart(line[:at]) or line[at].isupper() or _is_forbidding(line[at:ends])


def _is_forbidding(words: str) -> bool:
    if folded(words[:_BEGUN].split(maxsplit=1)[0]) not in _FORBIDDING_BEGUN:  # nearly all
        return False
    first = [folded(word) for word in _WORD.findall(words)[:_MOST_WORDS]]
    return any("".join(first[:count]) in _FORBIDDING_ANYWHERE for count in range(2, len(first) + 1))


def _belongs_before(line: str, at: int) -> bool:
    """Whether a word goes with what stands before it: the number of "m1-8 private:", the letter of "part B private:"."""
    is_letter = not line[at + 1 : at + 2].isalnum() and not line[:at].endswith((". ", "! ", "? "))
    return line[at].isdigit() or is_letter


def _stands_apart(before: str) -> bool:
    """Whether a sign stands between a place and the word before it, or nothing at all."""
    return not before.rstrip()[-1:].isalnum()


def _is_label(name: str, before: str, words: str, sign: str, rest: str) -> bool:
    """Whether a label behind some words of its line is one, and not a sentence that speaks of the next time."""
    stands_apart = _stands_apart(before)
    is_everyday = folded(words) in _EVERYDAY
    if ":" not in sign:  # "Lovely week - Private - she cried", "Lovely week (private) she cried"
        is_closed = (
            name == "PRIVATE" and before[-1:] in {"(", "["} if sign in {")", "]"} else stands_apart and before != ""
        )
        return is_closed and not is_everyday and any(each.isalnum() for each in rest)
    last = folded(before.rsplit(maxsplit=1)[-1]) if before else ""
    if name == "PRIVATE" and not is_everyday:
        return last != "in" or stands_apart
    return stands_apart or words[0].isupper() or not (is_everyday or last in _SPEAKS_OF_IT)

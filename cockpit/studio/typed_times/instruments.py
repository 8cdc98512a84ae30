"""The instruments that are taught, in English, German, French, Spanish, and Italian, as a line or a title names them.

The table may well be short of one: then the word is named, and nothing is done. All of it is common practice, no source.
"""

import re

from cockpit.studio.typed_times.places import place_key, run_ends

SPOKEN = (
    "piano", "keyboard", "violin", "fiddle", "cello", "double bass", "bass guitar", "guitar", "ukulele", "mandolin", "banjo",
    "flute", "piccolo", "clarinet", "oboe", "bassoon", "saxophone", "sax", "recorder", "trumpet", "cornet", "trombone",
    "french horn", "tuba", "euphonium", "drums", "percussion", "marimba", "voice", "singing", "vocals", "accordion",
    "harpsichord", "lute", "music theory", "theory",
    "klavier", "geige", "bratsche", "gitarre", "querflöte", "blockflöte", "flöte", "klarinette", "saxophon", "fagott", "trompete",
    "posaune", "schlagzeug", "kontrabass", "akkordeon", "gesang", "harfe", "orgel",
)  # fmt: skip
"""Those near which a misspelled word of a name is asked about; beside the others stand too many names, such as Harper."""
OR_NAMES = (
    "viola", "bass", "horn", "harp", "organ", "alto", "cor", "canto", "chant", "clave", "arpa", "trompa", "laute",
)  # fmt: skip
"""Those that people are called, too: a girl Viola, a family Horn."""
_OTHERS = """
    mandoline, e gitarre, violine, violoncello, tenorhorn, waldhorn, cembalo, oboe, saxofon, xylophon, musiktheorie, stimme, stimmbildung,
    violon, violoncelle, contrebasse, guitare, basse électrique, flûte, flûte à bec, flûte traversière, hautbois, basson, clarinette,
    trompette, cor d'harmonie, cor anglais, batterie, percussions, voix, accordéon, clavecin, harpe, orgue, clavier, solfège, ukulélé,
    mandoline, luth,
    violín, violonchelo, chelo, contrabajo, guitarra, flauta, flauta dulce, flauta travesera, clarinete, fagot, saxofón, saxo, trompeta,
    trombón, batería, percusión, voz, acordeón, clavecín, órgano, teclado, laúd, solfeo, mandolina, bajo eléctrico,
    pianoforte, violino, contrabbasso, chitarra, flauto, flauto traverso, flauto dolce, clarinetto, fagotto, sassofono, tromba, batteria,
    fisarmonica, clavicembalo, organo, tastiera, liuto, solfeggio
"""
_ALL = frozenset(place_key(" ".join(each.split())) for each in (*SPOKEN, *_OTHERS.split(",")))
_NAMED_SO = frozenset(OR_NAMES)
# Before an instrument they say which one.
_SORTS = frozenset(["acoustic", "electric", "classical", "jazz", "soprano", "alto", "tenor", "baritone", "bass"])
_SMALL = re.compile(r"(?:on )?(?:the )?")


def instrument_at(said: str, place: int, *, is_sure: bool) -> tuple[str, int] | None:
    """Finds the longest instrument at a place of a line, and where it ends; one that people are called where it `is_sure`."""
    begins = place + len(_SMALL.match(said, place)[0])  # type: ignore[index] # matches anything
    for end in run_ends(said, begins):
        words = said[begins:end]
        if is_instrument(words) or (is_sure and place_key(words) in _NAMED_SO):
            return words, end
    return None


def is_instrument(words: str) -> bool:
    """Whether words are an instrument, or one of a sort, such as alto sax, and nobody's name."""
    key = place_key(words)
    sort, _, rest = key.partition(" ")
    return key in _ALL or (sort in _SORTS and rest in _ALL)

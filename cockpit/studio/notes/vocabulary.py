"""Which words are labels of assignments: hers, then those built in by language, then the areas themselves.

The built-in words are common practice, no source. A label is known with and without capitals, accents and plurals, with
an everyday word before it ("New piece:", "Ilse's etude:"), and with "&" or "and" between two: it goes to the first named.
"""

import re
from collections.abc import Mapping, Sequence
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from cockpit.studio.notes.areas import AnyArea, Area
from cockpit.studio.notes.kept_back import speaks_of_next_time
from cockpit.studio.notes.spelling import folded


class Meaning(NamedTuple):
    """What a label says of its line: its area, or that it is to be played by heart, or names things to get, or a goal.

    Without an area, a line that is nothing of these is a remark to the family.
    """

    area: AnyArea | None
    is_by_heart: bool = False
    is_to_get: bool = False
    is_goal: bool = False


_OWN_NAMES = {
    Area.WARM_UP: "warm up", Area.SCALES: "scale", Area.TECHNIQUE: "technique", Area.ETUDE: "etude",
    Area.METHOD_BOOK: "method book, method", Area.PIECE: "piece", Area.REVIEW: "review, review piece", Area.THEORY: "theory",
    Area.EAR: "ear, ear training", Area.SIGHT_READING: "sight reading", Area.LISTENING: "listening", Area.RHYTHM: "rhythm",
    Area.IMPROVISATION: "improvisation",
}  # fmt: skip
_BUILT_IN = {
    Area.WARM_UP: """
        warming up, long tone; einspielen, aufwärmen, aufwärmübung, einsingen, warmspielen;
        échauffement, mise en train; calentamiento, calentar, vocalización
        """,
    Area.SCALES: """
        arpeggio, chord, chord progression, cadence, broken chord, triad;
        tonleiter, skala, skalen, tonleitern, arpeggien, akkord, akkorde, dreiklang, dreiklänge, kadenz, kadenzen;
        gamme, arpège, accord, cadence; escala, arpegio, acorde, cadencia
        """,
    Area.TECHNIQUE: """
        technic, technics, technical work, technical exercise, exercise, drill, bow hold, tone, tone production, shifting,
        vibrato, finger work, hand position, embouchure, tonguing, picking, strumming, pedaling, string crossing,
        thumb position;
        technik, übung, übungen, fingerübung, fingerübungen, bogenhaltung, bogentechnik, ton, tonbildung, lagenwechsel, ansatz;
        exercice, travail technique, tenue d'archet, archet, son, sonorité, démanché, doigté;
        técnica, ejercicio, arco, sonido, cambio de posición, cambios de posición, digitación
        """,
    Area.ETUDE: "study, studies, caprice; etüde, etüden; étude; estudio, capricho",
    Area.METHOD_BOOK: """
        lesson book, lesson bk, method bk, book, bk, method; unterrichtsbuch, lehrbuch, lehrwerk, schule, heft, buch, klavierschule, geigenschule, gitarrenschule,
        celloschule, flötenschule; méthode, livre, livre de méthode, cahier; método, libro, libro de método, libro de lecciones, cuaderno
        """,
    Area.PIECE: """
        repertoire, repertory, rep, song, solo, tune, duet, duo, trio, quartet, concerto, hymn, carol, aria, fun piece, choice, world, folk,
        folk song, fiddle tune, performance piece, showpiece, excerpt, orchestra excerpt;
        stück, stücke, lied, lieder, repertoire, duett, konzert, vortragsstück, vorspielstück, spielstück, volkslied, stueck, stuecke;
        morceau, morceaux, pièce, chanson, répertoire, duo, œuvre;
        pieza, obra, canción, canciones, repertorio, dúo, himno, concierto
        """,
    Area.REVIEW: """
        old friend, polished, polished piece, old piece, old repertoire, review song, maintenance, keep alive;
        wiederholung, wiederholungen, wiederholungsstück, wiederholungsstücke, altes stück, alte stücke;
        révision, ancien morceau, anciens morceaux, entretien; repaso, pieza antigua, piezas antiguas
        """,
    Area.THEORY: """
        theory book, theory wkbk, wkbk, worksheet, note reading, flashcard, flash card, music theory, note name, workbook;
        theorie, musiktheorie, arbeitsblatt, arbeitsblätter, notenlesen, notenlehre;
        théorie, solfège, lecture de notes, formation musicale, fiche; teoría, solfeo, lectura de notas, ficha, lenguaje musical
        """,
    Area.EAR: """
        aural, aural training, aural skills, ear work, by ear, dictation, interval training;
        gehör, gehörbildung, gehörtraining, hörübung, hörübungen;
        oreille, formation de l'oreille, dictée, travail de l'oreille; oído, educación auditiva, entrenamiento auditivo, dictado
        """,
    Area.SIGHT_READING: """
        sight read, sightread, sight singing, prima vista;
        blattspiel, blattlesen, vom blatt, vom blatt spiel, vomblattspiel, vom blatt spielen;
        déchiffrage, lecture à vue; lectura a primera vista, primera vista, a primera vista, repentización
        """,
    Area.LISTENING: """
        listen; hören, anhören, hörbeispiel, hörbeispiele; écoute, écouter;
        escucha, escuchar
        """,
    Area.RHYTHM: """
        rhythms, clapping, clap, counting, pulse, metronome work; rhythmus, rhythmen, klatschen, zählen, taktgefühl;
        rythme, frapper, compter, pulsation; ritmo, palmas, contar, pulso
        """,
    Area.IMPROVISATION: """
        improv, improvise, improvising, composition, compose, composing, creative, songwriting, arranging;
        improvisieren, komposition, komponieren; improviser, composer, création; improvisación, improvisar, composición, componer
        """,
    Area.OTHER: """
        homework, hw, assignment, practice, practise, to practice;
        hausaufgabe, hausaufgaben, aufgabe, aufgaben, üben;
        devoir, devoirs, travail, travail à faire, exercices à faire; deberes, tarea, práctica, practicar
        """,
    None: "remark, comment, for the family, to the family; bemerkung, anmerkung; remarque; observación, comentario",
}  # fmt: skip
_BY_HEART = """
    by heart, memory, memorize, memorise, from memory, memorization, memory work, memory piece; auswendig, auswendig lernen;
    par cœur, de mémoire, mémoire; de memoria, memoria, memorizar
"""
_TO_GET = """
    get, to get, please get, buy, to buy, please buy, purchase, to purchase, supplies, shopping, shopping list;
    besorgen, zu besorgen, bitte besorgen, kaufen, zu kaufen, bitte kaufen, anschaffen, anzuschaffen, anschaffung, anschaffungen,
    einkaufen, einkaufsliste;
    acheter, à acheter, achat, achats, se procurer, à se procurer;
    comprar, por comprar, para comprar, a comprar, compra, compras, conseguir, por conseguir, adquirir
"""
_GOAL = """
    goal, aim, long term goal, short term goal, learning goal; ziel, ziele, lernziel, lernziele, vorhaben;
    objectif, objectifs; objetivo, objetivos, meta, metas
"""
# What may stand before a label, or behind it in other languages: "New piece", "morceau nouveau", "2nd piece".
_BESIDE = """
    new main first second third fourth fifth next last other another current recital concert exam audition festival competition
    holiday christmas easy hard harder big little short long fun favorite favourite choice optional bonus extra daily weekly my your
    our his her their the a this todays piano violin viola cello guitar flute voice solo duet chamber ensemble orchestra band
    performance contrasting slow fast jazz pop classical group major minor
    neu neue neues neuer erste erstes erster erstem zweite zweites zweiter dritte drittes dritter kleines kleine großes große mein dein
    tägliche leichtes
    nouveau nouvelle nouveaux nouvelles premier première deuxième second seconde troisième petit petite grand grande mon ton votre notre
    nuevo nueva nuevos nuevas primer primera primero segunda segundo tercera tercero pequeña pequeño mi tu la el los las le les
    1st 2nd 3rd 4th 5th 1er 1ère 2e 2ème 3e 3ème 1a 2a 3a 1º 2º 3º one two three
"""
_QUALIFIERS = frozenset(map(folded, _BESIDE.split()))
_AND = re.compile(r"\s*[&+/,]\s*|\s+(?:and|und|et|y|e)\s+", re.IGNORECASE)
_OF_SOMETHING = re.compile(r"\s+(?:of|for|für|pour|para|de la|du|der)\s+", re.IGNORECASE)
_MOST_WORDS = 6


def _ones(words: str) -> list[str]:
    return [word for each in re.split("[,;]", words) if (word := folded(each))]


@cache
def _built_in() -> Mapping[str, Meaning]:
    found = {word: Meaning(area) for area, words in _BUILT_IN.items() for word in _ones(words)}
    by_heart = {word: Meaning(Area.PIECE, is_by_heart=True) for word in _ones(_BY_HEART)}
    return {**found, **by_heart, **_to_get(), **_goal(), **_own_names()}


@cache
def _to_get() -> Mapping[str, Meaning]:
    return {word: Meaning(None, is_to_get=True) for word in _ones(_TO_GET)}


@cache
def _goal() -> Mapping[str, Meaning]:
    return {word: Meaning(None, is_goal=True) for word in _ones(_GOAL)}


@cache
def _own_names() -> Mapping[str, Meaning]:
    return {word: Meaning(area) for area, words in _OWN_NAMES.items() for word in _ones(words)}


def _known(words: str, among: Mapping[str, Meaning]) -> Meaning | None:
    """What a folded word means, in the number that it is in or in the other one."""
    singulars = (words[:-1], words[:-2], f"{words[:-3]}y") if words.endswith("s") else ()
    return next((among[each] for each in (words, *singulars, f"{words}s") if each in among), None)


def is_areas_name(words: str) -> bool:
    """Whether a label is an area's own name, which the family reads in its language: `Piece`, `Warm-ups`."""
    return _known(folded(words), _own_names()) is not None


def says_to_get(words: str) -> bool:
    """Whether a label says that something is to be got and nothing else: `Get`, `Kaufen`. The family reads a heading for it."""
    return _known(folded(words), _to_get()) is not None


def says_goal(words: str) -> bool:
    """Whether a label says that something is a goal and nothing else: `Goal`, `Ziele`. The family reads a heading for it."""
    return _known(folded(words), _goal()) is not None


class Labels:
    """The labels of a studio: her own by their folded words, and all that is built in; one object is equal to itself alone.

    `names` are her own as she spells them.
    """

    __slots__ = ("_own", "names")

    def __init__(self, own: Mapping[str, Meaning] = MappingProxyType({}), names: Sequence[str] = ()) -> None:
        self._own, self.names = own, tuple(names)

    @property
    def spelled(self) -> str:
        """Her own labels and what each means, as one text: equal for labels that read every line alike."""
        return repr(sorted((words, repr(meaning)) for words, meaning in self._own.items()))

    def meaning(self, words: str) -> Meaning | None:
        """What a label says of its line; None where it is no label."""
        plain = folded(words)
        if found := _known(plain, self._own) or _known(plain, _built_in()):
            return found
        if not plain or len(words.split()) > _MOST_WORDS:
            return None
        joined = self._joined(words) or self._qualified(words)
        # "Piece for next time" may be a note of hers; homework always is for the next time.
        is_doubtful = joined is not None and joined.area is not Area.OTHER and speaks_of_next_time(words)
        return None if is_doubtful else joined

    def _joined(self, words: str) -> Meaning | None:
        """Several labels in one: all have to be known, and the first is meant."""
        parts = _AND.split(words)
        meanings = [self.meaning(part) for part in parts] if len(parts) > 1 else []
        return meanings[0] if meanings and all(meanings) else None

    def _qualified(self, words: str) -> Meaning | None:
        """A label with words beside it that change nothing: "New piece", "Ilse's etude", "Piece for the recital"."""
        first, *rest = words.split()
        shorter = [_OF_SOMETHING.split(words, maxsplit=1)[0]]
        if rest and (folded(first) in _QUALIFIERS or first.endswith(("'s", "’s"))):
            shorter.append(" ".join(rest))
        if rest and folded(rest[-1]) in _QUALIFIERS:
            shorter.append(" ".join((first, *rest[:-1])))
        meanings = (self.meaning(each) for each in shorter if each and each != words)
        return next(filter(None, meanings), None)


BUILT_IN = Labels()

"""The words that say why there are no lessons, in English, German, French, and Spanish: absences and feasts of the year.

The table may well be short of a word: a reason of other words has a mark in front of it, and without one the line is
refused with lines that work. So no word gets into it that could say whose days they are, or which part of a day. All of it
is common practice, no source.
"""

import re
from collections.abc import Callable, Iterator
from enum import Enum, auto

from cockpit.studio.typed_times.instruments import OR_NAMES, is_instrument
from cockpit.studio.typed_times.parts import ReasonWord
from cockpit.studio.typed_times.places import place_key, run_ends


def _table(words: str) -> frozenset[str]:
    """The words of a table, which has them as `place_key` does: a line is compared at each key, and a start is quick."""
    return frozenset(" ".join(words.split()).split(", "))


_FEASTS = _table(
    """
    christmas, xmas, christmas eve, christmas day, boxing day, new year, new years eve, new years day, new years,
    easter, easter sunday, easter monday, good friday, holy week, palm sunday, maundy thursday, ash wednesday,
    pentecost, whitsun, whit monday, ascension, ascension day, epiphany, all saints, all saints day, all souls,
    corpus christi, lent, advent, st patricks day, thanksgiving, halloween, independence day, fourth of july,
    4th of july, memorial day, labor day, labour day, veterans day, presidents day, columbus day,
    indigenous peoples day, mlk day, martin luther king day, juneteenth, mothers day, fathers day, valentines day,
    may day, canada day, victoria day, australia day, anzac day, remembrance day, bank holiday, bank holiday monday,
    carnival, mardi gras, midsummer, kings day, hanukkah, chanukah, passover, pesach, rosh hashanah, yom kippur,
    purim, sukkot, shavuot, simchat torah, eid, eid al fitr, eid al adha, ramadan, diwali, holi, navratri, vesak,
    nowruz, lunar new year, chinese new year, kwanzaa, weihnachten, heiligabend, heilig abend, silvester, neujahr,
    ostern, karfreitag, ostermontag, ostersonntag, pfingsten, pfingstmontag, himmelfahrt, fronleichnam, allerheiligen,
    karneval, fasching, rosenmontag, reformationstag, tag der arbeit, tag der deutschen einheit, heilige drei konige,
    noel, reveillon, nouvel an, jour de lan, saint sylvestre, paques, lundi de paques, pentecote, lundi de pentecote,
    toussaint, fete nationale, fete du travail, epiphanie, navidad, nochebuena, nochevieja, ano nuevo, dia de reyes,
    semana santa, pascua, viernes santo, dia de muertos, dia de los muertos, dia de accion de gracias,
    todos los santos
    """
)
# Each is a reason by itself, and so is its plural.
_OTHERS = _table(
    """
    holiday, vacation, half term, term break, end of term, end of year, last day of term, last day of school, break,
    no school, away, absent, absence, unavailable, out of town, out of office, abroad, busy, gone, leave, sabbatical,
    retreat, staycation, time off, winter, spring, summer, autumn, fall, trip, travel, traveling, travelling, journey,
    flight, flying, tour, touring, cruise, excursion, ski, skiing, hiking, camping, sailing, surfing, visit, visiting,
    visitor, guest, camp, moving, house move, concert, recital, piano exam, piano competition, piano tuner,
    piano tuning, student recital, students recital, student concert, work, working, performance, performing, gig,
    show, opera, musical, recording, rehearsal, audition, competition, contest, festival, masterclass, master class,
    workshop, conference, congress, convention, seminar, training, course, meeting, appointment, exam, examination,
    jury, jury duty, audit, graduation, ceremony, tournament, fair, sick, sickness, ill, illness, unwell, flu, covid,
    migraine, injury, injured, surgery, operation, hospital, doctor, dentist, checkup, check up, physio, therapy,
    recovery, recovering, birth, wedding, funeral, memorial, bereavement, mourning, birthday, anniversary, party,
    christening, baptism, bar mitzvah, bat mitzvah, reunion, emergency, repair, renovation, construction, outage,
    blackout, internet down, plumber, storm, snow, snow day, snow days, hurricane, flood, weather, strike, election,
    sick day, sick days, rest day, personal day, travel day, mental health day, ferien, urlaub, feiertag, bruckentag,
    frei, unterrichtsfrei, schulfrei, verreist, verhindert, abwesend, krank, krankheit, reise, ausflug, fahrt, umzug,
    konzert, vorspiel, probe, auftritt, wettbewerb, prufung, klausur, fortbildung, tagung, konferenz, kurs, termin,
    arzt, zahnarzt, krankenhaus, hochzeit, beerdigung, taufe, geburtstag, feier, fest, besuch, streik, sturm,
    vacances, conge, jour ferie, ferie, pont, absente, malade, maladie, voyage, deplacement, demenagement, concours,
    examen, repetition, stage, colloque, formation, rendez vous, medecin, dentiste, hopital, mariage, enterrement,
    obseques, bapteme, anniversaire, fete, greve, neige, sortie, vacaciones, festivo, feriado, puente, ausente,
    enfermo, enferma, enfermedad, viaje, mudanza, concierto, ensayo, concurso, examenes, congreso, curso, cita,
    medico, boda, entierro, bautizo, cumpleanos, fiesta, huelga, nieve, visita
    """
)
# The last member of a German compound says what it is: Winterferien are Ferien.
_GERMAN = tuple(
    f"{noun}{ending}"
    for noun in (
        *("ferien", "urlaub", "feiertag", "konzert", "prufung", "fest", "feier", "reise", "fahrt", "ausflug", "probe"),
        *("hochzeit", "tagung", "konferenz", "wettbewerb", "fortbildung", "seminar", "termin", "streik", "krankheit"),
    )
    for ending in ("", "e", "n", "en", "s")
)
# They stand beside a reason, and are none by themselves.
_BESIDE = _table(
    """
    a, an, my, our, in, i, im, i am, i will be, we, we are, well be, ill be, are, be, will, have, has, sorry, please,
    elsewhere, public, bank, national, state, federal, local, regional, religious, jewish, orthodox, legal, statutory,
    school, university, college, church, music, teacher, teachers, staff, choir, orchestra, band, chamber,
    piano teacher, piano teachers, personal, annual, eve, day, long, big, medical, dental, eye, knee, back, power,
    house, family, garden, job, jobs, car, train, business, home, friend, friends, best, mother, mothers, mom, moms,
    mum, mums, father, fathers, dad, dads, sister, sisters, brother, brothers, son, sons, daughter, daughters,
    parents, grandma, grandmas, grandpa, grandpas, aunt, uncle, cousin, cousins, husband, husbands, wife, wifes,
    happy, merry, ich bin, wir sind, in den, der, die, das, mein, meine, meiner, meines, mutter, vater, schwester,
    bruder, tochter, sohn, eltern, freunde, familie, ein, eine, auf, frohe, je suis, nous sommes, en, de, les, ma,
    mon, une, estoy, estamos, el, la, los, las, mi, una, joyeux, feliz
    """
)

# Those who are only some of the students, and no reason by themselves.
_GROUPS = _table(
    """
    adult, adults, grownup, grownups, grown ups, senior, seniors, retirees, kid, kids, child, children, childrens, toddlers,
    preschoolers, teen, teens, tweens, teenager, teenagers, youth, minors, juniors, boys, girls, men, women, ladies, siblings, twins,
    beginner, beginners, starters, intermediates, advanced, learners, newcomers, student, students, pupil, pupils, player, players,
    families, group, groups, class, online, in person, remote, drummers, trumpeters, singers, strings, winds, woodwinds, brass,
    erwachsene, erwachsenen, kinder, kindern, jugendliche, jugendlichen, senioren, jungs, madchen, anfanger, anfangerinnen,
    fortgeschrittene, fortgeschrittenen, schuler, schulerinnen, gruppe, gruppen, geiger, geigerinnen, sanger, sangerinnen, streicher,
    blaser, adulte, adultes, enfant, enfants, ados, adolescents, jeunes, debutants, debutantes, eleves, etudiants, garcons, filles,
    groupes, chanteurs, chanteuses, adulto, adultos, nino, ninos, nina, ninas, jovenes, adolescentes, principiantes, alumnos, alumnas,
    estudiantes, grupo, grupos, cantantes
    """
)
_PLAYERS = re.compile(
    r"(?:cell|pian|viol|violin|violon|guitar|gitarr|flut|flaut|flot|clarinett?|klarinett|obo|bassoon|fagott|saxophon|trombon|"
    r"percussion|vocal|harp|organ|accordion|bass|trompett)ist(?:s|e|en|es|a|as|in|innen)?"
)

_SIGNS = re.compile(r"[,;:!\"“”„«»()–—]+|[.-](?= |$)|(?<= )-")
_BETWEEN = re.compile(r"[ ,]+|['’]s?(?= |$)")
_FOR = frozenset(["for", "für", "pour", "para"])
_OF = frozenset(["of", "with", "by", "von", "mit", "avec", "con"])
_JOINTS = frozenset(["and", "&", "+", "or", "und", "et", "y"]) | _FOR | _OF


class _Kind(Enum):
    """What words of a reason are: why, those who are some of the students, an instrument, or something else."""

    WHY = auto()
    GROUP = auto()
    THING = auto()
    BESIDE = auto()
    SMALL = auto()
    OTHER = auto()


_WHO = frozenset([_Kind.GROUP, _Kind.THING])


def is_feast(words: str) -> bool:
    """Whether words name a feast of the year: it has a date, which no line is read by."""
    return place_key(words) in _FEASTS


def is_reason(word: str) -> bool:
    """Whether a word is a reason by itself."""
    key = place_key(word)
    is_compound = key.endswith(_GERMAN) and " " not in key
    return key in _FEASTS or key in _OTHERS or key.removesuffix("s") in _OTHERS or is_compound


def group_in(reason: str) -> str | None:
    """The words of a reason by which it is for some of the students; None where it names nobody, or what is theirs.

    A concert of theirs is a reason (`kids concert`, `trip with the kids`), and so is what happens to an instrument
    (`piano delivery`); what is `for` them is not.
    """
    runs = list(_runs(" ".join(_SIGNS.sub(" , ", reason.casefold()).split())))
    has_other = any(kind is _Kind.OTHER for _, kind in runs)
    has_why, before = False, ""
    for (text, kind), (_, behind) in zip(runs, [*runs[1:], ("", _Kind.SMALL)], strict=True):
        is_theirs = behind in {_Kind.WHY, *_WHO} or (has_why and before in _OF) or (kind is _Kind.THING and has_other)
        if kind in _WHO and (before in _FOR or not is_theirs):
            return text
        has_why |= kind is _Kind.WHY
        before = before if kind is _Kind.BESIDE else text
    return None


def _runs(said: str) -> Iterator[tuple[str, "_Kind"]]:
    """The words of a reason in runs, each with what it is; a comma parts them."""
    place = 0
    while place < len(said):
        between = _BETWEEN.match(said, place)
        end, kind = (between.end(), _Kind.SMALL) if between is not None else _run_at(said, place)
        if between is None or "," in between[0]:
            yield said[place:end].strip(), kind
        place = end


def _run_at(said: str, place: int) -> tuple[int, "_Kind"]:
    ends, found = run_ends(said, place), reason_at(said, place)
    known = found[1] if found is not None else place
    who = next(
        ((end, kind) for end in ends if end > known and (kind := _who(place_key(said[place:end]))) is not None), None
    )
    if who is not None:
        return who
    if found is not None:
        return known, _Kind.WHY if found[0][0].is_reason else _Kind.BESIDE
    word = said[place : ends[-1]]
    return ends[-1], _Kind.BESIDE if word == "the" else _Kind.SMALL if word in _JOINTS else _Kind.OTHER


def _who(key: str) -> "_Kind | None":
    if key in _GROUPS or _PLAYERS.fullmatch(key) is not None:
        return _Kind.GROUP
    return _Kind.THING if is_instrument(key) or is_instrument(key.removesuffix("s")) or key in OR_NAMES else None


def reason_at(said: str, place: int) -> tuple[tuple[ReasonWord], int] | None:
    """Finds the longest run of words, at a place of a line, that is a reason or stands beside one."""
    for end in run_ends(said, place):
        words = said[place:end]
        if not all(any(map(str.isalpha, word)) for word in words.split()):  # a dash between days is none of a reason
            continue
        if is_reason(words) or place_key(words) in _BESIDE:
            return (ReasonWord(text=words, is_reason=is_reason(words)),), end
    return None


def long_reason_at(
    is_name: Callable[[str], bool],
) -> Callable[[str, int], tuple[tuple[ReasonWord], int] | None]:
    """Finds what goes before names and the words of the calendar: a reason of several words, and a family's, who is no name."""

    def find(said: str, place: int) -> tuple[tuple[ReasonWord], int] | None:
        word = said[place:].removeprefix("family ").split(" ", 1)[0].strip(",;.")
        if said.startswith("family ", place) and is_reason(word) and not is_name(word):
            return (ReasonWord(text=f"family {word}", is_reason=True),), place + len("family ") + len(word)
        found = reason_at(said, place)
        return found if found is not None and " " in said[place : found[1]] else None

    return find

"""What a line asks for, and what it only names in passing: "Gavotte, fix m. 5", "m. 12 has a C natural", "falls apart at 84".

One rule: measures are the passage where nothing stands before them in their clause but words that say to play them or which
part of the piece they are; a title may stand before the first. A single measure is a passage less often than several, so
that a word behind a title ("Gavotte crescendo m. 5") or a verb behind it makes it one in passing. Where the rule is wrong, nothing
is claimed, and the measures are named as not read. Practice days follow the rule too, but in the clause of a title: "Gavotte,
grandma visits Sat and Sun" asks for all days.

A tempo, minutes, and repetitions may be of anything that is practiced: "fingerpicking pattern at 80", "sing the tune twice".
They are of something else behind words that tell ("book says"), that say whose they are ("recital speed"), or that ask for rest;
a tempo also where no word of its clause is one of playing: "for the concert q=120".
"""

from collections.abc import Sequence

from cockpit.studio.assignments.assignment import Measures, Part
from cockpit.studio.assignments.measures import MEASURE_WORDS
from cockpit.studio.assignments.tokens import ARTICLES, DASHES, ENDS_CLAUSE, JOINERS, SPELLED, Claim, Tokens, words_in
from cockpit.studio.notes.areas import Area

# Common practice, no source: what is said before the measures that are asked for, in four languages.
_PLAY = words_in(
    "play practice practise practicing practising work rehearse learn memorize memorise repeat loop drill review polish isolate "
    "study read start begin continue finish do go keep add try please spend focus üben spielen lernen wiederholen ab jouer travailler apprendre "
    "répéter tocar practicar estudiar repetir"
)
_PART = words_in(
    "section sections part parts passage passages spot spots phrase phrases line lines theme variation var verse chorus refrain bridge "
    "coda intro introduction ending exposition development recapitulation trio minore maggiore measures bars first second third last "
    "new old middle beginning opening end whole entire all both half page"
)
_HOW = words_in(
    "only just now also again next then up down through thru out at be so hs ht lh rh hands hand slow fast loud soft legato staccato "
    "pizz arco together separately apart alone nur jetzt noch seulement encore solo ahora"
)
_ALLOWED = _PLAY | _PART | _HOW | ARTICLES | JOINERS | frozenset(SPELLED)
_BEFORE_DAYS = words_in(
    "every each this week day days minutes min with it am an jeden jede le les los el du von de tous chaque cada und et y"
)
_DAYS_OF_A_WEEK = 7
# "Especially m. 5" stresses one measure of all.
_STRESSING = words_in("especially particularly mainly mostly notably chiefly primarily")
_CONDITIONS = words_in("if when where whenever wherever unless like see watch")
_BESIDE = words_in("with within during as than like")
_AND = frozenset({",", "&", "+", "and"})
_IN_A_LIST = _AND | DASHES | {"."}
_VERBS = words_in("is was has have had can could may might must should will would does did gets got were are")
_NO_VERBS = words_in("hands always as plus twice times this his sempre perhaps")
_SHORTEST_VERB = 4
_AMOUNTS = frozenset({Part.TEMPO, Part.MINUTES, Part.TIMES})
_IN_PASSING = _AMOUNTS | {Part.MEASURES, Part.DAYS}
_COPULAS = words_in("is are was were")
# What is told, and not asked for: "book says q=120", "falls apart at 84", "lesson moved to Wed and Fri".
_TELLING = words_in(
    "says said tells told shows showed marks marked prints printed gives gave falls fell breaks broke crashes crashed stumbles stumbled "
    "trips tripped works worked goes went gets got sounds sounded feels felt plays played lasts lasted sits sat reaches "
    "reached manages managed slows slowed rushes rushed drags dragged collapses collapsed loses lost panics panicked freezes froze "
    "rang forgot forgets made did knew kept began stood brought fails failed comes came hears heard moves moved arrives arrived spent visits visited late wants wanted gone apart tops topped peaks peaked sagt steht dit "
    "dice dura dauert dure"
)
_RESTING = words_in(
    "pause pauses wait waits breathe breathes breath breaths inhale exhale rest break breaks stretch talk talks chat chats snack nap drive pausieren warten atmen "
    "attendre respirer esperar respirar"
)
# Whose tempo is not the student's, unless it is played with, to, or for them.
_ANOTHERS = words_in(
    "book books recital recitals concert concerts performance performances recording recordings record cd dvd video videos youtube "
    "edition composer score publisher orchestra audition exam jury competition original printed published teacher"
)
_RATE = words_in("speed speeds tempo pace mark marking marks markings version")
_BESIDE_AMOUNT = frozenset({":", "=", "time"})
_LASTING = words_in(
    "recital recitals concert concerts performance performances audition exam competition jury duration length running bathroom toilet "
    "commute"
)
# How it is in the end, or as somebody says, and not how it is to be played.
_NOT_HOW = words_in(
    "takes took wobbly shaky messy sloppy blurry bounces blurs blur limit comfortable someday eventually finally ultimately originally supposedly "
    "officially normally usually barely nearly hardly"
)
_SMALL = ARTICLES | JOINERS | words_in("at it this that so up out be as than until every each still yet")
_TOGETHER = words_in("with to along")
_BESIDE_SOMEBODY = _TOGETHER | words_in("for at by like")
# Somebody does something: "dad home Sat Sun", and in no title "she managed 84".
_SOMEBODY = words_in("mum mom dad mama papa grandma grandpa granny nana oma opa maman mamie")
_SHE_AND_OTHERS = words_in("she he they we")
_LEADING_TO_NAMES = frozenset({",", ";", "(", "[", ":"})
# Common practice, no source: how something is played, in words that may stand before a tempo or behind practice days.
_MUSIC = words_in(
    "note quarter eighth sixteenth triplet beat pulse click metronome met drone tempo speed pace goal target aim tick ticking subdivide "
    "subdivided subdividing count counting clap clapping tap tapping sing singing hum humming say saying march marching walk conduct air "
    "bow bowing bowed slur slurred slurring unslurred tie tied dot dotted straight even uneven long longer short whole half full martelé "
    "martele detache détaché tremolo trill turn mordent ornament ornamented grace scale arpeggio octave third sixth finger fingering "
    "thumb wrist arm pedal pedaled string open position shift shifting chord cadence broken blocked block rhythm rhythmic swing swung "
    "slower faster medium moderate steady steadier relaxed gentle light lighter heavy quiet quieter softer louder forte piano mezzo "
    "crescendo cresc dim decrescendo rit tone tongue tongued tonguing single double triple articulation accent accented repeat repeated "
    "repeating time each every other per with without in on at to from of as than until melody bass tune theme accompaniment voice "
    "unison build building climb climbing warm aloud loudly mental always keep keeping stay staying hold set use take get reach same best "
    "top run lip buzz mouthpiece breath motif motive pattern sequence exercise etude group fours threes twos pairs sixes chromatic "
    "major minor natural harmonic melodic sharp flat key mode left right clean mixed muted plucked rolled raised doubled connected "
    "curved separated varied syncopated transposed memory memorized memorised heart swing feel waltz dance once twice thrice three four "
    "five day daily week this it every morning evening clearly movement mvt section no num nr op opus plus both alternate alternating "
    "down up ups downs leap skip step jump strum strumming pick picking pluck plucking fretting barre capo roll roller rudiment paradiddle "
    "pickup upbeat mm nd rd st th mayor menor majeur mineur dur moll bémol dièse bemol sostenido do ré re mi fa sol la si cis fis gis es as "
    "track backing comp comping changes improvise improvising bring push raise increase bump "
    "piano keyboard violin viola cello bass guitar ukulele harp flute clarinet oboe bassoon saxophone sax trumpet horn trombone tuba drum "
    "snare recorder performance mock practice "
    "vowel scat vibrato shadow ghost silent silently blind eyes closed standing seated "
    "mit ohne langsam langsamer schnell schneller leise laut dann erst metronom im am beim auf für gleichmäßig ruhig achtel viertel halbe "
    "und et y al del par por jeden jeder tag täglich mal hände zusammen einzeln getrennt linke rechte hand gebunden "
    "avec sans lent plus vite doucement métronome noire croche blanche mains ensemble séparées chaque jour par fois "
    "con sin lento despacio rápido metrónomo negra corchea manos juntas separadas cada día por vez veces"
)
_ITALIAN = ("ato", "ando", "endo", "issimo", "bile", "oso", "ante", "etto", "mente", "ement")
_LEADING_FROM_DAYS = _MUSIC | words_in(
    "perform record film video listen watch for by after before during when if while until and or but not never no without don do does because so then about around only also "
    "again instead please using following starting beginning at with like through off except"
)


def without_passing(tokens: Tokens, found: Sequence[Claim]) -> list[Claim]:
    """The same without the measures that are only named, and with a mark on amounts and days of something else."""
    if not any(each.part in _IN_PASSING for each in found):
        return list(found)
    within = {at for each in found for at in range(each.begins, each.ends)}
    kept: list[Claim] = []
    behind = 0  # the last passage, behind which no title stands
    for each in found:
        if not each.is_denied and _is_of_something_else(tokens, each, within, behind):
            kept.append(each._replace(is_denied=True, is_aside=True))
            continue
        is_passage = each.part is not Part.MEASURES or each.is_denied or not each.values
        is_passing = _is_in_passing(tokens, each, within, behind) if not is_passage else False
        if is_passage or not (is_passing or _goes_on_from_passing(tokens, each, kept)):
            kept.append(each)
            behind = each.ends if each.part is Part.MEASURES and not is_passage else behind
    return kept


def _is_in_passing(tokens: Tokens, measures: Claim, within: set[int], behind_others: int) -> bool:
    is_single = all(isinstance(each, Measures) and each.first == each.last for each in measures.values)
    if _is_spoken_of(tokens, measures.ends, is_single=is_single) and measures.ends not in within:
        return True
    begins = max(_clause_begin(tokens, measures.begins, within), behind_others)
    before = [at for at in range(begins, measures.begins) if at not in within and tokens.words[at].isalpha()]
    if not before:
        return False
    if tokens.words[before[-1]] in _BESIDE or any(
        tokens.words[at] in _CONDITIONS and tokens.typed[at].islower() for at in before
    ):
        return True
    behind = _behind_title(tokens, before, is_first=begins == 0, is_single=is_single)
    return any(not _is_allowed(tokens.words[at]) for at in behind)


def _is_of_something_else(tokens: Tokens, found: Claim, within: set[int], behind_passage: int) -> bool:
    """Whether an amount or some days are not those of the practice: "pause 10 min", "Wed Fri soccer", "recital speed q=120"."""
    if found.part not in _AMOUNTS:
        return found.part is Part.DAYS and _are_days_of_something_else(tokens, found, within)
    begins = _clause_begin(tokens, found.begins, within)
    while begins and tokens.words[begins - 1] == ":":  # "recording: 132 bpm"
        begins = _clause_begin(tokens, begins - 1, within)
    before = [at for at in range(begins, found.begins) if at not in within and tokens.words[at].isalpha()]
    if not before:
        return False
    behind_title = [at for at in before if at >= behind_passage] if begins or behind_passage > begins else []
    is_of_it = bool(behind_title) and tokens.words[behind_title[0]] in {"it", "its"}
    if (
        is_of_it
        or any(_tells(tokens, at, found) for at in before)
        or any(tokens.words[at] in _SHE_AND_OTHERS for at in behind_title)
    ):
        return True
    content = [at for at in behind_title if tokens.words[at] not in _SMALL]
    if found.part is Part.TEMPO:
        return bool(content) and not any(_is_of_playing(tokens, at, begins) for at in content)
    return any(_is_past(tokens.words[at]) for at in behind_title)


def _are_days_of_something_else(tokens: Tokens, days: Claim, within: set[int]) -> bool:
    """Whether words that do not say to play stand before some days in their clause, or right behind them.

    Before them the clause of a title may have anything that tells nothing.
    """
    if not 0 < len(days.values) < _DAYS_OF_A_WEEK:
        return False
    if tokens.word(days.begins - 1) == "to" or _goes_on_with_something_else(tokens, days.ends, within):
        return True
    begins = _clause_begin(tokens, days.begins, within)
    before = [at for at in range(begins, days.begins) if at not in within and tokens.words[at].isalpha()]
    if tokens.word(begins - 1) in {"", "but", "then"}:
        return any(_tells(tokens, at, days) for at in before)
    return any(tokens.words[at] not in _BEFORE_DAYS and not _is_allowed(tokens.words[at]) for at in before)


def _goes_on_with_something_else(tokens: Tokens, at: int, within: set[int]) -> bool:
    """Whether days are followed by a small word that neither leads on nor speaks of playing: "Wed Fri soccer"."""
    word = tokens.word(at)
    if at in within or not word.isalpha() or not tokens.typed[at].islower() or tokens.word(at + 1) == "it":
        return False
    return word not in _LEADING_FROM_DAYS and not _is_music(word)


def _tells(tokens: Tokens, at: int, found: Claim) -> bool:
    """Whether a small word tells of something, or asks for rest, so that an amount behind it is none of the practice."""
    word, behind = tokens.words[at], tokens.word(at + 1)
    if not tokens.typed[at].islower():
        return False
    is_somebody = word in _SOMEBODY and tokens.word(_before_articles(tokens, at)) not in _BESIDE_SOMEBODY
    if word in _TELLING or is_somebody or (word in _COPULAS and at + 1 == found.begins):
        return True
    if found.part is Part.TEMPO and word in _NOT_HOW:
        return True
    if word in _RESTING:
        return found.part is not Part.DAYS and tokens.area not in {Area.WARM_UP, Area.TECHNIQUE}
    is_beside = at + 1 == found.begins or (at + 2 == found.begins and behind in _BESIDE_AMOUNT) or behind in _RATE
    whose = {Part.TEMPO: _ANOTHERS, Part.MINUTES: _LASTING}.get(found.part, frozenset())
    return word in whose and is_beside and tokens.word(_before_articles(tokens, at)) not in _TOGETHER


def _before_articles(tokens: Tokens, at: int) -> int:
    at -= 1
    while at >= 0 and tokens.words[at] in ARTICLES:
        at -= 1
    return at


def _is_of_playing(tokens: Tokens, at: int, begins: int) -> bool:
    """Whether a word in the clause of a tempo says how it is played; a name is that of a part or a piece: "Trio q=60"."""
    is_name = tokens.is_capital(at) and (at > begins or tokens.word(begins - 1) in _LEADING_TO_NAMES)
    word = tokens.words[at]
    is_with_another = tokens.word(_before_articles(tokens, at)) in _TOGETHER and word in _ANOTHERS
    return is_name or is_with_another or _is_music(word)


def _is_music(word: str) -> bool:
    is_known = word in _MUSIC or word.removesuffix("s") in _MUSIC or _is_allowed(word)
    return (is_known and word not in _TELLING) or len(word) == 1 or word.endswith(_ITALIAN)


def _is_past(word: str) -> bool:
    """Whether a word tells of the past by its ending: "arrived", and neither "speed" nor "slurred"."""
    is_ending = len(word) > len("need") and word.endswith("ed") and not word.endswith("eed")
    return is_ending and word not in _MUSIC


def _goes_on_from_passing(tokens: Tokens, measures: Claim, kept: Sequence[Claim]) -> bool:
    """Whether measures go on a list that began in passing: the second ones of "lift in m. 5, m. 9"."""
    at = measures.begins - 1
    if tokens.word(at) not in _AND:
        return False
    while at >= 0 and (tokens.words[at].isdigit() or tokens.words[at] in _IN_A_LIST):
        at -= 1
    is_claimed = any(each.begins <= at < each.ends for each in kept)
    return at >= 0 and tokens.words[at] in MEASURE_WORDS and not is_claimed


def _behind_title(tokens: Tokens, before: list[int], *, is_first: bool, is_single: bool) -> list[int]:
    """The words of a clause that are none of a title: those behind its last capital, and none before several measures."""
    if is_first and not is_single:
        return []
    if not is_first and is_single:
        return before
    capitals = [at for at in before if not tokens.typed[at].islower()]
    title = capitals[-1] if capitals else before[0] if is_first else -1
    return [at for at in before if at > title]


def _is_allowed(word: str) -> bool:
    return word in _ALLOWED or (word.endswith("ly") and word not in _STRESSING)


def _is_spoken_of(tokens: Tokens, behind: int, *, is_single: bool) -> bool:
    """Whether a verb follows that makes measures what a sentence speaks of: "m. 12 starts on an up-bow", "mm. 5-6 have ties"."""
    word = tokens.word(behind)
    if is_single and word == ":":  # "m. 5: F sharp"
        return True
    if not is_single or not word.isalpha() or not tokens.typed[behind].islower():
        return word in {"has", "have", "had"}
    is_third_person = len(word) >= _SHORTEST_VERB and word.endswith("s") and not word.endswith(("ss", "us"))
    return word in _VERBS or (is_third_person and word not in _NO_VERBS)


def _clause_begin(tokens: Tokens, ends: int, within: set[int]) -> int:
    """The place behind the last sign that ends a clause; a dot behind a small word shortens it: "cresc. m. 5"."""
    for at in range(ends - 1, -1, -1):
        word = tokens.words[at]
        is_short_form = word == "." and tokens.is_glued(at) and tokens.typed[at - 1].islower()
        is_end = word in ENDS_CLAUSE or word == ":" or tokens.is_spaced_dash(at)
        if is_end and not is_short_form and at not in within:
            return at + 1
    return 0

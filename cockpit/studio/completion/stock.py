"""The built-in stock of words and phrases for a teacher who has no notes yet, counted once, and words by how they begin.

Words, pairs of words and lines are of our own choice, and their order is a guess at how often they come in notes:
common practice, no source.
"""

from collections.abc import Iterable, Mapping
from functools import lru_cache

from cockpit.studio.completion.ngrams import Counting, Ngrams, learn_line, learn_opening
from cockpit.studio.completion.tokens import START
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels

_MOST_EACH = 6
_LONGEST = 24
_LABEL_WEIGHT = 0.1
_PAIR_WEIGHT = 4.0
_PAIR_RANK = 2
_RANK = 20
Words = Mapping[str, Mapping[str, float]]
_WORDS = """
the and to a of in on is it for with you your at up that from this out more one as be when so all not play by new keep
each time now me do or are very was before through down can just them let two same every last then her but will where
good well practice today next week hands note notes slowly slow great first lovely tone nice hand both finger fingers
thumb bow right left line lines bar bars measure measures page pages song tune piece pieces rhythm tempo beat beats
count counting steady even clear sound sounds soft softly loud louder softer fast faster quick light lightly heavy
gently relaxed relax loose shoulders shoulder wrist wrists arm arms elbow elbows back posture sit stand breathe breath
breathing listen listening hear heard sing singing clap clapping tap say aloud feel look watch remember memory memorize
start begin beginning end ending middle stop stopping go going come coming again once twice three four five six seven
eight nine ten many few little bit much most less enough only also still already always never often sometimes day days
daily minute minutes morning evening night home school lesson lessons concert recital performance perform exam audition
rehearsal duet teacher student mother father mom dad parents family sister brother friend work worked working works
learn learned learning try trying think about know known knew find found read reading write writing mark marked check
use using make makes made making take takes taking give gives giving get gets getting put bring brings show shows shown
tell tells ask asks answer help helps need needs want wants like likes love loved enjoy better best big bigger small
smaller long longer short shorter high higher low lower strong stronger weak easy easier hard harder difficult different
beautiful beautifully careful carefully musical musically smooth smoothly ready proud happy tired nervous shy excited
sick late early busy progress improvement improved effort job done excellent wonderful super bravo congratulations thank
thanks welcome please sorry phrase phrases phrasing melody melodies harmony harmonies chord chords bass treble clef
voice voices voicing balance accompaniment dynamics dynamic crescendo decrescendo diminuendo forte piano pianissimo
fortissimo mezzo accent accents accented staccato legato detache martele spiccato pizzicato arco tremolo vibrato trill
trills ornament ornaments grace articulation articulate slur slurs slurred tie ties tongue tongued tonguing separate
together separately metronome pulse tempos ritardando rubato fermata pause rest rests upbeat downbeat pickup syncopation
triplet triplets eighth eighths quarter quarters half halves whole sixteenth sixteenths dotted swing swung scale scales
arpeggio arpeggios octave octaves third thirds sixth sixths fifth fourth second seventh interval intervals major minor
harmonic melodic natural chromatic pentatonic blues modal key keys signature sharp sharps flat flats position positions
shift shifts shifting fingering fingerings string strings open bowing bows frog tip pressure speed contact point bridge
fingerboard neck fret frets capo pick strum strumming barre embouchure reed mouthpiece ligature lips jaw air airstream
diaphragm support register overtones harmonics pedal pedals pedaling damper sustain bench keyboard crossing cross
crossings under over intonation pitch tuner tuned tuning drone resonance ring ringing blend ear training theory workbook
worksheet flashcards book books sheet sheets copy score edition part parts section sections passage passages spot spots
variation variations repeat repeats repeated coda exposition development recapitulation introduction theme themes verse
chorus movement movements sonata sonatina minuet gavotte waltz march etude etudes study studies prelude invention fugue
rondo bourree gigue jig reel allegro andante adagio presto moderato concerto suite nocturne mazurka polonaise Bach
Handel Haydn Mozart Beethoven Schubert Schumann Chopin Brahms Liszt Debussy Ravel Satie Grieg Vivaldi Corelli Telemann
Scarlatti Purcell Clementi Czerny Burgmuller Kuhlau Diabelli Hanon Kreutzer Wohlfahrt Kayser Mazas Dotzauer Popper Sor
Carcassi Carulli Giuliani Tarrega Paganini Mendelssohn Tchaikovsky Faure Elgar Dvorak Bartok Joplin C D E F G A B Bb Eb
Ab Db Gb F# C# G# HS HT LH RH Monday Tuesday Wednesday Thursday Friday Saturday Sunday January February March April May
June July August September October November December Christmas holiday holidays summer winter spring autumn weekend
vacation birthday would could should may might must shall have has had having been being were am does did doing they
their there these those what which who how why because if than too into onto off until while after during without within
between against around near far away here he she his him its we us our my I something anything nothing everything
someone everyone anyone another other others such own some any no yes maybe almost nearly quite rather really actually
especially finally usually perhaps instead apart ahead above below behind beside across along toward inside outside top
bottom side front edge corner place places thing things way ways kind kinds sort lot word words name names number
numbers letter letters question questions idea ideas example examples reason sure hold holding held move moves moving
lift lifting lifted drop drops press release lets leave leaves leaving land lands rise rises fall falls float floats
bend bends curve curved flatten straight straighten tight tighten tension turn turns turning close closed touch reach
stretch shape shaped shaping connect connected carry follow followed following lead leading change changes changing add
adding remove skip starts started finish finished continue continued played playing plays sounded practiced practicing
prepare prepared preparing isolate loop record recorded recording recordings video camera microphone send sent share
choose chose chosen decide focus concentrate imagine pretend notice noticed understand understood explain correct
correctly wrong mistake mistakes fix fixed solid secure accurate confident confidence controlled control independent
independence expression expressive feeling feelings character mood color colour colors story picture dance dancing warm
warmer cold bright brighter dark darker round rich full thin deep quiet quietly silent silence size grip flexible
flexibility firm firmly gentle naturally closer attention aware awareness goal goals plan plans challenge review reviews
assignment assignments tomorrow yesterday tonight later soon since ago hour hours seconds month months year years old
young kids child children boy girl people audience everybody nobody somebody person partner group orchestra band choir
quartet violin viola cello guitar ukulele flute clarinet oboe saxophone trumpet horn trombone drums singer instrument
case chair desk table room house floor door window phone computer screen internet email message call invoice payment
schedule reschedule canceled missed absent trip travel moved seems seemed looks looked feels says said told asked
wanted needed liked enjoyed remembered forgot forgotten lost broke broken bought ordered order buy replace replaced
rosin chinrest endpin hurts hurt pain sore stiff ache tense stress stressed worried upset cried laughed smiled smile fun
funny joy delight kept keeps keeping began begins gone went came gave got saw seen felt thought taught caught brought
stood sat ran run runs running walk walking jump jumps leap leaps step steps stepwise climb able accept accident account
act action actual admire advice afraid afternoon age agree allow alone alive amount angle angry animal answered ankle
announce appear apple apply approach area argue arrive arrived art articulated ashamed asleep assign attack attempt
attend average avoid awake award awesome awkward baby backward backwards bag ball balanced bare barely base basic basis
bath became become becomes bed behave belief believe bell belong benefit beyond bike bird bite blank block blocks blow
blowing blue board body boil bold bone bored boring born bottle bounce bouncing box brain brand brave bread break
breaking breakfast breaks breeze brief briefly brighten broad bump bumps build building built bus button buzz cake calm
calmer calmly camp candle capable car card cards cast cat catch catches caution cause center central certain certainly
chain champion chance chapter chart cheek cheer chest chin choice circle circles city class classes clean cleaner
cleanly clearly clever click climax clock cloth clothes cloud clouds clue coach coffee collapse collect college combine
comfortable comfortably comma comment common compare complete completely complex compose composer concern condition
conductor congratulate consider consistent contrast conversation cook cool correction cost cousin cover covered crazy
cream create creative crisp cry cue cup curious curl current curtain cut daddy damp danger deal dear decided declare
decorate deeper definitely delay delicate delicious depend deserve detail details determined develop difference
difficulty dig dinner direct direction disappear disappointed discover discuss distance distract divide doctor dog
double doubt downward dozen draw drawing dream dress drink drive drum dry due dull dust duty eager ears earlier earn
earth ease easily eat effect effortless egg either elephant eleven else emotion emphasis empty encourage encouraging
energy enter entire entrance entry envelope equal equally error errors escape essay evenly event ever evil exact exactly
examine except exchange excuse exercise exercises exhale expect expected experience experiment expert extend extra
extremely eye eyes face facing fact fade fail fair fairly faith fake fallen false familiar famous fancy fantastic
farther fashion fat fault favorite fear feather feathers feed feet fell fellow field fight figure fill film fine fire
fish fit fitting flag flash flexed flip flow flowing flower flowers fluent fluently fly flying foggy fold food foot
footstool force forced forever forget form forward forwards fourteen frame free freedom freely fresh frown fruit fully
further future gain game games gap garden gas gather general generous gesture gift girls glad glass glide goes gold
goodbye grab grade gradual gradually grand grandma grandmother grandfather grandpa grandparents grasp grass gray green
greet grew ground grounded grow growing grown growth guess guest guide habit hair hall hallway hammer hang happen
happened happens happier hardly hat hate head headphones health healthy heart heavier hello hero hesitate hey hill hint
hip hit hole honest honor hop hope hopeful horizontal horse hot huge hum human humming hundred hungry hurry ice ignore
ill image immediately impatient impress impressed impressive improve improving inch include increase incredible inhale
inner inspire instant intense interesting interpretation interrupt introduce invite invited involved island issue item
itself jacket join joint joined joke journey judge juice jumping jury kick kid king kitchen knee knees knock knuckle
knuckles label lady lap large largely larger laptop lately laugh layer lazy least leather legs leg length lend level lie
life lighter likely limit limited linger link lion list lively living loan local location logical lonely loosen lots
luck lucky lunch lyrical machine mad magic main mainly manage managed manner map marching mask master match matter
matters maximum meal mean means meant meet meeting mental mention mentioned mess metal method mid midnight mild mile
milk mind mine minimum minus mirror miss missing mix mixed model modern moment moments money monkey moon mostly motion
motivated motivation mountain mouth mouse mud multiple muscle muscles mute muted mystery nail nails narrow nature neat
neighbor neither nerves nest net neutral news nicely niece nod noise noisy none nor normal normally north nose noted
nowhere object obvious obviously occasion ocean odd offer office okay older onward opening opinion opportunity opposite
option optional orange ordinary organize original ours outer outward overall overtone owe pace pack pair palm palms
pants paper parent park particular particularly partly party passed past path patience patient patiently pattern
patterns pay peace peak pen pencil perfect perfectly performed period permission personal pet photo physical pianist
pink pinky pinkie plain plane plant planet plastic plate player pleasant pleased pleasure plenty poem poetic pointed
polish polished polite pool poor popular pop pose positive possible possibly post pot pour power powerful precise
precisely prefer present pretty prevent previous print private prize probably problem problems process produce program
project promise promised proper properly protect prove provide public pull pulled pulling pulsing punch pupil purple
purpose push pushed pushing puzzle quality queen quicker quiz rabbit race rain raise raised range rare rate reached
react reaction real realize reasonable receive recent recently recognize recommend recover red reduce refer reflect
refuse regular regularly relate relationship reliable relief rely remain remind reminded reminder rent replied report
represent request require rescue research respect respond responded result return returned returns reward ribbon ride
rising risk river road rock role roll rolling roof rope rose rotate rotation rotten rough roughly route row rub rule
rules rush rushed rushes rushing sad sadly safe safely sail salt sand sang satisfied save scared scary scene scheme
science scream search season secret seem select sense sensitive sentence series serious seriously service session settle
settled seventeen several shade shadow shake shaking shallow shame sharper sharply sheep shelf shell shine shiny shirt
shock shoe shoes shop shout showed shower shut sigh sight sign signal silly silver similar simple simpler simply single
sink sitting situation sixteen skill skills skin skipped sky sleep sleepy slide sliding slight slightly slip slipped
slope slower smart smell smoother snow society sock solo solve somehow sometime somewhat somewhere son soul source south
space spare spark speak speaking special speech spell spend spent spider spin spirit split spoke spoken spontaneous
sport spread square squeeze squeezing stable stage stair stairs star stare stars state statement station stayed stays
stay steadier steadily steal stem stick stiffness stomach stone stool store storm strange stranger stream street
strength strict stroke strokes struggle struggled struggles stuck style subject succeed success successful sudden
suddenly sugar suggest suggested suggestion suit suitable sun sunny supper supply supposed surely surface surprise
surprised surprising sweet sweetly swim swings switch symbol sympathy system tail talent talented talk talked tall taste
tea teach team tear tears teeth telephone temper tend tender tendon tennis term terms terrible terrific test testing
text thankful theater theirs themselves thick thirteen thirty thoughtful thousand thread threw throat throughout throw
thumbs ticket tickle tiny tiptoe tire tissue title toe toes tooth total totally touched tough tour towards towel town
toy track tracks trade tradition traditional traffic train transition transitions transpose trap treat tree trick tricky
tricks tried trouble troubles truck true truly trust truth tube turtle twelve twenty twist type typical ugly umbrella
uncle underneath understanding uneven unhappy unique unit university unless unlock unsteady unusual update upper upright
upward upstairs urgent used useful user usual valley value van variety various vary vegetable version vertical view
village visit visited visual vivid vocal volume wait waited waiting wake wall wander warning wash waste watched watching
water wave waves wax wear weather website wedding weigh weight weird west wet wheel whenever wherever whether whichever
whisper whispers whistle white whoever wide wider wife wild willing win wind windy wing wings winning wipe wise wish
wishes woke wolf woman won wonder wondering wood wooden wore world worry worrying worse worst worth wow wrap wrapped
written wrote yard yawn yellow yet yours yourself youth zero zone zoom
"""
# The usual first, each once.
WORDS = tuple(dict.fromkeys(_WORDS.split()))
# A word and those behind it, the usual first.
_PAIRS = """
the: same first last end right left whole piece beginning next second rhythm notes melody other beat string bow top way middle tempo
a: little bit lot good great new few nice steady day big time small very bar long short week slow
an: octave easy hour exam idea even open
to: the be play a do keep make get hear your practice begin see use listen learn start have
of: the a your each it this them all time course these his her practice fun both
in: the a your m this tune front time one both each between C G | on: the a your each it top one time Friday Saturday
is: a the not very much still so in more to better your too really good now what
are: the you so still not very getting too ready all doing both
was: a the so very not much really too good great tired in | were: very so the not a both
it: is was in a with to up will the again slowly gets feels sounds for
for: the a your each it this next me now one both you fun
with: the a your both more one no me his her it each less separate
your: left right hand bow fingers thumb wrist arm own teacher shoulders elbow tone sound eyes part body
you: can are have play will did know were hear feel want need do like could go
at: the a home first least your m half once all tempo | up: to the and with for in on your a
that: the is you it was a we they he she one | this: week is time one piece was year line a
and: the then a keep your play listen not let it feel more sing no two | as: a you well if the it soon much in
but: not the it keep still only now do a | or: the a two three not | if: you the it he she your they
so: that the you much it far keep we good well is | be: a the careful able ready very in on more heard
not: the a to too so rush stop forget just yet only be on | can: be you hear play do we now already start go
will: be help need make have hear do play come | we: will can need are did have should had talked worked start
he: is was has can does needs wants says will had likes | she: is was has can does needs wants says will had likes
his: left right hand mother father own bow sound fingers parents
her: left right hand mother father own bow sound fingers parents | they: are will can have were do
there: is are was will | has: to a been the not more | have: a to fun the been you more | had: a to the been
do: not it the this you that a | does: not the it | did: you not a the very | all: the of your four three day at in
one: of at day octave more hand line note time in bar | two: octaves hands lines notes bars times more weeks days of in
three: times octaves notes days weeks lines of | four: bars times notes lines octaves beats days
each: day hand note time of bar line finger string phrase other | every: day note time other bar beat week
both: hands parts of pages times | more: time sound bow than work air of and weight slowly confident
most: of important | much: better more less easier too of clearer | many: of times notes
little: bit more by slower faster finger too less | bit: more of slower faster too less | lot: of more better
good: job work to idea progress for sound start tone and | great: job work to progress sound start improvement
nice: and job work sound tone to | new: piece notes song one string book line and
first: time page line note beat two half finger and part bar four
last: week line note time page two bar four lesson one | second: time half page line part finger and beat
third: finger line time page and beat | fourth: finger line | next: week time lesson to note line one year phrase
same: time for way as in thing note | right: hand arm now foot before after side in | left: hand arm thumb foot side
hand: alone and is position in only on first together | hands: together separately are and in alone
together: slowly and with in at | separately: first and then before | finger: on and is to in
fingers: on and close are curved round | thumb: is under on and soft | bow: hold is on and straight hand in closer
string: and is crossings to | strings: and are | note: of is in and with to names
notes: in are and of with to before out | tone: is and on in was | sound: is and of in like
rhythm: is in of and was first | beat: in and of is steady | bar: and of is before | bars: and of at in
line: is and of in with | page: is and one two of | part: is of and with in | piece: is and from with of by to
song: is and with for | melody: in is and sing | phrase: and is to like | phrases: and are
time: to and you for with in is on | times: a each through in with and | day: this and with for before
days: this a and | week: and of to is we | weeks: and of | today: and we was with
practice: the with this it slowly and in each time | play: the it with this in through a for each slowly along your them
played: the it with so very this | playing: the it with and in | plays: the it with
keep: the your a going it up working practicing both counting | kept: the your a going it
let: the your it go me them us | listen: to for and carefully | listening: to for | hear: the it your how you that what
sing: the it and along while | count: out the aloud and in four | counting: out and the aloud
watch: the your out for that | look: at ahead for up out | use: the your a more less all only
try: to the it a not and this | make: sure the it a your them up | makes: the it a | made: a the it
take: a your the time it care | start: with from at the in on and to slowly | starting: with from at on
begin: with the to at from | go: back to on through up slowly with for | going: to on back well
come: back in from to out | get: the it to a your ready better | gets: the a better louder faster softer
give: the it each a your | work: on with in and out this | working: on with | worked: on very so hard
think: about of the in you | feel: the it how free like | feels: like better more | know: the how it that your what
remember: to the that your how | forget: to the about | stop: and the at before if on | need: to a more the for
needs: to more a the some | want: to the you a it | wants: to a the | like: a the to it this you
love: the how it your this to | loved: the your how it | lovely: tone sound to work phrasing and
well: done today in with and as this | better: than and now in today with when
very: good well nice much slow slowly musical happy | really: good nice well like
too: much fast loud early late many high low long | from: the a m memory beginning one your start
by: heart the memory ear a one | out: loud of the for and | into: the a your two | over: the and a to
under: the tempo your | through: the it to and each once | before: you the playing each we your a
after: the a you that each lesson | about: the a it your how what | than: last the before a it you
then: the with both play together hands again add a | when: you the it your we they he she | where: the you it
what: you the to is a we | how: to the it you your much many far | while: you the playing your counting
until: it the you next | because: it the you of | between: the each your them
without: stopping the a looking any pedal | only: the one a in two when if | just: the a one as before like enough
even: if when more the in and though | still: a too needs the not in very | again: and with next from in
now: the you we it add that play with | also: the a in play try | once: a with more in slowly and you
twice: a this in each with | half: the speed of tempo a position notes | whole: piece bow bows thing page line notes
long: notes tones bows and as enough | short: and notes of | slow: down practice and bows motion enough
slowly: and with at enough first then in | steady: beat tempo and in | soft: and as at in | loud: and enough as at
light: and as | relaxed: and in | ready: to for and | able: to | sure: to you the that your | important: to than
easier: to if when than | hard: to work on and | tempo: and is with up at in | speed: and of up | scale: with in and is
scales: with in and are | major: and scale in two arpeggio | minor: and scale in two arpeggio | chord: and in is changes
chords: and in are with | octave: and higher with | octaves: hands and with | pedal: and with changes on
wrist: and loose is free | wrists: loose and are | shoulders: down and are relaxed | elbow: and is out
arm: and weight is | memory: and work is | heart: and now | recital: piece is and on in | concert: and on is
lesson: and next time on was | mother: says is and about | father: says is and about | parents: about to are
says: he she that it the | send: me the her his a them | ask: about her his the for if | tell: me her the
show: me her him how | bring: the your a out | write: the in down your a | read: the through it and
record: yourself the it your | check: the your that with | tune: before the your and with | change: the of bow to
changes: are of in | move: the to your on | lift: the your and | put: the your it a | set: the up of | thank: you
enjoy: the your it playing | happy: with birthday to | proud: of | see: you how the if
i: am loved can could will like heard have | who: is was plays can | which: is one of finger | these: two are notes
those: two are notes | them: all in to with and | some: of more time notes | any: of more other
no: need more rush stopping pedal | other: hand one side | another: one week piece | here: is and the we
always: the a be with | never: the a be | should: be not feel sound have | could: be hear you not | would: be like
may: be need | must: be not | been: a very the sick practicing working | being: a so
"""
PAIRS: tuple[tuple[str, tuple[str, ...]], ...] = tuple(
    (word, tuple(behind.split()))
    for entry in _PAIRS.replace("\n", " | ").split(" | ")
    for word, _, behind in (entry.partition(": "),)
    if word
)
# As a teacher may write them; the first words of a line stand behind its label.
LINES = """
Warm-up: long tones, 5 min
Warm-up: open strings, whole bows, 2 min
Warm-up: five-finger patterns, hands separately, q = 60
Warm-up: breathing, then long tones, 3 min
Scales: C major, 2 octaves, hands separately, q = 60
Scales: G major, 2 octaves, hands together, q = 60
Scales: D major 2 oct, q = 60, 5 min
Scales: A minor, harmonic and melodic, 2 octaves
Scales: F major 1 oct, slurred, q = 60, 5 min
Scales: Bb major 2 oct, separate bows, q = 72
Technique: arpeggios, hands separately, q = 60, 5 min
Technique: shifting, 5 min
Technique: trills, 3 min
Etude: no. 1 mm. 1-8, q = 60
Etude: op. 100 no. 2 mm. 1-16, hands separately, q = 60
Etude: no. 3, whole, q = 72
Method book: pp. 4-5
Method book: p. 6, count out loud
Piece: Minuet in G mm. 1-8, hands separately, q = 60
Piece: Minuet in G mm. 1-16, hands together, slowly, q = 60, 10 min
Piece: Sonatina, 1st mvt mm. 1-16, HS, q = 60
Piece: Gavotte mm. 1-16, slowly, q = 60, 10 min
Piece: Waltz, whole, from memory
Piece: Prelude, whole, by heart, q = 72
Review: Minuet in G, once a day
Review: twice this week
Theory: workbook p. 3
Theory: workbook pp. 4-5
Ear: sing the intervals
Ear: sing the first phrase before you play it
Sight-reading: one line a day
Sight-reading: two lines a day
Listening: two recordings of your piece
Next time: hear the scales first
Next time: start with the piece
Follow-up: send the recording
Follow-up: ask about the recital
Follow-up: send her mother the link
Private: was tired today
Private: mother says he is busy at school
start at the end, then the last two lines, then the whole piece
hands separately, then hands together, slowly
hands separately first, slow, count out loud
right hand alone, left hand alone, then both hands
with the metronome, three times each day
one phrase at a time, from the end to the beginning
by heart, with the recording, at half speed
without stopping, even if there is a mistake
once slow, once fast, and once from memory
watch the fingering in m. 8
watch the dynamics, make a crescendo to the top of the phrase
Great job today! I am so proud of you.
Good job with the rhythm this week.
Very good progress this week, keep it up!
Well done on the new piece, you are ready for the next one.
You played so well today, the tone was beautiful.
I loved the way you played the last line.
Much better than last week, now let us work on the tempo.
Keep your fingers curved and your wrists loose.
Keep the thumb soft and the hand round.
Keep the bow straight and close to the bridge.
Keep a steady beat and do not rush.
Keep your shoulders down and your back straight.
Let the arm be heavy and the wrist be free.
Listen to the end of the note.
Listen for the melody in the left hand.
Make sure that you count the rests.
Make sure to use the right fingering.
Remember to breathe at the end of each phrase.
Remember to practice a little bit every day.
Try to sing it before you play it.
Try to feel the beat in your body.
Do not forget to tune before you play.
Do not stop when you make a mistake.
Take your time at the end of the line.
Use the whole bow on the long notes.
Use more bow and less pressure.
Think about the shape of the phrase.
Think of the sound before you play.
There is no need to rush in this piece.
It is easier if you look at the next note.
It was a lot of fun to hear you play.
This is one of the best lessons so far.
This will help you with the fast notes.
The first part is ready, the second part needs more work.
The rhythm is right, now add the dynamics.
The left hand is too loud for the melody.
We will look at the theory next week.
We will start a new piece next time.
See you next week, have a good holiday!
Have fun at the concert on Saturday!
Please bring the book to the next lesson.
Please send me a recording by Friday.
at the same time, in the middle of the piece, on the other side, one at a time, as well as you can
a little slower, a bit faster, a lot of, as soon as, as if it were, so that you can hear it, in order to
in the right hand, in the left hand, on the first beat, on the string, for the first time, from the beginning
to the end, at the beginning, at the end of the, out of tune, in tune, up to speed, under tempo, at tempo
if you can, when you play, before you play, after the rest, all of the notes, each of the three, most of the time
has to be, is going to be, will be able to, would like to, does not want to, needs to be, should be, can be
""".strip().split("\n")


def words_by_beginning(weights: Iterable[tuple[str, float]]) -> Words:
    """For each beginning, without case, the usual words that begin so, each with its share of all."""
    ranked = sorted(weights, key=lambda each: -each[1])
    total = sum(weight for _, weight in ranked) or 1.0
    found: dict[str, dict[str, float]] = {}
    for word, weight in ranked:
        lower = word.lower()
        for length in range(1, min(len(lower), _LONGEST)):
            words = found.setdefault(lower[:length], {})
            if len(words) < _MOST_EACH:
                words[word] = weight / total
    return found


@lru_cache(maxsize=1)
def stock_habits(labels: Labels = BUILT_IN) -> Ngrams:
    """What follows what in the built-in lines, and that a line may begin with a label of hers."""
    counting = Counting()
    above = START
    for line in LINES:
        opening = learn_opening(counting, line, above, 1.0) if ": " in line else above
        above = opening
        learn_line(counting, line, 1.0)
    for name in labels.names:
        learn_opening(counting, f"{name[:1].upper()}{name[1:]}:", START, _LABEL_WEIGHT, labels)
    for word, behind in PAIRS:
        for rank, each in enumerate(behind):
            counting.add((1, word), f" {each}", _PAIR_WEIGHT / (rank + _PAIR_RANK))
    return counting.habits()


@lru_cache(maxsize=1)
def stock_words() -> Words:
    """The built-in words by their beginnings."""
    return words_by_beginning((word, 1.0 / (rank + _RANK)) for rank, word in enumerate(WORDS))


@lru_cache(maxsize=1)
def stock_spellings() -> Mapping[str, str]:
    """The built-in words by their small letters."""
    return {word.lower(): word for word in reversed(WORDS)}

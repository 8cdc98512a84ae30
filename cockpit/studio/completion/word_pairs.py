"""Which words usually stand behind which in plain English, as teachers write it; our own guess, without a source."""

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

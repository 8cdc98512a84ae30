"""Words of the trade and of plain English, of our own choice, for a teacher who has no notes yet.

The order is a guess at how often a word comes in notes; common practice, no source.
"""

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
schedule reschedule cancelled missed absent trip travel moved seems seemed looks looked feels says said told asked
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

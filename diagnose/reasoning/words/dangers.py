"""Dangers in a person's own words: what happens now, to somebody or something that can burn, shock, crush or cut.

``dangers`` reads no lexicon, so that it can hear before anything else is loaded. A text is cut into sentences, forms of
words that mean the same are written as one, compounds that only sound dangerous are struck out ("smoke grey", "hand
towel"), and what is left is held against ``PATTERNS``: who or what, and what happens to it. What is denied, long past
or may only be ("no smoke", "last year", "what if") is passed over by its grammar.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import permutations

from diagnose.reasoning.words.slips import distance
from diagnose.reasoning.words.spelling import fold, taken

# In a pattern: ``a|b`` either word, ``{name}`` a class of words, ``?`` behind it where it may be lacking, ``..`` up to
# five words between and ``...`` up to eight, none of which denies or supposes, ``^`` and ``$`` the ends of a sentence.
# What stands on both sides of ``&`` may come in either order, with as many words between as ``...``.
# ``_`` within a word stands for a space.
CLASSES: Mapping[str, str] = {
    "hand": (
        "arm arms dedo elbow finger finger_tip finger_tips fingers fingertip fingertips fingr forearm forearms "
        "hand hands hend knuckle knuckles mano palm palms pinkie pinky thumb thumbs wrist wrists"
    ),
    "body": (
        "ankle arm arms dedo elbow feet finger fingers fingertip fingertips fingr foot forearm forearms hand "
        "hands hend knee knuckle knuckles leg legs mano palm palms pinkie pinky thumb thumbs toe toes wrist "
        "wrists"
    ),
    "soft": (
        "beard belly cheek cheeks chest chin ear ears eyebrow eyebrows eyelid face forehead hair head jaw lap lip "
        "lips mouth neck nose ribs scalp shin skin stomach thigh throat tongue"
    ),
    "my": (
        "apprentices boss bosss both boys childs colleagues coworkers customers daughters employees friends girls "
        "her his husbands kids lads left me mine my one our own right somebodys someones sons their trainees "
        "wifes workers"
    ),
    "one": "herself him himself itselfs me meself mysef myself myslef ourselves somebody someone them themselves us",
    "who": (
        "apprentice assistant baby bloke boss both boy boyfriend brother child colleague coworker dad daughter "
        "employee everybody everyone friend girl girlfriend guy he helper hes husband i im intern ive kid lad "
        "lady man mate me mom mum operator partner person she shes sister somebody someone son staff student temp "
        "they theyre toddler trainee we weve wife woman worker workmate"
    ),
    "child": (
        "baby cat child children daughter dog grandchild granddaughter grandson kid kids little_boy little_girl "
        "nephew niece puppy son toddler"
    ),
    "m": (
        "calander calender circuit_board compressor computer control_box controller device display dryer element "
        "elements fan heat_plate heater heating heating_plate heatpress hot_plate iron laptop lid machine "
        "machines maquina motor mugpress oven plate platen platens plates platten plattens plattern power_box "
        "power_supply prensa press presse presses printer relay thermostat transformer unit"
    ),
    "elec": (
        "adapter adaptor cable cables connector control_box controller cord cords electrics electronics extension "
        "fuse fuse_box fusebox insulation lead leads mains outlet outlets plug plugs power_bar power_box "
        "power_strip power_supply socket sockets switch terminal terminals transformer wire wires wiring"
    ),
    "metal": "body case casing chassis frame handle handles housing lever machine metal platen press",
    "it": (
        "apron basket bench bin building cardboard everything foam garage glove gloves hair it its pad rag rags "
        "room shop silicone sleeve sleeves something stuff table tape that thing this workshop"
    ),
    "goods": (
        "bag bags banner black blacks blank blanks border borders brown cap case cases cloth coaster coasters "
        "coating color colors colour colours corner corners cotton cushion edge edges fabric felt film flag "
        "fleece garment garments hardboard hat hoodie ink item items jersey lanyard leather mark marks mat mats "
        "mdf mug mugs ornament panel paper papers parchment patch patches piece pieces pillow polyester print ptfe "
        "prints puzzle seam seams sheet sheets shirt shirts slate sock socks spot spots sublimation tee tees "
        "tile tiles towel towels transfer transfers tshirt tshirts vest white wood"
    ),
    "smoke": "dym fumee fumo humea humo qualm rauch rauchen raucht rook smok smoke",
    "smoking": "fuming smokes smokin smoking smoking_like smoldering smouldering smoulders",
    "fire": "feu feuer fire fires flame flames flammes fuego incendio",
    "flames": "feuer flame flames flammes fuego incendio",
    "out": (
        "behind between billowing came come comes coming escaping everywhere filling fills from inside leaking "
        "out pouring pours rises rising rolling shooting shot spreading under underneath"
    ),
    "catch": "cach catch catched catches catching cathed caught cought takes taking took",
    "be": (
        "a all also am are badly be became been began begins being bit completely get gets getting going gone got "
        "had half has have hes im is its just keeps now quite really shes so start started starting starts still "
        "theyre too totally very was went were"
    ),
    "burn": (
        "bernt birnt branded brule brunt burn burnd burnded burned burning burns burnt quemada quemado quemadura "
        "scald scalded scalding scalds scorch scorched sear seared singe singed verbrannt"
    ),
    "burnt": "brunt burn burnd burnded burned burning burns burnt scald scalded scorched singed",
    "blister": "blister blistered blistering blisters",
    "steam": "glue oil steam vapor vapour water wax",
    "breaker": (
        "braker breaker breakers breker circuit_braker differential disjuncteur earth_leakage fuse fuse_box "
        "fusebox fuses gfci gfi ground_fault main_switch mcb rcbo rcd safety_switch sicherung"
    ),
    "trip": (
        "blew blow blowing blown blows falls fell flew flies flipped flipping flips goes jump jumped jumping "
        "jumps kick kicked kicks pop popped popping pops trip triped triping tripped trippin tripping trips went"
    ),
    "shock": "chock electroshock jolt jolts schock shock shocks shok",
    "zap": "electricuted electrocute electrocuted electrocutes electrocuting zap zaped zapped zapping zaps",
    "get": (
        "feel feeling feels felt gave get gets getting give given gives giving got had has have having receive "
        "received suffered take takes taking took"
    ),
    "touch": "grab grabbed grabs held hold holding reach reached touch touched touches touching",
    "smell": "odor odour reek reeks smell smelled smelling smells smelt stench stink stinking stinks whiff",
    "fume": (
        "air bleach chemical chemicals chlorine cleaner exhaust fume fumes gas gases odor odour smell smells "
        "smoke solvent spray stench stink vapor vapors vapour vapours ventilation"
    ),
    "ill": (
        "asthma breathless choke chokes choking cough coughed coughing coughs dizy dizziness dizzy dizzyness "
        "faint fainting gagging head_ache head_hurts head_pounding head_spinning headache headaches ill "
        "light_headed lightheaded migraine nausea nauseated nauseous pass_out passing_out poisoned puke puked "
        "puking queasy retching sick threw_up throw_up throwing_up unwell vomit vomited vomiting wheeze wheezing "
        "wheezy woozy"
    ),
    "dizzy": "breathless dizy dizzy faint light_headed lightheaded nauseated nauseous queasy vomiting wheezing woozy",
    "eyes": "airways chest eye eyes head lung lungs nose throat",
    "sting": (
        "ache aches aching burn burning burns burnt dry hurt hurting hurts irritated itch itching itchy painful "
        "raw red running scratchy smart smarting smarts sore sting stinging stings streaming swollen tearing "
        "tears tight water watering"
    ),
    "caught": (
        "caught chrushed clamped crush crushed crushing flattened jammed mashed nipped pinched pinching pinned "
        "smashed smushed squash squashed squeezed squished stuck traped trapped wedged"
    ),
    "crush": (
        "came_down caught chrushed clamped closed crush crushed dropped fell flattened jammed landed mashed "
        "nipped pinched shut slammed smashed squashed squeezed squished stuck trap trapped"
    ),
    "in": "beneath between in inside into under underneath",
    "open": (
        "come_off come_up go_up let_go lift lifts open opening opens raise release releases releasing rise unlock "
        "unlocks"
    ),
    "shard": "chip chips fragment fragments glass shard shards sliver slivers splinter splinters",
    "brittle": (
        "blade bottle ceramic coaster cup cutter glass guillotine jar knife mug ornament pane plate scalpel "
        "scissors shard shards slate stein tile trimmer tumbler"
    ),
    "cut": "cut cuts cutted gash gashed lacerated pierced slashed sliced slit stabbed",
    "bleed": "bleading bled bleed bleeding bleeds blood",
    "splash": (
        "acetone acid alcohol bleach chemical chip cleaner coating drops dust dye fluid glass glue hot_ink ink "
        "ipa isopropyl liquid powder shard shards solvent something splash splashed splinter splinters spray "
        "sprayed squirt squirted stuff"
    ),
    "poison": (
        "acetone alcohol bleach cartridge chemical chemicals cleaner coating dye fluid glue ink inks ipa "
        "isopropyl liquid powder silica solvent spray thinner"
    ),
    "bleach": (
        "acid ammonia ammoniac bleach chlorine descaler drain_cleaner hypochlorite javel limescale_remover "
        "peroxide toilet_cleaner vinegar"
    ),
    "wet": "beer coffee cola drink juice liquid rain soda tea water",
    "spill": (
        "dripped dripping drips dropped knocked leaked leaking leaks poured pouring ran running spill spilled "
        "spilling spilt splashed tipped"
    ),
    "theres": "theres therewas",
    "presses": "clamp heatpress machine mugpress platen platens platten plattern prensa press presse presses",
    "heats": "display element heat heating it machine platen press temp temperature",
    "fill": "black_with choking_on cough_from covered filled filling fills full thick_with white_with",
    "things": (
        "bench box boxes bubblewrap carpet cart ceiling chair clothes curtain curtains desk dust lamp lint "
        "mattress packaging pants rack roof shelf sofa stool table trousers van wall wallpaper worktop wrapping"
    ),
    "smart": (
        "burn burning burns irritated itch itching itchy running smart smarting smarts sting stinging stings "
        "streaming swollen tearing tight water watering"
    ),
    "number": "240 250 260 270 280 290 300 320 350 400 450 500 550 600",
    "bare": "bare finger fingers hand hands with_bare with_her with_his with_my",
    "bad": (
        "again bad badly deep deeply hard help just lightly little now quite really seriously severely slightly "
        "still terribly today"
    ),
    "digit": "finger fingers fingertip fingertips hand knuckle knuckles pinky thumb thumbs toe toes wrist",
    "heap": (
        "bench board cable cardboard cloth cotton desk element felt foam insulation pad paper pressing_cloth rag "
        "sponge table towel wood wooden workbench worktop wrap"
    ),
    "glow": "glow glowed glowing glows",
    "smoulder": "smoldering smolders smouldered smouldering smoulders",
    "kick": "belt bit bite bites buzz jolt kick kicked kicks prickle sting stings thump tickle wallop whack",
    "strom": (
        "calambrazo calambre choc choque corrente corriente courant elektrik elektrisch elettrica elettrico "
        "kribbeln kribbelt prad scossa strom stroom tok"
    ),
    "shuts": "came_down clamped closed closes closing comes_down dropped drops shut shuts slammed slams",
    "group": "both_of_us everybody everyone us we_all",
    "smells": "pong pongs smelly stinky whiffs",
    "pvc": "acrylic case foam nylon plastic plastisol pvc vinyl wallet",
    "melted": "melt melted melting melts",
    "thinner": (
        "acetone alcohol benzine cleaner gasoline ipa isopropyl lacquer lighter_fluid meths methylated_spirit oil "
        "petrol primer solvent spirit thinner thinners turps white_spirit"
    ),
    "can": (
        "aerosol aerosols butane canister cylinder gas_bottle gas_canister gas_cylinder lighter propane spray_can "
        "spraycan"
    ),
    "falls": (
        "came dripped drips dropped falls fell flew landed poured ran rolled runs slid slipped slips spilled "
        "spilt splashed tipped"
    ),
    "pain": (
        "blister blistered blistering blisters cries crying hurt hurting hurts ouch pain painful screaming "
        "screams sting stinging stings swelling throbbing throbs"
    ),
    "hotm": "element heater hot hot_plate iron mug oven plate platen platens plates press steam tile tumbler",
    "screams": "cried cries crying howling screamed screaming screams sobbing",
    "sleeve": "arm cuff glove sleeve sleeves",
    "burst": (
        "blew_apart blew_to blew_up blown_up burst bursted bursts came_apart explode exploded explodes exploding "
        "flew_apart shattered shattering shatters went_off"
    ),
    "bits": "bits chips fragments piece pieces shard shards splinters",
    "button": "button buttons controller display emergency_stop keypad panel screen switch timer",
    "heats_on": (
        "carries_on carries_on_heating ceaseless gets_hotter getting_hotter goes_on_heating heating_on heats_and "
        "heats_on keeps_coming keeps_getting keeps_going keeps_heating keeps_on_heating stays_on still_getting "
        "still_going_up still_heating still_heats still_on"
    ),
    "climbs": "climbing climbs goes_up going_higher going_up hotter rises rising",
    "lever": "arm handle hinge latch lever pin rod spring_arm",
    "blade": "blade cutter edge glass knife needle scalpel scissors scraper screwdriver shard splinter",
    "through": "across in into through",
    "top": "arm clamshell cover handle head jaw lever lid plate platen top upper",
    "then": (
        "! $ , after again and at bad badly because by every everywhere from help here i if in it just now off on "
        "out so still the to what when while with"
    ),
}
# By danger, the most urgent first.
PATTERNS: Mapping[str, Sequence[str]] = {
    "collapsed": (
        "blacked_out|passed_out|unconscious",
        "cpr|defibrillator|resuscitate|resuscitation",
        "has|had|having a? fit|heart_attack|seizure|stroke",
        "no_pulse|not_breathing|stopped_breathing",
        "{who} .. cant|wont|doesnt|isnt respond|waking|answer|wake",
        "{who} .. collapsed|blacked_out|passed_out|unconscious|fainted|keeled_over|unresponsive",
        "{who} .. foaming|convulsing|convulsions|cramps",
        "{who} .. not|isnt|barely|hardly|stopped breathing|responding|conscious|moving",
        "{who} .. not|isnt|stopped responding|reacting|waking|answering",
        "{who} .. on|to the? floor|ground",
    ),
    "fire": (
        ", the|is|a|there|big|its? {fire} $",
        "^ on fire",
        "^ the|is|a|there|big|have|its|we|small? {fire} in|inside|{fire}|now|here? {fire}? $",
        "apprentice|colleague|im|he|she|somebody|hes|shes|someone is|are|was? on fire",
        "arde|feu|fogo|fuoco|hori|ogien|pozar|vuur|yangin .. {m}|{then}|{in}",
        "bin|basket|rag|rags|rubbish|trash|waste .. burning",
        "brennt|feuer|fuego|incendio",
        "burning|burn|burns|glowing in|inside|under there|here|underneath",
        "ember|embers {then}",
        "extinguisher is? now|where|empty|quick",
        "flames .. everywhere|rising|coming|come|shooting|higher|licking|leaping",
        "get|need|grab|where_is|wheres .. extinguisher",
        "get|need|needs|call|ring|called|calling|phone|phoned .. firebrigade",
        "glowing|glows hot|red|orange? inside|under|in_there .. {m}|$|there|{heap}",
        "had the|a {fire}",
        "had|made|started|start|caused|starting the|a|little|small? fire",
        "ignited|ignites|igniting",
        "is|are|still|was|something burning in|inside|under|underneath|beneath .. {m}|it|lid|pad",
        "is|got|have|see|comes|seeing|{theres}|seen the|a|open|big|little|some|small|an|actual|real? {fire}",
        "on|in {flames}",
        "put|putting out .. {fire}",
        "put|set|setting|sets|lit .. on fire",
        "see|seeing .. it|edge|something|spot|pad|edges glowing|glows|glow",
        "set|setting|sets .. fire|ablaze|alight",
        "went|goes|going|up|burst|bursting|bursts .. flames",
        "{catch} on|the|a? {fire}",
        "{fire} ceaseless|getting|broke|started|starts|breaks|spreading|spreads",
        (
            "{fire} on|in|from|inside|under|at|near|around|behind|out_of .. {m}|{elec}|{it}|here|room|bucket|garage|"
            "oven|corner|kitchen|store"
        ),
        "{flames} .. {out} .. {m}|{elec}|{then}|{it}|{goods}",
        "{glow} & {burn}|{smoke}|{smell}|{smoking}",
        "{goods} .. is|all|are|was|started burning",
        "{heap} .. burning|charring ..",
        "{m}|{body}|{elec}|{soft}|{it}|{goods}|{things} .. on fire",
        "{m}|{elec} {fire}",
        (
            "{m}|{elec}|{it} .. got|has|have|had|made|makes|started|gives|make|making|start|throwing|shoots|spitting|"
            "full_of .. {fire}"
        ),
        "{m}|{elec}|{it} burn|burns !",
        "{m}|{elec}|{it} is|all|are|has|still|was burning",
        "{m}|{elec}|{it}|bin burning {then}",
        "{m}|{elec}|{it}|{goods} .. ablaze|alight|aflame",
        "{m}|{elec}|{it}|{goods}|{things} .. {catch} light {then}|inside|under",
        "{m}|{elec}|{it}|{goods}|{things} ... caught $",
        "{m}|{elec}|{things}|{heap} .. glowing|glows {then}|under|red|orange",
        "{m}|{it}|{goods}|{things} .. blazing|flaming",
        "{theres} .. on fire",
    ),
    "electric-shock": (
        "and|hand|we|i|hands|he|she|they cant|couldnt let go",
        "big|electric|current|electrical|nasty|elektric|mains|electrik|electro|eletric .. hit|{shock}|bite|jolt|kick",
        "cant|couldnt let go of the? it|press|cable|handle|lever",
        "electrocuted|descarga|electrocution|stromschlag",
        "got|get|getting|gets shocked|shoked|schocked",
        "heart .. pounding|fluttering|racing|skipping|stumbling & {touch}|current|{shock}|{zap}",
        "is|was|be|im|am|been|were shocked|shoked off|from|by|through|touching .. {m}|{elec}|it|{metal}",
        "it {kick} {one}",
        (
            "power|electric|electricity|current|voltage|volts|elec .. on|in|from|to|of|at|through .. hand|handle|"
            "metal|arm|lever|body|case|casing|chassis|frame|handles|housing"
        ),
        "shocked|shocking|shocks {my}|{one}",
        "stuck to .. {m}|cable|wire|handle .. power|electric|electricity|current",
        (
            "tingling|tingle|tingles|tingly|buzz|prickle|prickles|tickle|tickles|prickling|tickling ... {m}|{metal}|"
            "touching|touch|arm|fingers|elbow"
        ),
        "{get} .. electric|electricity|current|voltage|volts",
        "{get} .. tingle|buzz|jolt|prickle|tickle|pulse .. touched|touching|touch|grab|hold|holding",
        "{get} .. {kick} off|from|by|out_of .. {m}|{elec}|it|{metal}",
        "{get} .. {shock} {then}|by_the|of_the|to_my",
        "{get}|{be} .. electrocuted|zapped|electricuted|electrified",
        "{hand} .. dead|numb|tingling|tingles|tingly & {touch}|{shock}|{zap}",
        "{m}|{elec}|it|{metal} shocked|shocking|shocks|zaps|jolts|shock {my}|{one}|you|people",
        "{m}|{elec}|it|{metal} {get} {my}|{one} .. {kick}",
        "{m}|{elec}|{metal} .. bit|kicked|stings|bite|kick|pricks|bites|kicks my|when|me|her|if|you|his|him|us",
        "{m}|{elec}|{metal} .. zapped|zaps|zap|zaping|zapping",
        "{m}|{metal} is|are|goes|still|was|must_be|seems live|electrified|energised|energized",
        "{m}|{metal}|touching|touch .. tingling|tingle|tingles|tingly|prickles|tickles",
        (
            "{shock} .. on|off|from|by|at|when|touched|through|touching|touch|every .. {m}|{elec}|it|{metal}|touched|"
            "touching|touch|i"
        ),
        "{strom} & {m}|{body}|{one}|{metal}|{touch}|hand|da|dans|dato",
        "{touch} & flew|knocked|threw|flung|thrown off|over|against|across|back|backwards",
        "{touch} & pricks|pricking & {metal}",
        "{who} .. electrocuted|zapped|electricuted",
        "{zap} .. on|off|from|by|at|when|through .. {m}|{elec}|it|{metal}",
        "{zap} .. {who} $",
        "{zap} {my}|{one}",
    ),
    "caught-hand": (
        "bone|bones .. out|broken|crushed|showing|shows|visible|sticking|poking",
        (
            "broke|missing|lost|cut_off|fractured|severed|amputated|chopped|dislocated|took_off {my}|the|a|one|two "
            ".. {body}|tip"
        ),
        "cant stuck? {my} .. {body} out",
        "fell|dropped|landed|falls .. {m}|tile|box|roll|stack .. on|onto {my} .. {body}",
        "free {my} {body}",
        (
            "hair|lanyard|necklace|ring|scarf|sleeve|tie|apron|bracelet|cord ... stuck|pulled|caught|dragged|sucked|"
            "wound .. rollers|roller|calander|calender|hinge|chain|gears|motor|fan|gear"
        ),
        "hair|lanyard|necklace|scarf|sleeve|tie .. in .. rollers|roller|calander|calender",
        (
            "it shut|fell|closed|came|comes|crushed|closes|dropped|landed|crushes|slammed|squashed down|shut|right? "
            "on|onto? {my} .. {body}|head"
        ),
        "nail|fingernail|fingernails|nails .. fell|came|crushed|hanging|pulled|smashed|hangs|ripped|torn",
        (
            "nail|fingernail|fingernails|nails|thumbnail .. is|went|all|are|goes|gone|has|have|turned|turning|"
            "already off|black|blue|purple"
        ),
        "stuck {who} out .. {m}",
        "stuck|trapped in the? press .. $",
        "tip|fingertip .. off|gone|crushed|missing",
        "top|tip|part|end|half|piece of {my}|the|a? .. {digit} .. off|gone|crushed|hanging|missing|flat",
        "{body} .. cut_off|fractured|severed|off_completely",
        "{body} .. {in} .. {m}|rollers|roller|hinge|clamp|gap|jaws",
        "{caught} .. {my} .. {body}|head",
        "{crush} .. {body} ..",
        "{digit} & black|white|blue|numb|purple & {m}|swollen|{crush}|bent|flat",
        "{digit} .. swollen|swelling|bent|flat|purple|swelled|crooked|flattened",
        "{digit} .. {in} .. {presses}|hinge|chain|gears|springs",
        "{digit}|nail & throbbing|throbs",
        "{hand} .. in {m}|it|there when|as|while",
        "{hand} came_off|is_off",
        "{hand} is|got? shut|broken",
        "{hand}|foot|leg|toe|toes|feet .. {caught}",
        "{hand}|{digit} {in} it|there|them",
        (
            "{my} .. hair|lanyard|necklace|scarf|sleeve|tie|apron|glove|shirt|cuff .. stuck|pulled|caught|trapped|"
            "dragged .. in|into|by|under|between"
        ),
        "{my} .. {body} is|got|went|are|goes|still|was .. {in} .. {m}|it|there|rollers|roller",
        "{my} head .. {caught}",
        "{m}|it|lid .. {shuts} on|over|onto|with|while {my}|{one} {then}",
        "{m}|lid .. closed|came|closes|{crush}|closing .. {hand}|foot|toe|toes",
        "{m}|lid .. down|shut|fell|closed|closes|falls|came_down on|over {one}|apprentice|colleague|somebody",
        (
            "{m}|lid|rollers|calander|calender|cutter .. on|onto|down|came|come|closes|{crush}|closing .. {my} .. "
            "{body}|head"
        ),
        "{shuts} .. with|while .. {hand} .. in|inside|under|there|still|between",
        "{who} .. pulled|dragged|sucked in|into ..|the|$|by {m}",
        "{who} .. stuck|crushed|caught|trapped|pinned .. in|inside|by|under|between .. {m}|it|rollers|roller",
        "{who} .. {caught} with .. {body}",
    ),
    "swallowed": (
        "^ drunk|drank|ingested|swallow|swallowed {my}|the|a|of|little|some|bit? the|of? {poison}",
        "got .. {poison} .. in|into .. mouth",
        "poison_center|poison_centre|poison_control|poisons_centre",
        "{poison} .. in|into {my} mouth",
        "{poison} .. on|in|all_over|around|round {my} lips|mouth|tongue",
        "{who}|{child} .. drunk|drank|drinking & {poison}|cleaner|cleaning",
        (
            "{who}|{child} .. drunk|drank|ingested|sipped|swallow|swallowed|ate|drinks|eaten|eats|licked|swallows|"
            "tasted .. {poison}"
        ),
    ),
    "mixed-cleaners": (
        "mixed|mixing .. chemicals|cleaners & gas|fumes|{bleach}|cough|foaming|stinks|foams|fizzes",
        "pouring|tipped|put|mixed|mixing|together|added|combined|mix|poured|used .. {bleach} ... {bleach}",
        "smell|breathing|smells|breathe|smelling|breathed|inhaled .. {bleach} gas|fumes|bad|lungs|strong",
        "{bleach} & gas|{ill}|foaming|foams",
        "{bleach} .. eyes|throat|{ill}|lungs|breathe",
        "{bleach} .. {bleach} .. gas|fumes|fizzing|mixed|fuming|reacting|together",
        "{bleach} gas|fumes|vapour|vapours|cloud|fume",
    ),
    "gas": (
        "gas ... leaking|hissing|escaping|hisses|leaks",
        "gas leaking|escaping|leaks|leak",
        "leaking gas",
        "smell|smells|smelling|smelled|smelt .. gas",
    ),
    "in-the-eye": (
        "all in|over|into {my} eyes|face & {poison}|powder",
        (
            "cleaner|solvent|acetone|acid|bleach|caustic|chemical|descaler|ipa .. on {my} .. {body}|{soft}|skin .. "
            "burning|$|burn|burns|red|hurts|stings|itches|sting"
        ),
        "eyes|eye & {poison}|{shard}|powder|dust & {sting}|red|see|rinse|wash",
        "eyes|eye full of {splash}",
        "got|hit|hits|struck me|her|him|us in the|my|her|his|one? eyes|eye",
        "got|went|flew|shot|splashed|sprayed|squirted .. in|into {my}|the|both? .. eyes|eye|face",
        "{my} .. {body}|{soft} .. burning|burns|stings|stinging .. cleaner|solvent|acetone|acid|bleach|chemical",
        "{my} eyes|eye .. {splash}",
        "{poison}|{bleach} .. on|over|onto {my} .. {body}|{soft}|skin & {sting}|red",
        "{splash} .. in|into|hit {my} .. eyes|eye",
        "{splash} .. in|into|to|hit {my}|the|an|one|both|your? eyes|eye",
    ),
    "fumes": (
        ", the|my|our? eyes|throat|chest|lungs is|are? {sting}",
        "^ bad|strong|toxic? fumes $|!",
        "^ coughing|choking from|all|and|,|a_lot|here|lots|since|badly",
        "^ nausea|dizziness|dizzy|dizy|light_headed|lightheaded|nauseous|woozy ..",
        (
            "^ the|all|my|our? eyes|throat|chest|lungs and? eyes|throat|nose? is|got|all|are|hurt|keeps|feel|feels|"
            "keep|starts? {sting}"
        ),
        "acrid|caustic|green|yellow gas|fumes|vapour|smoke",
        "asthma is|and|has|bad|since|struggling|attack",
        (
            "bad|thick|heavy|choking|nasty|terrible|toxic|acrid|awful|overpowering|unbearable|horrible|poisonous gas|"
            "fumes|vapour|vapours|gases|fume|vapor"
        ),
        "black|blacking|pass|passing out {then}",
        "breathing|breath difficult|difficulty|hard|problem|problems|trouble|difficulties|issues",
        "breathing|breathed|inhaled|inhaling .. cleaner|powder|dust|solvent|spray|coating|mist",
        "breathing|breathe|breathed|inhaled|inhaling .. gas|fumes|vapour|smoke|vapours|ptfe",
        "cant get|catch a|my|any|enough? breath|air",
        "cant|couldnt|dont be|stand|stay|remain in it|there|here",
        "cant|not|couldnt|barely|hardly breathing|breath|breathe|breeth",
        "ceaseless coughing|choking|vomiting",
        "chest pain|pains",
        "eyes .. {sting} .. {fume}",
        "feel|feels|feeling drunk|funny|strange .. press|{fume}|pressing",
        "full of|with gas|fumes|vapour|vapours|gases",
        (
            "fumes|vapours|gases|vapors .. everywhere|thick|terrible|toxic|filled|awful|filling|overpowering|"
            "unbearable|really_strong|so_bad|so_strong|too_much|very_strong"
        ),
        "gas|fumes|smell|vapour .. so|really|very|too bad|thick|much|strong",
        "going|getting|feel|feels|feeling|felt a|all|little|bit|so|really|very|quite? {dizzy}|drunk_from",
        "got|has|have|gets|made|makes|we|make|making {my}|{who}|{one}? .. coughing|cough|choke|gag",
        "head|room|everything|world spinning|is_spinning|spins",
        (
            "hurts|struggling|difficult|difficulty|hard|painful|problem|problems|trouble|struggle in|to|with? "
            "breathing|breath|breathe"
        ),
        "knocked_out|overcome|poisoned from|by|with .. {fume}",
        "lips|tongue .. swollen|blue|swelling|numb|tingling",
        "nose .. bleeding|bleeds|bleed",
        "outside|left|evacuate|evacuated|leave .. from|because|cause|due .. {fume}",
        (
            "press|{fume}|pressing|room|shop|workshop|fuming|ink|paper|printer .. made|makes|gives|make|making|gave|"
            "giving|give|mak .. {my}|{who}|{one}|you|everyone|people|everybody .. {ill}|sleepy|tired|weak"
        ),
        "shortness of breath",
        "stinks|stinking|{smells} & {ill}|{dizzy}|headache",
        "thick|full|foggy|hazy from|of|with gas|fumes|vapour|vapours",
        (
            "{dizzy}|coughing|headache|nausea|cough|headaches|sick .. and|, .. eyes|throat|{dizzy}|coughing|headache|"
            "nausea|cough|sick|vomiting"
        ),
        "{eyes} .. {sting} .. off|from|with .. press|{fume}|pressing",
        "{fume} .. {eyes} .. {sting}",
        "{fume} .. {ill}",
        "{fume} .. {sting} .. {eyes}",
        "{fume} ... {dizzy}|headache|nausea|headaches|vomiting|head_hurts|head_spinning",
        "{group} .. {ill}|{dizzy}|headache|headaches|gagging|retching",
        "{ill} .. off|from|by|of|with|when|after|since|because .. press|{fume}|pressing|printing",
        "{my} chest .. burns|hurts|heavy|rattles|whistles",
        "{my} eyes|eye|throat|chest|lungs|nose|airways .. {smart}",
        "{my} lips|tongue .. swollen|metal|numb|tingling|tingle|tingles|metallic|tastes",
        "{my} throat|chest|airways .. closed|swollen|swelling|closes|closing|tight|tightening|tightens",
        "{my} throat|chest|lungs|nose|airways .. {sting}",
        "{my} vision .. black|blurred|blurry|double|narrow|swimming|swims",
        "{my}|head|head_is exploding|pounding|spinning|killing|splitting ..",
        "{pvc} & burning|pressing|smoke|{melted} & {ill}|{dizzy}|headache",
        "{sting} eyes|throat|chest|lungs|nose",
        "{sting} throats",
        "{sting} {my} eyes|throat|chest|lungs|nose",
        "{who} & gagging|retching|wheezing",
        (
            "{who} .. got|has|get|getting|have|gets .. headache|nausea|headaches|migraine .. in|from|when|after|"
            "since|every .. fumes|press|smell|pressing|room|shop|workshop|printing"
        ),
        (
            "{who} .. is|got|went|all|are|goes|going|get|was|getting|gets|bit|feel|feels|so|feeling|felt|im|very|am "
            "{dizzy}|dizziness|sick_from"
        ),
        "{who} .. out|short of breath",
        "{who} .. puked|puking|threw_up|thrown_up|vomited",
        "{who} .. white|blue|grey|pale & lips|clammy|shaking|sweating|sweaty|trembling",
        "{who} ... coughing|choking|vomiting|gagging|retching|wheezing|throwing_up .. {then}|a_lot",
        "{who} feel|feels|feeling|felt sick|ill|poorly|unwell",
        "{who}|head .. going|have|need|heavy|want to? be_sick|faint|pass_out|throw_up|vomit",
    ),
    "smoke": (
        "^ smoking|smokes {then}|a_lot",
        "^ the|is|a|there|big|black|white|its|much|so|only? {smoke} inside|everywhere|{smoke}|now|here? $",
        "^ the|is|a|there|big|black|white|its|much|so|only? {smoke} everywhere|and|,|!|help",
        "ceaseless smoking",
        "firealarm .. on|off|went|goes|going|gone|triggered|beeping|blaring|ringing|screaming|sounding",
        (
            "is|got|big|black|have|smell|little|see|some|white|smells|thick|bit|dark|heavy|much|lots|seeing|full|"
            "smelling|strong|acrid|filled|lot|a_bit|cloud|filling|saw|smelled|smelt|so_much|clouds|plume|plumes|puff|"
            "smelled_of|theres|wisp|wisps the|a|of|and|with|black|little|some|white|thick|bit|blue|heavy|much|lots|"
            "light|lot|grey|too|like|lots_of? of? {smoke} {then}"
        ),
        "it smoked",
        (
            "out|goes|go|came|coming|come|comes|made|makes|gives|make|making|pouring|gave|let|blow|giving|throwing|"
            "blowing|blows|give|puffing|emitting|gives_off|letting|produces|producing|puffs .. {smoke}"
        ),
        "smoking|smoldering|smouldering {m}|{elec}|{goods}",
        "up in smoke",
        "{fill} .. {smoke}",
        "{m}|{elec} is|are|has|was|have|just|be|started? smoked {then}",
        "{m}|{elec}|it .. {smoke} {then}|a_lot",
        "{m}|{elec}|{it}|{goods} .. {smoking}",
        (
            "{smoke} .. on|off|from|out|of|all|at|through|near|around|{in}|behind .. {m}|{elec}|over|room|shop|"
            "workshop|air|back|building|garage|place|vents|ceiling|studio"
        ),
        (
            "{smoke} .. {out} .. {m}|{elec}|$|everywhere|there|{it}|{goods}|here|top|back|side|vents|bottom|hole|"
            "holes|sides"
        ),
        "{smoke} everywhere|ceaseless|getting|thick|filled|fills",
        "{smoke} like_a_chimney|like_chimney",
        "{smoulder}",
    ),
    "electrical-fault": (
        "^ its? arcing|sparking .. $",
        "^ sparks !",
        "all|entire|whole room|shop|workshop|house|building .. dark|lost_power|no_power|without_power",
        "bang ... power|smell|electricity|sparks|dark|smoke|lights",
        "big|loud|huge bang|pop|explosion",
        (
            "burning|burn|burnt|melting|burned|electric|electrical|scorched|wiring|fishy|hot_plastic smell|smells|"
            "stink|odour|stench|odor {then}"
        ),
        (
            "burns|burnt|burned|blew|dropped|popped|blow|blowing|blows|kills|threw|throws|blown|drops|flipped|flips|"
            "killed|pops {my}|the|a|out|my|main|another? the|circuit|main? {breaker}|circuit|socket"
        ),
        "burn|black|brown|melt|scorch spot|mark|marks|spots on|at|around .. {elec}",
        "copper .. bare|exposed|showing|shows|visible|sticking",
        "cortocircuito|kurzschluss|short_circuit|short_circuited|short_circuiting|shortcircuit|shorted_out",
        "crackling|fizzing|hissing|sparking|popping|sizzling .. in|from|inside|at|near|behind .. {m}|{elec}",
        "flooded|flood|puddle ... {m}|{elec}",
        (
            "got|of|big|little|see|some|blue|come|comes|flying|had|makes|gives|make|making|seeing|{theres}|shooting|"
            "throwing|saw|seen|spitting|throws|heard|throw the|a|big|little|some|blue? sparks|spark"
        ),
        "ground|earth cable|wire|lead .. off|broken|hanging|missing|loose|disconnected",
        (
            "hot|burning|burn|burnt|melting|burned electric|cable|wire|electrical|electrics|wires|wiring|insulation|"
            "plastic|rubber smell|smells|stink|odour|stench"
        ),
        (
            "hot|burnt|melting|burned|glowing|melted|bare|arcing|chewed|crackling|exposed|scorched|buzzing|soaked|"
            "charred|damp|frayed|wet {elec}"
        ),
        (
            "knocked|cuts|took|kills|knock|knocking|knocks|takes|taking out? the|out|all .. power|electricity|"
            "electrics|lights"
        ),
        "losing|lost|lose|loses power|electricity ..",
        "open|bare|exposed|live|loose|naked cable|wire|copper|wires|conductor|conductors|core|cores|terminals",
        "platen|cable|wire|element|plug .. glowing|glows|glow red|orange|bright",
        "plug|socket & cant|stuck|wont get|come|pull & hot|{burn}|melting|melted|brown",
        (
            "power|electric|electricity|lights|light .. is|went|goes|going|gone|go|cut|cuts off|out|dark|away .. "
            "when|as|every|if|each|once ... {m}|on|switch|turn|plug"
        ),
        "room|shop|workshop|everything|house|place .. is|went|goes|gone black|dark {then}",
        "see|seeing|showing|shows|visible .. copper",
        "something is|was|smells|started|smelling|starts? burning|melting|overheating|frying",
        "sparks|spark inside|out|everywhere|came|coming|flew|come|flying|shooting|fly",
        "sparks|spark when|as|if its|we|i|you? press|switch|touch|turn|plug|turned|start|flip|plugged|plugging",
        (
            "sparks|spark|arcing|sparking|arc|blue_flash|flash_of_light .. on|in|off|from|inside|by|out|under|at|"
            "when|near|behind|between|where .. {m}|{elec}|switch|back|wall"
        ),
        "stand|standing|stands|stood in .. water",
        (
            "tripped|trip|triped|triping|trippin|tripping|trips .. power|electric|electricity|current|shop|electrics|"
            "lights|{breaker}|circuit|house|board|mains"
        ),
        (
            "when|as|every|if|each|once ... {m}|on|switch|turn|plug|turned .. power|electric|electricity|lights|"
            "everything is|went|goes|gone|go off|out|dark|dead|away"
        ),
        "{breaker} .. cant|wont|doesnt|not|isnt stays|hold|holding|stay|reset|staying",
        (
            "{breaker} .. off|out|gone|go|cuts|triggered|cuts_out|fliegt|kicked_out|raus|released|releases|springt|"
            "triggers|went_off|{trip}"
        ),
        "{breaker} ceaseless",
        (
            "{elec} .. hot|burning|burn|burns|burnt|melting|burned|glowing|melted|bare|arcing|chewed|crackling|glows|"
            "exposed|fizzing|scorched|buzzing|melt|sizzling|soaked|charred|crackles|damp|frayed|humming|melts|wet|"
            "cooked|fried|loose_wire|warm_to"
        ),
        "{elec} .. is|went|are|goes|gone|turned|turning all|dark|a_bit|completely? black|brown",
        "{elec} .. live",
        "{elec} smell|smells|stink|stinks {then}",
        "{m} .. buzzing|humming and|, .. hot|smell|smells|sparks|smoke|spark|crackling|flicker|flickering",
        "{m} .. crackling|fizzing|sizzling|crackles",
        "{m} .. tripped|trip|triped|triping|trippin|tripping|trips {then}",
        "{m}|{elec} .. exploded|explode|explodes|banged|blew_up",
        "{m}|{elec} .. soaked|flooded|gets_wet|got_wet|in_a_puddle|in_water|standing_in_water|under_water",
        "{m}|{elec} .. went|goes|go|made|makes a? big|loud? bang|popping|pop",
        "{m}|{elec} popped {then}",
        "{m}|{elec} {smell} .. hot|burning|burn|burnt|melting|burned|electrical|scorched|fishy",
        "{m}|{elec}|it|handle|button|timer .. sparks|spark|arcing|sparking|arced|arcs|sparked|sparkin",
        "{smell} .. burning|burn|melting {then}",
        "{smell} .. burnt|burned from|coming|behind|around|near|inside|under|here|somewhere|!|every",
        (
            "{smell} .. hot|burning|burn|burnt|melting|burned|melted|melt|burned_out|singed press|wire|dust|machine|"
            "plastic|rubber|plastics"
        ),
        (
            "{smell} ... electric|cable|wire|plug|electrical|electrics|circuit|socket|wires|wiring|electronics|"
            "elektric|insulation|motor|cables|controller|ozone|transformer"
        ),
        "{spill} .. mug|{wet}|cup|drink .. on|in|over|inside|into|onto|down .. {m}|{elec}",
        (
            "{wet} .. got|went|goes|going|coming|pouring|dripping|{spill}|run|drip|flowing|flows .. on|in|over|"
            "inside|into|onto|down|through .. {m}|{elec}|electrics"
        ),
        (
            "{wet} .. on|in|over|inside|into|onto|by|at|through|near|all_over|around|reached .. {elec}|electronics|"
            "control_box|control_panel|display"
        ),
    ),
    "keep-away": (
        (
            "battery|batteries|lipo|lithium|power_bank|powerbank & hot|{burn}|melting|burst|swollen|exploded|leaking|"
            "swelling|blew|smoking|hissing|popped|bulging|popping|swelled|hisses|puffing|swells|bloated|bulged|"
            "bulges|expanding|fat|puffed|puffy|venting"
        ),
        (
            "hose|air_line|airline|hoses & burst|flying|flies|beating|flailing|jumped_off|jumping|lashes|lashing|"
            "snaking|thrashing|whip|whipping|whips"
        ),
        "hose|air_line|airline|hoses .. went|goes|going|gone|flies everywhere|around|round|crazy|mad|nuts|wild",
        (
            "hose|air_line|airline|hoses|tube .. came|burst|flew|broke|blew|popped|slipped|snapped|jumped|tore off|"
            "and|open|apart|loose"
        ),
        "valve|boiler|compressor|cylinder|tank .. burst|exploded|blew|bulging|about_to|going_to",
        "{can} & burst|exploded|leaking|swelling|bang|blew|hissing|bulging",
        "{can} .. on|in|under|against|next_to .. hot {m}",
        "{m} & came|coming|comes|hanging|pulled|sliding|slipping off|out|away .. shelf|stand|bench|table|edge|wall",
        "{m}|it {shuts} by|all_by|on_its itself|alone|own",
        "{m}|it|glass|{can}|battery going|about|gonna to? burst|explode|tip|blow|catch|collapse|fall",
        "{m}|leg|shelf|stand|bench|table is|just? gives|gave|giving way",
        "{m}|shelf|stand|bench|table fell|tipped|slipped|sliding|slid|slides|tips|topples off|over|down|forward",
        (
            "{m}|shelf|stand|bench|table|ladder|desk|rack is|are|has|was|just|about_to|going_to .. tipped|collapsed|"
            "collapsing|falling|tipping|toppled|toppling {then}|over|under|down|apart|forward"
        ),
        "{m}|{elec} & fell|dropped in|into .. bucket|water|sink",
        "{thinner} & splashed|{spill}|split & {m}|hot|heat|heater|plate|warm",
        "{thinner} .. all|bottle|can|canister over|fell|leaking|tipped ... {m}|hot|heater",
        "{thinner} .. on|over|onto the? hot {m}",
    ),
    "child-at-the-press": (
        (
            "{child} .. at|climbing|touched|touching|near|pulled|touches|grabbed|next_to|alone|climbed|grabs|reached|"
            "crawling|playing|reaches|reaching .. on|hot|onto|to|with|at|near|behind|for|next? .. {presses}|platen|"
            "hot_plate|heat_press"
        ),
        "{child} .. on|in|by|under|at|near|behind|next_to|left_alone_with the|hot|a {presses}",
    ),
    "burn": (
        "^ got|get|getting|just {burnt} on|off|from|by|with|while|{bad} .. {m}|hot|$|steam",
        "boiling_water|hot_water|boiling|hot_oil|{steam} .. on|in|got|over|into|onto|hit {my} .. {body}|{soft}|eyes",
        "boiling_water|hot_water|hot_oil|{steam} on|got|over|onto|hit {one}",
        "burn|burns|scald hurt|hurts|blistering|cream|gel|ointment|dressing|victim",
        "fell|bumped|stumbled|tripped|leaned|leant on|into|onto|against the|a hot {m}",
        "first_aid|cool|cream|gel|ointment|soothe|treat|treating|treatment .. burn|burns|blister|scald",
        (
            "grab|grabbed|grabs|picked_up .. {m}|mug|tile|slate|metal|bottle|pan|sheet|tray|tumbler .. no|without "
            "gloves|mitts|protection"
        ),
        "hot ... {falls} .. on|over|into|onto|down|against .. {my}|bare .. {body}|{soft}",
        "me burn|burns|burnt|burned",
        "ouch & {body}|hot|{burn}|{touch}|steam",
        "ouch & {m}|mug|tile|plate & hot|bare|gloves",
        "second|third|2nd|3rd|first degree .. $|burn|burns",
        "skin .. hanging|blistered|came_off|peeling|raw|bubbling|bubbled & {m}|{my}|touched",
        "skin .. stuck|burnt|burned|melted|peeled|left .. {m}",
        "skin .. {my} .. {body} .. came|red|coming|white|blistering|blistered|peeled|peeling|raw",
        "steam & {my} & {sleeve} & hot|hurt|hurts|{pain}",
        "stuck|melted|fused|glued on|into|onto|to {my} .. {body}|skin ..",
        "{blister} .. on|in|all_over|across {my}|the .. {body}|{soft}",
        "{blister} on|in {hand}",
        "{body} .. on|onto|touched|against|touch|touches .. hot {m}",
        (
            "{body} .. on|onto|to|hit|touched|against|touch|touches|hits .. the|hot|top|upper|lower|heated? .. "
            "platen|element|heater|hot_plate|heat_plate|heating_element|heating_plate|hot_press|hot_metal|press_plate"
        ),
        "{body} .. swollen|{blister}|swelling_up",
        "{body}|{soft} & {pain} & {hotm}",
        (
            "{burn} .. apprentice|colleague|child|coworker|customer|daughter|employee|herself|himself|husband|kid|"
            "myself|son|themselves|trainee|wife|worker"
        ),
        "{burn} .. on|over|to|across {my} .. {body}|{soft}|eyes|eye",
        (
            "{burn} .. skin|hurt|hurts|first_aid|blistering|ouch|ambulance|blister|blisters|doctor|hospital|pain|"
            "painful|ow"
        ),
        "{burn} .. {hand}|foot|leg|toe|toes|feet|knee|legs|ankle",
        "{burn} ... , {my} .. {body}|{soft}",
        (
            "{burn} on|off|from|by|with the|hot|a|some|boiling? steam|boiling_water|hot_water|hot_press|hot_glue|"
            "hot_platen|wax"
        ),
        "{burn} on|to|at|across {body}|{soft} off|from|by|with|, .. {m}|steam|{pain}",
        "{burn} {my} .. {body}|{soft}",
        "{burn} {one} {then}",
        "{hand}|foot|leg|toe .. {burn}",
        (
            "{my} .. skin .. off|stuck|came|red|coming|white|melted|comes|hanging|{blister}|peeled|peeling|raw|"
            "bubbling|peel|peels"
        ),
        (
            "{my} .. {body}|{soft} .. red|hurt|hurts|swollen|white|throbbing|hurting|sore .. on|from|touched|"
            "touching|after|since .. {m}|touched|touching"
        ),
        "{my} .. {soft} .. on|hit|touched|touching|against|caught|touches|brushed .. {m}",
        "{my} .. {soft}|{hand}|foot|leg .. {blister}|blistering|{burnt}|blistered",
        "{my}|the .. hair|beard|eyebrows|eyelashes .. {burn} & {m}|hot|touched|steam|flame",
        "{screams} & {child} & hot|{presses}|plate",
        "{screams} & {who}|{child} & {body}|{touch}",
        "{soft} .. touched|touching|touches .. hot|top|upper|lower {m}",
        "{soft}|{hand} & {hotm} & red skin|now|spot|mark|line|patch|stripe",
        "{touch} .. hot {m}|mug|tile|slate|metal|part|side|blank .. {my}|{then}",
        (
            "{touch}|took|lifted|picked .. {m}|mug|tile|slate|metal|bottle|iron|pan|sheet|tray|tumbler .. no|without|"
            "forgot gloves|mitts|protection & hot|ouch|{pain}"
        ),
        "{who} .. got|has|get|have|gets .. {blister} ..",
        (
            "{who} .. touched|fell|touch|put|bumped|grabbed|brushed|leaned .. on|the|a|onto|my|against? hot|top|"
            "upper|lower|heated? platen|element|heater|hot_plate|heat_plate|heating_element|heating_plate $|by|and|,|"
            "now|!|accidentally|with_my|{bare}"
        ),
        (
            "{who} .. {burnt} on|off|from|by|with|against the|hot|a|my|some? hot|upper|lower|heated? {m}|mug|tile|"
            "steam|element|iron"
        ),
        (
            "{who} {be} .. a|big|bad|little|some|steam|nasty|small|terrible|degree|second|serious|third|large|severe "
            "burn|burns|blister|scald|blisters"
        ),
        "{who} {be} .. {burnt} on|off|from|$|by|and|,|!|{bad} .. {m}|{then}",
    ),
    "cut": (
        "^ bleeding badly|and|from|bad|!|a_lot",
        "^ got? cut by .. mug|tile|slate|glass|shards|shard",
        "^ got? cut on broken",
        "bleeding everywhere|ceaseless|bad|a_lot|heavy|lots|badly|heavily|profusely",
        "bleeds and|,? bleeds",
        "blood from|everywhere|ceaseless|coming|all_over|pouring|running|dripping|gushing|spurting|on_the|loss|on_my",
        "blood|bleeding|bleed ceaseless",
        (
            "broken|smashed|shattered mug|tile|slate|glass|ceramic .. {my}|everywhere|blood|cut|face|hand|all_over|"
            "flying|floor|in_the_press|inside_the_press"
        ),
        "burst|exploded|shattered .. {brittle} .. {my}|everywhere|press|face|hand",
        "ceaseless blood|bleeding|bleed",
        "ceaseless the? blood|bleeding",
        "edge|{blade} .. sliced|opened|slit {my} .. {body}",
        "fell|landed|kneeled|sat|stepped .. on|in|into|onto .. glass|shards|shard|splinters",
        "glass|shards|shard|splinters|slivers .. everywhere|all_over|flying|on_the_floor|hit_me|on_floor",
        "gushing|losing|spurting|squirting blood",
        "impaled|needle_in|stabbed .. {body}|{one}",
        "much|lots|losing|lost|lot|so_much of? blood",
        "need|needs stitches|tourniquet",
        "open|big|bad|nasty|deep|gaping cut|wound|gash|laceration {then}",
        "to|see|down_to the bone",
        "went|gone|cut|cuts|sliced right|straight? through .. skin|nail|gloves|shoe|glove|boot",
        "{bits} & {burst} & {my} .. {body}|{soft}",
        "{bits} .. hit|flew|flying|fly .. {my}|$|{one}|everywhere|face|around|past",
        "{bits}|splinter .. stuck|lodged|stuck_in in|into {my} .. {body}|{soft}",
        "{bits}|{shard} .. went|hit|flew|shot|jumped .. {my} .. {body}|{soft}|shoe",
        "{blade} .. in|out|out_of {my} .. {body}|{soft}",
        "{blade} .. {through} {my} .. {body}|{soft}|shoe",
        "{bleed} .. pouring|running|dripping|gushing|spurting|on_the_floor|drips",
        "{bleed} .. {hand}|everywhere|foot|head|leg|nose|finger",
        "{brittle} & {burst} & everywhere|all_over|{bits}|{bleed}",
        (
            "{brittle} .. burst|exploded|broke|explode|smashed|explodes|shattered|blew_up|bursted|explodes_in .. "
            "{my}|eyes|everywhere|flew|face|hand|me|shards|fingers|floor|hands|bits|pieces"
        ),
        (
            "{brittle} .. exploded|explode|explodes|exploding .. on|in|inside|under|when .. hot|press|platen|"
            "pressing|oven"
        ),
        "{brittle} .. {burst} on|in|inside|under|when|as|while ... press|platen|hand|took|opened",
        "{brittle}|board & bang|{burst} & {body}|{bits}",
        "{cut} on|in|to|across {my} .. {body}|{soft}|forehead",
        "{cut} {hand}",
        "{cut} {my} .. {body}|{soft}",
        "{cut} {my}|in|the|off|a|into|of|open|through|two .. {body}|artery|vein|wrist|wrists",
        "{cut} {one} {body}|{then}",
        "{hand} cut {then}",
        (
            "{hand}|foot|leg|toe .. {bleed}|sliced|cut_bad|cut_badly|cut_by|cut_deep|cut_from|cut_on|cut_open|"
            "cut_with|got_cut|is_cut"
        ),
        "{my} .. {body}|{soft} .. {cut}|{bleed}",
        "{shard} .. in|into|under {my}|the|a? {hand}|foot|toe",
        "{shard} .. in|stuck|into|under|through {my} .. {body}|{soft}|skin",
        "{shard} .. under .. nail",
        "{shard} flew .. eyes|everywhere|eye|face|me",
        "{theres} blood {then}",
        "{who} .. bleeding|bleeds|bleading|bled {then}|a_lot",
    ),
    "press-will-not-open": (
        "^ it|this? cant|wont|doesnt open|unlock $|and|,|up|!|anymore",
        "^ it|this|thing? cant|wont|doesnt|cannot shut|power|switch|turn itself? off|down",
        "^ stuck closed|shut|down $|,|!",
        "burning|melting|cooking .. in|inside|under it|{presses}|there & cant|stuck|wont|locked",
        (
            "button|buttons|controls|keys|panel .. doesnt|dont|does|did|do|doing nothing|respond|work|anything|react "
            "& hot|burning|heating|heat|{heats_on}|heats|hotter|{climbs}"
        ),
        "cant .. open & hot|burning|heating|melting|smoking|melts",
        "cant|couldnt open|lift|unlock|raise|release it",
        (
            "cant|couldnt|cannot|unable shut|power|switch|turn the|it|{presses}|heating|my|heat|this? {presses}|"
            "heating|heat|element? off|down"
        ),
        (
            "cant|couldnt|unable .. open|lift|unlock|raise|release the|it|my|up|heat|this? .. {presses}|lid|platen|"
            "clamshell"
        ),
        "cant|nothing .. shut|switch|turn|shuts|stops|switches|turns it|press|the_press off",
        (
            "cant|wont|not|couldnt|no|cannot|unable|impossible {open} the|it|my|up|this|again? {presses}|lid|platen|"
            "clamshell|upper"
        ),
        "ceaseless heating|climbing|rising|getting_hotter|to_heat|to_rise|getting_hot",
        "handle|arm|lever .. cant|wont|doesnt|not open|lift|unlock|raise|release|come_up|go_up",
        "heating|heat goes|keeps|carries on|coming",
        "heats_and_heats",
        "it|{presses}|timer .. cant|wont|doesnt|not lift|release|come_up|go_up|rise",
        (
            "mug|{goods} .. stuck|locked|jammed|trapped in|inside .. {presses} .. hot|cant|burning|heating|and|wont|"
            "shut|open|closed|locked"
        ),
        "off .. {heats_on}",
        "off|unplug|unplugged & still|getting|keeps heating|climbing|rising|going_up|hotter",
        (
            "on|off|power|stop|main|emergency switch|button .. stuck|wont|doesnt|not|isnt|broken|does_nothing .. hot|"
            "off|heating|stop|work|working .. on|hot|{presses}|heating|heats"
        ),
        "press|heat|temp|temperature running|ran|runs away",
        "relay_stuck|thermal_runaway|thermostat_stuck",
        "still|stays|remains|stayed on .. with|when|after|even .. off",
        "stop & {heats_on}|carries_on",
        "stuck .. in|inside|shut|closed .. {presses} .. hot|cant|burning|heating|wont|open",
        "stuck the|my|this? {presses}|lid to? open|up",
        "stuck the|my|this? {top} off|open|up|apart",
        "wont|doesnt|not|isnt|never cool|cooling & {climbs}",
        "{button} .. stuck|broken|jammed|dead|frozen|nothing|froze & {heats_on}",
        "{button} .. stuck|jammed|welded on",
        "{button} .. wont|doesnt|not|isnt|does nothing|respond|responding|work|react|working|help & {heats_on}",
        "{heats_on} .. off",
        "{heats} & {number} & {climbs}",
        "{heats} .. climbing|rising .. and|ceaseless climbing|rising",
        "{heats} .. heating|climbing|rising .. , ceaseless",
        "{heats} .. heating|climbing|rising .. ceaseless",
        "{heats} .. higher_and_higher|hotter_and_hotter|up_and_up",
        (
            "{heats} .. is|still|just|keeps|keep|kept|continues on|heating|climbing|going|rising|getting|increasing "
            "over|$|heating|,|climbing|rising|up|without|past|above|beyond|higher|hotter|nonstop|uncontrollably"
        ),
        "{heats} .. out_of_control|runaway|running_away|uncontrollable|uncontrolled",
        (
            "{heats} .. went|goes|go|gets|shot|shoots|climbs|rises up? over|without|past|above|beyond .. stop|"
            "{number}|set|limit|max|control|stopping"
        ),
        "{heats} ... still climbing|rising|going_up|getting_hotter",
        (
            "{heats}|degrees|numbers|reading .. went|goes|gone|running|shot|jumped|climbed|creeping|crept over|past|"
            "above|beyond .. {number}|set|setting|limit|max|maximum"
        ),
        (
            "{heats}|degrees|numbers|reading is|are|still|just|keeps|keep climbing|going|rising|shooting|creeping "
            "and|up|higher"
        ),
        "{heats}|heater .. still|keeps|stays|remains|stayed on|heating .. when|after|even|although|though",
        "{lever} & broken|broke|snapped|bent|came_off|fell_off|sheared & hot|inside|down|shut|closed",
        "{m} .. keeps|keep|kept on? heating ..",
        "{m}|it ignores|ignoring .. stop|{button}",
        (
            "{m}|it|heating|heat|temp|temperature ceaseless hot|heating|climbing|going|rising|up|getting|heats|"
            "increasing|to_heat|to_rise|warming"
        ),
        "{number} .. and|still climbing|rising|going_up",
        "{presses} is|got|all|are|has|gets|just|now? stuck|locked|jammed|seized|stucked $|!|help",
        (
            "{presses}|heating|platen|heat|element|heater|machine .. cant|wont|doesnt|not|isnt|cannot|dont|never|"
            "refuses|wouldnt to|shut|power|go|switch|turn|be|turning|switching? to|shut|switch|turn|turned|itself|"
            "switched? off|down"
        ),
        "{presses}|lid|clamshell .. jammed_up|locked_up|seized_up",
        (
            "{presses}|lid|clamshell|top|swinger .. cant|wont|doesnt|not|couldnt|isnt|no|dont|never|refuses|wouldnt|"
            "didnt to|go|come|me|be|even|let|anymore|really|want? to|me|be? up|opened|{open}|back_up|opening {then}|"
            "is|all|my|up|mug|its|without|even|itself|anymore|any|shirt|automatically|how"
        ),
        "{presses}|lid|its is? stuck|locked|jammed|dead|clamped down|shut|closed",
        (
            "{presses}|lid|platen|clamshell .. stuck|locked|jammed|stays|frozen|seized|remains|stayed|blocked|"
            "stucked|jam .. down|shut|closed|locked|on_the|at_the_bottom|close"
        ),
        (
            "{presses}|lid|platen|clamshell is|got|are|has|gets|just|now? stuck|locked|jammed|seized|blocked {then}|"
            "closed|shut|down|hot|heating"
        ),
        (
            "{top} cant|wont|doesnt|not|couldnt|isnt|never|refuses to? lift|unlock|raise|come_up|go_up|free|rise|"
            "budge|budging|come_back|go_back|let_go|move"
        ),
        "{top} is|got|are|has|stays? stuck|locked|jammed|frozen|seized",
    ),
    "somebody-hurt": (
        "^ fell|slipped|stumbled on|off|over|onto|down .. {m}|ladder|stairs",
        "^ first_aid|ambulance {then}",
        "^ hurt|injured {my}|{one} .. {body}|{then}|{soft}",
        "^ my|her|his eyes|eye|foot|leg|hand|arm|fingers|hands|finger|thumb $|!",
        "get|need|needs|call|ring|called|calling|phone|phoned|send .. ambulance|medic|paramedic|paramedics",
        "going_to_die|hes_dying|shes_dying",
        (
            "going|get|go|see|need|needs|call|got_to .. first_aid|doctor|hospital|a_and_e|emergency_room|first_aider|"
            "medical"
        ),
        "got|get|need|where_is|wheres .. first_aid",
        (
            "hit|knocked|bumped|smacked|whacked|banged {my} .. {soft}|head|face|nose|teeth|elbow|knee|chin .. {m}|"
            "{then}|{lever}"
        ),
        "there|bad|had|{theres}|terrible|an|serious accident .. $|at|in|with|on|just|happened|press|here|now",
        "{my} .. {body} .. broken|hurt|hurts|swollen|numb|throbbing|hurting .. {then}|a_lot",
        (
            "{m}|lid|shelf|hose|{lever}|box|spring|bar ... hit|smacked|struck|whacked|came_down_on|fell_on|landed_on "
            "{one}"
        ),
        (
            "{m}|lid|shelf|hose|{lever}|box|spring|bar|gas_spring ... hit|knocked|landed|smashed|hits|smacked|struck|"
            "whacked|slapped .. {my} .. {body}|{soft}|teeth"
        ),
        "{m}|lid|{lever}|spring .. flew|shot|snapped|kicked|sprang|swung .. {my} .. {body}|{soft}|teeth|lip|ribs",
        "{who} .. fell|slipped|stumbled .. off|over|onto|down|against .. {m}|ladder|stairs",
        "{who} .. hurt|injured|injuried|wounded",
        "{who} hurt|hurts|injured {my}|{one}",
    ),
}
# Where one of these words stands in the same sentence, it is something else that is told.
UNLESS: Mapping[str, str] = {
    "electric-shock": "price prices bill invoice cost costs quote postage expensive tax refund",
    "press-will-not-open": (
        "file files software app driver drivers program window windows settings bottle pdf door packet tin jar "
        "website page email enough fully wide light lights lamp beep beeper beeping alarm sound mirror printer"
        " notifications folder drawer cartridge envelope sachet lid_of parcel unevenly slowly"
    ),
    "fumes": (
        "pattern patterns stripes colour colours color colors bright screen monitor neon stare staring deadline "
        "invoice text letters doubled twice blurred"
    ),
    "swallowed": "printer",
    "caught-hand": "shard shards splinter splinters sliver slivers",
    "child-at-the-press": "shirt shirts tee print printed order photo design mug bib romper bodysuit onesie",
}
# What means the same, written as one; what says nothing of a danger is struck out.
REWRITTEN: Sequence[tuple[str, str]] = (
    ("can not|cannot", "cant"),
    ("will not", "wont"),
    ("would not", "wouldnt"),
    ("do not", "dont"),
    ("does not", "doesnt"),
    ("did not", "didnt"),
    ("is not", "isnt"),
    ("it is|it has", "its"),
    ("there is|there are", "theres"),
    ("there was|there were", "therewas"),
    ("i am", "im"),
    ("some one", "someone"),
    ("t shirt|t shirts", "tshirt"),
    ("heat press|mug press|hat press|cap press", "press"),
    ("on to", "onto"),
    ("in to", "into"),
    ("as if|as though", "like"),
    (
        (
            "((?:burn|burnt|burned|brunt|scalded|cut) (?:(?:my|his|her|the|a|both|one|two|left|right) ){0,2}(?:hands?"
            "|fingers?|thumbs?|arms?|wrists?)) (?:in|under|between|inside)"
        ),
        r"\1 at",
    ),
    (
        "(?:ow+|ouch|aua|autsch|aah*|ah+|argh+|aie)(?: (?:ow+|ouch|aua|autsch|aah*|ah+|argh+|aie))*",
        "ouch ,",
    ),
    ("were(?= (?:all|both|coughing|choking|feeling|getting|dizzy|sick|trapped|stuck) )", "we"),
    ("light in (?:the|my) head", "lightheaded"),
    ("(?:nearly|almost) (?:fainted|passed out|collapsed|threw up)", "dizzy"),
    (
        (
            "(?:looks?|looking|seems?|sounds?|feels?|think|guess) like(?= (?:its|the|theres|someone|somebody|i|he|she"
            "|my|something|smoke is|smoke coming))"
        ),
        ",",
    ),
    ("not (?:only|just|even)", ""),
    ("at once|all at once", "now"),
    ("(?:can|could) (?:also )?(see|smell|feel|hear|taste|still see|still smell)", r"\1"),
    (
        (
            "(?:start|starts|started|begin|begins|began|starting|beginning|managed|manage|seems|continues|continue) "
            "to(?: be)?"
        ),
        "",
    ),
    (
        (
            "(?:please )?(?:can|could|would|will) (?:you|someone|somebody|anyone|anybody)(?: please)?(?: help)?(?: me"
            "| us)?"
        ),
        ",",
    ),
    ("what (?:do|should|can|shall|must|to|could) (?:i|we|you|do)(?: do)?(?: now| then| first)?", ","),
    ("how (?:do|can|could|should|to) (?:i|we|you)?", ","),
    (r"(?:what|why) the (?:hell|heck|f\w+)", ","),
    (
        (
            "please|pls|plz|omg|omfg|oh my god|oh god|oh no|no no no|no no|help|help help|help me|help us|"
            "quick|quickly|urgent|emergency|sos|hello|hi|hey|hilfe|ayuda|socorro|aiuto|god|damn|shit|fuck|fucking|"
            "bloody hell|hurry|wtf|sorry|asap"
        ),
        ",",
    ),
    ("no joke|not joking|no kidding|not kidding|dont panic|dont laugh", ","),
    (
        "(?:cant|couldnt) get (?:(?:it|the press|this|the thing|the heater|the heat) )?to (?:stop|quit)",
        "ceaseless",
    ),
    (
        (
            "(?:i )?(?:dont|didnt|cant) (?:know|understand|see why|get|tell|think)(?: why| what| how| where| it| "
            "if)?(?! (?:my|his|her|it|out|the))"
        ),
        ",",
    ),
    (
        (
            "no idea(?: why| what| how)?|not sure(?: why| what| how)?|cant (?:see|find|reach) (?:anything|a thing|a|"
            "the|any|an|nothing)"
        ),
        ",",
    ),
    (
        (
            "(?:cant|wont|doesnt|dont|didnt|isnt|not|never|wouldnt) (?:seem to )?(?:stop|stopping|stopped|quit|go "
            "away|going away|go out|going out)"
        ),
        "ceaseless",
    ),
    (
        (
            "(?:cant|couldnt|wont|not) (?:get|pull|free|move|put|take|remove)(?= (?:my|his|her|it|the|out|him|me|them"
            "|this|fire|hand))"
        ),
        "stuck",
    ),
    ("can (hardly|barely)", "hardly"),
    ("(?:unable to|not able to|impossible to)", "cant"),
    ("(?:fire|smoke) (?:alarm|alarms|detector|detectors|sensor)", "firealarm"),
    (
        "fire (?:brigade|department|dept|service|fighters|crew|men|men s)|firemen|firefighters",
        "firebrigade",
    ),
    ("burnt? to a crisp|burned? down to", "burnt"),
)
# What only sounds like a danger.
COMPOUNDS: Sequence[str] = (
    (
        "(?:smoke|smoky|smokey|smoked) (?:grey|gray|blue|black|white|colou?red?|colou?rs?|effects?|design|pattern|"
        "print|picture|photo|image|mugs?|shirts?|tees?|glass|tint|tone|tones|finish|bomb|bombs|machine|free|ring|"
        "rings|logo|theme|background|marks?|stain|stains|damage|shade|quartz|oak|salmon|bbq|wash|test|signal|signals|"
        "layer|brush|texture|overlay|shop|break|and mirrors|eye|area|screen|hoodie|fabric)"
    ),
    (
        "(?:cigarette|tobacco|cigar|wood|bbq|barbecue|camp ?fire|weed|vape|stage|holy|dragon|blue|purple|pink|red|"
        "green|coloured|colored) smoke"
    ),
    (
        "smoking (?:hot|area|areas|room|break|gun|jacket|deal|corner|ban|sign|shelter|pipe|dog|kills)|(?:no|quit|stop"
        "|give up|stopped) smoking"
    ),
    (
        "(?:i|we|he|she|they|im|hes|boss|guy|man) (?:was |is |are |were )?smok(?:e|es|ed|ing)(?: a| outside| weed| "
        "cigarettes)?"
    ),
    (
        "(?:fires?|flames?|flaming) (?:extinguishers?|exits?|doors?|drills?|insurance|regulations?|safety|hazards?|"
        "risks?|engines?|trucks?|stations?|fighters?|fighting|man|place|places|pit|works?|red|orange|yellow|rated|"
        "rating|retardant|retardent|proof|proofed|resistant|resistance|blankets?|inspectors?|inspection|code|codes|"
        "certificates?|tests?|class|effects?|designs?|theme|logos?|prints?|patterns?|pictures?|photos?|images?|"
        "dragons?|emojis?|mugs?|shirts?|tees?|tv|stick|wall|fly|escape|pump|hose|sale|sign|marshal|warden|ball|bird|"
        "fox|colou?rs?|grill|bucket|coaster|cup|hoodie|hoodies|gradient|tank|decals?|letters|text|polo)"
    ),
    (
        "(?:camp|bon|wild|forest|log|open|cease|cross|rapid|quick|spit|under|friendly|olympic|candle|gas) ?(?:fires?|"
        "flames?)"
    ),
    (
        "(?:thermal|heat|cold|temperature|culture|sticker|price|static|colou?r|shell|future|bill|mild|real|bit of a|"
        "nice|big) shocks?(?= (?:to|for|price|when|of|cracked|cracks|on the|broke|from the (?:price|bill|cold)))|"
        "(?:thermal|heat|cold|temperature|culture|sticker|price|static|colou?r|shell) shock(?:s|ed)?"
    ),
    (
        r"shock(?:s|ing)? (?:absorb\w*|proof|proofed|resistant|resistance|cooling|freeze|price|prices|value|factor|"
        "waves?|therapy|pink|colou?rs?|effects?|sensors?|labels?|watch|protection|cord|designs?|prints?|logos?|signs?"
        "|symbols?|graphics?|tees?|mugs?|text|letters|of|to see|to find|horror)"
    ),
    (
        "(?:shocks?|shocked|jolt) (?:when|as|because|after) (?:i|we|he|she|they|you) (?:saw|looked|read|heard|peeled|"
        "noticed|found|see|realised|realized)"
    ),
    "(?:shocked|shocks|shocking) (?:me|us|him|her|them)? ?(?:how|that|to|with|at|about)",
    "(?:in|a bit|total|complete|pure|into|after the) shock(?= (?:at|that|about|over|,|to|because))",
    (
        "sparks? (?:joy|interest|ideas?|of|plugs?|conversations?|imagination|debate|memories|creativity|effect|"
        r"design)|sparkl\w+"
    ),
    (
        "current (?:temp|temperature|settings?|one|job|order|orders|press|value|reading|designs?|file|version|profile"
        "|state|batch|paper|ink|setup|stock|process)"
    ),
    (
        "fuse (?:the|dyes?|inks?|into|with|together|to|them|it|time|temperature|colou?rs?|at)(?! (?:box|for|of|in|is|"
        "went|blew|blows))"
    ),
    (
        "(?:hand|hands|finger|fingers|thumb|palm|arm|foot|feet|leg|toe|face|skin|head|hair|eye|eyes|lip|nose|body) "
        "(?:towels?|wash|washed|washing|prints?|printed|drawn|made|held|feel|sides?|lettering|lettered|painted|sewn|"
        "cream|sanitiser|sanitizer|written|cut(?= (?:out|stickers?|paper|vinyl|sheets?|edges?|the|shapes?|stencils?))"
        "|pressed(?! in)|trees?|band|bands|bag|bags|marks?|smears?|tones?|colou?rs?|mats?|cloths?|masks?|dryer|dried|"
        "painting|nails?|rests?|warmers?|sized|wide|width|thick|breadth|wide|holes?|stitched|embroidered|fed|operated"
        "|iron|roller|test|pump)"
    ),
    (
        "(?:left|second|other|by|off|to|right|on|upper|lower|one|minute|hour|helping|free|at|beforehand|short) "
        "hand(?= (?:side|corner|edge|margin|half|part|panel|sleeve|shop|used|machine|is fine|bought|as))|by hand|"
        "second hand|on the other hand|at hand|to hand|left hand side|right hand side|rule of thumb|first hand|hand "
        "in hand|out of hand|one hand|hands on|hands off|big hand|hands free"
    ),
    "(?:size|shape|width|like|outline) of (?:a|my|your|the) (?:hand|finger|thumb|palm|fingertip|thumbnail)s?",
    (
        "burn(?:t|ed|ing|s)? (?:marks?(?! (?:on|at|around) (?:my|his|her|the (?:plug|socket|cable|outlet|switch|"
        "wall)))|edges?|spots?|lines?|rings?|orange|umber|sienna|red|brown|toast|cork|wood|smell(?= on| of the| "
        "after)|hours?|rate|time|out|through the (?:cloth|fabric|shirt))"
    ),
    (
        "(?:side|heart|slow|fat|sun|wind|calorie) ?burns?|heartburn|sunburnt?|burned? (?:a|the|my) (?:cd|dvd|disc|"
        "screen|profile)"
    ),
    (
        "blood (?:red|orange|oranges|moon|type|donor|donors|drive|stains? (?:design|effect)|splatter|pressure|bank|"
        "sugar|line|hound|brother|sport|lust)|(?:fake|dragon|movie|bad|new|horror) blood"
    ),
    (
        "(?:ink|colou?rs?|dye|edges?|print|text|red|black|blue|letters?|lines?|image|it|its|they|design|sublimation|"
        "toner) (?:is |are |was |keeps? |s )?(?:bleed|bleeds|bleeding|bled)|bleed (?:area|line|margin|lines|marks?|"
        "edge|in|into|through|out|to)|(?:mm|full|no|safe|with) bleed|bleeding (?:edge|ink|colou?rs?|through|into|out|"
        "onto|around|at|on the)"
    ),
    (
        "paper ?cuts?|cut (?:my|our|his|her) (?:losses|price|prices|costs?|teeth|hours|paper|sheet|sheets|fabric|"
        "cloth|nails|hair|own|time|margin|order|vinyl)|cuts? (?:out|lines?|file|files|paper|fabric|sheets?|corners)"
    ),
    (
        "sick (?:and tired|of|leave|day|days|note|pay)|(?:home|sea|car|air|travel|off|look|looks) ?sick|(?:is|are|was"
        "|such) (?:a|an|one|some) (?:big |huge |real |constant |total )?(?:headache|migraine|pain)"
    ),
    (
        "(?:printer|press|machine|head) (?:is )?(?:coughing|coughs|choking|chokes|vomits|dizzy)|(?:press|printer|"
        "software|job|order) (?:gives?|giving|gave) (?:me |us )?(?:a )?headaches?"
    ),
    (
        "(?:faint|sick|funny|ill|red|dry|raw|tight) (?:colou?rs?|lines?|prints?|image|"
        "marks?(?! (?:on (?:my|his|her)|now)|,| $)|design|shadow|copy|ghost"
        "|outline|grey|pattern)"
    ),
    "(?:eye|eyes) (?:catching|catcher|level|mask|colou?r|sore|watering price|opener|ball|let|lets|drops)",
    (
        "business trips?|(?:day|field|road|school|round|power|ego|guilt|boat) trips?|trip (?:hazard|hazards|over|up|"
        "to|advisor|wire)"
    ),
    "(?:wet|damp) (?:look|cloth|cloths|wipe|press)",
    (
        "in a (?:puff|cloud|haze|swirl|wisp) of smoke|smoke from (?:a|the) (?:match|candle|cigarette|chimney|incense|"
        "bbq|barbecue)|smoke from (?:my|the|his|her) (?:tea|coffee|food|kettle|cigarette)"
    ),
    (
        "shocks? (?:from|off) (?:the |my |a )?(?:door|roll|car|carpet|fleece|fabric|shirt|film|paper|stack|vinyl|"
        "jumper)(?: handle)?"
    ),
    (
        "(?:sheet|paper|fabric|cloth|panel|board|vinyl|film|wood|mdf|blank|design|template) (?:that |which )?i (?:cut"
        "|made|printed) (?:myself|ourselves)"
    ),
    (
        "(?:ambulance|first aid|hospital|doctor) (?:prints?|kits?|logos?|mugs?|shirts?|tees?|design|box|sign|toy|"
        "picture|photo|who|coat)"
    ),
    (
        "the (?:hands?|fingers?|feet|foot|heads?|legs?|arms?|toes?) (?:is |are |was |were |gets? |got )?(?:cut|"
        "chopped) off"
    ),
    "(?:hands?|fingers?|feet|heads?|legs?|arms?) cut off(?= (?:at|on|by|along))",
    "current of air|(?:world|heart|night) on fire|jolts? (?:the|when (?:the press|it|i) (?:closes?|opens?))",
    "leave (?:a |some )?bleed|bleed all round",
    "breathe? (?:new )?(?:life|easy|easier|new)|(?:cloth|fabric|shirt|polyester) (?:cant|doesnt) breathe",
)
DENYING = (
    "no not never without dont doesnt didnt isnt arent wasnt werent wont wouldnt cant couldnt hasnt havent hadnt "
    "nobody nothing none neither nor aint hardly barely zero noone instead"
)
SUPPOSING = "could might would may can will shall if unless whether"
# Words after which a danger is one that may be, or that somebody is warned of.
FEARING = (
    "worried worry afraid scared fear avoid avoids avoiding prevent prevents preventing risk careful protect "
    "protects protecting protection against hazard imagine suppose hypothetically before nearly almost warning "
    "warns warn manual label sign poster training drill course insurance insured rumour dreamt dreamed"
)
SUBJECTS = "i we he she they it its you there theres im ive hes shes"
LONG_AGO = (
    "last (?:year|month|week|summer|winter|spring|autumn|fall|christmas|night|season|job|century|decade|time|xmas"
    "|halloween|easter|mon|tue|wed|thu|fri|sat|sun|january|february|march|april|may|june|july|august|september|"
    r"october|november|december)\w*|yesterday|(?:days?|weeks?|months?|years?|yrs?|decades?|ages|long time|while) "
    r"(?:ago|back|since)|(?:19|20)\d\d|used to|back (?:when|then|in)|when i was|in the past|previous(?:ly)?|"
    "formerly|(?:for|many|some|few|several|of) years|once|one time|other day|at (?:school|college|my old)|old "
    "(?:unit|flat|building|premises|shop|job|workshop|burn|scar|place|house|workplace)|history|remember|"
    "remembered|since then|ever since|"
    "thats why|that is why|lesson|learned|learnt|scars?|healed|long since|once upon|as a kid|ago that|before the|"
    "apprenticeship|in those days|first (?:press|shop|year|job) (?:i|we|was|had)"
)
CONSEQUENCE = (
    "thats why|that is why|since then|ever since|these days|(?:so )?now (?:i|we) (?:always|use|wear|have a|keep|"
    "never|only)|lesson learne?d?t?|so i (?:always |now )?wear|hence the gloves|healed"
)
SINCE_BOUGHT = (
    "(?:bought|got it|purchased|serviced|installed|repaired|made|built|ordered|delivered|arrived|replaced|changed"
    r"|fixed|moved|new|worked|fine|ok|okay|good|started|had it|since|from)(?: \w+){0,3} (?:last \w+|yesterday|"
    r"(?:\w+ )?(?:days?|weeks?|months?|years?) ago|in (?:19|20)\d\d|years)"
)
JUST_NOW = (
    "now|again|still|today|just|currently|(?:min|mins|minutes?|secs?|seconds?|hours?|hrs?|moment) ago|this "
    "(?:morning|minute)|keeps|ceaseless|hurts|help"
)
HEARSAY = (
    "i (?:have )?(?:read|heard) (?:that|of|about|somewhere|a story|stories)|ive (?:read|heard)|i saw (?:a "
    ")?(?:video|post|film|clip)|they say|people say|(?:shirts?|text|prints?|design|mugs?|slogan|sign|label|tee|"
    "quote) (?:says?|said|saying|reads)|told me(?: that)?|forum|video|article|news|in the (?:film|movie|book|"
    "game)"
)
PRESENT = frozenset(
    ("am are ceaseless hes im is its keeps now right shes smells sparks theres theyre trips wont").split()
)
ARTWORK = frozenset(
    (
        "art artist artwork background banner candle cartoon character color colors colour colours comic demon "
        "design designs dragon dragons drawing engine file game gradient graphic hero illustration image images "
        "layer logo logos lyrics monitor motif painting pantone pattern phoenix photo photos picture pictures "
        "portrait poster print prints proof quote rgb rocket scene shade skull sky slogan song steamtrain sunset "
        "tattoo texture train volcano wallpaper"
    ).split()
)
SIGNS = frozenset(
    "design designs logo logos sign signs poster posters artwork illustration motif emblem symbol".split()
)
FIGURATIVE = frozenset(
    (
        "account ads brand business color colors colour colours design designs inbox looks market marketing "
        "orange oranges order orders page phone posts red reds sale sales season shop stockroom team we website "
        "week were"
    ).split()
)
# Words that others may be a slip away from; and words that are none, though they are near one of those.
SLIPPERY = (
    "ambulance apprentice bleach bleeding blister blistered blisters blood breaker breathe breathing burned "
    "burning burns burnt burst cable caught chlorine closed collapsed colleague coming coughing crushed dizzy "
    "electric electrical electricity electrocuted emergency everywhere explode exploded extinguisher fainted "
    "finger fingers flame flames fumes glass handle hands headache heating hospital knuckle machine outlet "
    "pinched plastic platen press scalded shattered shock shocked shocks smoke smoked smokes smoking smouldering "
    "socket spark sparking sparks squashed stuck swallowed temperature throat thumb tingling trapped tripped "
    "tripping unconscious under wiring wrist zapped"
)
REAL = (
    "ambulances apprenticed apprentices barns beach beaker blaster blasters bleaker bleeping blench blending "
    "bletch blond bloods bloody bloom bluster blustered blusters breach breaching breakers breath breathed "
    "breather breathes breaths breathy breeding brood brunt burgs buried burks burner burped burping burps burred"
    " burring burrs bursa bursts burying cabled cables chloride cloned close closer closes closet cloyed coding "
    "coking collapse collapses colleagues colour combing comings cooing coping coring couching cowing crashed "
    "crushes crusted electrocute electrocutes emergence explodes explore explored extinguished extinguishers "
    "extinguishes fainter feinted finder finders finer flake flakes flambes flamed flamer flamers flare flares "
    "flume flumes frame frames fumed fuses fuzes glads glassy gloss grass handel handled handler handles handy "
    "hangs hanks hating headaches heading healing heaping hearing heaving hefting hinds hospitals knuckled "
    "knuckles machined machines outlets outset pinches pitched plastics plate plated platens plates preps preys "
    "punched scaled scalped scattered scolded shack shacks shark sharking sharks shlock shocker shook shouldering"
    " shuck shucked shucks shuttered smock smocked smocking smocks smoker smokers smokey smoky smoldering smote "
    "snark snarks snuck socked sockets socks spank spanking spanks spare spares sparing sparkling sparring spars "
    "spattered spock spoke spokes squashes squished stack stark stick stock stocked stocks stoke stoked stokes "
    "stoking struck stunk swattered tangling tapped temperatures threat throats throaty thumbs thump tingeing "
    "tinging tinglings tinkling tipped tipping tramped trapper trapping tripled tripling trippe udder waist "
    "waring whist wiling wining wiping wrest wriest wring wrists writs zapper zipped"
)
NEAR, FAR = 5, 7  # words before a danger in which it is denied or supposed, or feared
LONGEST_GAP = {"..": 5, "...": 8, "&": 8}
SHORTEST_SLIP = 5  # letters of a word that may be misspelt
SOURCES = "electrical electric electrics electronics elektric rubber plastic room shop workshop"
SCORCHED = "apron linen sleeve tan beige patch biscuit brown yellow yellowed golden canvas wool collar customer tinge"
SMELLS = frozenset(
    "smell smells smelled smelt stinks stink smelling burnt burning burned whiff stench reek reeks odour".split()
)
FRIGHTS = frozenset("scared afraid worried avoid prevent nearly almost".split())
CONDITIONS = frozenset("if unless whether".split())
OWN = frozenset("my me i im myself".split())
JOINING = frozenset("in at of on for from behind with".split())
VERBS = frozenset("burn cut catch get break set smoke burst blow trip zap shock drink swallow mix open touch".split())
CORRECTED = re.compile(r"[.?!]+(?= [^.?!]*\bi mean)", re.ASCII)
SENTENCES = re.compile(r"[^.!?;\n]+[.!?;\n]*")
NO = re.compile(r" *(?:no|nope|not|nah)\b", re.ASCII)
PIECES = re.compile(r"[a-z0-9]+|[,:()–—]")
LEFT = re.compile(r" (?:and|so|because|then|but|however|though) ")


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence as it was typed (folded), and as patterns are held against it: words with a space round each."""

    typed: str
    read: str


def dangers(text: str) -> tuple[str, ...]:
    """The ids of the dangers that are told of as happening now, the most urgent first; () for nearly every text."""
    whole = CORRECTED.sub(",", fold(taken(text)))
    parts = SENTENCES.findall(whole)
    pairs = zip(parts, [*parts[1:], ""], strict=False)
    sentences = [_sentence(part) for part, after in pairs if not _answered_no(part, after)]
    past = bool(re.search(rf"\b(?:{CONSEQUENCE})\b", whole, re.ASCII))
    return tuple(danger for danger in PATTERNS if any(_told(danger, sentence, past) for sentence in sentences))


def _answered_no(part: str, after: str) -> bool:
    """Whether a question that speaks of nobody ("smoke?") is answered right away."""
    return "?" in part and bool(NO.match(after)) and OWN.isdisjoint(PIECES.findall(part))


def _told(danger: str, sentence: Sentence, past: bool) -> bool:
    words = frozenset(sentence.read.split())
    if not words.isdisjoint(UNLESS.get(danger, "").split()):
        return False
    return any(_live(danger, found, sentence, past) for found in _found(danger, sentence.read, words))


def _found(danger: str, read: str, words: frozenset[str]) -> Iterator[tuple[int, int]]:
    """Where a pattern of the danger fits: the first sign and the sign after the last."""
    for number, wanted in enumerate(_wanted()[danger]):
        if any(words.isdisjoint(each) for each in wanted):
            continue
        found = _expression(danger, number).search(read)
        while found:
            yield found.start(), found.end()
            found = _expression(danger, number).search(read, found.start() + 1)


def _live(danger: str, found: tuple[int, int], sentence: Sentence, past: bool) -> bool:
    """Whether what fits is said to happen, now, to people or things of this world."""
    before, match, after = (sentence.read[s] for s in (slice(found[0]), slice(*found), slice(found[1], None)))
    clause = before.rsplit(",", 1)[-1].split()
    own = match.split()
    if _denied(before) or _supposed(before.split(), clause, own):
        return False
    now = not PRESENT.isdisjoint([*own, *clause[-2:]])
    around = f"{' '.join([*clause, *own])} {after.split(' , ', 1)[0]}"
    if not now and (past or _long_ago(around) or _long_ago(sentence.typed)):
        return False
    if re.search(rf" (?:{HEARSAY}) ", f"{before}{match}", re.ASCII):
        return False
    if own[-2:] == ["on", "fire"] and not FIGURATIVE.isdisjoint(clause[-4:]):
        return False
    if (
        danger in ("electrical-fault", "smoke")
        and not SMELLS.isdisjoint([*clause[-2:], *own[:2]])
        and _of_scorching(own, sentence.read.split())
    ):
        return False
    return not OWN.isdisjoint(own) or not _of_artwork(clause, own, after.split(",", 1)[0].split())


def _denied(before: str) -> bool:
    clause = LEFT.split(before.rsplit(",", 1)[-1] + " ")[-1].split()
    return not _set(DENYING).isdisjoint(clause[-NEAR:])


def _supposed(before: Sequence[str], clause: Sequence[str], own: Sequence[str]) -> bool:
    said = f" {' '.join(before)} "
    if " what if " in said or " in case " in said or not _set(FEARING).isdisjoint(clause[-FAR:]):
        return True
    if "like" in clause[-2:] or not FRIGHTS.isdisjoint(own):
        return True
    if before and before[-1] == "to" and own[0] in VERBS:
        return True
    if not (_set(SUPPOSING) - CONDITIONS).isdisjoint(clause[-NEAR:]):
        return True
    places = [place for place, word in enumerate(before) if word in CONDITIONS]
    if not places:
        return False
    between = before[places[-1] + 1 :]
    closed = "," in between or not _set(SUBJECTS).isdisjoint(between[2:])
    return not closed and not (len(between) > 1 and own[0] in _set(SUBJECTS) | _set(CLASSES["breaker"]))


def _long_ago(typed: str) -> bool:
    """Whether a sentence speaks of what is over, and of nothing that goes on."""
    told = re.sub(SINCE_BOUGHT, " ", typed, flags=re.ASCII)
    over, on = (re.search(rf"\b(?:{said})\b", told, re.ASCII) for said in (LONG_AGO, JUST_NOW))
    return bool(over) and not on


def _of_scorching(own: Sequence[str], words: Sequence[str]) -> bool:
    """Whether it is goods that smell, and neither press nor wires."""
    sources = _set(CLASSES["m"]) | _set(CLASSES["elec"]) | _set(SOURCES)
    return sources.isdisjoint(own) and not (_set(CLASSES["goods"]) | _set(SCORCHED)).isdisjoint(words)


def _of_artwork(clause: Sequence[str], own: Sequence[str], after: Sequence[str]) -> bool:
    """Whether it is a picture that shows it, or a sign that tells of it."""
    if not ARTWORK.isdisjoint(clause[-4:]) or not SIGNS.isdisjoint([*own[1:], *after[:2]]):
        return True
    joined = after[:6] if own[-1] in JOINING else after[1:6] if after and after[0] in JOINING else ()
    return not ARTWORK.isdisjoint(joined)


def _sentence(part: str) -> Sentence:
    words = ["," if not piece.isalnum() else _mended(piece) for piece in PIECES.findall(part.replace(" - ", ","))]
    read = f" {' '.join(words)} "
    for expression, written in _rewritings():
        read = re.sub(" +", " ", expression.sub(f" {written}", read))
    read = re.sub(r"(?: ,)+ ", " , ", re.sub(" +", " ", read))
    read = re.sub("^ , ", " ", re.sub(" , $", " ", read))
    return Sentence(part, f"{read}! " if "!" in part else read)


@lru_cache(maxsize=2000)
def _mended(word: str) -> str:
    """The word of a pattern that a word not known otherwise is a slip away from; else the word itself."""
    drawn = re.sub(r"(.)\1{2,}", r"\1", word)
    if drawn != word:
        twice = re.sub(r"(.)\1{2,}", r"\1\1", word)
        word = twice if twice in _alarming() else drawn
    if len(word) < SHORTEST_SLIP or not word.isalpha() or word in _alarming() or word in _set(REAL):
        return word
    near = [known for known in _slippery() if distance(word, known, 1) == 1 and known[0] == word[0]]
    return near[0] if near else word


@lru_cache(maxsize=64)
def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


@lru_cache(maxsize=1)
def _alarming() -> frozenset[str]:
    """Every word that stands in a pattern or a class."""
    said = [*CLASSES.values(), *(pattern for each in PATTERNS.values() for pattern in each)]
    return frozenset(re.findall("[a-z0-9]+", " ".join(said).replace("_", " ")))


@lru_cache(maxsize=1)
def _slippery() -> tuple[str, ...]:
    """The words that others may be slips of."""
    return tuple(sorted(word for word in _set(SLIPPERY) if len(word) >= SHORTEST_SLIP))


@lru_cache(maxsize=1)
def _rewritings() -> tuple[tuple[re.Pattern[str], str], ...]:
    pairs = (*REWRITTEN, *((said, "_") for said in COMPOUNDS))
    return tuple((re.compile(f" (?:{said})(?= )", re.ASCII), written) for said, written in pairs)


@lru_cache(maxsize=1)
def _wanted() -> Mapping[str, Sequence[Sequence[frozenset[str]]]]:
    """Of each pattern, the sets of words of which it needs one each."""
    return {danger: [_needed(pattern) for pattern in patterns] for danger, patterns in PATTERNS.items()}


def _needed(pattern: str) -> list[frozenset[str]]:
    elements = [each for each in pattern.split() if each not in (*LONGEST_GAP, "^") and not each.endswith("?")]
    sets = [_words(element) for element in elements]
    return [frozenset(word.split()[0] for word in words) for words in sets if "$" not in words]


def _words(element: str) -> list[str]:
    """The words and phrases that an element of a pattern stands for."""
    parts = [CLASSES[part[1:-1]].split() if part[0] == "{" else [part] for part in element.split("|")]
    return [word.replace("_", " ") for part in parts for word in part]


@lru_cache(maxsize=1000)
def _expression(danger: str, number: int) -> re.Pattern[str]:
    orders = permutations(PATTERNS[danger][number].split(" & "))
    return re.compile("|".join(_in_order(" & ".join(order)) for order in orders))


def _in_order(pattern: str) -> str:
    written = "".join(_written(element) for element in pattern.split())
    return written if pattern.startswith("^") else f" {written}"


def _written(element: str) -> str:
    if element == "^":
        return "^ "
    if element in LONGEST_GAP:
        stops = [*DENYING.split(), *SUPPOSING.split(), *(["!", ","] if element == ".." else ["!"])]
        return f"(?:(?!(?:{'|'.join(stops)}) )[^ ]+ ){{0,{LONGEST_GAP[element]}}}"
    words = _words(element.removesuffix("?"))
    spaced = f"(?:{'|'.join(word for word in words if word != '$')}) "
    either = f"(?:{spaced}|(?:! )?$)" if len(words) > 1 and "$" in words else "(?:! )?$" if words == ["$"] else spaced
    return f"(?:{either})?" if element.endswith("?") else either

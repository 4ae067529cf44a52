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

from diagnose.reasoning.words.slips import distance
from diagnose.reasoning.words.spelling import fold, taken

# In a pattern: ``a|b`` either word, ``{name}`` a class of words, ``?`` behind it where it may be lacking, ``..`` up to
# three words between and ``...`` up to seven, none of which denies or supposes, ``^`` and ``$`` the ends of a sentence.
# ``_`` within a word stands for a space.
CLASSES: Mapping[str, str] = {
    "hand": (
        "hand hands finger fingers thumb thumbs arm arms wrist wrists palm palms forearm forearms knuckle knuckles "
        "fingertip fingertips elbow hend fingr pinky pinkie mano dedo finger_tip finger_tips"
    ),
    "body": (
        "hand hands finger fingers thumb thumbs arm arms wrist wrists palm palms forearm forearms knuckle knuckles "
        "fingertip fingertips elbow hend fingr pinky pinkie mano dedo foot feet leg legs toe toes knee ankle"
    ),
    "soft": "face skin neck chest cheek lip lips nose ear stomach belly head hair scalp tongue mouth",
    "my": (
        "my his her our their me apprentices colleagues somebodys someones customers childs daughters sons wifes "
        "husbands kids girls boys friends bosss boss workers employees one both left right mine own lads coworkers "
        "trainees"
    ),
    "one": "me myself himself herself themselves him them us somebody someone ourselves itselfs meself mysef myslef",
    "who": (
        "i we he she they im ive hes shes theyre weve somebody someone colleague coworker worker employee apprentice "
        "trainee boss wife husband son daughter kid child boy girl friend mum mom dad operator student intern partner"
        " mate brother sister lad toddler baby guy man woman person girlfriend boyfriend assistant helper staff temp "
        "lady bloke workmate everybody everyone both me"
    ),
    "child": (
        "child kid kids children toddler baby son daughter grandson granddaughter grandchild little_girl little_boy "
        "nephew niece dog cat puppy"
    ),
    "m": (
        "press presses platen platens platten plattens plattern machine machines heater element elements controller "
        "heatpress mugpress motor fan printer oven unit device transformer relay thermostat prensa presse maquina "
        "hot_plate heat_plate heating_plate plate plates iron dryer compressor power_supply power_box control_box "
        "display circuit_board heating lid calander calender computer laptop"
    ),
    "elec": (
        "plug plugs socket sockets outlet outlets cable cables cord cords wire wires wiring lead leads switch "
        "controller extension power_strip power_bar adapter adaptor fuse fusebox fuse_box electrics electronics "
        "insulation mains control_box power_box power_supply transformer terminal terminals connector"
    ),
    "metal": "handle handles frame metal case casing housing chassis lever body platen press machine",
    "it": (
        "it its this that something everything thing stuff bin basket bench table shop workshop room building garage "
        "pad foam silicone glove gloves sleeve sleeves hair apron rag rags cardboard tape"
    ),
    "goods": (
        "shirt shirts tshirt tshirts tee tees fabric cloth polyester cotton paper papers sheet sheets transfer "
        "transfers print prints mug mugs tile tiles towel towels blank blanks coating edge edges colour colours color"
        " colors mark marks spot spots patch patches film banner flag cushion bag bags hoodie hat cap panel slate "
        "piece pieces item items corner corners border borders white black blacks brown ink garment garments jersey "
        "fleece vest lanyard puzzle sublimation teflon parchment felt wood mdf hardboard leather seam seams ornament "
        "coaster coasters mat mats case cases pillow sock socks"
    ),
    "smoke": "smoke rauch humo fumo fumee rook smok",
    "smoking": "smoking smouldering smoldering smokin smoking_like smokes smoulders fuming",
    "fire": "fire flame flames fires flammes feuer fuego incendio feu",
    "flames": "flame flames flammes feuer fuego incendio",
    "out": (
        "coming comes came come out pouring pours rising rises billowing escaping shooting shot from under underneath"
        " inside between behind everywhere filling fills rolling spreading leaking"
    ),
    "catch": "catch caught catches catching catched cought took takes taking cach cathed",
    "be": (
        "is are was were am im its hes shes theyre got gets get getting been keeps has had have be being became went "
        "gone going still also just all now badly quite really very so bit a too starts started start starting begins"
        " began totally completely half"
    ),
    "burn": (
        "burn burns burnt burned burning burnd burnded quemada quemadura brunt birnt bernt scald scalds scalded "
        "scalding scorch scorched sear seared singe singed branded quemado verbrannt brule"
    ),
    "burnt": "burn burnt burned burns burnd burnded brunt scalded scorched singed scald burning",
    "blister": "blister blisters blistered blistering",
    "steam": "steam water oil wax glue vapour vapor",
    "breaker": (
        "breaker breakers rcd rcbo gfci gfi mcb fusebox fuse_box fuse fuses sicherung disjuncteur main_switch "
        "safety_switch earth_leakage ground_fault circuit_braker braker breker differential"
    ),
    "trip": (
        "trip trips tripped tripping trippin triped triping blow blows blew blown blowing pop pops popped popping "
        "jump jumps jumped jumping goes went kick kicks kicked flips flipped flipping flies flew falls fell"
    ),
    "shock": "shock shocks schock jolt jolts electroshock shok chock",
    "zap": "zap zaps zapped zapping zaped electrocute electrocuted electrocutes electrocuting electricuted",
    "get": (
        "got get gets getting gave give gives giving given had have has having received receive feel feels felt "
        "feeling take takes took taking suffered"
    ),
    "touch": "touch touches touched touching grab grabbed grabs hold holding held reach reached",
    "smell": "smell smells smelling smelled smelt stink stinks stinking stench odour odor whiff reek reeks",
    "fume": (
        "fume fumes smell smells vapour vapours vapor vapors gas gases smoke stench odour odor stink air chemical "
        "chemicals solvent cleaner spray bleach chlorine exhaust ventilation"
    ),
    "ill": (
        "dizzy dizzyness dizziness dizy lightheaded light_headed faint fainting headache headaches head_ache "
        "head_hurts head_spinning head_pounding nausea nauseous nauseated sick ill puke throw_up throwing_up vomit "
        "vomiting vomited cough coughing coughs coughed wheeze wheezing wheezy choke choking chokes asthma unwell "
        "queasy woozy poisoned migraine breathless passing_out pass_out"
    ),
    "dizzy": "dizzy dizy lightheaded light_headed nauseous woozy queasy faint wheezing breathless nauseated vomiting",
    "eyes": "eyes eye throat nose chest lungs lung head airways",
    "sting": (
        "burn burns burning burnt sting stings stinging smart smarting smarts hurt hurts hurting water watering itch "
        "itching itchy sore streaming tearing tears raw irritated scratchy tight swollen red running dry painful ache"
        " aches aching"
    ),
    "caught": (
        "stuck trapped caught crushed squashed pinched jammed squeezed smashed mashed flattened squished smushed "
        "clamped pinned wedged nipped traped chrushed squash crush crushing pinching"
    ),
    "crush": (
        "crushed squashed trapped pinched jammed squeezed smashed mashed slammed shut closed nipped squished caught "
        "stuck trap crush chrushed clamped fell dropped landed came_down flattened"
    ),
    "in": "in under between inside underneath into beneath",
    "open": (
        "open opens opening release releases releasing lift lifts unlock unlocks raise let_go come_up go_up come_off "
        "rise"
    ),
    "shard": "shard shards splinter splinters glass sliver slivers chip chips fragment fragments",
    "brittle": (
        "glass mug tile slate ceramic cup plate bottle jar pane coaster ornament stein tumbler knife blade cutter "
        "scalpel trimmer scissors guillotine shard shards"
    ),
    "cut": "cut cuts cutted sliced slashed gashed stabbed slit gash pierced lacerated",
    "bleed": "bleeding bleed bleeds bled blood bleading",
    "splash": (
        "ink dye cleaner solvent bleach splash splashed chemical spray sprayed powder acid alcohol fluid liquid shard"
        " shards splinter splinters glass squirted squirt coating glue acetone ipa dust chip something stuff drops "
        "hot_ink"
    ),
    "poison": (
        "ink dye cleaner solvent bleach fluid chemical chemicals glue spray powder coating acetone ipa alcohol "
        "thinner liquid inks cartridge silica"
    ),
    "bleach": (
        "bleach chlorine ammonia acid vinegar descaler toilet_cleaner drain_cleaner peroxide javel hypochlorite "
        "limescale_remover ammoniac"
    ),
    "wet": "water coffee tea cola drink liquid rain juice beer soda",
    "spill": (
        "dropped spill spilled spilt spilling poured knocked dripping drips dripped leaking leaks leaked splashed ran"
        " running pouring tipped"
    ),
    "theres": "theres therewas",
    "presses": "press presses platen platens plattern platten heatpress mugpress machine prensa presse clamp",
    "heats": "temp temperature heat heating platen press element machine display it",
    "fill": "full filled filling fills covered choking_on cough_from black_with white_with thick_with",
    "things": (
        "curtain curtains roof ceiling wall carpet chair trousers pants clothes box boxes desk stool van wallpaper "
        "lamp dust lint wrapping packaging bubblewrap cart rack shelf mattress sofa"
    ),
    "smart": (
        "burn burns burning sting stings stinging smart smarting smarts watering water itch itching itchy streaming "
        "tearing irritated swollen running tight"
    ),
    "number": "240 250 260 270 280 290 300 320 350 400 450 500 550 600",
    "bare": "bare with_my with_bare with_his with_her hand hands finger fingers",
    "bad": (
        "bad badly really severely terribly quite seriously hard deep deeply again now today just help still slightly"
        " little lightly"
    ),
}
# By danger, the most urgent first.
PATTERNS: Mapping[str, Sequence[str]] = {
    "collapsed": (
        "{who} .. collapsed|unconscious|unresponsive|passed_out|fainted|blacked_out|keeled_over",
        "passed_out|unconscious|blacked_out",
        "{who} .. isnt|not|stopped|hardly|barely breathing|moving|responding|conscious",
        "not_breathing|no_pulse|stopped_breathing",
        "{who} .. on|to the? floor|ground",
        "{who} .. wont|doesnt|cant|isnt wake|waking|respond|answer",
        "having|has|had a? seizure|fit|stroke|heart_attack",
        "cpr|defibrillator|resuscitate|resuscitation",
    ),
    "fire": (
        "{catch} on|a|the? {fire}",
        "{m}|{it}|{elec}|{goods}|{things}|{body}|{soft} .. on fire",
        "im|hes|shes|he|she|apprentice|colleague|someone|somebody is|was|are? on fire",
        "^ on fire",
        ", on fire",
        "set|sets|setting|lit|put .. on fire",
        "{theres} .. on fire",
        "brennt|feuer|incendio|fuego",
        "on|in {flames}",
        "set|sets|setting .. fire|alight|ablaze",
        "{m}|{it}|{elec}|{goods} .. alight|ablaze|aflame",
        "burst|bursts|bursting|went|goes|going|up .. flames",
        "{flames} .. {out} .. {m}|{it}|{elec}|{goods}|there|back|bottom|top|sides|side|here|everywhere|$",
        "flames .. coming|licking|shooting|leaping|rising|everywhere|come|higher",
        (
            "{m}|{elec}|{it} .. make|makes|making|made|gives|throwing|spitting|shoots|has|have|got|had|start|started|"
            "full_of .. {fire}"
        ),
        "{m}|{elec} {fire}",
        (
            "{fire} in|on|at|under|inside|near|behind|around|from|out_of .. {m}|{elec}|{it}|room|bucket|store|garage|"
            "oven|corner|kitchen|here"
        ),
        (
            "{theres}|see|seeing|got|have|seen|is|comes a|an|the|open|real|small|big|little|some|actual? {fire} $|in|"
            "on|from|now|coming|under|at|here|everywhere|out|inside|near|and|,|behind|what"
        ),
        "^ a|the|big|small|its|there|we|have|is? {fire} now|here|inside|{fire}|in? {fire}? $",
        ", a|the|big|is|its|there? {fire} $",
        "had a|the {fire} just|now|again|here",
        "{fire} broke|breaks|started|starts|spreads|spreading|ceaseless|getting",
        "start|started|starting|made|caused|had a|the|small|little? fire",
        "{m}|{elec}|{it}|bin burning $|now|up|down|inside|badly|and|,|with|like|everywhere|still",
        "{m}|{elec}|{it} is|are|was|has|still|all burning $|now|up|down|inside|badly|and|,|with|everywhere|to",
        "{m}|{elec}|{it} burns|burn !",
        "bin|basket|waste|trash|rag|rags|rubbish .. burning $|now|and|!|,",
        "{goods} .. is|are|was|started|all burning !|and|with|,|help|inside",
        "call|called|calling|ring|phone|phoned|need|needs|get .. firebrigade",
        "put|putting out .. {fire}",
        "need|get|wheres|where_is|grab .. extinguisher",
    ),
    "electric-shock": (
        "{get} .. buzz|jolt|tickle|prickle|pulse|tingle .. touch|touched|touching|holding|hold|grab",
        "{zap} {my}|{one}",
        "{zap} .. {who} $",
        "{get}|{be} .. zapped|electrocuted|electricuted|electrified",
        "{who} .. zapped|electrocuted|electricuted",
        "{zap} .. from|off|by|when|at|on|through .. {metal}|{m}|{elec}|it",
        "{metal}|{m}|{elec} .. zaps|zap|zapped|zapping|zaping",
        "got|get|gets|getting shocked|schocked|shoked",
        "was|were|am|im|been|be|is shocked|shoked by|from|off|touching|through .. {m}|{elec}|{metal}|it",
        (
            "{get} .. {shock} $|from|off|on|by|at|through|when|every|in|now|,|and|if|touching|of_the|as|just|while|"
            "again|each|with|to_my|here|again|of|out|through|by_the|standing|this|today|everytime|yesterday"
        ),
        ("electric|electrical|elektric|electro|current|mains|eletric|electrik|big|nasty .. {shock}|hit|kick|jolt|bite"),
        (
            "{shock} .. from|off|on|by|at|through|when|every|touch|touching|touched .. {m}|{elec}|{metal}|it|touch|"
            "touching|touched|i"
        ),
        "{m}|{elec}|{metal}|it shocks|shocked|shocking|shock|zaps|jolts {one}|{my}|people|you",
        "shocks|shocked|shocking {one}|{my}",
        "{m}|{elec}|{metal} .. bit|bites|bite|kicks|kicked|kick|stings|pricks me|us|him|her|my|his|when|if|you",
        (
            "tingle|tingles|tingling|tingly|tickle|tickles|tickling|prickle|prickles|prickling|buzz ... {metal}|{m}|"
            "touch|touching|elbow|arm|fingers"
        ),
        "{metal}|{m}|touch|touching .. tingle|tingles|tingling|tingly|tickles|prickles",
        (
            "current|voltage|electricity|electric|elec|power|volts .. in|on|through|from|of|at|to .. handle|handles|"
            "frame|metal|case|casing|housing|chassis|lever|body|arm|hand"
        ),
        "{get} .. current|electricity|electric|voltage|volts $|in|on|from|through|when|off|,|of|if",
        "{m} {get} {my}|{one} current|electricity|electric|volts",
        (
            "{m}|{metal} is|was|are|seems|still|must_be|goes live|electrified|energised|energized $|,|and|i|when|with"
            "|at|electrically"
        ),
        "i|he|she|we|hand|hands|and|they cant|couldnt let go",
        "cant|couldnt let go of the? handle|press|cable|lever|it",
        "stuck to .. {m}|handle|cable|wire .. current|electricity|power|electric",
        "stromschlag|descarga|electrocution|electrocuted",
    ),
    "caught-hand": (
        "{hand}|foot|feet|leg|toe|toes .. {caught}",
        "{my} head .. {caught}",
        "{hand} is|got? broken|shut",
        "{caught} .. {my} .. {body}|head",
        "{crush} .. {body} .. $|in|under|between|with|by|on|and|,|the|badly|bad|now|when",
        (
            "{body} .. {in} .. {m}|rollers|roller|hinge|jaws|clamp|gap stuck|and|,|$|closed|while|when|cant|wont|!|it"
            "|now|its"
        ),
        "{my} .. {body} is|are|was|still|got|went|goes .. {in} .. {m}|rollers|roller|it|there",
        (
            "{m}|lid|calander|calender|rollers|cutter .. {crush}|came|come|down|on|onto|closing|closes .. {my} .. "
            "{body}|head"
        ),
        (
            "it came|fell|closed|closes|slammed|landed|dropped|shut|crushed|crushes|squashed|comes down|shut|right? "
            "on|onto? {my} .. {body}|head"
        ),
        "{m}|lid .. {crush}|came|closing|closes|closed .. {hand}|foot|toe|toes",
        "{m}|lid .. closed|closes|shut|fell|falls|came_down|down on|over {one}|apprentice|somebody|colleague",
        "{who} .. trapped|stuck|caught|crushed|pinned .. in|under|between|inside|by .. {m}|rollers|roller|it",
        "stuck {my} {body} out",
        "stuck {body} out",
        "cant stuck? {my} .. {body} out",
        (
            "lost|severed|chopped|cut_off|took_off|amputated|missing|broke|fractured|dislocated {my}|a|two|one|the .."
            " {body}|tip"
        ),
        "{body} .. cut_off|severed|off_completely|fractured",
        "{hand} came_off|is_off",
        (
            "{my} .. sleeve|hair|tie|scarf|necklace|apron|glove|shirt|lanyard|cuff .. caught|pulled|stuck|dragged|"
            "trapped .. in|into|under|between|by"
        ),
        "dropped|fell|falls|landed .. {m}|tile|stack|box|roll .. on|onto {my} .. {body}",
        "stuck {who} out .. {m}",
        "free {my} {body}",
        "trapped|stuck in the? press .. $",
    ),
    "swallowed": (
        (
            "{who}|{child} .. drank|drunk|drinks|swallowed|swallow|swallows|ate|eaten|eats|ingested|licked|sipped|"
            "tasted .. {poison}"
        ),
        "^ swallowed|drank|ingested|drunk|swallow {my}|some|a|the|bit|little|of? of|the? {poison}",
        "{poison} .. in|into {my} mouth",
        "got .. {poison} .. in|into .. mouth",
        "drank|drunk from .. bottle|cup|glass .. {poison}",
        "poison_control|poisons_centre|poison_centre|poison_center",
    ),
    "mixed-cleaners": (
        "mix|mixed|mixing|poured|pouring|put|used|combined|together|added|tipped .. {bleach} ... {bleach}",
        "{bleach} .. {bleach} .. mixed|together|reacting|fizzing|gas|fumes|fuming",
        "{bleach} gas|fumes|cloud|fume|vapour|vapours",
        "breathed|breathing|breathe|inhaled|smell|smells|smelling .. {bleach} gas|fumes|strong|bad|lungs",
        "{bleach} .. {ill}|eyes|breathe|lungs|throat",
    ),
    "gas": (
        "smell|smells|smelling|smelled|smelt .. gas $|leak|in|now|,|everywhere|from|near|here|strong|and",
        "gas leak|leaking|leaks|escaping",
        "leaking gas",
    ),
    "in-the-eye": (
        "{splash} .. in|into|to|hit {my}|the|an|one|both|your? eye|eyes",
        "{splash} .. in|into|hit {my} .. eye|eyes",
        "splashed|squirted|sprayed|flew|got|went|shot .. in|into {my}|the|both? .. eye|eyes|face",
        "{my} eye|eyes .. {splash}",
        "eye|eyes full of {splash}",
        "hit|hits|struck|got me|him|her|us in the|one|my|his|her? eye|eyes",
        (
            "cleaner|solvent|bleach|acid|chemical|acetone|ipa|descaler|caustic .. on {my} .. {body}|{soft}|skin .. "
            "burns|burn|burning|stings|sting|hurts|red|itches|$"
        ),
        "{my} .. {body}|{soft} .. burns|burning|stings|stinging .. cleaner|solvent|bleach|acid|chemical|acetone",
    ),
    "fumes": (
        "^ bad|toxic|strong? fumes $|!",
        "{who} feel|feels|feeling|felt ill|unwell|poorly|sick $|,|and|from|after|now|!|when|since",
        "leave|left|evacuate|evacuated|outside .. because|from|cause|due .. {fume}",
        "nose .. bleeding|bleeds|bleed",
        "inhaled|inhaling|breathed|breathing .. spray|powder|coating|solvent|dust|cleaner|mist",
        "fumes|smell|vapour|gas .. too|so|very|really strong|bad|much|thick $|i|we|,|and|here|to|!",
        (
            "{fume}|fuming|press|pressing|printer|workshop|room|ink|paper|shop .. mak|makes|making|made|make|give|"
            "gives|giving|gave .. {my}|{one}|{who}|everyone|everybody|people|you .. {ill}|sleepy|tired|weak"
        ),
        "{fume} .. {ill}",
        "{ill} .. from|off|because|since|with|by|when|of|after .. {fume}|pressing|press|printing",
        (
            "{who} .. feel|feels|feeling|felt|am|im|is|are|getting|got|get|gets|going|was|went|goes|so|very|all|bit "
            "{dizzy}|dizziness|sick_from"
        ),
        "feel|feels|feeling|getting|felt|going so|very|really|a|bit|all|little|quite? {dizzy}|drunk_from",
        "^ dizzy|dizziness|dizy|lightheaded|light_headed|nauseous|woozy|nausea .. $|and|,",
        (
            "{dizzy}|headache|headaches|nausea|cough|coughing|sick .. and|, .. {dizzy}|headache|nausea|cough|coughing"
            "|sick|vomiting|throat|eyes"
        ),
        "{my} eyes|eye|throat|nose|chest|lungs|airways .. {smart}",
        "{my} throat|nose|chest|lungs|airways .. {sting}",
        (
            "^ the|all|my|our? eyes|throat|chest|lungs and? throat|nose|eyes? is|are|keep|keeps|all|got|feel|feels|"
            "starts|hurt? {sting}"
        ),
        ", the|my|our? eyes|throat|chest|lungs is|are? {sting}",
        "{sting} eyes|throat|nose|chest|lungs",
        "{sting} {my} eyes|throat|nose|chest|lungs",
        "eyes .. {sting} .. {fume}",
        "{fume} .. {sting} .. {eyes}",
        "{fume} .. {eyes} .. {sting}",
        "{eyes} .. {sting} .. from|off|with .. press|pressing|{fume}",
        "cant|hardly|barely|couldnt|not breath|breathe|breathing|breeth",
        "cant catch|get my|any|a|enough? breath|air",
        (
            "hard|trouble|difficult|difficulty|struggling|struggle|problem|problems|hurts|painful to|with|in? breathe"
            "|breathing|breath"
        ),
        "shortness of breath",
        "{who} .. short|out of breath",
        "asthma attack",
        "breathing|breath problem|problems|trouble|difficulty|difficulties|difficult|hard|issues",
        "{fume} ... {dizzy}|headache|headaches|head_spinning|head_hurts|nausea|vomiting",
        "feel|feels|feeling funny|drunk|strange .. {fume}|press|pressing",
        (
            "{who} ... coughing|choking|wheezing|vomiting|gagging|throwing_up|retching .. $|from|since|and|,|because|"
            "when|in|with|all|a_lot|blood|now"
        ),
        "ceaseless coughing|vomiting|choking",
        "^ coughing|choking a_lot|lots|badly|since|from|all|and|here|,",
        "makes|making|make|made|has|have|got|gets|we {my}|{one}|{who}? .. cough|coughing|choke|gag",
        (
            "{who} .. have|has|got|get|gets|getting .. headache|headaches|nausea|migraine .. since|from|every|when|"
            "after|in .. press|pressing|shop|workshop|room|smell|fumes|printing"
        ),
        (
            "toxic|poisonous|choking|unbearable|overpowering|nasty|terrible|heavy|thick|acrid|horrible|awful|bad fume"
            "|fumes|vapour|vapours|vapor|gas|gases"
        ),
        (
            "fumes|vapours|vapors|gases .. everywhere|unbearable|overpowering|terrible|toxic|filling|filled|thick|"
            "awful|so_bad|too_much|very_strong|really_strong|so_strong"
        ),
        "full of|with fumes|vapour|gas|vapours|gases",
        "breathed|breathing|inhaled|inhaling|breathe .. fumes|gas|vapour|vapours|teflon|ptfe|smoke",
        "overcome|poisoned|knocked_out by|with|from .. {fume}",
    ),
    "smoke": (
        "{m}|{it}|{elec}|{goods} .. {smoking}",
        (
            "{m}|{elec}|it .. {smoke} $|and|,|now|from|a_lot|out|when|everywhere|!|very|much|like|in|inside|at|comes|"
            "coming|black|white|badly|heavy|again"
        ),
        "smoked smoked",
        "{m}|{elec} is|are|was|just|has|have|started|be? smoked $|and|,|now|out|badly|when",
        "smoking|smouldering|smoldering {m}|{elec}|{goods}",
        (
            "{smoke} .. {out} .. {m}|{it}|{elec}|{goods}|there|everywhere|back|bottom|top|sides|side|here|vents|hole|"
            "holes|$"
        ),
        (
            "{smoke} .. {in}|from|out|off|of|at|on|near|around|behind|through|all .. {m}|{elec}|room|shop|workshop|"
            "air|place|ceiling|building|studio|garage|over|back|vents"
        ),
        "{smoke} {out}",
        "{smoke} is|are|was|keeps|starts|started|still {out}",
        (
            "come|comes|coming|came|give|gives|giving|gave|gives_off|make|makes|making|made|blow|blows|blowing|"
            "throwing|puffing|producing|produces|emitting|let|pouring|letting|out|goes|go|puffs .. {smoke} $|from|out"
            "|and|,|when|now|everywhere|at|in|off|coming|under|again|if|every|by|of|to|into|there|here"
        ),
        (
            "theres|see|seeing|saw|smell|smells|smelling|smelled|smelt|smelled_of|lot|lots|much|full|filled|filling|"
            "thick|black|white|heavy|dark|some|little|puff|wisp|wisps|cloud|clouds|plume|plumes|is|big|a_bit|bit|have"
            "|got|so_much|strong|acrid of|a|the|some|lots|with|too|white|black|thick|grey|blue|bit|lot|much|light|"
            "like|lots_of|little|heavy|and? of? {smoke} $|from|out|and|,|when|now|everywhere|at|in|off|coming|under|"
            "again|if|every|by|to|into|there|here|comes|rising|behind|inside|is|what|where|on|near|all|over|the|but|"
            "should|after|as"
        ),
        "^ a|the|its|is|only|white|black|much|big|there|so? {smoke} now|here|inside|everywhere|{smoke}? $",
        "^ a|the|its|is|only|white|black|much|big|there|so? {smoke} everywhere|and|,|!|help",
        ", {smoke} $",
        "firealarm .. going|goes|went|gone|ringing|screaming|beeping|sounding|blaring|off|on|triggered",
        "{fill} .. {smoke}",
        "{smoke} ceaseless|getting|thick|everywhere|filled|fills",
        "ceaseless smoking",
        "smouldering|smoldering $|and|in|inside|,",
        "up in smoke",
        "it smoked",
        "^ smokes|smoking a_lot|lots|badly|bad|when|like|and|heavily|$",
        "{smoke} like_a_chimney|like_chimney",
    ),
    "electrical-fault": (
        "crackling|hissing|sizzling|fizzing|popping|sparking .. from|in|inside|at|behind|near .. {m}|{elec}",
        "bang ... lights|power|dark|smoke|smell|sparks|electricity",
        "everything|shop|house|room|workshop|place .. went|goes|gone|is dark|black when|,|and|as|if|suddenly",
        "{elec} smells|stinks|smell|stink $|bad|badly|funny|weird|hot|strange|horrible|!|,|and",
        (
            "{breaker} .. {trip}|gone|fliegt|raus|springt|go|off|out|triggers|triggered|released|releases|went_off|"
            "cuts_out|cuts|kicked_out"
        ),
        "{breaker} ceaseless",
        "{breaker} .. wont|doesnt|cant|not|isnt stay|stays|staying|hold|holding|reset",
        (
            "trip|trips|tripped|tripping|trippin|triped|triping .. {breaker}|electrics|electric|electricity|power|"
            "mains|circuit|lights|current|house|shop|board"
        ),
        (
            "{m} .. trip|trips|tripped|tripping|trippin|triped|triping $|when|every|as|,|and|again|if|after|the|"
            "everything|it"
        ),
        (
            "blow|blows|blew|blown|blowing|popped|pops|burns|burnt|burned|kills|killed|flips|flipped|throws|threw|"
            "drops|dropped {my}|the|a|another|main|my|out? main|circuit|the? {breaker}|circuit|socket"
        ),
        (
            "knock|knocks|knocked|knocking|takes|took|taking|cuts|kills out? out|the|all .. power|lights|electrics|"
            "electricity"
        ),
        (
            "lights|light|electricity|electric|power .. go|goes|went|going|gone|cut|cuts|is out|off|dark|away .. when"
            "|every|if|as|each|once ... {m}|switch|plug|turn|on"
        ),
        (
            "when|every|if|as|each|once ... {m}|switch|plug|turn|turned|on .. lights|electricity|electric|power|"
            "everything go|goes|went|is|gone out|off|dark|away|dead"
        ),
        "lost|lose|loses|losing power|electricity .. when|as|every|if",
        "whole|all|entire shop|house|room|building|workshop .. dark|no_power|without_power|lost_power",
        "{m}|{elec}|it|handle|button|timer .. spark|sparks|sparking|sparked|arcing|arced|arcs|sparkin",
        (
            "spark|sparks|sparking|arcing|blue_flash|flash_of_light|arc .. from|out|at|in|on|inside|under|behind|when"
            "|near|by|between|off|where .. {m}|{elec}|wall|back|switch"
        ),
        (
            "see|seeing|saw|{theres}|heard|making|makes|make|gives|throwing|throws|throw|shooting|flying|spitting|had"
            "|got|seen|comes|come|some|big|little|blue|of a|some|little|big|blue|the? spark|sparks $|from|in|and|,|"
            "flying|coming|at|inside|everywhere|out|on|near|under|now|by|fly"
        ),
        "spark|sparks flying|fly|flew|everywhere|coming|come|came|out|shooting|inside",
        "^ its? sparking|arcing .. $",
        "^ sparks !",
        "spark|sparks when|if|as i|you|we|its? plug|plugging|switch|turn|touch|start|press|flip|plugged|turned",
        "{m}|{elec} .. exploded|explode|explodes|blew_up|banged",
        "{m}|{elec} popped $|and|,|!",
        "{m}|{elec} .. went|goes|made|makes|go a? loud|big? bang|pop|popping",
        "loud|big|huge bang|pop|explosion",
        "bang .. smell|smoke|dark|sparks",
        (
            "{smell} ... wire|wires|wiring|electric|electrical|electrics|insulation|cable|cables|motor|transformer|"
            "circuit|plug|socket|ozone|electronics|controller|elektric"
        ),
        (
            "{smell} .. burnt|burning|burned|burn|hot|melting|melted|melt|burned_out|singed plastic|rubber|plastics|"
            "dust|wire|machine|press"
        ),
        (
            "{smell} .. burning|burn|melting $|from|coming|in|when|at|behind|around|,|and|near|inside|under|here|"
            "somewhere|strong|off|by|!|now|every"
        ),
        "{smell} .. burnt|burned from|coming|behind|around|near|inside|under|here|somewhere|!|every",
        (
            "burning|burnt|burned|burn|electrical|electric|wiring|scorched|hot_plastic|fishy|melting smell|smells|"
            "stink|stench|odour|odor $|from|coming|in|when|at|behind|around|,|and|near|inside|under|here|somewhere|"
            "off|by|but|now|every|comes"
        ),
        (
            "burnt|burning|burned|melting|hot|burn plastic|rubber|wire|wires|wiring|electric|electrical|electrics|"
            "insulation|cable smell|smells|stink|stench|odour"
        ),
        "{m}|{elec} {smell} .. burning|burnt|burned|burn|hot|melting|electrical|scorched|fishy",
        (
            "something is|smells|smelling|was|starts|started? burning|melting|overheating|frying $|and|,|in|inside|at"
            "|somewhere|behind|near|!|here|when"
        ),
        (
            "{elec} .. hot|melted|melting|melts|melt|burnt|burned|burning|burn|burns|glowing|glows|scorched|charred|"
            "buzzing|humming|crackling|crackles|fizzing|wet|damp|soaked|bare|exposed|frayed|sizzling|arcing|warm_to|"
            "cooked|fried|loose_wire|chewed"
        ),
        "{elec} .. turned|gone|went|goes|is|are|turning all|dark|completely|a_bit? black|brown",
        (
            "hot|melted|melting|burnt|burned|glowing|scorched|charred|wet|damp|soaked|frayed|exposed|bare|arcing|"
            "crackling|buzzing|chewed {elec}"
        ),
        "burn|scorch|black|brown|melt marks|mark|spots|spot on|at|around .. {elec}",
        (
            "{wet} .. in|into|on|onto|over|inside|near|by|reached|through|at|all_over|around .. {elec}|display|"
            "control_box|electronics|control_panel"
        ),
        "{spill} .. {wet}|mug|cup|drink .. in|into|on|onto|over|inside|down .. {m}|{elec}",
        (
            "{wet} .. {spill}|dripping|pouring|coming|going|goes|went|got|run|drip|flows|flowing .. in|into|on|onto|"
            "over|through|inside|down .. {m}|{elec}|electrics"
        ),
        "{m}|{elec} .. soaked|flooded|in_water|under_water|standing_in_water|got_wet|in_a_puddle|gets_wet",
        "puddle|flood|flooded ... {m}|{elec}",
        "{m} .. crackling|crackles|sizzling|fizzing",
        "{m} .. buzzing|humming and|, .. hot|smell|smells|smoke|spark|sparks|crackling|flicker|flickering",
        "platen|element|cable|plug|wire .. glowing|glows|glow red|orange|bright",
        "short_circuit|shortcircuit|kurzschluss|cortocircuito|shorted_out|short_circuited|short_circuiting",
    ),
    "child-at-the-press": (
        (
            "{child} .. touched|grabbed|touching|reaching|reached|grabs|touches|reaches|playing|pulled|climbing|"
            "climbed|near|alone|next_to|at|crawling .. hot|at|with|to|for|on|near|next|onto|behind? .. {presses}|"
            "platen|heat_press|hot_plate"
        ),
        "{child} .. on|under|in|at|by|near|behind|next_to|left_alone_with the|a|hot {presses}",
    ),
    "burn": (
        "{burn} ... , {my} .. {body}|{soft}",
        "melted|fused|stuck|glued to|onto|into|on {my} .. {body}|skin .. $|,|and|hot|burning|when|!",
        "{burn} .. {hand}|foot|feet|leg|legs|toe|toes|knee|ankle",
        "{hand}|foot|leg|toe .. {burn}",
        "{my} .. {hand}|foot|leg|{soft} .. {burnt}|blistering|blistered|{blister}",
        "{burn} {my} .. {body}|{soft}",
        "{burn} .. on|to|across|over {my} .. {body}|{soft}|eye|eyes",
        (
            "{burn} {one} $|on|with|by|at|from|off|,|and|badly|bad|really|quite|again|just|when|while|very|hard|today"
            "|now|pretty|!|in|the|through|taking|opening|this"
        ),
        (
            "{burn} .. apprentice|myself|himself|herself|themselves|colleague|coworker|customer|trainee|employee|"
            "daughter|son|kid|child|worker|wife|husband"
        ),
        "^ got|get|getting|just {burnt} on|by|off|from|with|while|{bad} .. {m}|hot|steam|$",
        "{who} {be} .. {burnt} $|{bad}|on|by|off|from|!|,|and .. {m}|hot|steam|bad|badly|$|!|,|now|and|by",
        (
            "{who} {be} .. a|some|bad|nasty|steam|big|small|little|terrible|large|second|third|degree|serious|severe "
            "burn|burns|blister|blisters|scald $|on|from|off|,|and|by|now|!|what|how|at|it|when|with|here"
        ),
        (
            "{who} .. {burnt} on|off|from|with|by|against the|hot|a|my|some? hot|upper|lower|heated? {m}|steam|iron|"
            "element|tile|mug"
        ),
        "{m}|{steam}|steam|it|tile|mug {burn} {one} $|,|and|!|badly|bad|on|when|now|really|through|a|in",
        "{blister} .. on|in|across|all_over {my}|the .. {body}|{soft}",
        "{blister} on|in {hand}",
        "{body} .. {blister}|swelling_up|swollen",
        (
            "{my} .. skin .. peel|peels|peeling|peeled|came|coming|comes|red|raw|white|bubbling|off|{blister}|stuck|"
            "melted|hanging"
        ),
        ", the|my? skin is|came|comes|all? .. peeling|off|raw|blistered|blistering|gone",
        "skin .. {my} .. {body} .. peeling|peeled|blistered|blistering|raw|coming|came|red|white",
        "skin .. stuck|melted|peeled|left|burnt|burned .. {m}",
        ("{steam}|hot_water|boiling|boiling_water|hot_oil .. in|on|onto|over|got|hit|into {my} .. {body}|{soft}|eyes"),
        "{steam}|hot_water|boiling_water|hot_oil on|onto|over|got|hit {one} $|,|and|!",
        (
            "{touch} .. hot {m}|mug|tile|slate|metal|part|blank|side .. {my}|with|bare|hand|and|,|by|$|now|accident|"
            "accidentally|mistake|!"
        ),
        (
            "{who} .. touched|grabbed|touch|leaned|brushed|fell|bumped|put .. the|on|a|my|onto|against? hot|heated|"
            "upper|lower|top? platen|hot_plate|heat_plate|heating_plate|element|heater|heating_element {bare}|$|,|now"
            "|!|and|by|accidentally|with_my"
        ),
        (
            "{body} .. on|onto|against|touched|touches|touch|to|hit|hits .. hot|heated|upper|lower|top|the? .. platen"
            "|hot_plate|heat_plate|heating_plate|element|heater|press_plate|heating_element|hot_metal|hot_press"
        ),
        "{body} .. on|onto|against|touched|touches|touch .. hot {m}",
        "fell|leaned|leant|stumbled|bumped|tripped against|on|onto|into the|a hot {m}",
        "second|third|2nd|3rd|first degree .. burn|burns|$",
        "treat|soothe|cool|treating|treatment|cream|ointment|gel|first_aid .. burn|burns|scald|blister",
        "burn|burns|scald cream|ointment|gel|dressing|hurts|hurt|blistering|victim",
        (
            "{burn} .. hurts|hurt|ouch|ow|pain|painful|hospital|ambulance|doctor|first_aid|skin|blistering|blister|"
            "blisters"
        ),
        (
            "{burn} by|from|with|on|off hot|the|a|some|boiling? steam|hot_water|boiling_water|wax|hot_glue|hot_platen"
            "|hot_press"
        ),
        "me burn|burnt|burned|burns",
        (
            "{my} .. {body}|{soft} .. red|swollen|white|hurts|hurting|hurt|throbbing|sore .. after|from|on|touching|"
            "touched|since .. {m}|touching|touched"
        ),
    ),
    "cut": (
        "{cut} on|across|in|to {my} .. {body}|{soft}|forehead",
        "stepped|fell|sat|landed|kneeled .. on|in|onto|into .. glass|shards|shard|splinters",
        "{cut} {one} $|{body}|on|with|,|and|badly|bad|deep|by|!|open|really",
        "{cut} {my} .. {body}|{soft}",
        "{cut} {my}|the|a|two|into|through|in|of|open|off .. {body}|wrist|wrists|vein|artery",
        "{my} .. {body}|{soft} .. {cut}|{bleed}",
        (
            "{hand}|foot|leg|toe .. {bleed}|cut_open|cut_badly|cut_bad|cut_deep|cut_on|is_cut|got_cut|cut_by|cut_with"
            "|cut_from|sliced"
        ),
        "{hand} cut $|on|by|from|bad|badly|deep|,|and|open|with|glass",
        "{cut} {hand}",
        "{bleed} .. {hand}|foot|leg|finger|everywhere|head|nose",
        (
            "{who} .. bleeding|bleeds|bled|bleading $|badly|bad|heavily|lots|a_lot|from|now|everywhere|,|and|!|so|"
            "very|all|much|like|over|on|help|lot|still|quite"
        ),
        "ceaseless bleeding|bleed|blood",
        "bleeding|bleed|blood ceaseless",
        "^ bleeding badly|and|from|bad|!|a_lot",
        "bleeding heavily|badly|profusely|lots|everywhere|bad|a_lot|ceaseless|heavy",
        "{theres} blood $|!|everywhere|,|and",
        ("blood everywhere|coming|dripping|all_over|pouring|on_my|on_the|from|ceaseless|running|gushing|spurting|loss"),
        "lot|lots|so_much|much|losing|lost of? blood",
        "^ got? cut by .. glass|shard|shards|mug|tile|slate",
        "^ got? cut on broken",
        ("deep|bad|nasty|big|open|gaping cut|gash|wound|laceration $|in|on|from|to|,|and|!|bleeding|need|across|hand"),
        "{shard} .. in|into|under|stuck|through {my} .. {body}|{soft}|skin",
        "{shard} .. in|into|under {my}|the|a? {hand}|foot|toe",
        "shard|shards|splinters|glass|slivers .. everywhere|all_over|flying|on_the_floor|on_floor|hit_me",
        "{shard} flew .. face|eye|eyes|me|everywhere",
        (
            "{brittle} .. exploded|shattered|burst|bursted|explode|explodes|explodes_in|broke|smashed|blew_up .. face"
            "|hand|hands|{my}|fingers|everywhere|flew|shards|me|eyes|floor|pieces|bits"
        ),
        (
            "{brittle} .. exploded|exploding|explodes|explode .. in|on|under|inside|when .. press|oven|platen|"
            "pressing|hot"
        ),
        "exploded|shattered|burst .. {brittle} .. press|everywhere|face|hand|{my}",
        (
            "shattered|smashed|broken glass|tile|ceramic|mug|slate .. everywhere|all_over|floor|face|hand|{my}|flying"
            "|cut|inside_the_press|in_the_press|blood"
        ),
        "need|needs stitches|tourniquet",
        "stabbed|impaled|needle_in .. {body}|{one}",
    ),
    "press-will-not-open": (
        "{presses} is|got|has|gets|are|just|now|all? stuck|jammed|locked|seized|stucked $|!|help",
        "cant|couldnt open|lift|raise|release|unlock it $|anymore|now|!|,|and|any",
        "handle|lever|arm .. wont|doesnt|cant|not lift|open|raise|unlock|come_up|go_up|release",
        "{heats} .. up_and_up|higher_and_higher|hotter_and_hotter",
        "heats_and_heats",
        "{number} .. and|still rising|climbing|going_up",
        (
            "{presses}|lid|clamshell|top|swinger .. wont|doesnt|cant|isnt|not|never|wouldnt|refuses|dont|didnt|no|"
            "couldnt be|to|want|let|me|even|come|go|anymore|really? to|be|me? {open}|opening|opened|up|back_up $|,|up"
            "|and|now|anymore|any|after|with|at|when|what|how|again|itself|automatically|by|because|i|even|help|is|"
            "all|mug|shirt|from|the|its|my|without|on|still"
        ),
        (
            "cant|couldnt|wont|unable|cannot|not|no|impossible {open} the|my|up|this|it|again? {presses}|lid|"
            "clamshell|platen|upper"
        ),
        (
            "cant|couldnt|unable .. open|raise|lift|release|unlock the|my|it|this|up|heat? .. {presses}|lid|clamshell"
            "|platen"
        ),
        (
            "{presses}|lid|clamshell|platen .. stuck|jammed|locked|blocked|seized|frozen|stays|stayed|remains|jam|"
            "stucked .. shut|closed|down|close|at_the_bottom|locked|on_the"
        ),
        (
            "{presses}|lid|clamshell|platen is|got|has|gets|are|just|now? stuck|jammed|locked|blocked|seized closed|"
            "shut|down|with|on|,|and|hot|while|!|heating"
        ),
        "stuck the|my|this? {presses}|lid to? open|up",
        "^ stuck closed|shut|down $|,|and|!",
        "{presses}|lid|clamshell .. locked_up|seized_up|jammed_up",
        "{heats} ... still rising|climbing|getting_hotter|going_up",
        "stuck .. shut|closed|inside|in .. {presses} .. hot|burning|heating|cant|wont|open",
        (
            "{goods}|mug .. stuck|trapped|locked|jammed in|inside .. {presses} .. and|cant|wont|open|closed|locked|"
            "heating|hot|burning|shut"
        ),
        (
            "{m}|heat|temp|temperature|heating|it ceaseless heating|rising|climbing|getting|going|up|increasing|"
            "to_heat|heats|warming|to_rise|hot"
        ),
        "ceaseless heating|rising|climbing|to_heat|to_rise|getting_hotter|getting_hot",
        (
            "{heats} .. keeps|keep|kept|still|just|is|continues rising|climbing|going|getting|increasing|heating|on "
            "hotter|higher|up|past|over|above|beyond|without|uncontrollably|nonstop|,|$|heating|rising|climbing"
        ),
        (
            "{heats} .. goes|go|climbs|rises|went|gets|shoots|shot up? past|over|above|beyond|without .. stop|"
            "stopping|set|control|limit|max|{number}"
        ),
        "{m} .. keeps|keep|kept on? heating .. $|up|past|over|without|after|even|on|and|,|!|when|uncontrollably",
        "{heats} .. rising|climbing .. ceaseless|and rising|climbing",
        "{heats} .. rising|climbing|heating .. , ceaseless",
        "{heats} .. rising|climbing|heating .. ceaseless",
        "{heats} .. runaway|running_away|out_of_control|uncontrolled|uncontrollable",
        "thermal_runaway|thermostat_stuck|relay_stuck",
        (
            "{presses}|heat|heater|heating|platen|element|machine .. wont|doesnt|cant|isnt|not|never|dont|cannot|"
            "wouldnt|refuses switch|turn|turning|shut|go|power|be|to|switching? to|turn|switch|switched|turned|shut|"
            "itself? off|down"
        ),
        (
            "cant|couldnt|unable|cannot turn|switch|shut|power the|it|my|heat|heating|this|{presses}? {presses}|heat|"
            "heating|element? off|down"
        ),
        (
            "cant|couldnt|unable turn|switch|shut|power off|down the|it|my|heat|this? {presses}|heat|heating|element|"
            "it|$"
        ),
        "^ it|this|thing? wont|doesnt|cant|cannot turn|shut|switch|power itself? off|down",
        ", it|this wont|doesnt|cant turn|shut|switch|power itself? off|down",
        "it|this wont|doesnt turn|shut|switch|power off|down",
        "^ it|this? wont|doesnt|cant open|unlock $|anymore|and|,|!|up",
        (
            "power|off|emergency|stop|main|on button|switch .. doesnt|wont|isnt|not|does_nothing|broken|stuck .. "
            "heating|hot|off|stop|work|working .. heating|hot|heats|on|{presses}"
        ),
    ),
    "somebody-hurt": (
        "^ my|his|her hand|hands|finger|fingers|arm|thumb|eye|eyes|leg|foot !|$",
        "call|called|calling|need|needs|get|ring|phone|phoned|send .. ambulance|paramedic|paramedics|medic",
        (
            "need|needs|get|got_to|go|going|call|see .. doctor|hospital|first_aid|medical|first_aider|a_and_e|"
            "emergency_room"
        ),
        "wheres|where_is|need|get|got .. first_aid",
        (
            "{who} .. hurt|injured|wounded|injuried $|badly|bad|,|and|at|by|on|in|from|now|!|my|his|her|themselves|"
            "himself|herself|myself|himself|really"
        ),
        "{who} hurts|hurt|injured {my}|{one}",
        "^ hurt|injured {my}|{one} .. $|{body}|{soft}|badly|bad|on|with|,|back|in",
        "an|had|bad|terrible|serious|{theres}|there accident .. $|at|in|with|on|just|happened|press|here|now",
        (
            "{my} .. {body} .. hurts|hurting|hurt|swollen|numb|broken|throbbing .. $|bad|badly|like|so|a_lot|really|"
            "much|lot|hell|after|,|and|since"
        ),
        "^ ambulance|first_aid $|!|now|,|fast",
        "hes_dying|shes_dying|going_to_die",
    ),
}
# Where one of these words stands in the same sentence, it is something else that is told.
UNLESS: Mapping[str, str] = {
    "electric-shock": "price prices bill invoice cost costs quote postage expensive tax refund",
    "press-will-not-open": (
        "file files software app driver drivers program window windows settings bottle pdf door packet tin jar "
        "website page email enough fully wide light lights lamp beep beeper beeping alarm sound mirror printer screen"
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
            "please|pls|plz|omg|omfg|oh my god|oh god|oh no|no no no|no no|help|help help|help me|help us|aah+|argh+|"
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
        "(?:faint|sick|funny|ill|red|dry|raw|tight) (?:colou?rs?|lines?|prints?|image|marks?|design|shadow|copy|ghost"
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
    "(?:shop|job|workshop|burn|scar|place|house|workplace)|history|remember|remembered|since then|ever since|"
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
LONGEST_GAP = {"..": 3, "...": 7}
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
    whole = fold(taken(text))
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
    return not OWN.isdisjoint(own) or not _of_artwork(clause, own, after.split())


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
    """Whether it is a picture that shows it."""
    if not ARTWORK.isdisjoint(clause[-4:]):
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
    pattern = PATTERNS[danger][number]
    written = "".join(_written(element) for element in pattern.split())
    return re.compile(written if pattern.startswith("^") else f" {written}")


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

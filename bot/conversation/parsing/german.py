"""Puts what a German cook types beyond short replies into English: cuts, a whole set-up, deeds, questions, troubles.

Whole words and phrases only, in tidied spelling; a word that is English, too, is left alone unless its neighbours are
German. Names and figures stay as they were typed.
"""

from __future__ import annotations

import re

_CUTS = (
    ("ganzen?s? ?rinderbrust|ganze brust vom rind", "whole brisket"),
    ("(?:rinder)?brust[- ]flat|brisket[- ]flat", "brisket flat"),
    ("(?:rinder)?brust[- ]point|brisket[- ]point", "brisket point"),
    ("rinderbrüste", "briskets"),
    ("rinderbrust", "brisket"),
    ("(?:leitern?|stränge?|racks?) (?:beef )?short ribs(?: vom rind)?", "racks of beef short ribs"),
    ("short ribs vom rind|querrippe", "beef short ribs"),
    ("(?:leitern?|stränge?|racks?) plate ribs(?: vom rind)?", "racks of beef plate ribs"),
    ("plate ribs vom rind", "beef plate ribs"),
    ("rindernacken(?:braten)?", "chuck roast"),
    ("rinder(?:backen|bäckchen)|ochsenbäckchen", "beef cheeks"),
    ("bürgermeisterstücke?", "tri-tip"),
    ("hochrippen?", "prime rib"),
    ("lachsseiten?|seiten? lachs", "salmon side"),
    ("lammschultern?", "lamb shoulder"),
    ("lammkeulen?", "leg of lamb"),
    ("ganze schweineschultern?", "whole pork shoulder"),
    ("untere schweineschultern?", "picnic shoulder"),
    ("schweineschultern?|schweinenacken", "pork shoulder"),
    ("schweinekeulen?", "fresh ham"),
    ("(?:leitern?|stränge?|racks?) (?:spare ?ribs|schälrippen)", "racks of spareribs"),
    ("schälrippen|rippchen", "spareribs"),
    ("(?:leitern?|stränge?|racks?) baby[- ]back[- ]ribs", "racks of baby back ribs"),
    ("schweinebauch", "pork belly"),
    ("schweine(?:rücken|lachs)", "pork loin"),
    ("aufgeklappte?s? hähnchen|schmetterlingshähnchen", "spatchcock chicken"),
    ("hähnchenschenkel|hähnchenkeulen", "chicken thighs"),
    ("ganzes? (?:hähnchen|huhn)", "whole chicken"),
    ("hähnchen|hühnchen|hendl", "chicken"),
    ("putenbrust|truthahnbrust", "turkey breast"),
    ("ganze?r? (?:pute|truthahn)", "whole turkey"),
    ("pute|truthahn", "turkey"),
    ("ganze ente", "whole duck"),
    ("ente", "duck"),
    ("frische (?:brat)?würste?|bratwürste|bratwurst", "fresh sausages"),
)
"""What the cuts of the catalogue are called in German (bot/messages/locale/de) -> in English."""

_SET_UP = (
    ("(?:das )?(?:abend|mittag)?essen,? (?:wenn|sobald) (?:es )?fertig(?: ist)?", "dinner when ready"),
    ("(?:wenn|sobald) es fertig ist", "when ready"),
    (r"(?:abend|mittag)?essen (?:ist |gibt es |gibt's )?(?:um|ab|gegen) (?=\d)", "dinner at "),
    (r"(?:abend|mittag)?essen (?=(?:am |heute|morgen|mo|di|mi|do|fr|sa|so|\d))", "dinner "),
    (r"(?:das )?essen (?:eine|1) stunde später", "dinner an hour later"),
    (r"(?:das )?essen (?:eine|1) stunde früher", "dinner an hour earlier"),
    (r"(?:das )?essen (\d+) ?(?:min(?:uten)?) später", r"dinner \1 min later"),
    (r"(?:das )?essen (\d+) ?(?:min(?:uten)?) früher", r"dinner \1 min earlier"),
    (r"(\d{1,2})(?:[:.](\d\d))? ?uhr(?: (\d\d))?", "_clock_"),
    (r"um (?=\d{1,2}[:.]\d\d)", "at "),
    (r"(?:am )?(montag|dienstag|mittwoch|donnerstag|freitag|samstag|sonnabend|sonntag)", "_day_"),
    ("übermorgen", "in 2 days"),
    ("morgen (?:früh|mittag|abend)|(?<=dinner )morgen|morgen(?= (?:um|at|\\d))", "tomorrow"),
    ("heute(?: abend| mittag)?", "today"),
    (r"(\d+(?:[.,]\d+)?) ?pfund", "_pounds_"),
    (r"garraum (?:auf|jetzt auf|soll auf) (?=\d)", "pit to "),
    (r"(?:der )?(?:garraum|pit|grill|smoker)(?:temperatur)? (?:ist|hat|zeigt|bei|steht bei|liegt bei) (?=\d)", "pit "),
    (r"garraum(?=,? \d)", "pit"),
    (r"(?:die )?(?:kern(?:temperatur)?|das fleisch) (?:ist|hat|zeigt|bei|liegt bei) (?=\d)", "meat "),
    (r"kern(?:temperatur)?(?=,? \d)", "meat"),
    (r"fleisch(?=,? \d)", "meat"),
    (r"kühlschrank(?: hat| ist| zeigt)?(?=,? \d)", "fridge"),
    (r"reste(?=,? \d)", "leftovers"),
    (r"(?<=\d) bis (?=\d)", "-"),
    (r"für (\d+) (?:leute|personen|gäste)", r"for \1 people"),
    (r"(?<=\d) erwachsene", " adults"),
    (r"(?<=\d) kinder", " kids"),
    (r"kaltes? wetter|kalt draussen", "cold out"),
    (r"neuer garlauf", "new cook"),
    ("(?:es ist )?unbehandelt", "intact"),
    ("(?:keine|niemand)(?: gäste)? (?:ist |sind )?gefährdet(?:en gäste)?", "no guests at risk"),
    ("(?:eine )?(?:ist )?schwangere?", "pregnant"),
)

_WHOLE = (
    ("(?:der |den )?plan(?: bitte)?", "plan"),
    ("alle schritte", "all steps"),
    ("hilfe|was kannst du", "help"),
    (
        "(?:was (?:kommt|ist|passiert)(?: als)? nächstes|wie geht'?s? (?:es )?weiter|was nun|was jetzt|und jetzt)",
        "what next",
    ),
    ("(?:ist )?(?:es|das|das fleisch)(?: schon)? sicher|ist das fleisch sicher", "is it safe"),
    ("was (?:kann (?:ich|man)|können wir) (?:jetzt )?tun|was tun", "what can i do"),
    ("(?:nimm (?:das|es) )?zurück(?:nehmen)?", "undo"),
    ("wer ist (?:da|hier|dabei)", "who is here"),
    ("einladung|einladen", "invite"),
    ("warum|wieso|weshalb", "why"),
    ("(?:ist das |sind wir im )?plateau", "stall?"),
    ("(?:druck)?seite|ausdruck|drucken", "page"),
    ("kalender(?:datei)?", "calendar"),
    ("(?:temperatur)?protokoll", "record"),
    ("(?:garlauf )?absagen|garlauf abbrechen", "call it off"),
    ("andere pläne", "other plans"),
    ("jede[nr]? schritt", "every step"),
    ("(?:nur )?das übliche", "the usual"),
    ("nur entscheidungen", "only decisions"),
    ("(?:ist )?(?:erledigt|gemacht|getan)", "done"),
    ("alles (?:erledigt|gemacht|getan|fertig)", "all done"),
    ("fast (?:so ?weit|zart|weich)", "almost"),
    ("(?:es ist )?noch (?:fest|hart)", "still tight"),
    ("(?:es ist |immer )?noch zäh", "still tough"),
    ("gleitet (?:rein|hinein)", "slides in"),
    ("(?:das )?(?:fleisch|stück)?(?: ?ist)? ?(?:vom feuer|vom grill|runter|herunter|heruntergenommen)", "pulled"),
    ("(?:ist |liegt )?in der box", "boxed"),
    ("(?:kruste|rinde) (?:ist )?(?:jetzt )?fest", "bark set"),
    ("ausgewickelt|ausgepackt", "unwrapped"),
    ("(?:es |ist )?gesalzen", "salted"),
    ("(?:der )?rauch (?:ist )?(?:dünn|sauber|klar)", "smoke is thin"),
    ("(?:das )?feuer (?:ist |brennt|an)+|angezündet|(?:das )?feuer brennt", "lit"),
    ("allergien?", "allergies"),
    ("(?:es |das fleisch )?(?:liegt|ist) wieder (?:auf|drauf)", "back on"),
    ("(?:das )?(?:feuer )?brennt wieder", "relit"),
    ("(?:es war )?roh", "raw"),
    ("(?:es war )?gar", "done"),
    ("(?:ein )?anderes thermometer", "another thermometer"),
    ("(?:das )?thermometer stimmt", "the thermometer is right"),
    ("wie (?:üblich|sonst)", "as usual"),
    ("(?:in )?folie einwickeln|einwickeln in folie", "wrap foil"),
    ("gefährdete gäste", "guests at risk"),
    ("(?:mit )?kabel", "wire"),
    ("(?:das )?(?:mache? ich|meins|übernehme ich)|ich mache? (?:das|es)|ich kümmere? mich d(?:a)?rum", "mine"),
    ("(?:das ist )?nicht meins", "not mine"),
    ("(?:ich habe?|hab) (?:sie|es|die wache)|ich übernehme(?: die wache)?", "i have it"),
    ("wer hat (?:jetzt )?die wache", "who has the watch"),
    ("einladungen (?:löschen|zurückziehen|zurücknehmen)|nimm (?:die |alle )?einladungen zurück", "cancel invites"),
    ("(?:ton|weck)probe", "sound check"),
)
"""Meant so only as a whole text."""

_CREW = (
    (r"^(?:ich )?übernehme? die wache(?= (?:bis|until) )", "i have it"),
    (r"^lade? (?:eine?n? )?wache ein$", "invite a watch"),
    (r"^lade? (?:eine?n? )?(?:helfer(?:in)?) ein$", "invite a helper"),
    (r"^lade? (?:eine?n? )?gast ein$", "invite a guest"),
    (r"^lade? ([a-zäöüß][\w'-]+) als (?:die |den )?(?:wache) ein$", r"invite \1 as watch"),
    (r"^lade? ([a-zäöüß][\w'-]+) als (?:helfer(?:in)?) ein$", r"invite \1 as helper"),
    (r"^lade? ([a-zäöüß][\w'-]+) als (?:gastgeber(?:in)?) ein$", r"invite \1 as host"),
    (r"^lade? ([a-zäöüß][\w'-]+) als (?:gast) ein$", r"invite \1 as guest"),
    (r"^lade? ((?!als )[a-zäöüß][\w'-]+) ein$", r"invite \1"),
    ("(?<=[a-z]) ist (?:die )?wache$", " is watch"),
    (r"(?<=[a-z]) hat (?:sie|die wache)$", " has it"),
    ("^(?:übergib|gib) (?:die )?wache an (?=[a-z])", "hand over to "),
    ("(?<=[a-z]) ist (?:die )?feuerleitung", " is fire lead"),
    ("(?<=[a-z]) ist gastgeber(?:in)?", " is host"),
    ("(?<=[a-z]) ist helfer(?:in)?", " is helper"),
    ("(?<=[a-z]) ist gast", " is guest"),
)

_ASKED = (
    ("^auch (?=[a-z0-9])", "also "),
    ("^streiche? (?:die |das |den )(?=[a-z])", "drop the "),
    (r"warum (?=\d)", "why "),
    (r"(?<=[a-z]) bis (?=\d)", " until "),
    (r"ruhe(?:zeit)?(?: von)? (?=\d)", "quiet "),
    (r"(?:sei )?(\d\d) ?(?:%|prozent) sicher", r"be \1 % sure"),
    ("was,? wenn ", "what if "),
    ("(?:ruhen|rasten) im ofen bei ", "rest in the oven at "),
    ("wie ?viel (?=[a-z])", "how much "),
    (r"(?:liegt )?drauf (?:um|seit) (?=\d)", "on at "),
    (r"(?<=\d [cf]) draussen", " outside"),
    ("leitern", "racks"),
    (r"(?<=day )um (?=\d)", "at "),
    ("handthermometer", "hand thermometer"),
    ("kein(?:e?n?)? thermometer", "no thermometer"),
    (r"für (?=\d+[?]?$)", "for "),
)

_DEEDS = (
    ("(?:das )?fleisch (?:ist |liegt )?(?:jetzt )?(?:drauf|auf dem rost|auf dem grill|aufgelegt)", "meat on"),
    ("(?:das )?fleisch (?:liegt|ist) (?:jetzt )?auf(?= *(?:$|[,.!;]| (?:seit|um|at|since|now|jetzt)))", "meat on"),
    ("(?:in )?(?:alu)?folie (?:eingewickelt|eingepackt|gewickelt)|eingewickelt in (?:alu)?folie", "wrapped in foil"),
    ("(?:in )?papier (?:eingewickelt|eingepackt|gewickelt)|eingewickelt in papier", "wrapped in paper"),
    (
        (
            r"(?:ich )?(?:hab(?:e)? )?(?:grade?|gerade|eben)? ?(?:\d+|ein|eine|zwei|drei) (?:schaufeln?|eimer)"
            r"(?: (?:holz)?kohlen?| briketts)? (?:nachgelegt|drauf|rein)"
        ),
        "added charcoal",
    ),
    (r"(\d+(?:[.,]\d+)?) ?(?:kg|kilo) (?:holz)?kohlen? (?:nachgelegt|drauf)", r"added \1 kg of charcoal"),
    ("weggeworfen|entsorgt|in der tonne", "thrown away"),
    ("(?:es )?(?:ist )?weggestellt", "put away"),
    ("(?:essen )?(?:ist )?ausgegeben|serviert", "served"),
    ("geschnitten", "slicing"),
)

_TROUBLES = (
    ("(?:es regnet|regen)(?: stark| jetzt)?", "it's raining"),
    ("(?:starker wind|es ist windig|windig)", "windy"),
    ("gewitter|es blitzt|es donnert", "thunderstorm"),
    ("(?:die )?gäste (?:kommen|sind) (?:zu )?spät(?:er)?", "guests are late"),
    ("(?:die )?gäste (?:sind|kommen) (?:schon da|zu früh|früher)", "guests are early"),
    ("(?:das )?fett (?:brennt|hat feuer gefangen)|fettbrand", "grease fire"),
    ("(?:ich habe|hab) mich verbrannt|(?:eine )?verbrennung|hand verbrannt", "i burned myself"),
    ("(?:der )?(?:co|kohlenmonoxid|rauch)-?(?:melder|warner|alarm) (?:piept|geht(?: los| an)?|schlägt an)",
     "the carbon monoxide alarm goes off"),
    ("(?:das |der |die )?(haus|zaun|hecke|wiese|tisch|schuppen|zelt)(?: da)? brennt", "the fence is on fire"),
    ("(?<=[a-z]) hat sich (?:die hand |den arm |den finger )?verbrannt", " got burned"),
    ("ich habe mir (?:die hand|den arm|den finger) verbrannt", "i burned myself"),
    ("(?:er|sie|jemand|wir|ich) (?:bekommt|bekomme|bekommen|kriegt|kriege|kriegen) keine luft", "he can't breathe"),
    ("(?:jemand|ein gast|er|sie) ist (?:ohnmächtig|bewusstlos|umgekippt|zusammengebrochen)", "someone is unconscious"),
    ("(?:der )?grill (?:steht|ist) (?:jetzt )?(?:in der garage|im zelt|im haus|unter dem dach|drinnen)",
     "the grill is in the garage"),
    ("(?:spiritus|flüssiganzünder|benzin|grillanzünder) (?:ins|auf(?: das| die)?|in d(?:as|ie)) (?:feuer|kohlen?|glut)",
     "starter fluid on the fire"),
    ("blitze?", "lightning"),
    ("(?:ein |das )?kind(?:er)? (?:ist |sind |steht |stehen )?(?:am|beim|neben dem) grill", "a child is at the grill"),
    ("(?:der )?grill ist umgefallen", "the cooker fell over"),
    ("(?:ein )?gast ist (?:krank|schlecht)|(?:einem )?gast ist (?:schlecht|übel)", "a guest is ill"),
    ("kopfschmerzen|kopfweh", "headache"),
    ("(?:mir|uns|ihm|ihr) ist (?:schlecht|übel|schwindlig|schwindelig)", "i feel sick and dizzy"),
    ("(?:jemand|er|sie|ein gast) (?:erstickt|hat sich verschluckt)", "somebody is choking"),
    ("allergische reaktion|allergischer schock", "allergic reaction"),
    ("(?:der )?(?:garraum|pit|grill) (?:ist )?(?:viel )?zu heiss", "pit is too hot"),
    ("(?:der )?(?:garraum|pit|grill) (?:ist )?(?:viel )?zu kalt", "pit is too cold"),
    ("dicker rauch|weisser rauch", "thick smoke"),
    ("(?:das )?(?:fleisch|es) ist (?:mir )?(?:herunter|runter|hin)gefallen", "it fell on the ground"),
    (
        "(?:der )?deckel (?:war|stand|ist) (?:etwa |ca\\.? |gut |fast )*([0-9]{1,3})(?: min(?:uten)?)?(?: lang)? offen",
        r"the lid was open for \1 min",
    ),
    ("(?:der )?deckel (?:war |stand |ist )?offen", "the lid was open"),
    ("(?:der )?strom (?:ist )?(?:weg|aus)|stromausfall", "power cut"),
    ("flüssiganzünder (?:ins|auf das|auf) feuer", "starter fluid on the fire"),
)  # fmt: skip

_DAYS = {
    "montag": "monday", "dienstag": "tuesday", "mittwoch": "wednesday", "donnerstag": "thursday", "freitag": "friday",
    "samstag": "saturday", "sonnabend": "saturday", "sonntag": "sunday",
}  # fmt: skip
_LONG = str.maketrans({"ä": "(?:ae|a)", "ö": "(?:oe|o)", "ü": "(?:ue|u)", "ß": "ss"})
_KG_IN_A_PFUND = 0.5
"""A German pound is half a kilogram (common practice, no source)."""


def _phrase(pattern: str, said: str) -> tuple[re.Pattern[str], str]:
    start = r"(?<!\w)" if pattern[:3] != "(?<" else ""
    end = "" if (pattern.endswith((")", " ")) and "(?=" in pattern[-12:]) or said.endswith(" ") else r"(?!\w)"
    return re.compile(f"{start}(?:{pattern.translate(_LONG)}){end}"), said


_COMPILED = (
    *((re.compile(rf"^(?:{one.translate(_LONG)})(?=[?.! ]*$)"), said) for one, said in _WHOLE),
    *(_phrase(*pair) for pair in (*_TROUBLES, *_DEEDS, *_CUTS, *_SET_UP, *_CREW, *_ASKED)),
)


def from_german(heard: str) -> str:
    """Return a tidied text with German phrases in English; a text without any as it is."""
    for pattern, said in _COMPILED:
        heard = pattern.sub(_WORKED_OUT.get(said, said), heard)
    return heard


def _clock(found: re.Match[str]) -> str:
    return f"{found[1]}:{found[2] or found[3] or '00'}"


def _weekday(found: re.Match[str]) -> str:
    return _DAYS[found[1]]


def _pounds(found: re.Match[str]) -> str:
    return f"{float(found[1].replace(',', '.')) * _KG_IN_A_PFUND:g} kg"


_WORKED_OUT = {"_clock_": _clock, "_day_": _weekday, "_pounds_": _pounds}

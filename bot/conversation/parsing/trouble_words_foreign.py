"""How people shout of danger in German, Spanish and French: on the text as it was typed, without accents.

Short forms only; a near relative that is about meat is no danger. Patterns, nothing else.
"""

from __future__ import annotations

import re
import unicodedata

from bot.conversation.parsing.telling import Telling
from bot.conversation.parsing.words import phrases

_MEAT = (
    r"\b(?:fleisch|brust|rippchen|rippen|steaks?|wurst|wurste|hahnchen|kruste|zucker|holz|kohlen?|sonde|fuhler"
    r"|deckel|zange"
    r"|kabel|carne|costillas?|pollo|lena|viande|poulet|cotes|saucisses?|croute)\b"
)
_NO = r"\b(?:kein(?:e|en)?|nicht|niemand|nie|nadie|sin|ningun\w*|pas de|personne|jamais)\b"
_GRILL = r"(?:grill|smoker|kugel|feuer|glut|tonne|kohlen?|feuerschale)"
_DACH = (
    r"(?:garage|zelt|vorzelt|carport|schuppen|keller|wintergarten|pavillon|laube|hutte|haus|kuche|wohnwagen|scheune"
    r"|zimmer"
    r"|veranda|gartenhaus)"
)
_DER = r"(?:der |die |das |dem |den |einer |einem |eine |ein |unser\w* |mein\w* |ne |ner |nem )?"
_HAUS = r"(?:haus|hutte|laube|schuppen|garage|dach|kuche|zelt|scheune|wohnwagen|auto|gartenhaus|carport|zimmer|vorhang)"
_DRAUSSEN = r"(?:zaun|hecke|wiese|rasen|tisch|baum|busch|terrasse|stroh|gras|alles|feld|bank)"
_TECHO = r"(?:garaje|carpa|tienda|cobertizo|casa|cocina|cochera|caravana)"
_TOIT = r"(?:garage|tente|maison|cuisine|cabane|abri|veranda|caravane)"

FOREIGN: tuple[Telling, ...] = (
    Telling(
        what="burn_severe",
        says=phrases(
            r"\bin (?:die|das|den) (?:\w+ )?(?:glut|kohlen?|feuer|grill|flammen) (?:gefallen|gesturzt|gefasst"
            r"|getreten)\b",
            r"\b(?:kleider|kleidung|haare?|armel|hose|jacke|hemd|schurze) brenn(?:t|en)\b|\bpullover brennt\b",
            r"\bca(?:yo|ido|i) (?:en|a|al) (?:las |el |la |los )?(?:brasas|fuego|carbon|carbones|parrilla)\b",
            r"\btombee? dans (?:les |le |la )?(?:braises|feu|charbon|barbecue)\b",
        ),
        unless=phrases(_MEAT + r"(?=.*(?:gefallen|gefasst|cayo|caido|tombe))", _NO),
    ),
    Telling(
        what="collapsed",
        says=phrases(
            r"\bbewusstlos\b|\bohnmachtig\b|\bzusammengebrochen\b|\batmet (?:nicht|kaum)\b|\bherzinfarkt\b"
            r"|\bschlaganfall\b",
            r"\b(?:gast|er|sie|jemand|kind|oma|opa|mama|papa) (?:ist )?(?:einfach )?umgekippt\b",
            r"\binconsciente\b|\bdesmay\w+\b|\bno respira\b|\binfarto\b",
            r"\bevanouie?\b|\binconsciente?\b|\bne respire (?:pas|plus)\b|\bcrise cardiaque\b",
        ),
    ),
    Telling(
        what="cut",
        says=phrases(
            r"\b(?:sich|mich|mir)\b(?: \w+){0,5} geschnitten\b|\bin (?:den|die) (?:finger|daumen|hand) geschnitten\b",
            r"\bblutet\b",
            r"\b(?:me|se) (?:he |ha )?cort(?:e|o|ado) (?:el |la |un |los )?(?:dedos?|mano|brazo|pulgar)\b"
            r"|\bsangra\w*\b",
            r"\bcoupee? (?:le |la |au |un )?(?:doigt|main|pouce|bras)\b|\bsaigne\b",
        ),
        unless=phrases(_MEAT, _NO),
    ),
    Telling(
        what="burn",
        says=phrases(
            r"\b(?:sich|mich|mir|hand|finger|arm|fuss|gesicht|kind|er|sie)\b(?: \w+){0,6} verbr(?:annt|uht)\b",
            r"\bverbr(?:annt|uht)\b.*\b(?:hand|finger|arm|mich|sich)\b|\bbrand(?:wunde|blasen?)\b|\bverbrennung\b",
            r"\bme (?:he )?quem(?:e|ado)\b|\bquem(?:o|ado) (?:la mano|el brazo|un dedo|los dedos|el dedo|la cara"
            r"|el pie)\b"
            r"|\b(?:nin[oa]|alguien) se (?:ha )?quem\w+\b|\bquemadura\b",
            r"\b(?:s'est|me suis|m'est) brul\w+\b|\bbrulure\b",
        ),
        unless=phrases(_NO, r"\b(?:fleisch|brust|kruste|rippchen|wurst\w*) (?:\w+ ){0,2}verbrannt\b"),
    ),
    Telling(
        what="guest_ill",
        says=phrases(
            r"\bubergibt sich\b|\berbricht\b|\bsich ubergeben\b|\bkotzt\b|\berbrochen\b|\bbrechdurchfall\b",
            r"\bvomit(?:a|an|ando|o|ado|e|ent)\b|\bintoxicacion\b|\bintoxication\b",
        ),
        unless=phrases(_NO),
    ),
    Telling(
        what="choking",
        says=phrases(
            r"\b(?:er|sie|es)stick(?:t|en)\b|\bhat sich verschluckt\b|\bse (?:esta )?(?:ahoga|ahogando|atragant\w+)\b"
            r"|\bs'etouffe\b"
        ),
        unless=phrases(r"\b(?:feuer|glut|flammen?|fuego|feu)\b", _NO),
    ),
    Telling(
        what="co_symptom",
        says=phrases(
            r"\bkopf(?:weh|schmerz(?:en)?)\b|\bschwind(?:e?lig|el)\b|\bmir (?:ist|wird) (?:\w+ )?(?:schlecht|ubel"
            r"|komisch)\b"
            r"|\bbenommen\b",
            r"\bdolor de cabeza\b|\bme duele la cabeza\b|\bmaread[oa]s?\b|\bmareos?\b|\bnauseas\b",
            r"\bmal a la tete\b|\bvertiges?\b|\bnausees?\b|\betourdie?\b",
            r"\b(?:kohlen)?monoxid\w*\b|\bco[- ]?melder\b|\bmonoxido\b|\bmonoxyde\b",
        ),
        unless=phrases(_NO),
    ),
    Telling(
        what="gas_smell",
        says=phrases(
            r"\b(?:gasgeruch|gasleck)\b|\briech(?:t|e)\b(?: \w+){0,3} gas\b|\bgas (?:tritt aus|stromt aus|riecht)\b"
            r"|\bgasflasche (?:brennt|zischt|leckt)\b",
            r"\bhuele a gas\b|\bolor a gas\b|\bfuga de gas\b",
            r"\b(?:sent|odeur de|fuite de) (?:le )?gaz\b",
        ),
        unless=phrases(_NO),
    ),
    Telling(
        what="building_fire",
        says=phrases(
            rf"\b{_HAUS} (?:\w+ )?brennt\b|\bbrennt (?:das |die |der )?{_HAUS}\b|\b{_HAUS} (?:steht )?in (?:flammen"
            rf"|brand)\b",
            r"\brauch (?:\w+ )?(?:im|in der|in dem) (?:haus|kuche|zimmer|zelt|garage|wohnung)\b|\bhausbrand\b",
            r"\b(?:casa|cabana|cobertizo|garaje|cocina|tejado|carpa)\b.*\b(?:se quema|arde|en llamas|en fuego)\b"
            r"|\b(?:arde|se quema) (?:la|el) (?:casa|cabana|cobertizo|garaje|cocina|tejado)\b|\bhumo en (?:la"
            r"|el) (?:casa|cocina)\b",
            r"\b(?:maison|cabane|garage|cuisine|toit|tente)\b.*\b(?:brule|en feu|prend feu|en flammes)\b"
            r"|\bfumee dans (?:la|le) (?:maison|cuisine|garage)\b",
        ),
        unless=phrases(_NO),
    ),
    Telling(
        what="fire_spreads",
        says=phrases(
            rf"\b{_DRAUSSEN} (?:\w+ )?brennt\b|\bbrennt (?:der |die |das )?{_DRAUSSEN}\b|\bfeuer breitet sich aus\b",
            r"\b(?:valla|seto|arbol|cesped|mesa|hierba|todo)\b.*\b(?:se quema|arde|en llamas)\b",
            r"\b(?:haie|cloture|arbre|herbe|table)\b.*\b(?:brule|en feu|prend feu)\b",
        ),
        unless=phrases(_NO),
    ),
    Telling(
        what="cooker_moving",
        says=phrases(
            rf"\b(?:stelle?n?|schiebe?n?|bringe?n?|trage?n?|rolle?n?|ziehe?n?|holen?)\b(?: \w+){{0,4}} (?:in"
            rf"|unter) {_DER}{_DACH}\b",
            rf"\b{_GRILL}\b(?: \w+){{0,3}} (?:in|unter) {_DER}{_DACH} (?:stellen|schieben|bringen|tragen|rollen"
            rf"|ziehen|holen)\b",
        ),
        unless=phrases(_NO, r"\b(?:fleisch|brust|rippchen|reste|salat|bier|box|getranke)\b|\baus (?:der|dem)\b"),
    ),
    Telling(
        what="cooker_indoors",
        says=phrases(
            rf"\b{_GRILL}\b(?: \w+){{0,4}} (?:in|im|unter|unterm) {_DER}{_DACH}\b",
            rf"\b(?:steht|ist|stehen|brennt)\b(?: \w+){{0,3}} (?:in|im|unter|unterm) {_DER}(?:garage|schuppen|zelt"
            rf"|carport|laube"
            r"|keller|wintergarten|pavillon|gartenhaus)\b",
            rf"\b(?:parrilla|barbacoa|asador|ahumador|brasas|carbon)\b.*\b(?:en|dentro de|dentro del) (?:el |la "
            rf"|una? )?{_TECHO}\b",
            rf"\b(?:barbecue|fumoir|braises|charbon)\b.*\b(?:dans|sous) (?:le |la |l'|une? )?{_TOIT}\b",
        ),
        unless=phrases(_NO, r"\b(?:draussen|neben|vor|hinter|fuera|dehors|aus)\b"),
    ),
    Telling(
        what="children_near",
        says=phrases(
            r"\bkind(?:er)? (?:\w+ ){0,3}(?:am|beim|an|neben|nah\w*|ums|um) (?:dem |den |der |das )?(?:feuer|grill"
            r"|smoker|glut)\b",
            r"\bnin[oa]s? (?:\w+ ){0,4}(?:fuego|parrilla|brasas|barbacoa)\b",
            r"\benfants? (?:\w+ ){0,4}(?:feu|barbecue|braises)\b",
        ),
        unless=phrases(_NO),
    ),
    Telling(
        what="danger_unclear",
        says=phrases(
            r"^\W*(?:hilfe\W+)?(?:feuer|es brennt|brand|fuego|incendio|au feu|notfall|emergencia|urgence)\b"
            r"(?:feuer|es brennt|hilfe|fuego|ayuda|schnell|\W)*$",
            r"\b(?:ruf|hol|brauch|alarmier)\w*\b.*\b(?:feuerwehr|krankenwagen|notarzt|rettung|notruf)\b"
            r"|^\W*(?:krankenwagen|notarzt)\b",
            r"\b(?:llama|necesit)\w*\b.*\b(?:ambulancia|bomberos|112)\b|\bappel\w*\b.*\b(?:pompiers|samu|ambulance"
            r"|112)\b",
            r"\b(?:schwer )?verletzt\b|\b(?:esta )?herid[oa]\b|\best blessee?\b",
        ),
        unless=phrases(_NO),
    ),
)  # fmt: skip
"""People first, as in English."""

_ONLY_FLAMES = re.compile(r"^[\s!\u203c\u2757\ufe0f]*(?:[\U0001f525\U0001f198][\s!\u203c\u2757\ufe0f]*){2,}$")


def plain(text: str) -> str:
    """Return a text in small letters without accents, its words as they were typed."""
    apart = unicodedata.normalize("NFKD", text.casefold().replace("\u2019", "'"))
    return " ".join("".join(one for one in apart if unicodedata.category(one) != "Mn").split())


def only_flames(text: str) -> bool:
    """Return whether a text is two flames or calls for help in signs, and nothing else."""
    return bool(_ONLY_FLAMES.match(text))

"""Puts the usual short replies in German, Spanish and French into the English words that the other readers know.

Whole phrases only, in tidied spelling (no accents); names, cuts and figures stay as they were typed.
"""

from __future__ import annotations

import re
from functools import partial

_HOURS = dict(
    zip(
        ["eins", "zwei", "drei", "vier", "funf", "sechs", "sieben", "acht", "neun", "zehn", "elf", "zwolf"],
        range(1, 13),
        strict=True,
    )
)
_HOUR = "|".join([*_HOURS, "[0-9]{1,2}"])

_GERMAN = (
    (r"^(?:jo|jep|jup|jawohl|joa)[, ]+", "yes "),
    (r"\bhat(?:'?s| es) (?:schon )?(?:gemacht|erledigt)\b", "did it"),
    (r"\b(?:viel )?zu heiss\b", "way too hot"),
    (r"\b(?:viel )?zu kalt\b", "too cold"),
    (r"\b(?:fallt|zerfallt)(?: fast| ganz)?(?: auseinander)?\b", "falls apart"),
    (r"^(?:ich )?ubernehme?(?: jetzt)?\b|^(?:ich )?hab'?s(?= (?:bis|until)\b)", "i have it"),
    (r"\bes brennt\b", "it is on fire"),
    (r"^(?:ja[, ]+)?(?:das |die |es )?(?:reicht|langt)(?: noch| locker| dicke| schon| gut)*$", "yes enough"),
    (r"\b(?:gib|gebt) (?:mir|uns)(?: noch)?(?= [0-9])", "gimme"),
    (r"\bnicht (?=[0-9])", "not "),
    (r"\bsondern\b", "but"),
    (
        r"\b(?:morgen (?:weiter(?:machen)?|fertig (?:machen|grillen))|(?:auf )?morgen verschieben)\b",
        "finish it tomorrow",
    ),
    (r"\bin den kuhlschrank\b", "in the fridge"),
    (
        (
            r"^(?:pausa|pause)$|\b(?:pausieren|pause machen|kurz anhalten|hacer (?:una )?pausa|faire (?:une"
            r" )?pause)\b"
        ),
        "pause it",
    ),
    (r"\b(?:immer noch|noch immer)\b", "still"),
    (
        (
            r"\b(?:gib (?:mir|ihm|uns|dem ganzen) )?noch(?:mals?| ?mal| einmal|'?ne?| (?:so|etwa|ca\.?|gut|rund|'?ne?"
            r"|eine|weitere|mindestens))+"
            r" (?=[0-9]{1,3} ?min|[0-9]{1,2} ?(?:h|stunden?|std)\b|viertelstunde|halbe stunde|stunde\b|half an hour)"
        ),
        "noch ",
    ),
    (r"\b(?:unverandert|keine (?:ver)?anderung|hat sich (?:nicht|nix) (?:bewegt|verandert|getan))\b", "no change"),
    (r"^(?:gleich(?: wie)? (?:vorher|eben)|wie (?:vorher|eben)|gleich geblieben)$", "same"),
    (r"^(?:ich |mach |mache |komm |kommt |bin |das )*gleich(?: da| soweit| so weit)?$", "in a bit"),
    (r"^(?:(?:ein|einen) )?(?:moment|augenblick|sekunde)(?: mal| bitte)?$", "one moment"),
    (r"^warte?(?: mal| kurz)?$", "wait"),
    (r"^(?:mach ich |mache ich )?spater$", "later"),
    (
        (
            r"\b(?:jetzt|gerade|grade|grad|momentan) nicht\b|\b(?:geht|kann) (?:jetzt|gerade|grade|grad) nicht\b"
            r"|\bkeine hand frei\b|\bhande (?:sind )?(?:voll|dreckig|fettig|schmutzig)\b"
        ),
        "not now",
    ),
    (r"\b(?:bin am fahren|fahre (?:gerade|grade|grad)|am steuer)\b", "driving"),
    (r"\bkeine anzeige\b|\b(?:anzeige|display) (?:ist )?(?:tot|aus|leer|schwarz|kaputt)\b", "display is dead"),
    (r"\b(?:thermometer|fuhler|sonde)(?: ist| sind)? (?:kaputt|tot|defekt|hin|hinuber)\b", "probe is dead"),
    (r"\b(?:fuhler|sonde)(?: ist)? (?:raus ?gefallen|raus ?gerutscht|herausgefallen)\b", "probe fell out"),
    (r"\b(?:fuhler|temperaturfuhler)\b", "probe"),
    (r"\bvor (?:einer|ner|1) (?:guten )?(halben|viertel|dreiviertel)? ?stunde\b", "_ago_"),
    (r"\bin (?:einer|ner) (halben|viertel|dreiviertel)? ?stunde\b", "_in_"),
    (r"\b(?:uberspring(?:en|e)|auslassen|lass (?:es |das )?(?:mal|aus|weg|sein)|diesmal nicht)\b", "skip"),
    (
        r"\b(?:frag(?:t|e)? (?:mich |mir )?(?:bitte )?nicht mehr|hor auf zu fragen|nicht mehr fragen|nerv nicht)\b",
        "stop asking",
    ),
    (r"\bholz(?:stucke)? (?:ist |sind |hab(?:e)? ich )?(?:drauf|drin|nachgelegt|rein)\b", "wood added"),
    (
        r"\b(?:kohlen?|briketts) (?:ist |sind |hab(?:e)? ich )?(?:nachgelegt|drauf|nachgefullt|aufgefullt)\b",
        "added charcoal",
    ),
    (r"\bwasser(?:schale|pfanne)? (?:ist )?(?:nachgefullt|aufgefullt|gefullt|voll)\b", "filled the water pan"),
    (r"\b(?:eingespruht|bespruht|gespruht|eingesprayt)\b", "spritzed"),
    (
        r"\b(?:die |das )?(?:glut|feuer|kohlen?)(?: ist| sind)? (?:aus|erloschen|tot|ausgegangen|kalt)\b(?! wind)",
        "fire is out",
    ),
    (
        (
            r"\b(?:kohlen?|briketts?|brennstoff)(?: ist| sind)? (?:alle|leer|weg)\b|\bkeine (?:kohlen?|briketts)"
            r" (?:mehr|da)\b"
        ),
        "out of charcoal",
    ),
    (r"\b(?:kaum noch|fast keine|wenig|kaum) (?:kohlen?|glut|briketts)\b", "low on charcoal"),
    (r"\b(?:zu|noch) blass\b|^blass$", "still pale"),
    (r"\b(?:kruste|bark) (?:sitzt|passt|ist (?:fest|gut|da)|steht)\b", "bark is set"),
    (r"\b(?:kruste|bark)(?: ist)? (?:noch |zu )?weich\b", "still soft"),
    (r"\b(?:butterweich|(?:weich )?wie butter|ganz weich|butterzart)\b", "like butter"),
    (r"^fast (?:fertig|soweit|so weit|da|durch)$", "almost"),
    (r"^(?:und )?wann (?:essen wir|gibt'?s (?:essen|was)|ist (?:es|das essen|das fleisch) fertig)\b", "when do we eat"),
    (r"^wie lange?(?: dauert(?: es| das)?)? noch\b", "how long"),
    (r"^(?:ist (?:das|es) (?:noch )?(?:sicher|ok|gut)|kann man (?:das|es) (?:noch )?essen)\b", "is it safe"),
    (r"^(?:und )?(?:was (?:kommt |ist )?als nachstes|was (?:jetzt|nun)|und jetzt|wie geht'?s weiter)$", "what's next"),
    (r"^(?:mach(?:e)? (?:das|es) )?ruckgangig(?: machen)?$|^storn(?:o|iere(?: das)?|ieren)$", "undo"),
    (r"^(?:bitte )?(?:vergiss|losch(?:e)?|ignorier(?:e)?|streich(?:e)?) (?:das|es)(?: wieder| bitte)?$", "ignore that"),
    (r"\b(?:ich meinte|ich wollte sagen|ich meine)\b|^meinte\b", "i meant"),
    (r"\b(?:entschuldigung|tschuldigung|tut mir leid)\b", "sorry"),
    (r"\b(?:verschrieben|vertippt|tippfehler)\b", "typo"),
    (r"\bdas war (?:der |die |das )?(?:garraum|grill|pit|ofen|deckel)(?:temperatur)?\b", "that was the pit"),
    (r"\bdas war (?:der |die |das )?(?:fleisch|kern|kerntemperatur)\b", "that was the meat"),
    (r"\b(?:ich (?:ubernehme?|hab'?s|habe? (?:es|die wache|wache))|meine wache)\b(?: jetzt)?", "i have it"),
    (r"\b(?:ubernimmt|hat die wache|hat'?s)\b(?: jetzt)?", "takes over"),
    (r"\b(?:ich )?(?:geh|gehe) (?:jetzt )?(?:ins bett|schlafen|pennen)\b", "going to bed"),
    (r"(?<=i have it) bis|(?<=takes over) bis", " until"),
    (r"^gute nacht\b", "good night"),
    (r"\b(?:die )?gaste\b", "guests"),
    (r"(?<=guests) (?:kommen|sind) (?P<n>.+?) (?:zu )?spat(?:er)?\b", r" are \g<n> late"),
    (rf"\bviertel vor (?P<h>{_HOUR})\b", "_quarter to_"),
    (rf"\bviertel nach (?P<h>{_HOUR})\b", "_quarter past_"),
    (rf"\b(?P<lead>um|halb|gegen|seit|bis|ab) (?P<h>{'|'.join(_HOURS)})\b", "_hour_"),
    (r"^(?:jep|jo|jup|jawohl|jawoll|jau|klar|passt)$", "yes"),
    (r"^(?:nee|ne|noe)$", "no"),
    (r"^(?:gerade eben|eben gerade|grad eben|soeben|vorhin|eben)(?: gemacht| erledigt)?$", "done just now"),
    (r"\balles klar\b", "ok"),
    (r"^(?:nein|non),? (?=[0-9])", "no "),
    (r"\b(?:schon|bereits) (?:gemacht|erledigt|passiert)\b", "already done"),
    (r"\bhabe? ich (?:schon|bereits|gemacht|erledigt|grad(?:e)?)(?: gemacht| erledigt)?\b", "already done"),
    (r"\bist (?:gemacht|erledigt|passiert)\b", "done"),
    (r"\b(?P<n>[0-9]+) minuten (?:langer|mehr|zusatzlich)\b", r"\g<n> minutes more"),
)
_SPANISH = (
    (r"^(?:ahora |ya )?voy$", "on my way"),
    (r"^no todavia\b", "not yet"),
    (r"\bdame(?= [0-9])", "gimme"),
    (r"\bse (?:deshace|desarma|cae a pedazos)\b", "falls apart"),
    (r"\bse disparo(?: a)?\b", "shot up to"),
    (r"\b(?:terminamos|seguimos|lo dejamos para) manana\b", "finish it tomorrow"),
    (r"\b(?:a|en) la nevera\b", "in the fridge"),
    (r"\bsino\b", "but"),
    (r"^(?:no )?(?:hace|hara) falta$|^no hace falta\b", "no need"),
    (r"\b(?:sigue|siguen|todavia|aun)(?: en| a)?(?= [0-9])", "still"),
    (r"^(?:sin cambios?|igual(?: que antes)?|no ha cambiado|lo mismo|sigue igual)$", "no change"),
    (r"^(?:un (?:momento|momentito|segundo|minuto|rato|ratito)|en un (?:rato|momento)|ahorita|espera(?:te)?)$", "wait"),
    (r"^(?:ahorita|ahora|luego|despues|enseguida|ya) (?:lo|la) hago$|^enseguida$", "in a bit"),
    (r"\b(?:ahora no(?: puedo)?|no puedo(?: ahora)?|manos (?:ocupadas|sucias|llenas))\b", "not now"),
    (r"\bya (?:esta(?: hecho)?|lo hice|hecho|quedo)\b|^(?:esta hecho|hecho ya|lo hice)$", "done"),
    (r"\ba las? (?P<h>[0-9]{1,2}) y media\b", r"at \g<h>:30"),
    (r"\ba las? (?P<h>[0-9]{1,2}) y cuarto\b", r"at \g<h>:15"),
    (r"\b(?:a las? )?(?P<h>[0-9]{1,2}) menos cuarto\b", r"at quarter to \g<h>"),
    (r"\ba la 1\b", "at 1"),
    (r"\b(?P<n>[0-9]+) minutos? mas\b|\b(?:otros|faltan) (?P<m>[0-9]+) minutos?\b", "_more_"),
    (
        r"\b(?:no (?:queda|hay|tengo)(?: mas)?|sin|se (?:acabo|termino)(?: el)?) (?:carbon|combustible)\b",
        "out of charcoal",
    ),
    (
        r"\b(?:se )?(?:apago|ha apagado|murio) (?:el )?fuego\b|\b(?:el )?fuego (?:se |esta )?(?:apago|apagado|murio)\b",
        "fire is out",
    ),
    (
        r"\b(?:lena|madera) (?:puesta|anadida|echada)\b|\b(?:puse|anadi|eche) (?:la |mas )?(?:lena|madera)\b",
        "wood added",
    ),
    (r"\b(?:rocie|rociad[oa]s?|pulverice)\b", "spritzed"),
    (r"\bcomo (?:la )?mantequilla\b", "like butter"),
    (r"^(?:y )?(?:cuanto (?:falta|queda|tiempo)|cuando (?:comemos|estara)|a que hora comemos)\b", "how long"),
    (r"^(?:es seguro|se puede comer|esta bien para comer)\b", "is it safe"),
    (r"^(?:y ahora(?: que)?|que sigue|ahora que|que hago ahora)$", "what's next"),
    (r"^(?:deshaz|deshacer)(?: eso)?$", "undo"),
    (r"^(?:olvida|borra|ignora|quita|elimina)(?:lo)?(?: eso)?$", "ignore that"),
    (r"^(?:perdon(?:a)?|lo siento|disculpa)\b", "sorry"),
    (r"\b(?:quise|queria) decir\b", "i meant"),
    (r"\b(?:(?:todavia|aun) )?(?:le|les) falta(?: un poco| poco)?\b", "not yet"),
    (r"\bera el ahumador\b|\beso era (?:el |la )?(?:ahumador|parrilla|grill)\b", "that was the pit"),
    (r"\b(?:no preguntes mas|deja de preguntar|no me preguntes(?: mas)?)\b", "stop asking"),
    (r"^(?:salta(?:r|lo|la)?|omite|esta vez no|paso)$", "skip"),
    (r"\bme voy a (?:dormir|la cama|acostar)\b", "going to bed"),
    (r"\b(?:lo tiene|se encarga|toma el relevo)\b", "has it"),
    (r"\b(?:lo tengo(?: yo)?|yo me encargo|me encargo(?: yo)?)\b", "i have it"),
    (r"\bhasta las? (?=[0-9])", "until "),
    (r"\b(?:termometro|sonda) (?:esta )?(?:rot[oa]|muert[oa]|no (?:funciona|va|marca))\b", "probe is dead"),
    (r"\bsonda\b", "probe"),
    (r"\b(?:en el papel|en papel)\b", "in paper"),
)
_FRENCH = (
    (r"^encore pas\b", "not yet"),
    (r"^j'arrive$|^j'y vais$", "on my way"),
    (r"\bdonne[sz]?[- ]moi(?= [0-9])", "gimme"),
    (r"^pret(?:es?)?(?=,|$)", "done"),
    (r"^(?:plus|pas) la peine$", "no need"),
    (r"\b(?:ca )?(?:glisse|rentre|entre) tout(?:e)? seule?\b", "slides right in"),
    (r"\bau (?:frigo|refrigerateur)\b", "in the fridge"),
    (r"\b(?:on finit|on continue|finir) demain\b", "finish it tomorrow"),
    (r"\btoujours(?: a)?(?= [0-9])|\bencore(?: a)(?= [0-9])", "still"),
    (
        r"^(?:pas de changement|pareil|inchangee?|comme avant|ca n'a pas bouge|(?:toujours )?la meme chose)$",
        "no change",
    ),
    (r"^(?:un instant|une (?:minute|seconde)|attends?(?: un peu)?|bientot|tout a l'heure)$", "wait"),
    (
        r"\bpas maintenant\b|\bje (?:ne )?peux pas(?: maintenant)?\b|\bmains (?:pleines|sales|occupees|grasses)\b",
        "not now",
    ),
    (r"^(?:c'est|cest) (?:bon|fait|ok)$|^deja fait$", "done"),
    (r"\b(?:j'ai |y a |il y a |il n'y a )?plus de (?:charbon|combustible)\b", "out of charcoal"),
    (r"\b(?:le )?feu (?:est |s'est )?(?:eteint|mort)\b", "fire is out"),
    (
        r"\bbois (?:ajoute|mis|remis)\b|\b(?:j'ai )?(?:ajoute|remis|mis) (?:du |le )?bois\b",
        "wood added",
    ),
    (r"\b(?:vaporise|pulverise|asperge)\b", "spritzed"),
    (r"\bcomme (?:du |dans du )?beurre\b", "like butter"),
    (r"^(?:combien de temps(?: encore)?|dans combien de temps|c'est pret quand)\b", "how long"),
    (r"^(?:on mange quand|quand est-ce qu'on mange|quand mange-t-on|a quelle heure on mange)\b", "when do we eat"),
    (
        r"^(?:est-ce que c'est (?:sur|sans danger|bon)|c'est (?:sur|sans danger) ?(?=\?)|on peut (?:le )?manger)",
        "is it safe",
    ),
    (r"^(?:et maintenant|la suite|et apres)$", "what's next"),
    (r"^annule(?:r|z)?(?: ca| cela)?$", "undo"),
    (r"^(?:oublie|efface|supprime|ignore) (?:ca|cela)$", "ignore that"),
    (r"^(?:pardon|desolee?)\b", "sorry"),
    (r"\bje voulais dire\b", "i meant"),
    (r"\bc'etait (?:le )?(?:fumoir|grill|four)\b", "that was the pit"),
    (r"\b(?:arrete de (?:me )?demander|ne (?:me )?demande plus|demande plus)\b", "stop asking"),
    (r"^(?:saute(?: ca)?|laisse tomber|pas cette fois)$", "skip"),
    (r"\bje vais (?:me coucher|au lit|dormir)\b", "going to bed"),
    (r"\b(?:prend le relais|s'en occupe|prend la garde)\b", "takes over"),
    (r"\b(?:je (?:le |la )?prends(?: le relais)?|je m'en occupe|j'ai la garde|c'est moi)\b", "i have it"),
    (r"\bjusqu'a (?=[0-9])", "until "),
    (r"\b(?:thermometre|sonde) (?:est )?(?:cassee?|morte?|hs|en panne|ne marche (?:pas|plus))\b", "probe is dead"),
    (r"\bsonde\b", "probe"),
    (r"\b(?P<n>[0-9]+) minutes? de plus\b", r"\g<n> minutes more"),
)
_COMPILED = tuple((re.compile(pattern), said) for pattern, said in (*_GERMAN, *_SPANISH, *_FRENCH))
_FOREIGN = re.compile(
    r"\b(?:pausa|pause|jup|joa|heiss|kalt|fallt|zerfallt|ubernehme?|brennt|sondern|morgen|kuhlschrank|pausieren"
    r"|anhalten|voy"
    r"|deshace|desarma|pedazos|disparo|manana|nevera|sino|j'arrive|vais|peine|glisse|rentre|frigo|refrigerateur"
    r"|demain|hab'?s|gerade|eben|soeben|vorhin|grad|ahorita|luego|despues|enseguida|habe?|falta|noch|nochmals?|gleich|warte?"
    r"|spater"
    r"|nicht|hand|hande|kann|fahren|fahre|steuer|anzeige|display"
    r"|thermometer|fuhler"
    r"|temperaturfuhler|sonde|vor|stunde|uberspring\w*|auslassen|lass|diesmal|frag\w*|hor|holz\w*|kohlen?|briketts?"
    r"|wasser\w*|\w*gespruht|bespruht|eingesprayt|glut|feuer|blass|kruste|bark|butter\w*|wie|weich|fast|wann|ist|kann"
    r"|was|und|ruckgangig|storn\w*|vergiss|losche?|ignoriere?|streiche?|meinte|meine|entschuldigung|tschuldigung|leid"
    r"|verschrieben|vertippt|tippfehler|das|ich|ubernimmt|hat|hat's|geh|gehe|gute|gaste|viertel|um|halb|gegen|seit|bis"
    r"|ab|jep|jo|jup|jawohl|jawoll|jau|klar|passt|nee|ne|noe|alles|schon|bereits|minuten|moment|augenblick|sekunde"
    r"|unverandert|anderung|brennstoff|mach|mache|nerv"
    r"|sigue|siguen|todavia|aun|sin|igual|lo|momento|segundo|minuto|rato|ratito|momentito|ahora|ahorita|espera\w*|puedo"
    r"|manos|ya|esta|hecho|hice|las|la|minutos?|carbon|combustible|fuego|lena|madera|rocie|rociad\w+|pulverice"
    r"|mantequilla|cuanto|cuando|que|seguro|deshaz|deshacer|olvida\w*|borra\w*|ignora\w*|quita\w*|elimina\w*|perdona?"
    r"|siento|disculpa|decir|ahumador|preguntes|preguntar|salta\w*|omite|vez|paso|dormir|cama|acostar|tiene|encarga"
    r"|encargo|tengo|hasta|termometro|sonda|papel|menos|media|cuarto|ha|cambios?"
    r"|toujours|encore|pareil|inchangee?|meme|avant|bouge|instant|une|attends?|bientot|heure|pas|peux|mains|c'est|cest"
    r"|deja|charbon|feu|bois|vaporise|pulverise|asperge|beurre|combien|mange|manger|quand|danger|maintenant|suite|apres"
    r"|non|nein|reicht|langt|dame|donne[sz]?|pret|pretes?|gib|gebt|annule[rz]?|oublie|efface|supprime|ignore|pardon|desolee?|voulais|c'etait|arrete|demande|saute"
    r"|tomber|cette"
    r"|coucher|lit|prends?|occupe|garde|moi|jusqu'a|thermometre|plus)\b"
)
_PARTS = {"halben": "half an hour", "viertel": "15 minutes", "dreiviertel": "45 minutes", None: "1 hour"}


def in_english(heard: str) -> str:
    """Return a tidied text with the phrases of the book in English; a text without any as it is."""
    if _FOREIGN.search(heard) is None:
        return heard
    for pattern, said in _COMPILED:
        heard = pattern.sub(partial(_worked_out, said) if said.startswith("_") else said, heard)
    return heard


def _worked_out(kind: str, found: re.Match[str]) -> str:
    """Return phrases whose English is not the same words every time: spans, hours, "20 minutes more"."""
    if kind == "_ago_":
        return f"{_PARTS[found[1]]} ago"
    if kind == "_in_":
        return f"in {_PARTS[found[1]]}"
    if kind == "_more_":
        return f"{found['n'] or found['m']} minutes more"
    hour = str(_HOURS.get(found["h"], found["h"]))
    if kind == "_hour_":
        return f"{found['lead']} {hour}"
    return f"{kind.strip('_')} {hour}"

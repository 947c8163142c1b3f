"""What a German cook types, beside the English words that mean the same. Asserts nothing."""

from __future__ import annotations

NONE, BEFORE, COOKING, RESTING = (
    "stage=none", "unit=C stage=before", "unit=C stage=cooking pit_target=121C", "unit=C stage=resting",
)  # fmt: skip

QUESTIONS = (
    ("wie lange noch", "how long"),
    ("Wie lange dauert es noch?", "how long"),
    ("wann ist es fertig", "how long"),
    ("Wann essen wir?", "how long"),
    ("was kommt als nächstes?", "what next"),
    ("wie geht es weiter", "what next"),
    ("was nun", "what next"),
    ("der Plan", "plan"),
    ("alle Schritte", "all steps"),
    ("ist es sicher?", "is it safe"),
    ("ist das Fleisch sicher", "is it safe"),
    ("was kann ich tun", "what can i do"),
    ("Hilfe", "help"),
    ("rückgängig", "undo"),
    ("nimm das zurück", "undo"),
    ("wer ist dabei", "who is here"),
    ("Einladung", "invite"),
    ("einladen", "invite"),
    ("warum?", "why?"),
    ("Plateau?", "stall?"),
    ("Seite", "page"),
    ("Kalender", "calendar"),
    ("Protokoll", "record"),
    ("absagen", "call it off"),
    ("andere Pläne", "other plans"),
    ("jeder Schritt", "every step"),
    ("das Übliche", "the usual"),
    ("nur Entscheidungen", "only decisions"),
)
"""(German, English), while meat cooks."""

DEEDS = (
    ("erledigt", "done"),
    ("fertig", "done"),
    ("noch nicht", "not yet"),
    ("überspringen", "skip"),
    ("auslassen", "skip"),
    ("in 20 Minuten", "in 20"),
    ("in einer halben Stunde", "in 30"),
    ("Kern 74", "meat 74"),
    ("Kerntemperatur ist 74,5", "meat 74.5"),
    ("Fleisch 74", "meat 74"),
    ("Garraum 118", "pit 118"),
    ("Garraum 118, Kern 74", "pit 118, meat 74"),
    ("der Garraum hat 118 Grad", "pit 118"),
    ("Kern 74 um 13:10", "meat 74 at 13:10"),
    ("Kern 74 vor 20 Minuten", "meat 74 20 min ago"),
    ("in Papier eingewickelt", "wrapped in paper"),
    ("eingewickelt in Folie", "wrapped in foil"),
    ("in Alufolie eingepackt", "wrapped in foil"),
    ("ausgewickelt", "unwrapped"),
    ("gesprüht", "spritzed"),
    ("Holz nachgelegt", "wood added"),
    ("Kohle nachgelegt", "charcoal added"),
    ("2 kg Kohle nachgelegt", "added 2 kg of charcoal"),
    ("gleitet rein", "slides in"),
    ("wie Butter", "like butter"),
    ("noch fest", "still tight"),
    ("Kruste ist fest", "bark set"),
    ("vom Feuer", "pulled"),
    ("Fleisch ist runter", "pulled"),
    ("in der Box", "boxed"),
    ("Essen um 19 Uhr", "dinner at 19:00"),
    ("Essen um 18:30", "dinner at 18:30"),
    ("Essen eine Stunde später", "dinner an hour later"),
    ("Garraum auf 130", "pit to 130"),
    ("weggeworfen", "thrown away"),
)
"""(German, English), while meat cooks."""

BEFORE_IT = (
    ("Feuer ist an", "lit"),
    ("angezündet", "lit"),
    ("Fleisch ist drauf", "meat on"),
    ("Fleisch drauf um 11:20", "meat on at 11:20"),
    ("Rauch ist dünn", "smoke is thin"),
    ("gesalzen", "salted"),
)
"""(German, English), before the meat is on."""

TROUBLES = (
    ("Feuer ist aus", "fire went out"),
    ("das Feuer ist ausgegangen", "fire went out"),
    ("es regnet", "it's raining"),
    ("Gäste kommen später", "guests are late"),
    ("die Gäste sind schon da", "guests are early"),
    ("mir ist schwindlig", "i feel sick and dizzy"),
    ("Stromausfall", "power cut"),
    ("Fett brennt", "grease fire"),
    ("Gewitter", "thunderstorm"),
    ("ich habe mich verbrannt", "i burned myself"),
    ("der CO-Melder piept", "the carbon monoxide alarm goes off"),
    ("jemand erstickt", "somebody is choking"),
    ("allergische Reaktion", "allergic reaction"),
    ("Thermometer ist kaputt", "the thermometer is dead"),
    ("Kohle ist alle", "out of charcoal"),
    ("Garraum zu heiß", "pit is too hot"),
    ("Garraum ist zu kalt", "pit is too cold"),
    ("dicker Rauch", "thick smoke"),
    ("es ist noch zäh", "still tough"),
    ("Fleisch ist heruntergefallen", "it fell on the ground"),
)
"""(German, English), while meat cooks."""

SET_UP = (
    ("Rinderbrust 6 kg, Essen Samstag 18:00, Garraum 120", "brisket 6 kg, dinner saturday 18:00, pit 120"),
    ("ganze Rinderbrust", "whole brisket"),
    ("2 Leitern Spareribs, Essen morgen um 18 Uhr", "2 racks of spareribs, dinner tomorrow at 18:00"),
    ("Schweineschulter 3 kg, Essen wenn es fertig ist", "pork shoulder 3 kg, dinner when ready"),
    ("Hähnchen, Essen heute 19:00, Garraum 150", "chicken, dinner today 19:00, pit 150"),
    ("Lachsseite", "salmon side"),
    ("Lammkeule 2,5 kg", "leg of lamb 2.5 kg"),
    ("ganze Pute 5 kg", "whole turkey 5 kg"),
    ("Hochrippe", "prime rib"),
    ("Schweinebauch 2 kg, Garraum 110 bis 120", "pork belly 2 kg, pit 110 to 120"),
    ("Baby Back Ribs", "baby back ribs"),
    ("Bürgermeisterstück", "tri-tip"),
    ("frische Würste", "fresh sausages"),
    ("3 Pfund Schweinerücken", "pork loin 1.5 kg"),
)
"""(German, English), with no cook."""

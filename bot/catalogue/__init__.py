"""Door to the catalogue's data files: those beside the engine, and a person's own in the data folder."""

from bot.catalogue.cards import OWN_COOKERS, open_cards
from bot.catalogue.files import texts, texts_of
from bot.catalogue.own import OWN_CUTS, Opened, open_catalogue

__all__ = ["OWN_COOKERS", "OWN_CUTS", "Opened", "open_cards", "open_catalogue", "texts", "texts_of"]

"""The small sets that a fact chooses from."""

from __future__ import annotations

from enum import StrEnum


class Wrap(StrEnum):
    """What lies around the meat on the fire."""

    NONE = "none"
    """Bare to the end."""
    PAPER = "paper"
    FOIL = "foil"
    BOAT = "boat"
    """Foil up the sides, the top left open."""


class Slot(StrEnum):
    """What a temperature was read from."""

    CORE = "core"
    """The meat, at its thickest."""
    PIT = "pit"
    """The air at grate level beside the meat."""
    FRIDGE = "fridge"
    """The air of the fridge."""
    LEFTOVERS = "leftovers"
    """Cooked food that was put away: while it cools, in the fridge, and while it is reheated."""


class Feel(StrEnum):
    """What the probe or the fingers felt."""

    TIGHT = "tight"
    ALMOST = "almost"
    TENDER = "tender"


class Detail(StrEnum):
    """How much a person wants to be told; each level holds those after it."""

    EVERY = "every"
    """Every step, the nice-to-have ones as well."""
    USUAL = "usual"
    """The must and should steps."""
    DECISIONS = "decisions"
    """Only the must steps (safety is always told)."""


class ServingKind(StrEnum):
    """How exactly dinner is fixed."""

    AT = "at"
    WINDOW = "window"
    WHEN_READY = "when_ready"


class CookerKind(StrEnum):
    """How a cooker is built; what that means for heat and fuel stands in the catalogue."""

    CERAMIC = "ceramic"
    """Insulated, thick walls."""
    KETTLE = "kettle"
    """A bowl of thin steel with a lid."""
    OFFSET = "offset"
    """A firebox beside the chamber."""
    DRUM = "drum"
    """An upright steel drum, the fire below."""
    CABINET = "cabinet"
    """An insulated cupboard with a door."""


class ReadBy(StrEnum):
    """How the core of the meat is read."""

    WIRE = "wire"
    """A probe stays in the meat; its number is read without opening the lid."""
    HAND = "hand"
    """A thermometer is put in by hand: each number costs an open lid."""
    NONE = "none"
    """Nothing reads the meat: time, pit and feel decide."""


class RestPlace(StrEnum):
    """Where the meat waits for dinner after the pull."""

    BOX = "box"
    """An insulated box without heat."""
    OVEN = "oven"
    """A warm oven."""
    COOKER = "cooker"
    """The cooker with its vents shut, as a warm box."""
    BOARD = "board"
    """In the open, under a tent of foil."""


class Appetite(StrEnum):
    """How much a grown-up eats."""

    LIGHT = "light"
    NORMAL = "normal"
    HEARTY = "hearty"


class Treatment(StrEnum):
    """What brings bacteria from the surface of meat to its inside."""

    TENDERISED = "tenderised"
    """Pierced by needles or blades."""
    INJECTED = "injected"
    """Brine or marinade pressed in."""
    ROLLED = "rolled"
    """Boned, rolled and tied: what was outside lies inside."""
    GROUND = "ground"
    STUFFED = "stuffed"


class SafeBy(StrEnum):
    """By which rule the safety gate opens."""

    MINIMUM = "minimum"
    """The published least temperature and its rest."""
    EQUIVALENCE = "equivalence"
    """Time at a lower temperature that kills as much; intact whole cuts only, and only when chosen."""


class Edition(StrEnum):
    """Which published rules count where they differ."""

    STRICTER = "stricter"
    """Of each rule the stricter figure: the default."""
    CONSUMER = "consumer"
    """Advice of USDA FSIS to people at home."""
    FOOD_CODE = "food_code"
    """FDA Food Code, for kitchens that feed the public; local codes may differ."""

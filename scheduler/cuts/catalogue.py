"""All cuts together: read from the texts of the catalogue, found by id and by name.

It reads text, never files; what one cut must be like stands in `scheduler.cuts.cut`.
"""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, model_validator

from scheduler.cut_names import NameOf, best_name, name_key, near_names
from scheduler.cuts.cut import Cut
from scheduler.cuts.entries import read_entries
from scheduler.cuts.figures import SafetyClass
from scheduler.errors import UnknownCut

_NEVER_UNDER = frozenset({"poultry", "ground"})
"""Classes in which nobody may choose less than the safe minimum: bacteria are all through the meat."""


class Cuts(BaseModel):
    """All cuts and safety classes of the catalogue."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    safety: dict[str, SafetyClass]
    cuts: tuple[Cut, ...]
    own: frozenset[str] = frozenset()
    """Ids of those that a person wrote down."""
    past: tuple[Cut, ...] = ()
    """Own cuts that stand in no file any more: logs of cooks still speak of them, nobody is offered them."""

    @model_validator(mode="after")
    def _consistent(self) -> Cuts:
        names: dict[str, str] = {}
        ids = [cut.id for cut in self.cuts]
        for cut in self.cuts:
            if ids.count(cut.id) > 1:
                raise ValueError(f"{cut.id} stands twice")
            if cut.safety_class not in self.safety:
                raise ValueError(
                    f"{cut.id}: no safety class {cut.safety_class!r}; there are {', '.join(sorted(self.safety))}"
                )
            _safe(cut, self.minimum_c(cut))
            for name in (cut.id, cut.name, *cut.also_called):
                if names.setdefault(name_key(name), cut.id) != cut.id:
                    raise ValueError(f"{name!r} names both {names[name_key(name)]} and {cut.id}")
        return self

    def get(self, cut_id: str) -> Cut:
        """Return the cut with this id; raise `UnknownCut` when there is none."""
        for cut in (*self.cuts, *self.past):
            if cut.id == cut_id:
                return cut
        raise UnknownCut(f"no cut {cut_id!r}", cut=cut_id)

    def named(self, text: str) -> Cut | None:
        """Return the cut that a text names, kindly read (`scheduler.cut_names`), None when it is none or not clear.

        "ribs" alone may be beef or pork, so it is None; "pork ribs" are spareribs, "beef ribs" chuck short ribs and
        "brisket" a whole one, as is most usual.
        """
        key = best_name(text, self._names())
        return None if key is None else self.get(key)

    def near(self, text: str, most: int = 4) -> tuple[Cut, ...]:
        """Return the cuts whose names share most with a text that names none, the nearest first; often none."""
        return tuple(self.get(key) for key in near_names(text, self._names(), most))

    def _names(self) -> list[NameOf]:
        return [
            NameOf(name=name, key=cut.id, species=cut.species)
            for cut in self.cuts
            for name in (cut.id, cut.name, *cut.also_called)
        ]

    def minimum_c(self, cut: Cut) -> float:
        """Return the published minimum of the cut's class, converted and rounded to 0.1 [°C]."""
        return round((self.safety[cut.safety_class].minimum_f - 32.0) / 1.8, 1)


def read_cuts(*texts: str) -> Cuts:
    """Read the catalogue of cuts from TOML texts, which together are one catalogue.

    Raises
    ------
    CatalogueError
        When a text is not TOML, a figure breaks a rule, or two texts do not fit; the message names entry and field.
    """
    return read_entries(Cuts, "cuts", *texts)


def _safe(cut: Cut, minimum_c: float) -> None:
    """Raise `ValueError` when a cut is usually served, or felt for, under the published minimum of its class.

    Compared in whole degrees, as targets are given. A low end under it is a habit of the trade that is never advised.
    """
    if cut.doneness == "feel" and cut.start_testing_c < minimum_c:
        raise ValueError(
            f"{cut.id}: start_testing_c {cut.start_testing_c:g} is under the safe minimum of {cut.safety_class}, "
            f"{minimum_c:g} C: what is done by temperature has doneness = 'temperature'"
        )
    if cut.safety_class in _NEVER_UNDER and cut.target_c.low < round(minimum_c):
        raise ValueError(
            f"{cut.id}: target_c.low {cut.target_c.low:g} is under the safe minimum of {cut.safety_class}, "
            f"{minimum_c:g} C"
        )
    if cut.target_c.typical < round(minimum_c):
        raise ValueError(
            f"{cut.id}: target_c.typical {cut.target_c.typical:g} is under the safe minimum of {cut.safety_class}, "
            f"{minimum_c:g} C"
        )

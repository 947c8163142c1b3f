"""Door to the catalogue: reading it and its types."""

from scheduler.planning.steps import Catalogue, read_catalogue

__all__ = ["Catalogue", "read_catalogue"]

"""What every intent is: a frozen value that can be written as JSON."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class Said(BaseModel):
    """Something a person wants, as understood."""

    model_config = ConfigDict(frozen=True, extra="forbid")

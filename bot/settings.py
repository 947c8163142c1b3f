"""Settings: where the data is, who sits here, which zone, and the messenger's token.

Read once, from the command line before the environment; it must not read files or guess silently.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from pathlib import Path
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import platformdirs
from pydantic import BaseModel, ConfigDict, SecretStr, ValidationError, field_validator

from bot.messages.words import languages
from scheduler.facts import Edition

BOT_API = "https://api.telegram.org"
"""The messenger's own server (Bot API manual)."""

DATA = "SLOWBELL_DATA"
TOKEN = "SLOWBELL_TOKEN"  # noqa: S105 - the name of the variable, not its value
SERVER = "SLOWBELL_BOT_API"
ZONE = "SLOWBELL_ZONE"
RULES = "SLOWBELL_RULES"
LANGUAGE = "SLOWBELL_LANGUAGE"
_RULES = {"stricter": Edition.STRICTER, "consumer": Edition.CONSUMER, "food-code": Edition.FOOD_CODE}
"""What may be said for each edition of the published rules."""


class Settings(BaseModel):
    """What the program was started with."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    data_dir: Path
    zone: str
    """Name of a zone of the IANA time zone database."""
    name: str = ""
    """Who sits at this terminal, as typed; empty when nobody does."""
    token: SecretStr | None = None
    bot_api: str = BOT_API
    rules: Edition = Edition.STRICTER
    """Which published rules count for a cook where nobody says another."""
    language: str | None = None
    """What is spoken at this terminal, and on the command line; None: nobody said, which is English."""

    @field_validator("zone")
    @classmethod
    def _is_a_zone(cls, zone: str) -> str:
        try:
            ZoneInfo(zone)
        except (ZoneInfoNotFoundError, ValueError, OSError):
            raise ValueError("no such zone") from None
        return zone

    @field_validator("name")
    @classmethod
    def _can_be_shown(cls, name: str) -> str:
        tidy = " ".join("".join(ch if ch.isprintable() else " " for ch in name).split())
        if name and not tidy:
            raise ValueError("a name needs a letter")
        return tidy

    @field_validator("bot_api")
    @classmethod
    def _is_an_address(cls, address: str) -> str:
        parts = urlsplit(address)
        if parts.scheme not in {"http", "https"} or not parts.hostname:
            raise ValueError("not an address")
        return address.rstrip("/")


@dataclasses.dataclass(frozen=True, kw_only=True)
class BadSetting:
    """A setting that cannot be used: which one, and what was given (never for the token)."""

    setting: str
    given: str


def read_settings(
    environ: Mapping[str, str],
    *,
    local_zone: Callable[[], str],
    login_name: Callable[[], str],
    data: str | None = None,
    zone: str | None = None,
    name: str | None = None,
    rules: str | None = None,
    language: str | None = None,
) -> Settings | BadSetting:
    """Read the settings; what is given on the command line counts before the environment, that before the
    defaults.

    `local_zone` and `login_name` are asked only when nothing else names a zone or a person.
    """
    said = rules or environ.get(RULES) or "stricter"
    edition = edition_called(said)
    if edition is None:
        return BadSetting(setting="rules", given=said)
    tongue = language or environ.get(LANGUAGE) or None
    if tongue is not None and tongue not in languages():
        return BadSetting(setting="language", given=tongue)
    folder = data or environ.get(DATA) or platformdirs.user_data_dir("slowbell", appauthor=False)
    try:
        return Settings(
            data_dir=Path(folder).expanduser().absolute(),
            zone=zone or environ.get(ZONE) or local_zone(),
            name=login_name() if name is None else name,
            token=SecretStr(token) if (token := environ.get(TOKEN, "").strip()) else None,
            bot_api=environ.get(SERVER) or BOT_API,
            rules=edition,
            language=tongue,
        )
    except ValidationError as error:
        first = error.errors(include_url=False, include_context=False)[0]
        setting = str(first["loc"][0])
        return BadSetting(setting=setting, given="" if setting == "token" else str(first["input"]))


def edition_called(said: str) -> Edition | None:
    """Return the edition of the published rules that a setting names, None when it names none."""
    return _RULES.get(said.strip().casefold().replace("_", "-"))

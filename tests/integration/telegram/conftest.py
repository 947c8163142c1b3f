"""Fixtures for tests against the Bot API server.

It must not hold anything that only one test needs.
"""

from __future__ import annotations

from tests.fakes.botapi.fixtures import fake, telegram_server

__all__ = ["fake", "telegram_server"]

"""Prompts that still wait to be sent and matter no more: taken back, so that nobody is asked what was answered.

Reads the store and decides nothing about the cook.
"""

from __future__ import annotations

from bot.application.visit import Work
from bot.ports import Store
from scheduler.cook import Situation


def withdraw_answered(store: Store, work: Work, after: Situation) -> None:
    """Withdraw every waiting prompt of a cook whose first question is open no more."""
    head = f"prompt:{after.state.cook}:"
    still = {prompt.key for prompt in after.waiting}
    gone = [
        row.key for row in store.waiting() if row.key.startswith(head) and _question(row.key, head) not in still
    ]  # fmt: skip
    work.withdrawn += tuple(gone)


def _question(key: str, head: str) -> str:
    """Return the key of the prompt that the key of a message begins with: `piece/step/n`, before how often asked."""
    return key.removeprefix(head).split(".", 1)[0]

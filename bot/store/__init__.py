"""The store: the database behind `bot.ports.Store` and `bot.ports.Screen`.

The only room that knows SQLAlchemy. Others use the names given here.
"""

from bot.store import errors
from bot.store.lock import EngineLock
from bot.store.opening import open_store
from bot.store.store import SqlStore

__all__ = ["EngineLock", "SqlStore", "errors", "open_store"]

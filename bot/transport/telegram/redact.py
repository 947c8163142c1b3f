"""Keeps the bot token out of everything that can be read: log records, error texts, representations.

It must not decide what is logged, only what a record may say.
"""

from __future__ import annotations

import logging
import re
import sys
import traceback
from collections.abc import Callable
from urllib.parse import quote

MASK = "<token>"

# Any token that looks like one, also percent-encoded: the bot's id, a colon, 35 characters [from memory: at
# least 20 are asked for here]. Catches tokens that were never given to this process, such as an older one.
_LOOKS_LIKE_TOKEN = re.compile(r"\d{3,20}(?::|%3[Aa])[A-Za-z0-9_-]{20,}")


class Token:
    """A bot token that cannot be printed by accident. `reveal()` is the only way to its text."""

    __slots__ = ("_forms", "_secret")

    def __init__(self, secret: str) -> None:
        """Wrap a token; spaces around it are dropped (it is usually pasted)."""
        self._secret = secret.strip()
        escaped = self._secret.encode("unicode_escape").decode("ascii")
        forms = {self._secret, quote(self._secret), quote(self._secret, safe=""), escaped}
        self._forms = tuple(sorted((form for form in forms if form), key=len, reverse=True))

    def reveal(self) -> str:
        """Return the secret itself, for the request that needs it."""
        return self._secret

    def hide(self, text: str) -> str:
        """Return the text with this token, and all that looks like a token, masked."""
        for form in self._forms:
            text = text.replace(form, MASK)
        return _LOOKS_LIKE_TOKEN.sub(MASK, text)

    def __bool__(self) -> bool:
        return bool(self._secret)

    def __repr__(self) -> str:
        return "Token(hidden)"

    def __str__(self) -> str:
        return MASK

    def __format__(self, spec: str) -> str:
        return format(MASK, spec)

    def __reduce__(self) -> str:
        raise TypeError("a token is not to be pickled or copied")


class RedactingFilter(logging.Filter):
    """Masks the token in a record: message, arguments, traceback and stack. Never drops a record."""

    def __init__(self, token: Token) -> None:
        """Mask this token and all that looks like one."""
        super().__init__()
        self._token = token

    def filter(self, record: logging.LogRecord) -> bool:
        """Rewrite the record in place where the token shows; return True."""
        self._mask_message(record)
        if record.exc_info and record.exc_info[1] is not None:
            told = "".join(traceback.format_exception(record.exc_info[1])).rstrip("\n")
            hidden = self._token.hide(told)
            if hidden != told:
                record.exc_info, record.exc_text = None, hidden
        if record.exc_text:
            record.exc_text = self._token.hide(record.exc_text)
        if record.stack_info:
            record.stack_info = self._token.hide(record.stack_info)
        return True

    def _mask_message(self, record: logging.LogRecord) -> None:
        try:
            told = record.getMessage()
        except (TypeError, ValueError, KeyError):  # wrong arguments: logging would print them as they are
            told = f"{record.msg!s} {record.args!r}"
            record.msg, record.args = told.replace("%", "%%"), None
        hidden = self._token.hide(told)
        if hidden != told:
            record.msg, record.args = hidden, None


def install_redaction(token: Token) -> Callable[[], None]:
    """Mask the token in every record of every logger of this process; return what takes it off again.

    A filter on a logger does not see the records of the loggers below it, and one on a handler misses
    handlers added later, so records are masked as they are made. The filter is put on the root, httpx,
    httpcore and telegram loggers as well, for records that are made elsewhere and handed in. Errors that
    nobody caught are masked on their way to the screen.
    """
    mask = RedactingFilter(token)
    make, loggers = logging.getLogRecordFactory(), [logging.getLogger(name) for name in _LOGGERS]
    hook = sys.excepthook

    def masked(*args: object, **kwargs: object) -> logging.LogRecord:
        record = make(*args, **kwargs)
        mask.filter(record)
        return record

    def masked_hook(_kind: type[BaseException], error: BaseException, _trace: object) -> None:
        told = "".join(traceback.format_exception(error))
        sys.stderr.write(token.hide(told))

    logging.setLogRecordFactory(masked)
    sys.excepthook = masked_hook
    for logger in loggers:
        logger.addFilter(mask)

    def take_off() -> None:
        logging.setLogRecordFactory(make)
        sys.excepthook = hook
        for logger in loggers:
            logger.removeFilter(mask)

    return take_off


_LOGGERS = ("", "httpx", "httpcore", "telegram")

"""The token cannot be read anywhere by accident."""

from __future__ import annotations

import io
import logging
import pickle
import sys
from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.transport.telegram.redact import MASK, RedactingFilter, Token, install_redaction

SECRET = "7000001:AAHsecret-token_of_nobody_0123456789"


@pytest.fixture
def written() -> Iterator[io.StringIO]:
    """What a handler that knows nothing of tokens writes, at DEBUG, while redaction is installed."""
    stream = io.StringIO()
    handler, root = logging.StreamHandler(stream), logging.getLogger()
    before = root.level
    root.addHandler(handler)
    root.setLevel(logging.DEBUG)
    take_off = install_redaction(Token(SECRET))
    yield stream
    take_off()
    root.setLevel(before)
    root.removeHandler(handler)


def test_a_token_shows_itself_to_nobody() -> None:
    """Its representation, its text and its formatted text hide it; it cannot be pickled."""
    token = Token(f" {SECRET}\n")
    assert token.reveal() == SECRET
    assert SECRET not in f"{token!r} {token!s} {token} {token:>60}" + repr([token])
    with pytest.raises(TypeError):
        pickle.dumps(token)


@given(before=st.text(), after=st.text())
def test_hiding_leaves_nothing(before: str, after: str) -> None:
    """Whatever stands around it, the token is masked."""
    assert SECRET not in Token(SECRET).hide(f"{before}{SECRET}{after}")


@pytest.mark.parametrize(
    "text",
    [
        f"https://example.invalid/bot{SECRET}/sendMessage",
        f"https://example.invalid/bot{SECRET.replace(':', '%3A')}/sendMessage",
        "another bot: 123456789:AAAbbbCCCdddEEEfffGGGhhhIIIjjjKKKl",
    ],
)
def test_forms_of_tokens_are_masked(text: str) -> None:
    """In addresses, percent-encoded, and tokens this process never knew."""
    assert MASK in Token(SECRET).hide(text)
    assert "AA" not in Token(SECRET).hide(text)


def test_a_mistyped_token_is_masked_too() -> None:
    """A token that looks like none is hidden as well: people paste anything."""
    assert Token("hunter 2").hide("/bothunter%202/getMe and hunter 2") == f"/bot{MASK}/getMe and {MASK}"


def test_plain_text_is_left_alone() -> None:
    """Times and figures are no tokens."""
    text = "12:30 pit 285, meat 178; next at 13:05"
    assert Token(SECRET).hide(text) == text
    assert Token("").hide(text) == text


@pytest.mark.parametrize("name", ["", "httpx", "telegram.Bot", "httpcore.http11", "made.later"])
def test_records_of_every_logger_are_masked(written: io.StringIO, name: str, caplog: pytest.LogCaptureFixture) -> None:
    """The message and its arguments are masked, whichever logger and handler they pass, at any level it may have."""
    caplog.set_level(logging.DEBUG, logger=name)
    logging.getLogger(name).info("POST %s for %r", f"/bot{SECRET}/getMe", {"token": SECRET})
    assert SECRET not in written.getvalue()
    assert MASK in written.getvalue()


def test_tracebacks_are_masked(written: io.StringIO) -> None:
    """An error that holds the token, or comes from one that does, is logged without it."""
    error = RuntimeError("could not start")
    error.__cause__ = ValueError(f"the token {SECRET} was rejected")
    logging.getLogger("x").error("at start", exc_info=error, stack_info=True)
    assert SECRET not in written.getvalue()
    assert "could not start" in written.getvalue()


def test_wrong_arguments_do_not_leak(written: io.StringIO, capsys: pytest.CaptureFixture[str]) -> None:
    """A record whose arguments do not fit is printed by logging as it is: that is masked first."""
    logging.getLogger("x").warning(*("%d of %d", SECRET))
    captured = capsys.readouterr()
    assert SECRET not in written.getvalue() + captured.out + captured.err


def test_other_records_keep_their_arguments(written: io.StringIO) -> None:
    """A record without a token stays as it was made."""
    record = logging.getLogger("x").makeRecord("x", logging.INFO, "f", 1, "%s at %s", ("meat", "178"), None)
    assert RedactingFilter(Token(SECRET)).filter(record)
    assert record.args == ("meat", "178")


def test_uncaught_errors_are_masked(written: io.StringIO, capsys: pytest.CaptureFixture[str]) -> None:
    """An error that nobody caught reaches the screen without the token."""
    error = ValueError(f"the token {SECRET} was rejected")
    sys.excepthook(ValueError, error, None)
    assert SECRET not in capsys.readouterr().err

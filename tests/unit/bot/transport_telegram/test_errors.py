"""Every error that the library or its HTTP client can raise has one known outcome."""

from __future__ import annotations

import datetime as dt

import httpx
import pytest
from telegram import error as tg

from bot.chat import Address, Locked, Moved, Outcome, Rejected, Sent, TryAgain, Unknown, Unreachable
from bot.transport.telegram.errors import outcome_of, topic_is_gone

SECOND = dt.timedelta(seconds=1)
TOKEN = "7000001:AAHsecret-token_of_nobody_0123456789"

# One example of each class that the library exports, with what it means for a message and for an edit.
EXAMPLES: dict[type[tg.TelegramError], tuple[tg.TelegramError, type[Outcome], type[Outcome]]] = {
    tg.BadRequest: (tg.BadRequest("Button_data_invalid"), Rejected, Rejected),
    tg.ChatMigrated: (tg.ChatMigrated(-1002000000001), Moved, Moved),
    tg.Conflict: (tg.Conflict("terminated by other getUpdates request"), TryAgain, TryAgain),
    tg.EndPointNotFound: (tg.EndPointNotFound("Endpoint 'x' not found"), Rejected, Rejected),
    tg.Forbidden: (tg.Forbidden("Forbidden: bot was blocked by the user"), Unreachable, Unreachable),
    tg.InvalidToken: (tg.InvalidToken(f"The token `{TOKEN}` was rejected by the server."), Locked, Locked),
    tg.NetworkError: (tg.NetworkError("Bad Gateway"), Unknown, TryAgain),
    tg.PassportDecryptionError: (tg.PassportDecryptionError("no"), Rejected, Rejected),
    tg.RetryAfter: (tg.RetryAfter(dt.timedelta(seconds=7)), TryAgain, TryAgain),
    tg.TelegramError: (tg.TelegramError("Invalid server response"), Unknown, TryAgain),
    tg.TimedOut: (tg.TimedOut(), Unknown, TryAgain),
}

NOT_SENT, MAYBE_SENT, NEVER_CAN = TryAgain, Unknown, Locked
CAUSES: dict[type[Exception], type[Outcome]] = {
    httpx.HTTPError: MAYBE_SENT,
    httpx.RequestError: MAYBE_SENT,
    httpx.TransportError: MAYBE_SENT,
    httpx.TimeoutException: MAYBE_SENT,
    httpx.ConnectTimeout: NOT_SENT,
    httpx.ReadTimeout: MAYBE_SENT,
    httpx.WriteTimeout: MAYBE_SENT,
    httpx.PoolTimeout: NOT_SENT,
    httpx.NetworkError: MAYBE_SENT,
    httpx.ConnectError: NOT_SENT,
    httpx.ReadError: MAYBE_SENT,
    httpx.WriteError: MAYBE_SENT,
    httpx.CloseError: MAYBE_SENT,
    httpx.ProtocolError: MAYBE_SENT,
    httpx.LocalProtocolError: MAYBE_SENT,
    httpx.RemoteProtocolError: MAYBE_SENT,
    httpx.ProxyError: NOT_SENT,
    httpx.UnsupportedProtocol: NEVER_CAN,
    httpx.DecodingError: MAYBE_SENT,
    httpx.TooManyRedirects: MAYBE_SENT,
    httpx.HTTPStatusError: MAYBE_SENT,
    httpx.InvalidURL: NEVER_CAN,
}


def _below(kind: type[BaseException]) -> set[type[BaseException]]:
    return {kind}.union(*(_below(one) for one in kind.__subclasses__()))


def _caused(error: tg.TelegramError, cause: BaseException) -> tg.TelegramError:
    error.__cause__ = cause
    return error


def test_every_error_class_of_the_library_has_an_example() -> None:
    """A class that the library adds fails here until somebody has decided what it means."""
    exported = {getattr(tg, name) for name in tg.__all__}
    ours = {kind for kind in _below(tg.TelegramError) if kind.__module__.startswith("telegram.")}
    assert exported | ours == EXAMPLES.keys()


@pytest.mark.parametrize("kind", EXAMPLES, ids=lambda kind: kind.__name__)
def test_each_class_has_its_outcome(kind: type[tg.TelegramError]) -> None:
    """Each class of error means one thing for a message and one for what may simply be done again."""
    example, for_message, for_edit = EXAMPLES[kind]
    assert type(outcome_of(example, edit=False)) is for_message
    assert type(outcome_of(example, edit=True)) is for_edit


def test_every_error_class_of_the_http_client_is_known() -> None:
    """A class that the HTTP client adds fails here until somebody has decided whether it proves anything."""
    own = {kind for kind in _below(httpx.HTTPError) | {httpx.InvalidURL} if kind.__module__.startswith("httpx")}
    assert own == CAUSES.keys()


@pytest.mark.parametrize("cause", CAUSES, ids=lambda cause: cause.__name__)
@pytest.mark.parametrize("wrapping", [tg.TimedOut, tg.NetworkError], ids=lambda kind: kind.__name__)
def test_the_cause_decides_whether_it_may_have_arrived(
    wrapping: type[tg.TelegramError], cause: type[Exception]
) -> None:
    """A connection that never stood proves that nothing was delivered; anything later leaves it open."""
    error = _caused(wrapping("trouble"), cause.__new__(cause))
    assert type(outcome_of(error, edit=False)) is CAUSES[cause]


@pytest.mark.parametrize("cause", [httpx.ConnectError("x"), httpx.ConnectTimeout("x"), httpx.ProxyError("x")])
def test_no_network_pauses_everything_and_costs_no_attempt(cause: Exception) -> None:
    """However long the network is down, no row runs out of attempts, and no other chat is tried in vain."""
    outcome = outcome_of(_caused(tg.NetworkError("x"), cause), edit=False)
    assert isinstance(outcome, TryAgain)
    assert outcome.whole_transport
    assert not outcome.costs_attempt


@pytest.mark.parametrize("span", [dt.timedelta(seconds=7), 7], ids=["timedelta", "int"])
def test_a_flood_limit_is_kept_to_with_jitter(span: dt.timedelta | int) -> None:
    """The wait is what the server asked for plus the jitter, in either form, and costs no attempt."""
    outcome = outcome_of(tg.RetryAfter(span), edit=False, jitter=2 * SECOND)
    assert outcome == TryAgain(wait=9 * SECOND, why="Telegram asks for a pause", costs_attempt=False)


def test_a_flood_limit_as_a_bare_number_is_read() -> None:
    """An older form of the error, whose attribute is a number, gives the same wait."""

    class Older(tg.RetryAfter):
        @property
        def retry_after(self) -> int:
            return 7

    outcome = outcome_of(Older(1), edit=False)
    assert isinstance(outcome, TryAgain)
    assert outcome.wait == 7 * SECOND


def test_a_flood_limit_without_a_figure_waits_too() -> None:
    """Too many requests, without saying how long: a pause, not a resend."""
    outcome = outcome_of(tg.NetworkError("Too Many Requests"), edit=False)
    assert isinstance(outcome, TryAgain)
    assert not outcome.costs_attempt


@pytest.mark.parametrize("status", ["Internal Server Error", "Bad Gateway (502)", "Gateway Timeout (504)"])
def test_a_server_in_trouble_leaves_it_open(status: str) -> None:
    """After a 5xx the message may have been sent; an edit is simply made again."""
    assert isinstance(outcome_of(tg.NetworkError(status), edit=False), Unknown)
    assert isinstance(outcome_of(tg.NetworkError(status), edit=True), TryAgain)


def test_a_migrated_chat_names_its_new_address() -> None:
    """The new id of a group becomes an address of this transport."""
    assert outcome_of(tg.ChatMigrated(-1002), edit=False) == Moved(to=Address(transport="telegram", chat="-1002"))


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Message is not modified: specified new message content ...", Sent),
        ("Query is too old and response timeout expired or query ID is invalid", Sent),
        ("Message to edit not found", Rejected),
        ("Message can't be edited", Rejected),
        ("Group chat was upgraded to a supergroup chat", Rejected),
        ("Chat not found", Unreachable),
        ("Not enough rights to send text messages to the chat", Unreachable),
        ("Can't parse entities", Rejected),
    ],
)
def test_a_bad_request_is_read_by_its_words(text: str, kind: type[Outcome]) -> None:
    """What was done before counts as sent, a closed door as unreachable, all else as rejected."""
    assert type(outcome_of(tg.BadRequest(text), edit=True)) is kind


@pytest.mark.parametrize("error", [tg.Forbidden("x"), tg.InvalidToken("x"), tg.BadRequest("x")])
def test_a_page_of_somebody_in_between_proves_nothing(error: tg.TelegramError) -> None:
    """A refusal whose body is not the Bot API's comes from a proxy: nobody is paused or locked for it."""
    outcome = outcome_of(_caused(error, tg.TelegramError("Invalid server response")), edit=False)
    assert isinstance(outcome, Unknown)


@pytest.mark.parametrize("error", [KeyError("result"), TypeError("x"), RuntimeError("x")])
def test_an_answer_that_breaks_the_library_leaves_it_open(error: Exception) -> None:
    """An answer that cannot be read came after the call: it may have arrived."""
    assert isinstance(outcome_of(error, edit=False), Unknown)


def test_a_refused_token_is_not_repeated() -> None:
    """The library writes the token into its error; the outcome does not hold it."""
    example, _, _ = EXAMPLES[tg.InvalidToken]
    assert TOKEN in str(example)
    assert TOKEN not in repr(outcome_of(example, edit=False))


@pytest.mark.parametrize(
    ("error", "gone"),
    [
        (tg.BadRequest("Message thread not found"), True),
        (tg.BadRequest("TOPIC_CLOSED"), True),
        (tg.BadRequest("Chat not found"), False),
        (tg.Forbidden("message thread not found"), False),
    ],
)
def test_a_topic_that_is_gone_is_told_from_a_chat_that_is(error: tg.TelegramError, gone: bool) -> None:
    """Only a refusal because of the topic sends a message to the chat itself."""
    assert topic_is_gone(error) is gone

"""The contract table agrees with the library, and the server refuses whatever breaks it."""

from __future__ import annotations

import inspect
import re
from collections.abc import AsyncIterator
from typing import Any

import httpx
import pytest
import pytest_asyncio
import telegram
from telegram import constants

from tests.fakes.botapi import FakeTelegram
from tests.fakes.botapi.contract import Contract

CONTRACT = Contract()


@pytest_asyncio.fixture
async def http() -> AsyncIterator[httpx.AsyncClient]:
    """A plain client."""
    async with httpx.AsyncClient() as client:
        yield client


@pytest.mark.parametrize("method", CONTRACT.methods)
def test_the_library_knows_every_method_and_parameter(method: str) -> None:
    """Names in the table are names of the library's methods and arguments."""
    snake = re.sub(r"(?<!^)(?=[A-Z])", "_", method).lower()
    assert CONTRACT.methods[method].keys() <= inspect.signature(getattr(telegram.Bot, snake)).parameters.keys()


@pytest.mark.parametrize("kind", CONTRACT.types)
def test_the_library_knows_every_type_and_field(kind: str) -> None:
    """Names in the table are names of the library's types and their arguments."""
    fields = inspect.signature(getattr(telegram, kind)).parameters.keys()
    fixed = {"force_reply", "type"}  # set by the library itself
    assert CONTRACT.types[kind].keys() - fixed <= fields


def test_limits_are_those_of_the_library() -> None:
    """Figures of the table, taken from the documentation, equal the library's own."""
    methods, types = CONTRACT.methods, CONTRACT.types
    assert methods["sendMessage"]["text"]["max"] == constants.MessageLimit.MAX_TEXT_LENGTH
    assert methods["sendMessage"]["text"]["min"] == constants.MessageLimit.MIN_TEXT_LENGTH
    assert (
        methods["answerCallbackQuery"]["text"]["max"] == constants.CallbackQueryLimit.ANSWER_CALLBACK_QUERY_TEXT_LENGTH
    )
    assert methods["setMyCommands"]["commands"]["most"] == constants.BotCommandLimit.MAX_COMMAND_NUMBER
    assert methods["sendDocument"]["caption"]["max"] == constants.MessageLimit.CAPTION_LENGTH
    assert methods["editMessageCaption"]["caption"]["max"] == constants.MessageLimit.CAPTION_LENGTH
    assert methods["sendDocument"]["document"]["max_bytes"] == constants.FileSizeLimit.FILESIZE_UPLOAD
    assert methods["getUpdates"]["limit"]["max"] == constants.PollingLimit.MAX_LIMIT
    button = types["InlineKeyboardButton"]["callback_data"]
    assert button["max_bytes"] == constants.InlineKeyboardButtonLimit.MAX_CALLBACK_DATA
    assert button["min_bytes"] == constants.InlineKeyboardButtonLimit.MIN_CALLBACK_DATA
    most = types["InlineKeyboardMarkup"]["inline_keyboard"]["most"]
    assert most == constants.InlineKeyboardMarkupLimit.TOTAL_BUTTON_NUMBER
    assert types["BotCommand"]["description"]["max"] == constants.BotCommandLimit.MAX_DESCRIPTION
    library = {str(one).replace("\ufe0f", "") for one in constants.ReactionEmoji}
    assert set(types["ReactionTypeEmoji"]["emoji"]["one_of"]) == library


def _button(**field: object) -> dict[str, Any]:
    return {"inline_keyboard": [[{"text": "Done", "callback_data": "t1"} | field]]}


@pytest.mark.parametrize(
    ("method", "parameters", "problem"),
    [
        ("sendSticker", {}, "not in the contract"),
        ("sendMessage", {"chat_id": 1}, "text: required"),
        ("sendMessage", {"text": "x"}, "chat_id: required"),
        ("sendMessage", {"chat_id": "x", "text": "x"}, "chat_id: not an integer"),
        ("sendMessage", {"chat_id": True, "text": "x"}, "chat_id: not an integer"),
        ("sendMessage", {"chat_id": 2**60, "text": "x"}, "out of bounds"),
        ("sendMessage", {"chat_id": 1, "text": ""}, "0 characters"),
        ("sendMessage", {"chat_id": 1, "text": "\N{FIRE}" * 2049}, "4098 characters"),
        ("sendMessage", {"chat_id": 1, "text": "x", "parse_mode": "HTML"}, "parse_mode: not in the contract"),
        ("sendMessage", {"chat_id": 1, "text": "x", "disable_notification": "yes"}, "not a truth value"),
        ("sendMessage", {"chat_id": 1, "text": "x", "reply_markup": _button(callback_data="é" * 33)}, "66 bytes"),
        ("sendMessage", {"chat_id": 1, "text": "x", "reply_markup": _button(url="x")}, "url: not in the contract"),
        ("sendMessage", {"chat_id": 1, "text": "x", "reply_markup": {"inline_keyboard": [[{}]]}}, "text: required"),
        (
            "sendMessage",
            {"chat_id": 1, "text": "x", "reply_markup": {"inline_keyboard": [_button()["inline_keyboard"][0] * 101]}},
            "too many",
        ),
        ("sendDocument", {"chat_id": 1}, "document: required"),
        ("sendDocument", {"chat_id": 1, "document": "https://example.invalid/plan.pdf"}, "not an uploaded file"),
        ("sendDocument", {"chat_id": 1, "document": {"file_name": "a", "mime_type": "b", "base64": ""}}, "0 bytes"),
        ("sendDocument", {"chat_id": 1, "caption": "x" * 1025}, "1025 characters"),
        ("getUpdates", {"timeout": 51}, "51 out of bounds"),
        ("getUpdates", {"allowed_updates": ["poll"]}, "not one of the allowed"),
        ("answerCallbackQuery", {"callback_query_id": "1", "text": "x" * 201}, "201 characters"),
        (
            "setMessageReaction",
            {"chat_id": 1, "message_id": 1, "reaction": [{"type": "emoji", "emoji": "x"}]},
            "not one",
        ),
        ("setMyCommands", {"commands": [{"command": "Plan", "description": "x"}]}, "wrong form"),
    ],
)
@pytest.mark.asyncio
async def test_a_broken_call_is_refused_and_remembered(
    telegram_server: FakeTelegram, http: httpx.AsyncClient, method: str, parameters: dict[str, Any], problem: str
) -> None:
    """Unknown names, missing and mistyped parameters and exceeded limits answer 400 and are listed."""
    telegram_server.reset()
    answer = await http.post(f"{telegram_server.base_url}/bot{telegram_server.token}/{method}", json=parameters)
    assert answer.status_code == 400
    (violation,) = telegram_server.violations()
    assert problem in "; ".join(violation["problems"])


@pytest.mark.asyncio
async def test_form_fields_are_read_by_their_types(fake: FakeTelegram, http: httpx.AsyncClient) -> None:
    """Numbers, truth values and objects come as text in a form; a string stays what it is."""
    ines = fake.private("Ines")
    form = {"chat_id": str(ines), "text": "178", "disable_notification": "true", "link_preview_options": "{}"}
    answer = await http.post(f"{fake.base_url}/bot{fake.token}/sendMessage", data=form)
    assert answer.json()["result"]["text"] == "178"
    assert fake.messages(ines)[0].silent

"""The command `serve`: the messenger in and out, and the engine unless another process is it.

It must not say the token, nor give up while the messenger only cannot be reached.
"""

from __future__ import annotations

import asyncio
import dataclasses
import datetime as dt
import itertools
import logging
import secrets

from bot.alarm.system import SystemAlarm
from bot.bootstrap.parts import TELEGRAM, album, courier_name, make_program, write_link
from bot.bootstrap.running import FAILED, run_on_data, stopped_by_signals
from bot.crew import Role
from bot.delivery.courier import Courier
from bot.delivery.pace import BOT_API_PACE
from bot.messages import console, telegram_words
from bot.messages.menus import MENU_LANGUAGES, Place, menu
from bot.messages.words import speaking
from bot.ports import Apply, InviteWrite
from bot.program import Program
from bot.settings import Settings
from bot.store import EngineLock, SqlStore
from bot.transport.telegram.calls import BotApi
from bot.transport.telegram.listening import Listening, gap_row
from bot.transport.telegram.me import Me, hears_all_of, show_commands, who_am_i
from bot.transport.telegram.outgoing import TelegramTransport
from bot.transport.telegram.poller import Conflict, Outage, Poll, Polled, Poller, Rival, TokenRefused
from bot.transport.telegram.redact import Token, install_redaction
from bot.transport.terminal.paper import complain, say

log = logging.getLogger(__name__)

SERVE_LOCK = "serve.lock"
HEARD = "messenger.heard"
"""File in the data folder: when the messenger was last listened to."""
OWNER_CODE_FOR = dt.timedelta(days=1)
OWNER_CODE_BYTES = 8
FIRST_ANSWER_WITHIN_S = 5.0
FIRST_PAUSE_S, LONGEST_PAUSE_S = 1.0, 30.0
"""Between attempts to find out who the bot is; doubled each time."""


def serve(settings: Settings) -> int:
    """Serve the messenger until stopped; return the exit code."""
    return run_on_data(settings, lambda store: _alone(settings, store))


async def _alone(settings: Settings, store: SqlStore) -> int:
    lock = EngineLock(settings.data_dir)
    lock.path = settings.data_dir / SERVE_LOCK  # one of its own: the engine may be a chat window
    if not lock.try_acquire():
        complain(console.second_serve(str(settings.data_dir)))
        return FAILED
    token = Token(settings.token.get_secret_value() if settings.token else "")
    take_off = install_redaction(token)
    service = Service(settings, store, token)
    try:
        return await service.run()
    finally:
        await service.close()
        take_off()
        lock.release()


class Service:
    """One run of `serve`."""

    def __init__(self, settings: Settings, store: SqlStore, token: Token) -> None:
        """Prepare everything; nothing is asked yet."""
        self._settings = settings
        self._store = store
        self._alarm = SystemAlarm()
        self._api = BotApi(token=token, base_url=settings.bot_api)
        self._way_out = TelegramTransport(
            token=token,
            repeat_mark=console.possible_repeat,
            clock=self._alarm.now,
            base_url=settings.bot_api,
            topic_mark=telegram_words.topic_closed,
            album=album(settings.data_dir),
        )
        self._listening = Listening(settings.data_dir / HEARD)
        self._program: Program | None = None
        self._me: Me | None = None
        self._heard_out = False
        """The messenger has answered: what people wrote before the start is in the inbox."""
        self._refused = False
        self._troubled = False

    async def close(self) -> None:
        """Close the connections."""
        await self._way_out.close()
        await self._api.close()

    async def run(self) -> int:
        """Serve; return 0 when stopped, 1 when the token was refused."""
        # Only one `serve` runs on these data, so whoever was sending before is gone.
        await asyncio.to_thread(self._store.end_leases, [self._way_out.name], self._alarm.now())
        code = await asyncio.to_thread(make_owner_code, self._store, self._alarm.now())
        me = await self._ask_first()
        if isinstance(me, Me):
            await self._welcome(me, code)  # before the engine starts, so that it knows the link
        self._program = make_program(
            self._settings,
            self._store,
            self._alarm,
            say=say,
            own=self._courier(),
            locked=lambda _transport, _why: self._refuse(),
            heard_out=lambda: self._heard_out,
        )
        with stopped_by_signals(self._program.stop):
            await self._program.run(lambda: self._listen(me, code))
        say(console.token_refused() if self._refused else console.stopped())
        return FAILED if self._refused else 0

    def _courier(self) -> Courier:
        name = self._way_out.name
        return Courier(
            self._store,
            {name: self._way_out},
            courier_name(),
            paces={name: BOT_API_PACE},
            clock=self._alarm.now,
        )

    async def _ask_first(self) -> Me | TokenRefused | Outage:
        try:
            return await asyncio.wait_for(who_am_i(self._api), FIRST_ANSWER_WITHIN_S)
        except TimeoutError:
            return Outage(why="no answer")

    async def _welcome(self, me: Me, code: str | None) -> None:
        await asyncio.to_thread(self._store.clear_pause, self._way_out.name)
        write_link(self._settings.data_dir, link_prefix(me))
        await self._show_menus()
        say(console.serving(me.username, str(self._settings.data_dir)))
        if code is not None:
            say(console.owner_code(code, me.join_link(code)))

    async def _show_menus(self) -> None:
        """Show in each kind of chat, in each language, the commands that are of use there."""
        for place, language in itertools.product(Place, ("", *MENU_LANGUAGES)):
            with speaking(language or None):
                commands = menu(place)
            failed = await show_commands(self._api, commands, scope=place.value, language=language)
            if failed is not None:
                log.warning("the menu of commands (%s, %r) could not be set: %s", place.value, language, failed)
                return  # whatever is wrong is wrong for all of them

    async def _listen(self, me: Me | TokenRefused | Outage, code: str | None) -> None:
        """Find out who the bot is, however long that takes, then poll; return when the token is refused."""
        pause_s = FIRST_PAUSE_S
        while isinstance(me, Outage):
            self._report(me)
            await asyncio.sleep(me.wait_s or pause_s)
            pause_s = min(2 * pause_s, LONGEST_PAUSE_S)
            me = await who_am_i(self._api)
            if isinstance(me, Me):
                await self._welcome(me, code)
        if isinstance(me, Me):
            self._me = me
            await asyncio.to_thread(self._note_gap, me)
            await self._ask_about_groups(me)
            poller = Poller(
                api=self._api,
                source=me.source,
                accept=self._store.accept,
                clock=self._alarm.now,
                nudge=self._program.nudge if self._program else lambda: None,
                report=self._report,
                heard_by=lambda: self._me.mark if self._me is not None else {},
                look_again=self._look_again,
                heard=self._heard,
            )
            await poller.run()
        self._refuse()

    async def _look_again(self) -> None:
        """Ask once more what the bot may hear: privacy mode is switched by hand, and the bot then added again."""
        me = await who_am_i(self._api)
        if isinstance(me, Me):
            self._me = me

    def _heard(self, now: dt.datetime) -> None:
        self._listening.heard(now)
        if not self._heard_out:
            self._heard_out = True
            if self._program is not None:
                self._program.nudge()

    async def _ask_about_groups(self, me: Me) -> None:
        """Find out what groups let the bot hear that were known before anybody asked."""
        for room in await asyncio.to_thread(self._store.rooms):
            if room.group and room.active and room.hears_all is None and room.address.transport == TELEGRAM:
                hears_all = await hears_all_of(self._api, me, room.address.chat)
                found = dataclasses.replace(room, hears_all=hears_all)
                if hears_all is not None:
                    await asyncio.to_thread(self._store.apply, Apply(now=self._alarm.now(), rooms=(found,)))

    def _note_gap(self, me: Me) -> None:
        """Put into the inbox, before anything that is heard now, for how long nobody listened."""
        now, last_at = self._alarm.now(), self._listening.last_at()
        if last_at is not None and last_at < now:
            key, raw = gap_row(last_at, now)
            self._store.accept(source=me.source, key=key, raw=raw, received_at=now)

    def _refuse(self) -> None:
        self._refused = True
        if self._program is not None:
            self._program.stop()

    def _report(self, poll: Poll) -> None:
        """Say when listening begins to fail, and when it works again."""
        match poll:
            case Polled():
                if self._troubled:
                    say(console.reachable_again())
                self._troubled = False
                return
            case Conflict(rival=Rival.WEBHOOK):
                say(console.rival_webhook())
            case Conflict():
                say(console.rival_poller())
            case Outage(why=why):
                if not self._troubled:
                    say(console.no_network(why))
            case _:
                log.warning("listening failed: %s", poll)
        self._troubled = True


def link_prefix(me: Me) -> str:
    """Return how a link for joining begins; the code follows."""
    return me.join_link("x").removesuffix("x")


def make_owner_code(store: SqlStore, now: dt.datetime) -> str | None:
    """Store a fresh one-time code and return it; None when this messenger has an owner."""
    if any(one.role is Role.OWNER and one.id.startswith(f"{TELEGRAM}:") for one in store.people()):
        return None
    code = secrets.token_hex(OWNER_CODE_BYTES)
    invite = InviteWrite(code=code, role=Role.OWNER.value, expires_at=now + OWNER_CODE_FOR)
    store.apply(Apply(now=now, invites=(invite,)))
    return code

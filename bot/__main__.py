"""The command line: `slowbell` opens the chat; `chat`, `plan`, `read`, `record`, `chart`, `rehearse`, `serve`
and `backtest` are the other ways in.

It only reads arguments. Whatever is slow to import is imported by the command that needs it.
"""

from __future__ import annotations

import argparse
import datetime as dt
import getpass
import importlib.util
import os
import sys
from collections.abc import Sequence

from bot.messages import console
from bot.messages.chart_command import help_chart, help_dark, help_png, help_unit
from bot.messages.plan_help import help_plan
from bot.messages.read_help import help_read
from bot.messages.record_command import help_cook, help_csv, help_pdf, help_record
from bot.messages.words import speaking
from bot.plan.arguments import add_arguments, add_wishes
from bot.read import arguments as read_arguments
from bot.settings import LANGUAGE, BadSetting, Settings, read_settings

FAILED = 1
WRONGLY_CALLED = 2


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command; return the exit code: 0 done, 1 failed and said why, 2 called with something missing."""
    # Matrices here are small: threads of the numerics library would only wait for one another, and for the fire's chat.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    typed = sys.argv[1:] if argv is None else argv
    with speaking(_language(typed)):
        return _run(typed)


def _run(typed: Sequence[str]) -> int:
    given = _parser().parse_args(read_arguments.with_text_apart(typed))
    if given.version:
        return _version()
    if given.command == "rehearse":
        return _rehearse(given)
    if given.command == "backtest":
        from bot.backtest import command  # noqa: PLC0415 - slow to import

        return command.main(given.logs, targets=given.target, as_json=given.json)
    settings = _settings(given)
    if isinstance(settings, BadSetting):
        print(console.bad_setting(settings.setting, settings.given), file=sys.stderr)
        return WRONGLY_CALLED
    if given.command == "plan":
        from bot.plan import command as plan  # noqa: PLC0415 - slow to import

        now = dt.datetime.now(dt.UTC)
        return plan.main(given, zone=settings.zone, now=now, data_dir=settings.data_dir, edition=settings.rules)
    if given.command == "read":
        from bot.read import command as reading  # noqa: PLC0415 - slow to import

        return reading.main(given, zone=settings.zone, now=dt.datetime.now(dt.UTC), data_dir=settings.data_dir)
    if given.command == "record":
        from bot.record import command as record  # noqa: PLC0415 - slow to import

        return record.main(given, now=dt.datetime.now(dt.UTC), data_dir=settings.data_dir)
    if given.command == "chart":
        from bot.record import picture  # noqa: PLC0415 - slow to import

        return picture.main(given, now=dt.datetime.now(dt.UTC), data_dir=settings.data_dir)
    if given.command == "serve":
        if settings.token is None:
            print(console.missing_token(), file=sys.stderr)
            return WRONGLY_CALLED
        from bot.bootstrap.serving import serve  # noqa: PLC0415 - slow to import

        return serve(settings)
    if not settings.name:
        print(console.bad_setting("name", ""), file=sys.stderr)
        return WRONGLY_CALLED
    from bot.bootstrap.chatting import chat  # noqa: PLC0415 - slow to import

    return chat(settings)


def _language(typed: Sequence[str]) -> str | None:
    """Return the language that the command line itself speaks: known before any help is worded."""
    first = argparse.ArgumentParser(add_help=False, allow_abbrev=False, exit_on_error=False)
    first.add_argument("--language", nargs="?")
    try:
        given = first.parse_known_args(list(typed))[0].language
    except argparse.ArgumentError:
        given = None
    return given or os.environ.get(LANGUAGE) or None


def _parser() -> argparse.ArgumentParser:
    everywhere = argparse.ArgumentParser(add_help=False, argument_default=argparse.SUPPRESS)
    everywhere.add_argument("--data", metavar="DIR", help=console.help_data())
    everywhere.add_argument("--zone", metavar="ZONE", help=console.help_zone())
    everywhere.add_argument("--rules", metavar="RULES", help=console.help_rules())
    everywhere.add_argument("--language", metavar="LANG", help=console.help_language())
    person = argparse.ArgumentParser(add_help=False, argument_default=argparse.SUPPRESS)
    person.add_argument("--as", dest="name", metavar="NAME", help=console.help_name())
    parser = argparse.ArgumentParser(prog="slowbell", description=console.help_program(), parents=[everywhere, person])
    parser.add_argument("--version", action="store_true", help=console.help_version())
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    commands.add_parser("chat", help=console.help_chat(), parents=[everywhere, person])
    rehearse = commands.add_parser("rehearse", help=console.help_rehearse(), parents=[everywhere])
    rehearse.add_argument("--mine", action="store_true", help=console.help_mine())
    rehearse.add_argument("--whole", action="store_true", help=console.help_whole())
    add_wishes(rehearse)
    commands.add_parser("serve", help=console.help_serve(), parents=[everywhere])
    add_arguments(commands.add_parser("plan", help=help_plan(), parents=[everywhere]))
    read_arguments.add_arguments(commands.add_parser("read", help=help_read(), parents=[everywhere]))
    record = commands.add_parser("record", help=help_record(), parents=[everywhere])
    record.add_argument("cook", nargs="?", metavar="COOK", help=help_cook())
    record.add_argument("--csv", metavar="FILE", help=help_csv())
    record.add_argument("--pdf", metavar="FILE", help=help_pdf())
    chart = commands.add_parser("chart", help=help_chart(), parents=[everywhere])
    chart.add_argument("cook", nargs="?", metavar="COOK", help=help_cook())
    chart.add_argument("--png", metavar="FILE", help=help_png())
    chart.add_argument("--dark", action="store_true", help=help_dark())
    chart.add_argument("--unit", choices=("C", "F"), help=help_unit())
    backtest = commands.add_parser("backtest", help=console.help_backtest())
    backtest.add_argument("logs", nargs="+", metavar="LOG.csv", help=console.help_logs())
    backtest.add_argument("--target", action="append", metavar="TEMP", help=console.help_target())
    backtest.add_argument("--json", action="store_true", help=console.help_json())
    return parser


def _settings(given: argparse.Namespace) -> Settings | BadSetting:
    return read_settings(
        os.environ,
        local_zone=_local_zone,
        login_name=_login_name,
        data=getattr(given, "data", None),
        zone=getattr(given, "zone", None),
        name=getattr(given, "name", None),
        rules=getattr(given, "rules", None),
        language=getattr(given, "language", None),
    )


def _local_zone() -> str:
    """Return the zone of this machine, empty when it does not say."""
    import tzlocal  # noqa: PLC0415 - only when nobody named a zone

    try:
        return str(tzlocal.get_localzone_name())
    except (LookupError, ValueError, OSError):
        return ""


def _login_name() -> str:
    """Return who is logged in, empty when nobody knows."""
    try:
        return getpass.getuser()
    except (LookupError, OSError, ImportError):
        return ""


def _version() -> int:
    import importlib.metadata  # noqa: PLC0415 - slow to import

    print(importlib.metadata.version("slowbell"))
    return 0


def _rehearse(given: argparse.Namespace) -> int:
    """Play the rehearsal, which a small installation may lack: of the allotment club, or of one's own plan."""
    if importlib.util.find_spec("bot.rehearsal") is None:
        print(console.no_rehearsal(), file=sys.stderr)
        return FAILED
    wished = bool(getattr(given, "pieces", None)) or given.file is not None
    if not given.mine and not wished:
        with speaking(None):  # the invented crew of the allotment club speaks English
            return int(importlib.import_module("bot.rehearsal").main(getattr(given, "data", None)))
    settings = _settings(given)
    if isinstance(settings, BadSetting):
        print(console.bad_setting(settings.setting, settings.given), file=sys.stderr)
        return WRONGLY_CALLED
    own = importlib.import_module("bot.rehearsal.own.command")
    if given.mine:
        return int(own.rehearse_mine(settings.data_dir, print, whole=given.whole))
    plan = importlib.import_module("bot.plan.command")
    made = plan.planned(given, zone=settings.zone, now=dt.datetime.now(dt.UTC), data_dir=settings.data_dir)
    if made is None:
        return WRONGLY_CALLED
    return int(own.rehearse_plan(made.facts, print, whole=given.whole))


if __name__ == "__main__":
    sys.exit(main())

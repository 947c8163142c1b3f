"""Starts the server: `python -m tests.fakes.botapi --port 0` prints the port it listens on.

It must not outlive its standard input: when that closes, it ends.
"""

from __future__ import annotations

import argparse
import sys
import threading

from tests.fakes.botapi.client import TOKEN
from tests.fakes.botapi.desk import Desk
from tests.fakes.botapi.server import BotApiServer


def main() -> None:
    """Serve until standard input closes."""
    arguments = argparse.ArgumentParser(description="A strict Bot API server for tests.")
    arguments.add_argument("--port", type=int, default=0, help="0 takes any free port")
    arguments.add_argument("--token", default=TOKEN, help="the only one that is accepted")
    given = arguments.parse_args()
    desk = Desk(given.token)
    server = BotApiServer(given.port, desk)
    sys.stdout.write(f"{server.server_address[1]}\n")
    sys.stdout.flush()
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
    sys.stdin.read()
    desk.order("stop", {})
    server.shutdown()
    server.server_close()


if __name__ == "__main__":
    main()

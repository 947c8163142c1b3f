"""Keeps tests on this machine: an audit hook that stops any call to another host before a packet leaves.

It must not know which test is running, nor allow exceptions.
"""

from __future__ import annotations

import ipaddress


class OtherHost(RuntimeError):
    """A test tried to reach another host than this machine."""


def refuse_other_hosts(event: str, args: tuple[object, ...]) -> None:
    """Raise `OtherHost` when a socket connects, sends or looks up a name beyond loopback."""
    if event == "socket.getaddrinfo":
        _refuse_unless_here(args[0])
    elif event in {"socket.connect", "socket.sendto"}:
        address = args[1]
        if isinstance(address, tuple):  # a path is a socket file of this machine
            _refuse_unless_here(address[0])


def _refuse_unless_here(host: object) -> None:
    name = host.decode("ascii", "replace") if isinstance(host, bytes) else host
    if name in {None, "", "localhost"}:
        return
    try:
        here = ipaddress.ip_address(str(name)).is_loopback
    except ValueError:
        here = False
    if not here:
        message = f"tests talk to loopback only, not to {name!r}"
        raise OtherHost(message)

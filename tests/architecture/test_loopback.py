"""Tests stay on this machine, and the guard that sees to it works."""

from __future__ import annotations

import socket

import pytest

from tests.loopback import OtherHost, refuse_other_hosts


def test_the_guard_is_on() -> None:
    """Looking up any other name fails before a packet leaves."""
    with pytest.raises(OtherHost):
        socket.getaddrinfo("slowbell.invalid", 443)


@pytest.mark.parametrize("host", ["192.0.2.1", "2001:db8::1", "10.0.0.1", b"example.invalid"])
def test_other_hosts_are_refused(host: str | bytes) -> None:
    """An address beyond loopback is refused, whatever its form."""
    with pytest.raises(OtherHost):
        refuse_other_hosts("socket.connect", (None, (host, 443)))


@pytest.mark.parametrize("address", [("127.0.0.1", 1), ("::1", 1, 0, 0), ("localhost", 1), "/run/a.sock"])
def test_this_machine_may_be_reached(address: object) -> None:
    """Loopback addresses and socket files pass."""
    refuse_other_hosts("socket.connect", (None, address))

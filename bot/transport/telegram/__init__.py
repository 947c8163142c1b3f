"""Telegram: a poller that brings raw updates in, a decoder that reads them, a transport that sends.

It must not decide anything about a cook, nor choose words. It is the only room that imports the library.
"""

from __future__ import annotations

import os

# The library still gives a flood limit as a bare number and warns on every one; this asks for its future
# form, a timedelta (telegram/_utils/datetime.py, 22.8). Read at each use, so it may be set here.
os.environ.setdefault("PTB_TIMEDELTA", "1")

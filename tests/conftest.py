"""What holds for every test: talk to this machine only, and search for counter-examples without a stopwatch.

It must not hold the fixtures of single rooms: those live beside their tests.
"""

from __future__ import annotations

import os
import sys

from hypothesis import settings

from tests.loopback import refuse_other_hosts

sys.addaudithook(refuse_other_hosts)

# No deadline: a slow machine is no counter-example. In CI the same examples every time.
settings.register_profile("here", deadline=None, print_blob=True)
settings.register_profile("ci", deadline=None, print_blob=True, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "here")

"""Which way of learning from readings to build on: eight designs asked the same questions, and scored alike.

It judges, and changes nothing of the engine; the outcome is written down in docs/decisions/0006.
"""

"""How long answers take and how much memory they need: figures for the docs, asserted nowhere.

`pytest tests/benchmarks --benchmark-enable` or `python -m tests.benchmarks.report`.
"""

"""Backtest: the forecast asked again at every reading of a past cook, and its answers held against what came.

It reads logs of people's own cooks from files; it needs no store, and nothing else may need it.
"""

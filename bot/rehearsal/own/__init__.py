"""A person's own plan, played ahead of time three times: with a fast, a usual and a slow piece.

It must not touch the person's own data folder: each performance has a database of its own, thrown away at the end.
"""

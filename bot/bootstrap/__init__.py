"""The composition root: the only place that names concrete adapters and puts them together.

It must not decide anything: it reads, connects, starts, and says in one sentence what cannot be started.
"""

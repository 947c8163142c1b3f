"""Queries and statements, one module per responsibility; each function works inside a transaction it is given.

No transaction is begun or ended here.
"""

"""Alarm clocks: the real one and one that is moved by hand.

This room knows no cooks and no messages: it only says "look now".
"""

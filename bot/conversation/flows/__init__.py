"""Conversations of more than one message, as pure functions of what was said so far."""

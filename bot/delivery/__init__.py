"""The delivering half: takes messages from the outbox table to the transports.

It never listens and never decides: it meets `bot.application` only in the outbox table.
"""

"""The record and the chart of a cook without a chat: from the data folder to a table, printed pages, a picture.

It must not change anything: it reads the log of one cook, also while the bot is running.
"""

"""The terminal as a messenger: a window per named person, all on one data folder.

It knows nothing of cooks: typed lines go to the inbox table, what is shown comes from the screen table.
"""

"""A plan without a chat: from the command line or a plan file to text, JSON, a calendar or a page.

It makes no plan of its own: it writes the facts that a chat would write, and reads the situation that follows.
"""

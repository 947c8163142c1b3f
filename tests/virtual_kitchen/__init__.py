"""A kitchen of its own equations: three-dimensional heat and water in meat, cookers that wander, people who slip.

It imports nothing of `scheduler` or `bot`: what it says of a cook can disagree with the engine, and is meant to.
"""

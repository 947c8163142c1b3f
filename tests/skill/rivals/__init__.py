"""What people do without a model: each rival foretells the minute of a core temperature from readings alone.

A rival is a function of a stage, a cut and a target [°F]; it returns minutes since meat on.
"""

LONGEST_MIN = 34 * 60.0
"""Whoever sees no end says this."""

"""Planning: what is to be done when, from a log of facts and a forecast. Pure; no wording, no storage."""

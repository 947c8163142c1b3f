"""How well forecasts foretell cooks they have never seen: rivals, scores, and a report on the virtual kitchen.

It judges; it holds no model of meat but the simplest rivals.
"""

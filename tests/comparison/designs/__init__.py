"""Eight designs with one signature, `predict(question, target_c) -> Answer`; each is what its first line says it is.

Not all are innocent of the committed cooks: the spreads that the first four share were chosen with scores on them in
view, and so was the form of the Kalman filter. Only `tests.comparison.fresh` is new to every one of them.
"""

from __future__ import annotations

from tests.comparison.answer import Design
from tests.comparison.designs import (
    exponential,
    gauss_newton,
    log_kalman,
    per_kilo,
    perturbed,
    reweighted,
    square_root,
    straight_line,
)

OURS = "engine: ES-MDA, square root"
DESIGNS: dict[str, Design] = {
    OURS: square_root.predict,
    "ES-MDA, perturbed readings": perturbed.predict,
    "Gauss-Newton and Laplace": gauss_newton.predict,
    "2,000 members reweighted": reweighted.predict,
    "Kalman filter on log(T_end - T)": log_kalman.predict,
    "straight line of three readings": straight_line.predict,
    "exponential approach to the pit": exponential.predict,
    "hours per kilo": per_kilo.predict,
}
"""In the order of the tables."""

VARIANTS: dict[str, Design] = {
    OURS: square_root.predict,
    **{f"{members} members": square_root.variant(members) for members in (80, 240, 480)},
}
"""The engine with more or fewer members."""

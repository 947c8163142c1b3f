"""Write the fit of every cut into `scheduler/forecast/fitted.py`: run after medians or cuts have changed.

`python -m tests.calibration.record`. Takes some seconds; the same catalogue gives the same record.
"""

from __future__ import annotations

import re
from pathlib import Path

from scheduler.forecast import fit, fitted
from tests.calibration.trade import cuts


def table() -> str:
    """Return the record as Python source."""
    lines = ["# fmt: off", "RECORDED: dict[str, Record] = {"]
    for cut in sorted(cuts().cuts, key=lambda one: one.id):
        made = fit.made(cut)
        lasting = ", ".join(f"{share:.3f}" for share in made.anchor.lasting)
        figures = ", ".join(f"{figure!r}" for figure in fitted.figures(cut))
        lines += [
            f'    "{cut.id}": Record(',
            f"        figures=({figures}),",
            f"        thick={made.anchor.thick:.4f},",
            f"        lasting=({lasting}),",
            f"        kept={made.anchor.kept:.4f},",
            f"        dose_h={made.dose_h:.4g},",
            "    ),",
        ]
    return "\n".join([*lines, "}", "# fmt: on"]) + "\n"


def main() -> None:
    """Replace the record in place."""
    path = Path(fitted.__file__)
    text = path.read_text(encoding="utf-8")
    before, _ = re.split(r"^(?:# fmt: off\n)?RECORDED: dict", text, maxsplit=1, flags=re.MULTILINE)
    replaced = before + table()
    path.write_text(replaced, encoding="utf-8")


if __name__ == "__main__":
    main()

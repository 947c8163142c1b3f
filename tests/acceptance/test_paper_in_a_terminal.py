"""The plan on paper in a terminal: a real window, a file in the data folder, read back by an independent library."""

from __future__ import annotations

import re
from pathlib import Path

import pypdf

from tests.integration.program_process import started


def test_a_page_typed_for_lies_in_the_data_folder(tmp_path: Path) -> None:
    """The window says where; the file is one page with the limits on it, and its owner's alone."""
    with started("chat", "--data", str(tmp_path), "--zone", "UTC", "--as", "Ines", module="bot") as ines:
        ines.sees("Ines")
        ines.type("7 racks of short ribs, when ready, pit 275\n")
        ines.sees("Dinner when ready")
        ines.type("page\n")
        told = ines.sees("page-1.pdf")
        assert re.search(r"Saved as", told)
    (path,) = (tmp_path / "papers").iterdir()
    assert path.stat().st_mode & 0o777 == 0o600
    (page,) = pypdf.PdfReader(path).pages
    assert "Food out: two hours" in page.extract_text().replace("\n", " ")

"""The catalogues of translation, made anew from the source: `python -m tests.catalogues` after any change of wording.

It asserts nothing; `tests/architecture/test_catalogues.py` compares what lies in bot/messages/locale with what is made
now. Translations are kept, texts that nobody says any more are dropped, new ones stand there empty. With `--open`
it prints what is not translated.
"""

from __future__ import annotations

import ast
import io
import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

from babel.messages.catalog import Catalog, Message
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from bot.messages.words import LOCALE

ROOT = Path(__file__).parent.parent
CUTS = ROOT / "scheduler" / "catalogue" / "cuts"
OF_THE_ENGINE = (ROOT / "scheduler" / "cookers.py", ROOT / "scheduler" / "cuts" / "own.py")
KEYWORDS = {"_": None, "n_": (1, 2)}
OF_A_CUT = ("name", "several", "piece_word", "feel_words")
"""Fields of a cut that are shown; a `piece_word` also stands in the plural."""

DATED = re.compile(
    r'^"(?:POT-Creation-Date|PO-Revision-Date|Generated-By|Last-Translator|Language-Team|Report-Msgid\S+): .*\n',
    re.MULTILINE,
)
"""Lines of a head that would change at every run, or name nobody."""

LANGUAGES = tuple(sorted(path.name for path in LOCALE.iterdir() if path.is_dir())) if LOCALE.is_dir() else ()


def said_in_source() -> Iterator[str | tuple[str, ...]]:
    """Yield each text that passes through the door of translation: one, or (one, many)."""
    for _name, _line, message, _comments, _context in extract_from_dir(
        ROOT / "bot", method_map=[("**.py", "python")], keywords=KEYWORDS
    ):
        yield message


def said_of_cuts() -> Iterator[str]:
    """Yield each text about a cut that stands in a data file of the engine."""
    for path in sorted(CUTS.glob("*.toml")):
        for cut in tomllib.loads(path.read_text(encoding="utf-8")).get("cuts", []):
            yield from (cut[field] for field in OF_A_CUT if cut.get(field))
            if cut.get("piece_word"):
                yield cut["piece_word"] + "s"


def said_of_files() -> Iterator[str]:
    """Yield why a person's own file cannot be used, as the rooms that read such files say it."""
    for path in (*sorted((ROOT / "bot" / "catalogue").glob("*.py")), *OF_THE_ENGINE):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            match node:
                case ast.keyword(arg="why", value=value) | ast.Assign(targets=[ast.Name(id="why")], value=value):
                    yield from _alternatives(value)
                case _:
                    pass


def _alternatives(node: ast.expr) -> Iterator[str]:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from (*_alternatives(node.body), *_alternatives(node.orelse))


def template() -> Catalog:
    """Return every text, untranslated, in the order of the alphabet."""
    made = Catalog(project="slowbell", version="0.1", fuzzy=False)
    for message in (*said_in_source(), *said_of_cuts(), *said_of_files()):
        made.add(message)
    return made


def kept(language: str) -> Catalog:
    """Return the catalogue of a language as it lies there."""
    with po_path(language).open("rb") as file:
        return read_po(file, locale=language, domain="slowbell")


def renewed(language: str) -> Catalog:
    """Return the catalogue of a language with exactly the texts of the source."""
    catalogue = kept(language)
    catalogue.update(template(), no_fuzzy_matching=True)
    catalogue.obsolete.clear()
    catalogue.fuzzy = False
    return catalogue


def po_bytes(catalogue: Catalog) -> bytes:
    """Return a catalogue as it is kept in the tree: sorted, without places and dates, so that changes merge."""
    out = io.BytesIO()
    write_po(out, catalogue, width=0, no_location=True, sort_output=True, omit_header=False)
    return DATED.sub("", out.getvalue().decode()).encode()


def open_texts(catalogue: Catalog) -> list[Message]:
    """Return the texts that are not translated, or only guessed."""
    return [one for one in catalogue if one.id and (one.fuzzy or not _whole(one.string))]


def _whole(translated: str | tuple[str, ...] | list[str] | None) -> bool:
    return bool(translated) and all([translated] if isinstance(translated, str) else translated or [])


def po_path(language: str) -> Path:
    """Return where the catalogue of a language lies, as text."""
    return LOCALE / language / "LC_MESSAGES" / "slowbell.po"


def main() -> None:
    """Write each catalogue anew."""
    for language in LANGUAGES:
        catalogue = renewed(language)
        po_path(language).write_bytes(po_bytes(catalogue))
        missing = open_texts(catalogue)
        sys.stdout.write(f"{language}: {len(catalogue)} texts, {len(missing)} not translated\n")
        if "--open" in sys.argv:
            sys.stdout.writelines(f"{one.id!r}\n" for one in missing)


if __name__ == "__main__":
    main()

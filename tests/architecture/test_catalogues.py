"""Every text for people passes through the catalogues, and a translation says what its text says."""

from __future__ import annotations

import ast
import re
import string
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog

from bot.messages.words import LOCALE, SOURCE_LANGUAGE, _, languages, n_, speaking
from tests.architecture.tree import ROOT, python_files, text_of
from tests.catalogues import LANGUAGES, kept, po_bytes, po_path

AGAIN = "python -m tests.catalogues writes the catalogues anew"
PROGRAM = [path for path in python_files() if path.parts[0] == "bot"]
MESSAGES = [path for path in PROGRAM if path.parts[:2] == ("bot", "messages")]

SENTENCE = re.compile(r"[A-Za-z]{2,}[ ,.:]+ *[A-Za-z]{2,}")
"""Two words: what a person would read as language."""
TYPED = {"another thermometer", "it stays"}
"""What a button stands for as if it had been typed: kept with the cook, shown to nobody."""
TELLS = {
    "Message",
    "add_argument",
    "add_parser",
    "ArgumentParser",
    "answer_tap",
    "print",
    "put",
    "reply",
    "say",
    "show",
}
"""What brings words before people."""
FILE_NAME = re.compile(r"[A-Za-z*_/]+(?:/[A-Z_]+/slowbell)?\.[a-z]{2,4}")
FIGURES = re.compile(r"\d+(?:[.,]\d+)?")
MOST_LONGER = 1.4
"""A translation may be so much longer than its English text: limits of captions and buttons keep that much room."""
A_WORD = 12
"""And one long word more: "pull" is "vom Feuer"."""


def calls_of_words(tree: ast.AST) -> list[ast.Call]:
    """Return every passing of the door of translation."""
    names = {"_", "n_"}
    return [
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in names
    ]


def evaluated_at_import(tree: ast.Module) -> list[int]:
    """Return the lines of texts that are translated when a module is imported: in one language for ever."""
    late = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)]
    inside: set[ast.AST] = set()
    for function in late:
        body = function.body if isinstance(function.body, list) else [function.body]
        inside |= {node for statement in body for node in ast.walk(statement)}
    return [call.lineno for call in calls_of_words(tree) if call not in inside]


def outside_the_catalogue(tree: ast.Module) -> list[tuple[int, str]]:
    """Return the sentences of a module that pass no door: docstrings and errors for programmers are none."""
    passed: set[ast.AST] = {one for call in calls_of_words(tree) for one in ast.walk(call)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            passed.add(node.value)
        pattern = isinstance(node, ast.Call) and ast.unparse(node.func).startswith("re.")
        if isinstance(node, ast.Raise | ast.Assert) or pattern:
            passed |= set(ast.walk(node))
    texts = [
        (node.lineno, node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node not in passed
    ]
    return [(line, text) for line, text in texts if _is_said(text)]


def _is_said(text: str) -> bool:
    """Return whether a text reads as language that a person is shown."""
    return bool(SENTENCE.search(text)) and text not in TYPED and not FILE_NAME.fullmatch(text)


def told_directly(tree: ast.Module) -> list[tuple[int, str]]:
    """Return the sentences that go straight into what tells people something."""
    calls = [node for node in ast.walk(tree) if isinstance(node, ast.Call)]
    telling = [call for call in calls if ast.unparse(call.func).rpartition(".")[2] in TELLS]
    given = [one for call in telling for one in (*call.args, *(keyword.value for keyword in call.keywords))]
    texts = [node for one in given for node in ast.walk(one) if isinstance(node, ast.Constant)]
    return [(node.lineno, node.value) for node in texts if isinstance(node.value, str) and _is_said(node.value)]


@pytest.fixture(scope="module", params=LANGUAGES)
def language(request: pytest.FixtureRequest) -> str:
    """Return each language that is translated into."""
    return str(request.param)


@pytest.fixture(scope="module")
def catalogue(language: str) -> Catalog:
    """Return its catalogue as it lies in the tree."""
    return kept(language)


def pairs(catalogue: Catalog, *, plurals: bool = True) -> list[tuple[str, str]]:
    """Return each English form with its translation, those of one and of many too where `plurals`."""
    found: list[tuple[str, str]] = []
    for one in catalogue:
        if not one.id or (not plurals and not isinstance(one.id, str)):
            continue
        sources = (one.id,) if isinstance(one.id, str) else tuple(one.id)
        forms = (one.string,) if isinstance(one.string, str) else tuple(one.string or ())
        found += zip(sources, forms, strict=True)
    return found


def fields(text: str) -> list[tuple[str, str]]:
    """Return what is put into a text, with how it is written."""
    return sorted((name, form or "") for _text, name, form, _how in string.Formatter().parse(text) if name is not None)


def test_german_is_spoken() -> None:
    """There is one more language than the one of the source, and the program finds it."""
    assert "de" in LANGUAGES
    assert languages() == (SOURCE_LANGUAGE, *LANGUAGES)
    assert all((LOCALE / one / "LC_MESSAGES" / "slowbell.po").is_file() for one in LANGUAGES)


def test_no_text_is_translated_at_import() -> None:
    """A text is looked up when it is said: a module or a class that kept one would keep its language, too."""
    early = {str(path): lines for path in PROGRAM if (lines := evaluated_at_import(ast.parse(text_of(path))))}
    assert early == {}


def test_no_sentence_is_outside_the_catalogues() -> None:
    """In the room of words every sentence passes through the door of translation."""
    bare = {str(path): found for path in MESSAGES if (found := outside_the_catalogue(ast.parse(text_of(path))))}
    assert bare == {}


def test_nobody_else_makes_sentences() -> None:
    """Outside the room of words nothing tells people a sentence of its own: no message, print, window or help text."""
    others = [path for path in PROGRAM if path not in MESSAGES]
    assert {str(path): found for path in others if (found := told_directly(ast.parse(text_of(path))))} == {}


def test_no_name_of_a_day_or_month_is_of_the_machine() -> None:
    """Weekdays and months come from Babel, in the language of the room: `strftime` would take those of the machine."""
    named = re.compile(r"%[aAbBcxXp](?![a-z])")
    assert [str(path) for path in PROGRAM if named.search(text_of(path))] == []


def test_the_finders_find() -> None:
    """The measures themselves: a text at import and a bare sentence are seen, what is right is not."""
    tree = ast.parse('_A = _("said early")\ndef f(x=_("also early")):\n    return _("said late"), lambda: _("late")\n')
    assert evaluated_at_import(tree) == [1, 2]
    bare = ast.parse('def f():\n    """A docstring of words."""\n    return "two words" + _("in the book")\n')
    assert outside_the_catalogue(bare) == [(3, "two words")]
    assert told_directly(ast.parse('say(Message(text="Hello there, you"))\nlog.info("not for people")\n')) != []
    assert told_directly(ast.parse('log.info("not for people")\n')) == []


def test_the_program_reads_what_the_text_file_says(language: str, catalogue: Catalog) -> None:
    """Each text is spoken as the catalogue says, one and many; the file is written as always."""
    with speaking(language):
        wrong = [(one, two, _(one)) for one, two in pairs(catalogue, plurals=False) if two and _(one) != two]
        assert wrong == []
        assert n_("{count} person", "{count} people", 1) != n_("{count} person", "{count} people", 2)
    assert po_path(language).read_bytes() == po_bytes(catalogue), AGAIN


def test_what_is_put_in_is_the_same(catalogue: Catalog) -> None:
    """A translation takes the same names, each written in the same way."""
    assert [(one, two) for one, two in pairs(catalogue) if fields(one) != fields(two)] == []


def test_edges_are_the_same(catalogue: Catalog) -> None:
    """A text that begins or ends with a blank, or has several lines, does so in every language."""

    def edges(text: str) -> tuple[bool, bool, int]:
        return text[:1].isspace(), text[-1:].isspace(), text.count("\n")

    assert [(one, two) for one, two in pairs(catalogue) if edges(one) != edges(two)] == []


def test_figures_are_the_same(catalogue: Catalog) -> None:
    """No figure of a text is lost, added or changed: limits are the same in every language."""

    def figures(text: str) -> list[str]:
        return sorted(figure.replace(",", ".") for figure in FIGURES.findall(text))

    assert [(one, two) for one, two in pairs(catalogue) if figures(one) != figures(two)] == []


def test_translations_stay_short(catalogue: Catalog) -> None:
    """No translation is much longer than its text: what fits a caption in English fits in every language."""
    long = [(one, two) for one, two in pairs(catalogue) if len(two) > MOST_LONGER * len(one) + A_WORD]
    assert long == []


def test_no_file_of_a_catalogue_lies_elsewhere() -> None:
    """Catalogues lie beside the words, one folder a language."""
    found = {path.relative_to(ROOT) for path in Path(ROOT / "bot").rglob("*.[pm]o")}
    places = {Path("bot/messages/locale") / one / "LC_MESSAGES" for one in LANGUAGES}
    assert {path.parent for path in found} == places

"""Each catalogue is whole: it holds every text that is said, all of them translated, and none that nobody says."""

from __future__ import annotations

import pytest

from tests.catalogues import LANGUAGES, kept, open_texts, renewed

AGAIN = "python -m tests.catalogues writes the catalogues anew; --open prints what is to be translated"


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_catalogue_holds_what_is_said(language: str) -> None:
    """Every text of the source stands in the catalogue, and none that nobody says any more."""
    said = {str(one.id) for one in renewed(language) if one.id}
    there = {str(one.id) for one in kept(language) if one.id}
    assert (sorted(said - there), sorted(there - said)) == ([], []), AGAIN


@pytest.mark.parametrize("language", LANGUAGES)
def test_everything_is_translated(language: str) -> None:
    """No text is open, guessed or left over."""
    catalogue = kept(language)
    assert [one.id for one in open_texts(catalogue)] == [], AGAIN
    assert not catalogue.obsolete

"""Settings: what counts before what, and what cannot be used."""

from __future__ import annotations

import getpass
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.settings import BadSetting, Settings, read_settings
from scheduler.facts import Edition


def read(environ: dict[str, str] | None = None, **given: str) -> Settings | BadSetting:
    """Read settings on a machine in Lisbon where Ines is logged in."""
    return read_settings(
        environ or {},
        local_zone=lambda: "Europe/Lisbon",
        login_name=lambda: "ines",
        data=given.get("data"),
        zone=given.get("zone"),
        name=given.get("name"),
        rules=given.get("rules"),
        language=given.get("language"),
    )


def test_the_defaults_are_of_this_person_and_machine() -> None:
    """With nothing given: the user's data folder, the machine's zone, the login name, no token."""
    settings = read()
    assert isinstance(settings, Settings)
    assert settings.data_dir.name == "slowbell"
    assert settings.data_dir.is_absolute()
    assert (settings.zone, settings.name, settings.token) == ("Europe/Lisbon", "ines", None)
    assert settings.bot_api.startswith("https://")


def test_the_command_line_counts_before_the_environment(tmp_path: Path) -> None:
    """What is typed wins over variables, variables win over the defaults."""
    environ = {"SLOWBELL_DATA": str(tmp_path / "env"), "SLOWBELL_ZONE": "Europe/Paris"}
    by_environ, by_hand = read(environ), read(environ, data=str(tmp_path / "hand"), zone="Asia/Tokyo", name="Wren")
    assert isinstance(by_environ, Settings)
    assert isinstance(by_hand, Settings)
    assert (by_environ.data_dir.name, by_environ.zone) == ("env", "Europe/Paris")
    assert (by_hand.data_dir.name, by_hand.zone, by_hand.name) == ("hand", "Asia/Tokyo", "Wren")


@pytest.mark.parametrize("zone", ["Europe/Lissabon", "", "../../etc/passwd", "/etc/passwd", "Europe"])
def test_an_unknown_zone_is_named(zone: str) -> None:
    """A zone that does not exist, or that this machine cannot say, is an answer that names it."""
    bad = read_settings({}, local_zone=lambda: zone, login_name=lambda: "ines")
    assert bad == BadSetting(setting="zone", given=zone)


@pytest.mark.parametrize(
    ("typed", "name"),
    [("  Ines   de Harrow ", "Ines de Harrow"), ("\x1b[31mIn\x07es", "[31mIn es"), ("Ινές", "Ινές")],
)
def test_a_name_is_what_can_be_shown_of_it(typed: str, name: str) -> None:
    """Blanks are tidied and control characters dropped."""
    settings = read(name=typed)
    assert isinstance(settings, Settings)
    assert settings.name == name


def test_a_name_of_nothing_visible_is_refused() -> None:
    """A name that cannot be seen is an answer, not a window without a name."""
    assert read(name=" \x1b ") == BadSetting(setting="name", given=" \x1b ")


def test_the_token_is_never_shown() -> None:
    """Neither the settings nor an error about them show the token; blanks around it are dropped."""
    secret = "123456:abcdefghijklmnopqrstuvwxyz"
    settings = read({"SLOWBELL_TOKEN": f" {secret}\n"})
    assert isinstance(settings, Settings)
    assert settings.token is not None
    assert settings.token.get_secret_value() == secret
    assert secret not in repr(settings)
    assert secret not in settings.model_dump_json()
    assert secret not in repr(read({"SLOWBELL_TOKEN": secret, "SLOWBELL_BOT_API": "nonsense"}))


def test_a_server_must_be_an_address() -> None:
    """Another Bot API server is given by its address, without a slash at the end."""
    settings = read({"SLOWBELL_BOT_API": "http://127.0.0.1:8081/"})
    assert isinstance(settings, Settings)
    assert settings.bot_api == "http://127.0.0.1:8081"
    assert read({"SLOWBELL_BOT_API": "nonsense"}) == BadSetting(setting="bot_api", given="nonsense")


# --- the command line -----------------------------------------------------------------------------------------------


@pytest.fixture(autouse=True)
def _no_variables(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for name in ("SLOWBELL_TOKEN", "SLOWBELL_ZONE", "SLOWBELL_BOT_API"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("SLOWBELL_DATA", str(tmp_path / "data"))


def one_sentence(told: str) -> bool:
    """Return whether something is one line, with a full stop and without a traceback."""
    return told.count("\n") == 1 and told.endswith(".\n") and "Traceback" not in told


def test_serve_without_a_token_says_where_to_get_one(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """One sentence names the variable and who makes tokens; nothing is made on disk."""
    assert main(["serve"]) == 2
    told = capsys.readouterr().err
    assert one_sentence(told)
    assert "SLOWBELL_TOKEN" in told
    assert "@BotFather" in told
    assert not (tmp_path / "data").exists()


def test_an_unknown_zone_is_said_in_one_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    """The sentence names the zone and how to give another; the option may stand before or after the command."""
    for words in (["chat", "--zone", "Europe/Lissabon"], ["--zone", "Europe/Lissabon", "chat"]):
        assert main(words) == 2
        told = capsys.readouterr().err
        assert one_sentence(told)
        assert "Europe/Lissabon" in told
        assert "--zone" in told


def test_nobody_logged_in_is_asked_for_a_name(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where no login name is known (a bare container), the chat asks for --as in one sentence."""

    def nobody() -> str:
        raise OSError

    monkeypatch.setattr(getpass, "getuser", nobody)
    assert main(["chat", "--zone", "UTC"]) == 2
    told = capsys.readouterr().err
    assert one_sentence(told)
    assert "--as" in told


def test_the_version_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    """--version prints a version and nothing else."""
    assert main(["--version"]) == 0
    assert capsys.readouterr().out.strip()[0].isdigit()


@pytest.mark.parametrize(
    ("said", "edition"),
    [("food-code", Edition.FOOD_CODE), ("FOOD_CODE", Edition.FOOD_CODE), ("consumer", Edition.CONSUMER)],
)
def test_the_rules_that_count_are_a_setting(said: str, edition: Edition) -> None:
    """From the environment, over which the command line counts; the stricter ones where nobody says."""
    by_environ, plain = read({"SLOWBELL_RULES": said}), read()
    by_hand = read({"SLOWBELL_RULES": said}, rules="stricter")
    assert isinstance(by_environ, Settings)
    assert isinstance(plain, Settings)
    assert isinstance(by_hand, Settings)
    assert (by_environ.rules, plain.rules, by_hand.rules) == (edition, Edition.STRICTER, Edition.STRICTER)


def test_the_language_is_a_setting(capsys: pytest.CaptureFixture[str]) -> None:
    """The environment names the language of the terminal, the command line overrules it, and help follows."""
    given = read({}), read({"SLOWBELL_LANGUAGE": "de"}), read({"SLOWBELL_LANGUAGE": "de"}, language="en")
    assert [getattr(one, "language", "") for one in given] == [None, "de", "en"]
    assert read({"SLOWBELL_LANGUAGE": "tlh"}) == BadSetting(setting="language", given="tlh")
    assert main(["plan", "--language", "tlh", "--cut", "brisket", "--zone", "UTC"]) == 2
    assert "--language, or SLOWBELL_LANGUAGE, is one of en, de, not 'tlh'." in capsys.readouterr().err
    with pytest.raises(SystemExit):
        main(["--language", "de", "--help"])
    assert "den Chat in diesem Terminal öffnen" in capsys.readouterr().out


def test_rules_nobody_knows_are_named_with_those_there_are(capsys: pytest.CaptureFixture[str]) -> None:
    """A kind error with what would work, and no plan."""
    assert read({"SLOWBELL_RULES": "mine"}) == BadSetting(setting="rules", given="mine")
    assert main(["plan", "--rules", "mine", "--cut", "brisket", "--zone", "UTC"]) == 2
    said = capsys.readouterr().err
    assert all(word in said for word in ("stricter", "consumer", "food-code", "'mine'"))

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.library.home import data_home
from game.library.settings import (
    DETAILS,
    LENGTHS,
    SETTINGS,
    Settings,
    keep_settings,
    kept_settings,
)

settings = st.builds(
    Settings, units=st.sampled_from(LENGTHS), left_handed=st.booleans(), detail=st.sampled_from(DETAILS),
    dark=st.booleans(), sound=st.booleans(), volume=st.floats(0, 1), reduced_motion=st.booleans(),
    text_scale=st.floats(1, 2), width=st.integers(320, 16384), height=st.integers(240, 16384),
)  # fmt: skip


@given(settings)
def test_round_trip(tmp_path_factory, kept):
    home = tmp_path_factory.mktemp("home") / "not there yet"
    assert keep_settings(home, kept) == ""
    assert kept_settings(home) == (kept, "")


def test_no_file_means_the_standard_without_a_word(tmp_path):
    assert kept_settings(tmp_path) == (Settings(), "")


@pytest.mark.parametrize(
    "text",
    ["", "{", "[1]", '{"volume": 3}', '{"dark": 1}', '{"units": "ell"}', '{"text_scale": NaN}',
     '{"width": 12.5}', "[" * 100_000, "\ufeff{}"],
)  # fmt: skip
def test_a_bad_file_is_kept_aside_and_told_in_one_sentence(tmp_path, text):
    (tmp_path / SETTINGS.name).write_text(text, encoding="utf-8")
    found, sentence = kept_settings(tmp_path)
    assert found == Settings()
    assert "settings.bad.json" in sentence
    assert "\n" not in sentence
    assert (tmp_path / "settings.bad.json").read_text(encoding="utf-8") == text
    assert kept_settings(tmp_path) == (Settings(), "")


def test_bytes_that_are_no_text(tmp_path):
    (tmp_path / SETTINGS.name).write_bytes(b"\xff\xfe\x00")
    assert "settings.bad.json" in kept_settings(tmp_path)[1]


def test_keys_of_a_newer_version_are_passed_over(tmp_path):
    (tmp_path / SETTINGS.name).write_text(json.dumps({"dark": True, "hologram": 3}))
    assert kept_settings(tmp_path) == (Settings(dark=True), "")


def test_a_folder_in_the_way_is_a_sentence(tmp_path):
    (tmp_path / SETTINGS.name).mkdir()
    assert kept_settings(tmp_path)[1].startswith("The settings cannot be read")
    assert keep_settings(tmp_path, Settings()).startswith("The settings could not be kept")
    assert [p.name for p in tmp_path.iterdir()] == [SETTINGS.name]  # no part is left behind


def test_limits_hold_in_memory_too():
    with pytest.raises(ValueError, match="text_scale"):
        replace(Settings(), text_scale=2.5)


def test_the_home_is_chosen_by_option_then_variable(tmp_path, monkeypatch):
    monkeypatch.setenv("FRINGEWORK_HOME", str(tmp_path / "b"))
    assert data_home(tmp_path / "a") == tmp_path / "a"
    assert data_home() == tmp_path / "b"
    monkeypatch.delenv("FRINGEWORK_HOME")
    assert data_home().name == "fringework"

"""The program finds its files in a checkout and in an installed wheel."""

import pytest

from app import places


def test_a_folder_inside_the_package_is_taken_first(tmp_path):
    for folder in (tmp_path / "app" / "assets", tmp_path / "assets"):
        folder.mkdir(parents=True)
    assert places.find_folder("assets", tmp_path / "app") == tmp_path / "app" / "assets"


def test_a_folder_beside_the_package_is_taken_next(tmp_path):
    (tmp_path / "app").mkdir()
    (tmp_path / "assets").mkdir()
    assert places.find_folder("assets", tmp_path / "app") == tmp_path / "assets"


def test_a_missing_folder_is_named_with_the_places_looked_at(tmp_path):
    with pytest.raises(FileNotFoundError, match=r"'assets' is neither in .*app nor beside it"):
        places.find_folder("assets", tmp_path / "app")


def test_this_programs_folders_hold_what_it_needs():
    assert (places.assets() / "theme.js").is_file()
    assert (places.demo_data() / "README.md").is_file()

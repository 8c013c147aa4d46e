"""A sound trip in a folder, to be spoilt in one place."""

from collections.abc import Callable
from pathlib import Path

import pytest

from models.reading import InputFaults, read_case
from models.starter import starter_files


class Trip:
    """The starter trip's files in a folder of the test's own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        for name, text in starter_files().items():
            (folder / name).write_text(text, encoding="utf-8")

    def change(self, name: str, old: str, new: str) -> "Trip":
        """Replace the one place where a text stands in a file."""
        path = self.folder / name
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
        path.write_text(text.replace(old, new), encoding="utf-8")
        return self

    def write(self, name: str, content: str | bytes) -> "Trip":
        (self.folder / name).write_bytes(content if isinstance(content, bytes) else content.encode())
        return self

    def faults(self) -> list[str]:
        """What is said of it, with file names as short as in the folder."""
        with pytest.raises(InputFaults) as refused:
            read_case(self.folder / "trip.yaml")
        return [str(fault).replace(f"{self.folder}/", "") for fault in refused.value.faults]

    def notes(self) -> list[str]:
        return [note.replace(f"{self.folder}/", "") for note in read_case(self.folder / "trip.yaml").notes]


@pytest.fixture
def trip(tmp_path: Path) -> Trip:
    return Trip(tmp_path)


@pytest.fixture
def refused(trip: Trip) -> Callable[[str, str, str], list[str]]:
    """What is said after one change of one file."""
    return lambda name, old, new: trip.change(name, old, new).faults()

"""The starter trip: five spaces, twelve things and a wheel arch, for a person to edit into their own."""

from importlib.resources import files

NAMES = ("README.md", "vehicle.yaml", "gear.yaml", "trip.yaml")
"""The files of the starter trip."""


def starter_files() -> dict[str, str]:
    """The text of each file of the starter trip, by its name."""
    folder = files("models.starter")
    return {name: folder.joinpath(name).read_text(encoding="utf-8") for name in NAMES}

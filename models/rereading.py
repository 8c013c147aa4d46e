"""Plans that are read back before they are written: no file makes way for a text that nobody could read."""

from contextlib import suppress
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from models.plan import Plan
from models.reading.files import Unreadable
from models.reading.loading import Desk
from models.reading.yamlfile import sheet_from_yaml
from models.writing import replace_whole


class NotReadBackError(Exception):
    """A mistake of our own: the text of a plan does not say that plan when it is read."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"{path}: the plan's text does not read back as the plan; nothing was written")


def data_of(text: str) -> dict[str, Any]:
    """What a plan's text says, before it is a plan.

    Raises
    ------
    Unreadable
        It is no YAML.
    """
    sheet, _ = sheet_from_yaml("", text.removeprefix("\ufeff"))
    data: dict[str, Any] = Desk().understood(sheet).data
    return data


def reads_back(text: str, plan: Plan) -> bool:
    """Whether the text of a plan's file says that plan."""
    with suppress(Unreadable, ValidationError):
        return Plan.model_validate(data_of(text)) == plan
    return False


def replace_plan(path: Path, text: str, plan: Plan) -> None:
    """Write a plan's file whole, once its text has been read back as that plan.

    Raises
    ------
    NotReadBackError
        It says something else or cannot be read; the file that is there stays as it is.
    OSError
        As `replace_whole`.
    """
    if not reads_back(text, plan):
        raise NotReadBackError(path)
    replace_whole(path, text)


def may_be_named(trip: str) -> bool:
    """Whether a plan's file can hold the path of a trip: it has no control characters and is in Unicode."""
    try:
        Plan(trip=trip)
    except ValidationError:
        return False
    return True

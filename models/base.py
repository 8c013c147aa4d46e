"""What every described object shares: strict fields, no unknown keys, no change after reading."""

from typing import Annotated, Any, Literal
from unicodedata import normalize

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

Kg = Annotated[float, Field(strict=True, ge=0, le=100_000, allow_inf_nan=False)]
"""A mass in kilograms, at most 100 t: nothing this tool is about weighs more."""

Mm = Annotated[int, Field(strict=True, ge=-100_000, le=100_000)]
"""A place on an axis in whole millimetres."""

SideMm = Annotated[int, Field(strict=True, ge=1, le=30_000)]
"""The length of a side in whole millimetres, at least 1."""

PointMm = tuple[
    Annotated[float, Field(strict=True, ge=-100_000, le=100_000, allow_inf_nan=False)],
    Annotated[float, Field(strict=True, ge=-100_000, le=100_000, allow_inf_nan=False)],
    Annotated[float, Field(strict=True, ge=-100_000, le=100_000, allow_inf_nan=False)],
]
"""A point [x, y, z] in millimetres (x rearward, y right, z up); it need not be whole."""

CornerMm = tuple[Mm, Mm, Mm]
"""The least x, y and z of a box, in whole millimetres."""

SizeMm = tuple[SideMm, SideMm, SideMm]
"""The sides of a box [along x, across y, up z], in whole millimetres."""

Litres = Annotated[float, Field(strict=True, ge=0, le=100_000, allow_inf_nan=False)]
"""A volume in litres."""

Seconds = Annotated[float, Field(strict=True, ge=0, le=86_400, allow_inf_nan=False)]
"""A duration in seconds, at most a day."""

Number = Annotated[float, Field(strict=True, ge=0, allow_inf_nan=False)]
"""A figure that is not negative."""

Share = Annotated[float, Field(strict=True, ge=0, le=1, allow_inf_nan=False)]
"""A part of a whole, 0 to 1."""

Count = Annotated[int, Field(strict=True, ge=0, le=10_000)]
"""How many, 0 to 10 000."""

_SHOWN = r"[^\x00-\x1f\x7f-\x9f]"
"""A character that a terminal shows, blanks included; none that moves its cursor or changes its colours."""

FileName = Annotated[
    str,
    Field(strict=True, min_length=1, max_length=120, pattern=rf"^{_SHOWN}*[^\x00-\x20\x7f-\xa0]{_SHOWN}*$"),
]
"""Where a file is, letter for letter as it is written: 1 to 120 characters on one line, not all of them blank."""


def composed(text: Any) -> Any:
    """A text whose letters and accents are one character each, as names that look alike are the same name."""
    return normalize("NFC", text) if isinstance(text, str) else text


Word = Annotated[FileName, BeforeValidator(composed)]
"""A name or a label as a person writes it, 1 to 120 characters on one line, not all of them blank."""

Text = Annotated[str, Field(strict=True, min_length=1, max_length=400, pattern=rf"^({_SHOWN}|[\t\n\r])*$")]
"""A sentence or a source, 1 to 400 characters, without control characters but tabs and ends of lines."""

Flag = Annotated[bool, Field(strict=True)]
"""Yes or no; a number is not a flag."""

KnownFrom = Literal["weighbridge", "weighed", "label", "handbook", "estimated", "guess"]
"""Where a mass is known from; it decides the doubt that is told beside a reserve."""

ON_A_SCALE: tuple[KnownFrom, ...] = ("weighbridge", "weighed")
"""Sources of a mass that another weighing would hardly better."""


MOST_COPIES = 1000
"""Most things of a trip, each copy counted. Common practice, no source: a touring vehicle carries forty to eighty."""

MOST_PARTS = 300
"""Most spaces, racks, openings or other parts of one kind of a vehicle, and most people. Common practice, no source."""


class Described(BaseModel):
    """A part of a file that a person writes: unknown keys are faults, and nothing changes it later."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def _kg_from_file(value: Any) -> Any:
    return None if value == "unknown" else value


class Limit(Described):
    """What something may carry, with where the figure comes from.

    In a file a limit is a number of kilograms, the word `unknown`, or `{kg: 3200, source: plate}`.
    """

    kg: Annotated[Kg | None, BeforeValidator(_kg_from_file, json_schema_input_type=Kg | Literal["unknown"] | None)] = (
        None
    )
    """Kilograms. None: unknown; every check against it then neither holds nor fails."""
    source: Text | None = None
    """Where the figure stands: plate, handbook, label."""


def _limit_from_file(value: Any) -> Any:
    if isinstance(value, bool):
        return value
    if isinstance(value, int | float):
        return {"kg": value}
    if value is None or value == "unknown":
        return {"kg": None}
    return value


LimitKg = Annotated[Limit, BeforeValidator(_limit_from_file, json_schema_input_type=Kg | Literal["unknown"] | Limit)]
"""A limit as people write it: a number, `unknown`, or a mapping with `kg` and `source`."""

"""The rule book's figures of the advice on tying and lifting: told beside the answer, never a limit."""

from typing import Annotated, Literal

from pydantic import Field

from models.base import Described, Kg, Number, Share, Text

Positive = Annotated[float, Field(strict=True, gt=0, allow_inf_nan=False)]

Grip = Literal["good", "fair", "poor"]
"""How a thing is held: good: handles; fair: fingers under its edges; poor: it sags or is bulky."""


class Turning(Described):
    """What turning while lifting takes off."""

    beyond_deg: Number
    """It holds for turns of more than so many degrees."""
    off: Share
    """Share that is taken off."""


class PerPerson(Described):
    """Kilograms for the weaker and the stronger of the people that tables are made for."""

    women: Kg
    men: Kg


class Zone(Described):
    """A zone of heights of the hands, with what one person lifts in it."""

    up_to_mm: Number
    """Its upper end above ground in mm; it begins where the zone before it ends."""
    close_kg: PerPerson
    """Close to the body."""
    far_kg: PerPerson
    """At arm's length."""


class Lifting(Described):
    """Figures of the advice on lifting; none of them is a limit."""

    load_kg: Kg
    """What one person lifts where everything is at its best, in kg."""
    frequency: Share
    """Multiplier for how often one lifts; 1: at most one heavy lift in five minutes, for an hour."""
    grips: dict[Literal["hard", "soft"], Grip]
    """How a thing of a shape is held."""
    least_kg: Kg
    """Lighter things are not looked at, in kg."""
    unreached_kg: Kg
    """Up to this mass nothing is told where the lifting equation does not reach, in kg."""
    body_mm: Number
    """From between the ankles to the near side of what is held, in mm."""
    low_body_mm: Number
    """The same where the hands are low."""
    low_mm: Number
    """Hands below this height are low, in mm."""
    turned_deg: dict[Literal["left", "right", "rear", "front", "top", "inside"], Number]
    """Degrees by which one turns at an opening of a side; a side that is not named: 0."""
    turning: tuple[Turning, ...]
    """What turning takes off the figures of the zones."""
    close_mm: Number
    """Hands farther from between the ankles are at arm's length, in mm."""
    zones: Annotated[tuple[Zone, ...], Field(min_length=1)]
    """From the ground up; above the last there is no figure."""
    source: Text


class Strapping(Described):
    """Figures of the advice on tying; none of them is a limit."""

    sideways_tip_g: Number
    """Acceleration sideways for what may tip over, as a share of g."""
    hard_least: Annotated[int, Field(strict=True, ge=1, le=100)]
    """Fewest straps of a hard thing, so that it cannot turn."""
    short_mm: Positive
    """Up to this length one strap holds what is light, in mm."""
    long_mm: Positive
    """One more strap for each such length or part of it, in mm."""
    light_kg: Kg
    """Heaviest short thing for one strap, in kg."""
    source: Text


class Pressing(Described):
    """What a strap that only presses from above would hold by friction; told, and never counted."""

    friction: Annotated[float, Field(strict=True, gt=0, le=1, allow_inf_nan=False)]
    """Friction of a thing on what it stands on, static, as a share of the force between them."""
    downward_g: Positive
    """Acceleration downwards, as a share of g."""
    angle_deg: Annotated[float, Field(strict=True, gt=0, le=90, allow_inf_nan=False)]
    """Angle of the strap to the floor in degrees."""
    tension_share: Share
    """Share of its rating with which it is pulled tight."""
    safety_forward: Positive
    """Safety factor in braking."""
    safety_sideways: Positive
    """Safety factor sideways."""
    source: Text


class Crash(Described):
    """The crash that a cargo barrier is made for."""

    speed_km_h: Number
    deceleration_g: Number
    """Deceleration as a share of g."""
    source: Text

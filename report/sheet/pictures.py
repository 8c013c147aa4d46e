"""The drawings of a sheet, with the lists that stand beside them."""

from dataclasses import dataclass

from models.rules import Rule
from models.spaces import Space
from report.drawings.frames import VIEWS
from report.drawings.gravity import Centre, shift_picture
from report.drawings.opened import space_pictures
from report.drawings.svg import Picture
from report.drawings.vehicle import vehicle_picture
from report.sheet.asked import Asked
from report.sheet.numbers import Figure, limit_of, margin_of, value_of
from report.told import CentreMm, Totals


@dataclass(frozen=True)
class Seen:
    """A number of a drawing with what it stands for."""

    number: int
    name: str
    marks: tuple[str, ...]


@dataclass(frozen=True)
class Opened:
    """One step of a space opened up."""

    picture: Picture
    step: int
    now: tuple[Seen, ...]
    earlier: tuple[int, ...]


@dataclass(frozen=True)
class SpaceShown:
    """A space with its letter, what it carries and its drawings."""

    letter: str
    name: str
    numbers: tuple[int, ...]
    load: Figure | None
    limit: Figure | None
    margin: Figure | None
    stage: str
    face: str
    steps: tuple[Opened, ...]


@dataclass(frozen=True)
class Drawings:
    """All drawings of a sheet."""

    views: tuple[Picture, ...]
    shift: Picture | None
    spaces: tuple[SpaceShown, ...]
    """Spaces that hold something."""
    empty: tuple[str, ...]


def drawings(asked: Asked) -> Drawings:
    """Draw the vehicle from its sides, its centre of gravity, and every space opened up."""
    centres = _centres(asked)
    shown = [
        space for space in asked.scene.spaces if any(asked.mine(one.copy) for one in asked.scene.within(space.name))
    ]
    letter = asked.scene.letter
    return Drawings(
        views=tuple(vehicle_picture(asked.scene, view, centres) for view in VIEWS),
        shift=shift_picture(centres) if centres else None,
        spaces=tuple(_space(asked, space) for space in shown),
        empty=tuple(f"{letter[s.name]} {s.name}" for s in asked.scene.spaces if not asked.scene.within(s.name)),
    )


def _centres(asked: Asked) -> tuple[Centre, ...]:
    found = (_centre(name, n, sums) for n, (name, sums) in enumerate(asked.verdict.totals.items(), start=1))
    return tuple(one for one in found if one is not None)


def _centre(name: str, n: int, sums: Totals) -> Centre | None:
    """The two centres of a stage; None where one of them is not known."""
    empty, laden = _known(sums.cg_without_load_mm), _known(sums.cg_mm)
    return None if empty is None or laden is None else Centre(name, n, empty, laden)


def _known(centre: CentreMm) -> tuple[float, float, float] | None:
    x, y, z = centre
    return None if x is None or y is None or z is None else (x, y, z)


def _space(asked: Asked, space: Space) -> SpaceShown:
    found = [f for f in asked.verdict.findings if f.rule == Rule.SPACE_MASS and f.subject == space.name and f.unit]
    heaviest = max((f for f in found if f.value is not None), key=lambda f: f.value or 0.0, default=None)
    return SpaceShown(
        letter=asked.scene.letter[space.name],
        name=space.name,
        numbers=tuple(one.number for one in asked.scene.within(space.name)),
        load=None if heaviest is None else value_of(heaviest),
        limit=None if heaviest is None else limit_of(heaviest),
        margin=None if heaviest is None else margin_of(heaviest),
        stage=(heaviest.stage or "") if heaviest is not None else "",
        face=space.face,
        steps=tuple(
            Opened(
                picture,
                n,
                tuple(Seen(o.number, o.name, tuple(m.word for m in o.marks)) for o in step.now),
                tuple(one.number for one in step.earlier),
            )
            for n, (picture, step) in enumerate(space_pictures(asked.scene, space), start=1)
        ),
    )

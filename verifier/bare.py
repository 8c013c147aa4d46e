"""The bare vehicle: the kerb weighing less what was aboard, with fittings and racks added."""

from collections.abc import Iterator

from models.base import PointMm
from models.case import Case
from models.vehicle import Kerb, Tank, Vehicle
from verifier.statics import PointMass, static_stability_factor


def point(mass_kg: float, at_mm: PointMm | None) -> PointMass:
    """Put a mass at a place; an unknown place stays unknown."""
    x, y, z = (None, None, None) if at_mm is None else at_mm
    return PointMass(mass_kg, x, y, z)


def litre_kg(case: Case, tank: Tank) -> float:
    """Kilograms of a litre of what a tank holds."""
    return case.rulebook.fluids_kg_per_l[tank.fluid].value


def height_estimated(vehicle: Vehicle) -> bool:
    """Whether the height of the bare vehicle stands for its class of body, because nobody knows it."""
    return vehicle.kerb.cg_height_mm == "unknown"


def kerb_height_mm(case: Case) -> float:
    """Height of the centre of gravity as weighed in mm, or that of its class: track / (2 · SSF)."""
    vehicle = case.vehicle
    height = vehicle.kerb.cg_height_mm
    if height != "unknown":
        return height
    # track / (2 · SSF) is the same formula, solved for the height.
    factor = case.rulebook.body_classes[vehicle.body].static_stability_factor
    return static_stability_factor(vehicle.track_mm, factor)


def _kerb_kg_and_x(kerb: Kerb, wheelbase_mm: float) -> tuple[float, float | None]:
    if kerb.front_kg is not None and kerb.rear_kg is not None:
        both = kerb.front_kg + kerb.rear_kg
        return both, kerb.rear_kg * wheelbase_mm / both if both else None
    return kerb.total_kg or 0.0, None


def _taken_off(case: Case) -> Iterator[PointMass]:
    kerb = case.vehicle.kerb
    for tank in case.vehicle.tanks:
        if tank.name in kerb.aboard_l:
            yield point(-kerb.aboard_l[tank.name] * litre_kg(case, tank), tank.at_mm)
    for name, kg in kerb.aboard_kg.items():
        if name in case.seat_named:
            yield point(-kg, case.seat_named[name].at_mm)


def _bolted_on(vehicle: Vehicle) -> Iterator[PointMass]:
    for fitting in vehicle.fittings:
        yield point(fitting.mass_kg, fitting.at_mm)
    for rack in vehicle.racks:
        if not rack.on_the_scale:
            yield point(rack.own_mass_kg, rack.at_mm)


def bare_points(case: Case) -> tuple[PointMass, ...]:
    """Give the bare vehicle as point masses: as weighed, what was aboard as negative masses, what was bolted on."""
    vehicle = case.vehicle
    mass_kg, x_mm = _kerb_kg_and_x(vehicle.kerb, vehicle.wheelbase_mm)
    weighed = PointMass(mass_kg, x_mm, vehicle.kerb.right_of_centre_mm, kerb_height_mm(case))
    return (weighed, *_taken_off(case), *_bolted_on(vehicle))

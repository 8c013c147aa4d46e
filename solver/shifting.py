"""What a plan needs moved on the vehicle itself, where how the load is shared between wheels has no figure to raise."""

from models.case import Case, fresh

SHARES = ("front share", "side")
"""Limits that are shares of the mass: nobody can raise them, but people, tanks and fittings can be moved."""
ON_IT = "what is on the vehicle itself, such as people, tanks, fittings,"


def to_the_front(case: Case, kg: float) -> Case:
    """The case with so many kilograms of the kerb mass on the front axle instead of the rear one; both are known."""
    kerb = case.vehicle.kerb
    front, rear = kerb.front_kg or 0.0, kerb.rear_kg or 0.0
    return _with_kerb(case, front_kg=front + kg, rear_kg=rear - kg)


def to_the_right(case: Case, kg: float) -> Case:
    """The case with so many kilograms of the kerb mass on the right wheels instead of the left ones."""
    kerb = case.vehicle.kerb
    mass = kerb.total_kg if kerb.front_kg is None or kerb.rear_kg is None else kerb.front_kg + kerb.rear_kg
    more_mm = kg * case.vehicle.track_mm / mass if mass else 0.0
    return _with_kerb(case, right_of_centre_mm=kerb.right_of_centre_mm + more_mm)


def _with_kerb(case: Case, **parts: float) -> Case:
    kerb = case.vehicle.kerb.model_copy(update=parts)
    return fresh(case, vehicle=case.vehicle.model_copy(update={"kerb": kerb}))


def front_words(case: Case, kg: float) -> str:
    """So much of the vehicle's own mass further to the front, as a sentence with an example."""
    return (
        f"With {ON_IT} moved forward until the front axle carries {kg:g} kg more and the rear axle as much less: "
        f"so much comes of {2 * kg:g} kg moved by {case.vehicle.wheelbase_mm / 2:.0f} mm."
    )


def side_words(case: Case, kg: float, *, right: bool) -> str:
    """So much of the vehicle's own mass further to one side, as a sentence with an example."""
    there, here = ("right", "left") if right else ("left", "right")
    return (
        f"With {ON_IT} moved until the {there} wheels carry {kg:g} kg more and the {here} wheels as much less: "
        f"so much comes of {2 * kg:g} kg moved by {case.vehicle.track_mm / 2:.0f} mm."
    )

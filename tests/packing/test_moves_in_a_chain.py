"""A thing that makes way for one that makes way is not put back too early."""

from packing import moves_between
from packing.moves import Move


def kinds(moves: tuple[Move, ...], name: str) -> list[str]:
    return [one.kind for one in moves if one.copy.thing == name]


def test_what_blocks_only_what_blocks_is_put_back_last(bay):
    bay.add_space("aside", (1200, -500, 600), (400, 400, 400))
    bay.put("deep", (0, 0, 0), (200, 200, 200))
    bay.put("wide", (300, 0, 0), (200, 600, 200))
    bay.put("last", (600, 400, 0), (200, 200, 200))
    case, before = bay.case, bay.plan
    there = {"space": "aside", "corner_mm": (1200, -500, 600)}
    after = before.model_copy(
        update={"placements": tuple(p.model_copy(update=there) if p.thing == "deep" else p for p in before.placements)}
    )
    found = moves_between(case, before, after)
    assert found.stuck == ()
    assert (kinds(found.moves, "deep"), found.moved) == (["move"], (found.moves[2].copy,))
    assert kinds(found.moves, "wide") == kinds(found.moves, "last") == ["set down", "put back"]

"""No plan is shown: there is none, or the verifier does not accept it."""

from typing import TYPE_CHECKING

import typer

from cli.answering import OurFault
from cli.codes import Code
from cli.screen import width

if TYPE_CHECKING:
    from models.case import Case
    from solver import Proposal
    from verifier import Judgement


def told_why_none(case: "Case", proposal: "Proposal", notes: tuple[str, ...], json: bool) -> Code:
    """Tell why there is no plan."""
    from report.json_view import conflict_view, json_text  # noqa: PLC0415
    from report.terminal import refusal_report  # noqa: PLC0415
    from solver import Status  # noqa: PLC0415

    proven = proposal.status is Status.IMPOSSIBLE
    if json:
        why = conflict_view(proposal.conflict)
        view = {"status": proposal.status, "cut_short": proposal.cut_short, "plan": None, "conflict": why}
        typer.echo(json_text({**view, "closest": proposal.closest, "notes": notes}), nl=False)
    else:
        closest, late = proposal.closest, proposal.cut_short
        told = refusal_report(case, proven, proposal.conflict, notes, width(), closest=closest, cut_short=late)
        typer.echo(told, nl=False)
    return Code.NO_PLAN if proven else Code.NOT_FOUND


def refuse_what_is_broken(judged: "Judgement", asked: str) -> None:
    """Refuse a proposal that the verifier does not accept.

    Raises
    ------
    OurFault
        A limit is broken; it says which, and `asked` says how to come to it again.
    """
    if judged.broken:
        told = "; ".join(f"{one.rule.value}: {one.says}" for one in judged.broken[:5])
        raise OurFault(
            f"the plan that was found breaks {len(judged.broken)} checks and is not shown ({told}) [{asked}]"
        )

"""The whole report on a plan."""

from collections.abc import Iterable, Sequence

from models.case import Case
from models.plan import Plan
from report.terminal.advice import lifting, tying
from report.terminal.cautions import cautions
from report.terminal.doubts import doubts
from report.terminal.heading import broken_and_unknown, heading
from report.terminal.height import height
from report.terminal.masses import masses
from report.terminal.proof import proof
from report.terminal.spaces import at_home, spaces
from report.terminal.table import bullets, paragraph
from report.told import Proposal, Verdict

NARROW, WIDE = 80, 120
"""Columns: it always fits the first and never uses more than the second."""

STOPPED = "Stopped before the search was done: this is the best plan so far."
CUT_SHORT = "The time was over before the search was done: --seconds gives it more. The next run may end elsewhere."


def plan_report(
    case: Case,
    plan: Plan,
    verdict: Verdict,
    proposal: Proposal | None = None,
    notes: Sequence[str] = (),
    remarks: Sequence[str] = (),
    questions: Sequence[str] = (),
    width: int = NARROW,
) -> str:
    """All that is told of a plan, as text of lines no longer than `width`, taken as 80 to 120 columns.

    `proposal` says how the plan was found; None: nobody knows. `notes` say what reading converted or found odd;
    `questions`, those of the notes that ask, stand with the verifier's beside the answer, and `remarks` under it.
    """
    width = min(max(width, NARROW), WIDE)
    remarks = [*remarks, *_how_it_ended(proposal)]
    asked = (*verdict.questions, *questions)
    parts = (
        [*heading(case, plan, verdict, asked, width), *_remarks(remarks, width), *broken_and_unknown(verdict, width)],
        masses(case, plan, verdict, width),
        spaces(case, plan, verdict, width),
        at_home(case, plan, {} if proposal is None else proposal.home_reasons, width),
        tying(verdict.tying, width),
        lifting(verdict.lifts, width),
        height(case, verdict, width),
        proof(case, verdict, proposal, width),
        doubts(case, plan, verdict, width),
        _listed("Claims of the plan that do not stand", verdict.claims_off, width),
        _listed("Notes from reading the files", (note for note in notes if note not in questions), width),
        cautions(case, width),
    )
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def _how_it_ended(proposal: Proposal | None) -> list[str]:
    if proposal is None:
        return []
    return [STOPPED] if proposal.interrupted else [CUT_SHORT] if proposal.cut_short else []


def _remarks(texts: Iterable[str], width: int) -> list[str]:
    return [line for text in texts for line in ("", *paragraph(text, width))]


def _listed(title: str, texts: Iterable[str], width: int) -> list[str]:
    lines = bullets(texts, width)
    return [title, *lines] if lines else []

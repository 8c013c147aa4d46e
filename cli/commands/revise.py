"""`lowstow revise PLAN`."""

from typing import TYPE_CHECKING, Annotated

import typer

from cli.answering import answers
from cli.codes import Code
from cli.options import Effort, Json, PlanFile, PlanOut, Seconds, Seed
from cli.screen import ProgressLine, width

if TYPE_CHECKING:
    from models.case import Case
    from models.plan import Placement, Plan
    from models.reading import PlanRead
    from report.terminal.revision import Further
    from solver import Options, Revision
    from verifier import Verdict

Fresh = Annotated[bool, typer.Option("--fresh", help="Weigh height above few moves: all that is not locked may move.")]


@answers
def revise(
    plan: PlanFile,
    out: PlanOut = None,
    fresh: Fresh = False,
    seconds: Seconds = 13.0,
    effort: Effort = 1.0,
    seed: Seed = 0,
    json: Json = False,
) -> Code:
    """Change a plan as little as possible for what is new, and check it."""
    from cli.fewer import counted_anew, renumbered_copies  # noqa: PLC0415 - loaded where used
    from cli.outputs import comments_gone, plan_for, refuse_to_overwrite  # noqa: PLC0415
    from cli.refusing import refuse_what_is_broken  # noqa: PLC0415
    from models.commented import with_comments  # noqa: PLC0415
    from models.reading import read_plan  # noqa: PLC0415
    from models.rereading import replace_plan  # noqa: PLC0415
    from models.writing import plan_text  # noqa: PLC0415
    from solver import Options  # noqa: PLC0415
    from verifier import check  # noqa: PLC0415

    as_read, before = read_plan(plan), plan.read_bytes().decode("utf-8")
    read = counted_anew(as_read)
    trip, target = plan.parent / read.plan.trip, out or plan
    refuse_to_overwrite(trip, read.case, target)
    found = _searched(read, Options(effort=effort, seconds=seconds, seed=seed), fresh)
    if found.proposal.plan is None or found.moves.moves:
        found = _as_it_is(read, found, fresh) or found
    if found.proposal.plan is None:
        return _refused(read, found, json)
    new = plan_for(trip, read.case, target, found.proposal.plan)
    verdict = check(read.case, new)
    refuse_what_is_broken(verdict, f"{read.case.digest}, seed {seed}, effort {effort:g}, revise")
    stays = out is None and _says_the_same(as_read, new)
    text, lost = with_comments(before, plan_text(new), renumbered_copies(as_read, read))
    # The plan in hand is replaced last: what is told of it, above all the moves, is found nowhere else afterwards.
    typer.echo(_told((as_read, read), new, verdict, found, json), nl=False)
    if stays:
        typer.echo(f"Nothing is new; {plan} stays as it is.", err=json)
        return Code.of(verdict.holds)
    replace_plan(target, text, new)
    if lost:
        typer.echo(comments_gone(target), err=True)
    typer.echo(f"The plan is in {target}.", err=json)
    return Code.of(verdict.holds)


def _says_the_same(read: "PlanRead", plan: "Plan") -> bool:
    """Whether a plan is the one that was read, in whatever order its file tells it."""
    if read.lost or read.lost_locks:
        return False
    return _in_order(read.plan) == _in_order(plan)


def _in_order(plan: "Plan") -> "Plan":
    lists = ("locks", "placements", "left_at_home")
    return plan.model_copy(update={key: tuple(sorted(getattr(plan, key), key=repr)) for key in lists})


def _searched(read: "PlanRead", options: "Options", fresh: bool) -> "Revision":
    from solver import made_anew  # noqa: PLC0415
    from solver import revise as with_few_moves  # noqa: PLC0415

    line = ProgressLine()
    try:
        if fresh:
            return made_anew(read.case, read.plan, options, line)
        return with_few_moves(read.case, read.plan, options, line, vacated=read.lost)
    finally:
        line.done()


def _as_it_is(read: "PlanRead", found: "Revision", fresh: bool) -> "Revision | None":
    """The plan in hand with nothing moved, where the verifier takes it so; None where it does not.

    The search asks more of a plan here and there than the rules do: what it does not find may be there. None too where
    what was found keeps more of the reserve, moves no more (then all that moves is off the list), or brings along what
    lay in a space that is gone; and of one made anew, where it is no worse.
    """
    from dataclasses import replace  # noqa: PLC0415

    from models.case import copy_of  # noqa: PLC0415
    from models.plan import reserve_of  # noqa: PLC0415
    from solver import as_it_is, better_in_hand  # noqa: PLC0415
    from verifier import judge  # noqa: PLC0415

    same, kept_kg = as_it_is(read.case, read.plan), read.case.reserve_kg
    plan, other = same.proposal.plan, found.proposal.plan
    less = other is not None and reserve_of(read.plan, kept_kg) < reserve_of(other, kept_kg)
    no_better = other is not None and len(same.moves.moves) >= len(found.moves.moves)
    brings = {copy_of(one) for one in read.lost} & set(found.added)
    anew = fresh and not better_in_hand(read.case, read.plan, found.proposal)
    if plan is None or less or no_better or brings or anew or judge(read.case, plan).broken:
        return None
    of = found.proposal
    told = replace(same.proposal, seconds=of.seconds, interrupted=of.interrupted, cut_short=of.cut_short)
    return replace(same, proposal=told)


def _refused(read: "PlanRead", found: "Revision", json: bool) -> Code:
    from dataclasses import replace  # noqa: PLC0415

    from cli.refusing import told_why_none  # noqa: PLC0415
    from solver import Status  # noqa: PLC0415

    proposal = found.proposal
    if proposal.status is not Status.IMPOSSIBLE:
        proposal = replace(proposal, closest=(*_but_for_what_is_new(read), *proposal.closest))
    return told_why_none(read.case, proposal, read.notes, json)


def _but_for_what_is_new(read: "PlanRead") -> tuple[str, ...]:
    """A sentence of a plan in hand that the verifier takes but for what must come and has no place in it."""
    from models.case import copy_of  # noqa: PLC0415
    from models.rules import Rule  # noqa: PLC0415
    from solver import as_it_is  # noqa: PLC0415
    from verifier import judge  # noqa: PLC0415

    plan = as_it_is(read.case, read.plan).proposal.plan
    if plan is None:
        return ()
    here, case = {copy_of(place) for place in plan.placements}, read.case
    missing = [case.called(c) for c in case.copies if c not in here and case.thing_named[c.thing].must]
    broken = judge(case, plan).broken
    if not missing or any(one.rule is not Rule.CARRIED or one.subject not in missing for one in broken):
        return ()
    names = ", ".join(missing)
    holds = f"The plan in hand, with nothing moved, holds but for what must come and is not in it: {names}."
    return (f"{holds} The search found no place for that; what else is told here is of layouts that it tried.",)


def _told(reads: "tuple[PlanRead, PlanRead]", plan: "Plan", verdict: "Verdict", found: "Revision", json: bool) -> str:
    """What is told of a plan as it was read, and with the numbers that its copies have by the list."""
    from dataclasses import replace  # noqa: PLC0415

    from report.explain_view import copy_view, further_view  # noqa: PLC0415
    from report.json_view import home_view, json_text, levels_view, plan_view, verdict_view  # noqa: PLC0415
    from report.locks_view import locks_gone_view  # noqa: PLC0415
    from report.lost import lost_between, lost_view, new_numbers  # noqa: PLC0415
    from report.moves_view import moves_view  # noqa: PLC0415
    from report.terminal import plan_report  # noqa: PLC0415
    from report.terminal.revision import revision_report  # noqa: PLC0415

    as_read, read = reads
    further, found = _further(read, plan, found), _lifting_the_lost(read, plan, found)
    moving, before, there = _aboard(read)
    proposal, lost = found.proposal, lost_between(read.case, moving, before, there, plan)
    numbers = new_numbers(moving, before, as_read.as_it_lies.placements, plan)
    lost = replace(lost, numbers=numbers, locks=read.lost_locks)
    if not json:
        first = revision_report(
            read.case, found.moves, found.left_behind, found.added, further, lost=lost, width=width()
        )
        above = {note for one in read.lost_locks for note in one.notes}
        notes = tuple(note for note in read.notes if note not in above)
        whole = plan_report(read.case, plan, verdict, proposal, notes, questions=read.questions, width=width())
        return f"{first}\n{whole}\n"
    view = {
        "status": proposal.status,
        "interrupted": proposal.interrupted,
        "cut_short": proposal.cut_short,
        "reserve_given_up": proposal.reserve_given_up,
        "left_behind": [copy_view(copy) for copy in found.left_behind],
        "added": [copy_view(copy) for copy in found.added],
        "home_reasons": home_view(proposal.home_reasons),
        **lost_view(lost),
        "locks_gone": locks_gone_view(read.lost_locks),
        **moves_view(found.moves),
        "further": further_view(further),
        "plan": plan_view(plan),
        "levels": levels_view(proposal.levels),
        **verdict_view(verdict, read.notes, read.questions),
    }
    return json_text(view)


def _lifting_the_lost(read: "PlanRead", plan: "Plan", found: "Revision") -> "Revision":
    """The same with moves that lift out, in its turn, what is no longer on the list and still stands in the vehicle."""
    from dataclasses import replace  # noqa: PLC0415

    from packing import moves_between  # noqa: PLC0415

    case, before, _ = _aboard(read)
    return found if case is read.case else replace(found, moves=moves_between(case, before, plan))


def _aboard(read: "PlanRead") -> "tuple[Case, Plan, tuple[Placement, ...]]":
    """The case of the moves, the plan with what it knows of all that is aboard, and all of that."""
    from packing import known_in, with_unlisted  # noqa: PLC0415

    case, there = with_unlisted(read.case, read.lost), (*read.plan.placements, *read.lost)
    return case, known_in(case, read.plan, read.lost), there


def _further(read: "PlanRead", plan: "Plan", found: "Revision") -> "list[Further]":
    """Further moves with the figures that the verifier finds, where they are worth the minutes that all of it takes.

    What the verifier does not accept is no offer.
    """
    from cli.figures import figures, lawful_offer  # noqa: PLC0415
    from solver import worth_a_minute  # noqa: PLC0415

    told: list[Further] = []
    now = figures(read.case, plan) if found.further else None
    for move in found.further:
        one = lawful_offer(read.case, plan, move.plan, now)
        if one is not None and worth_a_minute(-(one.higher_mm or 0.0), -one.more_s, one.moves.minutes) >= 1:
            told.append((move.copy, move.to_space, one))
    return told

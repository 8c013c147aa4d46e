"""Advice beside the answer: how to tie and how to lift. It breaks nothing and changes no verdict."""

from verifier.advice.lifts import Lift, TooFew, lifts
from verifier.advice.tying import Barrier, Tie, TiedSpace, Tying, tying

__all__ = ["Barrier", "Lift", "Tie", "TiedSpace", "TooFew", "Tying", "lifts", "tying"]

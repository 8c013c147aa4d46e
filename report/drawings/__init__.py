"""Drawings to scale, as SVG that needs nothing beside it: the vehicle, its centre of gravity, every space opened up."""

"""Elements of SVG as text. Whatever a person wrote is escaped here and nowhere else."""

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

Spot = tuple[float, float]
"""A point of a picture, in its own units: right, down."""


def number(value: float) -> str:
    """A coordinate with as many decimals as a picture needs."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def element(tag: str, *inner: str, **attributes: str | float | None) -> str:
    """An element; `class_` stands for class and `data_of` for data-of; an attribute that is None is left out."""
    told = "".join(
        f' {_name(key)}="{number(value) if isinstance(value, int | float) else escape(value, quote=True)}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{tag}{told}>{''.join(inner)}</{tag}>" if inner else f"<{tag}{told}/>"


def _name(key: str) -> str:
    return key.rstrip("_") if key.endswith("_") else key.replace("_", "-")


def rectangle(at: Spot, size: Spot, **attributes: str | float | None) -> str:
    """A rectangle by its upper left corner."""
    return element("rect", x=at[0], y=at[1], width=size[0], height=size[1], **attributes)


def line(start: Spot, end: Spot, class_: str) -> str:
    """A straight line."""
    return element("line", x1=start[0], y1=start[1], x2=end[0], y2=end[1], class_=class_)


def dot(at: Spot, radius: float, class_: str) -> str:
    """A circle."""
    return element("circle", cx=at[0], cy=at[1], r=radius, class_=class_)


def polygon(corners: Iterable[Spot], class_: str, **attributes: str | float | None) -> str:
    """A closed shape."""
    points = " ".join(f"{number(x)},{number(y)}" for x, y in corners)
    return element("polygon", points=points, class_=class_, **attributes)


def words(at: Spot, text: str, class_: str, size: float, anchor: str = "middle", **more: str | float | None) -> str:
    """A line of text whose middle height is at a spot."""
    low = at[1] + 0.36 * size
    return element("text", escape(text), x=at[0], y=low, font_size=size, text_anchor=anchor, class_=class_, **more)


@dataclass(frozen=True)
class Picture:
    """A drawing with what a person who does not see it is told."""

    key: str
    """Unlike that of any other picture on the page."""
    title: str
    told: str
    size: Spot
    parts: tuple[str, ...]
    mm_per_unit: float | None = None
    """Scale; None where it is no drawing to scale."""

    @property
    def svg(self) -> str:
        """The drawing as an element."""
        width, height = self.size
        return element(
            "svg",
            element("title", escape(self.title), id=f"{self.key}-title"),
            element("desc", escape(self.told), id=f"{self.key}-desc"),
            *self.parts,
            viewBox=f"0 0 {number(width)} {number(height)}",
            width=width,
            height=height,
            role="img",
            aria_labelledby=f"{self.key}-title {self.key}-desc",
            class_="picture",
            data_mm_per_unit=None if self.mm_per_unit is None else repr(self.mm_per_unit),
        )

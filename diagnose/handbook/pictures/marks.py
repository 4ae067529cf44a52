"""Elements of a drawing, as text. Attribute names are written with underscores for hyphens."""

from xml.sax.saxutils import escape, quoteattr

Value = object  # a text, a number or a colour: whatever str() writes the way a drawing wants it


def number(value: float) -> str:
    """A number to two places, without needless noughts."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def tag(name: str, *inside: str, **attributes: Value) -> str:
    """One element. An attribute that is None is left out."""
    written = "".join(
        f" {key.rstrip('_').replace('_', '-')}={quoteattr(number(value) if isinstance(value, float) else str(value))}"
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{written}>{''.join(inside)}</{name}>" if inside else f"<{name}{written}/>"


def group(*inside: str, **attributes: Value) -> str:
    """Several elements as one."""
    return tag("g", *inside, **attributes)


def at(x: float, y: float, *inside: str, scale: float = 1.0) -> str:
    """Several elements, moved and, if asked, made larger or smaller."""
    size = f" scale({number(scale)})" if scale != 1 else ""
    return group(*inside, transform=f"translate({number(x)} {number(y)}){size}")


def turned(degrees: float, x: float, y: float, *inside: str) -> str:
    """Several elements, turned about a point."""
    return group(*inside, transform=f"rotate({number(degrees)} {number(x)} {number(y)})")


def box(x: float, y: float, width: float, height: float, fill: Value, **more: Value) -> str:
    """A rectangle."""
    return tag("rect", x=x, y=y, width=width, height=height, fill=fill, **more)


def disc(x: float, y: float, radius: float, fill: Value, **more: Value) -> str:
    """A circle."""
    return tag("circle", cx=x, cy=y, r=radius, fill=fill, **more)


def oval(x: float, y: float, across: float, down: float, fill: Value, **more: Value) -> str:
    """An ellipse, by its two radii."""
    return tag("ellipse", cx=x, cy=y, rx=across, ry=down, fill=fill, **more)


def shape(outline: str, fill: Value, **more: Value) -> str:
    """A filled outline."""
    return tag("path", d=outline, fill=fill, **more)


def line(course: str, colour: Value, width: float = 2, **more: Value) -> str:
    """A line without a filling; the frame makes all line ends round."""
    return tag("path", d=course, fill="none", stroke=colour, stroke_width=width, **more)


def lettering(text: str, x: float, y: float, size: float, fill: Value, **more: Value) -> str:
    """Words in whatever plain face the reader's machine has."""
    return tag("text", escape(text), x=x, y=y, font_size=size, fill=fill, **more)

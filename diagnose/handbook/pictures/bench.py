"""The bench a picture is put together on: it gives out ids that no other picture has, and keeps what they stand for."""

from diagnose.handbook.pictures.marks import Value, number, tag


class Canvas:
    """Gradients, patterns, filters and clips of one picture. Asking twice for the same name gives the same one."""

    def __init__(self, defect_id: str) -> None:
        self._prefix = f"picture-{defect_id}-"
        self._defined: dict[str, str] = {}

    def name(self, short: str) -> str:
        """An id of this picture's own."""
        return self._prefix + short

    def definitions(self) -> str:
        """All that was asked for, as one element; nothing where nothing was."""
        return tag("defs", *self._defined.values()) if self._defined else ""

    def once(self, short: str, *inside: str) -> str:
        """Something that is seen several times: written down once, and pointed at wherever it is seen."""
        self._define(short, "g", *inside)
        return tag("use", href=f"#{self.name(short)}")

    def clip(self, short: str, outline: str) -> str:
        """Leaves only what lies inside an outline."""
        return self._define(short, "clipPath", tag("path", d=outline))

    def blur(self, amount: float) -> str:
        """Softens by so many units; the room round it is wide enough for thin shapes, too."""
        inside = tag("feGaussianBlur", stdDeviation=amount)
        return self._define(
            f"blur{number(amount).replace('.', '_')}", "filter", inside, x="-30%", y="-30%", width="160%", height="160%"
        )

    def fraying(self, amount: float) -> str:
        """Pulls edges about, the way ink creeps along the fibres of paper."""
        noise = tag("feTurbulence", type="fractalNoise", baseFrequency="0.16", numOctaves=2, seed=4, result="n")
        far = tag("feDisplacementMap", in_="SourceGraphic", in2="n", scale=amount)
        crept = tag("feGaussianBlur", stdDeviation=0.9, result="crept")
        near = tag("feDisplacementMap", in_="SourceGraphic", in2="n", scale=amount / 4, result="near")
        thinner = tag("feComponentTransfer", tag("feFuncA", type="linear", slope=0.8), in_="near", result="thinner")
        both = tag("feMerge", tag("feMergeNode", in_="crept"), tag("feMergeNode", in_="thinner"))
        return self._define("fraying", "filter", noise, far, crept, near, thinner, both)

    def fade(self, short: str, colour: Value, *stops: tuple[float, float], **along: Value) -> str:
        """A straight gradient of one colour; each stop says where, and how dense."""
        return self._define(short, "linearGradient", *_stops(colour, stops), **along)

    def glow(self, short: str, colour: Value, *stops: tuple[float, float], **about: Value) -> str:
        """A round gradient of one colour; each stop says where, and how dense."""
        return self._define(short, "radialGradient", *_stops(colour, stops), **about)

    def pattern(self, short: str, width: float, height: float, *inside: str, **more: Value) -> str:
        """A small drawing that repeats, as a filling."""
        return self._define(
            short, "pattern", *inside, width=width, height=height, patternUnits="userSpaceOnUse", **more
        )

    def _define(self, short: str, kind: str, *inside: str, **attributes: Value) -> str:
        written = tag(kind, *inside, id=self.name(short), **attributes)
        if self._defined.setdefault(short, written) != written:
            raise ValueError(f"two different things are called {self.name(short)}")
        return f"url(#{self.name(short)})"


def _stops(colour: Value, stops: tuple[tuple[float, float], ...]) -> list[str]:
    return [
        tag("stop", offset=offset, stop_color=colour, stop_opacity=None if density == 1 else density)
        for offset, density in stops
    ]

"""What can befall a print: layers to lay over it, under it or round it."""

from random import Random

from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.marks import Value, box, group, line, number

Area = tuple[float, float, float, float]  # left, top, width, height

PRINT: Area = (56, 40, 200, 118)  # the picture on cloth
WHOLE_PRINT: Area = (54, 38, 204, 160)  # the picture and the words below it
CLOTH: Area = (36, 8, 240, 230)  # all of the piece


def soft(bench: Canvas, amount: float, *inside: str, **more: Value) -> str:
    """Out of focus."""
    return group(*inside, filter=bench.blur(amount), **more)


def wash(area: Area, fill: Value, **more: Value) -> str:
    """One colour or gradient over an area."""
    left, top, wide, high = area
    return box(left, top, wide, high, fill, **more)


def dots(draw: int, count: int, area: Area, colour: Value, width: float, **more: Value) -> str:
    """Round dots, strewn; the same ``draw`` strews them the same way each time."""
    left, top, wide, high = area
    chance = Random(draw)
    places = ((left + wide * chance.random(), top + high * chance.random()) for _ in range(count))
    return line("".join(f"M{number(round(x))} {number(round(y))}h0" for x, y in places), colour, width, **more)


def fibres(draw: int, count: int, area: Area, colour: Value, width: float, length: float = 9, **more: Value) -> str:
    """Short bent hairs, strewn."""
    left, top, wide, high = area
    chance = Random(draw)
    course = ""
    for _ in range(count):
        x, y = left + wide * chance.random(), top + high * chance.random()
        bends = [round((chance.random() - 0.5) * 2 * length) for _ in range(4)]
        course += f"M{x:.0f} {y:.0f}q{bends[0]} {bends[1]} {bends[2]} {bends[3]}"
    return line(course, colour, width, **more)


def heather(bench: Canvas, area: Area, bare: Value, **more: Value) -> str:
    """Threads that took no dye beside threads that did."""
    chance = Random(6)
    threads = "".join(
        f"M{chance.randrange(50)} {chance.randrange(46)}{chance.choice('hhv')}{chance.randrange(2, 7)}"
        for _ in range(58)
    )
    return wash(area, bench.pattern("heather", 52, 48, line(threads, bare, 1.6)), **more)


def grain(bench: Canvas, area: Area, bare: Value) -> str:
    """Dots that stand singly, out of place, with the ground between them."""
    tile: Area = (0, 0, 40, 40)
    sand = dots(7, 46, tile, bare, 3.4) + dots(8, 16, tile, "#14202c", 2.6, opacity=0.55)
    return wash(area, bench.pattern("grain", 40, 40, sand))


def stripes(area: Area, gap: float, colour: Value, width: float, **more: Value) -> str:
    """Even stripes across an area."""
    left, top, wide, high = area
    rows = int(high / gap)
    course = "".join(f"M{number(left)} {number(top + gap * (row + 0.6))}h{number(wide)}" for row in range(rows))
    return line(course, colour, width, **more)

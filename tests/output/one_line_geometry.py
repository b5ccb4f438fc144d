"""What a drawing must not do, told from its figures alone: words and lines as boxes and stretches, and who touches whom."""

from collections.abc import Iterable, Iterator

from planlint.output.one_line.figures import Arc, Figure, Line, Number, Ring, Words

Box = tuple[float, float, float, float]
Stretch = tuple[float, float, float, float]
SLACK = 0.05


def words_box(words: Words) -> Box:
    """From the top of its capitals to the foot of its lower lengths (Helvetica: 0.73 and 0.21 of the size)."""
    return (words.x, words.y - 0.73 * words.size, words.x + words.width, words.y + 0.21 * words.size)


def number_box(number: Number) -> Box:
    r = number.radius
    return (number.x - r, number.y - r, number.x + r, number.y + r)


def boxes(figures: Iterable[Figure]) -> list[tuple[Box, Figure]]:
    """The boxes of all words and numbers but the letters in symbols."""
    found: list[tuple[Box, Figure]] = []
    for figure in figures:
        if isinstance(figure, Words) and not figure.in_symbol:
            found.append((words_box(figure), figure))
        elif isinstance(figure, Number):
            found.append((number_box(figure), figure))
    return found


def extent(figure: Figure) -> Box:
    """The box round any figure."""
    if isinstance(figure, Words):
        return words_box(figure)
    if isinstance(figure, Number):
        return number_box(figure)
    if isinstance(figure, Ring):
        return (figure.x - figure.radius, figure.y - figure.radius, figure.x + figure.radius, figure.y + figure.radius)
    points = (figure.start, figure.end) if isinstance(figure, Arc) else figure.points
    return (min(x for x, _ in points), min(y for _, y in points), max(x for x, _ in points), max(y for _, y in points))


def overlap(one: Box, two: Box) -> bool:
    return one[0] < two[2] - SLACK and two[0] < one[2] - SLACK and one[1] < two[3] - SLACK and two[1] < one[3] - SLACK


def overlapping(figures: Iterable[Figure]) -> list[tuple[Figure, Figure]]:
    """Pairs of words or numbers whose boxes overlap; found by going from left to right."""
    todo = sorted(boxes(figures), key=lambda one: one[0][0])
    found: list[tuple[Figure, Figure]] = []
    for place, (box, figure) in enumerate(todo):
        for other_box, other in todo[place + 1 :]:
            if other_box[0] >= box[2]:
                break
            if overlap(box, other_box):
                found.append((figure, other))
    return found


def stretches(figures: Iterable[Figure], pens: tuple[str, ...]) -> list[tuple[Stretch, Line]]:
    """The straight pieces of lines of these pens, filled shapes left out."""
    return [
        ((x, y, z, w), figure)
        for figure in figures
        if isinstance(figure, Line) and not figure.filled and figure.pen in pens
        for (x, y), (z, w) in zip(figure.points, figure.points[1:], strict=False)
    ]


def crossings(figures: list[Figure]) -> list[tuple[Line, Line]]:
    """Lines of the power's way and of the grounding side that cross, or run on each other and belong to two things.

    A line that ends on another one doesn't cross it.
    """
    lines = stretches(figures, ("power", "bus", "ground", "planned"))
    uprights = [(x, min(y, w), max(y, w), line) for (x, y, z, w), line in lines if abs(x - z) < 0.01]
    levels = [(y, min(x, z), max(x, z), line) for (x, y, z, w), line in lines if abs(y - w) < 0.01]
    crossed = [
        (one, two)
        for x, top, foot, one in uprights
        for y, left, right, two in levels
        if left + 0.2 < x < right - 0.2 and top + 0.2 < y < foot - 0.2 and one is not two
    ]
    return [*crossed, *_lying_on_each_other(uprights), *_lying_on_each_other(levels)]


def _lying_on_each_other(lines: list[tuple[float, float, float, Line]]) -> Iterator[tuple[Line, Line]]:
    """Lines of one direction that run on each other for more than a point, of two owners."""
    ordered = sorted(lines, key=lambda one: one[0])
    for place, (at, start, end, line) in enumerate(ordered):
        for other_at, other_start, other_end, other in ordered[place + 1 :]:
            if other_at > at + 0.1:
                break
            if min(end, other_end) - max(start, other_start) > 1 and line.owner != other.owner:
                yield line, other


def struck_words(figures: list[Figure]) -> list[tuple[Line, Figure]]:
    """Words and numbers that a line runs through, be it a case's or an area's."""
    lines = stretches(figures, ("power", "bus", "ground", "earth", "planned", "fine", "area"))
    flat = [(min(x, z), min(y, w), max(x, z), max(y, w), line) for (x, y, z, w), line in lines]
    return [
        (line, figure)
        for (left, top, right, foot), figure in boxes(figures)
        for a, b, c, d, line in flat
        if a < right and left < c and b < foot and top < d
    ]


def outside(figures: Iterable[Figure], box: Box) -> list[Figure]:
    """Figures that leave the box."""
    return [
        figure
        for figure in figures
        for left, top, right, foot in [extent(figure)]
        if left < box[0] - SLACK or top < box[1] - SLACK or right > box[2] + SLACK or foot > box[3] + SLACK
    ]


def _pieces(figure: Figure) -> Iterator[Stretch]:
    if isinstance(figure, Line):
        for (x, y), (z, w) in zip(figure.points, figure.points[1:], strict=False):
            yield (x, y, z, w)
    elif isinstance(figure, Ring):
        yield (figure.x - figure.radius, figure.y, figure.x + figure.radius, figure.y)
        yield (figure.x, figure.y - figure.radius, figure.x, figure.y + figure.radius)


def touching(one: Iterable[Figure], two: Iterable[Figure]) -> bool:
    """Whether an end of a line of the one lies on the other, or the other way round."""
    first = [piece for figure in one for piece in _pieces(figure)]
    second = [piece for figure in two for piece in _pieces(figure)]
    return any(_ends_on(a, b) or _ends_on(b, a) for a in first for b in second)


def _ends_on(one: Stretch, two: Stretch) -> bool:
    left, right = sorted((two[0], two[2]))
    top, foot = sorted((two[1], two[3]))
    return any(left - 0.6 <= x <= right + 0.6 and top - 0.6 <= y <= foot + 0.6 for x, y in (one[:2], one[2:]))

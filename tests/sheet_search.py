"""A search of every way to cut small grids, written apart from the code it checks."""


def guillotine(across: int, down: int) -> dict[tuple[int, int], list[int]]:
    """Return, for each grid, the most tens beside 0, 1, 2 … hundreds (as many as fit).

    Every cut from edge to edge is tried at every line of the grid. What is left is ones.
    """
    found: dict[tuple[int, int], list[int]] = {}
    for a in range(1, across + 1):
        for b in range(1, down + 1):
            best = [int({a, b} == {1, 10})]
            if (a, b) == (10, 10):
                best = [0, 0]
            for c in range(1, a // 2 + 1):
                best = _better(best, found[c, b], found[a - c, b])
            for c in range(1, b // 2 + 1):
                best = _better(best, found[a, c], found[a, b - c])
            found[a, b] = best
    return found


def _better(best: list[int], one: list[int], other: list[int]) -> list[int]:
    best = best + [-1] * (len(one) + len(other) - 1 - len(best))
    for i, tens in enumerate(one):
        for j, more in enumerate(other):
            best[i + j] = max(best[i + j], tens + more)
    return best

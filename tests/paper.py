"""A child's paper replayed: the numbers above the columns really change, unlike in the rules."""


class Paper:
    """A child's paper: digits to cross out, ones last, and one habit. Written from the leftmost
    digit of strings, with the numbers above the columns really changed, unlike the rules."""

    def __init__(self, whole: int, part: int, habit: str, only: int | None = None) -> None:
        self.top = [int(c) for c in str(whole)]
        self.printed = list(self.top)
        text = str(part) if part else ""
        self.bottom = [int(c) if c != " " else None for c in text.rjust(len(self.top))]
        self.habit = habit
        self.only = None if only is None else len(self.top) - 1 - only

    def does(self, habit: str, column: int) -> bool:
        """Say whether the child does so in this column."""
        return self.habit == habit and self.only in (None, column)

    def fetch(self, column: int) -> None:
        """Fetch a ten for ``column``: change the numbers to its left."""
        left = 0 if self.habit == "from-leftmost" else column - 1
        if self.does("not-lowered", column) or (
            self.habit == "empty-not-lowered" and self.bottom[left] is None
        ):
            return
        if self.printed[left] == 0 and left and self.top[left] == 0:
            if self.habit == "zero-becomes-nine":
                while left and self.printed[left] == 0 == self.top[left]:
                    self.top[left] = 9
                    left -= 1
                return
            if self.habit == "zero-skipped":
                self.top[left] = -1  # done with: the digit below will be written
                self.fetch(left)
                return
            self.fetch(left)
            self.top[left] = 10 if self.habit == "zero-becomes-ten" else 9
            return
        if self.habit == "zero-skipped" and self.top[left] == -1:
            self.fetch(left)
            return
        self.top[left] -= 1

    def write(self, column: int) -> int:
        """Return the digit written under ``column``."""
        below = self.bottom[column] or 0
        if self.top[column] == -1 and self.habit == "zero-skipped":
            return below
        if self.top[column] == 0 == self.printed[column] and below:
            if self.habit == "zero-top-bottom":
                return below
            if self.habit == "zero-top-zero":
                return 0
        if self.top[column] < below:
            if self.does("turned", column):
                return below - max(self.top[column], 0)
            if self.habit == "zero-when-short":
                return 0
            if column == 0:
                raise ArithmeticError
            self.fetch(column)
            return self.top[column] + 10 - below
        return self.top[column] - below

    def answer(self) -> int | None:
        if self.habit == "added":
            rows = (self.printed, [b or 0 for b in self.bottom])
            return sum(int("".join(map(str, row))) for row in rows)
        total = 0
        try:
            for worth, column in enumerate(range(len(self.top) - 1, -1, -1)):
                total += self.write(column) * 10**worth
        except ArithmeticError:
            return None
        return total

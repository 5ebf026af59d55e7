"""An optimal assignment that is kept optimal while its costs change.

Law: every seat (row) has one part (column) of its own and the total cost is least. A change of a cost unseats at most the
row it is in, so keeping the optimum costs one chain of changes a row, not a new start. The answer is exact: integers only.

Source: the shortest augmenting paths of `assignment.py`, with the prices carried over (G. A. Mills-Tettey, A. Stentz and
M. B. Dias, "The dynamic Hungarian algorithm", Carnegie Mellon University, 2007).
"""
from __future__ import annotations


class Seating:
    """A square table of costs, and the best seating of it after `settle`."""

    def __init__(self, cost: list) -> None:
        self.cost = cost
        self.size = len(cost)
        self.row_price = [min(row) for row in cost]
        self.column_price = [0] * self.size
        self.part_of = [-1] * self.size   # column of a row, or -1
        self.row_of = [-1] * self.size    # row of a column, or -1

    def set(self, row: int, column: int, cost: int) -> None:
        """Change one cost; `settle` before reading anything."""
        was = self.cost[row][column]
        self.cost[row][column] = cost
        seated = self.part_of[row]
        if cost > was:
            if seated == column:
                self._unseat(row)
            return
        under = cost - self.row_price[row] - self.column_price[column]
        if under < 0:
            self.row_price[row] += under
            if seated >= 0 and seated != column:
                self._unseat(row)

    def settle(self) -> None:
        """Seat every row that has no part, at the least total."""
        for row in range(self.size):
            if self.part_of[row] < 0:
                self._seat(row)

    def total(self) -> int:
        return sum([self.cost[row][self.part_of[row]] for row in range(self.size)])

    def _unseat(self, row: int) -> None:
        self.row_of[self.part_of[row]] = -1
        self.part_of[row] = -1

    def _seat(self, row: int) -> None:
        """The cheapest chain of changes that ends at a free column."""
        count, prices, cost = self.size, self.column_price, self.cost
        cheapest: list = [None] * count
        came_from = [-1] * count
        left = list(range(count))
        tree: list = []      # columns reached, each with the step at which it was
        here, at, gone = row, -1, 0
        while True:
            costs, price = cost[here], self.row_price[here] - gone
            nearest: int | None = None
            place = 0
            for i in range(len(left)):
                column = left[i]
                reduced = costs[column] - price - prices[column]
                if cheapest[column] is None or reduced < cheapest[column]:
                    cheapest[column] = reduced
                    came_from[column] = at
                if nearest is None or cheapest[column] < nearest:
                    nearest, place = cheapest[column], i
            gone, at = nearest or 0, left.pop(place)
            here = self.row_of[at]
            if here < 0:
                break
            tree.append((at, gone))
        self.row_price[row] += gone
        for column, reached in tree:
            self.row_price[self.row_of[column]] += gone - reached
            prices[column] -= gone - reached
        while at >= 0:
            back = came_from[at]
            owner = row if back < 0 else self.row_of[back]
            self.row_of[at] = owner
            self.part_of[owner] = at
            at = back

"""The optimal assignment: give every row one column of its own so that the total cost is least.

Law: costs are integers, so "least" is exact. The answer depends on the matrix alone: rows are served in order and
equal choices go to the lower column.

Source: H. W. Kuhn, "The Hungarian method for the assignment problem", Naval Research Logistics Quarterly 2 (1955);
here in the form with shortest augmenting paths, n * n * m steps.
"""
from __future__ import annotations


def assign(cost: list) -> tuple:
    """Return (columns, total): columns[i] is the column of row i, total the sum of the chosen costs.

    `cost` is a list of rows of integers, all equally long, with at least as many columns as rows.
    Raises ValueError for ragged rows or for more rows than columns.
    """
    width = _width(cost)
    row_price = [0] * (len(cost) + 1)
    column_price = [0] * (width + 1)
    owner = [0] * (width + 1)  # owner[j]: the row (from 1) that holds column j (from 1); 0 is nobody
    for row in range(1, len(cost) + 1):
        _seat(row, cost, row_price, column_price, owner)
    columns = [0] * len(cost)
    for column in range(1, width + 1):
        if owner[column]:
            columns[owner[column] - 1] = column - 1
    return columns, sum([cost[i][columns[i]] for i in range(len(cost))])


def _width(cost: list) -> int:
    width = len(cost[0]) if cost else 0
    for row in cost:
        if len(row) != width:
            raise ValueError("Every row of an assignment needs the same number of columns.")
    if len(cost) > width:
        raise ValueError("An assignment needs at least as many columns as rows.")
    return width


def _seat(row: int, cost: list, row_price: list, column_price: list, owner: list) -> None:
    """Find `row` a column by the cheapest chain of changes among the rows already seated."""
    width = len(owner) - 1
    cheapest: list = [None] * (width + 1)  # lowest reduced cost at which a column was reached so far
    came_from = [0] * (width + 1)
    reached = [False] * (width + 1)
    owner[0] = row
    at = 0
    while owner[at]:
        reached[at] = True
        here = owner[at]
        step, nearest = None, 0
        for column in range(1, width + 1):
            if reached[column]:
                continue
            reduced = cost[here - 1][column - 1] - row_price[here] - column_price[column]
            if cheapest[column] is None or reduced < cheapest[column]:
                cheapest[column] = reduced
                came_from[column] = at
            if step is None or cheapest[column] < step:
                step, nearest = cheapest[column], column
        for column in range(width + 1):
            if reached[column]:
                row_price[owner[column]] += step
                column_price[column] -= step
            elif column:
                cheapest[column] -= step
        at = nearest
    while at:
        owner[at] = owner[came_from[at]]
        at = came_from[at]

"""Reference tables: those that are shipped are good, and a bad one is refused with file and line."""

from __future__ import annotations

import re

import pytest
from catalogue.errors import ProcedureError
from catalogue.tables import FOLDER, load_tables, read_limits, read_values

from .wide import LIMITS, MATERIALS


def test_the_shipped_tables_are_good_dated_and_sourced():
    tables = load_tables()
    assert {path.stem for path in FOLDER.glob("*.yaml")} == {*tables.values, "limits"}
    rows = [row for table in tables.values.values() for row in table["rows"].values()]
    rows += [row for limit in tables.limits.values() for row in limit]
    assert rows and all(row["source"] and re.fullmatch(r"\d{4}-\d\d-\d\d", row["dated"]) for row in rows)


def test_each_limit_of_the_tables_serves_each_duty():
    for name, rows in load_tables().limits.items():
        assert {row["duty"] for row in rows} == {"street", "race", "endurance", "boosted"}, name


def test_a_table_on_the_grid():
    table = read_values(MATERIALS, "materials.yaml")
    assert table["columns"] == {"expansion": "expansion", "modulus": "pressure"}
    assert list(table["rows"]) == ["grey_iron", "aluminium_356", "4340_steel"]
    assert table["rows"]["grey_iron"]["dated"] == "2026-11-25" and table["rows"]["aluminium_356"]["dated"] == "2026-11-24"
    assert table["rows"]["grey_iron"]["values"] == {"expansion": 11_400}, "what is not known is left out"


def test_a_folder_is_read_whole_or_refused_whole(tmp_path):
    (tmp_path / "materials.yaml").write_text(MATERIALS)
    (tmp_path / "limits.yaml").write_text(LIMITS)
    assert set(load_tables(tmp_path).values) == {"materials"}
    other = tmp_path / "other"
    other.mkdir()
    (other / "materials.yaml").write_text(MATERIALS.replace("GPa}", "GPas}"))
    (other / "limits.yaml").write_text(LIMITS.replace("source: practice, ", "", 1))
    with pytest.raises(ProcedureError) as caught:
        load_tables(other)
    assert len(caught.value.problems) == 2


def test_no_folder_no_tables(tmp_path):
    assert load_tables(tmp_path / "none").values == {}


CASES = [
    ("expansion: um/m/K,", "expansion: um/m,", 3, "The column 'expansion' is in 'um/m', which is no known unit."),
    ('"72 GPa"', '"72 K"', 6, "'modulus' of 'aluminium_356' is a temperature, but the column is a pressure."),
    ('"72 GPa"', '"seventy GPa"', 6, "is not a quantity"),
    ("table: materials", "table: stuff", 1, "The table is called 'stuff', but its file is materials.yaml"),
    ("id: 4340_steel", "id: grey_iron", 7, "There are two rows 'grey_iron' in this table."),
    ("id: 4340_steel", "id: 4340-steel", 7, "'id' must be small letters, digits and underscores, not '4340-steel'."),
    ("title: grey iron, ", "", 5, "'grey_iron' has no 'title'."),
    ("title: grey iron, ", "title: grey iron, colour: red, ", 5, "has no field called 'colour'"),
    (', source: a book}\n  - {id: alum', "}\n  - {id: alum", 5, "'grey_iron' has no 'source'."),
    ("dated: 2026-11-24", "dated: yesterday", 6, "'dated' must be a date such as 2026-11-25, not 'yesterday'."),
    ("rows:\n", "rows:\n  - just words\n", 5, "'rows' must be sets of fields."),
    ("columns:", "column:", 3, "has no field called 'column'. Did you mean 'columns'?"),
]


@pytest.mark.parametrize(("old", "new", "line", "says"), CASES, ids=[c[3][:40] for c in CASES])
def test_a_bad_table_is_refused(old, new, line, says):
    assert MATERIALS.count(old) == 1
    with pytest.raises(ProcedureError) as caught:
        read_values(MATERIALS.replace(old, new), "materials.yaml")
    assert any(p.line == line and says in p.says for p in caught.value.problems), str(caught.value)


@pytest.mark.parametrize("text", ["", "- a", "limits:", "limits: {x: 1}", "limits: {x: {table: y}}", "limits: {x: [{duty: race}]}"])
def test_bad_limits_are_refused(text):
    with pytest.raises(ProcedureError):
        read_limits(text, "limits.yaml")

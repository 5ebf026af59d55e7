"""Each fit has its page, and the page tells what the procedures and the tables say."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).parents[2]
TRADE = ROOT / "docs" / "trade"
CATALOGUE = ROOT / "backend" / "catalogue"
NO_FIT = {"README", "tables"}
SECTIONS = ["What", "Why", "Formula", "Source", "How to measure", "Common mistakes"]
LAST = "When it is out"
# springs under load, turning cranks, air under pressure
CAN_HURT = re.compile(
    "seat_load|open_load|spring_rate|installed_height|coil_bind|valve_to_piston|squish|true_tdc|crank_drag|leak_down|rod_bolt_stretch"
    "|balancer|(intake|exhaust)_(centreline|duration|lobe_lift|valve_lift)|lash|rocker|pushrod|deck_clearance$|oil_pressure|idle_pressure|priming"
)

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
PROCEDURES = [yaml.load(path.read_text(), LOADER) for path in sorted((CATALOGUE / "procedures").glob("*.yaml"))]
TABLES = yaml.safe_load((CATALOGUE / "tables" / "limits.yaml").read_text())["limits"]
PAGES = {path.stem: path.read_text() for path in sorted(TRADE.glob("*.md"))}
FITS = sorted({fit for procedure in PROCEDURES for fit in procedure["fits"]})


def page_of(fit: str) -> str:
    return fit.replace("_", "-")


def sections(page: str) -> dict[str, str]:
    """Heading -> text, in the page's order."""
    return {head.strip(): text.strip() for head, text in re.findall(r"^## (.*)\n((?:(?!^## ).*\n?)*)", PAGES[page], re.M)}


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def uses(fit: str) -> list[tuple[dict, dict]]:
    """(procedure, fit as written) for every procedure that has it."""
    return [(procedure, procedure["fits"][fit]) for procedure in PROCEDURES if fit in procedure["fits"]]


def rows(procedure: dict, written: dict) -> list[dict]:
    """The table rows a fit's limit has: the procedure's own, or those of limits.yaml."""
    limit = procedure.get("limits", {}).get(written.get("limit", ""), [])
    return TABLES[limit["table"]] if isinstance(limit, dict) else limit


def corrected() -> set[str]:
    """Fits that some step has a correction for."""
    found: set[str] = set()
    for procedure in PROCEDURES:
        for step in procedure["steps"]:
            corrects = step.get("corrects") or []
            for one in corrects if isinstance(corrects, list) else [corrects]:
                found.update(one.get("fits", []) + [one["fit"]] if "fit" in one else one.get("fits", []))
    return found


def test_there_are_fits_and_pages():
    assert len(FITS) >= 4
    assert NO_FIT < set(PAGES)


@pytest.mark.parametrize("fit", FITS)
def test_page_has_every_section_in_order_and_with_something_in_it(fit):
    assert page_of(fit) in PAGES, f"docs/trade/{page_of(fit)}.md is missing"
    found = sections(page_of(fit))
    assert list(found) in (SECTIONS, [*SECTIONS, LAST])
    assert all(found.values())


@pytest.mark.parametrize("fit", FITS)
def test_formula_is_the_procedures_formula(fit):
    told = squeezed(sections(page_of(fit))["Formula"])
    for procedure, written in uses(fit):
        assert f"`{squeezed(str(written['formula']))}`" in told, f"{procedure['procedure']}: {written['formula']}"


@pytest.mark.parametrize("fit", FITS)
def test_source_tells_every_figure_of_the_limits(fit):
    told = squeezed(sections(page_of(fit))["Source"])
    for procedure, written in uses(fit):
        for row in rows(procedure, written):
            for figure in (row[end] for end in ("low", "high", "aim", "plus") if row.get(end)):
                number = str(figure).split(" ")[0]
                assert re.search(rf"(?<![0-9.]){re.escape(number)}(?![0-9]|\.[0-9])", told), f"{procedure['procedure']}: {row}"


@pytest.mark.parametrize("fit", FITS)
def test_figures_without_a_published_source_say_so(fit):
    source = re.sub(r"\s+", " ", sections(page_of(fit))["Source"]).lower()
    for procedure, written in uses(fit):
        for row in rows(procedure, written):
            assert row["source"].lower() in source, f"{procedure['procedure']}: {row['source']}"


@pytest.mark.parametrize("fit", sorted(corrected() & set(FITS)))
def test_what_can_be_corrected_says_how(fit):
    assert LAST in sections(page_of(fit))


@pytest.mark.parametrize("page", sorted(set(PAGES) - NO_FIT))
def test_no_page_without_a_fit(page):
    assert page in [page_of(fit) for fit in FITS]


def test_the_list_names_every_page_once():
    listed = re.findall(r"\]\(([\w-]+)\.md\)", PAGES["README"])
    assert sorted(listed) == sorted(set(PAGES) - {"README"})


@pytest.mark.parametrize("page", sorted(PAGES))
def test_links_lead_somewhere(page):
    assert [name for name in re.findall(r"\]\(([\w-]+)\.md\)", PAGES[page]) if name not in PAGES] == []


def test_the_page_of_tables_names_every_table():
    for path in (CATALOGUE / "tables").glob("*.yaml"):
        assert f"`{path.name}`" in PAGES["tables"], path.name


@pytest.mark.parametrize("fit", [fit for fit in FITS if CAN_HURT.match(fit)])
def test_measuring_that_can_hurt_has_its_caution(fit):
    page = re.sub(r"\s+", " ", sections(page_of(fit))["How to measure"])
    assert "**Caution:**" in page
    assert "The maker's instructions and local codes come first." in page

"""What a phone has to fetch before it can work out of reach. The sums are those of frontend/scripts/size.mjs; this runs
it and puts its figures in the form of the other benchmarks, with their goals.
"""

import json
import subprocess

from tests.bench.report import BUILD, report, row
from tests.services.processes import ROOT

SIZE = ROOT / "frontend" / "scripts" / "size.mjs"


def main() -> None:
    if not (ROOT / "frontend" / "dist" / "index.html").exists():
        raise SystemExit("There is no built app to weigh. Run `make bench`, which builds it first.")
    subprocess.run(["node", str(SIZE)], check=True, stdout=subprocess.DEVNULL)
    figures = json.loads((BUILD / "size.json").read_text())
    (BUILD / "size.json").unlink()  # its goals are bare numbers, which `make goals` does not read; page_weight.json takes its place
    goals = {f["name"]: f["goal"] for f in figures if f["goal"] is not None}
    if goals.keys() != {"own JavaScript", "everything precached"}:
        raise SystemExit(f"{SIZE.name} no longer gives the two goals that are held here, but {sorted(goals)}.")
    report("page_weight", [row(f["name"], f["value"], f["unit"], goal(f["goal"])) for f in figures])


def goal(most: float | None) -> str:
    return "" if most is None else f"<= {most}"


if __name__ == "__main__":
    main()

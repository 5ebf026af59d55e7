"""What a phone has to fetch before it can work out of reach. The sums are those of frontend/scripts/size.mjs; this runs
it and puts its figures in the form of the other benchmarks, with their goals.
"""

import json
import subprocess

from tests.bench.report import BUILD, report
from tests.services.processes import ROOT

SIZE = ROOT / "frontend" / "scripts" / "size.mjs"


def main() -> None:
    if not (ROOT / "frontend" / "dist" / "index.html").exists():
        raise SystemExit("There is no built app to weigh. Run `make bench`, which builds it first.")
    subprocess.run(["node", str(SIZE)], check=True, stdout=subprocess.DEVNULL)
    report("page_weight", json.loads((BUILD / "page_weight.json").read_text()))


if __name__ == "__main__":
    main()

"""What checking costs: `python -m tests.benchmarks.checks`.

A record of fifty readings, with all rules, after the first load of the property library; median and worst of 20.
"""

from __future__ import annotations

import statistics
import time

from dictate.checks.run import catalogue, run
from tests.checks.build import record


def big_record() -> dict[str, object]:
    readings: list[dict[str, object]] = []
    for unit in ("u1", "u2"):
        for stage in ("as_found", "as_left"):
            same = {"equipment": unit, "stage": stage}
            readings += [
                {"quantity": "voltage", "value": 209, "point": "L1-L2", **same},
                {"quantity": "voltage", "value": 207, "point": "L2-L3", **same},
                {"quantity": "voltage", "value": 208, "point": "L1-L3", **same},
                {"quantity": "current", "value": 7.6, "component": "compressor", **same},
                {"quantity": "pressure", "value": 35, "point": "suction", **same},
                {"quantity": "pressure", "value": 230, "point": "discharge", **same},
                {"quantity": "temperature", "value": 25, "point": "suction", **same},
                {"quantity": "temperature", "value": 88, "point": "liquid", **same},
                {"quantity": "temperature", "value": 38, "point": "box", **same},
                {"quantity": "temperature", "value": 80, "point": "ambient", **same},
                {"quantity": "superheat", "value": 13, **same},
                {
                    "quantity": "resistance",
                    "value": 1.2,
                    "component": "compressor",
                    "point": "common-run",
                    **same,
                },
                {
                    "quantity": "resistance",
                    "value": 4.0,
                    "component": "compressor",
                    "point": "common-start",
                    **same,
                },
            ]
    case: dict[str, object] = {
        "equipment": [{"type": "walk-in cooler", "refrigerant": "R-448A"}, {"refrigerant": "R-404A"}],
        "readings": readings,
        "steps": ["power_isolated", "refrigerant_recovered", "brazed", "evacuated", "charged"],
        "said": [f"sentence {n} about the machine and what it did" for n in range(40)],
    }
    return case


def main() -> None:
    made = record(big_record())
    run(made)
    took = []
    for _ in range(20):
        began = time.perf_counter()
        run(made)
        took.append(1000 * (time.perf_counter() - began))
    print(
        f"{len(catalogue())} rules, {len(made.readings)} readings: median {statistics.median(took):.1f} ms, worst {max(took):.1f} ms"
    )


if __name__ == "__main__":
    main()

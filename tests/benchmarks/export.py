"""What export costs: `python -m tests.benchmarks.export [VISITS]`.

So many visits to CSV and then to UBL, read from their record.json files one after the other, with peak memory.
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from pathlib import Path

from dictate.config import load
from dictate.export.export import Job, export
from dictate.export.profile import read
from dictate.record.file import load as load_record
from dictate.record.file import to_json
from tests.export.test_export import book, record


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory() as folder:
        base = Path(folder)
        for n in range(count):
            (base / f"{n}.json").write_text(to_json(record(f"v-{n}")), encoding="utf-8")

        def visits():
            return (load_record(base / f"{n}.json") for n in range(count))

        config = load(start=Path("/"), environment={})
        began = time.perf_counter()
        export(visits, count, Job("csv", base / "all.csv", config, profile=read("lines"), book=book()))
        csv_s = time.perf_counter() - began
        export(visits, count, Job("ubl", base / "ubl", config, book=book()))
        ubl_s = time.perf_counter() - began - csv_s
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{count} visits: CSV {csv_s:.1f} s, UBL {ubl_s:.1f} s, peak memory {peak:.0f} MB")


if __name__ == "__main__":
    main()

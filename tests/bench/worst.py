"""What the worst folders take that ``rules check`` lets pass: a diagnosis as JSON, each in a process of its own.

Measured is the processor's time (so that what else runs on the machine counts little) and the process's greatest
resident memory, with the compiled knowledge and words in the cache.
"""

import os
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.bench.rows import Row
from tests.reasoning.worst import FOLDERS, Sizes, asked, write

SECONDS, MEBIBYTES = 2.0, 1024
RUNS = 3
MEASURED = """
import resource, sys
from diagnose.cli.program import run
code = run(sys.argv[1:])
used = resource.getrusage(resource.RUSAGE_SELF)
peak = next(line.split()[1] for line in open("/proc/self/status") if line.startswith("VmHWM"))
print(used.ru_utime + used.ru_stime, int(peak) // 1024, file=sys.stderr)
sys.exit(code)
"""


def run() -> list[Row]:
    return [_measured(sizes) for sizes in FOLDERS]


def _measured(sizes: Sizes) -> Row:
    with TemporaryDirectory() as scratch:
        shop = write(Path(scratch) / "shop", sizes)
        _once(sizes, shop)  # fills the cache
        taken = [_once(sizes, shop) for _ in range(RUNS)]
    seconds, mebibytes = min(taken)[0], max(peak for _, peak in taken)
    kept = seconds <= SECONDS and mebibytes <= MEBIBYTES
    limit = f"at most {SECONDS:.0f} s and {MEBIBYTES} MiB"
    return Row(str(sizes), f"{seconds:.2f} s, {mebibytes} MiB", limit, kept)


def _once(sizes: Sizes, shop: Path) -> tuple[float, int]:
    """Seconds of the processor, and MiB."""
    call = [sys.executable, "-P", "-c", MEASURED, "diagnose", "--saw", asked(sizes), "--shop", str(shop), "--json"]
    told = subprocess.run(call, capture_output=True, text=True, check=True, env=os.environ)
    seconds, mebibytes = told.stderr.split()[-2:]
    return float(seconds), int(mebibytes)

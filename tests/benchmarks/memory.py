"""The peak memory of a whole pack of about 2,000 sheets, made as `printkit make` makes it.

    python tests/benchmarks/memory.py [SHEETS]

Prints the sheets, the seconds and the peak of a child process (`resource`, so not on Windows).
"""

import json
import math
import subprocess
import sys
import tempfile
import time
from pathlib import Path

MOST_MB = 300  # design choice
BYTES = 1 if sys.platform == "darwin" else 1024  # what getrusage counts in (its manual pages)
CHILD = """\
import resource, sys
from printkit.cli import commands
commands(["make", *sys.argv[1:]], standalone_mode=False)
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, file=sys.stderr)
"""


def pack(sheets: int) -> str:
    """A pack file of three children with about that many sheets: of cards, strips, letters and pictures."""
    each = 149  # sheets of the four materials below, roughly
    lines = ['title = "A large shelf"', 'theme = "rock-pool"']
    for number in range(max(1, math.ceil(sheets / each))):
        lines += [
            "[[children]]",
            f'name = "Wren {number}"',
            "numbers = [0, 100]",
            "sums_to = 20",
            "lookalike = 3",
            'materials = [{ make = "counting-cards", words = "none" }, '
            '{ make = "counting-cards", set = "frames", arrange = "frame", words = "none" }, '
            '{ make = "strips", count = 200 }, { make = "tracing", form = "strips", rows = 1 }, '
            '{ make = "odd-one-out", count = 60 }]',
        ]
    return "\n".join(lines) + "\n"


def main(sheets: int) -> None:
    """Makes the pack in a child process and prints what it took."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "pack.toml"
        file.write_text(pack(sheets), encoding="utf-8")
        start = time.perf_counter()
        done = subprocess.run(
            [sys.executable, "-c", CHILD, str(file), "--sheets", "100000"], capture_output=True, text=True
        )
        took = time.perf_counter() - start
        if done.returncode:
            sys.exit(done.stderr)
        manifest = json.loads((Path(folder) / "pack" / "manifest.json").read_text(encoding="utf-8"))
        made = sum(
            item["sheets"]
            for item in manifest["files"]
            if not item["file"].endswith("-backs.pdf") and "sheets" in item
        )
        peak = int(done.stderr.split()[-1]) * BYTES / 1e6
        print(f"{made} sheets, {took:.1f} s, peak {peak:.0f} MB of at most {MOST_MB} MB")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)

"""Foreign SVGs beside an independent renderer, and what hostile ones cost.

Run: python tests/benchmarks/pictures.py FOLDER. For each SVG below FOLDER: the mean difference of all
pixels between the printed page and resvg, at 200 pixels, and the share of pixels that are off by more
than 24 of 255. To reach: a mean of at most 0.6 %, and no more than one file in five with over 3 % of
its pixels off. Then each hostile file of the tests in a process of its own: the processor's time to
refuse or read it and the memory that took. To reach: a second and 200 MB each. Without FOLDER only
the latter.

Files that either of the two refuses are counted, not compared. Such art is not kept in the project.
"""

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TESTS = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "pictures")]


def compared(path: Path) -> tuple[float, float] | str:
    """The mean difference and the share of pixels off in percent; or why there is none."""
    import numpy
    from test_against_resvg import printed, reference

    from printkit.errors import PrintkitError
    from printkit.pictures.svg import read_svg

    try:
        page = printed(read_svg(path.read_bytes(), path.name).drawing)
    except PrintkitError as error:
        return f"refused: {error}"
    try:
        other = reference(path, page.size)
    except (ValueError, RuntimeError, UnicodeDecodeError) as error:
        return f"not drawn by resvg: {str(error)[:80]}"
    apart = numpy.abs(numpy.asarray(page, dtype=int) - numpy.asarray(other, dtype=int))
    return float(apart.mean()) / 2.55, float((apart.max(axis=2) > 24).mean()) * 100


def foreign(folder: Path) -> None:
    """Prints the worst files and the summary."""
    paths = sorted(folder.rglob("*.svg"))
    found = {path: compared(path) for path in paths}
    for path, result in found.items():
        if isinstance(result, str):
            print(f"{path.relative_to(folder)}: {result}")
    measured = {path: result for path, result in found.items() if not isinstance(result, str)}
    if not measured:
        print("no file could be compared")
        return
    for path, (mean, off) in sorted(measured.items(), key=lambda each: -each[1][0])[:15]:
        print(f"{mean:6.2f} % mean, {off:6.2f} % of pixels off: {path.relative_to(folder)}")
    means, offs = zip(*measured.values(), strict=True)
    many = sum(off > 3 for off in offs) / len(offs)
    print(f"{len(measured)} of {len(paths)} files compared")
    print(f"mean difference {sum(means) / len(means):.2f} % (to reach: at most 0.6 %)")
    print(f"files with over 3 % of pixels off: {many:.0%} (to reach: at most 20 %)")


def one_case(path: str) -> None:
    """Reads one file; prints the processor's seconds, the memory it took, that of all, the outcome."""
    from printkit.errors import PrintkitError
    from printkit.pictures.svg import read_svg

    def peak() -> float:
        # The high-water mark that Linux keeps; that of the resource module counts the parent's too.
        return int(Path("/proc/self/status").read_text().split("VmHWM:")[1].split()[0]) / 1024

    # What reading anything at all costs is no part of a case.
    read_svg((TESTS / "fixtures" / "svg" / "lemon.svg").read_bytes(), "lemon.svg")
    before = peak()
    start = time.process_time()
    try:
        read_svg(Path(path).read_bytes(), "frog.svg")
        outcome = "drawn"
    except PrintkitError as error:
        outcome = str(error)
    seconds = time.process_time() - start
    print(json.dumps([seconds, peak() - before, peak(), outcome]))


def cases() -> None:
    """Prints a line for each hostile file, and the largest figures."""
    from hostile import DRAWN, FILES

    slowest = largest = 0.0
    with tempfile.TemporaryDirectory() as folder:
        for name, (data, _) in {**FILES, **DRAWN}.items():
            path = Path(folder) / "frog.svg"
            path.write_bytes(data)
            command = [sys.executable, __file__, "--case", str(path)]
            run = subprocess.run(command, capture_output=True, check=True)
            seconds, more, whole, outcome = json.loads(run.stdout)
            slowest, largest = max(slowest, seconds), max(largest, whole)
            print(f"{seconds:6.3f} s, {more:5.1f} MB more than {whole - more:.0f} MB, {name}: {outcome}")
    print(f"slowest {slowest:.2f} s (to reach: 1), largest process {largest:.0f} MB (to reach: 200)")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--case"]:
        one_case(sys.argv[2])
    else:
        for folder in sys.argv[1:]:
            foreign(Path(folder))
        cases()

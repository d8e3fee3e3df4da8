"""A planned set of moves that is carried out as a whole, be it by the next run, or undone.

While a set of files moves in, the hidden staging folder holds `<n>.new`, the files still to be moved,
and `<n>.old`, what stood in their way. Which of them are there says how far each move has come, so
the plan itself is written once and never changed. With a plan, a run that was killed is completed;
without one, the staging folder holds only leftovers. Deleting the plan makes the new files final.
"""

import errno
import json
import os
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path

from printkit.files import disk
from printkit.files.names import PREVIEW, stays_inside

STAGING = ".printkit-staging"

_PLAN = "plan.json"
_FORMAT = 1


@dataclass(frozen=True, kw_only=True, slots=True)
class Step:
    """One move: what stands at `file` goes aside; the staged file takes its place if `new`."""

    number: int
    file: str
    new: bool


@dataclass(frozen=True, kw_only=True, slots=True)
class Plan:
    """All moves in order; `fresh_preview` when there was no preview folder before."""

    steps: tuple[Step, ...]
    fresh_preview: bool


def staged(folder: Path, number: int) -> Path:
    """Where the new file of that number lies until it moves in."""
    return folder / STAGING / f"{number}.new"


def settle(folder: Path) -> None:
    """Ends what an earlier run left: a planned set moves in, anything else is thrown away."""
    staging = folder / STAGING
    with disk.about(folder):
        found = disk.there(staging)
        own = found and disk.is_inner(staging)
        plan = _read_plan(staging) if own else None
    if found and not own:
        raise OSError(errno.EEXIST, "is in the way; delete it", str(staging))
    if plan:
        move_in(folder, plan)
    elif found:
        clear(folder)


def move_in(folder: Path, plan: Plan) -> None:
    """Carries a written plan out from wherever it stands; after a failure all is as before the plan.

    Raises OSError with the name of the file that could not be moved. If nothing can be put back
    either, the plan stays and the next run completes it.
    """
    try:
        for step in plan.steps:
            with disk.about(folder / step.file):
                _carry_out(folder, step)
        if any("/" in step.file and not step.new for step in plan.steps):
            with suppress(OSError):  # it may hold other files
                os.rmdir(folder / PREVIEW)
        with disk.about(folder):
            disk.sync(folder / PREVIEW)
            disk.sync(folder)
            disk.delete(folder / STAGING / _PLAN)
    except BaseException as error:
        _put_back(folder, plan, error)
        clear(folder)
        raise
    clear(folder)


def write_plan(folder: Path, plan: Plan) -> None:
    """Writes the plan at one stroke; all it moves must be on the disk before."""
    staging = folder / STAGING
    disk.sync(staging)
    disk.write(staging / "plan.new", json.dumps({"format": _FORMAT, **asdict(plan)}).encode())
    disk.move(staging / "plan.new", staging / _PLAN)
    disk.sync(staging)
    disk.sync(folder)


def clear(folder: Path) -> None:
    """Deletes all that is staged, the plan first: a plan without its files must never be found.

    What cannot be deleted now stays hidden; the next run tries again.
    """
    staging = folder / STAGING
    with suppress(OSError):
        if disk.there(staging / _PLAN):
            disk.delete(staging / _PLAN)
        for entry in os.listdir(staging):
            with suppress(OSError):
                os.unlink(staging / entry)
        os.rmdir(staging)


def _carry_out(folder: Path, step: Step) -> None:
    new, target = staged(folder, step.number), folder / step.file
    if step.new and not disk.there(new):
        return  # the run that was killed moved it
    if disk.there(target) and not disk.there(_aside(new)):
        if not disk.is_file(target):
            raise OSError(errno.EISDIR, "is a folder; move it away")
        disk.move(target, _aside(new))
    if step.new:
        os.makedirs(target.parent, exist_ok=True)
        disk.move(new, target)


def _put_back(folder: Path, plan: Plan, reason: BaseException) -> None:
    try:
        if not disk.there(folder / STAGING / _PLAN):
            return  # interrupted just after the files became final
        for step in reversed(plan.steps):
            new, target = staged(folder, step.number), folder / step.file
            if step.new and not disk.there(new) and disk.there(target):
                disk.move(target, new)
            if disk.there(_aside(new)):
                os.makedirs(target.parent, exist_ok=True)
                disk.move(_aside(new), target)
        if plan.fresh_preview:
            with suppress(OSError):
                os.rmdir(folder / PREVIEW)
        disk.sync(folder / PREVIEW)
        disk.sync(folder)
    except OSError:
        if isinstance(reason, OSError):
            said = f"{reason.strerror}; some files are moved in, the next run will finish"
            raise OSError(reason.errno, said, reason.filename) from reason
        raise reason from None


def _aside(new: Path) -> Path:
    return new.with_suffix(".old")


def _read_plan(staging: Path) -> Plan | None:
    try:
        data = json.loads((staging / _PLAN).read_bytes())
        plan = Plan(steps=tuple(Step(**row) for row in data["steps"]), fresh_preview=data["fresh_preview"])
        sound = data["format"] == _FORMAT and all(
            isinstance(step.number, int) and stays_inside(step.file) for step in plan.steps
        )
    except (FileNotFoundError, ValueError, TypeError, LookupError, RecursionError):
        return None
    return plan if sound else None

"""Making a pack in a thread of its own: how far it is, a way to stop, what came of it."""

import threading
from dataclasses import dataclass, field
from pathlib import Path

from printkit.build import Plan, Wish, plan, usual_folder, write
from printkit.errors import PrintkitError
from printkit.files import plain
from printkit.pack import Pack
from printkit.web.workshop import Workshop


class _StoppedError(Exception):
    """Somebody pressed stop; what was staged is thrown away and the earlier pack stays."""


@dataclass(kw_only=True, slots=True)
class Job:
    """One run of making. `state` is 'running', 'done', 'stopped' or 'failed'."""

    state: str = "running"
    done: int = 0
    total: int = 0
    file: str = ""
    said: list[str] = field(default_factory=list)
    written: tuple[str, ...] = ()
    stop: threading.Event = field(default_factory=threading.Event)
    thread: threading.Thread | None = None

    @property
    def running(self) -> bool:
        return self.state == "running"


class Makers:
    """The latest job of each pack; one pack is made once at a time."""

    def __init__(self, workshop: Workshop):
        self._workshop = workshop
        self._jobs: dict[str, Job] = {}
        self._lock = threading.Lock()

    def of(self, name: str) -> Job | None:
        """The latest job of a pack."""
        return self._jobs.get(name)

    def start(self, name: str, path: Path, data: bytes, wish: Wish) -> Job:
        """Begins to make a pack, or gives the job that is making it already."""
        with self._lock:
            job = self._jobs.get(name)
            if job is not None and job.running:
                return job
            job = self._jobs[name] = Job()
            job.thread = threading.Thread(
                target=self._run, args=(job, path, data, wish), name="make", daemon=True
            )
            job.thread.start()
            return job

    def stop(self, patience: float = 20.0) -> None:
        """Stops all jobs and waits for them, some seconds in all; what they staged is thrown away."""
        jobs = [job for job in self._jobs.values() if job.running and job.thread is not None]
        for job in jobs:
            job.stop.set()
        for job in jobs:
            if job.thread is not None:
                job.thread.join(patience / len(jobs))

    def _run(self, job: Job, path: Path, data: bytes, wish: Wish) -> None:
        def progress(file: str, done: int, total: int) -> None:
            if job.stop.is_set():
                raise _StoppedError
            job.file, job.done, job.total = file, done - 1, total

        try:
            pack = self._workshop.pack(path, data)
            made = self._planned(pack, wish)
            folder = usual_folder(path, pack, wish)
            job.written = write(made, folder, wish, progress=progress, note=job.said.append)
            job.done = job.total
            job.state = "done"
        except _StoppedError:
            job.state = "stopped"
        except PrintkitError as error:
            job.said += [str(problem) for problem in error.problems]
            job.state = "failed"
        except OSError as error:
            job.said.append(plain(error))
            job.state = "failed"
        finally:
            if job.running:
                job.state = "failed"

    def _planned(self, pack: Pack, wish: Wish) -> Plan:
        if wish == Wish():
            return self._workshop.pack_plan(pack)
        return plan(pack, wish, make=self._workshop.made)

"""What the disk is asked for: a lock, bytes that last, moves; errors that name the right file."""

import errno
import os
import stat
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

try:
    import fcntl
except ImportError:  # Windows, which locks with msvcrt
    fcntl = None  # type: ignore[assignment]

LOCK = ".printkit-lock"

# Scanners and previews hold a fresh file open for a moment; only Windows minds.
_PAUSES = (0.05, 0.1, 0.2, 0.4) if os.name == "nt" else ()
_HELD = {errno.EAGAIN, errno.EACCES, errno.EDEADLK}
# Some network and phone folders know no locks; two runs at once go unnoticed there.
_LOCKLESS = {errno.ENOLCK, errno.ENOSYS, errno.ENOTSUP, errno.EOPNOTSUPP}


def plain(error: OSError) -> str:
    """An error of the machine as one line: the file, then what went wrong with it."""
    said = error.strerror or str(error) or type(error).__name__
    return f"{error.filename}: {said}" if error.filename else said


@contextmanager
def about(path: Path) -> Iterator[None]:
    """Errors of the machine name this file, not the hidden one at hand."""
    try:
        yield
    except OSError as error:
        said = error.strerror or str(error) or "the disk failed"
        if isinstance(error, PermissionError) and os.path.isfile(path):
            said += "; perhaps another program holds it open"
        raise OSError(error.errno or errno.EIO, said, str(path)) from error


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Holds the folder's lock: the system's own, which ends with the process however that ends.

    A second run does not wait: BlockingIOError. The file that carries the lock is deleted at the
    end; one that a crash left locks nobody out. Where a disk knows no locks, there is none.
    """
    path = folder / LOCK
    with about(folder):
        file = _locked(folder, path)
    # Deleted while still locked, so that nobody locks a file that has lost its name. Windows
    # deletes no open file, and refuses when another run has opened it meanwhile.
    try:
        yield
    finally:
        try:
            if fcntl:
                _forget(path)
        finally:
            file.close()
        if not fcntl:
            _forget(path)


def _locked(folder: Path, path: Path) -> IO[bytes]:
    while True:
        os.makedirs(folder, exist_ok=True)  # a run that failed may have removed it just now
        file = open(path, "ab")  # noqa: SIM115 (closed by `alone`)
        try:
            _lock(file)
            if not fcntl or _has_name(file, path):
                return file
        except BaseException:
            file.close()
            raise
        file.close()


def _has_name(file: IO[bytes], path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(file.fileno()), os.stat(path))
    except FileNotFoundError:
        return False


def _lock(file: IO[bytes]) -> None:
    try:
        if fcntl:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        else:
            import msvcrt

            os.lseek(file.fileno(), 0, os.SEEK_SET)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    except OSError as error:
        if error.errno in _LOCKLESS:
            return
        if error.errno not in _HELD:
            raise
        raise OSError(
            errno.EAGAIN, "another run is writing here; wait until it is done, then try again"
        ) from error


def _forget(path: Path) -> None:
    with suppress(OSError):
        os.unlink(path)


def write(path: Path, data: bytes) -> None:
    """Writes a new file; once this returns, the bytes outlast a power cut."""
    with open(path, "xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def sync(folder: Path) -> None:
    """Forces the folder's entries to the disk, where the system can (Windows cannot)."""
    if os.name == "nt":
        return
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def move(source: Path, target: Path) -> None:
    """Renames, replacing a file that is there."""
    _patiently(os.replace, source, target)


def replace_file(path: Path, data: bytes) -> None:
    """Writes a file whole or not at all; one of that name is replaced."""
    fresh = path.with_name(f".{path.name}.new")
    with about(path):
        with suppress(FileNotFoundError):
            delete(fresh)
        try:
            write(fresh, data)
            move(fresh, path)
        except OSError:
            _forget(fresh)
            raise


def delete(path: Path) -> None:
    """Deletes a file or a link, never what the link leads to."""
    _patiently(os.unlink, path)


def _patiently(call: Callable[..., None], *paths: Path) -> None:
    for pause in _PAUSES:
        try:
            return call(*paths)
        except PermissionError:
            time.sleep(pause)
    return call(*paths)


def there(path: Path) -> bool:
    """Whether anything is there, be it a link that leads nowhere; OSError if the disk does not say."""
    return _mode(path) != 0


def is_file(path: Path) -> bool:
    """Whether a file or a link is there, not a folder or a device; OSError if the disk does not say."""
    return stat.S_ISREG(_mode(path)) or stat.S_ISLNK(_mode(path))


def _mode(path: Path) -> int:
    try:
        return os.lstat(path).st_mode
    except (FileNotFoundError, NotADirectoryError):
        return 0


def is_inner(path: Path) -> bool:
    """Whether this is a folder that truly lies where it seems to, not a link or junction elsewhere."""
    return (
        path.is_dir()
        and not path.is_symlink()
        and os.path.samefile(os.path.dirname(os.path.realpath(path)), path.parent)
    )

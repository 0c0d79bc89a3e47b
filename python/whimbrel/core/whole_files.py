"""Files written whole or not at all: the old one is there until the new one is complete."""

from __future__ import annotations

import os
import stat
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

from ..errors import InputError

try:
    import fcntl
except ImportError:  # a system without file locks: nothing tells a living writer's file, so none is cleared away
    fcntl = None  # type: ignore[assignment]


def write_whole(path: str | os.PathLike[str], fill: Callable[[str], Any]) -> None:
    """Fills a file beside the path by ``fill(its path)``, then puts it in the path's place, mode kept.

    Where the path is a link, the file it leads to is replaced. What killed writers of the same file left is cleared
    away. Raises OSError with the path where it cannot be written, and InputError where it is no file.
    """
    target = Path(os.path.realpath(path))
    old = _old(Path(path))
    try:
        _clear_leftovers(target)
        handle, temporary = _locked_beside(target)
        try:
            fill(temporary)
            _take_over(temporary, old)
            os.fsync(handle)
            os.replace(temporary, target)
        except BaseException:
            with suppress(FileNotFoundError):
                os.unlink(temporary)
            raise
        finally:
            os.close(handle)
        _sync_folder(target.parent)
    except OSError as error:
        if error.errno is None:
            raise
        raise OSError(error.errno, error.strerror, str(path)) from None


def _old(path: Path) -> os.stat_result | None:
    """What is there now; refused where it is no file or may not be written."""
    try:
        old = path.stat()
    except FileNotFoundError:
        return None
    if not stat.S_ISREG(old.st_mode):
        kind = "a folder" if stat.S_ISDIR(old.st_mode) else "a device or a pipe"
        raise InputError(f"{path} is {kind}; give the name of a file")
    if not os.access(path, os.W_OK):
        raise PermissionError(13, "the file is write-protected", str(path))
    return old


def _prefix(target: Path) -> str:
    return f".{target.name[:100]}."


def _locked_beside(target: Path) -> tuple[int, str]:
    """A new file beside the target, locked for as long as its handle is open."""
    while True:
        handle, temporary = tempfile.mkstemp(dir=target.parent, prefix=_prefix(target), suffix=".part")
        if fcntl is None:
            return handle, temporary
        with suppress(OSError):  # a file system without locks
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        if os.path.exists(temporary):  # else another writer cleared it away before it was locked
            return handle, temporary
        os.close(handle)


def _clear_leftovers(target: Path) -> None:
    """Removes the files that writers of this target left when they were killed: those nobody has locked."""
    if fcntl is None or not target.parent.is_dir():
        return
    for left in target.parent.iterdir():
        if left.name.startswith(_prefix(target)) and left.name.endswith(".part"):
            with suppress(OSError):
                _remove_if_unlocked(left)


def _remove_if_unlocked(left: Path) -> None:
    handle = os.open(left, os.O_RDWR | os.O_NOFOLLOW)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        left.unlink()
    finally:
        os.close(handle)


def _take_over(temporary: str, old: os.stat_result | None) -> None:
    """Owner and mode of the old file, or the mode of any new one."""
    if old is None:
        os.chmod(temporary, 0o666 & ~_umask())
        return
    new = os.stat(temporary)
    if (new.st_uid, new.st_gid) != (old.st_uid, old.st_gid):
        with suppress(OSError):  # another's file: only the system's keeper may give it back
            os.chown(temporary, old.st_uid, old.st_gid)
    os.chmod(temporary, stat.S_IMODE(old.st_mode))


def _sync_folder(folder: Path) -> None:
    """Makes the new name last through a power cut, where the system can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask

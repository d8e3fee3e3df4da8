"""Names of files that are safe on every system; a set of files moved into a folder as a whole."""

from printkit.files.disk import plain, replace_file
from printkit.files.names import distinct, name_fault, safe_name, same_name
from printkit.files.whole import write_whole

__all__ = ["distinct", "name_fault", "plain", "replace_file", "safe_name", "same_name", "write_whole"]

"""python -m printkit."""

from printkit.cli import main

main()

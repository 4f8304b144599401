"""The command: reads arguments, calls the package, sets the exit code."""

from dwellcalc.cli.command import main

__all__ = ["main"]

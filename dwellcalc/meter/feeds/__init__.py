"""Atom feeds of interval data by the ESPI standard."""

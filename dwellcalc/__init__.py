"""Calculation of residential electrical services from declarative rules."""

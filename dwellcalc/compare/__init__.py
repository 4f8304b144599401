"""Comparisons of what was calculated: under editions, by methods, under readings of the code, of two homes.

Every difference is attributed to what makes it, in exact fractions of the floats of the sheets, so that the parts add up
to the whole without a rest.
"""

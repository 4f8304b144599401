"""Interval data of a meter: files -> a record -> plain figures with the moments they rest on. It does not judge."""

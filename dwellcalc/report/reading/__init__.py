"""Pages to read, generated from the rules: what a home file may hold, kinds of load, methods, mistakes, amendments, sources."""

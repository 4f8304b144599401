"""Beginning a home file: the questions of ``starter.yaml``, answers to them, and the file that is written from these."""

"""Files that hold interval data: plain, packed, in several encodings."""

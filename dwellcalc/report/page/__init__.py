"""An assessment as one self-contained page: for the screen, the telephone and paper."""

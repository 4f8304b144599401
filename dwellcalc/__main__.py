"""``python -m dwellcalc`` is the command."""

import sys

from dwellcalc.cli import main

sys.exit(main())

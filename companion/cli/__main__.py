"""`python -m companion.cli`."""

import sys

from companion.cli import main

sys.exit(main())

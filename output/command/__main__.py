"""`python -m output.command`, for a tree that is not installed."""

import sys

from output.command import main

sys.exit(main())

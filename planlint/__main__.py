"""`python -m planlint`."""

from planlint.cli import main

raise SystemExit(main())

"""Renders pages of a kit to PNG, to look at while a page is being made.

Example: ``python tests/peek.py guide --sums "43-17 305-148" --paper a5 --words es --out /tmp/p``
"""

import argparse
from pathlib import Path

import pypdfium2 as pdfium
from PIL import ImageFilter, ImageOps

from kitbuilder.cli.typed import typed_sum  # type: ignore[attr-defined]

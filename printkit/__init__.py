"""printkit: from one short pack file, print-ready hands-on maths material and a guide for the adult."""

__version__ = "0.1"

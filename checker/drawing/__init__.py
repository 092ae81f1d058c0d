"""Drawings as SVG in millimetres: plain data in, the same bytes out every time."""

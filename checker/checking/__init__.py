"""One installation against one rulebook: outcomes, the grade that stands, what would meet a rule."""

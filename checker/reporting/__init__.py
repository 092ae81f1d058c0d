"""Outcomes in sentences: the report, what each answer rests on, the fitting sheet."""

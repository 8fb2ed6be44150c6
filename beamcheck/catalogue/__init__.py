"""Sections and grades: a line of trade text and the rows of the tables become a typed member."""

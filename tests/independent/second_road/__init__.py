"""The same study by another road: plain functions of plain numbers, written from the rules, sharing no code.

A survey goes in as ``tomllib`` gives it; a dictionary of utilisations by key comes out. The tables are read here with
``csv`` directly, lengths and loads with a reader of its own, and the beam is solved by displacements, one element a
bay, not by three-moment equations. Where a rule of the standards leaves a choice (what stands in for an unknown, how
peaks that lie apart are summed), the choice is the one that ``docs/explain/method.md``, ``docs/decisions`` and the
register of cautious defaults print. Units: lb, in, psi.
"""

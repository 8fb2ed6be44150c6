"""Where members meet clauses: a demand beside its limit, or a visible stop."""

"""Grammars of material designations, one module per family."""

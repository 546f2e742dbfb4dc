"""Grammars of finish callouts, one module per family."""

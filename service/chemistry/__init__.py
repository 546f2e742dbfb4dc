"""Electrochemistry and corrosion physics: pure, vectorised, in SI units; import its modules."""

__all__: list[str] = []

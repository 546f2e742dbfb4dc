"""What can go wrong in the chemistry room.

ChemistryError
├── UnknownReferenceElectrodeError
├── UnknownElementError
├── MissingValenceError
└── OutOfRangeError
"""

from __future__ import annotations


class ChemistryError(ValueError):
    """The chemistry room cannot work with this input."""

    def __init__(self, message: str | None = None) -> None:
        super().__init__(message or self.__doc__)


class UnknownReferenceElectrodeError(ChemistryError):
    """No reference electrode of this name is known."""

    def __init__(self, electrode: str) -> None:
        super().__init__(f"No reference electrode named {electrode!r} is known.")
        self.electrode = electrode


class UnknownElementError(ChemistryError):
    """No atomic weight is known for this chemical symbol."""

    def __init__(self, element: str) -> None:
        super().__init__(f"No atomic weight is known for {element!r}.")
        self.element = element


class MissingValenceError(ChemistryError):
    """An element that counts towards the equivalent weight has no valence."""

    def __init__(self, element: str) -> None:
        super().__init__(f"{element!r} counts towards the equivalent weight but has no valence.")
        self.element = element


class OutOfRangeError(ChemistryError):
    """A quantity lies outside the range in which it has a meaning."""

    def __init__(self, quantity: str, requirement: str) -> None:
        super().__init__(f"{quantity} must be {requirement}.")
        self.quantity = quantity
        self.requirement = requirement

"""The docstrings of the computing rooms: parameters exist, carry a unit, and examples run.

Add a room to ``ROOMS`` once its functions are documented in this way.
"""

from __future__ import annotations

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

import numpy as np
import pytest
from numpydoc.docscrape import FunctionDoc  # type: ignore[import-untyped]

ROOMS = ("service.chemistry", "service.judgement")
UNIT = re.compile(r"\[[^\[\]]+\]")
FIGURE = re.compile(r"\b(float|ndarray)\b|(?<!dict of )\bint\b")
"""Types that hold figures; records, texts and truths carry no unit outside the chemistry room."""


def modules() -> Iterator[ModuleType]:
    for room in ROOMS:
        package = importlib.import_module(room)
        for found in pkgutil.iter_modules(package.__path__, f"{room}."):
            yield importlib.import_module(found.name)


def public_functions() -> Iterator[Callable[..., Any]]:
    for module in modules():
        for name, function in vars(module).items():
            function = inspect.unwrap(function) if callable(function) else function  # noqa: PLW2901
            is_own = inspect.isfunction(function) and function.__module__ == module.__name__
            if is_own and not name.startswith("_"):
                yield function


MODULES = list(modules())
FUNCTIONS = list(public_functions())


def documented_parameters(function: Callable[..., Any]) -> dict[str, tuple[str, str]]:
    """Type and description of each documented parameter; one entry may describe several."""
    return {
        name.strip().lstrip("*"): (entry.type, " ".join(entry.desc))
        for entry in FunctionDoc(function)["Parameters"]
        for name in entry.name.split(",")
    }


def name_of(function: Callable[..., Any]) -> str:
    return f"{function.__module__.removeprefix('service.')}.{function.__name__}"


def test_there_is_something_to_check() -> None:
    assert len(FUNCTIONS) > 80
    assert {"solve", "strip_joint", "standard_normal_sample"} <= {function.__name__ for function in FUNCTIONS}


@pytest.mark.parametrize("function", FUNCTIONS, ids=name_of)
def test_parameters_exist_and_carry_a_unit(function: Callable[..., Any]) -> None:
    described = documented_parameters(function)
    assert list(described) == list(inspect.signature(function).parameters)
    is_formula = function.__module__.startswith("service.chemistry.")
    for name, (kind, description) in described.items():
        needs_unit = is_formula or FIGURE.search(kind) is not None
        assert not needs_unit or UNIT.search(description), f"{name} has no unit in brackets"


@pytest.mark.parametrize("function", FUNCTIONS, ids=name_of)
def test_results_carry_a_unit(function: Callable[..., Any]) -> None:
    document = FunctionDoc(function)
    results = document["Returns"] or document["Yields"]
    returns_nothing = inspect.signature(function).return_annotation in {"None", None}
    assert bool(results) != returns_nothing
    for entry in results:
        is_figure = re.search(r"ndarray|float", entry.type) is not None
        assert not is_figure or UNIT.search(" ".join(entry.desc)), "the result has no unit in brackets"


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__.removeprefix("service."))
def test_examples_run(module: ModuleType) -> None:
    outcome = doctest.testmod(module, extraglobs={"np": np})
    assert outcome.failed == 0

"""Every field of every model has a description, a unit if it is a quantity, and an example that is true."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
import typing
from collections.abc import Iterator
from typing import Any

import pytest
from pydantic import BaseModel, TypeAdapter, ValidationError

from service.web import schemas
from service.web.schemas.fields import UNITS, BodySchema, Schema, described, nested, unit_of

DIMENSIONLESS = {
    "boundless": {"pH", "pH_low", "pH_high"},
    "counts": {"total", "count", "unknown", "ambiguous", "warnings", "limit", "page_size", "resolve_texts",
               "json_depth", "text_characters", "request_burst", "year", "rank", "cost_tier", "status",
               "start", "end", "wear_cycles", "failed", "index", "batch_couples", "max_cost_tier", "ref"},
    "shares": {"confidence", "probability", "oxygen_efficiency", "oxygen_efficiency_low",
               "oxygen_efficiency_high", "iso9223_factor", "pitting_factor_low", "pitting_factor_high",
               "decay_exponent_low", "decay_exponent_high"},
    "counts of assemblies": {"quantity", "line", "network", "joints", "pairs", "assumed_joints", "parts",
                             "parts_with_surface", "stands_for_pairs", "by_verdict", "by_severity", "totals",
                             "assemblies", "overlay_misfits"},
    "shares of assemblies": {"share", "severity_bounds"},
    "counts of work": {"items_total", "items_done", "serial", "after", "attempts", "failures", "version",
                       "last_status"},
    "counts of remedies": {"couples_judged", "found", "shown", "options_without_it", "change_effort",
                           "format"},
    "shares of remedies": {"score", "hazard_points", "function_points", "weights", "likelihood"},
    "beside a unit field": {"value", "low", "median", "typical", "high", "present", "flips_at"},
}  # fmt: skip
BARE = set().union(*DIMENSIONLESS.values())


def models() -> Iterator[type[Schema]]:
    for info in pkgutil.iter_modules(schemas.__path__, f"{schemas.__name__}."):
        module = importlib.import_module(info.name)
        for _, member in inspect.getmembers(module, inspect.isclass):
            if issubclass(member, Schema) and member is not Schema and member.__module__ == info.name:
                yield member


MODELS = sorted(set(models()), key=lambda model: (model.__module__, model.__name__))


def parts(annotation: Any) -> Iterator[Any]:
    yield annotation
    for inner in typing.get_args(annotation):
        yield from parts(inner)


def is_number(annotation: Any) -> bool:
    return any(part in {int, float} for part in parts(annotation))


def is_nested(annotation: Any) -> bool:
    return any(inspect.isclass(part) and issubclass(part, BaseModel) for part in parts(annotation))


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_every_model_and_field_is_described(model: type[Schema]) -> None:
    assert model.__doc__
    for name, field in model.model_fields.items():
        assert field.description, name
        assert field.description.endswith((".", "?")), name
        assert field.examples or is_nested(field.annotation), name


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_every_quantity_carries_its_unit(model: type[Schema]) -> None:
    for name, field in model.model_fields.items():
        if is_number(field.annotation) and name not in BARE:
            assert unit_of(name), name
    properties = model.model_json_schema().get("properties", {})
    assert all(properties[name].get("x-unit") == unit_of(name) for name in properties)


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_every_example_is_true(model: type[Schema]) -> None:
    for field in model.model_fields.values():
        adapter: TypeAdapter[typing.Any] = TypeAdapter(field.rebuild_annotation())
        for example in field.examples or ():
            if example is not None:
                adapter.validate_python(example)


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_nothing_unknown_passes(model: type[Schema]) -> None:
    with pytest.raises(ValidationError, match="unknown_member"):
        model.model_validate({"unknown_member": 1})


def test_the_longest_ending_names_the_unit() -> None:
    assert unit_of("corrosion_current_A_per_m2") == "A/m²"
    assert unit_of("first_area_cm2") == "cm²"
    assert unit_of("rate_um_per_year") == "µm/year"
    assert unit_of("name") is None
    endings = list(UNITS)
    for place, ending in enumerate(endings):
        assert not any(ending.endswith(earlier) for earlier in endings[:place]), ending


def test_fields_say_what_they_are_told() -> None:
    class Model(Schema):
        a: int = described("A number.", 3, 1, ge=0)
        b: tuple[int, ...] = nested("Numbers.", ())

    assert Model().a == 1
    assert Model.model_fields["a"].examples == [3]
    with pytest.raises(ValidationError):
        Model(a=-1)


ASKED = [model for model in MODELS if issubclass(model, BodySchema) or model.__name__.endswith("Query")]


@pytest.mark.parametrize("model", ASKED, ids=lambda model: model.__name__)
def test_every_number_that_callers_send_is_bounded(model: type[Schema]) -> None:
    for name, field in model.model_fields.items():
        if is_number(field.annotation) and not is_nested(field.annotation):
            constraints = "".join(repr(part) for part in [*field.metadata, field.annotation])
            assert re.search(r"\bG[et]\(|\bge=", constraints), name
            assert re.search(r"\bL[et]\(|\ble=", constraints), name

"""Closed sets of words.

Written from the OpenAPI document by `make openapi`: do not edit.
"""

from __future__ import annotations

from typing import Literal, TypeAlias


Change: TypeAlias = Literal["nothing", "finish", "material"]
"""How far a side may be changed."""

ElectrodeState: TypeAlias = Literal["active", "passive", "pitting", "ennobled"]
"""Surface state in which an electrode is judged; each has its own monotone branches."""

ElectrolyteClass: TypeAlias = Literal["chloride", "fresh", "alkaline", "acid", "complexing", "none"]
"""Family of electrolytes within which kinetic parameters may be carried over."""

Exposure: TypeAlias = Literal["immersed", "atmosphere", "splash", "indoor", "enclosure", "soil", "concrete"]
"""How the electrolyte meets the joint."""

FilmMetal: TypeAlias = Literal["copper", "silver"]
"""Reference metals of ISA-71.04-2013."""

FinishRole: TypeAlias = Literal["bare", "metallic", "conversion", "passivation", "anodic", "organic"]
"""What a finish does to the surface that the electrolyte sees."""

Fitness: TypeAlias = Literal["exact", "close", "class default", "unfit"]
"""How well the conditions of a figure match what it is used for."""

Function: TypeAlias = Literal["structural", "electrical bond", "protective earth", "power contact", "signal contact", "rf", "seal", "thermal"]
"""What a joint is for."""

Geometry: TypeAlias = Literal["strip", "fastener", "pipe", "immersed"]
"""Shape of the wetted joint line."""

IndoorMetal: TypeAlias = Literal["carbon_steel", "zinc", "copper", "silver"]
"""Reference metals of ISO 11844-1 with a known limit (lead, added in 2020, is missing)."""

JobKind: TypeAlias = Literal["batch", "assembly", "portfolio"]
"""Kinds of long work: `batch` judges couples, `assembly` checks one, `portfolio` all that are stored."""

JobState: TypeAlias = Literal["queued", "running", "done", "failed", "cancelled"]
"""Where a job stands; results can be read when it is `done`."""

MatchLevel: TypeAlias = Literal["any", "strict", "exact"]
"""How loosely a text may be read: `strict` takes exact and normalised readings."""

Objective: TypeAlias = Literal["verdict", "severity_95", "severity_median", "life", "hazards", "function", "cost", "effort"]
"""What a substitute is measured by; smaller is always better."""

Obtained: TypeAlias = Literal["read", "read in a reproduction", "computed", "from memory", "common practice"]
"""How a figure was obtained; the access half of its grade."""

Plausibility: TypeAlias = Literal["passed", "doubtful", "failed"]
"""Outcome of the plausibility gate: does the figure agree with what is known of its class."""

Regulation: TypeAlias = Literal["rohs", "reach"]
"""A body of law that a finish must meet."""

ReportFormat: TypeAlias = Literal["json", "csv", "xlsx"]
"""How a report is written."""

RuleKind: TypeAlias = Literal["mandatory", "reversal", "experience", "hazard", "crevice", "cathode damage"]
"""Which witness evaluates a rule."""

Severity: TypeAlias = Literal["none", "slight", "moderate", "severe"]
"""How badly a couple suffers over its design life; ordered from none to severe."""

Sides: TypeAlias = Literal["first", "second", "both"]
"""Which side a buyer may change."""

SourceStatus: TypeAlias = Literal["active", "superseded", "withdrawn", "guidance", "unknown"]
"""Standing of a publication on the day it was entered."""

Verdict: TypeAlias = Literal["suitable", "conditional", "unsuitable", "undetermined"]
"""The answer to "may they touch here?"."""

View: TypeAlias = Literal["full", "decision"]
"""How much of the answer is sent; both views are the same answer."""

SurfaceCondition: TypeAlias = Literal["intact", "worn", "damaged"]
"""State of a finish when the surface is judged."""

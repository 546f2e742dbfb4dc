from __future__ import annotations

from service.commands.greeting import first_answer


def test_a_first_answer_is_a_few_lines() -> None:
    document = {
        "surfaces": {"first": {"name": "aluminium"}, "second": {"name": "stainless"}},
        "environment": {"name": "the quay"},
        "verdict": "conditional",
        "severity": "moderate",
        "deciding_witness": "kinetics",
        "summary": {"line": "Aluminium is eaten."},
        "conditions": [{"action": "Seal it."}],
        "release": {"label": "first"},
        "engine": "1",
    }
    assert first_answer(document).splitlines() == [
        "aluminium against stainless, the quay",
        "conditional (severity moderate, decided by kinetics)",
        "Aluminium is eaten.",
        "- Seal it.",
        "release first, engine 1",
    ]

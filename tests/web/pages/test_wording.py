from __future__ import annotations

import pytest

from service.web.pages.wording import (
    VERDICTS,
    bounds,
    figure,
    harm,
    lifespan,
    measured,
    ratio,
    readable,
    spread,
    words,
)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, "–"),
        (0.0, "0"),
        (1092.4, "1090"),
        (12345.0, "12\u202f300"),
        (-391.0, "−391"),
        (0.0623, "0.0623"),
        (3.2e-8, "3.2\u00a0×\u00a010⁻⁸"),
        (1e7, "10⁷"),
        (3.1e8, "3.1\u00a0×\u00a010⁸"),
    ],
)
def test_a_figure_has_three_digits_at_most(value: float | None, text: str) -> None:
    assert figure(value) == text


def test_a_unit_stays_beside_its_figure() -> None:
    assert figure(2.5, "mm") == "2.5\u00a0mm"


def test_a_ratio_too_small_to_matter_is_not_told_apart() -> None:
    assert ratio(3e-17) == "less than 0.001"
    assert ratio(0.0) == "0"
    assert ratio(17.7) == "17.7"


def test_a_spread_shows_median_and_bounds() -> None:
    assert spread({"median": 1090.0, "low": 365.0, "high": 3270.0}, "µm") == "1.09\u00a0mm (0.365 to 3.27)"
    assert spread({"median": 0.0623, "low": 0.05, "high": 0.07}, "mm") == "62.3\u00a0µm (50 to 70)"
    assert (
        spread({"median": 109.0, "low": 36.5, "high": 327.0}, "µm/year") == "109\u00a0µm/year (36.5 to 327)"
    )
    assert spread(None) == "–"
    assert spread({"median": 0.0, "low": 0.0, "high": 0.009}, "µm") == "less than 0.05\u00a0µm"
    assert spread({"median": 0.0, "low": 0.0, "high": 0.0}, "µm") == "0\u00a0µm"
    assert spread({"median": None, "low": None, "high": None}) == "–"


def test_a_life_without_an_end_says_so() -> None:
    assert lifespan(100.0, 100.0) == "100\u00a0years or more"
    assert lifespan(2.77, 100.0) == "2.77 to 100\u00a0years or more"
    assert lifespan(0.195, 0.847) == "2.3 to 10\u00a0months"
    assert lifespan(0.0125, 0.0308) == "4.6 to 11\u00a0days"
    assert lifespan(0.5, 0.5) == "6\u00a0months"
    assert lifespan(0.5, 3.0) == "0.5 to 3\u00a0years"
    assert lifespan(5.0, 5.0) == "5\u00a0years"


def test_a_figure_may_come_as_a_range() -> None:
    assert bounds(None, 0.15, 0.25, "V") == "0.15 to 0.25\u00a0V"
    assert bounds(0.2, 0.15, 0.25, "V") == "0.2\u00a0V (0.15 to 0.25)"
    assert bounds(0.2, None, None, "V") == "0.2\u00a0V"
    assert bounds(None, None, None) == "–"


def test_figures_of_the_knowledge_base_come_in_units_that_people_know() -> None:
    assert measured(3.1e8, None, None, "Pa") == "310\u00a0MPa"
    assert measured(0.01, 0.005, 0.02, "m2") == "100\u00a0cm² (50 to 200)"
    assert measured(0.5, None, None, "1") == "0.5"
    assert measured(1.0, None, None, "V") == "1\u00a0V"


def test_names_of_code_become_words() -> None:
    assert words("joint.design_life_years") == "design life"
    assert words("cathode-damage") == "cathode damage"
    assert words(None) == ""


def test_a_sentence_of_the_engine_is_written_for_people() -> None:
    assert readable("15 um and 0 um a year.") == "15 µm and 0 µm a year."
    assert readable("Cracking: joint.joint_temperature_C") == "Cracking: joint temperature"
    assert readable("aluminum") == "aluminum"


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("A and b should not be joined here (sea): severe attack on a.", "Severe attack on a."),
        (
            "A and b may be joined here (sea) under conditions: moderate risk (zinc: salt).",
            "Moderate risk (zinc: salt).",
        ),
        ("A and b may be joined here (sea).", "No attack worth noting."),
        ("A and b may be joined here (sea) under conditions.", "It depends on its conditions."),
        ("The couple cannot be judged: a is not known.", "The couple cannot be judged: a is not known."),
        (None, ""),
    ],
)
def test_of_a_line_the_harm_remains(line: str | None, told: str) -> None:
    assert harm(line) == told


def test_every_verdict_has_a_shape_of_its_own() -> None:
    assert len({wording.outline for wording in VERDICTS.values()}) == len(VERDICTS) == 4

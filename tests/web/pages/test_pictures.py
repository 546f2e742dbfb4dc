from __future__ import annotations

import copy
from typing import Any
from xml.etree import ElementTree as ET

from service.web.pages.pictures import attack_along_joint, pictures_of, potential_ranges, uncertainty

Document = dict[str, Any]


def test_every_picture_is_xml_with_a_caption_and_a_table(document: Document) -> None:
    pictures = pictures_of(document)
    assert [picture.id for picture in pictures] == ["potentials", "reach", "uncertainty"]
    for picture in pictures:
        ET.fromstring(picture.svg)  # noqa: S314 - our own
        assert picture.caption
        assert picture.rows
        assert all(len(row) == len(picture.columns) for row in picture.rows)


def test_potential_ranges_tell_the_scale_and_the_limit(document: Document) -> None:
    picture = potential_ranges(document)
    assert picture
    assert picture.rows[0][1:] == (-900, -900)
    assert picture.rows[-1] == ("permissible difference", None, 150)
    assert "650 to 750" in picture.caption
    assert "not its rate" in picture.caption


def test_nine_tenths_of_the_attack_lie_within_the_reach(document: Document) -> None:
    picture = attack_along_joint(document)
    assert picture
    assert picture.rows[0] == (0.0, 1.0)
    assert picture.rows[3][1] == 0.1
    assert " um " not in picture.caption


def test_a_current_that_gets_everywhere_is_drawn_even(document: Document) -> None:
    wide = copy.deepcopy(document)
    wide["loss"]["reach_mm"] = {"low": 100.0, "median": 100.0, "high": 100.0}
    picture = attack_along_joint(wide)
    assert picture
    assert [row[1] for row in picture.rows] == [1.0, 1.0, 1.0, 1.0, 0.0, 0.0]
    assert "reaches all of" in picture.caption


def test_severities_stand_in_their_order(document: Document) -> None:
    picture = uncertainty(document)
    assert picture
    names = [str(row[0]) for row in picture.rows[4:]]
    assert [name.split("‘")[1].split("’")[0] for name in names] == ["none", "slight", "moderate", "severe"]
    assert sum(float(str(row[1])) for row in picture.rows[4:]) == 100.0


def test_nothing_is_drawn_of_what_was_not_computed(document: Document) -> None:
    bare = copy.deepcopy(document)
    bare["loss"] = None
    for finding in bare["findings"]:
        finding["figures"] = {}
    assert pictures_of(bare) == []


def test_a_joint_without_attack_has_no_curve(document: Document) -> None:
    quiet = copy.deepcopy(document)
    quiet["loss"]["galvanic_rate_um_per_year"]["median"] = 0.0
    assert attack_along_joint(quiet) is None


def test_losses_of_nothing_still_fit_the_axis(document: Document) -> None:
    quiet = copy.deepcopy(document)
    quiet["loss"]["galvanic_loss_um"] = {"low": 0.0, "median": 0.0, "high": 0.0}
    assert uncertainty(quiet)

"""The family of base materials that a finish implies where a text names no material."""

from __future__ import annotations

from collections.abc import Mapping

_BASIS = {
    "aluminium": (
        "chem-film-1a chem-film-3 tcp-1a tcp-3 anod-i anod-ic anod-iib anod-ii-clear anod-ii-dyed "
        "anod-ii-unsealed anod-phosphoric anod-iii-hard anod-iii-ptfe sn-over-cu-al"
    ),
    "carbon steel": (
        "zn-mechanical zn-hdg zn-hdg-sheet zn-galvanneal zn-eg-sheet zn-sherardized zn-flake "
        "zn-flake-chromate galfan galvalume zn-mg-al al-hotdip black-oxide-steel phosphate-zn "
        "phosphate-mn phosphate-fe nitrocarburised"
    ),
    "stainless steel": "ss-passivated ss-electropolished ss-pickled black-oxide-stainless",
    "copper": (
        "hasl-snpb hasl-lf imm-sn imm-ag osp enig enepig cu-passivated cu-black-oxide ag-wire "
        "lead-free-hotdip-sn"
    ),
    "titanium": "ti-anodised mmo",
    "magnesium": "mg-chromate mg-anodise mg-conversion-ncr",
}
IMPLIED_BASIS: Mapping[str, str] = {
    finish_id: family for family, finishes in _BASIS.items() for finish_id in finishes.split()
}
"""A finish that is put on one family of metals only (from memory)."""

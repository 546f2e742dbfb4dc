"""Names that the catalogue does not list, with relatives of like composition that may stand in.

Equivalences are from memory and approximate, so every reading from here is ambiguous and asks.
"""

from __future__ import annotations

import re

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Sense
from service.callouts.patterns import Pattern, pattern

_TABLE: tuple[tuple[str, str, str], ...] = (
    # expression, relatives, family
    (r"s(?:220|250|280|320|350|390|420|450|550)gd", "steel-dx51d steel-s355", "carbon steel"),
    (r"dx5[2-8]d", "steel-dc04 steel-dx51d steel-dc01", "carbon steel"),
    (r"dc0[3567]|spcd|spcf|spcg|fep0[356]|st13", "steel-dc04 steel-dc01", "carbon steel"),
    (r"dd1[2-4]|sph[de]", "steel-dd11", "carbon steel"),
    (r"(?:h|hc|hx|hct|hdt)\d{3}(?:lad?|xd?|yd?|bd?|lad)", "steel-dc01 steel-dx51d", "carbon steel"),
    (
        r"s(?:185|195|255|420|460|500|690|700|960)[a-z0-9+]{0,6}|s235j[02]|s235jrc\+c|s275j[02]",
        "steel-s235 steel-s355",
        "carbon steel",
    ),
    (
        r"s355(?:jr|j0|k2|j2c|n|nl|m|ml|mc|j2h|j0h|nh)?(?:\+[a-z]{1,2})?|st ?52(?:-3)?",
        "steel-s355",
        "carbon steel",
    ),
    (
        r"e ?(?:195|215|235|255|275|295|335|355|410)(?: ?\+[a-z]{1,2})?",
        "steel-s235 steel-s355",
        "carbon steel",
    ),
    (r"st ?(?:33|35|37|44|50|60|70)(?:-\d)?(?:k)?", "steel-s235 steel-s275", "carbon steel"),
    (
        r"c(?:10|15|22|25|30|35|40|50|55|60)[er]?|ck(?:15|22|35|60)|s(?:15|25|30|35|50|55)c",
        "steel-1018 steel-1045",
        "carbon steel",
    ),
    (r"(?:p|sb?)\d{3}gh|p\d{3}(?:n|nl|nh|tr\d|gh)", "steel-s355 steel-s235", "carbon steel"),
    (
        r"stk[mrn]?\d{2,3}[a-z]?|sgp|ss[ -]?(?:330|400|490|540)|sm\d{3}[a-c]?|stkm11a",
        "steel-s235 steel-s355",
        "carbon steel",
    ),
    (
        (
            r"sc?m4(?:15|20|35)|scr4[1-4]\d|42crmos4|34crmo4|34crmos4|41cr4|37cr4|32crb4|30crnimo8|50crmo4|"
            r"40crmnmo7"
        ),
        "steel-4140 steel-4130",
        "low-alloy steel",
    ),
    (r"16mncr5|20mncr5|16mncrs5|18crnimo7-6|17crnimo6|15crni6|20crmo5|15cr3|17cr3", "", "low-alloy steel"),
    (
        (
            r"51crv4|50crv4|55cr3|54sicr6|60si2mn|sup\d{1,2}a?|c67s|c75s|ck67|ck75|c60s|c80u|sk[2-7]m?|sk85|"
            r"67sicr5"
        ),
        "steel-spring",
        "carbon steel",
    ),
    (
        (
            r"swp-?b|swrh\d{2}[ab]?|swc|swosc(?:-v)?|swb|en 10270-1(?:-| )?s[lmh]?|astm a ?22[789]|astm a ?"
            r"231|sh wire"
        ),
        "steel-spring",
        "carbon steel",
    ),
    (
        (
            r"35s20|46s20|10s20|9s20k?|36smn14|38smn28|44smn28|12l13|sum2[134]l?|y12|(?:(?:aisi|sae|c) ?)?(?"
            r":11l17|1144|1117|1215|1214)(?: (?:steel|stl|crs))?"
        ),
        "steel-11smn30 steel-11smnpb30",
        "carbon steel",
    ),
    (
        (
            r"(?:astm )?a ?(?:283|500|501|513|53|106|569|570|366|131|516|529|519)(?: ?gr(?:ade|\.)? ?[a-d]?"
            r"\d{0,2})?"
        ),
        "steel-a36 steel-1018",
        "carbon steel",
    ),
    (
        r"(?:astm )?a ?(?:1008|1011|109|108|29|620|621)(?: (?:cs|ds|dds)(?: type [a-c])?)?",
        "steel-1008 steel-dc01 steel-1018",
        "carbon steel",
    ),
    (
        r"(?:astm )?a ?(?:572|992|656|715|607|606|588)(?: ?-? ?(?:gr(?:ade|\.)? ?)?\d{2})?",
        "steel-s355 steel-weathering",
        "carbon steel",
    ),
    (
        (
            r"(?:astm )?a ?193[ ,-]{0,2}(?:gr(?:ade|\.)? ?)?b7m?|(?:grade |gr\.? ?)b7|(?:astm )?a ?"
            r"320[ ,-]{0,2}(?:gr(?:ade|\.)? ?)?l7m?|b7 stud"
        ),
        "steel-4140",
        "low-alloy steel",
    ),
    (
        (
            r"(?:astm )?a ?19[34][ ,-]{0,2}(?:gr(?:ade|\.)? ?)?b?8m(?: ?cl(?:ass)?\.? ?[12][ab]?)?|"
            r"b8m(?:[ ,-]{1,2}cl(?:ass)?\.? ?[12][ab]?)?"
        ),
        "ss-316",
        "stainless steel",
    ),
    (
        (
            r"(?:astm )?a ?19[34][ ,-]{0,2}(?:gr(?:ade|\.)? ?)?b?8(?: ?cl(?:ass)?\.? ?[12][ab]?)?|"
            r"b8[ ,-]{1,2}cl(?:ass)?\.? ?[12][ab]?"
        ),
        "ss-304",
        "stainless steel",
    ),
    (r"(?:astm )?a ?194[ ,-]{0,2}(?:gr(?:ade|\.)? ?)?(?:2hm?|7|4)", "steel-1045 steel-4140", "carbon steel"),
    (
        (
            r"(?:astm )?(?:a ?(?:307|394|563)|f ?(?:1554|568))(?:[ ,-]{0,2}(?:gr(?:ade|\.)? ?)?(?:[a-d]h?|36|"
            r"55|105))?"
        ),
        "steel-1018 steel-s235",
        "carbon steel",
    ),
    (r"(?:astm )?(?:a ?(?:325|449)|f3125 grade a325)", "steel-8-8", "carbon steel"),
    (r"(?:astm )?a ?(?:490|354)(?: ?(?:gr(?:ade|\.)? ?)?b[cd])?", "steel-10-9", "carbon steel"),
    (
        r"(?:astm )?f ?59[34]g?(?: (?:alloy )?group [12])?|astm f ?(?:593|594|738m?|836|837|879|880)",
        "ss-304 ss-316",
        "stainless steel",
    ),
    (r"1\.4306|1\.4311|1\.4315", "ss-304l ss-304", "stainless steel"),
    (r"1\.4406|1\.4429|1\.4430|1\.4434", "ss-316l", "stainless steel"),
    (r"1\.4567|1\.4560|x3crnicu18-9-4|304cu|302hq|a2 mod|xm-?7", "ss-304 ss-302", "stainless steel"),
    (r"(?:sus|aisi|ss)? ?303 ?cu", "ss-303", "stainless steel"),
    (r"1\.4578|x3crnicumo17-11-3-2|1\.4409|1\.4581", "ss-316", "stainless steel"),
    (
        r"1\.4509|x2crtinb18|(?:aisi|sus|type|ss) ?(?:441|439)|1\.4510|x3crti17|430ti",
        "ss-430",
        "stainless steel",
    ),
    (r"1\.4034|1\.4031|1\.4037|1\.4029|1\.4035", "ss-420", "stainless steel"),
    (r"1\.4112|440[ab]|1\.4109", "ss-440c", "stainless steel"),
    (
        (
            r"cuzn39pb2|cw612n|cuzn38pb2|cw608n|cuzn38pb1|cuzn37pb2|cw606n|cuzn37pb0\.5|cuzn40pb1|c3604|"
            r"c3602|"
            r"c37000|c35300|c34000|c3560"
        ),
        "brass-cuzn39pb3 brass-cuzn40pb2 brass-c36000",
        "brass",
    ),
    (r"cuzn36|cw507l|c27000|c2700|c268", "brass-cuzn37 brass-c26800", "brass"),
    (
        r"cuzn42|cw510l|cuzn35ni2|cuzn40al2mn2si1|cuzn37mn3al2pbsi|cw713r",
        "brass-cuzn40 bronze-manganese",
        "brass",
    ),
    (
        (
            r"cusn10(?:-c)?|cc480k|rg7|cusn7zn4pb7-c|cusn7znpb|cc493k|rg10|rg-?7|c93200|sae ?660(?: bronze)?|"
            r"(?:660|932) bronze|bronze (?:660|932)|bearing bronze 660|c90300|cusn10p"
        ),
        "bronze-gunmetal bronze-cusn12 bronze-g",
        "bronze",
    ),
    (
        r"cusn2|cusn3|cusn4p|c5101|c505|c50500|c51080|cusn0\.15|c14415|cusn5p|cusn6p|cusn8p",
        "bronze-cusn4 bronze-cusn6",
        "bronze",
    ),
    (
        r"cual10fe3mn2|cual9mn2|cual8|cual10ni|cw306g|c62400|c62300|c61900|aeterna",
        "bronze-al-c95400 bronze-al-c61400 bronze-nab",
        "bronze",
    ),
    (
        (
            r"cuni12zn24|cuni18zn27|cuni10zn27|cuni12zn25|cuni7zn39pb3mn2|cw403j|cw410j|c77000|c74500|c7701|"
            r"c7541"
        ),
        "nickel-silver",
        "nickel silver",
    ),
    (
        (
            r"cu-?(?:hcp|dlp|phc|pha|c1|c2|fr?tp|frhc)|se-?cu|sw-?cu|cw02[0-3]a|c10300|c1220t|c1201|c12000|"
            r"e-?"
            r"cu(?: ?f ?\d\d)?|c1020|c1011"
        ),
        "cu-etp cu-of cu-dhp",
        "copper",
    ),
    (
        (
            r"c18070|c18080|c19010|c7025|c70250|cuni2si|cuni1si|cucrsiti|c19400|c19210|k55|cufe0\.1p|c15100|"
            r"cuzr|cuag0\.1p?"
        ),
        "cu-ni-si cu-fe2p cu-cr-zr",
        "copper",
    ),
    (
        r"cube1\.7|cw100c|c17000|c1700|c17300|cube2pb|c17500|cuco2be|c17410|cuco1ni1be",
        "cu-be2 cu-be-low",
        "beryllium copper",
    ),
    (r"cunisn|cuni9sn2|cuni15sn8|c72500|c72900", "cuni-90-10 bronze-cusn6", "copper-nickel"),
    (r"cuni25|cuni10fe1\.6mn|c71640|cuni5fe", "cuni-70-30 cuni-90-10", "copper-nickel"),
    (
        r"ti ?gr(?:ade)? ?3|3\.7055|r50550|t50|ti-?6al-?2sn-?4zr-?2mo|ti-?10-?2-?3|ti-?15-?3",
        "ti-gr2 ti-gr4",
        "titanium",
    ),
    (r"sn62pb36ag2|sn62|sn60pb38cu2|sn63pb35ag2", "solder-sn63pb37", "solder"),
    (
        r"sac ?(?:105|0307|387|396)|sn99ag0\.3cu0\.7|sn100c|sn98\.5ag1cu0\.5|sn95\.5ag3\.8cu0\.7",
        "solder-sac305 solder-sn99cu07",
        "solder",
    ),
    (r"gd-?znal4cu1|znal4cu1mg|zl0410|zp5", "zn-zamak5", "zinc die cast"),
    (
        (
            r"(?:tool steel |aisi |hss ?)(?:m2|m35|m42|o1|s7|h13|p20|a2)|1\.2842|1\.2312|1\.2343|1\.2344|"
            r"1\.2767|1\.2510|90mncrv8"
        ),
        "steel-tool-d2",
        "low-alloy steel",
    ),
    (r"(?:g[dk]?-?)?alsi1[02]\(cu\)", "al-a413 al-adc12", "cast aluminium"),
    # Reinforcing steel is judged as structural steel; EN 10080, DIN 488 (from memory).
    (r"b ?[45][05]0 ?[abc]?|bst ?(?:420|500) ?[smw]?|fe ?e ?500", "steel-b500b steel-s355", "carbon steel"),
    (r"pbsb\d{0,2}(?:\.\d)?|pb ?-?sb ?\d{0,2}", "pb-sb", "lead"),
    (r"mic ?-?6|alca ?5|atp ?-?5|k ?100s", "al-cast-tooling-plate", "cast aluminium"),
    # Chinese grades (GB/T 700, 699, 1220).
    (r"q(?:195|215|235|275)(?:-?[a-d])?f?", "steel-s235", "carbon steel"),
    (r"q(?:345|355|390|420)(?:-?[a-e])?", "steel-s355", "carbon steel"),
    (r"45 ?#(?: steel)?|#45 steel", "steel-1045", "carbon steel"),
    (r"65mn", "steel-spring", "carbon steel"),
    (r"40cr|35crmo|42crmo", "steel-4140", "low-alloy steel"),
    (r"0?6cr19ni10|[01]cr18ni9(?:ti)?", "ss-304 ss-321", "stainless steel"),
    (r"0?6cr17ni12mo2|0cr17ni12mo2|022cr17ni12mo2|00cr17ni14mo2", "ss-316 ss-316l", "stainless steel"),
    (r"hpb59-1|hpb61-1|hpb62-0\.8", "brass-cuzn39pb3 brass-cuzn40pb2", "brass"),
    # Trade names found on drawings.
    (r"nitronic ?(?:50|60|40|32|30)?", "ss-xm19", "stainless steel"),
    (r"(?:cor-?ten|patinax|weathering)(?: [ab])?(?: steel)?", "steel-weathering", "low-alloy steel"),
    (r"zeron ?100|ferralium(?: 255)?|super ?duplex", "ss-2507", "stainless steel"),
    (r"hardox ?\d{0,3}|strenx ?\d{0,4}|weldox ?\d{0,4}|domex ?\d{0,3}", "steel-s355", "low-alloy steel"),
)

_ROWS = tuple((re.compile(expression), tuple(names.split()), family) for expression, names, family in _TABLE)


def _read(found: re.Match[str], lexicon: Lexicon) -> Sense | None:
    text = found.group()
    listed = lexicon.alloy(text)
    if (listed and not listed.question) or (text.isdigit() and text != found.string.strip()):
        return None
    relatives, family = next((names, family) for shape, names, family in _ROWS if shape.fullmatch(text))
    options = lexicon.held(*relatives)
    if not options:
        return Alloy((), family)
    name = lexicon.catalogue.materials[options[0]].name
    return Alloy(options, family, question=f"{text.upper()} is not listed: may {name} stand for it?")


PATTERNS: tuple[Pattern, ...] = (
    pattern("|".join(row[0] for row in _TABLE), "", _read, "relative of a listed material"),
)
PHRASES: dict[str, Sense] = {}

"""Headings for the columns of joints, in three languages: data of ``columns``.

A row is a name, a kind, what the column means, an example, and the other headings that it has,
separated by semicolons.
"""

from __future__ import annotations

JOINT_HEADINGS: tuple[tuple[str, str, str, str, str], ...] = (
    (
        "joint",
        "text",
        "Identifier of the joint; numbered by row where it is missing.",
        "J02",
        (
            "joint id; joint no; joint number; id; interface; connection; ref; pos; item; number; "
            "verbindung; verbindungs nr; fügestelle; assemblage; liaison; jonction"
        ),
    ),
    (
        "first",
        "text",
        "Part number of one side; without a table of parts its drawing text.",
        "SK-1111",
        (
            "first; part_a; part a; side a; from; teil a; teil 1; part 1; pièce a; pièce 1; first part; "
            "component a; component 1; item a"
        ),
    ),
    (
        "second",
        "text",
        "Part number of the other side; of a fastener joint the fastener.",
        "SK-1112",
        (
            "second; part_b; part b; side b; to; mate; mates with; teil b; teil 2; part 2; pièce b; "
            "pièce 2; second part; component b; component 2; item b"
        ),
    ),
    (
        "environment",
        "text",
        "Zone or environment; empty takes the zones of both parts.",
        "splash-and-tidal-zone",
        "zone; exposure; place; umgebung; einbauort; bereich; environnement; milieu",
    ),
    (
        "name",
        "text",
        "What the joint is called.",
        "Bracket bolts",
        (
            "description; title; joint name; note; remark; bezeichnung; benennung; bemerkung; désignation; "
            "remarque"
        ),
    ),
    (
        "functions",
        "functions",
        "What the joint is for, separated by semicolons.",
        "structural; electrical bond",
        "function; purpose; duty; funktion; funktionen; zweck; fonction; fonctions",
    ),
    (
        "geometry",
        "geometry",
        "Shape of the wetted joint line: strip, fastener, pipe or immersed.",
        "fastener",
        "shape; joint type; type; geometrie; form; géométrie; forme",
    ),
    (
        "first_area",
        "area",
        "Wetted area of the first side.",
        "1450",
        (
            "area_a; area a; area 1; area first; first wetted area; wetted area a; fläche a; fläche 1; aire "
            "a; surface a"
        ),
    ),
    (
        "second_area",
        "area",
        "Wetted area of the second side.",
        "38",
        (
            "area_b; area b; area 2; area second; second wetted area; wetted area b; fläche b; fläche 2; "
            "aire b; surface b"
        ),
    ),
    (
        "fastener_radius",
        "length",
        "Radius of the head of a round second member.",
        "12",
        "head radius; radius; kopfradius; rayon; rayon de tête",
    ),
    (
        "bore",
        "length",
        "Inside diameter of two pipes that meet, of the geometry pipe only.",
        "40",
        (
            "pipe bore; inside diameter; inner diameter; innendurchmesser; rohrinnendurchmesser; "
            "diamètre intérieur; alésage"
        ),
    ),
    (
        "current",
        "current",
        "Current through the joint.",
        "25",
        "load current; strom; courant; i",
    ),
    (
        "force",
        "force",
        "Contact force.",
        "200",
        "contact force; kontaktkraft; kraft; force de contact",
    ),
    (
        "design_life",
        "years",
        "Life that the joint must reach.",
        "20",
        "life; service life; lifetime; lebensdauer; nutzungsdauer; durée de vie",
    ),
    (
        "section_allowance",
        "thickness",
        "Loss that the section can stand.",
        "500",
        "allowance; corrosion allowance; zulässiger abtrag; abtragszuschlag; surépaisseur de corrosion",
    ),
    (
        "compound",
        "text",
        "Compound in the joint, an identifier of the catalogue.",
        "jc-zinc",
        "joint compound; sealant; paste; grease; fügepaste; dichtmasse; paste fett; mastic; graisse",
    ),
    (
        "joint_temperature",
        "temperature",
        "Temperature of the joint.",
        "40",
        "temperature; temp; temperatur; température",
    ),
    (
        "wear_cycles",
        "count",
        "Matings or strokes over the life.",
        "500",
        "cycles; mating cycles; steckzyklen; zyklen; cycles d'accouplement",
    ),
    (
        "is_isolated",
        "yes or no",
        "Whether no current can pass between the parts.",
        "no",
        "isolated; insulated; isolation; isoliert; isolé",
    ),
)

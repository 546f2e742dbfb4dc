"""Headings for the columns of parts, in seven languages: data of ``columns``.

A row is a name, a kind, what the column means, an example, and the other headings that it has,
separated by semicolons.
"""

from __future__ import annotations

PART_HEADINGS: tuple[tuple[str, str, str, str, str], ...] = (
    (
        "part_number",
        "text",
        "Number of the part; what joints refer to. Without it the position counts, then the row.",
        "SK-1112",
        (
            "part; part no; part nr; part number; part num; partnumber; pn; p n; part id; id; part code; "
            "component id; component number; item code; material number; article; article number; article "
            "no; stock code; sku; mpn; mfg pn; mfr part number; mfg part number; mfr part no; manufacturer "
            "part number; drawing number; drawing no; "
            "drawing; dwg; dwg no; teilenummer; teile nr; teilenr; teil; sachnummer; artikelnummer; artikel "
            "nr; artikel; materialnummer; zeichnungsnummer; zeichnungs nr; ident nr; identnummer; "
            "référence; référence article; numéro de pièce; n de pièce; no de pièce; code article; repère "
            "plan; numéro de plan; réf; réf pièce; référence pièce; item id; código; código de pieza; "
            "número de pieza; "
            "referencia; nº de pieza; codice; codice articolo; numero parte; onderdeelnummer; artikelnr; "
            "artikelcode; referência; número da peça"
        ),
    ),
    (
        "position",
        "text",
        "Position in the list; dotted positions (1.2.3) make the tree.",
        "1.2",
        (
            "pos; pos nr; posnr; item; item no; item number; item nr; find; find no; find number; number; "
            "no; nr; line; line no; seq; index; uid; positionsnummer; lfd nr; repère; rep; poste; numéro; "
            "structure; outline; posición; ítem; posizione; positie; posição"
        ),
    ),
    (
        "description",
        "text",
        "Name of the part. Where no column names a material, the surface is read from here.",
        "Bracket bolt M16x60, A4-80",
        (
            "name; part name; part description; component; component name; component description; item "
            "name; item description; title; long name; short name; designation; part; nomenclature; "
            "benennung; bezeichnung; teilebezeichnung; beschreibung; komponente; désignation; description "
            "de la pièce; libellé; nom; nom de la pièce; dénomination; pièce; désignation normalisée; "
            "bauteil; "
            "bauteilname; teilename; artikelbezeichnung; descripción; denominación; pieza; nombre "
            "pieza; nombre de la pieza; componente; descrizione; denominazione; nome; particolare; "
            "omschrijving; "
            "benaming; naam; onderdeel; descrição; designação; peça"
        ),
    ),
    (
        "surface",
        "text",
        "Drawing text that holds material and finish together.",
        "EN AW-6082-T6, anodized 15 µm",
        (
            "drawing text; callout; material and finish; material finish; material surface; werkstoff und "
            "oberfläche; werkstoff oberfläche; matière et traitement"
        ),
    ),
    (
        "material",
        "text",
        "Material note.",
        "EN AW-6082-T6",
        (
            "material note; material spec; material specification; material type; material description; raw "
            "material; base material; alloy; mat; matl; mtl; material grade; grade; werkstoff; "
            "werkstoffbezeichnung; rohmaterial; grundwerkstoff; legierung; matière; matériau; matériaux; "
            "matière première; nuance; alliage; material name; materialien; materiale; materiali; lega; "
            "materiaal; grondstof; liga; material de la pieza"
        ),
    ),
    (
        "finish",
        "text",
        "Finish note.",
        "anodized 15 µm",
        (
            "finish note; finish spec; surface finish; surface treatment; treatment; plating; coating; "
            "coat; protective finish; protection; colour finish; finishing; oberfläche; "
            "oberflächenbehandlung; oberflächenschutz; beschichtung; behandlung; überzug; korrosionsschutz; "
            "traitement; traitement de surface; revêtement; finition; état de surface; acabado; "
            "recubrimiento; "
            "tratamiento; tratamiento superficial; finitura; rivestimento; trattamento; trattamento "
            "superficiale; "
            "afwerking; oppervlaktebehandeling; coating type; acabamento; revestimento; tratamento"
        ),
    ),
    (
        "specification",
        "text",
        "More about the part; searched for a surface when the description names none.",
        "ISO 4762, A4-80",
        (
            "specifications; spec; specs; model; model config; type; details; detail; description 2; long "
            "description; additional description; value; comment; spezifikation; typ; zusatz; norm; "
            "standard; spécification; caractéristiques; norme; especificación; especificaciones; norma; "
            "tipo; "
            "specifica; specifiche; specificatie; specificaties; especificação"
        ),
    ),
    (
        "note",
        "text",
        "Remarks; searched last.",
        "supplied with thread locker",
        (
            "notes; remark; remarks; comments; bemerkung; bemerkungen; anmerkung; hinweis; remarque; "
            "remarques; commentaire; observations; notas; observaciones; comentarios; osservazioni; "
            "opmerking; "
            "opmerkingen; observações"
        ),
    ),
    (
        "revision",
        "text",
        "Revision of the part.",
        "C",
        (
            "rev; revision level; part revision; issue; version; index rev; änderungsindex; änderungsstand; "
            "revisionsstand; stand; indice; indice de révision; révision"
        ),
    ),
    (
        "effectivity",
        "text",
        "Units or dates for which the part is built in: SN 101-120, 2026-01-01/2026-06-30.",
        "SN 101-120",
        (
            "effective; effectivity range; valid; validity; valid from; serials; serial effectivity; "
            "gültigkeit; gültig; gültig ab; einsatz; seriennummern; validité; applicabilité; effectivité"
        ),
    ),
    (
        "parent",
        "text",
        "Part number of the assembly above.",
        "SK-1100",
        (
            "parent number; parent part; parent part number; parent id; parent item; next assembly; next "
            "higher assembly; nha; used on; belongs to; übergeordnet; übergeordnetes teil; kopfnummer; "
            "oberteil; parent assembly; ensemble; ensemble supérieur; père; composé; conjunto superior"
        ),
    ),
    (
        "level",
        "text",
        "Depth in the tree, of an indented list.",
        "2",
        (
            "lvl; lev; bom level; indent; indent level; indenture; depth; tier; ebene; stufe; "
            "stücklistenebene; dispositionsstufe; niveau; rang; profondeur; nivel; livello; nível"
        ),
    ),
    (
        "assembly",
        "text",
        "Name of the assembly that the row belongs to, where the tree is written as names.",
        "Mast assembly",
        (
            "assembly name; sub assembly; subassembly; group; section; module; system; category; used in; "
            "used in sections; used in section; where used; baugruppe; unterbaugruppe; gruppe; sous "
            "ensemble; groupe; mechanism; subsystem; conjunto; subconjunto; gruppo; sottogruppo; assieme; "
            "groep"
        ),
    ),
    (
        "quantity",
        "count",
        "Pieces under the parent.",
        "8",
        (
            "qty; q ty; qnty; quant; quan; amount; count; pcs; pieces; number off; no off; required; qty "
            "per assembly; qty per unit; qty per assy; qty assy; qty each; number req in assy; req; total "
            "quantity; total qty; total used in project; units; stück; stk; menge; anzahl; stückzahl; anz; "
            "quantité; qté; qte; nombre; nb; nbre; number needed; needed; cantidad; cant; cdad; uds; "
            "unidades; "
            "quantità; qtà; quantita; pezzi; aantal; stuks; hoeveelheid; quantidade; qtd; qtde"
        ),
    ),
    (
        "wetted_area",
        "area",
        "Wetted area of one piece.",
        "38",
        (
            "area; surface area; exposed area; wet area; contact area; benetzte fläche; fläche; oberfläche "
            "fläche; oberflächeninhalt; surface mouillée; aire; surface exposée; superficie"
        ),
    ),
    (
        "thickness",
        "thickness",
        "Thickness of the outermost coat, where it stands apart.",
        "15",
        (
            "finish thickness; coating thickness; plating thickness; coat thickness; schichtdicke; "
            "épaisseur; épaisseur du revêtement"
        ),
    ),
    (
        "condition",
        "condition",
        "State of the finish: intact, worn or damaged.",
        "intact",
        "finish condition; state; state of finish; zustand; état",
    ),
    (
        "zone",
        "text",
        "Zone or environment that the part lives in; empty takes that of the assembly above.",
        "splash-and-tidal-zone",
        (
            "environment; environment zone; exposure; location; place; installation zone; area zone; "
            "einbauort; umgebung; bereich; ort; einsatzort; environnement; milieu; emplacement; lieu"
        ),
    ),
    (
        "net",
        "text",
        "Electrical net or bond that the part is on; parts of one net conduct to each other.",
        "PE",
        (
            "electrical net; bond; bonding net; earth; potential; netz; potenzial; potential group; réseau; "
            "masse"
        ),
    ),
    (
        "is_isolated",
        "yes or no",
        "Whether the part is mounted without an electronic path to the others.",
        "no",
        "isolated; isolation; insulated; electrically isolated; isoliert; isolé; isolée",
    ),
    (
        "designators",
        "text",
        "Reference designators of a circuit.",
        "J1, J2",
        (
            "designator; reference; references; ref; refs; ref des; refdes; reference designator; reference "
            "designators; project ref code; referenz; bauteilkennzeichen"
        ),
    ),
)

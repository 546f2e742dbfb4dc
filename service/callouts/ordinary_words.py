"""Ordinary words that look like words of the trade: they are neither corrected nor taken apart."""

from __future__ import annotations

_PIECES = """
ag all and are as at au box car case con des die ein ele end ent est fer for gar ger gold head her ing ins int
iron its lead leads les lid line lit man men mes mit net non nor not ohm one or our out par per pin pro ref
rot row silver sin son star steel stone sub sur tab tan tap ten the tin tip too top tor ver via von was way
wer with zum zur
"""
_OWN = """
accordingly adapted agent agents allows alternate backed backing banded bands basing beaming beating binding
blanks blazing bounded bounding bracketing browse bushed captain caption cartons casing caution
chaired chopped clipped coasted coaster coiled collar collate colorized confirm copier couple coupled
course cutter decade decorated decorative deposited derived disposition elated elector electron electronic
electronics emails enable engine entire exclusion expense extension faced filed filler filmed flawed flower
flushed forced forging formed forming furnished germany graphic graphics inert inhaled inset inversion
invert inverted inverter jumped labelling leaked leaned leaning liking linked linking listed living loaded
loading locked looking lower making managing masked matched messaging missing mixing module modules mouse
nested omission painter parity particle pasted pasting patched picked picker picking pinned placed placing
planed planer planing plant planted planting plates platform platter played player playing plotted plotter
pointed pointer pointing police policy polite posted power powered powers printer printers printing
production profit projected projection protect published pulled quart remaining required reset resort
returning rivers roller ruler scaled scaler scaling scanned scoped scores scribed selling served
shaded slashed slated slides slotted spaced spared spiral spotted stable stacked stage staging stalled
stamped stapled started starter stateless station steals stirling stored strange stretched stride string
strings stroke strokes strong structure structured styled templated tested texture textured tilted timed
tinted titled topping towed traced trained trait transfer trimmed tuned tuner tuning turner twinned unloaded
updated updating waited waiter water watered waxed welder winded winding wined wrapped zipped
"""

NEVER_A_PIECE = frozenset(_PIECES.split())
"""Words that stand inside too many others, names of firms among them."""

WORDS_OF_THEIR_OWN = frozenset(_OWN.split())
"""Words that resemble words of the trade without being slips of the pen for them."""

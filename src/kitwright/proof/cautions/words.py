"""The words of the cautions. Ours, general, and bound to three things: no age, no promise, and always somebody to ask."""

from __future__ import annotations

from typing import Final

GENERAL: Final = (
    "Made by hand. General information, not legal or safety advice. Rules differ from place to place and change."
)
ASK_AUTHORITY: Final = (
    "Ask your local consumer-protection office, or a licensed professional, what holds where you are."
)

SMALL_PARTS: Final = "Contains small parts. Keep small parts away from babies, small children and pets."
ASK_LABORATORY: Final = (
    "Ask a product-testing laboratory and read the rules in force: they decide about labels, not this program."
)
ASK_GAUGE: Final = "Ask your local consumer-protection office where to try the parts in a real small-parts gauge."

BAG: Final = "A plastic bag can smother. Keep it away from babies and children. It is not a toy."
ASK_BAG: Final = "Ask your state or province for the wording and type size that it wants on bags."
BAG_CANADA: Final = "Round a toy in Canada, a bag as wide as this carries its warning in English and in French."
BAG_CANADA_THIN: Final = "Round a toy in Canada, film as thin as this is not accepted on a bag as wide as this."

CORD: Final = "Long ribbon or cord can strangle. Keep it away from babies and small children."
CORD_LOOP: Final = "A loop as large as this can slip over a head. Shorten it, or let it part under a light pull."
ASK_CORD_LENGTH: Final = "Say how long it is unwound ({names}); until then it counts as long."
ASK_CORD: Final = "Ask a product-testing laboratory before a long cord goes into anything for a child."

MAGNET: Final = (
    "Magnets that are swallowed can injure badly. Leave no magnet loose. If one is swallowed, get medical help at once."
)
ASK_MAGNET: Final = (
    "Ask the supplier for the strength of the magnet, and a product-testing laboratory before it goes to a child."
)

BLADE_BENCH: Final = (
    "Cut away from yourself, with the other hand behind the blade. Use a cutting mat and a metal rule. "
    "Several light cuts with a sharp blade are better than one hard cut. "
    "Cover the blade after use; put old blades into a rigid, closed box."
)
POINT_BENCH: Final = (
    "Points and edges cut. Pierce onto a soft mat, never towards your hand. Cover them when not in use."
)
SHARP_IN_KIT: Final = "Sharp edge or point. For adults, or children who are watched closely. Cover when not in use."
ASK_SHARP: Final = "Ask the supplier for the directions that belong to the tool."
ASK_SHARP_CHILD: Final = "Ask a product-testing laboratory before anything sharp goes into a kit for children."

HEAT: Final = "Hot tools and hot glue burn, and stay hot after they are switched off. Keep paper, cord and children away from them."
ASK_HEAT: Final = "Ask the tool's own directions first, and a doctor about any burn larger than a coin."

SUPPLY: Final = (
    "Use it as its own label says. Keep the label with it. Let in fresh air. Do not refill it into another container."
)
NO_STATEMENT: Final = "No statement of the supplier is on file for: {names}."
ASK_SUPPLY: Final = "Ask the supplier for the label and the data sheet; in an accident ask your poison-control centre."

CHILDREN: Final = (
    "You say that this is for children. Rules for children's goods are strict and go by how a thing is described, shown and "
    "commonly used. Write maker, town, date and batch on each piece and its box."
)
SELLING: Final = "Before selling, look into sales tax, a business licence, the rules of the fair and insurance."
ASK_SELLING: Final = "Ask the tax office, an accountant and an insurer."
ABROAD: Final = "The buyer's country may want a responsible person of its own, labels in its language, and duty."
ASK_ABROAD: Final = "Ask the customs office and the post office before sending."

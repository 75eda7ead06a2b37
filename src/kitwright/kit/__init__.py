"""Kits: the document that a maker writes, what it says, and what is built and proved from it."""

from kitwright.kit.bench import Keeping, Machine, OffcutOnHand, Trimmer
from kitwright.kit.boxes import BoxChoice, NoBox, box_choices, boxes_of
from kitwright.kit.build import build
from kitwright.kit.built import BuiltKit, BuiltPart
from kitwright.kit.cautions import EXTRA_KINDS, kit_cautions
from kitwright.kit.contents import Arrangement, arranged
from kitwright.kit.difference import Difference, differences
from kitwright.kit.edit import apply_changes, quoted
from kitwright.kit.edition import Adjustment, Edition, edition
from kitwright.kit.filling import Filling, filling
from kitwright.kit.for_cutting import blank_label, drawn_nm, sheet_stock, stocks_for, trimmer_limits
from kitwright.kit.mend_document import Mended, mend_document
from kitwright.kit.mend_kit import MendedKit, mend_kit
from kitwright.kit.model import Extra, Face, FitRules, Goes, Kit, Laid, Packed, Part, Sizing, SizingKind
from kitwright.kit.part_proof import PartProof, part_proofs
from kitwright.kit.placing import put_on
from kitwright.kit.post import PostedPiece, kit_weight, post_findings, posted_pieces
from kitwright.kit.prints import as_used
from kitwright.kit.prove import prove
from kitwright.kit.read import read_kit, read_kit_bytes
from kitwright.kit.read_laid import read_laid_length
from kitwright.kit.relations import faces_of
from kitwright.kit.reshape import COMPANY, list_text, rename_changes, take_out
from kitwright.kit.starter import new_kit_document
from kitwright.kit.sums import along, clear_inside, face_sides, hanging, length_over, lids_of
from kitwright.kit.syntax import LARGEST_DOCUMENT
from kitwright.kit.syntax import decode as document_text_of
from kitwright.kit.tables import free_paper_word, said_in, with_table
from kitwright.kit.things import Thing
from kitwright.kit.write import laid_text, scan_text, write_kit

__all__ = [
    "COMPANY",
    "EXTRA_KINDS",
    "LARGEST_DOCUMENT",
    "Adjustment",
    "Arrangement",
    "BoxChoice",
    "BuiltKit",
    "BuiltPart",
    "Difference",
    "Edition",
    "Extra",
    "Face",
    "Filling",
    "FitRules",
    "Goes",
    "Keeping",
    "Kit",
    "Laid",
    "Machine",
    "Mended",
    "MendedKit",
    "NoBox",
    "OffcutOnHand",
    "Packed",
    "Part",
    "PartProof",
    "PostedPiece",
    "Sizing",
    "SizingKind",
    "Thing",
    "Trimmer",
    "along",
    "apply_changes",
    "arranged",
    "as_used",
    "blank_label",
    "box_choices",
    "boxes_of",
    "build",
    "clear_inside",
    "differences",
    "document_text_of",
    "drawn_nm",
    "edition",
    "face_sides",
    "faces_of",
    "filling",
    "free_paper_word",
    "hanging",
    "kit_cautions",
    "kit_weight",
    "laid_text",
    "length_over",
    "lids_of",
    "list_text",
    "mend_document",
    "mend_kit",
    "new_kit_document",
    "part_proofs",
    "post_findings",
    "posted_pieces",
    "prove",
    "put_on",
    "quoted",
    "read_kit",
    "read_kit_bytes",
    "read_laid_length",
    "rename_changes",
    "said_in",
    "scan_text",
    "sheet_stock",
    "stocks_for",
    "take_out",
    "trimmer_limits",
    "with_table",
    "write_kit",
]

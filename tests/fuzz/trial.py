"""One kit document through the whole house, and whatever is amiss on the way, judged by arithmetic of its own where that is cheap."""

from __future__ import annotations

import json
import math
import re
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, field, replace
from enum import StrEnum
from fractions import Fraction
from itertools import combinations
from pathlib import Path
from typing import Any, Final

from kitwright.cutting import to_mm
from kitwright.errors import KitwrightError, Mistake, Mistakes, Place
from kitwright.findings import Finding, Severity
from kitwright.kit import BuiltKit, Kit, SizingKind, apply_changes, build, prove, read_kit_bytes, write_kit
from kitwright.measure import Unit
from kitwright.plan import PaperPlan, Plan, lay_on_mats, lay_out_kit
from kitwright.printouts.make.as_data import mats_as_data, plan_as_data
from kitwright.proof import Proof

__all__ = ["Amiss", "Phase", "Trial", "Trouble", "try_document"]


class Phase(StrEnum):
    """How far a document is taken. Each needs those before it but for mats and the page."""

    READ = "read"
    BUILD = "build"
    PROVE = "prove"
    MEND = "mend"
    SHEETS = "sheets"
    MATS = "mats"
    PACK = "pack"
    PAGE = "page"


class Amiss(StrEnum):
    """What can be amiss."""

    RAISED = "raised"
    """Something other than a mistake of the maker was raised."""
    NO_ADVICE = "no advice"
    """A mistake or a finding without words."""
    NOT_THE_SAME = "not the same"
    """A kit that is written down and read again is another."""
    NO_FIX = "no fix"
    """The only thing that fails has no fix, and nothing says why."""
    CONTRADICTS = "contradicts"
    """Two things that are said cannot both be true."""
    WRONG_PLAN = "wrong plan"
    """A layout that its own check or ours finds wrong."""
    WRONG_PAGE = "wrong page"
    """Words of the bench pack that lie off the page, on other words, or nowhere."""
    NO_PACK = "no pack"
    """A kit is proved, and yet it cannot be laid out or printed."""
    TOO_LONG = "too long"
    TOO_LARGE = "too large"
    """Time and memory; only whoever runs the trial can tell."""


@dataclass(frozen=True)
class Trouble:
    """One thing amiss, where, and in words; `where` is the line of the program, of what was raised."""

    amiss: Amiss
    phase: Phase
    words: str
    where: str = ""


@dataclass
class Trial:
    """What became of a document: the phases it went through, how it ended and with what words, what was amiss, and how long each phase
    took (s of this process's CPU).
    """

    outcome: str = ""
    words: str = ""
    done: list[Phase] = field(default_factory=list)
    troubles: list[Trouble] = field(default_factory=list)
    took: dict[Phase, float] = field(default_factory=dict)
    tell: Callable[[Phase], object] | None = None

    def note(self, amiss: Amiss, phase: Phase, words: str, where: str = "") -> None:
        """Note something amiss."""
        self.troubles.append(Trouble(amiss, phase, words, where))

    def reach(self, phase: Phase, work: Callable[[], Any]) -> Any:
        """The result of a phase, or None where it ends here: with mistakes, which is as it should be, or with something raised."""
        if self.tell:
            self.tell(phase)
        began = time.process_time()
        try:
            found = work()
        except KitwrightError as mistake:
            self.outcome, self.words = f"refused ({phase})", str(mistake)[:200]
            for words in without_advice(mistake):
                self.note(Amiss.NO_ADVICE, phase, words)
            return None
        except BaseException as error:  # a panic of a library is no Exception, and is what is looked for
            if isinstance(error, KeyboardInterrupt | SystemExit):
                raise
            self.outcome = f"raised ({phase})"
            self.note(Amiss.RAISED, phase, f"{type(error).__name__}: {str(error)[:200]}", last_line(error))
            return None
        finally:
            self.took[phase] = time.process_time() - began
        self.done.append(phase)
        return found


def try_document(
    text: str, phases: Collection[Phase], *, kits: int = 1, tell: Callable[[Phase], object] | None = None
) -> Trial:
    """Take a document through these phases (those that others need are gone through as well); `kits` are laid out at once.

    `tell` hears of every phase as it begins.
    """
    trial = Trial(tell=tell)
    kit = trial.reach(Phase.READ, lambda: read_kit_bytes(text.encode("utf-8", "surrogatepass")))
    if kit is not None:
        planned(trial, text, kit, phases, kits)
    if Phase.PAGE in phases:
        trial.reach(Phase.PAGE, lambda: look_at_pages(trial, text))
    trial.tell = None
    return trial


def planned(trial: Trial, text: str, kit: Kit, phases: Collection[Phase], kits: int) -> None:
    """Whatever comes after reading."""
    trial.outcome = "read"
    trial.reach(Phase.READ, lambda: look_at_writing(trial, kit))
    built = trial.reach(Phase.BUILD, lambda: build(kit)) if set(phases) - {Phase.READ, Phase.PAGE} else None
    if built is None:
        return
    trial.outcome = "built"
    look_at_sizes(trial, built)
    if not set(phases) & {Phase.PROVE, Phase.MEND, Phase.SHEETS, Phase.MATS, Phase.PACK}:
        return
    proof = trial.reach(Phase.PROVE, lambda: prove(built))
    if proof is None:
        return
    trial.outcome = "proved" if proof.is_proved else "not proved"
    look_at_proof(trial, proof)
    if Phase.MEND in phases:
        trial.reach(Phase.MEND, lambda: look_at_fixes(trial, text, proof))
    if not set(phases) & {Phase.SHEETS, Phase.MATS, Phase.PACK}:
        return
    outcome = trial.outcome
    papers = trial.reach(Phase.SHEETS, lambda: lay_out_kit(built, kits))
    if papers is None:
        if proof.is_proved and trial.outcome.startswith("refused"):
            trial.note(Amiss.NO_PACK, Phase.SHEETS, f"proved, and laying it out is refused: {trial.words}")
        return
    trial.outcome = outcome
    plan = Plan(built, proof, kits, papers)
    look_at_plan(trial, plan)
    if Phase.MATS in phases:
        look_at_mats(trial, plan)
    if Phase.PACK in phases:
        look_at_pack(trial, plan)
    trial.outcome = outcome


def without_advice(mistake: KitwrightError) -> Iterator[str]:
    """Mistakes that do not say what is wrong, or what to do."""
    for each in mistake.mistakes if isinstance(mistake, Mistakes) else (mistake,):
        if not (isinstance(each, Mistake) and each.what.strip() and each.do.strip()):
            yield str(each)


def last_line(error: BaseException) -> str:
    """The innermost line of our own program in a traceback: `kit/sums.py:220 thing_named`."""
    frames = traceback.extract_tb(error.__traceback__)
    own = [each for each in frames if "kitwright" in each.filename and "site-packages" not in each.filename]
    if not own:
        return ""
    return f"{own[-1].filename.rpartition('kitwright/')[2]}:{own[-1].lineno} {own[-1].name}"


def look_at_writing(trial: Trial, kit: Kit) -> None:
    """The kit written down and read again; lengths that no decimal has cannot be written, and that is said."""
    try:
        text = write_kit(kit)
    except Mistake:
        return
    if bare(read_kit_bytes(text.encode())) != bare(kit):
        trial.note(Amiss.NOT_THE_SAME, Phase.READ, "written down and read again, the kit is another")


def bare(kit: Kit) -> Kit:
    """The kit without the places of its document, and without the wording of where its numbers are from."""
    papers = {
        key: replace(
            paper,
            gsm=round(paper.gsm, 4),
            caliper=replace(paper.caliper, mm=round(paper.caliper.mm, 6), sentence=""),
        )
        for key, paper in kit.papers.items()
    }
    return replace(
        kit,
        papers=papers,
        parts=tuple(replace(each, place=Place(), settings=dict(each.settings)) for each in kit.parts),
        extras=tuple(
            replace(each, weight_g=None if each.weight_g is None else round(each.weight_g, 3)) for each in kit.extras
        ),
        accuracy=replace(kit.accuracy, because=""),
    )


FLAT: Final = ("flat card", "mat", "tag")
"""Forms whose blank is the finished thing."""


def look_at_sizes(trial: Trial, built: BuiltKit) -> None:
    """Blanks of flat things, of folded cards and of trays against what a bench would reckon from the sizes that were said."""
    for part in built.parts:
        said = [float(each) for each in part.part.sizing.lengths]
        if part.part.sizing.kind is not SizingKind.SIZE or not said:
            continue
        wanted: tuple[float, float] | None = None
        if part.part.form in FLAT:
            wanted = (said[0], said[1])
        elif part.part.form == "half-fold card":
            on_top = part.part.settings.get("fold") == "top"
            wanted = (said[0], 2 * said[1]) if on_top else (2 * said[0], said[1])
        elif part.part.form == "tray" and len(said) == 3:
            side = max(said[2], float(part.lengths["tab"]))
            wanted = (said[0] + 2 * side, said[1] + 2 * said[2])
        has = part.pattern.blanks[0].size
        if wanted and max(abs(a - b) for a, b in zip(wanted, has, strict=True)) > 1e-6:
            trial.note(Amiss.WRONG_PLAN, Phase.BUILD, f"a {part.part.form} of {said} has a blank of {has}")


def look_at_proof(trial: Trial, proof: Proof) -> None:
    """Words and numbers of every finding, and whether they agree with each other."""
    for finding in proof.findings:
        for words in contradictions(finding):
            trial.note(Amiss.CONTRADICTS, Phase.PROVE, words)
        if not (finding.about.strip() and finding.message.strip()):
            trial.note(Amiss.NO_ADVICE, Phase.PROVE, f"{finding.code} says nothing")
    said: dict[tuple[str, str, float | None], set[Severity]] = {}
    for finding in proof.findings:
        said.setdefault((finding.code, finding.about, finding.measured), set()).add(finding.severity)
    for (code, about, _), severities in said.items():
        if Severity.FAIL in severities and Severity.OK in severities:
            trial.note(Amiss.CONTRADICTS, Phase.PROVE, f"{code} of {about!r} both fails and is well")
    failing = proof.of(Severity.FAIL)
    if proof.is_proved is not (not failing and not proof.of(Severity.UNKNOWN)):
        trial.note(Amiss.CONTRADICTS, Phase.PROVE, proof.sentence())
    if len(failing) == 1 and not has_fix(failing[0]):
        trial.note(Amiss.NO_FIX, Phase.PROVE, f"{failing[0].code}: {failing[0].message}", failing[0].code)


def has_fix(finding: Finding) -> bool:
    """Whether a finding offers a change, or says why it offers none."""
    return finding.fix is not None or bool(finding.advice.strip())


HAIR: Final = 2e-3
"""mm. Margins this small are rounding: lengths this near to a mark lie on it."""
BAND_SLACK: Final = 0.26
"""mm. Paper gives by so much where a band lies."""
SELDOM: Final = 0.5
"""A fit that fails in more than half of all makes is not well."""


def contradictions(finding: Finding) -> Iterator[str]:
    """What in a finding does not go with the rest of it."""
    numbers = [each for each in (finding.measured, finding.required, finding.margin) if each is not None]
    if not all(map(math.isfinite, numbers)):
        yield f"{finding.code}: {numbers} are no numbers"
    slack = BAND_SLACK if finding.code == "band-place" else HAIR
    if finding.severity is Severity.OK and finding.unit == "mm" and (finding.margin or 0.0) < -slack:
        yield f"{finding.code} is well with a margin of {finding.margin}"
    made = finding.makings
    if made is None:
        return
    if abs(made.share + made.too_tight + made.too_loose - 1) > 1e-6 or not made.low <= made.share <= made.high:
        yield f"{finding.code}: the shares {made.share}, {made.too_tight}, {made.too_loose} are not all there is"
    if not made.least - HAIR <= made.nominal <= made.greatest + HAIR:
        yield f"{finding.code}: {made.nominal} is not between {made.least} and {made.greatest}"
    if finding.severity in (Severity.OK, Severity.NOTE) and made.share < SELDOM:
        yield f"{finding.code} is {finding.severity} and fits in {made.share:.1%} of all makes"


def look_at_fixes(trial: Trial, text: str, proof: Proof) -> None:
    """Every fix, written into the document, has to turn its finding to good and make nothing else fail."""
    bad = (Severity.FAIL, Severity.UNKNOWN)
    before = {(each.code, each.about) for each in proof.of(*bad)}
    for finding in proof.findings:
        if finding.fix is None:
            continue
        try:
            changed = apply_changes(text, finding.fix.changes)
        except Mistake:
            continue  # written so that it must be changed by hand, and that is said
        after = prove(build(read_kit_bytes(changed.encode())), with_fixes=False)
        left = {(each.code, each.about) for each in after.of(*bad)}
        if (finding.code, finding.about) in left:
            trial.note(Amiss.CONTRADICTS, Phase.MEND, f"{finding.fix.sentence!r} does not mend {finding.code}")
        if left - before:
            trial.note(Amiss.CONTRADICTS, Phase.MEND, f"{finding.fix.sentence!r} makes others fail: {left - before}")


def look_at_plan(trial: Trial, plan: Plan) -> None:
    """Layouts by their own check, and by ours from the numbers that other programs get."""
    for paper in plan.papers:
        for fault in paper.faults:
            trial.note(Amiss.WRONG_PLAN, Phase.SHEETS, f"{fault.code}: {fault.message}")
        any_trimmer = plan.kit.trimmer.longest_cut is None and plan.kit.trimmer.narrowest is None
        for unplaced in paper.cut_plan.unplaced if plan.proof.is_proved and any_trimmer else ():
            trial.note(Amiss.NO_PACK, Phase.SHEETS, f"proved, but {unplaced.sentence(plan.ruler)}")
    data = json.loads(json.dumps(plan_as_data(plan), allow_nan=False))
    size = {line["blank"]: (line["width_mm"], line["height_mm"]) for line in data["cut_list"]}
    for paper, told in zip(plan.papers, data["papers"], strict=True):
        for words in paper_faults(paper, told, size):
            trial.note(Amiss.WRONG_PLAN, Phase.SHEETS, words)
        lacking = Counter({each.piece: each.count for each in paper.cut_plan.unplaced})
        for line in data["cut_list"]:
            if line["paper"] != told["paper"]:
                continue
            laid = sum(
                layout["times"] * sum(each["blank"] == line["blank"] for each in layout["parts"])
                for layout in (*told["layouts"], *told["not_by_through_cuts"])
            )
            if laid + lacking[line["blank"]] != line["in_batch"]:
                trial.note(
                    Amiss.WRONG_PLAN,
                    Phase.SHEETS,
                    f"{laid} and {lacking[line['blank']]} of {line['in_batch']} × {line['blank']} are accounted for",
                )


def paper_faults(paper: PaperPlan, told: dict[str, Any], size: dict[str, tuple[float, float]]) -> Iterator[str]:
    """What is wrong with the layouts of one paper: size, room, overlaps, and numbers of sheets that cannot be."""
    stocks = {each.name: each for each in paper.stocks}
    for layout in (*told["layouts"], *told["not_by_through_cuts"]):
        stock = stocks[layout.get("stock", paper.stocks[0].name)]
        left, low = float(to_mm(stock.margins.left)), float(to_mm(stock.margins.bottom))
        right = float(to_mm(stock.width - stock.margins.right))
        top = float(to_mm(stock.height - stock.margins.top))
        for each in layout["parts"]:
            wanted = size[each["blank"]][:: -1 if each["turn"] % 2 else 1]
            if max(abs(each["width_mm"] - wanted[0]), abs(each["height_mm"] - wanted[1])) > 1e-4:
                yield f"{each['blank']} is laid out {each['width_mm']} x {each['height_mm']}"
            ends = (each["x_mm"] + each["width_mm"], each["y_mm"] + each["height_mm"])
            if (
                each["x_mm"] < left - 1e-4
                or each["y_mm"] < low - 1e-4
                or ends[0] > right + 1e-4
                or ends[1] > top + 1e-4
            ):
                yield f"{each['blank']} lies over the edge of {stock.name}"
        for one, other in combinations(layout["parts"][:60], 2):
            apart = [
                max(one[at] - other[at] - other[far], other[at] - one[at] - one[far])
                for at, far in (("x_mm", "width_mm"), ("y_mm", "height_mm"))
            ]
            if max(apart) < -1e-4:
                yield f"{one['blank']} and {other['blank']} overlap"
    if not told["unplaced"] and not 0 <= told["at_least"] <= max(told["sheets"], 0):
        yield f"{told['sheets']} sheets, and at least {told['at_least']}"
    pieces = sum(Fraction(each.width * each.height * each.count) for each in paper.demand)
    room = sum(Fraction(each.usable_width * each.usable_height) * (each.count or 0) for each in paper.stocks[1:])
    sheet = paper.stocks[0].usable_width * paper.stocks[0].usable_height
    if not told["unplaced"] and told["sheets"] < math.ceil((pieces - room) / sheet):
        yield f"{told['sheets']} sheets are fewer than the area of the pieces needs"


MATS_TRIED: Final = 100
"""Reports of a search for mats before it is told to stop: it looks better with time, and is as good for a check."""


def look_at_mats(trial: Trial, plan: Plan) -> None:
    """The batch on the mats of a cutting machine."""
    heard = iter(range(MATS_TRIED))
    found = trial.reach(Phase.MATS, lambda: lay_on_mats(plan, tell=lambda *_: next(heard, None) is not None))
    for each in found or ():
        for fault in each.faults:
            trial.note(Amiss.WRONG_PLAN, Phase.MATS, f"{fault.code}: {fault.message}")
    if found:
        json.dumps(mats_as_data(found), allow_nan=False)


def look_at_pack(trial: Trial, plan: Plan) -> None:
    """All files of the pack, whether or not the kit is proved."""
    from tests.printouts.pack_faults import pack_faults  # noqa: PLC0415

    from kitwright.printouts.make.whole_pack import whole_pack  # noqa: PLC0415  (the typesetter, which is large)
    from kitwright.printouts.page import A4, US_LETTER  # noqa: PLC0415

    files = trial.reach(Phase.PACK, lambda: whole_pack(plan))
    if files is None and trial.outcome.startswith("refused"):
        trial.note(Amiss.NO_PACK, Phase.PACK, f"the pack is refused: {trial.words}")
    if files:
        page = US_LETTER if plan.kit.unit is Unit.INCH else A4
        for words in pack_faults(plan, files["bench-pack.pdf"], page):
            trial.note(Amiss.WRONG_PAGE, Phase.PACK, words)


PLACES: Final = ("", "/picture.svg", "/fold/whole", "/fold/0", "/flat/0", "/leaves")
HERE: Final = "http://127.0.0.1:8000"


def look_at_pages(trial: Trial, text: str) -> None:
    """Every page of the kit in the workbench, brought there as a file; no answer may be a fault of the program."""
    from starlette.testclient import TestClient  # noqa: PLC0415  (only where pages are looked at)

    from kitwright.web import make_app  # noqa: PLC0415
    from kitwright.web.desk import VIEWS  # noqa: PLC0415
    from kitwright.workshop import Workshop  # noqa: PLC0415

    def well(address: str, answer: Any) -> Any:
        if answer.status_code >= 500:
            trial.note(Amiss.RAISED, Phase.PAGE, f"{address} answers {answer.status_code}", address)
        return answer

    with tempfile.TemporaryDirectory() as folder:
        shop = Workshop(Path(folder) / "shop")
        with TestClient(
            make_app(shop),
            base_url=HERE,
            headers={"origin": HERE},
            follow_redirects=False,
            raise_server_exceptions=False,
        ) as client:
            data = text.encode("utf-8", "surrogatepass")
            brought = well("/bring", client.post("/bring", files={"file": ("kit.toml", data, "application/toml")}))
            if brought.status_code == 303:
                word = re.sub(r"[#?].*", "", brought.headers["location"].removeprefix("/kit/"))
            else:
                word = shop.begin("broken", text.encode("utf-8", "replace").decode(), words="Begun.").word
            on_kit = f"/kit/{word}"
            for view, _ in VIEWS:
                well(f"/{view}", client.get(f"{on_kit}/{view}"))
            for place in PLACES:
                well(place, client.get(f"{on_kit}{place}"))
            well("/check-text", client.post(f"{on_kit}/check-text", data={"document": text}))
            client.post(f"{on_kit}/stop", data={"revision": "1"})
            well("/", client.get("/"))

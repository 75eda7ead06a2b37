"""The proof of a built kit: every check on every part and every relation, and for what fails a fix that was itself tried."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from kitwright.catalogue import parameters
from kitwright.findings import Finding, Placed, Severity
from kitwright.kit.built import BuiltKit, BuiltPart
from kitwright.kit.contents import Room, arranged, is_turned_in, stack_of, stacked_things
from kitwright.kit.counts import count_findings
from kitwright.kit.fits import KitFits
from kitwright.kit.mending import mended, tries_for_each
from kitwright.kit.model import Face, Goes
from kitwright.kit.part_proof import PartProof, part_proofs
from kitwright.kit.sums import (
    along,
    belonging_together,
    clear_inside,
    glued_on,
    goes_between_walls,
    hanging,
    length_over,
    lids_of,
    room_for_band,
)
from kitwright.kit.things import Thing
from kitwright.kit.together import put_over, solids
from kitwright.paper import inner_loss, layers_thickness
from kitwright.pattern import Axis
from kitwright.proof import (
    CLOSE,
    LID_PLAY,
    LOOSE_BAND,
    Printed,
    Proof,
    check_band_place,
    check_caliper,
    check_envelope,
    check_lid_height,
    check_mat,
    check_over,
    check_packing,
    check_pocket,
    check_prints_agree,
    check_side_by_side,
    check_stack,
    check_thickness,
    check_together,
    is_turned_in_pocket,
)
from kitwright.proof.packing import PackedThing, Space, Turns
from kitwright.proof.tolerance import Fit, Makes, judge_fit, with_makings

__all__ = ["prove"]


def prove(built: BuiltKit, *, with_fixes: bool = True, known: Mapping[str, PartProof] | None = None) -> Proof:
    """All findings about a kit. `with_fixes` looks for changes that turn what fails to good; it builds the kit anew for each try.

    `known`: the parts by themselves of a kit like this one.
    """
    own, makes = part_proofs(built, like=known), Makes()
    findings = tuple(checked(KitFits(built, built.kit.accuracy, makes), own, motion=True))
    if not with_fixes:
        return Proof(findings)

    tries = tries_for_each(sum(map(wants_fix, findings)))

    def with_fix(finding: Finding) -> Finding:
        prover = partial(tried_findings, known=own, makes=makes, near=finding.parts)
        return mended(built, finding, findings, prover, tries=tries)

    return Proof(tuple(with_fix(finding) if wants_fix(finding) else finding for finding in findings))


def wants_fix(finding: Finding) -> bool:
    """Whether a change is looked for: for what fails, was not decided or is warned of, but for bumps, which come with the form; and for
    a print that one blank cannot show upright all round, as two might."""
    grave = (Severity.FAIL, Severity.UNKNOWN, Severity.WARNING)
    is_amiss = finding.severity in grave and finding.code != "folding-motion"
    return is_amiss or finding.code == "print-up-elsewhere"


def checked(fits: KitFits, own: Mapping[str, PartProof], *, motion: bool) -> Iterator[Finding]:
    """Every check of a kit with these fits and these parts by themselves."""
    yield from caliper_findings(fits.built)
    for name, found in own.items():
        yield from found.findings
        if motion and found.motion is not None:
            yield found.motion
        yield from relation_findings(fits, fits.made[name])


def tried_findings(
    built: BuiltKit, *, known: Mapping[str, PartProof], makes: Makes, near: Collection[str] | None = None
) -> Iterator[Finding]:
    """The same checks but for folding on the way, which no fix changes, of a kit with a change of that whose parts are `known`.

    What the change touches comes first: a change that does not help mostly shows it there. With parts that it is to be `near`, what has
    to do neither with them nor with what was changed is left out.
    """
    fits = KitFits(built, built.kit.accuracy, makes)
    own = part_proofs(built, like=known)
    changed = [name for name, found in own.items() if found is not known.get(name)]
    for name in changed:
        yield from own[name].quickest_first
    touched = own.keys() if near is None else belonging_together(built.kit, (*changed, *near))
    for part in built.parts:
        if part.name in touched:
            yield from relation_findings(fits, part)
    yield from caliper_findings(built)
    for name, found in own.items():
        if name in touched and name not in changed:
            yield from found.findings


def caliper_findings(built: BuiltKit) -> Iterator[Finding]:
    """Papers of which the thickness is not known."""
    used = {part.part.paper for part in built.parts}
    for key, paper in built.kit.papers.items():
        finding = check_caliper(paper, built.kit.ruler) if key in used else None
        if finding is not None:
            yield finding


def relation_findings(fits: KitFits, part: BuiltPart) -> Iterator[Finding]:
    """What a part is to others: lies on, holds, covers, wraps."""
    said, built = part.part, fits.built
    if said.on:
        yield mat_finding(fits, part, built.part(said.on))
    for face in Face:
        yield from face_findings(fits, part, face)
    if said.holds:
        yield from holding_findings(fits, part)
    if said.covers:
        for found in over_findings(fits, part, built.part(said.covers), is_lid=True):
            yield between(found, part.name, said.covers)
    if said.wraps:
        for found in over_findings(fits, part, built.part(said.wraps), is_lid=False):
            yield between(found, part.name, said.wraps)
    yield from count_findings(built.kit, said)


def made_many_times(
    finding: Finding, fit: Callable[[], Fit], fits: KitFits, *, gravest: Severity = Severity.FAIL
) -> Finding:
    """A finding about a fit, with what becomes of it over many makes, and by them no graver than `gravest`."""
    if not fits.makes.count:
        return finding
    return with_makings(finding, judge_fit(fit(), fits.makes), fits.built.kit.ruler, gravest=gravest)


def between(finding: Finding, *names: str) -> Finding:
    """The finding with the names of the parts it is about, the one that would be changed first."""
    return replace(finding, parts=names)


def mat_finding(fits: KitFits, part: BuiltPart, host: BuiltPart) -> Finding:
    """A mat on its card. One as large as its card may be wished for: what sticks out here and there is cut away once it is glued."""
    (wide, high), (far, deep) = (
        (room.nominal for room in fits.face_room(part, host, is_closed=each)) for each in (False, True)
    )
    box = host.part.covers if goes_between_walls(part.part, host) else None
    finding = check_mat(
        f"{part.name} {'inside' if part.part.face is Face.INSIDE else 'on'} {host.name}",
        size_on_face(part),
        (wide, high),
        fits.built.kit.ruler,
        is_framed=not part.part.holds,
        walls=(box, (far, deep)) if box else None,
    )
    made = made_many_times(finding, partial(fits.mat, part, host), fits, gravest=Severity.WARNING)
    return between(made, part.name, host.name)


def face_findings(fits: KitFits, host: BuiltPart, face: Face) -> Iterator[Finding]:
    """Where several pockets are glued on one face of a part, whether each has room beside the others."""
    built = fits.built
    counts = dict(glued_on(built.kit, host.name))
    pockets = [each for each in built.parts if each.name in counts and each.form.is_open and each.part.face is face]
    pieces = [(each.name, counts[each.name], size_on_face(each)) for each in pockets]
    if sum(count for _, count, _ in pieces) < 2:
        return
    rooms = (fits.face_room(pockets[0], host, is_closed=each) for each in (False, True))
    wide, high = (min(one.nominal, other.nominal) for one, other in zip(*rooms, strict=True))
    names = [each.name for each in pockets]
    found = check_side_by_side(
        f"{' and '.join(names)} {'inside' if face is Face.INSIDE else 'on'} {host.name}",
        pieces,
        (wide, high),
        built.kit.ruler,
        where=host.name,
        leaves=leaves_of(host, (wide, high)),
        slip=built.kit.accuracy.glue,
    )
    yield between(found, *names, host.name)


def size_on_face(part: BuiltPart) -> tuple[float, float]:
    """Width and height of what is glued flat on a face, mm."""
    return part.outside[Axis.WIDTH].net, part.outside[Axis.HEIGHT].net


def leaves_of(host: BuiltPart, face: tuple[float, float]) -> int:
    """How many leaves as large as its face a flat part has: two where it is folded in the middle."""
    shown = [host.pattern.panel(each.panel).shape.bounds for each in host.pattern.claims.shows if host.is_flat]
    sizes = [(right - left, top - low) for left, low, right, top in shown]
    return max(sum(math.dist(sorted(size), sorted(face)) < CLOSE for size in sizes), 1)


def holding_findings(fits: KitFits, part: BuiltPart) -> Iterator[Finding]:
    """An envelope or pocket with each of its cards; a box with all its contents."""
    built = fits.built
    things, ruler = built.things_in(part), built.kit.ruler
    if Axis.DEPTH not in part.inside:
        inside = part.flat_room
        thick = math.fsum(thing.count * thing.thickness for thing in things)
        is_mixed = sum(thing.count for thing in things) > 1
        filling = " and ".join(f"{thing.count} × {thing.name}" for thing in things) if is_mixed else ""
        for thing in things:
            card = (thing.width, thing.height, thick)
            about = f"{thing.name} in {part.name}"
            fit = partial(fits.envelope, part, thing)
            if part.form.is_open:
                notch = inside[1] - part.inside[Axis.HEIGHT].net
                finding = check_pocket(about, card, inside, ruler, filling=filling, notch=notch)
                fit = partial(fits.pocket, part, thing, is_turned=is_turned_in_pocket(card, inside))
            else:
                finding = check_envelope(about, card, inside, ruler, filling=filling)
            yield between(made_many_times(finding, fit, fits), part.name, thing.name)
        what = "pocket" if part.form.is_open else "envelope"
        thickness = thickness_at_least(things, inside)
        bulge = check_thickness(part.name, thickness, inside, ruler, what=what, filling=filling)
        if bulge is not None:
            yield between(bulge, part.name)
        return
    stands = part.form.stands_contents if part.part.standing is None else part.part.standing
    arrangement = arranged(things, standing=stands)
    room = {axis.value: free for axis, free in clear_inside(built.kit, built.by_name, part).items()}
    is_turned = not stands and is_turned_in(arrangement.room, Room(**room))
    arrangement = arrangement.turned if is_turned else arrangement
    needed = arrangement.room
    stacked = check_stack(
        f"contents of {part.name}",
        {"width": needed.width, "depth": needed.depth, "height": needed.height},
        room,
        ruler,
        is_only_way=min(room.values()) <= 0 or all(thing.is_flat for thing in things),
    )
    if stacked.severity is not Severity.UNKNOWN:
        found = made_many_times(
            stacked, partial(fits.contents, part, things, standing=stands, is_turned=is_turned), fits
        )
        fails = stacked.severity is Severity.FAIL
        yield replace(found, parts=(part.name,), placed=() if fails else arrangement.placed)
        return
    packed = check_packing(stacked.about, blocks(things, standing=stands), Space(**room), ruler)
    placed = tuple(unstacked(packed.placed, things, standing=stands))
    yield replace(packed, parts=(part.name,), placed=placed)


def thickness_at_least(things: Sequence[Thing], inside: tuple[float, float]) -> float:
    """How thick things are together between two flat sides (inside width, height) at the least: loose ones may lie side by side."""
    stacked = math.fsum(thing.count * thing.thickness for thing in things if thing.is_flat)
    volume = math.fsum(thing.count * thing.width * thing.height * thing.thickness for thing in things)
    thickest = max(min(thing.width, thing.height, thing.thickness) for thing in things)
    return max(stacked, thickest, volume / (inside[0] * inside[1]))


STACK: Final = "the stack"
"""What the block of all flat things is called where it is packed as one."""


def unstacked(placed: Sequence[Placed], things: Sequence[Thing], *, standing: bool) -> Iterator[Placed]:
    """A packing with each flat thing by itself in place of the stack, which may have been turned a quarter."""
    flat = [thing for thing in things if thing.is_flat]
    for each in placed:
        if each.name != STACK or not flat:
            yield each
            continue
        stack = stack_of(flat, standing=standing)
        is_turned = abs(each.size[0] - stack.width) > abs(each.size[0] - stack.depth)
        for layer in stacked_things(flat, standing=standing):
            (x, y, z), (width, depth, height) = layer.corner, layer.size
            corner, size = ((y, x, z), (depth, width, height)) if is_turned else (layer.corner, layer.size)
            at = (each.corner[0] + corner[0], each.corner[1] + corner[1], each.corner[2] + corner[2])
            yield Placed(layer.name, layer.count, at, size)


def blocks(things: Sequence[Thing], *, standing: bool) -> list[PackedThing]:
    """Things for packing: the stack of all flat ones as one block that stays upright, the others turned any way."""
    flat = [thing for thing in things if thing.is_flat]
    loose = [
        PackedThing(thing.name, (thing.width, thing.height, thing.thickness), thing.count, Turns.ANY)
        for thing in things
        if not thing.is_flat
    ]
    if not flat:
        return loose
    stack = stack_of(flat, standing=standing)
    return [PackedThing(STACK, (stack.width, stack.depth, stack.height), 1, Turns.UPRIGHT), *loose]


def over_findings(fits: KitFits, part: BuiltPart, host: BuiltPart, *, is_lid: bool) -> Iterator[Finding]:
    """A lid or band along each axis that it spans, and how it lies along the other."""
    ruler = fits.built.kit.ruler
    what, play = ("lid", LID_PLAY) if is_lid else ("band", LOOSE_BAND)
    about = f"{part.name} {'over' if is_lid else 'round'} {host.name}"
    free = []
    for axis in Axis:
        if axis not in part.inside or (axis is Axis.HEIGHT and axis not in part.form.spans):
            continue  # upwards a lid hangs down and a band is broad, unless the form spans that too
        side = along(part.part, axis)
        over = length_over(fits.built.kit, fits.made, host, side)
        free.append(part.inside[axis].net - over)
        finding = check_over(
            about, axis.value, part.inside[axis], over, play=play, ruler=ruler, what=what, side=side.value
        )
        yield made_many_times(finding, partial(fits.over, part, host, axis, most=play.most), fits)
    card = layers_thickness(1, part.paper) + layers_thickness(1, host.paper)
    if part.part.goes is Goes.WALLS and not part.is_flat and not host.is_flat and -card < min(free) < CLOSE:
        yield check_together(part.name, put_over(part, host, is_lid=is_lid), host.name, solids(host), ruler)
    if part.part.goes is Goes.WALLS:
        agreement = check_prints_agree(
            *(Printed(p.name, p.folded, p.paper, p.part.turn, p.model) for p in (part, host))
        )
        if agreement is not None:
            yield agreement
    yield from lid_height_findings(fits.built, part, host) if is_lid else band_place_findings(fits.built, part, host)


def lid_height_findings(built: BuiltKit, part: BuiltPart, host: BuiltPart) -> Iterator[Finding]:
    """How far a lid hangs down along its box."""
    if Axis.HEIGHT not in host.outside:
        return
    limits = {each.name: each for each in parameters(type(part.form))}
    for name in part.form.hangs:
        yield check_lid_height(
            f"{part.name} over {host.name}",
            hanging(part, name),
            host.outside[Axis.HEIGHT].net,
            built.kit.ruler,
            what="rim" if name == "height" else name.replace("_", " "),
            at_least=float(built.kit.ruler.up(limits[name].at_least)) - inner_loss(part.paper),
            is_all_round=part.form.is_all_round(),
        )


def band_place_findings(built: BuiltKit, part: BuiltPart, host: BuiltPart) -> Iterator[Finding]:
    """Whether a band lies wholly on what it goes round, and no lid wants the same place."""
    side = along(part.part, Axis.HEIGHT)
    if Axis.HEIGHT not in part.outside or side not in host.outside or Axis.HEIGHT in part.form.spans:
        return
    lid = next(iter(lids_of(built.kit, host.name)), None)
    yield check_band_place(
        f"{part.name} round {host.name}",
        part.outside[Axis.HEIGHT].net,
        max(room_for_band(built.kit, built.by_name, part.part), 0.0),
        built.kit.ruler,
        under=lid.name if lid else None,
    )

//! Numbering bores so that a straight row shares one number.

use super::Bore;
use super::printed::hole;
use crate::framing::Framing;
use crate::plan::Plan;
use crate::route::{Crossing, Member, Ways};

/// Two bores of a row are not farther apart than this, millimetres.
const ROW: f64 = 1300.0;

/// Numbers bores: one at a printed place has the number it has on paper, the others go on from the
/// largest that was ever printed, by level, wall and offset; consecutive studs at one height with one
/// bit and the same cables share a number.
pub(super) fn number(plan: &Plan, framing: &Framing, ways: &Ways, bores: &mut [Bore]) {
    order(plan, ways, bores);
    let (places, printed) = (plan.printed.places(), plan.printed.last());
    let mut last = printed;
    let mut before: Option<&Bore> = None;
    for bore in bores {
        let goes_on = |before: &&Bore| before.number > printed && same_row(ways, before, bore);
        let row = places.row_of(&hole(framing, ways, bore));
        bore.number = match (row, before.filter(goes_on)) {
            (Some(row), _) => row.number,
            (None, Some(before)) => before.number,
            (None, None) => {
                last += 1;
                last
            }
        };
        before = Some(bore);
    }
}

/// By level, wall and offset.
fn order(plan: &Plan, ways: &Ways, bores: &mut [Bore]) {
    let level = |crossing: &Crossing| plan.levels.iter().position(|l| l.id == crossing.level);
    bores.sort_by(|a, b| {
        let (one, other) = (&ways.crossings[a.crossing], &ways.crossings[b.crossing]);
        let key = |c: &Crossing, bore: &Bore| (level(c), c.wall, class(&c.member), bore.part);
        key(one, a)
            .cmp(&key(other, b))
            .then(one.height.total_cmp(&other.height))
            .then(a.offset.total_cmp(&b.offset))
            .then(one.at.y.total_cmp(&other.at.y))
            .then(one.at.x.total_cmp(&other.at.x))
            .then(a.crossing.cmp(&b.crossing))
    });
}

/// Studs first, then corners, plates, joists and the outside.
fn class(member: &Member) -> u8 {
    match member {
        Member::Studs(_) => 0,
        Member::Corner { .. } => 1,
        Member::TopPlates(_) => 2,
        Member::BottomPlates(_) => 3,
        Member::Joist { .. } => 4,
        Member::Web { .. } => 5,
        Member::Sheathing | Member::Soffit => 6,
    }
}

/// Whether a bore goes on where the one before it left off.
pub(super) fn same_row(ways: &Ways, before: &Bore, after: &Bore) -> bool {
    let (one, other) = (
        &ways.crossings[before.crossing],
        &ways.crossings[after.crossing],
    );
    let in_line = match (&one.member, &other.member) {
        (Member::Studs(_), Member::Studs(_)) => {
            one.wall == other.wall && (after.offset - before.offset).abs() < ROW
        }
        (Member::Joist { space: a }, Member::Joist { space: b })
        | (Member::Web { space: a }, Member::Web { space: b }) => {
            a == b && (after.offset - before.offset).abs() < 1.0 && one.at.distance(other.at) < ROW
        }
        _ => false,
    };
    in_line
        && before.part == after.part
        && (before.height - after.height).abs() < 1.0
        && before.bit == after.bit
        && before.cables == after.cables
}

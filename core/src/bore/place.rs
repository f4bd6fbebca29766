//! Where each bore goes in its member: several of one crossing with wood between them, bores of
//! different crossings clear of each other, of power cable's own holes, and of the nails where a
//! stud stands on a plate. Sizes nothing.

use super::Bore;
use super::cut::cuts;
use super::joist::Joists;
use crate::framing::{Bay, Framing, WallFraming};
use crate::plan::{LevelId, Plan, PowerPlace, PowerRun, WallId};
use crate::route::{Crossing, Member, Ways};
use crate::rules::RuleId;
use crate::rules::trade::{FINGER, FROM_ENDS, NAILS, POWER_HOLE};
use crate::shape::Pos;
use crate::units::Size;

/// Uprights nearer to each other than this on the plan are nailed together, and count as one.
const ONE_UPRIGHT: f64 = 75.0;
/// Joists are farther apart than this.
const ONE_JOIST: f64 = 60.0;
/// Bores are shifted by whole quarters of an inch, millimetres.
const STEP: f64 = 6.35;
/// ... and in uprights not farther than this from their lane, millimetres.
const MOST_SHIFT: f64 = 305.0;

/// What a bore is shifted along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Axis {
    /// Up and down an upright of a level.
    Height { level: LevelId },
    /// Along a wall's top or bottom plates.
    Plate { wall: WallId, top: bool },
    /// Along a joist.
    Joist { space: usize },
    /// Nowhere: the place is the drop's.
    Fixed,
}

impl Axis {
    /// Which of an offset and a height it runs along.
    fn pick(self, offset: f64, height: f64) -> f64 {
        match self {
            Self::Height { .. } => height,
            _ => offset,
        }
    }
}

/// A hole in the way, and the wood wanted between it and a bore.
pub(super) struct Taken {
    pub at: f64,
    pub radius: f64,
    pub wood: f64,
}

/// Places of uprights or joists a crossing goes through, and the bores put there.
struct Placed {
    crossing: usize,
    axis: Axis,
    members: Vec<Pos>,
    holes: Vec<(f64, f64)>,
}

/// Gives every bore its place. Bores come with those of one crossing together.
pub(super) fn place(plan: &Plan, framing: &Framing, ways: &Ways, bores: &mut [Bore]) {
    let mut groups: Vec<&mut [Bore]> = bores
        .chunk_by_mut(|a, b| a.crossing == b.crossing)
        .collect();
    // Straight rows keep their lane; corners make room for them.
    let corner = |group: &&mut [Bore]| {
        let crossing = group.first().and_then(|b| ways.crossings.get(b.crossing));
        crossing.is_some_and(|c| matches!(c.member, Member::Corner { .. }))
    };
    groups.sort_by_key(corner);
    let mut placed: Vec<Placed> = Vec::new();
    for group in groups {
        let Some(number) = group.first().map(|bore| bore.crossing) else {
            continue;
        };
        let crossing = &ways.crossings[number];
        let mut new = together(framing, ways, number, group);
        let wood = spacing(plan, crossing);
        let mut taken: Vec<Taken> = placed
            .iter()
            .filter(|other| share(new.axis, &new.members, other))
            .flat_map(|other| &other.holes)
            .map(|&(at, radius)| Taken { at, radius, wood })
            .collect();
        taken.extend(power(plan, crossing, new.axis));
        taken.extend(cuts(plan, framing, crossing, new.axis));
        shift(framing, crossing, new.axis, group, &taken, wood);
        new.holes = holes(new.axis, group);
        placed.push(new);
    }
}

/// Two bores of one member with less wood between them than the rule wants.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Close {
    /// The bores, as indices.
    pub bores: (usize, usize),
    /// Wood between them, millimetres; below zero where they meet.
    pub wood: f64,
    /// The rule that wants more.
    pub rule: RuleId,
}

/// Every two of our bores in one member that stand too close.
pub fn too_close(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<Close> {
    let placed: Vec<Placed> = bores
        .iter()
        .map(|bore| together(framing, ways, bore.crossing, std::slice::from_ref(bore)))
        .collect();
    let mut found = Vec::new();
    for (place, one) in placed.iter().enumerate() {
        let crossing = &ways.crossings[one.crossing];
        let rule = spacing_rule(crossing);
        let wanted = plan.rules.size(rule);
        for (far, other) in placed.iter().enumerate().skip(place + 1) {
            if !share(one.axis, &one.members, other) {
                continue;
            }
            let wood = wood_between(one, other);
            if !wanted.within(Size(wood)) {
                found.push(Close {
                    bores: (place, far),
                    wood,
                    rule,
                });
            }
        }
    }
    found
}

/// Bores in plates that meet a stud or its nails, or the hole of a power cable that rises there.
/// What other trades cut is another matter: see [`near_cuts`].
pub fn in_the_way(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<usize> {
    let meets = |bore: &Bore| {
        let crossing = &ways.crossings[bore.crossing];
        let axis = axis(crossing);
        if !matches!(axis, Axis::Plate { .. }) {
            return false;
        }
        let radius = bore.bit.0 / 2.0;
        let outside = bay(framing, crossing).is_some_and(|(from, to)| {
            bore.offset - radius < from - Size::TOLERANCE
                || bore.offset + radius > to + Size::TOLERANCE
        });
        outside
            || power(plan, crossing, axis)
                .iter()
                .any(|taken| !clear(bore.offset, radius, taken))
    };
    those(bores, meets)
}

/// Bores that leave less wood than the rule wants to what another trade cut out of their member.
pub fn near_cuts(plan: &Plan, framing: &Framing, ways: &Ways, bores: &[Bore]) -> Vec<usize> {
    let meets = |bore: &Bore| {
        let crossing = &ways.crossings[bore.crossing];
        let axis = axis(crossing);
        let at = axis.pick(bore.offset, bore.height);
        let cuts = cuts(plan, framing, crossing, axis);
        cuts.iter().any(|cut| !clear(at, bore.bit.0 / 2.0, cut))
    };
    those(bores, meets)
}

/// Bores of which something holds, as indices.
fn those(bores: &[Bore], is_meant: impl Fn(&Bore) -> bool) -> Vec<usize> {
    let all = bores.iter().enumerate();
    all.filter(|(_, bore)| is_meant(bore))
        .map(|(place, _)| place)
        .collect()
}

/// Bores of one crossing as they are now.
fn together(framing: &Framing, ways: &Ways, crossing: usize, bores: &[Bore]) -> Placed {
    let through = &ways.crossings[crossing];
    let axis = axis(through);
    Placed {
        crossing,
        axis,
        members: members(framing, through),
        holes: holes(axis, bores),
    }
}

/// Where bores are along an axis, and their radii.
fn holes(axis: Axis, bores: &[Bore]) -> Vec<(f64, f64)> {
    let hole = |bore: &Bore| (axis.pick(bore.offset, bore.height), bore.bit.0 / 2.0);
    bores.iter().map(hole).collect()
}

fn wood_between(one: &Placed, other: &Placed) -> f64 {
    let pairs = one.holes.iter().zip(&other.holes);
    pairs
        .map(|((a, r), (b, s))| (a - b).abs() - r - s)
        .fold(f64::INFINITY, f64::min)
}

pub(super) fn axis(crossing: &Crossing) -> Axis {
    match (&crossing.member, crossing.wall) {
        (Member::Studs(_) | Member::Corner { .. }, _) => Axis::Height {
            level: crossing.level,
        },
        (Member::TopPlates(_), Some(wall)) => Axis::Plate { wall, top: true },
        (Member::BottomPlates(_), Some(wall)) => Axis::Plate { wall, top: false },
        (Member::Joist { space } | Member::Web { space }, _) => Axis::Joist { space: *space },
        _ => Axis::Fixed,
    }
}

/// Where on the plan the uprights or joists of a crossing stand.
fn members(framing: &Framing, crossing: &Crossing) -> Vec<Pos> {
    let wall = crossing.wall.and_then(|wall| framing.wall(wall));
    match (&crossing.member, wall) {
        (Member::Studs(studs), Some(wall)) => studs
            .iter()
            .filter_map(|stud| wall.studs.get(*stud))
            .map(|stud| wall.line.at((stud.from + stud.to) / 2.0, 0.0))
            .collect(),
        _ => vec![crossing.at],
    }
}

/// Whether bores are in one member.
fn share(axis: Axis, members: &[Pos], other: &Placed) -> bool {
    let within = |most: f64| {
        let mut pairs = members
            .iter()
            .flat_map(|a| other.members.iter().map(move |b| (a, b)));
        pairs.any(|(a, b)| a.distance(*b) < most)
    };
    axis == other.axis
        && match axis {
            Axis::Height { .. } => within(ONE_UPRIGHT),
            Axis::Joist { .. } => within(ONE_JOIST),
            Axis::Plate { .. } => true,
            Axis::Fixed => false,
        }
}

fn spacing_rule(crossing: &Crossing) -> RuleId {
    match crossing.member {
        Member::Joist { .. } | Member::Web { .. } => RuleId::JoistSpacing,
        _ => RuleId::BoreSpacing,
    }
}

fn spacing(plan: &Plan, crossing: &Crossing) -> f64 {
    plan.rules.value(spacing_rule(crossing))
}

/// Holes of power cable that rises through the plates, or that runs along through the studs.
fn power(plan: &Plan, crossing: &Crossing, axis: Axis) -> Vec<Taken> {
    let level = plan.level(crossing.level);
    let runs = level.into_iter().flat_map(|level| &level.power_runs);
    let hole = |run: &PowerRun| {
        let PowerPlace::Wall {
            wall,
            from,
            to,
            height,
        } = run.place
        else {
            return None;
        };
        let rises = to == from;
        let at = match axis {
            _ if crossing.wall != Some(wall) || run.panel => return None,
            Axis::Plate { .. } if rises => from.f64(),
            Axis::Height { .. }
                if !rises && from.f64() <= crossing.offset && crossing.offset <= to.f64() =>
            {
                height.f64()
            }
            _ => return None,
        };
        let circuits = f64::from(run.circuits.max(1));
        Some(Taken {
            at,
            // Several cables in a row of holes side by side are as wide as the row.
            radius: POWER_HOLE / 2.0 * circuits.min(4.0),
            wood: plan.rules.value(RuleId::PowerStop),
        })
    };
    runs.filter_map(hole).collect()
}

/// The clear width between the studs a plate's bore goes between.
fn bay(framing: &Framing, crossing: &Crossing) -> Option<(f64, f64)> {
    let wall: &WallFraming = framing.wall(crossing.wall?)?;
    let holds = |bay: &&Bay| (bay.middle() - crossing.offset).abs() < 1.0;
    let bay = wall.bays.iter().find(holds)?;
    Some((bay.from, bay.to))
}

/// From where to where the bays on both sides of a crossing reach: over a header and under a sill less
/// than from plate to plate.
fn clear_height(wall: &WallFraming, crossing: &Crossing) -> (f64, f64) {
    let Member::Studs(studs) = &crossing.member else {
        return (wall.bottom, wall.top);
    };
    let studs = || studs.iter().filter_map(|stud| wall.studs.get(*stud));
    let beside = |bay: &&Bay| {
        let touches =
            studs().any(|s| (bay.to - s.from).abs() < 1.0 || (bay.from - s.to).abs() < 1.0);
        touches && bay.reaches(crossing.height)
    };
    let bays = wall.bays.iter().filter(beside);
    bays.fold((wall.bottom, wall.top), |(low, high), bay| {
        (low.max(bay.bottom), high.min(bay.top))
    })
}

/// How far the middle of a group may go along its axis, or the lowest bore of a stack, which is
/// `half` high above it; the other way round where a bay has no room.
fn room(framing: &Framing, crossing: &Crossing, axis: Axis, half: f64) -> (f64, f64) {
    match axis {
        Axis::Height { .. } => {
            let wall = crossing.wall.and_then(|wall| framing.wall(wall));
            let lane = crossing.height;
            let (low, high) = wall.map_or((lane, lane), |wall| {
                let (low, high) = clear_height(wall, crossing);
                (low + FROM_ENDS, high - FROM_ENDS - half)
            });
            // A stack that would run out at the top goes down, a lane outside the studs stays.
            let high = high.min(lane + MOST_SHIFT).max(low.min(lane));
            (low.max(lane - MOST_SHIFT).min(lane).min(high), high)
        }
        Axis::Plate { .. } => match bay(framing, crossing) {
            Some((from, to)) => (from + NAILS + half, to - NAILS - half),
            None => (crossing.offset, crossing.offset),
        },
        _ => (crossing.offset, crossing.offset),
    }
}

/// Middles of bores one over the other with at least this much wood between them: the lowest at
/// zero, so that it stays at its lane, the others by whole quarters of an inch above it.
fn one_over_another(group: &[Bore], wood: f64) -> Vec<f64> {
    let mut at = 0.0;
    let mut below = 0.0;
    let middle = |bore: &Bore| {
        if below > 0.0 {
            let apart = (below + bore.bit.0) / 2.0 + wood;
            at += ((apart - Size::TOLERANCE) / STEP).ceil() * STEP;
        }
        below = bore.bit.0;
        at
    };
    group.iter().map(middle).collect()
}

/// Middles of bores side by side about zero with this much wood between them, and half their
/// extent.
fn side_by_side(group: &[Bore], wood: f64) -> (Vec<f64>, f64) {
    let bits = group.iter().map(|bore| bore.bit.0);
    let extent = bits.clone().sum::<f64>() + wood * (group.len() as f64 - 1.0);
    let mut edge = -extent / 2.0;
    let middles = bits.map(|bit| {
        let middle = edge + bit / 2.0;
        edge += bit + wood;
        middle
    });
    (middles.collect(), extent / 2.0)
}

/// Puts a group side by side along its axis, as near to where the way goes as what is taken lets
/// it, and clear of joists beyond its plates where the bay allows. In a bay too narrow for it the bores
/// move together rather than into the studs; where nothing is free they stay. A finding says either.
fn shift(
    framing: &Framing,
    crossing: &Crossing,
    axis: Axis,
    group: &mut [Bore],
    taken: &[Taken],
    wood: f64,
) {
    let (mut middles, half) = match axis {
        Axis::Height { .. } => {
            let middles = one_over_another(group, wood);
            let highest = middles.last().copied().unwrap_or(0.0);
            (middles, highest)
        }
        _ => side_by_side(group, wood),
    };
    let (mut low, mut high) = room(framing, crossing, axis, half);
    let short = low - high;
    if short > 0.0 && group.len() > 1 && matches!(axis, Axis::Plate { .. }) {
        let wood = wood - short / (group.len() as f64 - 1.0);
        middles = side_by_side(group, wood.max(0.0)).0;
        low = (low + high) / 2.0;
        high = low;
    }
    let lane = axis.pick(crossing.offset, crossing.height);
    let start = lane.clamp(low.min(high), high.max(low));
    let free = |middle: f64| {
        let mut bores = group.iter().zip(&middles);
        bores.all(|(bore, at)| {
            taken
                .iter()
                .all(|taken| clear(middle + at, bore.bit.0 / 2.0, taken))
        })
    };
    let joists = Joists::beyond(framing, crossing);
    let beside = |middle: f64| {
        let mut bores = group.iter().zip(&middles);
        let room =
            |(bore, at): (&Bore, &f64), joists: &Joists| joists.room(middle + at, bore.bit.0 / 2.0);
        joists
            .as_ref()
            .is_none_or(|joists| bores.all(|bore| room(bore, joists) > FINGER - 1e-9))
    };
    let steps = ((high - low) / STEP).ceil().clamp(0.0, 400.0) as i32;
    let tried = (0..=steps).flat_map(|n| [f64::from(n) * STEP, f64::from(-n) * STEP]);
    let tried = tried
        .map(|by| start + by)
        .filter(|at| low - 1e-9 <= *at && *at <= high + 1e-9);
    let best = tried.clone().find(|at| free(*at) && beside(*at));
    let middle = best.or_else(|| tried.clone().find(|at| free(*at)));
    let middle = middle.unwrap_or(start);
    for (bore, at) in group.iter_mut().zip(middles) {
        match axis {
            Axis::Height { .. } => bore.height = middle + at,
            _ => bore.offset = middle + at,
        }
    }
}

fn clear(at: f64, radius: f64, taken: &Taken) -> bool {
    Size(taken.wood).within(Size((at - taken.at).abs() - radius - taken.radius))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::plan::edit::Edit;
    use crate::plan::{Lumber, PowerRunId, Role};
    use crate::shape::Point;
    use crate::units::Mm;

    fn wall(from: Point, to: Point, role: Role) -> Edit {
        Edit::AddWall {
            level: LevelId(1),
            from,
            to,
            lumber: Lumber::TwoByFour,
            role,
        }
    }

    fn bore(crossing: usize, part: usize, bit: f64) -> Bore {
        Bore {
            part,
            ..Bore::of(crossing, Size::inches(bit))
        }
    }

    /// A long wall with another butting into its middle, and a crossing of this member at the tee.
    fn tee(members: &[(u32, Member, f64)]) -> (Plan, Framing, Ways) {
        let (a, b) = (Point::new(0, 0), Point::new(4000, 0));
        let (c, d) = (Point::new(2000, 0), Point::new(2000, 3000));
        let plan = Plan::new()
            .apply(&wall(a, b, Role::Bearing))
            .and_then(|plan| plan.apply(&wall(c, d, Role::Partition)))
            .unwrap();
        let framing = Framing::of(&plan);
        let crossings = members.iter().map(|(wall, member, offset)| Crossing {
            wall: Some(WallId(*wall)),
            offset: *offset,
            height: 610.0,
            at: framing
                .wall(WallId(*wall))
                .map(|wall| wall.line.at(*offset, 0.0))
                .unwrap(),
            ..Crossing::through(member.clone())
        });
        let ways = Ways {
            crossings: crossings.collect(),
            ..Ways::default()
        };
        (plan, framing, ways)
    }

    /// Common practice, no source: 2 in of wood between bores. Two ways that turn at one tee into
    /// both bays of the other wall: the second 1 in bore goes 3 in up or down.
    #[test]
    fn two_turns_at_one_tee_leave_wood_between_them() {
        let corner = Member::Corner {
            count: 2,
            to: WallId(1),
        };
        let (plan, framing, ways) = tee(&[(2, corner.clone(), 0.0), (2, corner, 0.0)]);
        let mut bores = vec![bore(0, 0, 1.0), bore(1, 0, 1.0)];
        bores.iter_mut().for_each(|bore| bore.height = 610.0);
        assert_eq!(too_close(&plan, &framing, &ways, &bores).len(), 1);
        place(&plan, &framing, &ways, &mut bores);
        assert_eq!(bores[0].height, 610.0);
        assert!(((bores[1].height - 610.0).abs() - 76.2).abs() < 1e-9);
        assert_eq!(too_close(&plan, &framing, &ways, &bores), []);
    }

    /// Three bores of one bundle: the wood between each two is 2 in, whatever their bits.
    #[test]
    fn unequal_parts_of_a_bundle_leave_wood_between_them() {
        let (plan, framing, ways) = tee(&[(1, Member::Studs(vec![3]), 1200.0)]);
        let mut bores = vec![bore(0, 0, 0.75), bore(0, 1, 1.25), bore(0, 2, 0.75)];
        place(&plan, &framing, &ways, &mut bores);
        assert_eq!(too_close(&plan, &framing, &ways, &bores), []);
        let gap = bores[1].height - bores[0].height - Size::inches(1.0).0;
        assert_eq!(bores[0].height, 610.0, "the lowest stays at its lane");
        assert!((gap - 50.8).abs() < 1e-9);
    }

    /// A power cable rises in the middle of a bay: our bore through the same plates goes beside it.
    #[test]
    fn a_plates_bore_goes_beside_the_electricians() {
        let (plan, framing, _) = tee(&[]);
        let middle = framing.wall(WallId(1)).unwrap().bays[2].middle();
        let (plan, framing, ways) = {
            let at = Mm::rounded(middle);
            let run = crate::plan::PowerRun {
                id: PowerRunId(0),
                place: PowerPlace::Wall {
                    wall: WallId(1),
                    from: at,
                    to: at,
                    height: Mm(400),
                },
                circuits: 1,
                panel: false,
            };
            let plan = plan.apply(&Edit::AddPowerRun(LevelId(1), run)).unwrap();
            let (_, _, ways) = tee(&[(1, Member::TopPlates(2), middle)]);
            (plan, framing, ways)
        };
        let mut bores = vec![bore(0, 0, 1.0)];
        bores[0].offset = middle;
        assert_eq!(in_the_way(&plan, &framing, &ways, &bores), [0]);
        place(&plan, &framing, &ways, &mut bores);
        assert!((bores[0].offset - middle).abs() > 25.4 + 12.7 + 9.5);
        assert!(in_the_way(&plan, &framing, &ways, &bores).is_empty());
    }

    /// Five 1-1/2 in bores with 2 in between want 15-1/2 in; a bay of studs 16 in apart is 14-1/2 in
    /// wide. They move together and stay out of the studs.
    #[test]
    fn a_bundle_too_wide_for_its_bay_moves_together() {
        let (_, framing, _) = tee(&[]);
        let bay = framing.wall(WallId(1)).unwrap().bays[1];
        assert!((bay.width() - 368.3).abs() < 0.2);
        let (plan, framing, ways) = tee(&[(1, Member::TopPlates(2), bay.middle())]);
        let mut bores: Vec<Bore> = (0..5).map(|part| bore(0, part, 1.5)).collect();
        place(&plan, &framing, &ways, &mut bores);
        assert!(in_the_way(&plan, &framing, &ways, &bores).is_empty());
        let close = too_close(&plan, &framing, &ways, &bores);
        assert_eq!(close.len(), 4);
        assert!(close.iter().all(|close| close.wood > 25.4));
    }

    /// Whatever a plan holds, no bore of ours meets another.
    #[test]
    fn no_two_bores_of_a_random_plan_meet() {
        let mut checked = 0;
        for seed in 0..24 {
            let plan = crate::plan::edit::sample::plan(seed, 160);
            let design = Design::of(&plan);
            checked += design.bores.len();
            let close = too_close(&plan, &design.framing, &design.ways, &design.bores);
            for pair in close {
                assert!(pair.wood > -1e-6, "{seed}: {pair:?}");
            }
        }
        assert!(checked > 50, "{checked}");
    }
}

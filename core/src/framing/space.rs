//! The spaces over ceilings and under floors: joist lines and the strips between them.

use super::Outline;
use crate::plan::{Above, Below, Floor, JoistKind, Lumber, Plan};
use crate::shape::{Direction, Pos};

/// Thickness of the subfloor on joists: 3/4 in. Common practice, no source.
const SUBFLOOR: f64 = 19.05;
/// Depth of a roof truss's bottom chord: a dressed 2x4.
const CHORD: f64 = 88.9;
/// The fewest and the most strips a space is cut into.
const MOST_STRIPS: i64 = 400;

/// What a space is framed with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SpaceKind {
    /// Over the bottom chords of roof trusses.
    AtticTrusses,
    /// Over ceiling joists.
    AtticJoists,
    /// Between two levels.
    Floor(JoistKind),
    /// Under the lowest floor.
    Crawl(JoistKind),
}

impl SpaceKind {
    /// Whether cable may lie across the joists without a bore.
    pub fn is_open_across(self) -> bool {
        match self {
            Self::AtticTrusses | Self::AtticJoists => true,
            Self::Floor(kind) | Self::Crawl(kind) => kind == JoistKind::OpenWeb,
        }
    }

    /// What it is called in a way told in words.
    pub fn name(self) -> &'static str {
        match self {
            Self::AtticTrusses | Self::AtticJoists => "attic",
            Self::Floor(_) => "floor",
            Self::Crawl(_) => "crawl space",
        }
    }
}

/// A horizontal space cable can run in, cut into strips by joists or trusses.
#[derive(Clone, Debug, PartialEq)]
pub struct Space {
    /// What frames it.
    pub kind: SpaceKind,
    /// Height of its cable above the lowest finished floor, millimetres.
    pub z: f64,
    /// Depth of its joists, millimetres.
    pub depth: f64,
    /// Unit vector along the joists.
    pub along: Pos,
    /// Unit vector across them.
    pub across: Pos,
    /// Distance from joist to joist.
    pub spacing: f64,
    /// Strips in order across; their borders are the joists.
    pub strips: Vec<Strip>,
    /// What encloses it.
    pub outline: Outline,
}

/// The room between two joists.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Where its first joist is, measured across from the origin.
    pub from: f64,
    /// Where its second joist is.
    pub to: f64,
}

impl Strip {
    /// Where its middle is, measured across.
    pub fn middle(&self) -> f64 {
        (self.from + self.to) / 2.0
    }
}

impl Space {
    /// How far along the joists a position is.
    pub fn along_of(&self, place: Pos) -> f64 {
        place.dot(self.along)
    }

    /// How far across the joists a position is.
    pub fn across_of(&self, place: Pos) -> f64 {
        place.dot(self.across)
    }

    /// The position at two such coordinates.
    pub fn at(&self, along: f64, across: f64) -> Pos {
        self.along * along + self.across * across
    }

    /// The strip a position lies in; the nearest one outside them.
    pub fn strip_at(&self, place: Pos) -> Option<usize> {
        let across = self.across_of(place);
        let beyond = |strip: &Strip| (strip.from - across).max(across - strip.to).max(0.0);
        let order = |a: &(usize, &Strip), b: &(usize, &Strip)| beyond(a.1).total_cmp(&beyond(b.1));
        self.strips
            .iter()
            .enumerate()
            .min_by(order)
            .map(|(place, _)| place)
    }
}

/// A space and how far it lifts the floor over it, millimetres.
pub(super) struct Under {
    pub space: Space,
    pub lift: f64,
}

/// The space under a level's floor, if there is one.
pub(super) fn under(plan: &Plan, place: usize, floor: f64, outline: &Outline) -> Option<Under> {
    let (joists, crawl) = match plan.levels.get(place)?.below {
        Below::Slab => return None,
        Below::Crawl(joists) => (joists, true),
        Below::Level(joists) => (joists, false),
    };
    let kind = if crawl {
        SpaceKind::Crawl(joists.kind)
    } else {
        SpaceKind::Floor(joists.kind)
    };
    let lift = if crawl {
        0.0
    } else {
        joists.depth.0 + SUBFLOOR
    };
    let z = if crawl {
        floor - SUBFLOOR - joists.depth.0 / 2.0
    } else {
        floor + joists.depth.0 / 2.0
    };
    let space = lay(
        kind,
        joists.direction,
        joists.spacing.0,
        joists.depth.0,
        z,
        outline,
    )?;
    Some(Under { space, lift })
}

/// The space over a level's ceiling, if there is one. `floor` is the level's own floor.
pub(super) fn over(plan: &Plan, place: usize, floor: f64, outline: &Outline) -> Option<Space> {
    let level = plan.levels.get(place)?;
    let ceiling = floor + level.ceiling.f64();
    match level.above {
        Above::AtticTrusses { spacing, direction } => {
            let z = ceiling + CHORD;
            lay(
                SpaceKind::AtticTrusses,
                direction,
                spacing.0,
                CHORD,
                z,
                outline,
            )
        }
        Above::AtticJoists(Floor {
            direction,
            spacing,
            depth,
            ..
        }) => {
            let z = ceiling + depth.0;
            lay(
                SpaceKind::AtticJoists,
                direction,
                spacing.0,
                depth.0,
                z,
                outline,
            )
        }
        Above::Level => {
            let next = plan.levels.get(place + 1)?;
            let Below::Level(joists) = next.below else {
                return None;
            };
            let kind = SpaceKind::Floor(joists.kind);
            let z = ceiling + joists.depth.0 / 2.0;
            lay(
                kind,
                joists.direction,
                joists.spacing.0,
                joists.depth.0,
                z,
                outline,
            )
        }
        Above::ClosedRoof => None,
    }
}

fn lay(
    kind: SpaceKind,
    direction: Direction,
    spacing: f64,
    depth: f64,
    z: f64,
    outline: &Outline,
) -> Option<Space> {
    let along = canonical(direction.unit()?);
    let across = along.quarter_turn();
    let reach = |corner: &Pos| corner.dot(across);
    let corners = || outline.loops.iter().flatten().map(reach);
    let low = corners().min_by(f64::total_cmp)?;
    let high = corners().max_by(f64::total_cmp)?;
    let count = (((high - low) / spacing).ceil() as i64).clamp(1, MOST_STRIPS);
    // The first joist stands flush with the outside of the wall, the rest on centre from there.
    let first = low - Lumber::THICKNESS.0;
    let strip = |place: i64| {
        let from = first + place as f64 * spacing;
        Strip {
            from,
            to: (from + spacing).min(high + Lumber::THICKNESS.0),
        }
    };
    let strips = (0..=count)
        .map(strip)
        .filter(|strip| strip.to - strip.from > 60.0)
        .collect();
    Some(Space {
        kind,
        z,
        depth,
        along,
        across,
        spacing,
        strips,
        outline: outline.clone(),
    })
}

/// One of the two opposite vectors, so that the way a joist was drawn decides nothing.
fn canonical(unit: Pos) -> Pos {
    let flip = unit.x < -1e-9 || (unit.x.abs() <= 1e-9 && unit.y < 0.0);
    if flip { unit * -1.0 } else { unit }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outline() -> Outline {
        let corners = [(0.0, 0.0), (9000.0, 0.0), (9000.0, 6000.0), (0.0, 6000.0)];
        Outline {
            loops: vec![corners.map(|(x, y)| Pos::new(x, y)).to_vec()],
            closed: true,
        }
    }

    #[test]
    fn joists_stand_on_centre_across_the_house() {
        let space = lay(
            SpaceKind::AtticTrusses,
            Direction::ALONG_Y,
            609.6,
            CHORD,
            2800.0,
            &outline(),
        )
        .unwrap();
        assert_eq!(space.strips.len(), 15);
        assert!(
            space
                .strips
                .windows(2)
                .all(|pair| (pair[1].from - pair[0].to).abs() < 1e-9)
        );
        let there = space.strip_at(Pos::new(700.0, 100.0)).unwrap();
        let strip = space.strips[there];
        let across = space.across_of(Pos::new(700.0, 100.0));
        assert!(strip.from <= across && across <= strip.to);
    }

    #[test]
    fn drawing_a_joist_from_its_other_end_changes_nothing() {
        let up = Direction { dx: 0, dy: -5 };
        let space = |direction| {
            lay(
                SpaceKind::AtticJoists,
                direction,
                406.4,
                140.0,
                2800.0,
                &outline(),
            )
        };
        assert_eq!(space(up), space(Direction::ALONG_Y));
        assert_eq!(space(Direction { dx: 0, dy: 0 }), None);
    }
}

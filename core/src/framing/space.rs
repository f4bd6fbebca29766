//! The spaces over ceilings and under floors: joist lines and the strips between them.

use serde::{Deserialize, Serialize};

use super::Outline;
use crate::plan::{
    Above, Below, Floor, JoistKind, LayoutSide, Level, Lumber, Plan, Rafters, Trusses,
};
use crate::rules::trade::{CHORD, SUBFLOOR};
use crate::shape::{Direction, Point, Pos};

/// The most strips a space is cut into: 162 m of joists 16 in on centre, more than any house. It keeps
/// hostile plans from asking for millions; what it leaves out is told ([`Space::uncut`]).
const MOST_STRIPS: i64 = 400;
/// A wall this near to the border of its level lies on it, millimetres: whole ones put the ends of a border
/// that lies askew up to 1.42 mm apart.
const ON_BORDER: f64 = 3.0;
/// What is left between two joists nearer than this is no strip, millimetres.
const NARROWEST_STRIP: f64 = 60.0;

/// What a space is framed with.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum SpaceKind {
    /// Over the bottom chords of roof trusses.
    AtticTrusses,
    /// Over ceiling joists.
    AtticJoists,
    /// Between two levels.
    Floor(JoistKind),
    /// Under the lowest floor.
    Crawl(JoistKind),
    /// Between the rafters of a closed roof: to what hangs on its ceiling, and never across one.
    Rafters,
}

impl SpaceKind {
    /// Whether cable may lie on the joists or between their webs, and so across them without a bore.
    pub fn is_open_across(self) -> bool {
        match self {
            Self::AtticTrusses | Self::AtticJoists => true,
            Self::Floor(kind) | Self::Crawl(kind) => kind == JoistKind::OpenWeb,
            Self::Rafters => false,
        }
    }

    /// What it is called in a way told in words.
    pub fn name(self) -> &'static str {
        match self {
            Self::AtticTrusses | Self::AtticJoists => "attic",
            Self::Floor(_) => "floor",
            Self::Crawl(_) => "crawl space",
            Self::Rafters => "rafter bay",
        }
    }
}

/// A horizontal space cable can run in, cut into strips by joists or trusses.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Space {
    /// What frames it.
    pub kind: SpaceKind,
    /// Height of its cable above the lowest finished floor, millimetres.
    pub z: f64,
    /// Depth of its joists, millimetres.
    pub depth: f64,
    /// Unit vector along the joists.
    pub along: Pos,
    /// Unit vector across them, away from the side they are laid out from.
    pub across: Pos,
    /// Distance from joist to joist.
    pub spacing: f64,
    /// Strips in order across; their borders are the joists.
    pub strips: Vec<Strip>,
    /// How far it reaches across beyond the last strip, where there would be too many; 0 elsewhere.
    /// Millimetres. No joists are laid there.
    pub uncut: f64,
    /// What encloses it.
    pub outline: Outline,
    /// Where it lies over a part of that only: the outline of the level above, and whether it lies under that
    /// level or beside it.
    pub part: Option<(Outline, Part)>,
    /// Its joists are open from below: cable hangs under them, but for where a wall stands beneath.
    pub hangs: bool,
    /// How far its rafters rise in 1 of run; 0 in a level space.
    pub rise: f64,
}

/// Which part of a level a space lies over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Part {
    /// That which the next level stands on.
    Under,
    /// The rest.
    Beside,
}

/// The room between two joists.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
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
    /// Whether a place lies in it.
    pub fn contains(&self, place: Pos) -> bool {
        let in_part =
            |(next, part): &(Outline, Part)| next.contains(place) == (*part == Part::Under);
        self.outline.contains(place) && self.part.as_ref().is_none_or(in_part)
    }

    /// Whether cable that comes up in a wall at a place comes out in it: walls on its border are under it too.
    pub fn covers(&self, place: Pos) -> bool {
        let in_part = |(next, part): &(Outline, Part)| {
            next.is_near_border(place) || next.contains(place) == (*part == Part::Under)
        };
        self.part.as_ref().is_none_or(in_part)
    }

    /// The same space, but only under the level above where its outline is given.
    pub(super) fn only_over(self, next: Option<&Outline>) -> Self {
        let part = next.map(|next| (next.clone(), Part::Under));
        Self { part, ..self }
    }

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
        let next = self.strips.partition_point(|strip| strip.to < across);
        let Some(before) = next.checked_sub(1) else {
            return (!self.strips.is_empty()).then_some(0);
        };
        let off = across - self.strips[before].to;
        let is_nearer = |strip: &Strip| (strip.from - across).max(0.0) < off;
        let after = self.strips.get(next).is_some_and(is_nearer);
        Some(if after { next } else { before })
    }
}

/// A space and how far it lifts the floor over it, millimetres.
pub(super) struct Under {
    pub space: Space,
    pub lift: f64,
}

/// The space under a level's floor, if there is one.
pub(super) fn under(plan: &Plan, place: usize, floor: f64, outline: &Outline) -> Option<Under> {
    let level = plan.levels.get(place)?;
    let (joists, crawl) = match level.below {
        Below::Slab => return None,
        Below::Crawl(joists) => (joists, true),
        Below::Level(joists) => (joists, false),
    };
    let (kind, lift, z) = match crawl {
        // Nobody closes the underside of joists over a crawl space: cable hangs under them.
        true => (
            SpaceKind::Crawl(joists.kind),
            0.0,
            floor - SUBFLOOR - joists.depth.0,
        ),
        false => (
            SpaceKind::Floor(joists.kind),
            joists.depth.0 + SUBFLOOR,
            floor + joists.depth.0 / 2.0,
        ),
    };
    let layout = Layout {
        hangs: crawl,
        ..Layout::of(kind, joists, z)
    };
    let space = lay(layout, level, outline)?;
    Some(Under { space, lift })
}

/// The space over a level's ceiling, if there is one. `floor` is the level's own floor.
pub(super) fn over(plan: &Plan, place: usize, floor: f64, outline: &Outline) -> Option<Space> {
    let level = plan.levels.get(place)?;
    let ceiling = floor + level.ceiling.f64();
    let layout = match level.above {
        Above::AtticTrusses(trusses) => Layout::on_trusses(trusses, ceiling),
        Above::AtticJoists(joists) => {
            Layout::of(SpaceKind::AtticJoists, joists, ceiling + joists.depth.0)
        }
        Above::Level { open, .. } => {
            let Below::Level(joists) = plan.levels.get(place + 1)?.below else {
                return None;
            };
            let z = match open {
                true => ceiling,
                false => ceiling + joists.depth.0 / 2.0,
            };
            Layout {
                hangs: open,
                ..Layout::of(SpaceKind::Floor(joists.kind), joists, z)
            }
        }
        Above::ClosedRoof(_) => return None,
    };
    lay(layout, level, outline)
}

/// The space under the roof over the part of a level that the next one does not stand on, where it is
/// stated.
pub(super) fn beside(
    level: &Level,
    floor: f64,
    outline: &Outline,
    next: &Outline,
) -> Option<Space> {
    let Above::Level {
        beside: Some(trusses),
        ..
    } = level.above
    else {
        return None;
    };
    let layout = Layout::on_trusses(trusses, floor + level.ceiling.f64());
    let part = Some((next.clone(), Part::Beside));
    lay(layout, level, outline).map(|space| Space { part, ..space })
}

/// The rafter bays over a sloped ceiling, where the roof is closed and its rafters are stated.
pub(super) fn rafters(level: &Level, floor: f64, outline: &Outline) -> Option<Space> {
    let Above::ClosedRoof(Some(rafters)) = level.above else {
        return None;
    };
    let layout = Layout::of_rafters(rafters, floor + level.ceiling.f64());
    let rise = f64::from(rafters.pitch) / 12.0;
    lay(layout, level, outline).map(|space| Space { rise, ..space })
}

/// How the joists of a space are laid.
struct Layout {
    kind: SpaceKind,
    direction: Direction,
    side: LayoutSide,
    spacing: f64,
    depth: f64,
    z: f64,
    hangs: bool,
}

impl Layout {
    /// Over the bottom chords of trusses that lie on walls of this height.
    fn on_trusses(trusses: Trusses, ceiling: f64) -> Self {
        Self {
            depth: CHORD,
            ..Self::of(
                SpaceKind::AtticTrusses,
                trusses.as_joists(),
                ceiling + CHORD,
            )
        }
    }

    /// Rafters that rest on walls of this height. Nothing is bored through them, so how deep they are is
    /// not asked.
    fn of_rafters(rafters: Rafters, ceiling: f64) -> Self {
        Self {
            depth: 0.0,
            ..Self::of(SpaceKind::Rafters, rafters.as_joists(), ceiling)
        }
    }

    fn of(kind: SpaceKind, joists: Floor, z: f64) -> Self {
        Self {
            kind,
            direction: joists.direction,
            side: joists.layout,
            spacing: joists.spacing.0,
            depth: joists.depth.0,
            z,
            hangs: false,
        }
    }
}

/// Lays joists over a level's walls: the first and the last flush with the outside of the walls, the
/// others on centre from the outside they are laid out from as studs are from the end of their plates,
/// so that a sheet's edge lies on the middle of a joist. Common practice, no source.
fn lay(layout: Layout, level: &Level, outline: &Outline) -> Option<Space> {
    let along = layout.side.along(layout.direction)?;
    let across = along.quarter_turn();
    let reach = |corner: &Pos| corner.dot(across);
    let corners = || outline.loops.iter().flatten().map(reach);
    let low = corners().min_by(f64::total_cmp)?;
    let high = corners().max_by(f64::total_cmp)?;
    let low = low - half_of_walls(level, across, low);
    let high = high + half_of_walls(level, across, high);
    let (strips, uncut) = strips(low, high, layout.spacing);
    Some(Space {
        kind: layout.kind,
        z: layout.z,
        depth: layout.depth,
        along,
        across,
        spacing: layout.spacing,
        strips,
        uncut,
        outline: outline.clone(),
        part: None,
        hangs: layout.hangs,
        rise: 0.0,
    })
}

/// The strips between joists from one outside to the other, and how far short of it they end.
fn strips(low: f64, high: f64, spacing: f64) -> (Vec<Strip>, f64) {
    let half = Lumber::THICKNESS.0 / 2.0;
    let count = (((high - low) / spacing).ceil() as i64).clamp(1, MOST_STRIPS);
    let joist = |place: i64| match place {
        0 => low + half,
        _ => (low + place as f64 * spacing).min(high - half),
    };
    let strip = |place: i64| Strip {
        from: joist(place),
        to: joist(place + 1),
    };
    let wide = |strip: &Strip| strip.to - strip.from > NARROWEST_STRIP;
    let strips = (0..count).map(strip).filter(wide).collect();
    (strips, high - half - joist(count))
}

/// How far the outside of the walls on a border is from their centre lines, measured across the
/// joists.
fn half_of_walls(level: &Level, across: Pos, border: f64) -> f64 {
    let on_it = |place: Point| (place.pos().dot(across) - border).abs() < ON_BORDER;
    let walls = level.walls.iter();
    let half = walls
        .filter(|wall| on_it(wall.from) && on_it(wall.to))
        .map(|wall| wall.width().0 / 2.0);
    half.fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{LevelId, Role, Wall, WallId};

    fn level(lumber: Lumber) -> Level {
        let corners = [(0, 0), (9000, 0), (9000, 6000), (0, 6000)].map(|(x, y)| Point::new(x, y));
        let mut level = Level::new(LevelId(1), "Ground");
        for place in 0..4 {
            let (from, to) = (corners[place], corners[(place + 1) % 4]);
            let id = WallId(place as u32 + 1);
            level
                .walls
                .push(Wall::new(id, from, to, lumber, Role::Exterior));
        }
        level
    }

    fn space(lumber: Lumber, direction: Direction, spacing: f64) -> Option<Space> {
        from_side(LayoutSide::First, lumber, direction, spacing)
    }

    fn from_side(
        side: LayoutSide,
        lumber: Lumber,
        direction: Direction,
        spacing: f64,
    ) -> Option<Space> {
        let level = level(lumber);
        let layout = Layout {
            kind: SpaceKind::AtticTrusses,
            direction,
            side,
            spacing,
            depth: CHORD,
            z: 2800.0,
            hangs: false,
        };
        lay(layout, &level, &Outline::of(&level))
    }

    /// By hand: walls of 2x6 reach 2-3/4 in (69.85) over their centre lines. The first joist is flush
    /// with that outside, its middle 3/4 in inside; the second is 24 in from the outside, and so on;
    /// the last flush with the far outside. Across is the quarter turn of along y: towards -x.
    #[test]
    fn joists_are_laid_out_from_the_outside_of_the_walls() {
        let space = space(Lumber::TwoBySix, Direction::ALONG_Y, 609.6).unwrap();
        let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
        let outside = -9000.0 - 69.85;
        assert!(near(space.across.x, -1.0));
        assert!(near(space.strips[0].from, outside + 19.05));
        assert!(near(space.strips[0].to, outside + 609.6));
        assert!(near(space.strips[1].to, outside + 1219.2));
        // 9139.7 / 609.6 = 14.99: fourteen on centre between the first and the last.
        assert_eq!(space.strips.len(), 15);
        assert!(near(space.strips[14].to, 69.85 - 19.05));
    }

    /// By hand, from the left side: the outside is at -69.85, the first joist 19.05 in from it, the
    /// second 24 in from it.
    #[test]
    fn joists_laid_out_from_the_other_side_stand_on_centre_from_there() {
        let joists = Direction::ALONG_Y;
        let space = from_side(LayoutSide::Second, Lumber::TwoBySix, joists, 609.6).unwrap();
        let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
        assert!(near(space.across.x, 1.0) && near(space.along.y, -1.0));
        assert!(near(space.strips[0].from, -69.85 + 19.05));
        assert!(near(space.strips[0].to, -69.85 + 609.6));
        assert_eq!(space.strips.len(), 15);
        assert!(near(space.strips[14].to, 9000.0 + 69.85 - 19.05));
    }

    #[test]
    fn a_wider_wall_moves_the_first_joist_out() {
        let first = |lumber| {
            let space = space(lumber, Direction::ALONG_Y, 406.4).unwrap();
            space.strips[0].from
        };
        let (narrow, wide) = (first(Lumber::TwoByFour), first(Lumber::TwoBySix));
        assert!((narrow - wide - 25.4).abs() < 1e-6, "{narrow} {wide}");
    }

    #[test]
    fn joists_stand_on_centre_across_the_house() {
        let space = space(Lumber::TwoBySix, Direction::ALONG_Y, 609.6).unwrap();
        let joined = |pair: &[Strip]| (pair[1].from - pair[0].to).abs() < 1e-9;
        assert!(space.strips.windows(2).all(joined));
        let there = space.strip_at(Pos::new(700.0, 100.0)).unwrap();
        let strip = space.strips[there];
        let across = space.across_of(Pos::new(700.0, 100.0));
        assert!(strip.from <= across && across <= strip.to);
    }

    /// By hand: 400 strips of 100 mm are 40 m; the middle of the last joist is 19.05 mm within the
    /// outside, at 50 m.
    #[test]
    fn what_is_left_without_joists_is_known() {
        let (strips, uncut) = strips(0.0, 50_000.0, 100.0);
        assert_eq!((strips.len(), strips[399].to), (400, 40_000.0));
        assert!((uncut - (10_000.0 - 19.05)).abs() < 1e-9, "{uncut}");
        assert_eq!(super::strips(0.0, 40_000.0, 100.0).1, 0.0);
        assert_eq!(super::strips(0.0, 9_000.0, 406.4).1, 0.0);
    }

    #[test]
    fn drawing_a_joist_from_its_other_end_changes_nothing() {
        let space = |direction| space(Lumber::TwoByFour, direction, 406.4);
        let up = Direction { dx: 0, dy: -5 };
        assert_eq!(space(up), space(Direction::ALONG_Y));
        assert_eq!(space(Direction { dx: 0, dy: 0 }), None);
    }

    /// The rule of [`Space::strip_at`] written out: of all strips the first of those least far off.
    #[test]
    fn the_strip_at_a_place_is_the_first_of_the_nearest() {
        let space = space(Lumber::TwoBySix, Direction::ALONG_X, 406.4).unwrap();
        let borders = space.strips.iter().flat_map(|strip| [strip.from, strip.to]);
        let about =
            borders.flat_map(|border| [-700.0, -30.0, 0.0, 30.0, 700.0].map(|d| border + d));
        for across in about {
            let off = |strip: &Strip| (strip.from - across).max(across - strip.to).max(0.0);
            let strips = space.strips.iter().enumerate();
            let first = strips.min_by(|a, b| off(a.1).total_cmp(&off(b.1)));
            let found = space.strip_at(space.at(0.0, across));
            assert_eq!(found, first.map(|(place, _)| place), "at {across}");
        }
    }
}

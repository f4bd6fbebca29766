//! What a box hangs on: the upright its side lies against, or the two it hangs between; and what is in
//! its way where it cannot hang. Moves no box.

use super::joints::JointKind;
use super::wall::{BOARD, Stud, StudKind, WallFraming};
use super::{Framing, LevelFraming};
use crate::plan::{BoxKind, Drop, Level, Lumber, OpeningId, Place, Plan, WallId};
use crate::rules::trade::NAILED;
use crate::units::Mm;

/// Offsets are whole millimetres and studs are not: a box that is so little in a member lies against
/// it, millimetres.
const HAIR: f64 = 2.0;

/// What a box hangs on, as indices into the wall's uprights.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hang {
    /// Nailed to an upright.
    On {
        /// Which.
        stud: usize,
        /// Whether the box lies beyond it, seen from the wall's first end.
        beyond: bool,
    },
    /// On a crosspiece between two.
    Between(usize, usize),
}

/// What is in the way of a box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meets {
    /// A door or window, its sill included.
    Opening(OpeningId),
    /// The header over one.
    Header(OpeningId),
    /// The plates.
    Plates,
    /// An upright, as an index.
    Upright(usize),
    /// Another wall, whose end stands there.
    Wall(WallId),
    /// Nothing: the wall has ended.
    End,
}

/// The place a box takes up in a wall: from its first end and above the finished floor, millimetres.
#[derive(Clone, Copy)]
struct Taken {
    from: f64,
    to: f64,
    bottom: f64,
    top: f64,
}

impl Taken {
    fn at(offset: f64, height: f64, (wide, tall): (f64, f64)) -> Self {
        Self {
            from: offset - wide / 2.0,
            to: offset + wide / 2.0,
            bottom: height - tall / 2.0,
            top: height + tall / 2.0,
        }
    }

    fn meets(&self, along: (f64, f64), up: (f64, f64)) -> bool {
        self.from + HAIR < along.1
            && along.0 < self.to - HAIR
            && self.bottom + HAIR < up.1
            && up.0 < self.top - HAIR
    }
}

impl WallFraming {
    /// What a box with this outline (width and height) hangs on at a place; or what is in its way.
    fn hang(
        &self,
        level: &Level,
        offset: f64,
        height: f64,
        outline: (f64, f64),
    ) -> Result<Hang, Meets> {
        let taken = Taken::at(offset, height, outline);
        if let Some(met) = self.met_by(level, &taken) {
            return Err(met);
        }
        let before = self.beside(&taken, |stud| taken.from - stud.to);
        let after = self.beside(&taken, |stud| stud.from - taken.to);
        match (before, after) {
            (Some((gap, stud)), other) if gap <= NAILED && other.is_none_or(|o| gap <= o.0) => {
                Ok(Hang::On { stud, beyond: true })
            }
            (_, Some((gap, stud))) if gap <= NAILED => Ok(Hang::On {
                stud,
                beyond: false,
            }),
            (Some((_, one)), Some((_, other))) => Ok(Hang::Between(one, other)),
            _ => Err(Meets::End),
        }
    }

    /// The upright nearest to a box on the side where `gap` is not below zero, with that gap.
    fn beside(&self, taken: &Taken, gap: impl Fn(&Stud) -> f64) -> Option<(f64, usize)> {
        let uprights = self.studs.iter().enumerate();
        let reaching =
            uprights.filter(|(_, stud)| stud.bottom < taken.top && taken.bottom < stud.top);
        let gaps = reaching.map(|(place, stud)| (gap(stud), place));
        gaps.filter(|(gap, _)| *gap >= -HAIR)
            .min_by(|a, b| a.0.total_cmp(&b.0))
    }

    fn met_by(&self, level: &Level, taken: &Taken) -> Option<Meets> {
        let openings = level.openings_of(self.wall).into_iter();
        let mut openings = openings.filter(|opening| {
            let (from, to) = (opening.offset.f64(), (opening.offset + opening.width).f64());
            let sill = opening.sill.f64() - BOARD;
            taken.meets((from, to), (sill, opening.head.f64()))
        });
        let mut headers = self.headers.iter();
        let header = |h: &&super::Header| taken.meets((h.from, h.to), (h.bottom, h.top));
        let in_stud = |s: &Stud| taken.meets((s.from, s.to), (s.bottom, s.top));
        let mut joints = self.joints.iter().filter(|joint| {
            let stands = matches!(joint.kind, JointKind::CornerThrough | JointKind::TeeThrough);
            let along = (joint.at - joint.half, joint.at + joint.half);
            stands && taken.meets(along, (self.bottom, self.top))
        });
        let over = taken.bottom + HAIR < self.bottom || self.top < taken.top - HAIR;
        let out = taken.from + HAIR < self.start || self.end < taken.to - HAIR;
        // What its middle is on says more than what it reaches.
        let (x, y) = (
            (taken.from + taken.to) / 2.0,
            (taken.bottom + taken.top) / 2.0,
        );
        let under = |s: &Stud| s.from < x && x < s.to && s.bottom < y && y < s.top;
        let middle = self.studs.iter().position(under).map(Meets::Upright);
        let opening = openings.next().map(|opening| Meets::Opening(opening.id));
        middle
            .or(opening)
            .or_else(|| headers.find(header).map(|h| Meets::Header(h.opening)))
            .or(over.then_some(Meets::Plates))
            .or(out.then_some(Meets::End))
            .or_else(|| self.studs.iter().position(in_stud).map(Meets::Upright))
            .or_else(|| joints.next().map(|joint| Meets::Wall(joint.other)))
    }

    /// The nearest place to an offset, at the same height, where such a box is nailed to an upright.
    pub fn nearest_hang(
        &self,
        level: &Level,
        offset: f64,
        height: f64,
        outline: (f64, f64),
    ) -> Option<(Mm, Hang)> {
        let half = outline.0 / 2.0;
        let beside = self
            .studs
            .iter()
            .flat_map(|stud| [stud.from - half, stud.to + half]);
        let drawn = |at: &f64| (0.0..=self.line.length).contains(at);
        let hung = beside.filter(drawn).filter_map(|at| {
            let at = Mm::rounded(at);
            let hang = self.hang(level, at.f64(), height, outline).ok()?;
            matches!(hang, Hang::On { .. }).then_some((at, hang))
        });
        let away = |at: Mm| (at.f64() - offset).abs();
        hung.min_by(|a, b| away(a.0).total_cmp(&away(b.0)))
    }

    /// "on stud 4, W1 side"; "on 2x4 blocking between studs 4 and 5": blocking is of the wall's own lumber.
    pub fn hang_words(&self, hang: Hang, lumber: Lumber) -> String {
        match hang {
            Hang::On { stud, beyond } => {
                let end = self.end_name(!beyond);
                let side = match end.strip_suffix(" end") {
                    Some(wall) if wall.starts_with('W') => format!("{wall} side"),
                    _ => format!("towards its {end}"),
                };
                format!("on {}, {side}", self.upright_name(stud))
            }
            Hang::Between(one, other) => format!(
                "on {} blocking between {}",
                lumber.name(),
                self.between_words(one, other)
            ),
        }
    }

    /// "studs 4 and 5"; "stud 4 and a cripple".
    fn between_words(&self, one: usize, other: usize) -> String {
        let number = |place: usize| self.studs.get(place).map_or(0, |stud| stud.number);
        match (number(one), number(other)) {
            (0, _) | (_, 0) => format!(
                "{} and {}",
                self.upright_name(one),
                self.upright_name(other)
            ),
            (one, other) => format!("studs {one} and {other}"),
        }
    }

    /// "stud 4"; a short one by what it does.
    pub fn upright_name(&self, place: usize) -> String {
        match self.studs.get(place) {
            Some(stud) if stud.number > 0 => format!("stud {}", stud.number),
            Some(stud) if stud.kind == StudKind::Jack => String::from("a jack"),
            _ => String::from("a cripple"),
        }
    }
}

/// A drop's wall with its framing, and the middle of its box: offset and height.
fn seat<'a>(
    plan: &'a Plan,
    framing: &'a Framing,
    drop: &Drop,
) -> Option<(&'a Level, &'a WallFraming, f64, f64)> {
    let Place::Wall {
        wall,
        offset,
        height,
        ..
    } = drop.place
    else {
        return None;
    };
    let level = plan.level(drop.level)?;
    let framed = framing
        .level(drop.level)
        .and_then(|level: &LevelFraming| level.wall(wall))?;
    Some((level, framed, offset.f64(), height.f64()))
}

/// What the box of a drop hangs on, or what is in its way. `None` for one that is in no wall, and
/// for one without a box.
pub fn hang_of(plan: &Plan, framing: &Framing, drop: &Drop) -> Option<Result<Hang, Meets>> {
    let (level, wall, offset, height) = seat(plan, framing, drop)?;
    let is_box = drop.fixing != BoxKind::None;
    is_box.then(|| wall.hang(level, offset, height, drop.outline()))
}

/// The nearest place on its wall, at its height, where the box of a drop is nailed to an upright.
pub fn hang_near(plan: &Plan, framing: &Framing, drop: &Drop) -> Option<(Mm, Hang)> {
    let (level, wall, offset, height) = seat(plan, framing, drop)?;
    wall.nearest_hang(level, offset, height, drop.outline())
}

/// What the box of a drop hangs on, in words; `None` where it hangs on nothing.
pub fn hang_words(plan: &Plan, framing: &Framing, drop: &Drop) -> Option<String> {
    let hang = hang_of(plan, framing, drop)?.ok()?;
    let (_, framed, ..) = seat(plan, framing, drop)?;
    let (_, wall) = plan.wall(framed.wall)?;
    Some(framed.hang_words(hang, wall.lumber))
}

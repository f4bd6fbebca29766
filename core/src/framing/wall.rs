//! One wall in wood: its studs, headers, and the bays between them.

use serde::{Deserialize, Serialize};

use super::bay::{Bay, BayKind};
use super::headers::{header_depth, is_wider};
use super::joints::{Joint, JointKind, WallEnds, join};
use crate::plan::{LayoutEnd, Level, Lumber, Opening, OpeningId, OpeningKind, Wall, WallId};
use crate::rules::trade::{LOWEST_BAY, NARROWEST_BAY, ONE_JACK_FEET};
use crate::shape::Segment;

/// Thickness of every stud and plate: a dressed 2x board.
pub(super) const BOARD: f64 = Lumber::THICKNESS.0;
/// A wall's framing. Offsets are from the wall's first end, heights above the finished floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WallFraming {
    /// Which wall.
    pub wall: WallId,
    /// Its centre line.
    pub line: Segment,
    /// Where the plates start; below zero where they run past the drawn end.
    pub start: f64,
    /// Where the plates end.
    pub end: f64,
    /// Top of the bottom plates.
    pub bottom: f64,
    /// Underside of the top plates.
    pub top: f64,
    /// Top of the top plates: the ceiling height.
    pub height: f64,
    /// Studs of every kind, in order along the wall.
    pub studs: Vec<Stud>,
    /// Headers over openings.
    pub headers: Vec<Header>,
    /// Bays, in order along the wall; under a window before over it.
    pub bays: Vec<Bay>,
    /// How other walls meet it.
    pub joints: Vec<Joint>,
}

/// An upright.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stud {
    /// What it does.
    pub kind: StudKind,
    /// Nearer face, offset along the wall.
    pub from: f64,
    /// Farther face.
    pub to: f64,
    /// Foot.
    pub bottom: f64,
    /// Head.
    pub top: f64,
    /// Its number among the wall's full-height studs, counted from the first end; 0 for others.
    pub number: u32,
}

/// What an upright does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum StudKind {
    /// At an end of the plates.
    End,
    /// On layout.
    Common,
    /// Full height beside an opening.
    King,
    /// Under a header.
    Jack,
    /// The second stud of a three-stud corner.
    Corner,
    /// Backing for a wall that meets this one.
    Backing,
    /// Short, under a sill or over a header.
    Cripple,
}

/// A header over an opening.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Header {
    /// The opening it carries over.
    pub opening: OpeningId,
    /// Nearer end.
    pub from: f64,
    /// Farther end.
    pub to: f64,
    /// Underside.
    pub bottom: f64,
    /// Upper side.
    pub top: f64,
}

impl WallFraming {
    /// The bay that holds an offset at a height, or the nearest one that reaches that height.
    pub fn bay_at(&self, offset: f64, height: f64) -> Option<usize> {
        let distance = |bay: &Bay| (bay.from - offset).max(offset - bay.to).max(0.0);
        let reaching = self
            .bays
            .iter()
            .enumerate()
            .filter(|(_, bay)| bay.reaches(height));
        reaching
            .min_by(|a, b| distance(a.1).total_cmp(&distance(b.1)))
            .map(|(place, _)| place)
    }

    /// Neighbouring bays at a height with the uprights between them, as indices. Bays with an
    /// opening or a header between them are no neighbours.
    pub fn neighbours(&self, height: f64) -> Vec<(usize, usize, Vec<usize>)> {
        let reaching: Vec<usize> = (0..self.bays.len())
            .filter(|bay| self.bays[*bay].reaches(height))
            .collect();
        let pairs = reaching.windows(2).map(|pair| (pair[0], pair[1]));
        pairs
            .filter(|(a, b)| !self.is_open(self.bays[*a].to, self.bays[*b].from, height))
            .map(|(a, b)| {
                (
                    a,
                    b,
                    self.between(self.bays[a].to, self.bays[b].from, height),
                )
            })
            .filter(|(_, _, studs)| !studs.is_empty())
            .collect()
    }

    /// Whether an opening or a header lies in a stretch at a height.
    fn is_open(&self, from: f64, to: f64, height: f64) -> bool {
        self.headers.iter().any(|header| {
            let clear = header.from + BOARD < to && from < header.to - BOARD;
            clear && height < header.top && !self.under_sill(header, height)
        })
    }

    fn under_sill(&self, header: &Header, height: f64) -> bool {
        let under = |bay: &Bay| {
            bay.kind == BayKind::UnderSill
                && bay.reaches(height)
                && header.from <= bay.from
                && bay.to <= header.to
        };
        self.bays.iter().any(under)
    }

    /// Uprights in a stretch that reach a height.
    fn between(&self, from: f64, to: f64, height: f64) -> Vec<usize> {
        let inside = |stud: &Stud| {
            stud.from > from - 1.0
                && stud.to < to + 1.0
                && stud.bottom <= height
                && height <= stud.top
        };
        (0..self.studs.len())
            .filter(|stud| inside(&self.studs[*stud]))
            .collect()
    }
}

/// Frames every wall of a level, in the order of the plan.
pub(super) fn frame(level: &Level) -> Vec<WallFraming> {
    let ends = join(level);
    let walls = level.walls.iter().zip(ends);
    walls
        .filter_map(|(wall, ends)| frame_wall(level, wall, ends))
        .collect()
}

fn frame_wall(level: &Level, wall: &Wall, ends: WallEnds) -> Option<WallFraming> {
    let mut framing = WallFraming {
        start: ends.start,
        end: ends.end.max(ends.start + BOARD),
        joints: ends.joints,
        ..WallFraming::bare(level, wall)?
    };
    let openings = level.openings_of(wall.id);
    openings
        .iter()
        .for_each(|opening| framing.frame_opening(opening));
    framing.frame_ends_and_joints();
    let layout = framing.layout(wall);
    framing.frame_layout(&layout, wall.spacing.0, wall.layout);
    if wall.doubled {
        framing.double(wall.layout);
    }
    openings
        .iter()
        .for_each(|opening| framing.cripple(opening, &layout));
    framing.put_in_order();
    framing.find_bays(&openings);
    Some(framing)
}

impl WallFraming {
    fn upright(&mut self, kind: StudKind, from: f64, bottom: f64, top: f64) {
        let from = self.within_plates(from);
        self.studs.push(Stud {
            kind,
            from,
            to: from + BOARD,
            bottom,
            top,
            number: 0,
        });
    }

    /// Where a stud starts that is to start here: no farther out than the ends of the plates.
    pub(super) fn within_plates(&self, from: f64) -> f64 {
        from.clamp(self.start, (self.end - BOARD).max(self.start))
    }

    pub(super) fn full(&mut self, kind: StudKind, from: f64) {
        self.upright(kind, from, self.bottom, self.top);
    }

    fn frame_opening(&mut self, opening: &Opening) {
        let (near, far) = (opening.offset.f64(), (opening.offset + opening.width).f64());
        let head = opening.head.f64().min(self.top);
        let jacks = if is_wider(far - near, ONE_JACK_FEET) {
            2
        } else {
            1
        };
        for jack in 0..jacks {
            let inset = f64::from(jack) * BOARD;
            self.upright(StudKind::Jack, near - BOARD - inset, self.bottom, head);
            self.upright(StudKind::Jack, far + inset, self.bottom, head);
        }
        let side = f64::from(jacks) * BOARD;
        self.full(StudKind::King, near - side - BOARD);
        self.full(StudKind::King, far + side);
        self.headers.push(Header {
            opening: opening.id,
            from: near - side,
            to: far + side,
            bottom: head,
            top: (head + header_depth(far - near)).min(self.top),
        });
    }

    /// Centres of the studs on layout, from the layout end's plate end.
    fn layout(&self, wall: &Wall) -> Vec<f64> {
        let count = ((self.end - self.start) / wall.spacing.0).floor() as usize;
        let step = |place: usize| place as f64 * wall.spacing.0;
        let mut centres: Vec<f64> = match wall.layout {
            LayoutEnd::First => (1..=count).map(|place| self.start + step(place)).collect(),
            LayoutEnd::Second => (1..=count).map(|place| self.end - step(place)).collect(),
        };
        centres.sort_by(f64::total_cmp);
        centres
    }

    /// Stands studs on layout. One that would run into another upright is left out; where that
    /// leaves studs farther apart than the spacing, one more stands between them.
    fn frame_layout(&mut self, layout: &[f64], spacing: f64, from: LayoutEnd) {
        let fixed = self.studs.clone();
        for centre in layout {
            let near = centre - BOARD / 2.0;
            let clear = !fixed.iter().any(|stud| overlaps(stud, near));
            if clear && !self.in_opening(*centre, *centre) {
                self.full(StudKind::Common, near);
            }
        }
        self.fill(spacing, from);
    }

    pub(super) fn in_opening(&self, from: f64, to: f64) -> bool {
        self.headers
            .iter()
            .any(|header| header.from <= to && from <= header.to)
    }

    /// Stands a stud wherever two full ones are too far apart, until none are.
    fn fill(&mut self, spacing: f64, from: LayoutEnd) {
        let full = self.studs.iter();
        let full = full.filter(|stud| stud.bottom <= self.bottom && stud.top >= self.top);
        let mut centres: Vec<f64> = full.map(|stud| (stud.from + stud.to) / 2.0).collect();
        centres.sort_by(f64::total_cmp);
        let mut at = 1;
        while let Some(&[a, b]) = centres.get(at - 1..=at) {
            let wide = b - a > spacing + 1e-6 && !self.in_opening(a, b);
            if !wide {
                at += 1;
                continue;
            }
            let centre = match from {
                LayoutEnd::First => (a + spacing).min(b - BOARD),
                LayoutEnd::Second => (b - spacing).max(a + BOARD),
            };
            self.full(StudKind::Common, centre - BOARD / 2.0);
            centres.insert(at, centre);
        }
    }

    fn cripple(&mut self, opening: &Opening, layout: &[f64]) {
        let (near, far) = (opening.offset.f64(), (opening.offset + opening.width).f64());
        let sill = opening.sill.f64() - BOARD;
        let header = self
            .headers
            .iter()
            .find(|header| header.opening == opening.id);
        let over = header.map_or(self.top, |header| header.top);
        for centre in layout
            .iter()
            .filter(|c| near + BOARD < **c && **c < far - BOARD)
        {
            let from = centre - BOARD / 2.0;
            if opening.kind == OpeningKind::Window && sill - self.bottom >= LOWEST_BAY {
                self.upright(StudKind::Cripple, from, self.bottom, sill);
            }
            if self.top - over >= LOWEST_BAY {
                self.upright(StudKind::Cripple, from, over, self.top);
            }
        }
    }

    fn put_in_order(&mut self) {
        self.studs.sort_by(|a, b| {
            a.from
                .total_cmp(&b.from)
                .then(a.bottom.total_cmp(&b.bottom))
                .then(a.kind.cmp(&b.kind))
        });
        self.studs
            .dedup_by(|b, a| a.from == b.from && a.bottom == b.bottom && a.top == b.top);
        let mut number = 0;
        for stud in &mut self.studs {
            if stud.bottom <= self.bottom && stud.top >= self.top {
                number += 1;
                stud.number = number;
            }
        }
    }

    fn find_bays(&mut self, openings: &[&Opening]) {
        let mut bays = Vec::new();
        for (from, to) in gaps(&self.solids(), self.start, self.end) {
            let over = |h: &&Header| h.from - BOARD < to && from < h.to + BOARD;
            match self.headers.iter().find(over) {
                None => bays.push(Bay {
                    kind: BayKind::Full,
                    from,
                    to,
                    bottom: self.bottom,
                    top: self.top,
                }),
                Some(header) => {
                    let opening = openings.iter().find(|opening| opening.id == header.opening);
                    let (near, far) = (header.from.max(from), header.to.min(to));
                    if let Some(opening) = opening {
                        bays.extend(self.short_bays(opening, header, near, far));
                    }
                }
            }
        }
        bays.retain(|bay| bay.width() >= NARROWEST_BAY && bay.top - bay.bottom >= LOWEST_BAY);
        bays.sort_by(|a, b| a.from.total_cmp(&b.from).then(a.kind.cmp(&b.kind)));
        self.bays = bays;
    }

    /// Stretches no bay can be in: full-height uprights, the blocking of corners and tees.
    fn solids(&self) -> Vec<(f64, f64)> {
        let full = self.studs.iter().filter(|stud| stud.number > 0);
        let mut solids: Vec<(f64, f64)> = full.map(|stud| (stud.from, stud.to)).collect();
        for joint in &self.joints {
            if matches!(joint.kind, JointKind::CornerThrough | JointKind::TeeThrough) {
                solids.push((joint.at - joint.half, joint.at + joint.half));
            }
        }
        solids.sort_by(|a, b| a.0.total_cmp(&b.0));
        solids
    }

    fn short_bays(&self, opening: &Opening, header: &Header, near: f64, far: f64) -> Vec<Bay> {
        let mut found = Vec::new();
        let (clear_near, clear_far) =
            (opening.offset.f64(), (opening.offset + opening.width).f64());
        let sill = opening.sill.f64() - BOARD;
        if opening.kind == OpeningKind::Window {
            let (from, to) = (near.max(clear_near), far.min(clear_far));
            found.extend(self.split(BayKind::UnderSill, from, to, self.bottom, sill));
        }
        found.extend(self.split(BayKind::OverHeader, near, far, header.top, self.top));
        found
    }

    fn split(&self, kind: BayKind, from: f64, to: f64, bottom: f64, top: f64) -> Vec<Bay> {
        let cripples = self.studs.iter().filter(|stud| {
            stud.kind == StudKind::Cripple && stud.bottom < top && bottom < stud.top
        });
        let solids: Vec<(f64, f64)> = cripples.map(|stud| (stud.from, stud.to)).collect();
        let bay = |(from, to)| Bay {
            kind,
            from,
            to,
            bottom,
            top,
        };
        gaps(&solids, from, to).into_iter().map(bay).collect()
    }
}

pub(super) fn overlaps(stud: &Stud, from: f64) -> bool {
    stud.from < from + BOARD - 0.1 && from + 0.1 < stud.to
}

/// What is left of a stretch between solids sorted by their near end.
fn gaps(solids: &[(f64, f64)], start: f64, end: f64) -> Vec<(f64, f64)> {
    let mut free = Vec::new();
    let mut at = start;
    for &(from, to) in solids.iter().take_while(|(from, _)| *from < end) {
        if from > at {
            free.push((at, from));
        }
        at = at.max(to);
    }
    if at < end {
        free.push((at, end));
    }
    free
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{LevelId, Role};
    use crate::shape::Point;
    use crate::units::Mm;

    fn level(length: i32) -> Level {
        let mut level = Level::new(LevelId(1), "Ground");
        let (from, to) = (Point::new(0, 0), Point::new(length, 0));
        level.walls.push(Wall::new(
            WallId(1),
            from,
            to,
            Lumber::TwoByFour,
            Role::Partition,
        ));
        level
    }

    fn opening(kind: OpeningKind, offset: i32, width: i32, sill: i32) -> Opening {
        let (offset, width, sill) = (Mm(offset), Mm(width), Mm(sill));
        let (id, wall) = (OpeningId(1), WallId(1));
        Opening {
            id,
            wall,
            offset,
            width,
            sill,
            head: Mm(2032),
            kind,
        }
    }

    #[test]
    fn studs_stand_sixteen_inches_on_centre_from_the_layout_end() {
        let framing = &frame(&level(2438))[0];
        let centres: Vec<i64> = framing
            .studs
            .iter()
            .map(|s| ((s.from + s.to) / 2.0 / 2.54).round() as i64)
            .collect();
        // 8 ft wall, tenths of an inch: end stud at 3/4 in (7.5, cut to 7), then every 16 in, end stud.
        assert_eq!(centres, [7, 160, 320, 480, 640, 800, 952]);
        assert_eq!(framing.bays.len(), 6);
        assert!((framing.bays[1].width() - 368.3).abs() < 1e-9);
    }

    #[test]
    fn a_door_cuts_the_lane_and_a_window_lets_it_pass_under_its_sill() {
        let mut door = level(4000);
        door.openings.push(opening(OpeningKind::Door, 1500, 813, 0));
        let framing = &frame(&door)[0];
        let crossing = framing.neighbours(610.0);
        assert!(crossing.iter().all(|(a, b, _)| framing.bays[*a].to < 1500.0
            && framing.bays[*b].to < 1500.0
            || framing.bays[*a].from > 2313.0));
        let mut window = level(4000);
        window
            .openings
            .push(opening(OpeningKind::Window, 1500, 1200, 762));
        let framing = &frame(&window)[0];
        let low = framing.neighbours(610.0);
        assert_eq!(
            low.len(),
            framing.bays.iter().filter(|b| b.reaches(610.0)).count() - 1
        );
        let jack_and_king = low.iter().filter(|(_, _, studs)| studs.len() == 2).count();
        assert_eq!(jack_and_king, 2);
        assert!(framing.neighbours(1200.0).len() < low.len() - 2);
    }

    /// A door from 1500 to 2313 and a wall that ends 53 mm beside its far edge, within it: one of its
    /// studs would stand in the door, the other in the jack.
    #[test]
    fn no_stud_of_a_tee_stands_in_a_door() {
        let mut level = level(4000);
        level
            .openings
            .push(opening(OpeningKind::Door, 1500, 813, 0));
        let (from, to) = (Point::new(2260, 0), Point::new(2260, 2000));
        level.walls.push(Wall::new(
            WallId(2),
            from,
            to,
            Lumber::TwoByFour,
            Role::Partition,
        ));
        let studs = &frame(&level)[0].studs;
        let in_door = |stud: &&Stud| stud.to > 1500.0 && stud.from < 2313.0;
        let mut low = studs.iter().filter(|stud| stud.bottom < 2000.0);
        assert!(!low.any(|stud| in_door(&stud)), "{studs:?}");
    }

    #[test]
    fn corners_and_tees_have_their_studs() {
        let mut level = level(4000);
        let partition = |id, from: (i32, i32), to: (i32, i32)| {
            let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
            Wall::new(WallId(id), from, to, Lumber::TwoByFour, Role::Partition)
        };
        level.walls.push(partition(2, (0, 0), (0, 3000)));
        level.walls.push(partition(3, (2000, 0), (2000, 3000)));
        let framing = &frame(&level)[0];
        let kinds = |kind| {
            framing
                .studs
                .iter()
                .filter(|stud| stud.kind == kind)
                .count()
        };
        assert_eq!((kinds(StudKind::Corner), kinds(StudKind::Backing)), (1, 2));
        assert!(
            framing
                .bays
                .iter()
                .all(|bay| bay.to < 1960.0 || bay.from > 2040.0)
        );
    }

    #[test]
    fn what_stands_beyond_a_stretch_takes_nothing_of_it() {
        let solids = [(10.0, 12.0), (50.0, 52.0)];
        assert_eq!(gaps(&solids, 0.0, 20.0), [(0.0, 10.0), (12.0, 20.0)]);
    }

    proptest::proptest! {
        #[test]
        fn studs_lie_in_their_wall_and_spacing_holds(
            length in 600i32..15_000, spacing in 300.0f64..620.0,
            doors in proptest::collection::vec((0i32..14_000, 400i32..2500), 0..4),
            tees in proptest::collection::vec(0i32..15_000, 0..4), second in proptest::bool::ANY,
        ) {
            let mut level = level(length);
            level.walls[0].spacing = crate::units::Size(spacing);
            level.walls[0].layout = if second { LayoutEnd::Second } else { LayoutEnd::First };
            for (place, (offset, width)) in doors.into_iter().enumerate() {
                let mut door = opening(OpeningKind::Door, offset, width, 0);
                door.id = OpeningId(place as u32 + 1);
                let clear = level.openings.iter().all(|o| {
                    o.offset + o.width + Mm(200) < door.offset || door.offset + door.width + Mm(200) < o.offset
                });
                if offset + width < length - 200 && offset > 200 && clear {
                    level.openings.push(door);
                }
            }
            for (place, at) in tees.into_iter().enumerate().filter(|(_, at)| *at < length) {
                let id = WallId(place as u32 + 2);
                let (from, to) = (Point::new(at, 0), Point::new(at, 2000));
                level.walls.push(Wall::new(id, from, to, Lumber::TwoByFour, Role::Partition));
            }
            let framing = &frame(&level)[0];
            for stud in &framing.studs {
                proptest::prop_assert!(stud.from >= framing.start - 1e-6 && stud.to <= framing.end + 1e-6);
            }
            let full: Vec<&Stud> = framing.studs.iter().filter(|s| s.number > 0).collect();
            for pair in full.windows(2) {
                let apart = (pair[1].from + pair[1].to - pair[0].from - pair[0].to) / 2.0;
                let door = framing.headers.iter().any(|h| h.from <= pair[1].from && pair[0].to <= h.to);
                proptest::prop_assert!(door || apart <= spacing + 1e-6, "{apart} > {spacing}");
            }
            let tiled: f64 = framing.bays.iter().filter(|b| b.kind == BayKind::Full).map(Bay::width).sum();
            proptest::prop_assert!(tiled <= framing.end - framing.start);
            for pair in framing.bays.windows(2) {
                proptest::prop_assert!(pair[0].to <= pair[1].from + 1e-6 || pair[0].kind != pair[1].kind);
            }
        }
    }
}

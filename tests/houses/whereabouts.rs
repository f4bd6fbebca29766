//! The drill list read as a person with a tape reads it: the words of every line are taken apart here
//! and followed on the framing, and must end at the bore.

use std::collections::BTreeSet;

use borewright_core::bore::{Bore, DrillRow};
use borewright_core::design::Design;
use borewright_core::framing::{Space, StudKind, WallFraming};
use borewright_core::plan::{Plan, Role, Wall, WallId};
use borewright_core::route::{Crossing, Member};
use borewright_core::shape::Pos;
use borewright_core::units::{LengthError, Units, read_length};

use crate::places::every_plan;

/// A sixteenth of an inch, millimetres.
const SIXTEENTH: f64 = 1.5875;

fn length(words: &str) -> f64 {
    match read_length(words, Units::Imperial) {
        // At the face itself, which nobody types and a sheet may say.
        Err(LengthError::Zero) => 0.0,
        length => length.unwrap().f64(),
    }
}

/// "3 to 5, 7" as numbers.
fn numbers(words: &str) -> Vec<usize> {
    let runs = words
        .split(", ")
        .flat_map(|run| match run.split_once(" to ") {
            Some((first, last)) => {
                (first.parse().unwrap()..=last.parse().unwrap()).collect::<Vec<_>>()
            }
            None => vec![run.parse().unwrap()],
        });
    runs.collect()
}

/// "W6, and the rest" as the wall and the rest.
fn wall_and(words: &str) -> (WallId, &str) {
    let digits = words.strip_prefix('W').unwrap();
    let end = digits.find(|c: char| !c.is_ascii_digit()).unwrap();
    (WallId(digits[..end].parse().unwrap()), &digits[end..])
}

/// Whether an end's name fits the first end of a wall: the wall it names passes by there.
fn is_first_end(plan: &Plan, wall: WallId, name: &str) -> bool {
    let (level, wall) = plan.wall(wall).unwrap();
    let Some(other) = name.strip_prefix('W') else {
        return true;
    };
    let other = WallId(other.strip_suffix(" end").unwrap().parse().unwrap());
    let line = level.wall(other).unwrap().line().unwrap();
    line.distance_to(wall.from.pos()) < 250.0
}

fn stud(frame: &WallFraming, number: usize) -> (f64, f64) {
    let mut studs = frame.studs.iter();
    let stud = studs.find(|stud| stud.number as usize == number).unwrap();
    (stud.from, stud.to)
}

struct House<'h> {
    plan: &'h Plan,
    design: &'h Design,
}

impl House<'_> {
    fn crossing(&self, bore: &Bore) -> &Crossing {
        &self.design.ways.crossings[bore.crossing]
    }

    /// Follows one line's words to its bores.
    fn follow(&self, row: &DrillRow) {
        let words = row.location.as_str();
        let bores: Vec<&Bore> = row
            .bores
            .iter()
            .map(|bore| &self.design.bores[*bore])
            .collect();
        if let Some(rest) = words.strip_prefix("joist") {
            return self.joists(&bores, rest.trim_start_matches('s').trim_start());
        }
        let (wall, rest) = wall_and(words);
        let frame = self.design.framing.wall(wall).unwrap();
        if rest.starts_with(" after ") || rest.starts_with(" at ") {
            return self.corner(bores[0], words);
        }
        let rest = rest.strip_prefix(", ").unwrap();
        if let Some(place) = rest.strip_suffix(" past its far face") {
            let (counted, distance) = place.rsplit_once(", ").unwrap();
            let (number, end) = counted
                .strip_prefix("stud ")
                .unwrap()
                .split_once(" from its ")
                .unwrap();
            assert!(is_first_end(self.plan, wall, end), "{words}");
            let at = stud(frame, number.parse().unwrap()).1 + length(distance);
            assert!((at - bores[0].offset).abs() < SIXTEENTH, "{words}");
            assert_eq!(bores.len(), 1, "{words}");
        } else if let Some(counted) = rest.strip_prefix("stud") {
            let (counted, kinds) = counted.split_once(": ").unwrap_or((counted, ""));
            let (counted, end) = counted.split_once(" from its ").unwrap();
            assert!(is_first_end(self.plan, wall, end), "{words}");
            self.studs(
                frame,
                &bores,
                &numbers(counted.trim_start_matches('s').trim()),
                kinds,
            );
        } else if rest.contains(" upright") {
            self.short(frame, bores[0], rest);
        } else {
            let inside = rest.split_once(" from its ");
            let (distance, end) = inside.or(rest.split_once(" beyond its ")).unwrap();
            assert!(is_first_end(self.plan, wall, end), "{words}");
            let way = if inside.is_some() { 1.0 } else { -1.0 };
            let at = frame.start + way * length(distance);
            assert!((at - bores[0].offset).abs() < SIXTEENTH, "{words}");
        }
    }

    fn through(&self, bores: &[&Bore]) -> Vec<usize> {
        let studs = bores
            .iter()
            .flat_map(|bore| match &self.crossing(bore).member {
                Member::Studs(studs) => studs.clone(),
                _ => Vec::new(),
            });
        let studs: BTreeSet<usize> = studs.collect();
        studs.into_iter().collect()
    }

    fn studs(&self, frame: &WallFraming, bores: &[&Bore], told: &[usize], kinds: &str) {
        let through = self.through(bores);
        let full = through
            .iter()
            .map(|stud| frame.studs[*stud].number as usize);
        assert_eq!(full.filter(|number| *number > 0).collect::<Vec<_>>(), told);
        let name = |stud: &usize| match frame.studs[*stud].kind {
            StudKind::King => "king",
            StudKind::Jack => "jack",
            StudKind::Cripple => "cripple",
            _ => "stud",
        };
        let named: Vec<&str> = through.iter().map(name).collect();
        match kinds {
            "" => assert!(named.iter().all(|name| *name == "stud"), "{named:?}"),
            kinds => assert_eq!(named.join(", "), kinds),
        }
    }

    /// "2nd upright past stud 12 from its W9 end: cripple".
    fn short(&self, frame: &WallFraming, bore: &Bore, words: &str) {
        let nth: String = words.chars().take_while(char::is_ascii_digit).collect();
        let nth: usize = nth.parse().unwrap();
        let past = words
            .split_once(" past stud ")
            .map(|(_, rest)| rest.split(' ').next().unwrap());
        let after = past.map_or(frame.start, |past| stud(frame, past.parse().unwrap()).1);
        let stands = frame.studs.iter().enumerate().filter(|(_, stud)| {
            stud.from >= after - 0.1 && stud.bottom <= bore.height && bore.height <= stud.top
        });
        let found = stands.map(|(place, _)| place).nth(nth - 1).unwrap();
        assert_eq!(found, self.through(&[bore])[0], "{words}");
    }

    /// "W7 after stud 10 from its W1 end to W6 after stud 9 from its W4 end": a cable goes from the one
    /// bay to the other.
    fn corner(&self, bore: &Bore, words: &str) {
        let (from, into) = words.split_once(" to ").unwrap();
        let ends: Vec<(WallId, f64, f64)> =
            [from, into].iter().map(|words| self.bay(words)).collect();
        let moves = self.design.ways.ways.iter().flat_map(|way| &way.moves);
        let through = moves
            .into_iter()
            .filter(|step| step.crossing == Some(bore.crossing));
        let in_bay = |at: Pos, (wall, low, high): &(WallId, f64, f64)| {
            let line = self.design.framing.wall(*wall).unwrap().line;
            let offset = line.offset_of(at);
            line.aside_of(at).abs() < 1.0 && *low < offset && offset < *high
        };
        let mut count = 0;
        for step in through {
            let (a, b) = (step.from.at, step.to.at);
            let fits = in_bay(a, &ends[0]) && in_bay(b, &ends[1]);
            assert!(
                fits || in_bay(b, &ends[0]) && in_bay(a, &ends[1]),
                "{words}"
            );
            count += 1;
        }
        assert!(count > 0, "{words}");
    }

    /// The stretch between the stud that is named and the next full one.
    fn bay(&self, words: &str) -> (WallId, f64, f64) {
        let (wall, rest) = wall_and(words);
        let frame = self.design.framing.wall(wall).unwrap();
        let number = match rest.strip_prefix(" after stud ") {
            Some(rest) => rest.split(' ').next().unwrap().parse().unwrap(),
            None => 0,
        };
        let low = if number == 0 {
            frame.start
        } else {
            stud(frame, number).1
        };
        let mut next = frame.studs.iter();
        let next = next.find(|stud| stud.number as usize == number + 1);
        (wall, low, next.map_or(frame.end, |stud| stud.from))
    }

    /// "12 to 18 from W14, 17' 10-13/16\" in from outside of W12", on the drawn walls: joists stand on
    /// centre from the outside they are laid out from, the first and the last flush with it.
    fn joists(&self, bores: &[&Bore], words: &str) {
        let (counted, measured) = words.rsplit_once(", ").unwrap();
        let space = self.space(self.crossing(bores[0]));
        let is_there = |bore: &&&Bore, words: &str, way| {
            let at = space.at(bore.offset, space.across_of(self.crossing(bore).at));
            self.off(bore, words, at, way).abs() < SIXTEENTH
        };
        match measured.contains(" (first) to ") {
            // A face that lies askew is told at both ends of the row, which is straight between them.
            true => self.askew(bores, counted, measured),
            false => assert!(
                bores.iter().all(|b| is_there(&b, measured, space.along)),
                "joists {words}"
            ),
        }
        if counted.contains(" in from ") {
            let mut nearest = bores.iter().filter(|b| is_there(b, counted, space.across));
            assert!(nearest.next().is_some(), "joists {words}");
            return;
        }
        let (counted, from) = counted.split_once(" from W").unwrap();
        let level = self.plan.level(self.crossing(bores[0]).level).unwrap();
        let counted_from = *level.wall(WallId(from.parse().unwrap())).unwrap();
        let told: BTreeSet<usize> = numbers(counted).into_iter().collect();
        let found: BTreeSet<usize> = bores
            .iter()
            .map(|bore| self.counted(counted_from, self.crossing(bore)))
            .collect();
        assert_eq!(found, told, "joists {words}");
    }

    fn face(&self, bore: &Bore, face: &str) -> Wall {
        let (_, rest) = face.split_once('W').unwrap();
        let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
        let level = self.plan.level(self.crossing(bore).level).unwrap();
        *level.wall(WallId(digits.parse().unwrap())).unwrap()
    }

    /// "9' 2-3/4\" (first) to 9' 5\" (last) in from outside of W1": the first is the one nearest to where the
    /// joists are counted or measured from.
    fn askew(&self, bores: &[&Bore], counted: &str, measured: &str) {
        let (first, rest) = measured.split_once(" (first) to ").unwrap();
        let (last, face) = rest.split_once(" (last) in from ").unwrap();
        let (first, last) = (length(first), length(last));
        assert!((first - last).abs() > SIXTEENTH / 2.0, "{measured}");
        let space = self.space(self.crossing(bores[0]));
        let place = |bore: &Bore| space.at(bore.offset, space.across_of(self.crossing(bore).at));
        let from = self.face(bores[0], counted);
        // Along the row rather than off the wall, which a joist may lie behind.
        let along = |bore: &Bore| space.across_of(self.crossing(bore).at);
        let mut rows: Vec<(f64, &Bore)> = bores.iter().map(|bore| (along(bore), *bore)).collect();
        rows.sort_by(|a, b| a.0.total_cmp(&b.0));
        let ends = [from.from, from.to].map(|end| end.pos());
        let apart = |at: Pos| match counted.contains(" in from the end of ") {
            true => ends
                .map(|end| (end - at).dot(space.across).abs())
                .into_iter()
                .fold(f64::MAX, f64::min),
            false => outside(from, at),
        };
        let outer = [rows[0], rows[rows.len() - 1]];
        let [near, far] = match apart(place(outer[0].1)) <= apart(place(outer[1].1)) {
            true => [outer[0].0, outer[1].0],
            false => [outer[1].0, outer[0].0],
        };
        for (at, bore) in rows {
            let told = first + (last - first) * (at - near) / (far - near);
            let told = format!("{}mm in from {face}", told.round());
            let off = self.off(bore, &told, place(bore), space.along);
            assert!(
                off.abs() < SIXTEENTH,
                "{counted}, {measured}: {off} at {told}"
            );
        }
    }

    /// How far off a place one ends who measures a way as "4' 2\" in from outside of W7" says.
    fn off(&self, bore: &Bore, words: &str, at: Pos, way: Pos) -> f64 {
        let (distance, face) = words.split_once(" in from ").unwrap();
        let wall = self.face(bore, face);
        // Of a row from the nearest to the farthest joist.
        let told = length(distance.split(" to ").next().unwrap());
        let line = wall.line().unwrap();
        let square = told * way.cross(line.along).abs();
        if face.starts_with("outside of") || face.starts_with("the line of") {
            // Of a place past the wall's middle line, only what is left of its half.
            let past = wall.width().0 / 2.0 - line.aside_of(at).abs();
            let nearer = (past - square).abs() < SIXTEENTH;
            if nearer {
                0.0
            } else {
                outside(wall, at) - square
            }
        } else if face.starts_with("the face of") {
            outside(wall, at) - wall.width().0 - square
        } else {
            let ends = [wall.from, wall.to].map(|end| (end.pos() - at).dot(way).abs());
            ends[0].min(ends[1]) - told
        }
    }

    fn space(&self, crossing: &Crossing) -> &Space {
        let space = match crossing.member {
            Member::Joist { space } | Member::Web { space } => Some(space),
            _ => None,
        };
        &self.design.framing.spaces[space.unwrap()]
    }

    /// Which joist a place is at, counted from the outside of a wall.
    fn counted(&self, wall: Wall, crossing: &Crossing) -> usize {
        assert_eq!(wall.role, Role::Exterior);
        let space = self.space(crossing);
        let reach = outside(wall, crossing.at);
        let line = wall.line().unwrap();
        let laid_from_here = (crossing.at - line.from).dot(space.across) > 0.0;
        let first = (reach - 19.05).abs() < 1.0;
        match (first, laid_from_here) {
            (true, _) => 1,
            (false, true) => {
                let steps = (reach / space.spacing).round();
                match (reach - steps * space.spacing).abs() < SIXTEENTH {
                    true => steps as usize + 1,
                    // The last, flush with the far outside, is nearer than a step.
                    false => (reach / space.spacing) as usize + 2,
                }
            }
            // From the far side the joists are on centre from the other end: count those between.
            (false, false) => {
                let last = space.strips.last().map(|strip| strip.to);
                let joists = space.strips.iter().map(|strip| strip.from).chain(last);
                let here = space.across_of(crossing.at);
                joists.filter(|joist| *joist > here - 1.0).count()
            }
        }
    }
}

/// How far a place is from the outside of a wall, on whose inside it lies.
fn outside(wall: Wall, at: Pos) -> f64 {
    wall.line().unwrap().aside_of(at).abs() + wall.width().0 / 2.0
}

#[test]
fn every_line_of_the_drill_list_leads_to_its_bores() {
    let mut lines = 0;
    for (name, plan) in every_plan() {
        let design = Design::of(&plan);
        let house = House {
            plan: &plan,
            design: &design,
        };
        let mut known = BTreeSet::new();
        for row in &design.drill_list {
            house.follow(row);
            let place = (
                row.level,
                row.what.clone(),
                row.location.clone(),
                row.height.clone(),
            );
            assert!(known.insert(place), "{name}: {} stands twice", row.location);
            assert!(!row.height.is_empty(), "{name}: {}", row.location);
            lines += 1;
        }
    }
    assert!(lines > 150, "{lines}");
}

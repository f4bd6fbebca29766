//! What holds of the places of the bores of any plan: there are two coordinates, no two bores are at
//! one place, and what is told is within a sixteenth of an inch of where the bore is.

use std::collections::BTreeSet;
use std::path::Path;

use super::*;
use crate::design::Design;
use crate::framing::Space;
use crate::picture::sample;
use crate::plan::Level;
use crate::plan::edit::sample as random;
use crate::route::Crossing;
use crate::shape::Pos;

/// A sixteenth of an inch, millimetres.
const SIXTEENTH: f64 = 25.4 / 16.0;

/// Every plan that is kept, the demos, the sample, and some drawn at random, with their names.
fn plans() -> Vec<(String, Plan)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let folders = ["tests/plans", "tests/plans/places", "static/demo"];
    let files = folders.iter().flat_map(|folder| {
        let entries = std::fs::read_dir(root.join(folder)).unwrap();
        entries.map(|entry| entry.unwrap().path())
    });
    let is_plan = |name: &str| name.ends_with(".json") && !name.ends_with(".truth.json");
    let kept = files.filter_map(|path| {
        let name = path.file_name()?.to_str()?.to_string();
        is_plan(&name).then_some(())?;
        let file = crate::file::read(&std::fs::read(&path).unwrap()).unwrap();
        Some((name, file.plan))
    });
    let random = (0..24).map(|seed| (format!("seed {seed}"), random::plan(seed, 160)));
    let sample = [(String::from("sample"), sample::house())];
    kept.chain(random).chain(sample).collect()
}

/// Where a place in a wall is told to be, from its first end.
fn offset(framing: &Framing, past: &Past) -> f64 {
    let wall = framing.wall(past.wall).unwrap();
    let mut studs = wall.studs.iter().filter(|stud| stud.number > 0);
    let stud = studs.find(|stud| stud.number == past.stud);
    stud.map_or(wall.start, |stud| stud.to) + past.distance
}

/// A place on the plan, told in words, and how high or how centred.
fn whole(plan: &Plan, design: &Design, bore: &Bore) -> (Whereabouts, String) {
    let place = Whereabouts::of(plan, &design.framing, &design.ways, &[bore]).unwrap();
    let height = match place.across {
        Across::Height(height) => format!("{height:.1}"),
        Across::Centred | Across::In { .. } => String::new(),
    };
    let crossing = &design.ways.crossings[bore.crossing];
    let what = match crossing.member {
        Member::TopPlates(_) => "top",
        Member::BottomPlates(_) => "bottom",
        Member::Joist { space } | Member::Web { space } if space % 2 == 0 => "even space",
        _ => "",
    };
    let words = place.words(plan, &design.framing);
    let level = crossing.level.0;
    (place, format!("{level} {what} {words} {height}"))
}

/// Two devices may be put on one spot of an outside face by the person who draws.
fn is_chosen(crossing: &Crossing) -> bool {
    matches!(crossing.member, Member::Sheathing | Member::Soffit)
}

#[test]
fn every_bore_has_two_coordinates_and_no_two_have_the_same() {
    let mut told = 0;
    for (name, plan) in plans() {
        let design = Design::of(&plan);
        let mut known = BTreeSet::new();
        for bore in &design.bores {
            let (_, words) = whole(&plan, &design, bore);
            if !is_chosen(&design.ways.crossings[bore.crossing]) {
                assert!(known.insert(words.clone()), "{name}: {words}");
                told += 1;
            }
        }
        for row in &design.drill_list {
            assert!(
                row.whereabouts.is_some() && !row.location.is_empty(),
                "{name}: {}",
                row.number
            );
        }
    }
    assert!(told > 500, "{told}");
}

#[test]
fn what_is_told_is_where_the_bore_is() {
    let mut kinds = BTreeSet::new();
    for (name, plan) in plans() {
        let design = Design::of(&plan);
        for bore in &design.bores {
            let (place, words) = whole(&plan, &design, bore);
            let crossing = &design.ways.crossings[bore.crossing];
            let (kind, is_there) = match &place.along {
                Along::Past(past) => ("past", is_past(&design.framing, past, bore)),
                Along::Studs { wall, numbers, .. } => {
                    let bored = numbers_of(&design, *wall, crossing);
                    ("studs", bored == *numbers)
                }
                Along::Short { .. } => ("short", kinds_counted(&design, &place.along, bore)),
                Along::Corner { from, into } => ("corner", turns(&design, bore, from, into)),
                Along::Joists { space, which } => {
                    let space = &design.framing.spaces[*space];
                    let level = plan.level(crossing.level).unwrap();
                    let at = space.at(bore.offset, space.across_of(crossing.at));
                    let is_there = is_counted(level, space, which, at)
                        && is_in_from(level, space, place.across, at);
                    ("joists", is_there)
                }
            };
            assert!(is_there, "{name}: {words}");
            if let Across::Height(height) = place.across {
                assert!((height - bore.height).abs() < SIXTEENTH, "{name}: {words}");
            }
            kinds.insert(kind);
        }
    }
    assert_eq!(kinds.len(), 5, "{kinds:?}");
}

/// A cable goes through the corner from the place that is told in the one wall to that in the other.
fn turns(design: &Design, bore: &Bore, from: &Past, into: &Past) -> bool {
    let crossing = &design.ways.crossings[bore.crossing];
    let ends = [from, into].map(|past| {
        let line = design.framing.wall(past.wall).unwrap().line;
        line.at(offset(&design.framing, past), 0.0)
    });
    let moves = design.ways.ways.iter().flat_map(|way| &way.moves);
    let mut through = moves.filter(|step| step.crossing == Some(bore.crossing));
    let met = through.any(|step| {
        let off = |a: Pos, b: Pos| a.distance(step.from.at).max(b.distance(step.to.at));
        off(ends[0], ends[1]).min(off(ends[1], ends[0])) < SIXTEENTH
    });
    let walls = matches!(crossing.member, Member::Corner { to, .. } if to == into.wall);
    met && walls && Some(from.wall) == crossing.wall
}

fn is_past(framing: &Framing, past: &Past, bore: &Bore) -> bool {
    let off = offset(framing, past) - bore.offset;
    off.abs() < SIXTEENTH && (past.stud == 0 || past.distance > -SIXTEENTH)
}

/// The numbers of the full-height studs a crossing goes through.
fn numbers_of(design: &Design, wall: WallId, crossing: &Crossing) -> Vec<u32> {
    let frame = design.framing.wall(wall).unwrap();
    let studs = match &crossing.member {
        Member::Studs(studs) => studs.as_slice(),
        _ => &[],
    };
    let numbers = studs.iter().map(|stud| frame.studs[*stud].number);
    numbers.filter(|number| *number > 0).collect()
}

/// Counting uprights from the stud that is named, one comes to those that are bored.
fn kinds_counted(design: &Design, along: &Along, bore: &Bore) -> bool {
    let Along::Short {
        wall,
        past,
        nth,
        kinds,
    } = along
    else {
        return false;
    };
    let frame = design.framing.wall(*wall).unwrap();
    let full = frame.studs.iter().position(|stud| stud.number == *past);
    let after = if *past == 0 { 0 } else { full.unwrap() + 1 };
    let counted = frame.studs.iter().skip(after);
    let counted = counted.filter(|stud| stud.bottom <= bore.height && bore.height <= stud.top);
    let counted = counted.skip(nth.0 as usize - 1);
    let found = counted.take((nth.1 - nth.0) as usize + 1);
    found.map(|stud| stud.kind).eq(kinds.iter().copied())
}

/// Counted from one side or the other, or measured from a face, the joist is the one that is bored.
fn is_counted(level: &Level, space: &Space, which: &Which, at: Pos) -> bool {
    let number = match which {
        Which::Counted { numbers, .. } => numbers[0] as usize,
        Which::Off { from, nearest, .. } => {
            return measures(level, *from, *nearest, at, space.across);
        }
    };
    let mut joists: Vec<f64> = space.strips.iter().map(|strip| strip.from).collect();
    joists.extend(space.strips.last().map(|strip| strip.to));
    let ends = [number - 1, joists.len() - number];
    let across = space.across_of(at);
    ends.iter()
        .any(|end| (joists[*end] - across).abs() < SIXTEENTH)
}

/// Measured back from the face that is named, one arrives at the bore.
fn is_in_from(level: &Level, space: &Space, across: Across, at: Pos) -> bool {
    let Across::In { from, distance, .. } = across else {
        return false;
    };
    measures(level, from, distance, at, space.along)
}

/// How far a place is from where its joists are counted or measured from.
fn from_where(level: &Level, which: &Which, at: Pos, way: Pos) -> f64 {
    let (id, is_end) = match which {
        Which::Counted { from, .. } => (*from, false),
        Which::Off { from, .. } => match from {
            Face::End(id) => (*id, true),
            Face::Outside(id) | Face::Near(id) | Face::Line(id) => (*id, false),
        },
    };
    let wall = level.wall(id).unwrap();
    let ends = [wall.from, wall.to].map(|end| (end.pos() - at).dot(way).abs());
    match is_end {
        true => ends[0].min(ends[1]),
        false => wall.line().unwrap().aside_of(at).abs(),
    }
}

/// The place of a row of joists is true at each of them: where the face is askew, on the straight line between
/// what is told of the first and of the last.
#[test]
fn a_row_of_joists_is_told_true_at_each() {
    let (mut askew, mut square) = (0, 0);
    for (name, plan) in plans() {
        let design = Design::of(&plan);
        for row in &design.drill_list {
            let place = row.whereabouts.as_ref().unwrap();
            let (
                Along::Joists { space, which },
                Across::In {
                    from,
                    distance,
                    last,
                },
            ) = (&place.along, place.across)
            else {
                continue;
            };
            let space = &design.framing.spaces[*space];
            let at = |bore: &usize| {
                let bore = &design.bores[*bore];
                let crossing = &design.ways.crossings[bore.crossing];
                space.at(bore.offset, space.across_of(crossing.at))
            };
            let places: Vec<Pos> = row.bores.iter().map(at).collect();
            let level = plan.level(row.level).unwrap();
            let off = |at: &Pos| from_where(level, which, *at, space.across);
            let first = places.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
            let first = *first.unwrap();
            assert!(is_counted(level, space, which, first), "{name}");
            let far = |at: &Pos| (*at - first).dot(space.across).abs();
            let farthest = places.iter().map(far).fold(0.0, f64::max);
            for at in &places {
                let share = if farthest > 0.0 {
                    far(at) / farthest
                } else {
                    0.0
                };
                let told = distance + last.map_or(0.0, |last| (last - distance) * share);
                let is_true = measures(level, from, told, *at, space.along);
                assert!(is_true, "{name}, {}: {}", row.number, row.location);
            }
            askew += usize::from(last.is_some());
            square += usize::from(places.len() > 1 && last.is_none());
        }
    }
    assert!(askew > 0 && square > 20, "{askew} {square}");
}

/// Whether it is so far from a face to a place, measured along a way.
fn measures(level: &Level, from: Face, distance: f64, at: Pos, way: Pos) -> bool {
    let (Face::Outside(id) | Face::Near(id) | Face::Line(id) | Face::End(id)) = from;
    let wall = level.wall(id).unwrap();
    let line = wall.line().unwrap();
    // Square to the wall: what is measured along the way, foreshortened.
    let square = distance * way.cross(line.along).abs();
    let (aside, half) = (line.aside_of(at).abs(), wall.width().0 / 2.0);
    let reaches = match from {
        Face::Outside(_) | Face::Line(_) => vec![aside + half - square, half - aside - square],
        Face::Near(_) => vec![aside - half - square],
        Face::End(_) => [wall.from, wall.to]
            .map(|end| (end.pos() - at).dot(way).abs() - distance)
            .to_vec(),
    };
    distance >= 0.0 && reaches.iter().any(|off| off.abs() < SIXTEENTH)
}

#[test]
fn words_name_faces_and_count_members() {
    let plan = sample::house();
    let design = Design::of(&plan);
    let row = |what: &str| {
        let mut rows = design.drill_list.iter();
        rows.find(|row| row.what.starts_with(what)).unwrap()
    };
    let plates = &row("top plates").location;
    assert!(plates.contains(" past its far face"), "{plates}");
    assert!(
        plates.contains(" stud ") && plates.contains(" from its "),
        "{plates}"
    );
}

//! What holds of the places of the bores of any plan: there are two coordinates, no two bores are at
//! one place, and what is told is within a sixteenth of an inch of where the bore is.

use std::collections::BTreeSet;

use super::*;
use crate::design::Design;
use crate::framing::Space;
use crate::picture::sample;
use crate::plan::edit::sample as random;
use crate::route::Crossing;

/// A sixteenth of an inch, millimetres.
const SIXTEENTH: f64 = 25.4 / 16.0;

fn plans() -> Vec<Plan> {
    let random = (0..12).map(|seed| random::plan(seed, 160));
    random.chain([sample::house()]).collect()
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
    for plan in plans() {
        let design = Design::of(&plan);
        let mut known = BTreeSet::new();
        for bore in &design.bores {
            let (_, words) = whole(&plan, &design, bore);
            if !is_chosen(&design.ways.crossings[bore.crossing]) {
                assert!(known.insert(words.clone()), "{words}");
                told += 1;
            }
        }
        for row in &design.drill_list {
            assert!(row.whereabouts.is_some() && !row.location.is_empty());
        }
    }
    assert!(told > 50, "{told}");
}

#[test]
fn what_is_told_is_where_the_bore_is() {
    for plan in plans() {
        let design = Design::of(&plan);
        for bore in &design.bores {
            let (place, words) = whole(&plan, &design, bore);
            let crossing = &design.ways.crossings[bore.crossing];
            let is_there = match &place.along {
                Along::Past(past) => is_past(&design.framing, past, bore),
                Along::Studs { wall, numbers, .. } => {
                    numbers_of(&design, *wall, crossing) == *numbers
                }
                Along::Short { .. } => kinds_counted(&design, &place.along, bore),
                Along::Corner { from, into } => {
                    let into = into.wall;
                    let turns = matches!(crossing.member, Member::Corner { to, .. } if to == into);
                    turns && Some(from.wall) == crossing.wall
                }
                Along::Joists { space, which } => {
                    let space = &design.framing.spaces[*space];
                    is_counted(space, which, crossing)
                        && is_in_from(&plan, crossing, space, bore, place.across)
                }
            };
            assert!(is_there, "{words}");
        }
    }
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

/// Counted from one side or the other, the joist is the one that is bored.
fn is_counted(space: &Space, which: &Which, crossing: &Crossing) -> bool {
    let Which::Counted { numbers, .. } = which else {
        return true;
    };
    let mut joists: Vec<f64> = space.strips.iter().map(|strip| strip.from).collect();
    joists.extend(space.strips.last().map(|strip| strip.to));
    let number = numbers[0] as usize;
    let ends = [number - 1, joists.len() - number];
    let across = space.across_of(crossing.at);
    ends.iter()
        .any(|end| (joists[*end] - across).abs() < SIXTEENTH)
}

/// Measured back from the outside that is named, one arrives at the bore.
fn is_in_from(
    plan: &Plan,
    crossing: &Crossing,
    space: &Space,
    bore: &Bore,
    across: Across,
) -> bool {
    let Across::In { from, distance } = across else {
        return false;
    };
    let Face::Outside(wall) = from else {
        return distance >= 0.0;
    };
    let at = space.at(bore.offset, space.across_of(crossing.at));
    let wall = plan.level(crossing.level).unwrap().wall(wall).unwrap();
    let line = wall.line().unwrap();
    // Square to the wall: what is measured along the joist, foreshortened.
    let square = distance * space.along.cross(line.along).abs();
    let (aside, half) = (line.aside_of(at).abs(), wall.width().0 / 2.0);
    [aside + half, half - aside]
        .iter()
        .any(|reach| (reach - square).abs() < SIXTEENTH)
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

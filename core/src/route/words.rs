//! A way told in words, as one tells it to a person with a drill in hand.

use super::way::{Crossing, Member, Move, MoveKind, NoWay, Way, Ways};
use crate::framing::{Framing, is_in_gable};
use crate::plan::{Plan, WallId};
use crate::units::Mm;

/// The way of a cable from its drop to the closet, in one sentence; or why there is none.
///
/// "In bay 4 of W7, up through the top plates of W7, 24' 3\" along the attic, down through the top
/// plates of W2, to the closet."
pub fn words(plan: &Plan, framing: &Framing, ways: &Ways, way: &Way) -> String {
    if let Some(trouble) = &way.trouble {
        return trouble_words(plan, trouble);
    }
    let mut phrases: Vec<String> = Vec::new();
    let mut at = 0;
    while let Some(step) = way.moves.get(at) {
        let rest = way.moves[at + 1..].iter();
        let run = 1 + rest.take_while(|next| same(step.kind, next.kind)).count();
        let stretch = &way.moves[at..at + run];
        phrases.extend(phrase(plan, framing, ways, stretch, at == 0));
        at += run;
    }
    phrases.push(String::from("to the closet."));
    capital(&phrases.join(", "))
}

/// Why there is no way, in one sentence.
pub fn trouble_words(plan: &Plan, trouble: &NoWay) -> String {
    match trouble {
        NoWay::NoCloset => {
            String::from("No closet yet: place one, and every cable comes home to it.")
        }
        NoWay::Adrift => String::from("Adrift: its wall was taken away. Drag it onto another."),
        NoWay::Cut(obstacle) => format!("No way to the closet: {obstacle}."),
        NoWay::TooLong(length) => format!(
            "The shortest way with its slack is {}, longer than the permanent link may be.",
            plan.units.path(*length)
        ),
    }
}

/// Whether two moves are told together.
fn same(one: MoveKind, other: MoveKind) -> bool {
    let open = |kind| match kind {
        MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } => Some(space),
        _ => None,
    };
    one == other && !matches!(one, MoveKind::IntoWall { .. })
        || open(one).is_some() && open(one) == open(other)
}

fn phrase(
    plan: &Plan,
    framing: &Framing,
    ways: &Ways,
    stretch: &[Move],
    first: bool,
) -> Option<String> {
    let (step, last) = (stretch.first()?, stretch.last()?);
    let up = last.to.z > step.from.z;
    let way = if up { "up" } else { "down" };
    Some(match step.kind {
        MoveKind::InBay { wall, bay } if first => {
            format!("in bay {} of {}", bay + 1, label(plan, wall))
        }
        MoveKind::InBay { .. } => return None,
        MoveKind::AlongWall { wall } => along_wall(plan, ways, stretch, wall),
        MoveKind::IntoWall { from, to } => {
            let other = if entered(framing, step, to) { to } else { from };
            format!("round the corner into {}", label(plan, other))
        }
        MoveKind::ThroughTopPlates { wall, .. } => {
            format!("{way} through the top plates of {}", label(plan, wall))
        }
        MoveKind::ThroughBottomPlates { wall, .. } => {
            format!(
                "{way} through the bottom plate and floor of {}",
                label(plan, wall)
            )
        }
        MoveKind::AlongStrip { space } | MoveKind::AcrossStrips { space } => {
            in_the_open(plan, framing, ways, stretch, space)
        }
        MoveKind::ThroughCeiling { .. } if up => String::from("up through the ceiling"),
        MoveKind::ThroughCeiling { .. } => String::from("down through the ceiling"),
        MoveKind::OnFace { wall } => format!("{way} the face of {}", label(plan, wall)),
        MoveKind::Outside { wall, soffit: true } => {
            let offset = framing
                .wall(wall)
                .map_or(0.0, |wall| wall.line.offset_of(step.from.at));
            let part = match is_in_gable(plan, framing, wall, offset) {
                true => "gable",
                false => "soffit",
            };
            format!("in through the {part} over {}", label(plan, wall))
        }
        MoveKind::Outside { wall, .. } => {
            format!("in through the outside of {}", label(plan, wall))
        }
    })
}

fn along_wall(plan: &Plan, ways: &Ways, stretch: &[Move], wall: WallId) -> String {
    let crossings: Vec<&Crossing> = crossings(ways, stretch);
    let studs: usize = crossings
        .iter()
        .map(|crossing| match &crossing.member {
            Member::Studs(studs) => studs.len(),
            _ => 1,
        })
        .sum();
    let height = crossings
        .first()
        .map_or(Mm(0), |crossing| Mm::rounded(crossing.height));
    let count = if studs == 1 {
        String::from("1 stud")
    } else {
        format!("{studs} studs")
    };
    format!(
        "through {count} of {} at {}",
        label(plan, wall),
        plan.units.height(height)
    )
}

fn in_the_open(
    plan: &Plan,
    framing: &Framing,
    ways: &Ways,
    stretch: &[Move],
    space: usize,
) -> String {
    let length = Mm::rounded(stretch.iter().map(|step| step.length).sum());
    let space = framing.spaces.get(space);
    let length = plan.units.path(length);
    let run = match space {
        Some(space) if space.hangs => String::from("under the joists"),
        Some(space) => format!("along the {}", space.kind.name()),
        None => String::from("along the open"),
    };
    match crossings(ways, stretch).len() {
        0 => format!("{length} {run}"),
        1 => format!("{length} {run} through 1 joist"),
        joists => format!("{length} {run} through {joists} joists"),
    }
}

fn crossings<'w>(ways: &'w Ways, stretch: &[Move]) -> Vec<&'w Crossing> {
    stretch
        .iter()
        .filter_map(|step| ways.crossings.get(step.crossing?))
        .collect()
}

/// Whether a move ends in this wall.
fn entered(framing: &Framing, step: &Move, wall: WallId) -> bool {
    framing
        .wall(wall)
        .is_some_and(|wall| wall.line.distance_to(step.to.at) < wall.line.distance_to(step.from.at))
}

fn label(plan: &Plan, wall: WallId) -> String {
    plan.wall(wall)
        .map_or_else(|| String::from("a wall"), |(_, wall)| wall.label())
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{CableId, DropId, LevelId};
    use crate::route::Place3;

    fn step(kind: MoveKind) -> Move {
        let (from, to) = (
            Place3::default(),
            Place3 {
                z: 100.0,
                ..Place3::default()
            },
        );
        Move {
            kind,
            from,
            to,
            length: 1000.0,
            crossing: None,
        }
    }

    #[test]
    fn a_way_is_told_move_by_move_with_like_moves_together() {
        let (wall, level) = (WallId(1), LevelId(1));
        let moves = [
            MoveKind::InBay { wall, bay: 3 },
            MoveKind::IntoWall {
                from: wall,
                to: WallId(2),
            },
            MoveKind::IntoWall {
                from: WallId(2),
                to: wall,
            },
            MoveKind::ThroughTopPlates { wall, level },
            MoveKind::AlongStrip { space: 0 },
            MoveKind::AcrossStrips { space: 0 },
        ];
        let way = Way {
            cable: CableId(1),
            drop: DropId(1),
            moves: moves.map(step).to_vec(),
            length: Mm(6000),
            trouble: None,
        };
        let told = words(&Plan::new(), &Framing::default(), &Ways::default(), &way);
        assert!(
            told.starts_with("In bay 4 of a wall, round the corner into"),
            "{told}"
        );
        assert_eq!(told.matches("round the corner").count(), 2);
        assert!(told.contains("6' 6-3/4\" along the open"), "{told}");
        assert!(told.ends_with("to the closet."));
    }
}

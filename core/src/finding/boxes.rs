//! Findings about boxes that cannot hang where they are drawn: in an opening or a header, on an upright,
//! or in another box; each with the nearest place on the wall that holds it.

use std::collections::BTreeMap;

use super::{Finding, Severity, Subject};
use crate::framing::{Framing, Meets, hang_near, hang_of, wall_words};
use crate::plan::{BoxKind, Drop, OpeningId, Place, Plan, Side, WallId};
use crate::rules::trade::PRACTICE;

/// Boxes may touch; whole millimetres put them so little into one another, millimetres.
const HAIR: f64 = 2.0;

pub(super) fn check(plan: &Plan, framing: &Framing) -> Vec<Finding> {
    let wood = plan
        .drops
        .iter()
        .filter_map(|drop| in_wood(plan, framing, drop));
    wood.chain(in_boxes(plan)).collect()
}

fn in_wood(plan: &Plan, framing: &Framing, drop: &Drop) -> Option<Finding> {
    let met = hang_of(plan, framing, drop)?.err()?;
    let (wall, _) = drop.place.on_wall()?;
    let (label, name) = (drop.label(), format!("W{}", wall.0));
    let severity = match met {
        Meets::Upright(_) | Meets::Plates => Severity::Warn,
        _ => Severity::Stop,
    };
    let what = match met {
        Meets::Opening(id) => format!("The box of {label} is in {}.", opening(plan, id)),
        Meets::Header(id) => format!(
            "The box of {label} is in the header over {}.",
            opening(plan, id)
        ),
        Meets::Plates => format!("The box of {label} is in the plates of {name}."),
        Meets::Upright(stud) => {
            let upright = framing.wall(wall)?.upright_name(stud);
            format!("The box of {label} is on the face of {upright} of {name}.")
        }
        Meets::Wall(other) => format!("The box of {label} is where W{} meets {name}.", other.0),
        Meets::End => format!("The box of {label} is beyond the studs of {name}."),
    };
    let todo = match hang_near(plan, framing, drop) {
        Some((at, hang)) => format!(
            "The nearest place that holds it is {}, {}.",
            wall_words(plan, framing, wall, at),
            framing
                .wall(wall)?
                .hang_words(hang, plan.wall(wall)?.1.lumber)
        ),
        None => {
            format!("No place of {name} at this height holds it: choose another wall or height.")
        }
    };
    let finding = Finding::new(format!("box:{label}"), severity, Subject::Drop(drop.id));
    let finding = finding.says(what, todo).by(PRACTICE);
    Some(finding.at_drop(plan, drop))
}

/// "the door of W3".
fn opening(plan: &Plan, id: OpeningId) -> String {
    let mut openings = plan.levels.iter().flat_map(|level| &level.openings);
    match openings.find(|opening| opening.id == id) {
        Some(opening) => format!("the {} of W{}", opening.kind.name(), opening.wall.0),
        None => String::from("an opening"),
    }
}

/// A box in a wall: which face it is in, where, and how deep.
struct Sunk<'p> {
    drop: &'p Drop,
    side: Side,
    offset: f64,
    height: f64,
}

/// Two boxes in one place: side by side in one face, or back to back in a wall too thin for both.
fn in_boxes(plan: &Plan) -> Vec<Finding> {
    let mut walls: BTreeMap<WallId, Vec<Sunk>> = BTreeMap::new();
    for drop in plan
        .drops
        .iter()
        .filter(|drop| drop.fixing != BoxKind::None)
    {
        if let Place::Wall {
            wall,
            offset,
            side,
            height,
        } = drop.place
        {
            let (offset, height) = (offset.f64(), height.f64());
            walls.entry(wall).or_default().push(Sunk {
                drop,
                side,
                offset,
                height,
            });
        }
    }
    let mut found = Vec::new();
    for (wall, boxes) in walls {
        let Some((_, drawn)) = plan.wall(wall) else {
            continue;
        };
        for (place, one) in boxes.iter().enumerate() {
            let mut after = boxes[place + 1..].iter();
            let other = after.find(|other| meet(one, other, drawn.width().0));
            found.extend(other.map(|other| both(plan, one, other)));
        }
    }
    found
}

fn meet(one: &Sunk, other: &Sunk, thick: f64) -> bool {
    let (a, b) = (one.drop.outline(), other.drop.outline());
    let aside = (one.offset - other.offset).abs() < (a.0 + b.0) / 2.0 - HAIR;
    let over = (one.height - other.height).abs() < (a.1 + b.1) / 2.0 - HAIR;
    let deep = one.drop.fixing.depth() + other.drop.fixing.depth();
    aside && over && (one.side == other.side || deep > thick)
}

fn both(plan: &Plan, one: &Sunk, other: &Sunk) -> Finding {
    let (a, b) = (one.drop.label(), other.drop.label());
    let severity = Severity::Warn;
    let finding = Finding::new(
        format!("boxes:{a}:{b}"),
        severity,
        Subject::Drop(one.drop.id),
    );
    let back = match one.side == other.side {
        true => "",
        false => ", back to back in a wall too thin for both",
    };
    let what = format!("The boxes of {a} and {b} are in one place{back}.");
    let todo = "Hang one of them on the other side of the stud, or on the next one.";
    let finding = finding.says(what, todo).by(PRACTICE);
    finding.at_drop(plan, one.drop)
}

//! Findings about drops on an outside face whose hole would go through framing.

use super::{Finding, Severity, Subject};
use crate::framing::{Framing, OutsideHole, outside_height};
use crate::plan::{Above, Drop, Level, Place, Plan, Wall};
use crate::rules::RuleId;
use crate::units::Mm;

pub(super) fn check(plan: &Plan, framing: &Framing) -> Vec<Finding> {
    let drops = plan.drops.iter();
    drops.filter_map(|drop| of(plan, framing, drop)).collect()
}

fn of(plan: &Plan, framing: &Framing, drop: &Drop) -> Option<Finding> {
    let Place::Outside {
        wall,
        offset,
        height,
        ..
    } = drop.place
    else {
        return None;
    };
    let framed = framing.wall(wall)?;
    let (level, wall) = plan.wall(wall)?;
    let hole = OutsideHole::at(plan, framing, level.id, framed, offset.f64(), height.f64());
    let through = through(plan, level, wall, hole)?;
    let near = outside_height(plan, framing, wall.id, offset.f64(), height);
    let label = drop.label();
    let finding = Finding::new(
        format!("outside-hole:{label}"),
        Severity::Warn,
        Subject::Drop(drop.id),
    );
    let what = format!(
        "{label}: a hole at {} would go through {through}.",
        plan.units.height(height)
    );
    Some(
        finding
            .at(level.id, framed.line.at(offset.f64(), 0.0))
            .says(what, todo(plan, hole, height, near))
            .by("the framing as drawn"),
    )
}

fn through(plan: &Plan, level: &Level, wall: &Wall, hole: OutsideHole) -> Option<String> {
    let label = wall.label();
    Some(match hole {
        OutsideHole::Bay | OutsideHole::Soffit | OutsideHole::Gable => return None,
        OutsideHole::Chord => match level.above {
            Above::AtticJoists(_) => format!("the last joist over {label}"),
            _ => format!("the bottom chord of the truss over {label}"),
        },
        OutsideHole::Heels => format!(
            "the ends of the roof's framing over {label}, whose eaves reach out {} and have no soffit to speak of",
            plan.units.size(plan.rules.size(RuleId::EaveOverhang))
        ),
        OutsideHole::TopPlates => format!("the top plates of {label}"),
        OutsideHole::BottomPlates => format!("the bottom plates of {label}"),
        OutsideHole::Rim if plan.level(level.id).is_some_and(is_under_a_floor) => {
            format!("the rim of the floor over {label}")
        }
        OutsideHole::Rim => format!("the closed roof over {label}"),
        OutsideHole::Header(opening) => {
            let kind = level
                .opening(opening)
                .map_or("opening", |opening| opening.kind.name());
            format!("the header over the {kind} in {label}")
        }
    })
}

fn is_under_a_floor(level: &Level) -> bool {
    matches!(level.above, Above::Level { .. })
}

fn todo(plan: &Plan, hole: OutsideHole, height: Mm, near: Mm) -> String {
    match hole {
        OutsideHole::Header(_) => String::from("Move it along the wall, clear of the opening."),
        OutsideHole::BottomPlates => String::from("Raise it, so that it comes out of the bay."),
        _ if near > height => format!(
            "Raise it to {}, so that it comes out between the studs of the gable.",
            plan.units.height(near)
        ),
        _ => format!(
            "Lower it to {}, so that it comes out of the bay under the plates.",
            plan.units.height(near)
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::plan::edit::Edit;
    use crate::plan::{
        Above, DropKind, LevelId, Lumber, Opening, OpeningId, OpeningKind, Role, Side, WallId,
    };
    use crate::shape::{Direction, Point};
    use crate::units::Units;

    /// A camera at this place on an outside wall with a window from 4000 to 5000, 9 ft high with two
    /// top plates, so that its studs end at 2667 (8' 9").
    fn said(at: i32, height: i32, above: Above) -> Option<(String, String)> {
        told(&camera(at, height, above))
    }

    fn told(plan: &Plan) -> Option<(String, String)> {
        let found = Design::of(plan).findings;
        let found = found.iter().find(|f| f.key == "outside-hole:C1");
        found.map(|f| (f.what.clone(), f.todo.clone()))
    }

    fn camera(at: i32, height: i32, above: Above) -> Plan {
        let (level, wall) = (LevelId(1), WallId(1));
        let place = Place::Outside {
            wall,
            offset: Mm(at),
            side: Side::Left,
            height: Mm(height),
        };
        let edits = [
            Edit::SetUnits(Units::Metric),
            Edit::AddWall {
                level,
                from: Point::new(0, 0),
                to: Point::new(8000, 0),
                lumber: Lumber::TwoBySix,
                role: Role::Exterior,
            },
            Edit::AddOpening(Opening {
                id: OpeningId(0),
                wall,
                kind: OpeningKind::Window,
                offset: Mm(4000),
                width: Mm(1000),
                sill: Mm(900),
                head: Mm(2100),
            }),
            Edit::AddDrop {
                kind: DropKind::Camera,
                level,
                place,
            },
            Edit::SetAbove(level, above),
        ];
        let plan = edits
            .iter()
            .try_fold(Plan::new(), |plan, edit| plan.apply(edit));
        plan.unwrap()
    }

    fn attic() -> Above {
        Above::attic_over_trusses(Direction::ALONG_Y)
    }

    #[test]
    fn a_hole_out_of_a_bay_or_the_soffit_is_no_finding() {
        assert_eq!(said(3000, 2600, attic()), None);
        assert_eq!(said(3000, 2743, attic()), None);
        assert_eq!(said(3000, 2600, Above::CLOSED), None);
        assert_eq!(said(2000, 2200, attic()), None);
    }

    #[test]
    fn a_hole_in_plates_header_or_roof_says_what_to_do() {
        let (what, todo) = said(3000, 2700, attic()).unwrap();
        assert_eq!(
            what,
            "C1: a hole at 2700 mm would go through the top plates of W1."
        );
        assert!(todo.starts_with("Lower it to 2591 mm"), "{todo}");
        let (what, _) = said(3000, 2743, Above::CLOSED).unwrap();
        assert!(what.ends_with("the closed roof over W1."), "{what}");
        let (what, todo) = said(4500, 2200, attic()).unwrap();
        assert!(
            what.ends_with("the header over the window in W1."),
            "{what}"
        );
        assert!(todo.starts_with("Move it along the wall"), "{todo}");
        let (what, _) = said(3000, 40, attic()).unwrap();
        assert!(what.ends_with("the bottom plates of W1."), "{what}");
    }

    /// By hand, trusses along the wall: over the plates at 2743 lies the bottom chord of the gable's truss,
    /// 88.9 high; an inch over it, from 2858 on, a hole comes out between the gable's studs.
    #[test]
    fn a_hole_in_a_gable_keeps_off_the_chord_of_its_truss() {
        let along = || Above::attic_over_trusses(Direction::ALONG_X);
        let (what, todo) = said(3000, 2743, along()).unwrap();
        assert!(
            what.ends_with("the bottom chord of the truss over W1."),
            "{what}"
        );
        assert_eq!(
            todo,
            "Raise it to 2858 mm, so that it comes out between the studs of the gable."
        );
        assert!(said(3000, 2857, along()).is_some());
        assert_eq!(said(3000, 2858, along()), None);
        assert_eq!(said(3000, 2591, along()), None);
    }

    /// Where the roof ends at the wall there is no soffit.
    #[test]
    fn eaves_that_do_not_reach_out_have_no_soffit() {
        let flush = |plan: Plan, overhang: f64| {
            let rule = Edit::SetRule(RuleId::EaveOverhang, overhang);
            plan.apply(&rule).unwrap()
        };
        let plan = camera(3000, 2743, attic());
        assert_eq!(told(&flush(plan.clone(), 305.0)), None);
        let (what, todo) = told(&flush(plan.clone(), 0.0)).unwrap();
        assert!(
            what.contains("the ends of the roof's framing over W1"),
            "{what}"
        );
        assert!(todo.starts_with("Lower it to 2591 mm"), "{todo}");
        // A gable needs no eaves.
        let gable = camera(3000, 2858, Above::attic_over_trusses(Direction::ALONG_X));
        assert_eq!(told(&flush(gable, 0.0)), None);
    }
}

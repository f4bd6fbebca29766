//! Findings about what a person overruled: a pin that nothing can hold any more, and a lane that does
//! not fit its wall or lies on power cable.

use super::{Finding, Severity, Subject};
use crate::framing::{Framing, pin_words};
use crate::plan::{CableId, Pin, PinTo, Plan, WallId};
use crate::route::{Ways, stopped_lane};
use crate::rules::RuleId;
use crate::units::Mm;

pub(super) fn check(plan: &Plan, framing: &Framing, ways: &Ways) -> Vec<Finding> {
    let lost = ways
        .unheld
        .iter()
        .filter_map(|pin| unheld(plan, framing, *pin));
    let lanes = plan.pins.iter().filter_map(|pin| match *pin {
        Pin::Lane { wall, height } => {
            lane(plan, framing, wall, height).or_else(|| on_power(plan, framing, wall))
        }
        Pin::Cable { .. } => None,
    });
    lost.chain(lanes).collect()
}

fn unheld(plan: &Plan, framing: &Framing, pin: Pin) -> Option<Finding> {
    let Pin::Cable { cable, to } = pin else {
        return None;
    };
    let label = plan.cable_label(cable);
    let (drop, _) = plan.cable(cable)?;
    let level = match to {
        PinTo::Bay { wall, .. } => plan.wall(wall)?.0.id,
        PinTo::Overhead { .. } => drop.level,
    };
    let (place, why) = match to {
        PinTo::Bay { wall, offset } => {
            let power = stopped_lane(plan, framing, wall, offset.f64());
            let why = power.map(|power| power.words);
            let why = why.unwrap_or_else(|| String::from("no cable runs along that wall"));
            (format!("W{}", wall.0), why)
        }
        PinTo::Overhead { .. } => (
            String::from("overhead"),
            String::from("there is no way overhead"),
        ),
    };
    let finding = Finding::new(key(cable, &place), Severity::Warn, Subject::Cable(cable)).says(
        format!(
            "{label} cannot go by {}: {why}.",
            pin_words(plan, framing, to)
        ),
        "Take the pin off the cable, or open a way there.",
    );
    let finding = finding.by("the framing as drawn");
    Some(match to.position(plan) {
        Some(at) => finding.at(level, at),
        None => finding,
    })
}

fn key(cable: CableId, place: &str) -> String {
    format!("pin:{}:{place}", cable.0)
}

/// A fixed lane that lies outside the part of the wall that is drilled.
fn lane(plan: &Plan, framing: &Framing, wall: WallId, height: Mm) -> Option<Finding> {
    let frame = framing.wall(wall)?;
    let fits = (frame.bottom..=frame.top).contains(&height.f64());
    if fits {
        return None;
    }
    let (level, drawn) = plan.wall(wall)?;
    let finding = Finding::new(
        format!("lane:W{}", wall.0),
        Severity::Warn,
        Subject::Wall(wall),
    );
    let middle = (drawn.from.pos() + drawn.to.pos()) * 0.5;
    let finding = finding.at(level.id, middle).says(
        format!(
            "The lane of W{} cannot lie at {}: the studs end before it.",
            wall.0,
            plan.units.height(height)
        ),
        "Set another lane height, or let it be chosen.",
    );
    Some(finding.by("the framing as drawn"))
}

/// A fixed lane that is not bored somewhere, because power cable lies at its height.
fn on_power(plan: &Plan, framing: &Framing, wall: WallId) -> Option<Finding> {
    let (level, drawn) = plan.wall(wall)?;
    let line = drawn.line()?;
    let middle = line.at(line.length / 2.0, 0.0);
    let power = stopped_lane(plan, framing, wall, line.length / 2.0)?;
    let (key, subject) = (format!("lane-power:W{}", wall.0), Subject::Wall(wall));
    let finding = Finding::new(key, Severity::Warn, subject).at(level.id, middle);
    let what = format!("{} is not bored all along: {}.", drawn.label(), power.words);
    let todo = "Pin the lane at another height, or let it be chosen.";
    let source = plan.rules.rule(RuleId::PowerStop).source.words();
    Some(finding.says(what, todo).by(source))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::picture::sample;
    use crate::plan::Wall;
    use crate::plan::edit::Edit;

    fn pinned() -> (Plan, WallId) {
        let plan = sample::house();
        let wall = *plan.levels[0].walls.last().unwrap();
        let cable = plan.drops[0].cables[0].id;
        let to = PinTo::Bay {
            wall: wall.id,
            offset: Mm(600),
        };
        let plan = plan.apply(&Edit::AddPin(Pin::Cable { cable, to })).unwrap();
        (plan, wall.id)
    }

    fn found(plan: &Plan, key: &str) -> Vec<String> {
        let findings = Design::of(plan).findings.into_iter();
        let ours = findings.filter(|finding| finding.key.starts_with(key));
        ours.map(|finding| finding.what).collect()
    }

    #[test]
    fn a_pin_that_nothing_holds_any_more_is_told_and_the_cable_keeps_a_way() {
        let (plan, id) = pinned();
        assert_eq!(found(&plan, "pin:"), [] as [&str; 0]);
        let wall = *plan.wall(id).unwrap().1;
        let closed = Edit::SetWall(Wall {
            never_drill: true,
            ..wall
        });
        let plan = plan.apply(&closed).unwrap();
        let told = found(&plan, "pin:");
        assert!(
            told.len() == 1 && told[0].contains("no cable runs along"),
            "{told:?}"
        );
        assert_eq!(plan.pins.len(), 1, "the pin stays until it is taken off");
        assert!(!Design::of(&plan).ways.ways[0].moves.is_empty());
    }

    #[test]
    fn a_lane_over_the_studs_is_told() {
        let (plan, wall) = pinned();
        let lane = |height| Edit::AddPin(Pin::Lane { wall, height });
        let low = plan.apply(&lane(Mm(900))).unwrap();
        assert_eq!(found(&low, "lane:"), [] as [&str; 0]);
        let ceiling = low.levels[0].ceiling;
        let high = low.apply(&lane(ceiling)).unwrap();
        assert!(found(&high, "lane:")[0].contains("cannot lie at"));
    }
}

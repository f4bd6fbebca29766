//! Pinning a way: a cable or a drop is chosen, then a tap says where it must go by.
//!
//! A tap on a pin that is there takes it off. A drop stands for all of its cables.

use super::dropped;
use crate::desk::answer::Answer;
use crate::desk::choice::{under, wall_under};
use crate::desk::snap::Hold;
use crate::desk::{Choice, Gesture, Reach, Session, Snap};
use crate::plan::edit::Edit;
use crate::plan::{CableId, Pin, PinTo, Plan};
use crate::shape::Point;
use crate::units::Mm;

/// What is said before a cable is chosen.
const NOTHING_CHOSEN: &str = "Tap a cable or a drop first, then where it must go by.";

/// What is said where no cable could go.
const NOTHING_THERE: &str =
    "Nothing leads by there. Tap a wall, or a place overhead within the house.";

pub(super) fn answer(session: &Session, gesture: &Gesture<Point>, reach: Reach) -> Answer {
    match *gesture {
        Gesture::Hover(at) => pointed(session, at, reach),
        Gesture::Tap(at) => tapped(session, at, reach),
        _ => Answer::unmoved(session),
    }
}

/// Names what a pin would hold on to.
fn pointed(session: &Session, at: Point, reach: Reach) -> Answer {
    if session.chosen_cables().is_empty() {
        return Answer::default();
    }
    let snap = place(session, at, reach).and_then(|to| {
        let hold = match to {
            PinTo::Bay { wall, .. } => Hold::On(wall),
            PinTo::Overhead { .. } => Hold::Overhead,
        };
        Some(Snap {
            at: to.position(&session.plan)?.point(),
            holds: vec![hold],
        })
    });
    Answer::begun(None, snap)
}

fn tapped(session: &Session, at: Point, reach: Reach) -> Answer {
    let cables = session.chosen_cables();
    match under(session, at, reach) {
        Some(choice @ Choice::Drop(_)) => return Answer::default().choosing(choice),
        Some(choice @ Choice::Cable(_)) if cables.is_empty() => {
            return Answer::default().choosing(choice);
        }
        _ if cables.is_empty() => return dropped(session, NOTHING_CHOSEN, at),
        _ => {}
    }
    let there = pins_under(session, &cables, at, reach);
    if !there.is_empty() {
        return Answer::edit(together(there.into_iter().map(Edit::RemovePin)), at);
    }
    let Some(to) = place(session, at, reach) else {
        return dropped(session, NOTHING_THERE, at);
    };
    let pins = cables.into_iter().map(|cable| Pin::Cable { cable, to });
    Answer::edit(together(pins.map(Edit::AddPin)), at)
}

/// One edit of several; a single one stays itself.
fn together(edits: impl Iterator<Item = Edit>) -> Edit {
    let mut edits: Vec<Edit> = edits.collect();
    match edits.len() {
        1 => edits.remove(0),
        _ => Edit::Together(edits),
    }
}

/// Where a pin at this place would hold: in the wall there, else overhead.
fn place(session: &Session, at: Point, reach: Reach) -> Option<PinTo> {
    if let Some(id) = wall_under(session, at, reach) {
        let (_, wall) = session.plan.wall(id)?;
        let line = wall.line()?;
        let offset = line.offset_of(at.pos()).clamp(0.0, line.length);
        return Some(PinTo::Bay {
            wall: id,
            offset: Mm::rounded(offset),
        });
    }
    let within = session.shown_framing()?.outline.contains(at.pos());
    within.then_some(PinTo::Overhead { at })
}

/// Pins of these cables that lie under the pointer.
fn pins_under(session: &Session, cables: &[CableId], at: Point, reach: Reach) -> Vec<Pin> {
    let around = reach.around.f64();
    let is_here = |pin: &&Pin| match pin {
        Pin::Cable { cable, to } => {
            let near = |plan: &Plan| Some(to.position(plan)?.distance(at.pos()) <= around);
            cables.contains(cable) && near(&session.plan) == Some(true)
        }
        Pin::Lane { .. } => false,
    };
    session.plan.pins.iter().filter(is_here).copied().collect()
}

impl Session {
    /// The chosen cable, or those of the chosen drop.
    pub fn chosen_cables(&self) -> Vec<CableId> {
        match self.chosen {
            Some(Choice::Cable(cable)) => vec![cable],
            Some(Choice::Drop(drop)) => match Plan::drop(&self.plan, drop) {
                Some(drop) => drop.cables.iter().map(|cable| cable.id).collect(),
                None => Vec::new(),
            },
            _ => Vec::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::desk::{Intent, Tool};
    use crate::plan::{DropId, WallId};
    use crate::route::MoveKind;

    /// A house with a closet in its upper wall and a drop of two cables in the lower one.
    fn house() -> Trial {
        Trial::with_house()
            .take(Tool::Closet)
            .tap(4000, 0)
            .take(Tool::Drop)
            .tap(4000, 6000)
            .intent(&Intent::GoTo(crate::desk::Step::Ways))
            .intent(&Intent::Choose(None))
            .take(Tool::Pin)
    }

    fn walls_passed(trial: &Trial) -> Vec<WallId> {
        let way = &trial.session.design.ways.ways[0];
        let passed = way.moves.iter().filter_map(|step| match step.kind {
            MoveKind::AlongWall { wall } | MoveKind::ThroughTopPlates { wall, .. } => Some(wall),
            _ => None,
        });
        passed.collect()
    }

    #[test]
    fn a_chosen_drop_is_sent_by_a_wall_and_let_go_of_by_a_second_tap() {
        let chosen = house().tap(4000, 6000);
        assert_eq!(chosen.session.chosen, Some(Choice::Drop(DropId(1))));
        let before = walls_passed(&chosen);
        let (wall, x) = match before.contains(&WallId(2)) {
            false => (WallId(2), 8000),
            true => (WallId(4), 0),
        };
        assert!(!before.contains(&wall), "{before:?}");
        let pinned = chosen.hover(x, 3020);
        assert_eq!(
            pinned.session.snap.as_ref().unwrap().holds,
            [Hold::On(wall)]
        );
        let pinned = pinned.tap(x, 3020);
        assert_eq!(pinned.plan().pins.len(), 2, "both cables of the drop");
        assert!(walls_passed(&pinned).contains(&wall));
        assert_eq!(pinned.done(), "pinned a way");
        let off = pinned.tap(x, 3010);
        assert!(off.plan().pins.is_empty());
        assert_eq!(off.intent(&Intent::Undo).plan().pins.len(), 2);
    }

    #[test]
    fn a_place_overhead_holds_too_and_outside_nothing_does() {
        let trial = house().tap(4000, 6000).hover(2000, 4500);
        assert_eq!(trial.session.snap.as_ref().unwrap().words(), "overhead");
        let trial = trial.tap(2000, 4500);
        let at = Point::new(2000, 4500);
        let cable = trial.plan().drops[0].cables[0].id;
        let to = PinTo::Overhead { at };
        assert_eq!(trial.plan().pins[0], Pin::Cable { cable, to });
        assert!(
            trial
                .tap(-4000, -4000)
                .told()
                .contains("Nothing leads by there")
        );
    }

    #[test]
    fn without_a_cable_a_tap_says_what_to_do_first() {
        assert!(
            house()
                .tap(1500, 3000)
                .told()
                .contains("Tap a cable or a drop first")
        );
    }
}

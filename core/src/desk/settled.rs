//! The best designs known for plans of late, so that a plan that comes back shows at once what was
//! worked out for it.
//!
//! Each plan has one: that of the long search where it has come home, else that of the moment.

use std::rc::Rc;

use super::answer::as_numbered;
use crate::design::Design;
use crate::plan::Plan;

/// So many plans keep their designs.
const MOST: usize = 16;

/// Together they weigh so much at most, [`Design::weight`]: about 50 MB. The latest is kept whatever it
/// weighs.
const HEAVIEST: usize = 500_000;

/// Designs by their plans, the latest last.
#[derive(Clone, Debug, Default)]
pub(super) struct Settled(Vec<(Rc<Plan>, Rc<Design>)>);

impl Settled {
    /// The best design known for a plan, or for one that is built as it is; with the numbers of its own
    /// paper.
    pub fn of(&self, plan: &Rc<Plan>) -> Option<Rc<Design>> {
        let (known, design) = &self.0[self.place(plan)?];
        Some(as_numbered(design, known, plan))
    }

    /// Keeps a design for its plan, unless one is known that was sought harder. The plan that was
    /// kept longest ago is forgotten once there are more than 16, or once they weigh too much.
    pub fn keep(&mut self, plan: &Rc<Plan>, design: &Rc<Design>) {
        if let Some(place) = self.place(plan) {
            let known = self.0.remove(place);
            if known.1.effort > design.effort {
                return self.0.push(known);
            }
        }
        self.0.push((Rc::clone(plan), Rc::clone(design)));
        while self.0.len() > MOST || (self.0.len() > 1 && self.weight() > HEAVIEST) {
            self.0.remove(0);
        }
    }

    fn weight(&self) -> usize {
        self.0.iter().map(|(_, design)| design.weight()).sum()
    }

    /// Where a plan stands: mostly it is the very same.
    fn place(&self, plan: &Rc<Plan>) -> Option<usize> {
        let mut known = self.0.iter();
        let same = known.rposition(|(known, _)| Rc::ptr_eq(known, plan));
        same.or_else(|| {
            self.0
                .iter()
                .rposition(|(known, _)| known.is_built_as(plan))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Effort;
    use crate::plan::LevelId;
    use crate::plan::edit::Edit;
    use crate::shape::Point;

    fn with_room(name: &str) -> Rc<Plan> {
        let edit = Edit::AddRoom {
            level: LevelId(1),
            name: String::from(name),
            at: Point::new(0, 0),
        };
        Rc::new(Plan::new().apply(&edit).unwrap())
    }

    fn design(effort: Effort) -> Rc<Design> {
        Rc::new(Design {
            effort,
            ..Design::default()
        })
    }

    #[test]
    fn a_plan_that_is_built_alike_has_the_same_design() {
        let mut settled = Settled::default();
        let live = design(Effort::Live);
        settled.keep(&with_room("Lot 1"), &live);
        let known = settled.of(&with_room("Lot 1")).unwrap();
        assert!(Rc::ptr_eq(&known, &live));
        assert!(settled.of(&with_room("Lot 2")).is_none());
    }

    #[test]
    fn the_design_of_the_long_search_stays() {
        let mut settled = Settled::default();
        let (plan, long) = (with_room("Lot 1"), design(Effort::Long));
        settled.keep(&plan, &design(Effort::Live));
        settled.keep(&plan, &long);
        settled.keep(&plan, &design(Effort::Live));
        assert!(Rc::ptr_eq(&settled.of(&plan).unwrap(), &long));
    }

    #[test]
    fn the_plan_kept_longest_ago_is_forgotten() {
        let mut settled = Settled::default();
        let plans: Vec<_> = (0..=MOST).map(|n| with_room(&format!("Lot {n}"))).collect();
        plans
            .iter()
            .for_each(|plan| settled.keep(plan, &design(Effort::Live)));
        assert!(settled.of(&plans[0]).is_none());
        assert!(settled.of(&plans[1]).is_some());
        // Kept once more it is the latest.
        settled.keep(&plans[1], &design(Effort::Live));
        settled.keep(&plans[0], &design(Effort::Live));
        assert!(settled.of(&plans[1]).is_some());
        assert!(settled.of(&plans[2]).is_none());
    }

    #[test]
    fn what_weighs_too_much_is_forgotten_but_for_the_latest() {
        let way = |moves: usize| crate::route::Way {
            cable: crate::plan::CableId(1),
            drop: crate::plan::DropId(1),
            moves: vec![
                crate::route::Move {
                    kind: crate::route::MoveKind::AlongStrip { space: 0 },
                    from: Default::default(),
                    to: Default::default(),
                    length: 1.0,
                    crossing: None,
                };
                moves
            ],
            length: crate::units::Mm(1),
            trouble: None,
        };
        let heavy = |moves| {
            let mut design = Design::default();
            design.ways.ways.push(way(moves));
            Rc::new(design)
        };
        let mut settled = Settled::default();
        let plans = ["1", "2", "3"].map(with_room);
        plans
            .iter()
            .for_each(|plan| settled.keep(plan, &heavy(HEAVIEST / 2)));
        assert!(settled.of(&plans[0]).is_none() && settled.of(&plans[1]).is_some());
        settled.keep(&with_room("4"), &heavy(HEAVIEST + 1));
        assert!(settled.of(&plans[2]).is_none() && settled.of(&with_room("4")).is_some());
    }
}

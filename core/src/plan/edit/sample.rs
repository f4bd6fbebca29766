//! Plans made by random edits, for tests that must hold for every plan. The same seed gives the
//! same plan on every machine. Not part of the product: it is built for tests only.

mod dice;
mod house;
mod job;
mod notes;

use super::Edit;
use crate::plan::Plan;
use dice::Dice;

/// A plan after this many random edits, refused ones included.
pub fn plan(seed: u64, edits: usize) -> Plan {
    let mut dice = Dice(seed);
    let mut plan = Plan::new();
    for turn in 0..edits {
        // Walls first, so that there is something to hang things on.
        let edit = match turn < edits / 4 {
            true => dice.wall(&plan),
            false => dice.edit(&plan),
        };
        if let Ok(next) = plan.apply(&edit) {
            plan = next;
        }
    }
    plan
}

/// A random edit that has some chance of being allowed.
pub fn edit(seed: u64, plan: &Plan) -> Edit {
    Dice(seed).edit(plan)
}

impl Dice {
    fn edit(&mut self, plan: &Plan) -> Edit {
        match self.below(18) {
            0..=2 => self.wall(plan),
            3 | 4 => Edit::AddOpening(self.opening(plan)),
            5..=7 => self.drop(plan),
            8 => self.cable(plan),
            9 => self.room(plan),
            10 => self.site(plan),
            11 => self.settings(plan),
            12 => self.level(plan),
            13 => self.sheet(plan),
            14 => self.removal(plan),
            15 => Edit::TakeReply(self.reply()),
            16 => Edit::Note(self.note(plan)),
            _ => self.closet_or_pin(plan),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Level;

    #[test]
    fn plans_are_rich_and_repeat() {
        let plans: Vec<Plan> = (0..40).map(|seed| plan(seed, 200)).collect();
        let most = |count: fn(&Plan) -> usize| plans.iter().map(count).max().unwrap();
        let on = |count: fn(&Level) -> usize| {
            let of = |plan: &Plan| plan.levels.iter().map(count).sum::<usize>();
            plans.iter().map(of).max().unwrap()
        };
        assert!(most(|plan| plan.levels.len()) > 2);
        assert!(most(|plan| plan.drops.len()) > 8);
        assert!(most(|plan| plan.pins.len()) > 2);
        assert!(most(|plan| plan.replies.len()) > 2);
        assert!(most(|plan| plan.record.cables.len()) > 1);
        assert!(most(|plan| plan.record.punch.len()) > 1);
        assert!(plans.iter().any(|plan| !plan.record.left.is_empty()));
        assert!(most(|plan| plan.rules.changed.len()) > 2);
        assert!(most(|plan| plan.catalogue.cables.len()) > 4);
        assert!(on(|level| level.walls.len()) > 20);
        assert!(on(|level| level.openings.len()) > 3);
        assert!(on(|level| level.keep_outs.len()) > 1);
        assert!(on(|level| level.power_runs.len()) > 1);
        assert!(plans.iter().any(|plan| plan.closet.is_some()));
        assert_eq!(plans[7], plan(7, 200));
    }
}

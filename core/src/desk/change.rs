//! Intents that change the plan as a whole or step through its history.

use std::rc::Rc;

use super::{Draft, Notice, Session, Step, Tool};
use crate::file::job::Moment;
use crate::plan::edit::Edit;
use crate::plan::{Plan, Wall};
use crate::shape::Point;

/// What is said of a plan of the past that was kept and has come to harm since.
const UNREADABLE: &str = "That moment of the job cannot be read any more. The plan stays as it is.";

impl Session {
    /// A plan that is only looked at stays as it is.
    pub(super) fn declining(self) -> Session {
        let text = "This plan is here to look at. Take it over as your own copy to change it.";
        Session {
            notice: Some(Notice::refused(text, None)),
            ..self
        }
    }

    /// Whether something is chosen that is noted on site and no longer drawn.
    pub(super) fn is_on_site(&self) -> bool {
        self.step == Step::Site && self.chosen.is_some()
    }

    /// On site what is drawn stays where it is.
    pub(super) fn staying(self) -> Session {
        let text = "On site nothing is moved or removed by a key. Go to Drops for that.";
        Session {
            notice: Some(Notice::refused(text, None)),
            ..self
        }
    }

    /// After an edit from a field. What was begun on the sheet is let go of.
    /// A new level is gone to, to be drawn.
    pub(super) fn edited(mut self, edit: &Edit) -> Session {
        match self.commit(edit) {
            Ok(()) => {
                self.draft = None;
                self.snap = None;
                if let (Edit::AddLevel { .. }, Some(new)) = (edit, self.plan.levels.last()) {
                    self.level = new.id;
                    self.chosen = Some(super::Choice::Level(new.id));
                }
            }
            Err(refusal) => self.notice = Some(Notice::of(refusal, None)),
        }
        self
    }

    /// After sheets were printed, or a link was handed on.
    pub(super) fn printed(self) -> Session {
        let (rows, sum) = self.design.on_paper(&self.plan);
        self.edited(&Edit::KeepNumbers { rows, sum })
    }

    /// After an undo: what is only begun is let go of; else the last change is taken back, and a
    /// chain of walls goes back with it.
    pub(super) fn undone(self) -> Session {
        if let Some((draft, what)) = self.draft.as_ref().and_then(Draft::before_its_last) {
            let draft = Some(draft);
            let text = format!("Took the last {what} back.");
            return Session {
                draft,
                ..self.emptied().telling(text)
            };
        }
        match &self.draft {
            Some(Draft::Walls { points, .. }) if points.len() > 1 => {
                let points = points.clone();
                let mut next = self.stepped_back();
                next.draft = next.still_standing(points);
                next
            }
            Some(draft) if draft.is_begun() => {
                let text = String::from("Let go of what was begun.");
                self.emptied().telling(text)
            }
            _ => self.stepped_back(),
        }
    }

    /// What is on paper is not taken back: a step that only kept numbers of holes is passed over.
    fn stepped_back(self) -> Session {
        let mut next = self.emptied();
        let mut history = (*next.history).clone();
        loop {
            let undone = history.undo(Moment::Here(Rc::clone(&next.plan)));
            let Some((moment, words)) = undone else {
                return next.telling(String::from("There is nothing to undo."));
            };
            let Some(plan) = moment.plan() else {
                return next.telling(String::from(UNREADABLE));
            };
            next.history = Rc::new(history.clone());
            let plan = next.as_printed(plan);
            if *plan != *next.plan {
                next.show(plan);
                return next.telling(format!("Undid: {words}."));
            }
        }
    }

    /// A plan of another moment of this job with the paper of now.
    fn as_printed(&self, plan: Rc<Plan>) -> Rc<Plan> {
        match plan.printed == self.plan.printed {
            true => plan,
            false => Rc::new((*plan).clone().with_paper_of(&self.plan)),
        }
    }

    /// A chain of walls as far as its walls still stand.
    fn still_standing(&self, points: Vec<Point>) -> Option<Draft> {
        let level = self.shown_level()?;
        let stands = |from: Point, to: Point| {
            let ends = |wall: &Wall| (wall.from, wall.to);
            let walls = || level.walls.iter().map(ends);
            walls().any(|ends| ends == (from, to) || ends == (to, from))
        };
        let pairs = points.iter().zip(points.iter().skip(1));
        let kept = pairs.take_while(|(from, to)| stands(**from, **to)).count() + 1;
        let points = points.into_iter().take(kept).collect();
        Some(Draft::Walls { points, to: None })
    }

    /// After a redo. What is begun is let go of.
    pub(super) fn redone(mut self) -> Session {
        let mut history = (*self.history).clone();
        let redone = history.redo(Moment::Here(Rc::clone(&self.plan)));
        let Some((moment, words)) = redone else {
            return self.telling(String::from("There is nothing to redo."));
        };
        let Some(plan) = moment.plan() else {
            return self.telling(String::from(UNREADABLE));
        };
        self.history = Rc::new(history);
        let plan = self.as_printed(plan);
        self.show(plan);
        self.emptied().telling(format!("Did again: {words}."))
    }

    /// After a named moment of this job came back.
    pub(super) fn returned(self, plan: &Rc<Plan>, name: &str) -> Session {
        let mut next = self.emptied();
        let plan = next.as_printed(Rc::clone(plan));
        next.put(plan, format!("returned to “{name}”"));
        next.telling(format!("The job is as it was at “{name}”."))
    }

    /// After a plan that was looked at was made one's own: a job of its own, whose history begins here.
    pub(super) fn taken_over(mut self) -> Session {
        if self.read_only {
            self.read_only = false;
            self.history = Rc::default();
            let text = "This copy is yours now. What it was copied from stays as it is.";
            self.notice = Some(Notice::done(text));
        }
        self
    }

    /// Nothing is begun any more.
    pub(super) fn emptied(self) -> Session {
        Session {
            draft: None,
            before_drag: None,
            snap: None,
            typing: String::new(),
            ..self
        }
    }

    pub(super) fn telling(self, text: String) -> Session {
        Session {
            notice: Some(Notice::done(text)),
            ..self
        }
    }

    /// After a step was entered: its first tool is in the hand.
    pub(super) fn entering(self, step: Step) -> Session {
        let tool = match self.read_only {
            true => Tool::Select,
            false => step.first_tool(&self.plan),
        };
        Session {
            step,
            tool,
            ..self.emptied()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Design, Effort};
    use crate::desk::trial::Trial;
    use crate::desk::{Choice, Intent, NoticeKind};
    use crate::plan::edit::Note;

    #[test]
    fn a_shared_plan_stays_as_it_is_until_it_is_taken_over() {
        let plan = Rc::clone(&Trial::with_house().session.plan);
        let shared = Trial {
            session: Session::shared(Rc::clone(&plan)),
        };
        let rename = Intent::Edit(Edit::SetTitle("Mine".into()));
        let trial = shared.tap(4000, 0).intent(&rename);
        assert!(trial.told().contains("here to look at"));
        assert!(Rc::ptr_eq(&trial.session.plan, &plan));
        assert!(trial.session.chosen.is_some(), "looking is allowed");
        let trial = trial.take(Tool::Wall);
        assert_eq!(trial.session.tool, Tool::Select);
        let trial = trial.intent(&Intent::TakeOver).intent(&rename);
        assert_eq!(trial.plan().title, "Mine");
    }

    #[test]
    fn on_site_no_key_takes_anything_away_and_a_note_computes_nothing() {
        let trial = Trial::with_house().take(Tool::Drop).tap(3000, 100);
        let drop = Choice::Drop(trial.plan().drops[0].id);
        let trial = trial.intent(&Intent::GoTo(Step::Site));
        let trial = trial.intent(&Intent::Choose(Some(drop)));
        let trial = trial.intent(&Intent::Delete);
        assert!(trial.told().contains("On site"), "{}", trial.told());
        assert_eq!(trial.plan().drops.len(), 1);
        let design = Rc::clone(&trial.session.design);
        let note = Note::AddPunch(None, "sweep".into());
        let trial = trial.intent(&Intent::Edit(Edit::Note(note)));
        assert_eq!(trial.done(), "wrote down P1");
        assert!(Rc::ptr_eq(&trial.session.design, &design));
        let trial = trial.intent(&Intent::Undo);
        assert!(trial.plan().record.is_empty());
        assert!(Rc::ptr_eq(&trial.session.design, &design));
    }

    #[test]
    fn a_named_moment_comes_back_as_one_step() {
        let trial = Trial::with_house();
        let then = Rc::clone(&trial.session.plan);
        let trial = trial.intent(&Intent::Edit(Edit::SetTitle("Later".into())));
        let trial = trial.intent(&Intent::Return(then, "Printed".into()));
        assert_eq!(trial.done(), "returned to “Printed”");
        assert_eq!(trial.plan().title, "New job");
        let trial = trial.intent(&Intent::Undo);
        assert_eq!(trial.plan().title, "Later");
    }

    #[test]
    fn what_was_settled_comes_back_with_its_plan_and_is_gone_on_from() {
        let first = Session::of(crate::picture::sample::house());
        let plan = Rc::clone(&first.plan);
        let long = Rc::new(Design {
            effort: Effort::Long,
            ..(*first.design).clone()
        });
        let home = Intent::Improved(Rc::clone(&plan), Rc::clone(&long));
        let settled = first.after(&home);
        assert!(Rc::ptr_eq(&settled.design, &long));
        let edit = Edit::AddRoom {
            level: plan.levels[0].id,
            name: "Den".into(),
            at: Point::new(0, 0),
        };
        let revised = settled.after(&Intent::Edit(edit.clone()));
        assert_eq!(revised.design.effort, Effort::Live);
        // This stand-in was not sought for long, so that the moment after the edit may better it.
        assert!(revised.design.ways.cost <= long.ways.cost);
        let back = revised.after(&Intent::Undo);
        assert!(Rc::ptr_eq(&back.design, &long));
        let forth = back.after(&Intent::Redo);
        assert!(Rc::ptr_eq(&forth.design, &revised.design));
        // It came home when its plan was no longer on the table.
        let late = first.after(&Intent::Edit(edit)).after(&home);
        assert_eq!(late.design.effort, Effort::Live);
        assert!(Rc::ptr_eq(&late.after(&Intent::Undo).design, &long));
    }

    #[test]
    fn what_is_printed_stays_printed_through_undo_and_redo() {
        let first = Session::of(crate::picture::sample::house());
        let drop = first.plan.drops[0].id;
        let printed = first.after(&Intent::KeepNumbers);
        assert_eq!(printed.plan.printed.revision, 1);
        assert_eq!(printed.design.bores, first.design.bores);
        // Nothing was printed that paper does not say already.
        let again = printed.after(&Intent::KeepNumbers);
        assert_eq!(again.history.len(), printed.history.len());
        let less = again.after(&Intent::Edit(Edit::RemoveDrop(drop)));
        let later = less.after(&Intent::KeepNumbers);
        assert_eq!((later.plan.revision, later.plan.printed.revision), (2, 2));
        assert_eq!(later.design.effort, less.design.effort);
        // The step that only kept numbers is passed over.
        let back = later.after(&Intent::Undo);
        assert!(Plan::drop(&back.plan, drop).is_some());
        assert_eq!(back.plan.printed, later.plan.printed);
        assert_eq!(back.plan.revision, 2);
        assert_eq!(back.design.bores, printed.design.bores);
        let forth = back.after(&Intent::Redo);
        assert!(Plan::drop(&forth.plan, drop).is_none());
        assert_eq!(forth.plan.printed, later.plan.printed);
        let point = Intent::Return(Rc::clone(&first.plan), "Traced".into());
        let returned = later.after(&point);
        assert_eq!(returned.plan.printed, later.plan.printed);
    }

    #[test]
    fn with_nothing_to_undo_it_says_so() {
        let trial = Trial::new().intent(&Intent::Undo);
        assert_eq!(trial.told(), "There is nothing to undo.");
        let notice = trial.session.notice.clone().unwrap();
        assert_eq!(notice.kind, NoticeKind::Done);
        assert_eq!(
            trial.intent(&Intent::Redo).told(),
            "There is nothing to redo."
        );
    }

    #[test]
    fn an_undone_level_is_not_shown_any_more() {
        let add = Edit::AddLevel {
            name: "Upper".into(),
            floor: crate::plan::Floor::sawn(crate::shape::Direction::ALONG_X),
        };
        let trial = Trial::new().intent(&Intent::Edit(add));
        let upper = trial.plan().levels[1].id;
        assert_eq!(trial.session.level, upper, "a new level is gone to");
        assert_eq!(
            trial.session.chosen,
            Some(crate::desk::Choice::Level(upper))
        );
        let trial = trial.intent(&Intent::Undo);
        assert_eq!(trial.session.level, trial.plan().levels[0].id);
        let trial = trial.intent(&Intent::ShowLevel(upper));
        assert_eq!(trial.session.level, trial.plan().levels[0].id);
    }

    #[test]
    fn an_edit_from_a_field_is_refused_in_one_sentence() {
        let trial = Trial::new().intent(&Intent::Edit(Edit::SetTitle("  ".into())));
        assert!(trial.told().contains("needs a name"));
        assert!(trial.session.history.is_empty());
        let same = trial.intent(&Intent::Edit(Edit::SetTitle("New job".into())));
        assert!(same.session.history.is_empty(), "nothing changed");
    }

    #[test]
    fn a_reply_leaves_what_was_worked_out() {
        use crate::plan::{Answer, Digest, Item, Reply, Said};
        let before = Session::of(crate::picture::sample::house());
        let reply = Reply {
            name: String::from("Pat"),
            date: String::new(),
            revision: 1,
            job: String::new(),
            version: Digest::of(b"0"),
            answers: vec![Answer {
                item: Item::Closet,
                digest: Digest::of(b"0"),
                said: Said::Agreed,
            }],
        };
        let taken = before.after(&Intent::Edit(Edit::TakeReply(reply)));
        assert_eq!(taken.plan.replies.len(), 1);
        assert!(Rc::ptr_eq(&taken.design, &before.design));
        let back = taken.after(&Intent::Undo);
        assert!(Rc::ptr_eq(&back.design, &before.design));
        let renamed = taken.after(&Intent::Edit(Edit::NextRevision));
        assert!(Rc::ptr_eq(&renamed.design, &before.design));
    }
}

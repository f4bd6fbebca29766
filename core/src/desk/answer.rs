//! What a tool says to a gesture, and how a session takes it.

use std::rc::Rc;

use super::position::bore_position;
use super::words::words;
use super::{Choice, Draft, Hand, Notice, Session, Snap};
use crate::bore::Bore;
use crate::design::Design;
use crate::file::job::Moment;
use crate::plan::Plan;
use crate::plan::edit::Edit;
use crate::shape::Point;

/// A tool's answer: what is begun now, and what changes in the plan if anything does.
#[derive(Clone, Debug, Default)]
pub(super) struct Answer {
    /// What is begun once the edit, if any, is made; a refused edit leaves what was begun before.
    pub draft: Option<Draft>,
    /// What the pointer holds on to.
    pub snap: Option<Snap>,
    /// The change.
    pub edit: Option<Edit>,
    /// The place a refusal of the change is told at.
    pub at: Option<Point>,
    /// A new choice, once the change is made.
    pub choose: Option<Option<Choice>>,
    /// A new hand, once the change is made.
    pub hand: Option<Hand>,
    /// A sentence of the tool's own.
    pub notice: Option<Notice>,
}

impl Answer {
    /// Only something begun.
    pub fn begun(draft: impl Into<Option<Draft>>, snap: impl Into<Option<Snap>>) -> Self {
        Self {
            draft: draft.into(),
            snap: snap.into(),
            ..Self::default()
        }
    }

    /// A change; a refusal is told at `at`.
    pub fn edit(edit: Edit, at: Point) -> Self {
        Self {
            edit: Some(edit),
            at: Some(at),
            ..Self::default()
        }
    }

    /// The tool itself declines, in one sentence, and what was begun stays begun.
    pub fn declined(session: &Session, text: impl Into<String>, at: Point) -> Self {
        Self {
            draft: session.draft.clone(),
            notice: Some(Notice::refused(text, Some(at))),
            ..Self::default()
        }
    }

    /// Nothing changes: what was begun stays begun.
    pub fn unmoved(session: &Session) -> Self {
        Self {
            draft: session.draft.clone(),
            snap: session.snap.clone(),
            ..Self::default()
        }
    }

    /// The same answer that also chooses something.
    pub fn choosing(self, choice: impl Into<Option<Choice>>) -> Self {
        Self {
            choose: Some(choice.into()),
            ..self
        }
    }
}

impl Session {
    /// The session after a tool's answer. `before` is what is begun if the answer's edit is
    /// refused.
    pub(super) fn answered(&self, answer: Answer, before: Option<Draft>) -> Session {
        let mut next = self.clone();
        next.snap = answer.snap;
        if let Some(edit) = &answer.edit
            && let Err(refusal) = next.commit(edit)
        {
            next.draft = before;
            next.notice = Some(Notice::of(refusal, answer.at));
            return next;
        }
        next.draft = answer.draft;
        if let Some(choice) = answer.choose {
            next.chosen = choice;
        }
        if let Some(hand) = answer.hand {
            next.hand = hand;
        }
        if answer.notice.is_some() {
            next.notice = answer.notice;
        }
        next
    }

    /// Makes an edit one step of the history, or says why not. An edit that changes nothing is no
    /// step.
    pub(super) fn commit(&mut self, edit: &Edit) -> Result<(), crate::plan::edit::Refusal> {
        let plan = self.plan.apply(edit)?;
        let told = words(edit, &self.plan);
        self.put(plan, told);
        Ok(())
    }

    /// Puts another plan in place of this one as one step of the history.
    pub(super) fn put(&mut self, plan: impl Into<Rc<Plan>>, words: String) {
        let plan = plan.into();
        if *plan == *self.plan {
            return;
        }
        let mut history = (*self.history).clone();
        history.record(Moment::Here(Rc::clone(&self.plan)), words);
        self.history = Rc::new(history);
        self.show(plan);
    }

    /// Shows another plan, with everything that hangs on it kept true: what follows from it, the
    /// shown level, what is chosen.
    pub(super) fn show(&mut self, plan: Rc<Plan>) {
        // What was replied, noted on site or printed changes nothing that is built; what is worked out
        // already stays.
        let design = match plan.is_built_as(&self.plan) {
            true => as_numbered(&self.design, &self.plan, &plan),
            false => self.best_of(&plan),
        };
        self.show_with(plan, design);
        if self.plan.level(self.level).is_none() {
            self.level = super::session::first_level(&self.plan);
        }
        self.typing.clear();
    }

    /// The best that is known for a plan, or what follows from the ways on the table.
    fn best_of(&self, plan: &Rc<Plan>) -> Rc<Design> {
        let known = self.settled.of(plan);
        known.unwrap_or_else(|| {
            let design = Design::after_at_once(&self.design, &self.plan, plan);
            Rc::new(design)
        })
    }

    /// After a better design came home for a plan: it is kept, and shown if what is on the table is
    /// still built as that plan says.
    pub(super) fn improved(mut self, plan: &Rc<Plan>, design: &Rc<Design>) -> Session {
        self.keep(plan, design);
        if Rc::ptr_eq(plan, &self.plan) || plan.is_built_as(&self.plan) {
            let design = as_numbered(design, plan, &self.plan);
            self.show_with(Rc::clone(&self.plan), design);
        }
        self
    }

    /// Keeps a design in mind for when its plan comes back.
    pub(super) fn keep(&mut self, plan: &Rc<Plan>, design: &Rc<Design>) {
        let mut settled = (*self.settled).clone();
        settled.keep(plan, design);
        self.settled = Rc::new(settled);
    }

    fn show_with(&mut self, plan: Rc<Plan>, design: Rc<Design>) {
        self.chosen = self.chosen.and_then(|choice| match choice {
            Choice::Bore(number) => same_bore(&self.design, &design, number).map(Choice::Bore),
            _ => Some(choice),
        });
        self.keep(&plan, &design);
        (self.plan, self.design) = (plan, design);
        let (plan, design) = (&self.plan, &self.design);
        self.chosen = self.chosen.filter(|choice| choice.stands(plan, design));
    }
}

/// A design of one plan for another that is built alike: with the numbers of its paper.
pub(super) fn as_numbered(design: &Rc<Design>, of: &Plan, plan: &Plan) -> Rc<Design> {
    match of.printed == plan.printed || !design.is_sought() {
        true => Rc::clone(design),
        false => Rc::new(design.renumbered(plan)),
    }
}

/// The number a bore has after a change: that of the bore at its place, if there still is one.
fn same_bore(before: &Design, after: &Design, number: u32) -> Option<u32> {
    let (level, at) = bore_position(before, number)?;
    let there = |bore: &&Bore| {
        bore_position(after, bore.number)
            .is_some_and(|(on, to)| on == level && to.distance(at) < 1.0)
    };
    after.bores.iter().find(there).map(|bore| bore.number)
}

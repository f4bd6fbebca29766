//! A session: everything one person sees at one moment.

use std::rc::Rc;

use super::gestures::BeforeDrag;
use super::position::{bore_position, position};
use super::settled::Settled;
use super::{Choice, Draft, Hand, Intent, Notice, Snap, Step, Tool};
use crate::design::Design;
use crate::file::job::{History, Moment};
use crate::framing::LevelFraming;
use crate::plan::{Level, LevelId, Plan};
use crate::shape::Pos;

/// One person's desk at one moment. A value: [`Session::after`] gives the next one.
///
/// Two sessions are equal when they share the same plan, design and history, and the rest is equal:
/// comparing is cheap, and a plan that was computed twice counts as two.
#[derive(Clone, Debug)]
pub struct Session {
    /// The plan as it stands.
    pub plan: Rc<Plan>,
    /// What follows from the plan.
    pub design: Rc<Design>,
    /// What can be undone and redone in this job.
    pub history: Rc<History<Moment>>,
    /// The level shown; always one of the plan's.
    pub level: LevelId,
    /// The step of the job.
    pub step: Step,
    /// The tool in hand.
    pub tool: Tool,
    /// What is begun and not yet in the plan.
    pub draft: Option<Draft>,
    /// The text of a length being typed; empty when none is.
    pub typing: String,
    /// What the pointer holds on to.
    pub snap: Option<Snap>,
    /// What the slip is about.
    pub chosen: Option<Choice>,
    /// One sentence beside the place it happened.
    pub notice: Option<Notice>,
    /// A plan that came by link: nothing changes it until it is taken over.
    pub read_only: bool,
    /// What the hand keeps from one use to the next.
    pub hand: Hand,
    /// The best designs known for this plan and for those before it.
    pub(super) settled: Rc<Settled>,
    /// What was begun before the drag under way; it comes back if the drag comes to nothing.
    pub(super) before_drag: Option<BeforeDrag>,
}

impl PartialEq for Session {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.plan, &other.plan)
            && Rc::ptr_eq(&self.design, &other.design)
            && Rc::ptr_eq(&self.history, &other.history)
            && Rc::ptr_eq(&self.settled, &other.settled)
            && (self.level, self.step, self.tool, self.read_only)
                == (other.level, other.step, other.tool, other.read_only)
            && (&self.draft, &self.before_drag) == (&other.draft, &other.before_drag)
            && (&self.typing, &self.snap, &self.chosen)
                == (&other.typing, &other.snap, &other.chosen)
            && (&self.notice, &self.hand) == (&other.notice, &other.hand)
    }
}

impl Session {
    /// A desk with one's own plan on it, at the step where work on it goes on. What follows from a plan that
    /// is too much for the moment comes later, as [`Intent::Improved`].
    pub fn of(plan: impl Into<Rc<Plan>>) -> Self {
        let plan = plan.into();
        let design = Design::at_once(&plan);
        Self::settled(plan, design)
    }

    /// The same with a design of the plan that is known already.
    pub fn settled(plan: impl Into<Rc<Plan>>, design: Design) -> Self {
        let (plan, design) = (plan.into(), Rc::new(design));
        let step = Step::of(&plan);
        let mut settled = Settled::default();
        settled.keep(&plan, &design);
        Self {
            history: Rc::default(),
            level: first_level(&plan),
            step,
            tool: step.first_tool(&plan),
            draft: None,
            typing: String::new(),
            snap: None,
            chosen: None,
            notice: None,
            read_only: false,
            hand: Hand::suited(&design),
            settled: Rc::new(settled),
            before_drag: None,
            design,
            plan,
        }
    }

    /// A desk with a plan that came by link: to look at until it is taken over.
    pub fn shared(plan: impl Into<Rc<Plan>>) -> Self {
        Self::of(plan).to_look_at()
    }

    /// The same desk, to look at until its plan is taken over.
    pub fn to_look_at(self) -> Self {
        Self {
            read_only: true,
            step: Step::Ways,
            tool: Tool::Select,
            ..self
        }
    }

    /// The session after an intent. Total: a refused intent leaves the plan as it is and says why
    /// in [`Session::notice`].
    pub fn after(&self, intent: &Intent) -> Session {
        let mut next = self.clone();
        if !intent.is_fleeting() {
            next.notice = None;
        }
        if self.read_only && intent.changes_the_plan() {
            return next.declining();
        }
        match intent {
            Intent::Edit(edit) => next.edited(edit),
            Intent::Undo => next.undone(),
            Intent::Redo => next.redone(),
            Intent::Return(plan, name) => next.returned(plan, name),
            Intent::KeepNumbers => next.printed(),
            Intent::TakeOver => next.taken_over(),
            Intent::GoTo(step) => next.entering(*step),
            Intent::Take(tool) => next.taking(*tool),
            Intent::Gesture(gesture, reach) => next.gestured(gesture, *reach),
            Intent::Choose(choice) => next.choosing(*choice),
            Intent::ShowLevel(level) => next.showing(*level),
            Intent::Typing(text) => next.typing(text),
            Intent::Typed(text) => next.typed(text),
            Intent::LetGo => next.letting_go(),
            Intent::Delete | Intent::Nudge { .. } if next.is_on_site() => next.staying(),
            Intent::Delete => next.deleting(),
            Intent::Nudge { heading, large } => next.nudged(*heading, *large),
            Intent::SetHand(hand) => Session {
                hand: hand.clone(),
                ..next
            },
            Intent::QuarterTurn => next.quarter_turned(),
            Intent::DismissNotice => next,
            Intent::Improved(plan, design) => next.improved(plan, design),
        }
    }

    /// The plan to draw now: with what is being moved where it is being moved to.
    pub fn shown_plan(&self) -> &Rc<Plan> {
        match &self.draft {
            Some(Draft::Move { plan, .. }) => plan,
            _ => &self.plan,
        }
    }

    /// What follows from [`Session::shown_plan`].
    pub fn shown_design(&self) -> &Rc<Design> {
        match &self.draft {
            Some(Draft::Move { design, .. }) => design,
            _ => &self.design,
        }
    }

    /// The shown level of the plan as it stands; `None` never happens for a plan with a level.
    pub fn shown_level(&self) -> Option<&Level> {
        self.plan.level(self.level)
    }

    /// The level something is on and its position there, if it has one.
    pub fn position(&self, choice: Choice) -> Option<(LevelId, Pos)> {
        match choice {
            Choice::Bore(number) => bore_position(&self.design, number),
            _ => position(&self.plan, choice),
        }
    }

    /// The framing of the shown level.
    pub fn shown_framing(&self) -> Option<&LevelFraming> {
        self.design.framing.level(self.level)
    }
}

/// The lowest level of a plan.
pub(super) fn first_level(plan: &Plan) -> LevelId {
    plan.levels.first().map_or(LevelId(1), |level| level.id)
}

//! A session: everything one person sees at one moment.

use std::rc::Rc;

use super::{Choice, Draft, Hand, History, Intent, Lack, Notice, Snap, Step, Tool, lacks::lacks};
use crate::plan::{LevelId, Plan};

/// One person's desk at one moment. A value: [`Session::after`] gives the next one.
///
/// Equality is that of the shared parts' identity, not of their contents, so that comparing two
/// sessions is cheap.
#[derive(Clone, Debug)]
pub struct Session {
    /// The plan as it stands.
    pub plan: Rc<Plan>,
    /// What can be undone and redone.
    pub history: Rc<History<Rc<Plan>>>,
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
}

impl PartialEq for Session {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.plan, &other.plan)
            && Rc::ptr_eq(&self.history, &other.history)
            && (self.level, self.step, self.tool, self.read_only)
                == (other.level, other.step, other.tool, other.read_only)
            && (&self.draft, &self.typing, &self.snap, &self.chosen)
                == (&other.draft, &other.typing, &other.snap, &other.chosen)
            && (&self.notice, &self.hand) == (&other.notice, &other.hand)
    }
}

impl Session {
    /// A desk with one's own plan on it.
    pub fn of(plan: impl Into<Rc<Plan>>) -> Self {
        let plan = plan.into();
        Self {
            history: Rc::default(),
            level: plan.levels.first().map_or(LevelId(1), |level| level.id),
            step: Step::Drawing,
            tool: Step::Drawing.tools().first().copied().unwrap_or_default(),
            draft: None,
            typing: String::new(),
            snap: None,
            chosen: None,
            notice: None,
            read_only: false,
            hand: Hand::default(),
            plan,
        }
    }

    /// A desk with a plan that came by link: to look at until it is taken over.
    pub fn shared(plan: impl Into<Rc<Plan>>) -> Self {
        Self {
            read_only: true,
            step: Step::Ways,
            tool: Tool::Select,
            ..Self::of(plan)
        }
    }

    /// The session after an intent. Total: a refused intent leaves the plan and says why in
    /// [`Session::notice`].
    pub fn after(&self, intent: &Intent) -> Session {
        let mut next = self.clone();
        match intent {
            Intent::GoTo(step) => {
                next.step = *step;
                next.tool = step.tools().first().copied().unwrap_or_default();
            }
            Intent::Take(tool) => next.tool = *tool,
            Intent::Choose(choice) => next.chosen = *choice,
            Intent::ShowLevel(level) => next.level = *level,
            Intent::SetHand(hand) => next.hand = hand.clone(),
            Intent::DismissNotice => next.notice = None,
            _ => {}
        }
        next
    }

    /// The plan to draw now: with what is being moved where it is being moved to.
    pub fn shown_plan(&self) -> &Rc<Plan> {
        match &self.draft {
            Some(Draft::Move { plan, .. }) => plan,
            _ => &self.plan,
        }
    }

    /// What a step still lacks.
    pub fn lacks(&self, step: Step) -> Lack {
        lacks(self, step)
    }

    /// One sentence that says what the hand can do next.
    pub fn hint(&self) -> String {
        String::new()
    }
}

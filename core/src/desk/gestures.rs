//! Gestures on the sheet: to the tool in hand, or, on a plan that came by link, to choose only.

use super::choice::under;
use super::{Choice, Draft, Gesture, Reach, Session, Step, tools};
use crate::shape::Point;

/// What was begun when a drag began, to be put back if it comes to nothing.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct BeforeDrag(pub Option<Draft>);

impl Session {
    /// Whether a drag pressed here means something to the tool in hand. If not, it is the paper
    /// that a drag with one finger or the first button should move.
    pub fn takes_drag(&self, from: Point, reach: Reach) -> bool {
        !self.read_only && tools::takes_drag(self, from, reach)
    }

    /// What a tap here would choose, if nothing is begun and the tool in hand only chooses.
    pub fn under(&self, at: Point, reach: Reach) -> Option<Choice> {
        under(self, at, reach)
    }

    /// After a gesture.
    pub(super) fn gestured(mut self, gesture: &Gesture<Point>, reach: Reach) -> Session {
        match gesture {
            Gesture::LongPress(at) => return self.looked_at(*at, reach),
            Gesture::Tap(at) if self.read_only => {
                self.chosen = under(&self, *at, reach);
                return self;
            }
            _ if self.read_only => return self,
            Gesture::Left => return self.left(),
            Gesture::DragCancelled => return self.put_back(),
            Gesture::DragBegan { .. } => self.before_drag = Some(BeforeDrag(self.draft.clone())),
            Gesture::DragMoved { .. } | Gesture::DragEnded { .. } if self.before_drag.is_none() => {
                return self;
            }
            _ => {}
        }
        let before = match &self.before_drag {
            Some(BeforeDrag(draft)) => draft.clone(),
            None => self.draft.clone(),
        };
        let answer = tools::answer(&self, gesture, reach);
        let mut next = self.answered(answer, before);
        if matches!(gesture, Gesture::DragEnded { .. }) {
            next.before_drag = None;
        }
        next
    }

    /// A look at what is there: it is chosen, and the slip opens. Bare paper is the level itself.
    fn looked_at(mut self, at: Point, reach: Reach) -> Session {
        let level = Choice::Level(self.level);
        self.chosen = under(&self, at, reach).or(Some(level));
        self
    }

    /// The pointer is gone, and with it what was only under it.
    fn left(mut self) -> Session {
        self.draft = self.draft.and_then(Draft::resting);
        self.snap = None;
        self
    }

    fn put_back(mut self) -> Session {
        if let Some(BeforeDrag(draft)) = self.before_drag.take() {
            self.draft = draft.and_then(Draft::resting);
            self.snap = None;
        }
        self
    }

    /// The text typed so far, up to 64 letters of it; a length shows at once in a wall being drawn.
    pub(super) fn typing(mut self, text: &str) -> Session {
        self.typing = text.chars().take(64).collect();
        match tools::typing(&self) {
            Some(answer) => {
                let before = self.draft.clone();
                self.answered(answer, before)
            }
            None => self,
        }
    }

    /// A length or a name was confirmed. Nothing typed is the same as a second tap: it lets go.
    pub(super) fn typed(self, text: &str) -> Session {
        if text.trim().is_empty() {
            return self.letting_go();
        }
        let before = self.draft.clone();
        let answer = tools::typed(&self, text);
        self.answered(answer, before)
    }

    /// After a tool was taken. What was begun with another one is let go of.
    pub(super) fn taking(self, tool: super::Tool) -> Session {
        if self.read_only && tool != super::Tool::Select {
            return self.declining();
        }
        Session {
            tool,
            ..self.emptied()
        }
    }

    /// After something was chosen, or nothing. What the plan does not have cannot be chosen; what
    /// is on another level brings that level up.
    pub(super) fn choosing(mut self, choice: Option<Choice>) -> Session {
        let stands = |choice: &Choice| choice.stands(&self.plan, &self.design);
        self.chosen = choice.filter(stands);
        if let Some(level) = self.chosen.and_then(|choice| self.level_of(choice))
            && level != self.level
        {
            return self.showing(level);
        }
        self
    }

    fn level_of(&self, choice: Choice) -> Option<crate::plan::LevelId> {
        match choice {
            Choice::Level(level) | Choice::Drawing(level) => Some(level),
            _ => self.position(choice).map(|(level, _)| level),
        }
    }

    /// After another level was brought up. What is begun stays on its own level and is let go of.
    pub(super) fn showing(self, level: crate::plan::LevelId) -> Session {
        if self.plan.level(level).is_none() || level == self.level {
            return self;
        }
        Session {
            level,
            ..self.emptied()
        }
    }

    /// Whether the ways are what the ink stresses.
    pub(super) fn shows_ways(&self) -> bool {
        matches!(self.step, Step::Ways | Step::Sheets)
    }
}

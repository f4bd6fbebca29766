//! A pair of hands for the tests of this room: what a person does, in one line each.

use super::{Gesture, Intent, Reach, Session, Tool};
use crate::plan::edit::Edit;
use crate::plan::{Plan, Scan};
use crate::shape::Point;
use crate::units::Mm;
use std::sync::Arc;

/// The reach of a mouse at the usual scale.
pub(super) const REACH: Reach = Reach {
    around: Mm(150),
    free: false,
};

/// Hands at a desk.
pub(super) struct Trial {
    pub session: Session,
}

impl Trial {
    /// An empty plan in metric units, so that steps are 25 mm.
    pub fn new() -> Self {
        let metric = Edit::SetUnits(crate::units::Units::Metric);
        Self {
            session: Session::of(Plan::new().apply(&metric).unwrap()),
        }
    }

    /// A house of 8 by 6 m, drawn clockwise with its inside on the right of every wall.
    pub fn with_house() -> Self {
        Self::new()
            .take(Tool::Wall)
            .tap(0, 0)
            .tap(8000, 0)
            .tap(8000, 6000)
            .tap(0, 6000)
            .tap(0, 0)
    }

    /// An unscaled drawing of 1,000 by 800 pixels under the plan, 10 mm to a pixel.
    pub fn with_drawing() -> Self {
        let scan = Scan {
            media_type: String::from("image/png"),
            width: 1000,
            height: 800,
            bytes: vec![1, 2, 3],
        };
        let trial = Self::new();
        let level = trial.session.level;
        trial.intent(&Intent::Edit(Edit::PutScan(
            level,
            Arc::new(scan),
            crate::plan::Placing::default(),
            Vec::new(),
        )))
    }

    pub fn intent(self, intent: &Intent) -> Self {
        Self {
            session: self.session.after(intent),
        }
    }

    pub fn take(self, tool: Tool) -> Self {
        self.intent(&Intent::Take(tool))
    }

    pub fn gesture(self, gesture: Gesture<Point>) -> Self {
        self.intent(&Intent::Gesture(gesture, REACH))
    }

    pub fn hover(self, x: i32, y: i32) -> Self {
        self.gesture(Gesture::Hover(Point::new(x, y)))
    }

    pub fn tap(self, x: i32, y: i32) -> Self {
        self.gesture(Gesture::Tap(Point::new(x, y)))
    }

    /// Presses and pulls, without lifting.
    pub fn pull(self, from: (i32, i32), to: (i32, i32)) -> Self {
        let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
        self.gesture(Gesture::DragBegan { from, to: from })
            .gesture(Gesture::DragMoved { from, to })
    }

    pub fn drag(self, from: (i32, i32), to: (i32, i32)) -> Self {
        let (start, end) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
        self.pull(from, to).gesture(Gesture::DragEnded {
            from: start,
            to: end,
        })
    }

    pub fn types(self, text: &str) -> Self {
        self.intent(&Intent::Typed(text.to_string()))
    }

    pub fn hand(self, change: impl Fn(super::Hand) -> super::Hand) -> Self {
        let hand = change(self.session.hand.clone());
        self.intent(&Intent::SetHand(hand))
    }

    /// What an undo would take back.
    pub fn done(&self) -> &str {
        self.session.history.undo_words().unwrap_or("nothing")
    }

    /// The notice, or nothing.
    pub fn told(&self) -> &str {
        self.session
            .notice
            .as_ref()
            .map_or("", |notice| notice.text.as_str())
    }

    pub fn plan(&self) -> &Plan {
        &self.session.plan
    }

    /// The ends of every wall of the first level.
    pub fn walls(&self) -> Vec<[i32; 4]> {
        let walls = self.plan().levels[0].walls.iter();
        walls
            .map(|wall| [wall.from.x, wall.from.y, wall.to.x, wall.to.y])
            .collect()
    }
}

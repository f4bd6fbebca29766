//! What of the house is in sight: beside a slip, and when all of it is shown.

use borewright_core::desk::{self, ScreenPoint, Step, View};
use borewright_core::shape::Pos;

use super::Desk;

/// A slip with its margins, pixels; see `--slip` of the style sheet.
const SLIP: f64 = 345.0;

/// A narrower sheet has its slip at the bottom, over half its height.
const NARROW: f64 = 690.0;

/// The same where a list stands beside the sheet, unless the window itself is as narrow.
const NARROW_BESIDE_A_LIST: f64 = 440.0;

/// What the sheet keeps free of names along its edge, pixels.
const EDGE: f64 = 4.0;

impl Desk {
    /// The part of the sheet that a slip leaves in sight, from the upper left corner.
    pub(super) fn clear_area(&self) -> (f64, f64) {
        let (width, height) = self.area;
        let narrow = match self.session.step {
            Step::Site => NARROW_BESIDE_A_LIST,
            _ => NARROW,
        };
        match width < narrow {
            true => (width, height * 0.45),
            false => (width - SLIP, height),
        }
    }

    /// Corners of the house alone, once its drawing no longer matters.
    fn house(&self) -> Option<(Pos, Pos)> {
        let level = self
            .session
            .shown_framing()
            .filter(|_| !self.is_tracing())?;
        level.outline.bounds()
    }

    pub(super) fn show_all(&mut self) {
        self.view = self.whole().unwrap_or_default();
    }

    /// The view that shows all of the level; `None` for a level with nothing on it.
    fn whole(&self) -> Option<View> {
        let all = || desk::bounds(self.session.shown_plan(), self.session.level);
        let corners = self.house().or_else(all)?;
        let (width, height) = self.area;
        let middle = ScreenPoint::new(width / 2.0, height / 2.0);
        // Names beside what lies at the edge want room too.
        let room = if width < NARROW { 0.8 } else { 0.92 };
        Some(View::showing(corners, width, height).zoomed(middle, room))
    }

    /// The corners of what is in sight when all of the level is shown: names are best kept within.
    pub fn in_sight(&self) -> Option<(Pos, Pos)> {
        let View { corner, scale } = self.whole()?;
        let (width, height) = self.area;
        let edge = Pos::new(EDGE, EDGE) * scale;
        Some((
            corner + edge,
            corner + Pos::new(width, height) * scale - edge,
        ))
    }
}

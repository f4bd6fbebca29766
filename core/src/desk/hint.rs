//! One sentence that says what the hand can do next.

use super::{Draft, Session, Step, Tool};

impl Session {
    /// One sentence that says what the hand can do next, for the shelf.
    pub fn hint(&self) -> String {
        if self.read_only {
            return String::from(
                "Tap anything to see what it is. Take the plan over to change it.",
            );
        }
        let hint = match &self.draft {
            Some(draft) if draft.is_begun() => self.while_begun(draft),
            _ => None,
        };
        hint.unwrap_or_else(|| self.with_tool()).to_string()
    }

    fn while_begun(&self, draft: &Draft) -> Option<&'static str> {
        Some(match draft {
            Draft::Walls { points, .. } if points.len() > 2 => {
                "Tap the next corner or type a length. The first point closes the outline, the \
                 last one lets go."
            }
            Draft::Walls { .. } => {
                "Tap the next corner or type a length. A tap on the last point lets go."
            }
            Draft::Stretch { done: true, .. } => "Type its true length and press Enter.",
            Draft::Corners { asked: Some(_), .. } => {
                "Squaring up. Escape leaves the drawing as it is."
            }
            Draft::Corners { points, .. } if points.len() == 4 => {
                "Type its true width and height, such as 54' x 34', and press Enter."
            }
            Draft::Corners { .. } => "Tap the next corner, going round.",
            Draft::Stretch { .. } => "Tap the other end.",
            Draft::Chain { .. } => "Tap where it goes. A tap on the last point ends it.",
            Draft::AlongWall { .. } => "Tap where it ends along the wall.",
            Draft::Room { .. } => "Type what the owner calls this room and press Enter.",
            Draft::Move { .. } => "Let go where it belongs. Escape puts it back.",
            Draft::Region { .. } => "Let go at the far corner.",
            Draft::Drop { .. } | Draft::Closet(_) | Draft::Opening(_) => return None,
        })
    }

    fn with_tool(&self) -> &'static str {
        let level = self.shown_level();
        let has_drawing = level.is_some_and(|level| level.sheet.scan.is_some());
        let has_walls = level.is_some_and(|level| !level.walls.is_empty());
        match self.tool {
            Tool::KnownDimension | Tool::SquareUp | Tool::LevelUp | Tool::MoveDrawing
                if !has_drawing =>
            {
                "Open a drawing: choose a file, drop it here, or paste it."
            }
            Tool::KnownDimension => self.known_hint(),
            Tool::SquareUp => {
                "For a photo taken at an angle: tap the four corners of something rectangular whose \
                 size you know."
            }
            Tool::LevelUp => "Draw along a line that should lie level or plumb.",
            Tool::MoveDrawing => "Drag the drawing to where it belongs under the walls.",
            Tool::Wall if !has_walls => {
                "Tap the first corner of the outside walls, then each corner in turn."
            }
            Tool::Wall => "Tap where a wall begins. Lumber and role stay as you set them.",
            Tool::Opening | Tool::NeverDrill if !has_walls => "Trace walls first.",
            Tool::Opening => "Tap a wall where the middle of the opening goes.",
            Tool::Room => "Tap in a room, then type its name.",
            Tool::Joists => "Draw a line along a joist or a truss.",
            Tool::Closet if !has_walls => "Trace walls first, then place the closet.",
            Tool::Closet => "Tap the wall the panel hangs on. Every cable comes home to it.",
            Tool::Drop if !has_walls => "Trace walls first, then tap drops onto them.",
            Tool::Drop => "Tap a wall to place a drop. Drag one to move it.",
            Tool::KeepOut => "Drag across what stays clear, or along a wall.",
            Tool::NeverDrill => "Tap a wall nobody may drill. Tap it again to allow it.",
            Tool::PowerRun => "Tap along a wall, or overhead from point to point.",
            Tool::Pin if self.chosen_cables().is_empty() => {
                "Tap a cable or a drop, then where it must go by."
            }
            Tool::Pin => {
                "Tap a wall or a place overhead: the cable goes by there. Tap its pin to take it off."
            }
            Tool::Select => self.select_hint(),
        }
    }

    fn known_hint(&self) -> &'static str {
        let known = self
            .shown_level()
            .map_or(0, |level| level.sheet.known.len());
        match known {
            0 => "Draw a line along something whose length you know.",
            1 => "Draw along a second known length to check the scale, or go on to Framing.",
            _ => "The drawing is to scale. Go on to Framing.",
        }
    }

    fn select_hint(&self) -> &'static str {
        match self.step {
            Step::Drawing => "Tap the drawing to see its known lengths.",
            Step::Framing => "Tap a wall or an opening to change it; drag to move.",
            Step::Drops => "Tap a drop to see it; drag to move it.",
            Step::Ways if self.plan.closet.is_none() => {
                "Place the closet first: ways lead from every drop to it."
            }
            Step::Ways => "Tap a cable, a bore or a wall to see it.",
            Step::Sheets => "Choose a sheet to print, or copy the link.",
            Step::Site => "Tick off what is done, room by room.",
        }
    }
}

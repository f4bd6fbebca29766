//! The steps of the job, in the order of the work.

use strum::VariantArray;

use super::Tool;
use crate::plan::{Level, Plan};

/// One step of the job. Any can be entered at any time; it changes only what the hand does and
/// what the ink stresses.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum Step {
    /// Open a drawing and bring it to scale.
    #[default]
    Drawing,
    /// Trace walls, openings and rooms; state joists.
    Framing,
    /// Place the closet and the drops.
    Drops,
    /// Look at the ways and steer them.
    Ways,
    /// Print and share.
    Sheets,
    /// What happens on site after printing.
    Site,
}

impl Step {
    /// Every step, in the order of the work.
    pub const ALL: [Self; Self::VARIANTS.len()] = every!(Step);

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Drawing => "Drawing",
            Self::Framing => "Framing",
            Self::Drops => "Drops",
            Self::Ways => "Ways",
            Self::Sheets => "Sheets",
            Self::Site => "Site",
        }
    }

    /// The tools on its shelf, left to right.
    pub fn tools(self) -> &'static [Tool] {
        match self {
            Self::Drawing => &[
                Tool::KnownDimension,
                Tool::SquareUp,
                Tool::LevelUp,
                Tool::MoveDrawing,
                Tool::Select,
            ],
            Self::Framing => &[
                Tool::Wall,
                Tool::Opening,
                Tool::Room,
                Tool::Joists,
                Tool::Select,
            ],
            Self::Drops => &[Tool::Closet, Tool::Drop, Tool::Select],
            Self::Ways => &[
                Tool::Select,
                Tool::Pin,
                Tool::NeverDrill,
                Tool::KeepOut,
                Tool::PowerRun,
            ],
            Self::Sheets | Self::Site => &[Tool::Select],
        }
    }

    /// The step at which work on a plan goes on: the first that is not done.
    pub fn of(plan: &Plan) -> Step {
        let levels = || plan.levels.iter();
        let unscaled = |level: &Level| level.sheet.scan.is_some() && !level.sheet.placing.scaled;
        let drawn = levels().any(|level| !level.walls.is_empty());
        let scanned = levels().any(|level| level.sheet.scan.is_some());
        match (drawn, plan.closet.is_some() && !plan.drops.is_empty()) {
            (true, true) if !plan.record.is_empty() => Self::Site,
            (false, _) if !scanned || levels().any(unscaled) => Self::Drawing,
            (false, _) => Self::Framing,
            (true, false) => Self::Drops,
            (true, true) => Self::Ways,
        }
    }

    /// The tool in hand on entering it: the first on the shelf, but drops once there is a closet.
    pub fn first_tool(self, plan: &Plan) -> Tool {
        match self {
            Self::Drops if plan.closet.is_some() => Tool::Drop,
            _ => self.tools().first().copied().unwrap_or_default(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::trial::Trial;
    use crate::plan::edit::{Edit, Note};

    #[test]
    fn a_plan_with_notes_from_the_site_opens_there() {
        let trial = Trial::with_house().take(Tool::Drop).tap(3000, 100);
        let trial = trial.take(Tool::Closet).tap(100, 3000);
        let plan = &trial.session.plan;
        assert_eq!(Step::of(plan), Step::Ways);
        let note = Note::AddPunch(None, "sweep".into());
        let noted = plan.apply(&Edit::Note(note)).unwrap();
        assert_eq!(Step::of(&noted), Step::Site);
    }

    #[test]
    fn every_step_has_a_tool_and_every_tool_a_step() {
        for tool in Tool::ALL {
            assert!(
                Step::ALL.iter().any(|step| step.tools().contains(&tool)),
                "{tool:?}"
            );
        }
        assert!(Step::ALL.iter().all(|step| !step.tools().is_empty()));
    }
}

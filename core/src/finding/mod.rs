//! Findings: where, what, what to do, and by which rule and source. All of them, not the first.

mod blocking;
mod bores;
mod boxes;
mod closet;
mod coverage;
mod doubled;
mod drawing;
mod fireblock;
mod joists;
mod neighbours;
mod outside;
mod pins;
mod power;
mod reels;
mod rule_set;
mod storeys;
mod ways;

use serde::{Deserialize, Serialize};

use crate::bore::Bore;
use crate::framing::Framing;
use crate::plan::{CableId, Drop, DropId, LevelId, OpeningId, Plan, WallId};
use crate::route::Ways;
use crate::schedule::CutList;
use crate::shape::Pos;

/// How much a finding weighs. Shown by shape and word as well as by tone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Severity {
    /// The plan cannot be built like this.
    Stop,
    /// Somebody has to look at it.
    Warn,
    /// Good to know.
    Note,
}

impl Severity {
    /// The word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Warn => "warn",
            Self::Note => "note",
        }
    }
}

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Subject {
    /// The job as a whole.
    Job,
    /// A level.
    Level(LevelId),
    /// A wall.
    Wall(WallId),
    /// An opening.
    Opening(OpeningId),
    /// A drop.
    Drop(DropId),
    /// A cable.
    Cable(CableId),
    /// A bore, by its number.
    Bore(u32),
    /// The closet.
    Closet,
}

/// One thing a person should know.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Finding {
    /// Stable name: the check and the things it names. A reason to set it aside is kept by it.
    pub key: String,
    /// How much it weighs.
    pub severity: Severity,
    /// What it is about.
    pub subject: Subject,
    /// Where on the plan, and on which level, if anywhere.
    pub at: Option<(LevelId, Pos)>,
    /// What is the matter: one sentence.
    pub what: String,
    /// What to do about it: one sentence.
    pub todo: String,
    /// Which rule and source.
    pub source: String,
    /// Why it was set aside, if it was.
    pub dismissed: Option<String>,
}

/// Runs every check over a design, gravest first.
pub fn find(
    plan: &Plan,
    framing: &Framing,
    ways: &Ways,
    bores: &[Bore],
    cuts: &CutList,
) -> Vec<Finding> {
    let mut found = drawing::check(plan, framing);
    found.extend(storeys::check(plan, framing));
    found.extend(ways::check(plan, framing, ways));
    found.extend(outside::check(plan, framing));
    found.extend(bores::check(plan, framing, ways, bores));
    found.extend(neighbours::check(plan, framing, ways, bores));
    found.extend(closet::check(plan, framing, ways, bores));
    found.extend(joists::check(plan, framing, ways, bores));
    found.extend(blocking::check(plan, framing, ways));
    found.extend(doubled::check(plan, framing, ways, bores));
    found.extend(pins::check(plan, framing, ways));
    found.extend(boxes::check(plan, framing));
    found.extend(power::check(plan));
    found.extend(reels::check(plan, cuts));
    found.extend(coverage::check(plan));
    found.extend(fireblock::check(plan, framing, ways));
    found.extend(rule_set::check(plan));
    for finding in &mut found {
        let set_aside = plan
            .dismissed
            .iter()
            .find(|dismissal| dismissal.key == finding.key);
        finding.dismissed = set_aside.map(|dismissal| dismissal.reason.clone());
    }
    found.sort_by(|a, b| {
        let rank = |f: &Finding| (f.dismissed.is_some(), f.severity, f.subject);
        rank(a).cmp(&rank(b)).then_with(|| a.key.cmp(&b.key))
    });
    found
}

impl Finding {
    /// A finding with nothing set aside.
    fn new(key: String, severity: Severity, subject: Subject) -> Self {
        Self {
            key,
            severity,
            subject,
            at: None,
            what: String::new(),
            todo: String::new(),
            source: String::new(),
            dismissed: None,
        }
    }

    fn at(self, level: LevelId, place: Pos) -> Self {
        Self {
            at: Some((level, place)),
            ..self
        }
    }

    /// At a drop; nowhere, where that hangs on nothing that is drawn.
    fn at_drop(self, plan: &Plan, drop: &Drop) -> Self {
        match drop.place.position(plan) {
            Some(place) => self.at(drop.level, place),
            None => self,
        }
    }

    fn says(self, what: impl Into<String>, todo: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            todo: todo.into(),
            ..self
        }
    }

    fn by(self, source: impl Into<String>) -> Self {
        Self {
            source: source.into(),
            ..self
        }
    }
}

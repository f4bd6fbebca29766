//! What each step still lacks, in about three words.

use super::{Session, Step};
use crate::bore;
use crate::finding::Severity;
use crate::framing::JointKind;
use crate::plan::{Level, Place, Plan, Sheet};
use crate::scan::residuals;
use crate::schedule::Phase;

/// The state of one step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lack {
    /// About three words: "no scale yet", "2 drops adrift", "all clear".
    pub words: String,
    /// Nothing is lacking.
    pub clear: bool,
}

impl Lack {
    fn lacking(words: impl Into<String>) -> Self {
        Self {
            words: words.into(),
            clear: false,
        }
    }

    fn clear(words: impl Into<String>) -> Self {
        Self {
            words: words.into(),
            clear: true,
        }
    }
}

impl Session {
    /// What a step still lacks.
    pub fn lacks(&self, step: Step) -> Lack {
        match step {
            Step::Drawing => self
                .shown_level()
                .map_or(Lack::lacking("no level"), drawing),
            Step::Framing => self.framing_lacks(),
            Step::Drops => self.drops_lack(),
            Step::Ways => self.ways_lack(),
            Step::Sheets => self.sheets_lack(),
            Step::Site => site(&self.plan),
        }
    }

    /// Walls over all levels, and their ends that meet no other wall.
    fn framing_lacks(&self) -> Lack {
        let walls: usize = self.plan.levels.iter().map(|level| level.walls.len()).sum();
        let open = self
            .design
            .framing
            .levels
            .iter()
            .any(|level| !level.walls.is_empty() && !level.outline.closed);
        match (walls, self.loose_ends(), open) {
            (0, ..) => Lack::lacking("no walls yet"),
            _ if !self.design.is_sought() => {
                Lack::lacking(format!("{}, not framed yet", count(walls, "wall")))
            }
            (_, 0, false) => Lack::clear(format!("{}, all joined", count(walls, "wall"))),
            (_, 0, true) => Lack::lacking("outline not closed"),
            (_, loose, _) => Lack::lacking(count(loose, "loose end")),
        }
    }

    fn loose_ends(&self) -> usize {
        let walls = self.design.framing.levels.iter().flat_map(|l| &l.walls);
        let loose = walls.map(|wall| {
            let joined = |at: f64| {
                wall.joints.iter().any(|joint| {
                    joint.kind != JointKind::TeeThrough
                        && (joint.at - at).abs() <= joint.half + ROOM
                })
            };
            usize::from(!joined(0.0)) + usize::from(!joined(wall.line.length))
        });
        loose.sum()
    }

    fn drops_lack(&self) -> Lack {
        let drops = self.plan.drops.len();
        let adrift = |drop: &&crate::plan::Drop| matches!(drop.place, Place::Adrift { .. });
        match (self.plan.drops.iter().filter(adrift).count(), drops) {
            (_, 0) if self.plan.closet.is_none() => Lack::lacking("no closet yet"),
            (_, 0) => Lack::lacking("no drops yet"),
            (0, _) if self.plan.closet.is_none() => Lack::lacking("no closet yet"),
            (0, _) => Lack::clear(format!("{drops}, none adrift")),
            (adrift, _) => Lack::lacking(format!("{} adrift", count(adrift, "drop"))),
        }
    }

    /// Cables without a way weigh most, then findings that stop or warn.
    fn ways_lack(&self) -> Lack {
        let ways = &self.design.ways.ways;
        let lost = ways.iter().filter(|way| way.trouble.is_some()).count();
        if self.plan.closet.is_none() || self.plan.drops.is_empty() {
            return Lack::lacking("nothing to run");
        }
        if !self.design.is_sought() {
            return Lack::lacking("not worked out yet");
        }
        match (lost, self.grave_findings()) {
            (0, 0) => match bore::bearing_words(&self.plan, &self.design.drill_list) {
                Some(_) => Lack::clear("ask the builder"),
                None => Lack::clear("all clear"),
            },
            (0, grave) => Lack::lacking(format!("{grave} to look at")),
            (lost, _) => Lack::lacking(format!("{} cut off", count(lost, "cable"))),
        }
    }

    fn grave_findings(&self) -> usize {
        let findings = self.design.findings.iter();
        let open = findings.filter(|f| f.dismissed.is_none() && f.severity != Severity::Note);
        open.count()
    }

    fn sheets_lack(&self) -> Lack {
        let done = |step| self.lacks(step).clear;
        match (
            self.plan.drops.is_empty(),
            done(Step::Drops),
            done(Step::Ways),
        ) {
            (true, ..) => Lack::lacking("nothing to print"),
            (_, true, true) => Lack::clear("ready to print"),
            (_, false, _) => Lack::lacking("drops not ready"),
            _ => Lack::lacking("ways not clear"),
        }
    }
}

/// The part of the work on site that goes on, and how much of it is left.
fn site(plan: &Plan) -> Lack {
    let phase = Phase::next(plan);
    let left = phase.progress(plan).left();
    match phase {
        _ if plan.drops.is_empty() => Lack::lacking("nothing to note"),
        _ if plan.record.is_empty() => Lack::lacking("nothing noted"),
        Phase::Handover if left == 0 => Lack::clear("handed over"),
        Phase::Handover => Lack::lacking("to hand over"),
        _ => Lack::lacking(format!("{}, {left} left", phase.name())),
    }
}

/// Ends this near to a joint belong to it, millimetres.
const ROOM: f64 = 80.0;

/// A drawing needs a scale; a level without one may be drawn by hand.
fn drawing(level: &Level) -> Lack {
    match &level.sheet {
        Sheet { scan: None, .. } if level.walls.is_empty() => Lack::lacking("no drawing yet"),
        Sheet { scan: None, .. } => Lack::clear("no drawing"),
        Sheet { placing, .. } if !placing.scaled => Lack::lacking("no scale yet"),
        sheet => scaled(sheet),
    }
}

fn scaled(sheet: &Sheet) -> Lack {
    let off = residuals(&sheet.placing, &sheet.known);
    if sheet.known.len() < 2 {
        return Lack::clear("scaled");
    }
    let shares = off.iter().zip(&sheet.known);
    let worst = shares
        .map(|(off, known)| off.off.abs() / known.length.f64() * 100.0)
        .fold(0.0, f64::max);
    match off.iter().any(|off| off.suspicious) {
        true => Lack::lacking(format!("lengths disagree, {worst:.1} %")),
        false => Lack::clear(format!("scaled, {worst:.1} % off")),
    }
}

fn count(number: usize, what: &str) -> String {
    match number {
        1 => format!("1 {what}"),
        _ => format!("{number} {what}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::Tool;
    use crate::desk::trial::Trial;

    fn words(trial: &Trial, step: Step) -> String {
        trial.session.lacks(step).words
    }

    #[test]
    fn an_empty_plan_lacks_everything() {
        let trial = Trial::new();
        let all: Vec<String> = Step::ALL.iter().map(|s| words(&trial, *s)).collect();
        assert_eq!(
            all,
            [
                "no drawing yet",
                "no walls yet",
                "no closet yet",
                "nothing to run",
                "nothing to print",
                "nothing to note"
            ]
        );
        assert!(
            Step::ALL
                .iter()
                .all(|step| !trial.session.lacks(*step).clear)
        );
        assert_eq!(words(&Trial::with_drawing(), Step::Drawing), "no scale yet");
    }

    #[test]
    fn walls_are_counted_with_their_loose_ends() {
        let trial = Trial::with_house();
        assert_eq!(words(&trial, Step::Framing), "4 walls, all joined");
        let trial = trial.take(Tool::Wall).tap(4000, 0).tap(4000, 3000);
        assert_eq!(words(&trial, Step::Framing), "1 loose end");
        let trial = trial.tap(8000, 3000);
        assert_eq!(words(&trial, Step::Framing), "6 walls, all joined");
        let open = Trial::new().take(Tool::Wall).tap(0, 0).tap(5000, 0);
        assert_eq!(words(&open, Step::Framing), "2 loose ends");
    }

    #[test]
    fn drops_want_a_closet_and_then_all_is_ready_or_said() {
        let trial = Trial::with_house().take(Tool::Drop).tap(3000, 100);
        assert_eq!(words(&trial, Step::Drops), "no closet yet");
        let trial = trial.take(Tool::Closet).tap(100, 3000);
        assert_eq!(words(&trial, Step::Drops), "1, none adrift");
        assert!(trial.session.lacks(Step::Drops).clear);
    }
}

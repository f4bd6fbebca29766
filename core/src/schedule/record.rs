//! How the record of the site stands against the plan: what each part of the work asks of every drop,
//! how much of it is done, measured against planned lengths, and four counts that must agree.
//!
//! Nothing here is kept: all of it follows from the plan, its record and the cut list.

use std::collections::BTreeMap;

use strum::VariantArray;

use super::{Cut, CutList};
use crate::plan::{BoxKind, BoxStage, Cable, CableId, CableStage, Drop, DropId, Plan, SiteRecord};
use crate::rules::RuleId;
use crate::units::Mm;

/// A part of the work on site.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum Phase {
    /// Boxes set, cables pulled and labelled.
    #[default]
    RoughIn,
    /// Before cover: tucked away, photographed, inspected.
    Protection,
    /// After paint: found again, terminated, plated.
    TrimOut,
    /// Every cable tested and measured.
    Testing,
    /// What is left to be put right.
    PunchList,
    /// Handed over.
    Handover,
}

/// One thing that can be ticked off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tick {
    /// A cable reaches a stage.
    Cable(CableId, CableStage),
    /// A box reaches a stage.
    Box(DropId, BoxStage),
    /// A cable's test is good.
    Test(CableId),
}

/// How much of something is done.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// So many are done.
    pub done: usize,
    /// Of so many.
    pub of: usize,
}

impl Progress {
    /// Whether nothing is left.
    pub fn is_done(self) -> bool {
        self.done >= self.of
    }

    /// How many are left.
    pub fn left(self) -> usize {
        self.of.saturating_sub(self.done)
    }

    fn and(self, is_done: bool) -> Self {
        Self {
            done: self.done + usize::from(is_done),
            of: self.of + 1,
        }
    }
}

impl Phase {
    /// Every part, in the order of the work.
    pub const ALL: [Self; Self::VARIANTS.len()] = every!(Phase);

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::RoughIn => "Rough-in",
            Self::Protection => "Protection",
            Self::TrimOut => "Trim-out",
            Self::Testing => "Test",
            Self::PunchList => "Punch list",
            Self::Handover => "Handover",
        }
    }

    /// What it asks of a drop, in the order of the work. A spare is pulled, labelled and protected; it
    /// is trimmed and tested by whoever takes it into use. Where there is no box none is set.
    pub fn ticks(self, drop: &Drop) -> Vec<Tick> {
        let of_box = |stage| Tick::Box(drop.id, stage);
        let cables = drop.cables.iter().map(|cable| cable.id);
        let of_cables = |stages: &'static [CableStage]| {
            let each = cables.clone();
            each.flat_map(move |id| stages.iter().map(move |stage| Tick::Cable(id, *stage)))
        };
        match self {
            Self::RoughIn => {
                let set = (drop.fixing != BoxKind::None).then_some(of_box(BoxStage::Set));
                let cable = of_cables(&[CableStage::Pulled, CableStage::Labelled]);
                set.into_iter().chain(cable).collect()
            }
            Self::Protection => vec![of_box(BoxStage::Tucked), of_box(BoxStage::Photographed)],
            Self::TrimOut if !drop.spare => std::iter::once(of_box(BoxStage::Found))
                .chain(of_cables(&[CableStage::Terminated]))
                .chain([of_box(BoxStage::Plated)])
                .collect(),
            Self::Testing if !drop.spare => cables.map(Tick::Test).collect(),
            _ => Vec::new(),
        }
    }

    /// How much of it is done at a drop.
    pub fn at(self, plan: &Plan, drop: &Drop) -> Progress {
        let ticks = self.ticks(drop);
        let done = ticks.iter().filter(|tick| tick.is_done(&plan.record));
        match self {
            Self::PunchList => punch(plan, |about| about == Some(drop.id)),
            _ => Progress {
                done: done.count(),
                of: ticks.len(),
            },
        }
    }

    /// How much of it is done in the whole job.
    pub fn progress(self, plan: &Plan) -> Progress {
        let all = plan.drops.iter().map(|drop| self.at(plan, drop));
        let drops = all.fold(Progress::default(), |sum, one| Progress {
            done: sum.done + one.done,
            of: sum.of + one.of,
        });
        match self {
            Self::Protection => drops.and(plan.record.inspected.is_some()),
            Self::PunchList => punch(plan, |_| true),
            Self::Handover => drops.and(plan.record.handed_over.is_some()),
            _ => drops,
        }
    }

    /// The first part that is not done; the handover once everything is.
    pub fn next(plan: &Plan) -> Phase {
        let open = |phase: &Phase| !phase.progress(plan).is_done();
        Self::ALL.into_iter().find(open).unwrap_or(Self::Handover)
    }
}

impl Tick {
    /// Whether the record has it.
    pub fn is_done(self, record: &SiteRecord) -> bool {
        match self {
            Self::Cable(id, stage) => record.has_cable(id, stage),
            Self::Box(id, stage) => record.has_box(id, stage),
            Self::Test(id) => record.test(id).is_some_and(|test| test.is_good()),
        }
    }
}

fn punch(plan: &Plan, counts: impl Fn(Option<DropId>) -> bool) -> Progress {
    let items = plan.record.punch.iter().filter(|item| counts(item.drop));
    items.fold(Progress::default(), |sum, item| {
        sum.and(item.done.is_some())
    })
}

/// One line of the test record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TestLine {
    /// The cable.
    pub cable: CableId,
    /// Its drop.
    pub drop: DropId,
    /// Its path as planned with the slack at both ends and without waste: what a tester should read.
    /// `None` for a cable without a way.
    pub planned: Option<Mm>,
    /// What was measured.
    pub measured: Option<Mm>,
    /// Measured less planned, where both are known.
    pub off: Option<Mm>,
    /// Whether it is farther off than the rules allow.
    pub is_far_off: bool,
}

/// A line for every cable, in the order of the drops.
pub fn test_lines(plan: &Plan, cuts: &CutList) -> Vec<TestLine> {
    let cuts: BTreeMap<CableId, &Cut> = cuts.cuts.iter().map(|cut| (cut.cable, cut)).collect();
    let line = |(drop, cable): (&Drop, &Cable)| {
        let cut = cuts.get(&cable.id).copied();
        line_of(plan, drop.id, cable.id, cut)
    };
    plan.cables().map(line).collect()
}

/// The line of one cable.
pub fn test_line(plan: &Plan, cuts: &CutList, drop: DropId, cable: CableId) -> TestLine {
    line_of(plan, drop, cable, cuts.cut(cable))
}

fn line_of(plan: &Plan, drop: DropId, cable: CableId, cut: Option<&Cut>) -> TestLine {
    let planned = cut.map(|cut| cut.path + cut.slack);
    let measured = plan.record.length(cable);
    let off = measured.zip(planned).map(|(is, was)| is - was);
    let is_far_off = off
        .zip(planned)
        .is_some_and(|(off, planned)| off.f64().abs() > allowed(plan, planned));
    TestLine {
        cable,
        drop,
        planned,
        measured,
        off,
        is_far_off,
    }
}

/// How far a measured length may be off a planned one: a share of it or a length, whichever is more.
fn allowed(plan: &Plan, planned: Mm) -> f64 {
    let share = planned.f64() * plan.rules.share(RuleId::MeasuredShare);
    share.max(plan.rules.length(RuleId::MeasuredLength).f64())
}

impl TestLine {
    /// How measured and planned stand, in words: "9 ft 0 in more than planned, over 5 % and 3 ft";
    /// `None` where one of them is not known.
    pub fn words(&self, plan: &Plan) -> Option<String> {
        let off = self.off?;
        let size = plan.units.path(Mm(off.0.abs()));
        let way = match off.0 {
            0 => return Some(String::from("as planned")),
            1.. => "more",
            _ => "less",
        };
        let more = format!("{size} {way} than planned");
        let share = plan.rules.value(RuleId::MeasuredShare);
        let length = plan.units.path(plan.rules.length(RuleId::MeasuredLength));
        Some(match self.is_far_off {
            true => format!("{more}, over {share} % and {length}"),
            false => more,
        })
    }
}

/// Four counts that must agree once the job is done, and what stands between them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Cables on the plan.
    pub on_plan: usize,
    /// Cables in the wall, those that left the plan included.
    pub in_wall: usize,
    /// Cables with labels on both ends.
    pub labelled: usize,
    /// Lines in the test record.
    pub tested: usize,
    /// Spare cables, which are tested by whoever takes them into use.
    pub spare: usize,
    /// What does not agree, one sentence each. What has not begun is not held against the plan.
    pub told: Vec<String>,
}

/// The four counts of a job.
pub fn counts(plan: &Plan) -> Counts {
    let record = &plan.record;
    let names = |has: &dyn Fn(&Drop, CableId) -> bool| -> Vec<String> {
        let some = plan.cables().filter(|(drop, cable)| has(drop, cable.id));
        some.map(|(drop, cable)| drop.cable_label(cable)).collect()
    };
    let pulled = |id| record.has_cable(id, CableStage::Pulled);
    let labelled = |id| record.has_cable(id, CableStage::Labelled);
    let tested = |id| record.test(id).is_some();
    let left: Vec<String> = record.left.iter().map(|left| left.name.clone()).collect();
    let count = |has: &dyn Fn(&Drop, CableId) -> bool| {
        let some = plan.cables().filter(|(drop, cable)| has(drop, cable.id));
        some.count()
    };
    let mut counts = Counts {
        on_plan: plan.cables().count(),
        in_wall: count(&|_, id| pulled(id)) + left.len(),
        labelled: count(&|_, id| labelled(id)),
        tested: count(&|_, id| tested(id)),
        spare: count(&|drop, id| drop.spare && !tested(id)),
        told: Vec::new(),
    };
    let (wall, labels, tests) = (counts.in_wall > 0, counts.labelled > 0, counts.tested > 0);
    let when = |has_begun: bool, has: &dyn Fn(&Drop, CableId) -> bool| match has_begun {
        true => names(has),
        false => Vec::new(),
    };
    let gaps = [
        ("In the wall, no longer on the plan", left),
        (
            "On the plan, not in the wall",
            when(wall, &|_, id| !pulled(id)),
        ),
        (
            "In the wall, without labels on both ends",
            when(labels, &|_, id| pulled(id) && !labelled(id)),
        ),
        (
            "Labelled, not in the wall",
            when(wall, &|_, id| labelled(id) && !pulled(id)),
        ),
        (
            "In the wall, without a line in the test record",
            when(tests, &|drop, id| pulled(id) && !tested(id) && !drop.spare),
        ),
        (
            "In the test record, not in the wall",
            names(&|_, id| tested(id) && !pulled(id)),
        ),
    ];
    let told = gaps.into_iter().filter(|(_, names)| !names.is_empty());
    counts.told = told
        .map(|(what, names)| format!("{what}: {}.", listed(&names)))
        .collect();
    counts
}

impl Counts {
    /// Whether all four are the same, spares aside.
    pub fn agree(&self) -> bool {
        let all = [self.in_wall, self.labelled, self.tested + self.spare];
        all.iter().all(|count| *count == self.on_plan) && self.told.is_empty()
    }
}

/// "D4A, D4B and 12 more".
fn listed(names: &[String]) -> String {
    const MOST: usize = 8;
    let shown = names.iter().take(MOST).cloned().collect::<Vec<_>>();
    match names.len().saturating_sub(MOST) {
        0 => shown.join(", "),
        more => format!("{} and {more} more", shown.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;
    use crate::plan::edit::{Edit, Note};
    use crate::plan::{CableKindId, Test};

    fn noted(plan: &Plan, notes: Vec<Note>) -> Plan {
        let edits = notes.into_iter().map(Edit::Note).collect();
        plan.apply(&Edit::Together(edits)).unwrap()
    }

    fn note(tick: Tick) -> Note {
        let date = Some(String::from("2026-06-02"));
        match tick {
            Tick::Cable(id, stage) => Note::Cable(id, stage, date),
            Tick::Box(id, stage) => Note::Box(id, stage, date),
            Tick::Test(id) => Note::Test(id, Some(Test::default())),
        }
    }

    fn done(plan: &Plan, phase: Phase) -> Plan {
        let ticks = plan.drops.iter().flat_map(|drop| phase.ticks(drop));
        noted(plan, ticks.map(note).collect())
    }

    #[test]
    fn the_work_goes_on_part_by_part_until_the_counts_agree() {
        let mut plan = sample::house();
        assert_eq!(Phase::next(&plan), Phase::RoughIn);
        assert!(counts(&plan).told.is_empty() && !counts(&plan).agree());
        plan = done(&plan, Phase::RoughIn);
        assert_eq!(Phase::next(&plan), Phase::Protection);
        plan = done(&plan, Phase::Protection);
        assert_eq!(Phase::Protection.progress(&plan).left(), 1);
        plan = noted(&plan, vec![Note::Inspected(Some(Default::default()))]);
        assert_eq!(Phase::next(&plan), Phase::TrimOut);
        plan = done(&done(&plan, Phase::TrimOut), Phase::Testing);
        assert_eq!(Phase::next(&plan), Phase::Handover);
        let told = counts(&plan);
        assert!(told.agree(), "{told:?}");
        let item = Note::AddPunch(None, "sweep".into());
        assert_eq!(Phase::next(&noted(&plan, vec![item])), Phase::PunchList);
    }

    #[test]
    fn a_fault_is_a_line_of_the_record_and_leaves_the_test_open() {
        let plan = sample::house();
        let id = plan.drops[0].cables[0].id;
        let fault = Test {
            date: String::new(),
            fault: String::from("pins 3 and 6 crossed"),
        };
        let plan = noted(&plan, vec![Note::Test(id, Some(fault))]);
        assert!(!Tick::Test(id).is_done(&plan.record));
        assert_eq!(counts(&plan).tested, 1);
    }

    #[test]
    fn what_does_not_agree_is_told_by_name() {
        let plan = done(&sample::house(), Phase::RoughIn);
        let first = &plan.drops[0];
        let (id, name) = (first.cables[0].id, plan.cable_label(first.cables[0].id));
        let lost = noted(&plan, vec![Note::Cable(id, CableStage::Pulled, None)]);
        let told = counts(&lost).told;
        assert_eq!(
            told,
            [
                format!("On the plan, not in the wall: {name}."),
                format!("Labelled, not in the wall: {name}.")
            ]
        );
        let gone = plan.apply(&Edit::RemoveDrop(first.id)).unwrap();
        let counted = counts(&gone);
        assert_eq!(counted.in_wall, counted.on_plan + first.cables.len());
        assert!(counted.told[0].starts_with("In the wall, no longer on the plan: "));
    }

    #[test]
    fn a_spare_is_pulled_and_protected_and_not_tested() {
        let mut drop = sample::house().drops[0].clone();
        drop.spare = true;
        assert!(!Phase::RoughIn.ticks(&drop).is_empty());
        assert!(Phase::TrimOut.ticks(&drop).is_empty() && Phase::Testing.ticks(&drop).is_empty());
        drop.fixing = BoxKind::None;
        let set = Tick::Box(drop.id, BoxStage::Set);
        assert!(!Phase::RoughIn.ticks(&drop).contains(&set));
    }

    /// A share or a length, whichever is more: 3 ft for a short cable, 5 % for a long one.
    #[test]
    fn a_measured_length_too_far_off_is_told() {
        let plan = sample::house();
        let (drop, id) = (plan.drops[0].id, plan.drops[0].cables[0].id);
        let told = |feet: f64, measured: f64| {
            let cut = Cut {
                cable: id,
                drop,
                kind: CableKindId::CAT6,
                path: Mm::feet(feet - 12.0),
                slack: Mm::feet(12.0),
                waste: Mm::feet(5.0),
                length: Mm::feet(feet + 5.0),
                pull: 1,
                trunk: None,
                reel: None,
            };
            let cuts = CutList {
                cuts: vec![cut],
                ..CutList::default()
            };
            let length = Note::Length(id, Some(Mm::feet(measured)));
            let plan = noted(&plan, vec![length]);
            let line = test_line(&plan, &cuts, drop, id);
            (line.is_far_off, line.words(&plan).unwrap())
        };
        assert_eq!(told(40.0, 43.0), (false, "3' 0\" more than planned".into()));
        let far = "4' 0\" less than planned, over 5 % and 3' 0\"";
        assert_eq!(told(40.0, 36.0), (true, far.into()));
        assert!(!told(100.0, 104.0).0);
        assert!(told(100.0, 106.0).0);
        assert_eq!(told(50.0, 50.0).1, "as planned");
    }
}

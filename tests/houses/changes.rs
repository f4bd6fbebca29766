//! What a changed rule, bit, cable or board does to every list at once, and what is refused leaves
//! standing.

use borewright_core::desk::{Intent, NoticeKind, Session};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{CableKindId, Lumber, Plan, WallId};
use borewright_core::report::csv::{Table, csv};
use borewright_core::report::report;
use borewright_core::rules::{RuleBook, RuleId};
use borewright_core::sheet::{Kind, Paper, Sheets};
use borewright_core::units::{Size, Units};

use crate::plan;

/// What a person reads of the bores: the tally, the drill list, the report, the table that is
/// written out, and the printed drill list.
#[derive(Debug)]
struct Read {
    tally: Vec<(i64, u32)>,
    rows: Vec<(i64, u32)>,
    drill_list: String,
    report: String,
    written: String,
    printed: String,
    steel_and_hours: (u32, u32, f64),
}

fn read(session: &Session) -> Read {
    let (plan, design) = (&session.plan, &session.design);
    let tally = design.totals.by_bit.iter();
    let mut rows: Vec<(i64, u32)> = Vec::new();
    let mut by_row: Vec<(i64, u32)> = design
        .drill_list
        .iter()
        .map(|row| (row.bit.micrometres(), row.members))
        .collect();
    by_row.sort_unstable();
    for (bit, members) in by_row {
        match rows.last_mut().filter(|(known, _)| *known == bit) {
            Some((_, sum)) => *sum += members,
            None => rows.push((bit, members)),
        }
    }
    let pages = Sheets::of(plan, design, &Paper::default());
    let printed = pages.iter().filter(|page| page.kind == Kind::DrillList);
    Read {
        tally: tally
            .map(|(bit, count)| (bit.micrometres(), *count))
            .collect(),
        rows,
        drill_list: format!("{:?}", design.drill_list),
        report: report(plan, design)["drill_list"].to_string(),
        written: csv(Table::Drill, plan, design),
        printed: printed.map(|page| page.svg()).collect(),
        steel_and_hours: (
            design.totals.nail_plates,
            design.totals.seals,
            design.totals.hours,
        ),
    }
}

fn changed(plan: Plan, edit: Edit) -> (Session, Session) {
    let before = Session::of(plan);
    let after = before.after(&Intent::Edit(edit));
    assert!(
        after
            .notice
            .as_ref()
            .is_none_or(|n| n.kind != NoticeKind::Refused),
        "{:?}",
        after.notice
    );
    (before, after)
}

fn lumber(plan: &Plan, wall: WallId, lumber: Lumber) -> Edit {
    let mut wall = *plan.wall(wall).unwrap().1;
    wall.lumber = lumber;
    Edit::SetWall(wall)
}

#[test]
fn one_change_changes_every_list_at_once() {
    let plan = plan("house-b");
    let mut thick = plan.catalogue.cables[0].clone();
    thick.diameter = Size(7.5);
    let larger = (8..=16).map(|sixteenths| Size::inches(f64::from(sixteenths) / 16.0 * 2.0));
    let edits = [
        ("rule set", Edit::SetRuleBook(RuleBook::Canada)),
        ("own figure", Edit::SetRule(RuleId::StudBearingBore, 22.0)),
        (
            "fill by count",
            Edit::Together(vec![
                Edit::SetRule(RuleId::FillByCount, 1.0),
                Edit::SetRule(RuleId::FillTwo, 25.0),
            ]),
        ),
        ("fill", Edit::SetRule(RuleId::Fill, 25.0)),
        ("bits", Edit::SetBits(larger.collect())),
        ("cable", Edit::SetCableKind(CableKindId::CAT6, thick)),
        ("lumber", lumber(&plan, WallId(12), Lumber::TwoBySix)),
        (
            "lumber of the closet's wall",
            lumber(&plan, WallId(5), Lumber::TwoBySix),
        ),
    ];
    for (what, edit) in edits {
        let (before, after) = changed(plan.clone(), edit);
        let (old, new) = (read(&before), read(&after));
        assert_eq!(
            new.tally, new.rows,
            "{what}: the tally and the drill list agree"
        );
        assert!(old.drill_list != new.drill_list, "{what}");
        assert!(old.report != new.report, "{what}");
        assert!(old.written != new.written, "{what}");
        assert!(old.printed != new.printed, "{what}");
        let sums = |read: &Read| (read.tally.clone(), read.steel_and_hours);
        assert!(sums(&old) != sums(&new), "{what}");
        let back = after.after(&Intent::Undo);
        assert!(read(&back).drill_list == old.drill_list, "{what}: undone");
    }
}

/// Each is refused with one sentence, and plan, design and history stay the very same.
#[test]
fn bad_input_gets_a_sentence_and_leaves_the_plan_whole() {
    let plan = plan("house-a");
    let cable = |diameter: Size| {
        let mut spec = plan.catalogue.cables[0].clone();
        spec.diameter = diameter;
        Edit::SetCableKind(CableKindId::CAT6, spec)
    };
    let edits = [
        cable(Size(-6.0)),
        cable(Size(0.0)),
        cable(Size(f64::NAN)),
        cable(Size::inches(10.0)),
        Edit::SetBits(Vec::new()),
        Edit::SetBits(vec![Size(-25.4)]),
        Edit::SetBits(vec![Size(f64::INFINITY)]),
        Edit::SetRule(RuleId::Fill, 0.0),
        Edit::SetRule(RuleId::StudBearingBore, 0.0),
        Edit::SetRule(RuleId::JoistBore, -1.0),
        Edit::SetRule(RuleId::Fill, 101.0),
        Edit::SetRule(RuleId::SetBack, f64::NAN),
    ];
    let session = Session::of(plan.clone());
    for edit in edits {
        let after = session.after(&Intent::Edit(edit.clone()));
        let notice = after.notice.as_ref().unwrap();
        assert_eq!(notice.kind, NoticeKind::Refused, "{edit:?}");
        assert!(
            notice.text.ends_with('.') && notice.text.len() > 20,
            "{}",
            notice.text
        );
        assert!(std::rc::Rc::ptr_eq(&after.plan, &session.plan), "{edit:?}");
        assert!(
            std::rc::Rc::ptr_eq(&after.design, &session.design),
            "{edit:?}"
        );
        assert!(
            std::rc::Rc::ptr_eq(&after.history, &session.history),
            "{edit:?}"
        );
    }
}

/// What the settings' fields read before an edit is made of it.
#[test]
fn what_is_typed_wrongly_gets_a_sentence() {
    use borewright_core::units::{read_size, read_sizes};
    let inches = Units::Imperial;
    for text in ["", " , ;", "1/2, thumb", "1/2, -3/4", "1/0"] {
        let sentence = read_sizes(text, inches).unwrap_err().to_string();
        assert!(sentence.ends_with('.'), "{text}: {sentence}");
    }
    assert!(
        read_size("-6", Units::Metric)
            .unwrap_err()
            .to_string()
            .contains("below zero")
    );
    assert_eq!(read_sizes("1/2, 5/8; 1", inches).unwrap().len(), 3);
}

//! The punch list: what is to be put right, with lines to write more on.

use super::table::{Cell, Line, Table, centred, column};
use super::test_page::written;
use super::{Draft, Kind, Paper, list};
use crate::plan::{Drop, Plan, PunchItem};

/// Lines to write on under what is known.
const SPARE_LINES: usize = 8;

/// The punch list's pages; none as long as nothing was noted on site.
pub(super) fn pages(plan: &Plan, paper: &Paper) -> Vec<Draft> {
    if plan.record.is_empty() {
        return Vec::new();
    }
    let heading = list::Heading {
        kind: Kind::PunchList,
        title: String::from("Punch list"),
        subtitle: String::from("What is to be put right before the job is handed over."),
        name: String::from("Punch list"),
        corner: String::from("Punch"),
    };
    let mut lines: Vec<Line> = plan.record.punch.iter().map(|i| line(plan, i)).collect();
    let spare = || {
        [
            Cell::Blank,
            Cell::Blank,
            Cell::Blank,
            Cell::Tick,
            Cell::Blank,
        ]
    };
    lines.extend((0..SPARE_LINES).map(|_| Line::Row(spare().to_vec())));
    let table = Table {
        columns: vec![
            column("No.", 16.0, 0.0),
            column("drop", 18.0, 0.0),
            column("to be put right", 60.0, 1.0),
            centred("done", 14.0),
            column("date", 24.0, 0.1),
        ],
        lines,
    };
    list::pages(plan, paper, &heading, &table)
}

fn line(plan: &Plan, item: &PunchItem) -> Line {
    let drop = item.drop.and_then(|id| plan.drop(id));
    Line::Row(vec![
        Cell::Id(item.label()),
        Cell::Strong(drop.map_or_else(|| String::from("job"), Drop::label)),
        Cell::Text(item.text.clone()),
        Cell::ticked(item.done.is_some()),
        written(item.done.clone()),
    ])
}

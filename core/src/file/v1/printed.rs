//! Numbers of bores on paper, version 1.

use serde::{Deserialize, Serialize};

use super::{Xy, point, words, xy};
use crate::file::fields::{Fields, List};
use crate::file::losses::Losses;
use crate::plan::edit::caps;
use crate::plan::{self, LevelId, Plan};
use crate::units::Mm;

words!(Through is plan::Through:
    Studs = "studs",
    Corner = "corner",
    TopPlates = "top plates",
    BottomPlates = "bottom plates",
    Joists = "joists",
    Outside = "outside",
);

/// One row of bores; a single one where it has no second end.
#[derive(Serialize, Deserialize)]
pub(super) struct Row {
    number: u32,
    revision: u32,
    level: u32,
    through: Through,
    from: Xy,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    to: Option<Xy>,
    height: i32,
}

impl From<plan::PrintedRow> for Row {
    fn from(row: plan::PrintedRow) -> Self {
        Self {
            number: row.number,
            revision: row.revision,
            level: row.level.0,
            through: row.through.into(),
            from: xy(row.from),
            to: (row.to != row.from).then(|| xy(row.to)),
            height: row.height.0,
        }
    }
}

impl From<Row> for plan::PrintedRow {
    fn from(row: Row) -> Self {
        Self {
            number: row.number,
            revision: row.revision,
            level: LevelId(row.level),
            through: row.through.into(),
            from: point(row.from),
            to: point(row.to.unwrap_or(row.from)),
            height: Mm(row.height),
        }
    }
}

/// What was printed last; not there where nothing was.
#[derive(Serialize, Deserialize)]
pub(super) struct Last {
    revision: u32,
    sum: u32,
}

/// What was printed last, and its rows with those before.
pub(super) fn of(printed: &plan::Printed) -> (Option<Last>, Vec<Row>) {
    let last = Last {
        revision: printed.revision,
        sum: printed.sum,
    };
    let rows = printed.rows.iter().copied().map(Into::into).collect();
    ((printed.revision > 0).then_some(last), rows)
}

pub(super) fn read(plan: &mut Plan, fields: &Fields, losses: &mut Losses) {
    let last = fields.one::<Last>("printed", "Which revision was printed last", losses);
    let last = last.unwrap_or(Last {
        revision: 0,
        sum: 0,
    });
    let rows = List {
        key: "printed_rows",
        name: "Printed row",
        of: "",
        most: caps::PRINTED.most,
    };
    plan.printed = plan::Printed {
        revision: last.revision,
        sum: last.sum,
        rows: super::from(fields.list::<Row>(&rows, losses)),
    };
}

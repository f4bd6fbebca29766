//! The edit that makes numbers of bores hold: sheets are printed, or a link is handed on.

use std::collections::BTreeSet;

use super::caps;
use super::{Done, Refusal};
use crate::plan::{Plan, PrintedRow};

/// Rows that were printed before stay as they were; new ones join them. A revision whose sheets said
/// other things of holes is not printed again: the next one is.
pub(super) fn keep(plan: &mut Plan, rows: &[PrintedRow], sum: u32) -> Done {
    let printed = &mut plan.printed;
    if printed.revision >= plan.revision {
        plan.revision = match printed.sum == sum {
            true => printed.revision,
            false => printed.revision.saturating_add(1),
        };
    }
    let last = printed.last();
    for row in rows.iter().filter(|row| row.number > last) {
        caps::PRINTED.admits(printed.rows.len())?;
        printed.rows.push(PrintedRow {
            revision: plan.revision,
            ..*row
        });
    }
    let known: BTreeSet<u32> = printed.rows.iter().map(|row| row.number).collect();
    if !rows.iter().all(|row| known.contains(&row.number)) {
        return Err(Refusal::because(
            "These holes were numbered before others were printed. Wait for the ways, then print again.",
        ));
    }
    printed.rows.sort_by_key(|row| row.number);
    (printed.revision, printed.sum) = (plan.revision, sum);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{LevelId, Through};
    use crate::shape::Point;
    use crate::units::Mm;

    fn rows(numbers: &[u32]) -> Vec<PrintedRow> {
        let row = |number: &u32| PrintedRow {
            number: *number,
            revision: 0,
            level: LevelId(1),
            through: Through::Studs,
            from: Point::new(0, *number as i32 * 100),
            to: Point::new(900, *number as i32 * 100),
            height: Mm(1200),
        };
        numbers.iter().map(row).collect()
    }

    fn print(plan: &Plan, numbers: &[u32], sum: u32) -> Result<Plan, Refusal> {
        let rows = rows(numbers);
        plan.apply(&Edit::KeepNumbers { rows, sum })
    }

    #[test]
    fn numbers_hold_and_a_changed_sheet_is_another_revision() {
        let first = print(&Plan::new(), &[1, 2, 3], 7).unwrap();
        assert_eq!((first.revision, first.printed.revision), (1, 1));
        assert_eq!(print(&first, &[1, 2, 3], 7), Ok(first.clone()));
        // Bore 2 is gone, 4 is new.
        let second = print(&first, &[1, 3, 4], 8).unwrap();
        assert_eq!((second.revision, second.printed.revision), (2, 2));
        let told: Vec<_> = second
            .printed
            .rows
            .iter()
            .map(|row| (row.number, row.revision))
            .collect();
        assert_eq!(told, [(1, 1), (2, 1), (3, 1), (4, 2)]);
        // Who counts the revision up by hand before printing is not counted up again.
        let counted = second.apply(&Edit::NextRevision).unwrap();
        assert_eq!(print(&counted, &[1, 4], 9).unwrap().revision, 3);
    }

    #[test]
    fn what_is_on_paper_is_not_taken_back() {
        let before = Plan::new();
        let second = print(&print(&before, &[1], 7).unwrap(), &[1, 2], 8).unwrap();
        let undone = before.with_paper_of(&second);
        assert_eq!((undone.revision, &undone.printed), (2, &second.printed));
    }

    #[test]
    fn a_number_of_nothing_is_refused() {
        let printed = print(&Plan::new(), &[1, 3], 7).unwrap();
        assert!(print(&printed, &[1, 2], 8).is_err());
        assert!(print(&Plan::new(), &[0], 7).is_err());
    }
}

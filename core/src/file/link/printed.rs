//! The section of printed numbers of bores. A reader that does not know it would number the same holes
//! otherwise than paper does, and so has to refuse.

use super::LinkError;
use super::codes::Coded;
use super::columns::{Reader, Writer};
use super::settings::at;
use super::walls::{put_points, take_points};
use crate::plan::edit::caps;
use crate::plan::{LevelId, Plan, Printed, PrintedRow, Through};
use crate::units::Mm;

type Read<T> = Result<T, LinkError>;

pub(super) fn put(plan: &Plan, out: &mut Writer) {
    let Printed {
        revision,
        sum,
        rows,
    } = &plan.printed;
    if *revision == 0 && rows.is_empty() {
        return;
    }
    out.number(u64::from(*revision));
    out.number(u64::from(*sum));
    out.number(rows.len() as u64);
    out.identities(rows, |row| row.number);
    out.of(rows, |row| i64::from(row.revision));
    out.of(rows, |row| i64::from(row.level.0));
    out.of(rows, |row| row.through.code());
    put_points(&rows.iter().map(|row| row.from).collect::<Vec<_>>(), out);
    out.of(rows, |row| i64::from(row.to.x) - i64::from(row.from.x));
    out.of(rows, |row| i64::from(row.to.y) - i64::from(row.from.y));
    out.of(rows, |row| i64::from(row.height.0));
}

pub(super) fn take(plan: &mut Plan, section: &mut Reader, _: &mut super::words::Texts) -> Read<()> {
    if section.is_empty() {
        return Ok(());
    }
    let small = |number: u64| u32::try_from(number).map_err(|_| LinkError::Altered);
    let (revision, sum) = (small(section.number()?)?, small(section.number()?)?);
    let count = section.count(caps::PRINTED.most)?;
    let numbers = section.identities(count)?;
    let revisions: Vec<u32> = section.column_of(count)?;
    let levels: Vec<u32> = section.column_of(count)?;
    let through = section.column(count)?;
    let from = take_points(section, count)?;
    let right: Vec<i32> = section.column_of(count)?;
    let down: Vec<i32> = section.column_of(count)?;
    let heights: Vec<i32> = section.column_of(count)?;
    let mut rows = Vec::new();
    for (place, number) in numbers.into_iter().enumerate() {
        let from = at(&from, place)?;
        let (dx, dy) = (at(&right, place)?, at(&down, place)?);
        let mut to = from;
        to.x = to.x.checked_add(dx).ok_or(LinkError::Altered)?;
        to.y = to.y.checked_add(dy).ok_or(LinkError::Altered)?;
        rows.push(PrintedRow {
            number,
            revision: at(&revisions, place)?,
            level: LevelId(at(&levels, place)?),
            through: Through::of_code(at(&through, place)?)?,
            from,
            to,
            height: Mm(at(&heights, place)?),
        });
    }
    plan.printed = Printed {
        revision,
        sum,
        rows,
    };
    Ok(())
}

#[cfg(test)]
mod tests {
    use crate::file::{self, link};
    use crate::plan::{LevelId, Plan, Printed, PrintedRow, Through};
    use crate::shape::Point;
    use crate::units::Mm;
    use proptest::prelude::*;

    fn row() -> impl Strategy<Value = PrintedRow> {
        let ends = ((-9000..9000, -9000..9000), (-9000..9000, -9000..9000));
        (1_u32..5, 0_u32..4, 0_usize..6, ends, -300..3000).prop_map(
            |(revision, level, through, (from, to), height)| PrintedRow {
                number: 0,
                revision,
                level: LevelId(level),
                through: Through::ALL[through],
                from: Point::new(from.0, from.1),
                to: Point::new(to.0, to.1),
                height: Mm(height),
            },
        )
    }

    fn printed() -> impl Strategy<Value = Printed> {
        let rows = prop::collection::vec((row(), 1_u32..4), 1..60);
        (rows, any::<u32>()).prop_map(|(rows, sum)| {
            let mut last = 0;
            let numbered = rows.into_iter().map(|(row, step)| {
                last += step;
                PrintedRow {
                    number: last,
                    ..row
                }
            });
            Printed {
                revision: 5,
                sum,
                rows: numbered.collect(),
            }
        })
    }

    proptest! {
        #[test]
        fn printed_numbers_come_back_from_file_and_link(printed in printed()) {
            let plan = Plan { revision: 5, printed, ..Plan::new() };
            let opened = file::read(&file::write(&plan)).unwrap();
            prop_assert_eq!(&opened.plan, &plan);
            prop_assert_eq!(opened.losses.len(), 0);
            let bytes = link::write(&plan, link::Privacy::Everything).unwrap();
            prop_assert_eq!(&link::read(&bytes).unwrap().plan, &plan);
        }
    }
}

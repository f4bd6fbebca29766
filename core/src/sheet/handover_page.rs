//! The handover record: four counts, how far every part of the work is, what is still open, and where
//! to sign.

use super::table::{Cell, Line, Table, column};
use super::test_page::written;
use super::{Draft, Kind, Paper, list};
use crate::design::Design;
use crate::plan::{Drop, Mark, Plan};
use crate::schedule::{Phase, counts, test_lines};

/// The handover record's pages; none as long as nothing was noted on site.
pub(super) fn pages(plan: &Plan, design: &Design, paper: &Paper) -> Vec<Draft> {
    if plan.record.is_empty() {
        return Vec::new();
    }
    let heading = list::Heading {
        kind: Kind::Handover,
        title: String::from("Handover record"),
        subtitle: String::from(
            "How the job stands against the plan of this revision. Test record, plans, boxes and closet follow.",
        ),
        name: String::from("Handover record"),
        corner: String::from("Handover"),
    };
    let mut lines = four_counts(plan);
    lines.extend(work(plan));
    lines.extend(open(plan, design));
    lines.extend(signed(plan));
    let table = Table {
        columns: vec![
            // Notes are wrapped beside the first column, which therefore takes no part of the rest.
            column("what", 58.0, 0.0),
            column("how it stands", 52.0, 1.0),
            column("date and name", 54.0, 0.4),
        ],
        lines,
    };
    list::pages(plan, paper, &heading, &table)
}

fn row(what: &str, stands: String, who: Cell) -> Line {
    Line::Row(vec![
        Cell::Text(what.to_string()),
        Cell::Strong(stands),
        who,
    ])
}

fn empty() -> Cell {
    Cell::Text(String::new())
}

fn four_counts(plan: &Plan) -> Vec<Line> {
    let counts = counts(plan);
    let verdict = match counts.agree() {
        true => "Four counts · all agree",
        false => "Four counts · they do not all agree",
    };
    let tested = match counts.spare {
        0 => counts.tested.to_string(),
        spare => format!("{}, {spare} spare not tested", counts.tested),
    };
    let mut lines = vec![
        Line::Break(String::from(verdict)),
        row("cables on the plan", counts.on_plan.to_string(), empty()),
        row("cables in the wall", counts.in_wall.to_string(), empty()),
        row(
            "labelled on both ends",
            counts.labelled.to_string(),
            empty(),
        ),
        row("lines in the test record", tested, empty()),
    ];
    if !counts.told.is_empty() {
        lines.push(Line::Note(counts.told));
    }
    lines
}

fn work(plan: &Plan) -> Vec<Line> {
    let mut lines = vec![Line::Break(String::from("The work"))];
    let parts = Phase::ALL
        .into_iter()
        .filter(|phase| *phase != Phase::Handover);
    lines.extend(parts.map(|phase| {
        let progress = phase.progress(plan);
        let stands = match progress.of {
            0 => String::from("nothing"),
            of => format!("{} of {of} done", progress.done),
        };
        row(phase.name(), stands, empty())
    }));
    lines
}

/// Open punch items, faults, and lengths far off the plan.
fn open(plan: &Plan, design: &Design) -> Vec<Line> {
    let mut lines = Vec::new();
    for item in plan.record.punch.iter().filter(|item| item.done.is_none()) {
        let drop = item.drop.and_then(|id| plan.drop(id));
        let about = drop.map_or_else(|| String::from("job"), Drop::label);
        let what = format!("{} · {about}", item.label());
        lines.push(row(&what, item.text.clone(), empty()));
    }
    for line in test_lines(plan, &design.cut_list) {
        let name = plan.cable_label(line.cable);
        let fault = plan.record.test(line.cable).filter(|test| !test.is_good());
        if let Some(test) = fault {
            lines.push(row(
                &format!("{name} · fault"),
                test.fault.clone(),
                written(Some(test.date.clone())),
            ));
        }
        if let Some(words) = line.words(plan).filter(|_| line.is_far_off) {
            lines.push(row(&format!("{name} · length"), words, empty()));
        }
    }
    match lines.is_empty() {
        true => lines,
        false => std::iter::once(Line::Break(String::from("Still open")))
            .chain(lines)
            .collect(),
    }
}

fn signed(plan: &Plan) -> Vec<Line> {
    let record = &plan.record;
    let mark = |what: &str, mark: &Option<Mark>| {
        let stands = mark.as_ref().map_or("not yet", |_| "done");
        let who = mark.as_ref().map(words);
        row(what, stands.to_string(), written(who))
    };
    let mut lines = vec![
        Line::Break(String::from("Inspected and handed over")),
        mark("inspected before cover", &record.inspected),
        mark("handed over", &record.handed_over),
    ];
    if !record.photos.is_empty() {
        lines.push(row("pictures before cover", record.photos.clone(), empty()));
    }
    for who in ["signed, for the contractor", "signed, for the owner"] {
        lines.push(row(who, String::new(), Cell::Blank));
    }
    lines
}

/// "2026-09-04, Pat Example".
fn words(mark: &Mark) -> String {
    let parts = [mark.date.as_str(), mark.who.as_str()];
    let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join(", ")
}

#[cfg(test)]
mod tests {
    use expect_test::expect;

    use super::*;
    use crate::picture::sample;
    use crate::plan::edit::{Edit, Note};
    use crate::plan::{CableStage, Test};
    use crate::sheet::{Page, Sheets, Size, Stack, golden};
    use crate::units::Mm;

    /// The sample house with D1A pulled, labelled and measured too short, D1B pulled, T3A faulty.
    fn noted() -> Plan {
        let plan = sample::house();
        let (first, third) = (&plan.drops[0], &plan.drops[2]);
        let date = || Some(String::from("2026-09-04"));
        let stage = |place: usize, stage| Note::Cable(first.cables[place].id, stage, date());
        let test = |fault: &str| Test {
            date: String::from("2026-09-04"),
            fault: String::from(fault),
        };
        let notes = [
            stage(0, CableStage::Pulled),
            stage(0, CableStage::Labelled),
            stage(1, CableStage::Pulled),
            Note::Length(first.cables[0].id, Some(Mm::feet(60.0))),
            Note::Test(first.cables[0].id, Some(test(""))),
            Note::Test(third.cables[0].id, Some(test("pins 3 and 6 crossed"))),
            Note::AddPunch(Some(first.id), String::from("plate is cracked")),
            Note::AddPunch(None, String::from("sweep the closet")),
            Note::Punch(2, date()),
            Note::Photos(String::from("album of the job, on the office computer")),
            Note::HandedOver(Some(Mark {
                date: String::from("2026-09-05"),
                who: String::from("Pat Example"),
            })),
        ];
        let edits = notes.into_iter().map(Edit::Note).collect();
        plan.apply(&Edit::Together(edits)).unwrap()
    }

    fn page(plan: &Plan, kind: Kind) -> Option<Page> {
        let design = golden::by_hand(plan);
        let pages = Sheets::stack(
            plan,
            &design,
            &Paper::of(Size::Letter),
            Stack::Handover,
            None,
        );
        pages.into_iter().find(|page| page.kind == kind)
    }

    #[test]
    fn how_the_job_stands() {
        let page = page(&noted(), Kind::Handover).unwrap();
        expect![[r#"
            Handover record | Handover
            How the job stands against the plan of this revision. Test record, plans, boxes and closet follow. | rev 1
            what | how it stands | date and name
            Four counts · they do not all agree
            cables on the plan | 27
            cables in the wall | 2
            labelled on both ends | 1
            lines in the test record | 2
            On the plan, not in the wall: D2A, D2B, T3A, T3B, D4A, D4B, D5A, D5B and 17 more. | In the wall, without labels on both ends: D1B.
            In the wall, without a line in the test record: D1B. | In the test record, not in the wall: T3A.
            The work
            Rough-in | 3 of 67 done
            Protection | 0 of 33 done
            Trim-out | 0 of 59 done
            Test | 1 of 27 done
            Punch list | 1 of 2 done
            Still open
            P1 · D1 | plate is cracked
            D1A · length | 17' 6" less than planned, over 5 % and | 3' 0"
            T3A · fault | pins 3 and 6 crossed | 2026-09-04
            Inspected and handed over
            inspected before cover | not yet
            handed over | done | 2026-09-05, Pat Example
            pictures before cover | album of the job, on the office computer
            signed, for the contractor
            signed, for the owner
            Larch Row, lot 3 | Within the rule set you chose (United States, model codes). Wear eye protection. Look for | power, gas and water behind every bore. Ask before boring what bears, trusses, beams or
            engineered wood. Local code, builder and licensed trades decide.
            100 mm at 100 % | version VNCG-VPKL-XGCM | 1 of 6
        "#]].assert_eq(&golden::lines(&page));
    }

    #[test]
    fn the_test_record() {
        let page = page(&noted(), Kind::TestRecord).unwrap();
        expect![[r#"
            Test record | Test
            Wiremap, or continuity on coaxial cable. Planned is path and slack at both ends, as a tester reads it. | rev 1
            cable | port | to | planned | measured | good | fault, or off the plan | date
            D1A | d1 | Bed 1, W1, outlet | 77' 6" | 60' 0" | 17' 6" less than | planned, over 5 % | 2026-09-04
            and 3' 0"
            D1B | d2 | Bed 1, W1, outlet | 77' 6"
            D2A | d3 | Bed 1, W6, outlet 16 in, | 10' 7-3/16" from left | 50' 6"
            D2B | d4 | Bed 1, W6, outlet 16 in, | 10' 7-3/16" from left | no way
            T3A | d5 | Bed 1, television | no way | pins 3 and 6 crossed | 2026-09-04
            D4A | d6 | Bed 1, W6, outlet 16 in, | 5' 1/4" from left | no way
            D4B | d7 | Bed 1, W6, outlet 16 in, | 5' 1/4" from left | no way
            D5A | d8 | Bed 2, outlet | no way
            D5B | d9 | Bed 2, outlet | no way
            D6A | d10 | Study, W7, outlet | no way
            D6B | d11 | Study, W7, outlet | no way
            D7A | d12 | Study, W2, outlet | no way
            D7B | d13 | Study, W2, outlet | no way
            D8A | d14 | Kitchen, outlet | no way
            D8B | d15 | Kitchen, outlet | no way
            T9A | d16 | Living, television | no way
            D10A | d17 | Living, outlet | no way
            D10B | d18 | Living, outlet | no way
            D11A | d19 | Bath, outlet | no way
            D11B | d20 | Bath, outlet | no way
            B14A | d21 | outdoors, doorbell | no way
            A15A | d22 | Hall, ceiling access point | no way
            A16A | d23 | Living, ceiling access | point | no way
            T3B | x1 | Bed 1, television | no way
            T9B | x2 | Living, television | no way
            C12A | o1 | outdoors, W1, camera | no way
            C13A | o2 | outdoors, W2, camera | no way
            Larch Row, lot 3 | Within the rule set you chose (United States, model codes). Wear eye protection. Look for | power, gas and water behind every bore. Ask before boring what bears, trusses, beams or
            engineered wood. Local code, builder and licensed trades decide.
            100 mm at 100 % | version VNCG-VPKL-XGCM | 5 of 6
        "#]].assert_eq(&golden::lines(&page));
    }

    #[test]
    fn the_punch_list() {
        let page = page(&noted(), Kind::PunchList).unwrap();
        expect![[r#"
            Punch list | Punch
            What is to be put right before the job is handed over. | rev 1
            No. | drop | to be put right | done | date
            P1 | D1 | plate is cracked
            P2 | job | sweep the closet | 2026-09-04
            Larch Row, lot 3 | Within the rule set you chose (United States, model codes). Wear eye protection. Look for | power, gas and water behind every bore. Ask before boring what bears, trusses, beams or
            engineered wood. Local code, builder and licensed trades decide.
            100 mm at 100 % | version VNCG-VPKL-XGCM | 6 of 6
        "#]].assert_eq(&golden::lines(&page));
    }

    #[test]
    fn what_is_done_is_ticked_on_paper() {
        let cells = |plan: &Plan| page(plan, Kind::RoomList).unwrap().marks().count();
        let (before, after) = (cells(&sample::house()), cells(&noted()));
        assert_eq!(after, before + 1, "both are pulled, one is labelled");
        let second = sample::house().drops[0].cables[1].id;
        let both = Note::Cable(second, CableStage::Labelled, Some(String::new()));
        let both = noted().apply(&Edit::Note(both)).unwrap();
        assert_eq!(cells(&both), after + 1, "both are labelled now");
    }

    #[test]
    fn as_long_as_nothing_is_noted_there_is_nothing_to_hand_over() {
        assert_eq!(page(&sample::house(), Kind::Handover), None);
        assert_eq!(page(&sample::house(), Kind::PunchList), None);
        assert!(page(&sample::house(), Kind::TestRecord).is_some());
    }
}

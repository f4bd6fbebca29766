//! Files and links of every version ever written, kept in `tests/files`: each still opens, and the
//! file and the link of one plan still say the same.
//!
//! A sample is never changed. `KEEP_SAMPLES=1 cargo test -p borewright-tests --test kept` writes
//! those of the newest version that are not there yet.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use std::path::{Path, PathBuf};

use borewright_core::file::{self, link};
use borewright_core::plan::edit::{Edit, Note, sample};
use borewright_core::plan::{CableRecord, CableStage, Catalogue, Level, Plan, Said, Test};

/// The newest version, as samples are named by it.
const VERSION: &str = "v1";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("files")
}

/// Makes the plan of a sample.
type Make = fn() -> Plan;

/// What samples are made of: a house, and plans with something of everything.
const PLANS: [(&str, Make); 4] = [
    ("house-b", house),
    ("replies", || first(150, is_replied)),
    ("rich", || first(300, is_rich)),
    ("record", recorded),
];

fn house() -> Plan {
    let house = folder().join("../plans/house-b.json");
    file::read(&std::fs::read(house).unwrap()).unwrap().plan
}

/// The first plan of so many random edits that is as wanted.
fn first(edits: usize, is_wanted: fn(&Plan) -> bool) -> Plan {
    let mut plans = (0..).map(|seed| sample::plan(seed, edits));
    plans.find(is_wanted).unwrap()
}

fn recorded() -> Plan {
    let mut plans = (0..).map(|seed| noted(sample::plan(seed, 150)));
    plans.find(is_recorded).unwrap()
}

fn link_of(plan: &Plan) -> Vec<u8> {
    link::write(plan, link::Privacy::Everything).unwrap()
}

fn keep(name: &str, ending: &str, bytes: &[u8]) {
    if !is_kept(name, ending) {
        std::fs::create_dir_all(folder()).unwrap();
        std::fs::write(path(name, ending), bytes).unwrap();
    }
}

fn is_kept(name: &str, ending: &str) -> bool {
    path(name, ending).exists()
}

fn path(name: &str, ending: &str) -> PathBuf {
    folder().join(format!("{VERSION}-{name}.{ending}"))
}

fn samples(ending: &str) -> Vec<PathBuf> {
    let files = std::fs::read_dir(folder()).unwrap();
    let mut paths: Vec<PathBuf> = files.map(|file| file.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|e| e == ending));
    paths.sort();
    paths
}

#[test]
fn every_sample_ever_kept_still_opens() {
    if std::env::var_os("KEEP_SAMPLES").is_some() {
        for (name, plan) in PLANS {
            if is_kept(name, "json") {
                continue;
            }
            let plan = plan();
            keep(name, "json", &file::write(&plan));
            keep(name, "link", link::encode_text(&link_of(&plan)).as_bytes());
            keep(
                name,
                "code",
                link::encode_qr_text(&link_of(&plan)).as_bytes(),
            );
        }
    }
    let saved = samples("json");
    assert!(saved.len() >= 3);
    for path in saved {
        let opened = file::read(&std::fs::read(&path).unwrap()).unwrap();
        assert_eq!(opened.losses, Vec::<String>::new(), "{path:?}");
        for ending in ["link", "code"] {
            let text = std::fs::read_to_string(path.with_extension(ending)).unwrap();
            let linked = link::read(&link::decode_text(&text).unwrap()).unwrap();
            assert_eq!(linked.losses, Vec::<String>::new(), "{path:?}");
            assert!(
                linked.plan == link::without_drawings(&opened.plan),
                "{path:?} {ending}"
            );
        }
    }
}

/// The first reply of a plan that was kept, as a link of its own.
#[test]
fn every_reply_ever_kept_still_opens() {
    if std::env::var_os("KEEP_SAMPLES").is_some() && !is_kept("replies", "reply") {
        let kept = std::fs::read(path("replies", "json")).unwrap();
        let plan = file::read(&kept).unwrap().plan;
        let reply = link::write_reply(&plan.replies[0]).unwrap();
        keep("replies", "reply", link::encode_text(&reply).as_bytes());
    }
    let replies = samples("reply");
    assert!(!replies.is_empty());
    for path in replies {
        let text = std::fs::read_to_string(&path).unwrap();
        let reply = link::read_reply(&link::decode_text(&text).unwrap()).unwrap();
        let saved = std::fs::read(path.with_extension("json")).unwrap();
        let plan = file::read(&saved).unwrap().plan;
        assert_eq!(plan.replies.first(), Some(&reply), "{path:?}");
    }
}

/// Whether builder and owner agreed to something of a plan, and asked about something.
fn is_replied(plan: &Plan) -> bool {
    let said = |agreed: bool| {
        let mut answers = plan.replies.iter().flat_map(|reply| &reply.answers);
        answers.any(|answer| (answer.said == Said::Agreed) == agreed)
    };
    plan.replies.len() > 1 && said(true) && said(false)
}

/// A plan after many random notes from the site, and after a drop of a pulled cable left it.
fn noted(mut plan: Plan) -> Plan {
    for seed in 0..4000 {
        let edit = sample::edit(seed, &plan);
        let keeps = !matches!(edit, Edit::Note(Note::RemovePunch(_)));
        if keeps && matches!(edit, Edit::Note(_)) {
            plan = plan.apply(&edit).unwrap_or(plan);
        }
    }
    let is_pulled = |id| plan.record.has_cable(id, CableStage::Pulled);
    let pulled = plan.cables().find(|(_, cable)| is_pulled(cable.id));
    match pulled.map(|(drop, _)| Edit::RemoveDrop(drop.id)) {
        Some(edit) => plan.apply(&edit).unwrap_or(plan),
        None => plan,
    }
}

/// Whether something of every part of the record was noted on site.
fn is_recorded(plan: &Plan) -> bool {
    let record = &plan.record;
    let noted = |has: fn(&CableRecord) -> bool| record.cables.values().any(has);
    noted(|cable| cable.length.is_some() && !cable.reached.is_empty())
        && noted(|cable| cable.test.as_ref().is_some_and(Test::is_good))
        && noted(|cable| cable.test.as_ref().is_some_and(|test| !test.is_good()))
        && record.boxes.values().any(|one| !one.note.is_empty())
        && record.boxes.values().any(|one| one.reached.len() > 1)
        && record.punch.iter().any(|item| item.done.is_some())
        && record.punch.iter().any(|item| item.drop.is_some())
        && !record.left.is_empty()
        && !record.photos.is_empty()
        && record.inspected.is_some()
}

#[test]
fn the_sample_of_a_record_has_something_of_every_part() {
    let kept = std::fs::read(folder().join("v1-record.json")).unwrap();
    assert!(is_recorded(&file::read(&kept).unwrap().plan));
}

/// Whether a plan has something of everything.
fn is_rich(plan: &Plan) -> bool {
    let all = |count: fn(&Level) -> usize| plan.levels.iter().map(count).sum::<usize>();
    plan.levels.len() > 1
        && plan.closet.is_some()
        && !plan.pins.is_empty()
        && !plan.dismissed.is_empty()
        && !plan.rules.changed.is_empty()
        && plan.catalogue != Catalogue::default()
        && plan.drops.iter().any(|drop| drop.aim.is_some())
        && all(|level| level.walls.len()) > 10
        && all(|level| level.openings.len()) > 2
        && all(|level| level.rooms.len()) > 2
        && all(|level| level.keep_outs.len()) > 1
        && all(|level| level.power_runs.len()) > 1
        && all(|level| level.sheet.known.len()) > 0
        && all(|level| usize::from(level.sheet.scan.is_some())) > 0
}

#[test]
fn the_rich_sample_has_something_of_everything() {
    let kept = std::fs::read(folder().join("v1-rich.json")).unwrap();
    assert!(is_rich(&file::read(&kept).unwrap().plan));
}

/// The printed code of a link, dark and light module by module, kept as a plain bitmap that an
/// outside reader reads in `run_link.py`.
#[test]
fn the_printed_code_is_the_one_that_an_outside_reader_read() {
    let text = std::fs::read_to_string(folder().join("v1-house-b.code")).unwrap();
    let modules = link::qr(&format!("https://example.test/plan/#{text}")).unwrap();
    let mut bitmap = format!("P1\n{0} {0}\n", modules.size);
    for row in 0..modules.size {
        let dark = |column| {
            if modules.is_dark(column, row) {
                "1"
            } else {
                "0"
            }
        };
        let row: Vec<&str> = (0..modules.size).map(dark).collect();
        bitmap.push_str(&row.join(" "));
        bitmap.push('\n');
    }
    if std::env::var_os("KEEP_SAMPLES").is_some() {
        keep("house-b", "pbm", bitmap.as_bytes());
    }
    let kept = std::fs::read_to_string(folder().join("v1-house-b.pbm")).unwrap();
    assert!(kept == bitmap, "the code of a kept link changed");
}

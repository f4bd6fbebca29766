//! Who may know whom: the rooms of the core depend one way, and the page has one door.

use crate::none;
use crate::source::{Source, names, parsed, rust};

/// The rooms of the core, each with the rooms it may use. From the ground up.
const ROOMS: [(&str, &str); 19] = [
    ("units", ""),
    ("tongue", ""),
    ("shape", "units"),
    ("rules", "units shape"),
    ("plan", "units shape rules"),
    ("scan", "units shape plan"),
    ("plan::edit", "units shape rules plan scan"),
    ("file", "units shape rules plan plan::edit"),
    ("framing", "units shape rules plan"),
    ("route", "units shape rules plan framing"),
    ("bore", "units shape rules plan framing route"),
    ("schedule", "units shape rules plan framing route bore"),
    (
        "finding",
        "units shape rules plan scan framing route bore schedule",
    ),
    (
        "design",
        "units shape rules plan framing route bore schedule finding",
    ),
    (
        "report",
        "units shape rules plan framing route bore schedule finding design",
    ),
    (
        "agreement",
        "units shape rules plan framing route bore schedule finding design file",
    ),
    (
        "picture",
        "units tongue shape rules plan framing route bore schedule finding design",
    ),
    (
        "sheet",
        "units tongue shape rules plan framing route bore schedule finding design agreement picture file",
    ),
    (
        "desk",
        "units shape rules plan plan::edit scan file framing route bore schedule finding design",
    ),
];

/// What only `frontend/src/browser/` may touch.
const DOOR: [&str; 8] = [
    "local_storage",
    "session_storage",
    "indexed_db",
    "location",
    "clipboard",
    "print",
    "set_location",
    "history",
];

#[test]
fn the_rooms_of_the_core_depend_one_way() {
    none(rust("core/src").iter().flat_map(wrong_uses).collect());
}

#[test]
fn parts_know_no_word_of_the_trade() {
    let known = rust("frontend/src").into_iter().filter(|source| {
        source.path.starts_with("frontend/src/parts")
            && names(&source.product).iter().any(|name| {
                name.starts_with("borewright_core") && !name.starts_with("borewright_core::units")
            })
    });
    none(
        known
            .map(|source| format!("{}: a part uses the core beyond units", source.path))
            .collect(),
    );
}

#[test]
fn the_page_has_one_door_to_the_browser() {
    let sources = rust("frontend/src");
    let inside = sources
        .iter()
        .filter(|source| !source.path.starts_with("frontend/src/browser"));
    none(inside.flat_map(door_calls).collect());
}

/// Uses of a room that the file's own room may not know.
fn wrong_uses(source: &Source) -> Vec<String> {
    let Some(own) = room_of_file(&source.path) else {
        return vec![];
    };
    let Some((_, allowed)) = ROOMS.iter().find(|(room, _)| *room == own) else {
        return vec![format!(
            "{}: `{own}` is a room this test does not know; add it to ROOMS",
            source.path
        )];
    };
    let here = module_of_file(&source.path);
    let used = names(&source.product).into_iter().filter_map(|name| {
        let name = absolute(&here, &name)?;
        let room = room_of_name(&name)?;
        (room != own && !allowed.split(' ').any(|may| may == room)).then(|| {
            format!(
                "{}: `{own}` may not know `{room}` (crate::{name})",
                source.path
            )
        })
    });
    used.collect()
}

/// The room a file of the core lies in; `None` for `lib.rs`.
fn room_of_file(path: &str) -> Option<String> {
    let module = module_of_file(path);
    room_of_name(&module.join("::"))
}

/// The room a path inside the crate begins with: its first part, or `plan::edit`, where the plans
/// made for tests by random edits belong too.
fn room_of_name(name: &str) -> Option<String> {
    let mut parts = name.split("::");
    let first = parts.next().filter(|first| !first.is_empty())?;
    let is_edit = first == "plan" && matches!(parts.next(), Some("edit" | "sample"));
    Some(if is_edit {
        "plan::edit".into()
    } else {
        first.into()
    })
}

/// The module a file of the core is, as its parts: `core/src/plan/edit/mod.rs` is plan, edit.
fn module_of_file(path: &str) -> Vec<String> {
    let inside = path.trim_start_matches("core/src/").trim_end_matches(".rs");
    let parts = inside
        .split('/')
        .filter(|part| !["mod", "lib"].contains(part));
    parts.map(String::from).collect()
}

/// A path as seen from the top of the crate; `None` when it leads out of the crate or is local.
fn absolute(here: &[String], name: &str) -> Option<String> {
    if let Some(rest) = name.strip_prefix("crate::") {
        return Some(rest.into());
    }
    let ups = name.split("::").take_while(|part| *part == "super").count();
    if ups == 0 || ups > here.len() {
        return None;
    }
    let rest = name.split("::").skip(ups).map(String::from);
    let parts: Vec<String> = here[..here.len() - ups]
        .iter()
        .cloned()
        .chain(rest)
        .collect();
    Some(parts.join("::"))
}

/// Calls that only the door may make, found as `.word(`.
fn door_calls(source: &Source) -> Vec<String> {
    let lines = source.text.lines().enumerate();
    let calls = lines.flat_map(|(at, line)| {
        let used = DOOR
            .iter()
            .filter(move |word| line.contains(&format!(".{word}(")));
        used.map(move |word| {
            format!(
                "{}:{}: `.{word}(` belongs to frontend/src/browser",
                source.path,
                at + 1
            )
        })
    });
    calls.collect()
}

#[test]
fn a_use_against_the_stream_is_seen() {
    let faults = |path: &str, text: &str| wrong_uses(&parsed(path, text.into())).len();
    assert_eq!(
        faults("core/src/units/read.rs", "use crate::plan::Wall;"),
        1
    );
    assert_eq!(
        faults("core/src/plan/wall.rs", "use super::super::route::Way;"),
        1
    );
    assert_eq!(
        faults(
            "core/src/framing/mod.rs",
            "fn f(_: &crate::design::Design) {}"
        ),
        1
    );
    assert_eq!(faults("core/src/plan/wall.rs", "use super::edit::Edit;"), 1);
    assert_eq!(
        faults(
            "core/src/plan/edit/walls.rs",
            "use crate::scan::fit; use super::Edit;"
        ),
        0
    );
    assert_eq!(
        faults("core/src/lib.rs", "pub use crate::desk::Session;"),
        0
    );
    assert_eq!(faults("core/src/novel/mod.rs", ""), 1);
}

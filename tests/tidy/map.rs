//! `DEVELOPERS.md` is a true map: every place it names is there, and no room is left out.

use crate::none;
use crate::source::{root, text};

const MAP: &str = "DEVELOPERS.md";

/// Folders whose rooms (folders, and files that are rooms of their own) the map must name.
const ROOMS_IN: [&str; 2] = ["core/src", "frontend/src"];

#[test]
fn every_place_on_the_map_is_there() {
    let places = places(&text(MAP));
    assert!(!places.is_empty(), "{MAP} names no place in back-ticks");
    let lost = places.iter().filter(|place| !is_somewhere(place));
    none(
        lost.map(|place| format!("{MAP}: `{place}` is not there"))
            .collect(),
    );
}

#[test]
fn every_room_is_on_the_map() {
    let places = places(&text(MAP));
    let missing = ROOMS_IN
        .iter()
        .flat_map(|folder| rooms(folder))
        .filter(|room| {
            let name = room
                .rsplit('/')
                .find(|part| !part.is_empty())
                .unwrap_or_default();
            let ends = [format!("/{name}"), format!("/{name}/")];
            !places.iter().any(|place| {
                let slashed = format!("/{place}");
                ends.iter().any(|end| slashed.ends_with(end.as_str()))
            })
        });
    none(
        missing
            .map(|room| format!("{MAP} leaves out `{room}`"))
            .collect(),
    );
}

/// Texts in back-ticks that end as a folder or a Rust file does.
fn places(map: &str) -> Vec<String> {
    let quoted = map.split('`').skip(1).step_by(2);
    let named = quoted.filter(|text| text.ends_with('/') || text.ends_with(".rs"));
    named
        .filter(|text| !text.contains(char::is_whitespace))
        .map(String::from)
        .collect()
}

/// Whether a place is there, from the top or from one of the source folders.
fn is_somewhere(place: &str) -> bool {
    let from = [
        "",
        "core",
        "core/src",
        "frontend",
        "frontend/src",
        "tests",
        "tests/workbench/src",
    ];
    from.iter()
        .any(|folder| root().join(folder).join(place).exists())
}

/// The rooms in a folder: its folders, with a slash.
fn rooms(folder: &str) -> Vec<String> {
    let inside = std::fs::read_dir(root().join(folder))
        .into_iter()
        .flatten()
        .flatten();
    let mut rooms: Vec<String> = inside
        .filter(|entry| entry.path().is_dir())
        .map(|entry| format!("{folder}/{}/", entry.file_name().to_string_lossy()))
        .collect();
    rooms.sort();
    rooms
}

#[test]
fn places_are_read_from_back_ticks() {
    let map = "See `core/src/plan/` and `units.rs`, not `cargo serve` nor `Plan::apply`.";
    assert_eq!(places(map), ["core/src/plan/", "units.rs"]);
}

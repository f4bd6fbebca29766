//! Where a bore is, as JSON: what is counted or measured, and from what.

use serde_json::{Value, json};

use crate::bore::{Across, Along, Face, Past, Whereabouts, Which};
use crate::units::Mm;

/// The two coordinates of a row. Lengths are whole millimetres.
pub(super) fn coordinates(place: &Whereabouts) -> Value {
    json!([along(&place.along), across(place.across)])
}

fn along(along: &Along) -> Value {
    match along {
        Along::Studs { wall, numbers, .. } => json!({ "wall": wall.0, "studs": numbers }),
        Along::Short {
            wall, past, nth, ..
        } => json!({ "wall": wall.0, "past_stud": past, "uprights": [nth.0, nth.1] }),
        Along::Past(place) => past(place),
        Along::Corner { from, into } => json!({ "from": past(from), "into": past(into) }),
        Along::Joists { which, .. } => joists(which),
    }
}

fn past(place: &Past) -> Value {
    json!({
        "wall": place.wall.0,
        "past_stud": place.stud,
        "distance_mm": Mm::rounded(place.distance).0,
    })
}

fn joists(which: &Which) -> Value {
    match which {
        Which::Counted { from, numbers } => {
            json!({ "joists": numbers, "from": Face::Outside(*from).words() })
        }
        Which::Off {
            from,
            nearest,
            farthest,
        } => json!({
            "distance_mm": [Mm::rounded(*nearest).0, Mm::rounded(*farthest).0],
            "from": from.words(),
        }),
    }
}

fn across(across: Across) -> Value {
    match across {
        Across::Height(height) => json!({ "height_mm": Mm::rounded(height).0 }),
        Across::Centred => json!("centred"),
        Across::In {
            from,
            distance,
            last,
        } => {
            let ends = [Some(distance), last].into_iter().flatten();
            let ends: Vec<i32> = ends.map(|end| Mm::rounded(end).0).collect();
            match ends.as_slice() {
                [one] => json!({ "distance_mm": one, "from": from.words() }),
                ends => json!({ "distance_mm": ends, "from": from.words() }),
            }
        }
    }
}

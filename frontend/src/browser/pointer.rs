//! From the browser's pointer events to the desk's signals.

use borewright_core::desk::{Pointer, PointerKind, ScreenPoint};
use web_sys::{Element, PointerEvent};

/// What an event says, with the place measured from the corner of `sheet`.
pub fn read(event: &PointerEvent, sheet: &Element) -> Pointer {
    Pointer {
        id: event.pointer_id(),
        at: place(
            f64::from(event.client_x()),
            f64::from(event.client_y()),
            sheet,
        ),
        kind: kind(&event.pointer_type()),
        buttons: event.buttons(),
        time_ms: super::clock::now_ms(),
    }
}

/// A place of the window, measured from the corner of `sheet`.
pub fn place(x: f64, y: f64, sheet: &Element) -> ScreenPoint {
    let bounds = sheet.get_bounding_client_rect();
    ScreenPoint::new(x - bounds.left(), y - bounds.top())
}

/// Lets a pressed pointer belong to the sheet until it is lifted, wherever it goes.
pub fn hold(event: &PointerEvent, sheet: &Element) {
    // A pointer that is already gone cannot be held; then there is nothing to hold.
    let _ = sheet.set_pointer_capture(event.pointer_id());
}

fn kind(name: &str) -> PointerKind {
    match name {
        "touch" => PointerKind::Touch,
        "pen" => PointerKind::Pen,
        _ => PointerKind::Mouse,
    }
}

//! Our own line pictures, drawn on a grid of 24 by 24.

use borewright_core::desk::Tool;
use borewright_core::plan::{DropKind, OpeningKind};

/// A caret that opens something.
pub const MORE: &str = "M7 10l5 5 5-5";
/// A caret that leads on.
pub const AHEAD: &str = "M10 7l5 5-5 5";
/// A pencil ring, not quite closed.
pub const RING: &str = "M17 6.5C13 3 6 4.5 4.5 10S8 20 13 19.5 21 13 18 8.5c-1-1.6-3-2.6-5-2.5";
/// A cross.
pub const CLOSE: &str = "M6 6l12 12M18 6L6 18";
/// Back.
pub const UNDO: &str = "M9 5L4.5 9.5 9 14M5 9.5h9a5 5 0 0 1 0 10h-4";
/// Forward again.
pub const REDO: &str = "M15 5l4.5 4.5L15 14M19 9.5h-9a5 5 0 0 0 0 10h4";
/// Larger.
pub const LARGER: &str = "M12 5v14M5 12h14";
/// Smaller.
pub const SMALLER: &str = "M5 12h14";
/// All of it.
pub const WHOLE: &str = "M4 9V4h5M15 4h5v5M20 15v5h-5M9 20H4v-5";
/// A sheet with a folded corner.
pub const DRAWING: &str = "M6 3h8l4 4v14H6zM14 3v4h4M9 17l3-5 2 3 1-1.5 1 3.5z";
/// A quarter turn.
pub const TURN: &str = "M6 20v-7a6 6 0 0 1 6-6h6M14.5 3L18.5 7l-4 4";
/// A bin of boards.
pub const REMOVE: &str = "M5 7h14M9 7V4h6v3M7 7l1 13h8l1-13M10.5 11v5.5M13.5 11v5.5";
/// A chain link.
pub const LINK: &str = "M10 14a4 4 0 0 1 0-5.5l3-3a4 4 0 0 1 5.5 5.5L17 12.5M14 10a4 4 0 0 1 0 5.5l-3 3A4 4 0 0 1 5.5 13L7 11.5";
/// Paper out.
pub const PRINT: &str = "M7 9V3h10v6M7 17H4V9h16v8h-3M7 14h10v7H7z";
/// Rows under a head.
pub const LISTS: &str = "M4 5h16M4 10h16M4 15h16M4 20h16M9 5v15";
/// Into a file.
pub const SAVE: &str = "M12 3v11M7.5 10l4.5 4.5 4.5-4.5M4 17v4h16v-4";
/// A page with something on it.
pub const PAGE: &str = "M6 3h8l4 4v14H6zM14 3v4h4M9 11h6M9 14h6M9 17h4";
/// Out of a file.
pub const OPEN: &str = "M12 14V3M7.5 7.5L12 3l4.5 4.5M4 17v4h16v-4";
/// A blank sheet.
pub const BLANK: &str = "M6 3h8l4 4v14H6zM14 3v4h4";
/// Folders on a board.
pub const JOBS: &str = "M3 19h18M5 19V6h4v13M9 19V4h4v15M14.2 19l2.6-13 3.9.8L18 19";
/// A house under a roof.
pub const HOUSE: &str = "M3 12l9-8 9 8M6 10v10h12V10M10 20v-6h4v6";
/// Two sliders.
pub const SETTINGS: &str = "M4 8h9M17 8h3M4 16h3M11 16h9M15 6v4M9 14v4";

/// The picture of a tool.
pub fn tool(tool: Tool) -> &'static str {
    match tool {
        Tool::Select => "M6 3l5.5 15 2-6 6-2z",
        Tool::KnownDimension => "M3 8v8M21 8v8M3 12h18M6 9.5L3 12l3 2.5M18 9.5l3 2.5-3 2.5",
        Tool::SquareUp => "M4 7l15-3 2 15-17 1zM4 3.5h4M4 3.5v0M16 21h5v-3",
        Tool::LevelUp => {
            "M3 9h18v6H3zM10 9v6M14 9v6M12 10.8a1.2 1.2 0 1 1 0 2.4 1.2 1.2 0 0 1 0-2.4"
        }
        Tool::MoveDrawing => {
            "M12 3v18M3 12h18M9.5 5.5L12 3l2.5 2.5M9.5 18.5L12 21l2.5-2.5M5.5 9.5L3 12l2.5 2.5M18.5 9.5L21 12l-2.5 2.5"
        }
        Tool::Wall => "M4 20V7h16M7 20V10h13M4 20h3M20 7v3",
        Tool::Opening => opening(OpeningKind::Door),
        Tool::Room => "M4 20V4h16v16zM8 15l2-6h4l2 6M9 13h6",
        Tool::Joists => "M4 5h16M4 10h16M4 15h16M4 20h16M12 2v3M12 20v2",
        Tool::Drop => drop(DropKind::Data),
        Tool::Closet => "M5 4h14v16H5zM8 8h8M8 11h8M8 14h8M11 17h2",
        Tool::KeepOut => "M4 4h16v16H4zM4 20L20 4",
        Tool::NeverDrill => "M12 3a9 9 0 1 1 0 18 9 9 0 0 1 0-18M5.7 5.7l12.6 12.6",
        Tool::Pin => "M12 21v-8M8 13h8l-1.5-3.5V5h-5v4.5zM8.5 5h7",
        Tool::PowerRun => "M3 14c2-6 4-6 6 0s4 6 6 0 4-6 6 0",
    }
}

/// The picture of a kind of drop.
pub fn drop(kind: DropKind) -> &'static str {
    match kind {
        DropKind::Data => "M12 4l9 16H3zM12 12v4",
        DropKind::Television => "M3 5h18v12H3zM9 20h6M12 17v3",
        DropKind::CeilingAccessPoint => {
            "M12 4a8 8 0 1 1 0 16 8 8 0 0 1 0-16M12 9a3 3 0 1 1 0 6 3 3 0 0 1 0-6"
        }
        DropKind::WallAccessPoint => "M4 4v16M8 6a7 7 0 0 1 0 12M8 9.5a3 3 0 0 1 0 5",
        DropKind::Camera => "M4 12L20 5v14zM4 9v6",
        DropKind::Doorbell => {
            "M7 4h10v16H7zM12 14a1.8 1.8 0 1 1 0 3.6 1.8 1.8 0 0 1 0-3.6M10 7.5h4"
        }
        DropKind::Other => "M12 4v16M4 12h16M6.5 6.5l11 11M17.5 6.5l-11 11",
    }
}

/// The picture of a kind of opening.
pub fn opening(kind: OpeningKind) -> &'static str {
    match kind {
        OpeningKind::Door => "M2 19h4M18 19h4M6 19V6a13 13 0 0 1 12 13",
        OpeningKind::Window => "M2 9h3M19 9h3M2 15h3M19 15h3M5 9v6h14V9zM5 12h14",
        OpeningKind::Cased => "M2 9h5v6H2M22 9h-5v6h5M9 12h1M14 12h1",
    }
}

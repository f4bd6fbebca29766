//! A group in plan millimetres, laid on the screen by the view.

use borewright_core::desk::View;

/// The transform from plan millimetres to screen pixels.
pub fn laid(view: &View) -> String {
    let factor = 1.0 / view.scale;
    let (x, y) = (-view.corner.x * factor, -view.corner.y * factor);
    format!("translate({x:.3} {y:.3}) scale({factor:.6})")
}

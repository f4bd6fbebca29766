//! Header depths by an opening's nominal width.

use crate::rules::trade::{DEEPEST_HEADER, HEADERS, NOMINAL};

const FOOT: f64 = 304.8;

/// Whether an opening is wider than so many feet, by its nominal width.
pub(super) fn is_wider(width: f64, feet: f64) -> bool {
    width > feet * FOOT + NOMINAL
}

/// Depth of the header over an opening, millimetres; see [`HEADERS`].
pub fn header_depth(width: f64) -> f64 {
    let spans = |(feet, _): &&(f64, f64)| !is_wider(width, *feet);
    let shallowest = HEADERS.iter().find(spans);
    shallowest.map_or(DEEPEST_HEADER, |(_, depth)| *depth)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wider_openings_get_deeper_headers() {
        assert_eq!(header_depth(914.0), 5.5 * 25.4);
        assert_eq!(header_depth(1829.0), 7.25 * 25.4);
        assert_eq!(header_depth(1841.0), 7.25 * 25.4);
        assert_eq!(header_depth(1842.0), 9.25 * 25.4);
        assert_eq!(header_depth(2438.0), 9.25 * 25.4);
        assert_eq!(header_depth(4000.0), 11.25 * 25.4);
    }
}

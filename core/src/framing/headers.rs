//! Header depths by an opening's nominal width.

const INCH: f64 = 25.4;
const FOOT: f64 = 12.0 * INCH;
/// A drawn width this little over a nominal one is that one, millimetres: half an inch. Common practice,
/// no source.
const NOMINAL: f64 = 12.7;

/// Whether an opening is wider than so many feet, by its nominal width.
pub(super) fn is_wider(width: f64, feet: f64) -> bool {
    width > feet * FOOT + NOMINAL
}

/// Depth of the header over an opening, millimetres: 2x6 to 4 ft, 2x8 to 6 ft, 2x10 to 8 ft, 2x12
/// beyond. Common practice, no source: the builder's plans or the engineer govern.
pub fn header_depth(width: f64) -> f64 {
    let wider = |feet: f64| is_wider(width, feet);
    let inches = match (wider(4.0), wider(6.0), wider(8.0)) {
        (false, ..) => 5.5,
        (_, false, _) => 7.25,
        (_, _, false) => 9.25,
        _ => 11.25,
    };
    inches * INCH
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

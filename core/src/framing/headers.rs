//! Header depths by opening width.

/// Depth of the header over an opening, millimetres: 2x6 to 4 ft, 2x8 to 6 ft, 2x10 to 8 ft, 2x12
/// beyond. Common practice, no source: the builder's plans or the engineer govern.
pub fn header_depth(width: f64) -> f64 {
    const INCH: f64 = 25.4;
    const FOOT: f64 = 12.0 * INCH;
    // Half a millimetre is the grain of a drawn width.
    let wider = |feet: f64| width > feet * FOOT + 0.5;
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
        assert_eq!(header_depth(1830.0), 9.25 * 25.4);
        assert_eq!(header_depth(2438.0), 9.25 * 25.4);
        assert_eq!(header_depth(4000.0), 11.25 * 25.4);
    }
}

//! A link as a printed code. The address goes in as bytes and what follows its `#`, spelled by
//! [`encode_qr_text`](super::encode_qr_text), in the code's own tighter alphabet.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

use super::LinkError;

/// Codes up to this version (117 modules across) are read well from paper on site; the strongest
/// correction that stays within it is taken.
const LARGEST_ON_SITE: u8 = 25;

/// ... and up to this one (29 modules) they stand in the margin beside a drawing.
const LARGEST_SMALL: u8 = 3;

/// A printed code: which modules are dark.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Modules {
    /// Modules across and down, without the quiet border of four.
    pub size: usize,
    /// The code's version, 1 to 40.
    pub version: u8,
    /// Row by row from the upper left.
    dark: Vec<bool>,
}

impl Modules {
    /// Whether a module is dark; outside the code none is.
    pub fn is_dark(&self, column: usize, row: usize) -> bool {
        column < self.size && self.dark.get(row * self.size + column) == Some(&true)
    }
}

/// The code of a whole address, such as `https://example.test/#Q...`.
///
/// # Errors
/// [`LinkError::TooLongForCode`] where one code does not hold it.
pub fn qr(address: &str) -> Result<Modules, LinkError> {
    let segments = segments(address);
    let on_site = [QrCodeEcc::Quartile, QrCodeEcc::Medium, QrCodeEcc::Low]
        .into_iter()
        .find_map(|correction| encode(&segments, correction, LARGEST_ON_SITE));
    let code = on_site.or_else(|| encode(&segments, QrCodeEcc::Low, 40));
    code.map(|code| modules(&code))
        .ok_or(LinkError::TooLongForCode)
}

/// The smallest code of a short address, with what correction a code that small has to spare; `None` for an
/// address that makes it larger than stands beside a drawing.
pub fn qr_small(address: &str) -> Option<Modules> {
    let segments = segments(address);
    let code = [QrCodeEcc::Medium, QrCodeEcc::Low]
        .into_iter()
        .find_map(|correction| encode(&segments, correction, LARGEST_SMALL));
    code.map(|code| modules(&code))
}

fn segments(address: &str) -> Vec<QrSegment> {
    let bytes = |text: &str| QrSegment::make_bytes(text.as_bytes());
    match address.split_once('#') {
        Some((before, after)) if QrSegment::is_alphanumeric(after) => vec![
            bytes(&format!("{before}#")),
            QrSegment::make_alphanumeric(after),
        ],
        _ => vec![bytes(address)],
    }
}

fn encode(segments: &[QrSegment], correction: QrCodeEcc, most: u8) -> Option<QrCode> {
    let most = Version::new(most);
    QrCode::encode_segments_advanced(segments, correction, Version::MIN, most, None, true).ok()
}

fn modules(code: &QrCode) -> Modules {
    let across = code.size();
    let rows = (0..across).flat_map(|row| (0..across).map(move |column| (column, row)));
    Modules {
        size: across.unsigned_abs() as usize,
        version: code.version().value(),
        dark: rows
            .map(|(column, row)| code.get_module(column, row))
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::link::encode_qr_text;

    #[test]
    fn an_address_becomes_two_segments() {
        let address = format!("https://example.test/#{}", encode_qr_text(&[200; 900]));
        let code = qr(&address).unwrap();
        assert!(code.version <= LARGEST_ON_SITE, "version {}", code.version);
        assert_eq!(code.size, usize::from(code.version) * 4 + 17);
        // The finder pattern in the upper left corner: seven dark modules over a light one.
        assert!((0..7).all(|column| code.is_dark(column, 0)));
        assert!((0..8).all(|column| !code.is_dark(column, 7)));
        assert!(!code.is_dark(code.size, 0));
    }

    #[test]
    fn too_long_is_said() {
        let address = format!("https://example.test/#{}", "A".repeat(5000));
        assert_eq!(qr(&address), Err(LinkError::TooLongForCode));
    }
}

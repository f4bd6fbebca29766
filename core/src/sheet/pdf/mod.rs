//! Pages as one vector PDF: paths are paths and text is text, with its font inside.
//!
//! The same pages and fonts give the same bytes: no date, no random name. A viewer is asked to print
//! without scaling. Signs the font lacks show as its empty box and are still found by search.

mod content;
mod face;

use std::fmt;

use miniz_oxide::deflate::compress_to_vec_zlib;
use pdf_writer::{Finish, Name, Pdf, Rect, Ref, TextStr};

use super::Page;
use crate::picture::font::MM_PER_POINT;
use face::Face;

/// The two files of the one family: `static/fonts/borewright-sans-regular.ttf` and `-bold.ttf`.
#[derive(Clone, Copy, Debug)]
pub struct Fonts<'f> {
    /// Regular, as TrueType.
    pub regular: &'f [u8],
    /// Bold, as TrueType.
    pub bold: &'f [u8],
}

/// A font file that cannot be used. `Display` is one sentence for the person.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FontError;

impl fmt::Display for FontError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("The font for the PDF could not be read. Reload the page, or print from it.")
    }
}

impl std::error::Error for FontError {}

/// Objects of the file that are always there.
const CATALOG: Ref = Ref::new(1);
const TREE: Ref = Ref::new(2);
const INFORMATION: Ref = Ref::new(3);
/// The first objects of the two fonts; each takes [`face::OBJECTS`].
const FONTS: [Ref; 2] = [Ref::new(4), Ref::new(4 + face::OBJECTS)];
/// The first page's object; each page takes two.
const PAGES: i32 = 4 + 2 * face::OBJECTS;
/// How hard streams are packed: 6 of 10.
const PACKING: u8 = 6;

/// Writes pages as one PDF file.
///
/// # Errors
/// When a font file is no TrueType font.
pub fn pdf(pages: &[Page], fonts: &Fonts) -> Result<Vec<u8>, FontError> {
    let mut faces = [
        Face::read(fonts.regular, "BorewrightSans-Regular")?,
        Face::read(fonts.bold, "BorewrightSans-Bold")?,
    ];
    let contents: Vec<Vec<u8>> = pages
        .iter()
        .map(|page| content::write(page, &mut faces))
        .collect();
    let mut pdf = Pdf::new();
    write_catalog(&mut pdf, pages);
    for (place, (page, content)) in pages.iter().zip(&contents).enumerate() {
        write_page(&mut pdf, page, place, content);
    }
    for (face, first) in faces.iter().zip(FONTS) {
        face.write(&mut pdf, first)?;
    }
    Ok(pdf.finish())
}

fn page_ref(place: usize) -> Ref {
    Ref::new(PAGES.saturating_add(2 * i32::try_from(place).unwrap_or(i32::MAX / 4)))
}

fn content_ref(place: usize) -> Ref {
    Ref::new(page_ref(place).get() + 1)
}

fn write_catalog(pdf: &mut Pdf, pages: &[Page]) {
    let mut catalog = pdf.catalog(CATALOG);
    catalog.pages(TREE);
    catalog.lang(TextStr("en"));
    catalog
        .viewer_preferences()
        .display_doc_title(true)
        .pair(Name(b"PrintScaling"), Name(b"None"));
    catalog.finish();
    let count = i32::try_from(pages.len()).unwrap_or(i32::MAX);
    pdf.pages(TREE)
        .kids((0..pages.len()).map(page_ref))
        .count(count);
    let title = pages.first().map_or("", |page| page.job.as_str());
    pdf.document_info(INFORMATION)
        .title(TextStr(title))
        .producer(TextStr("Borewright"));
}

fn write_page(pdf: &mut Pdf, page: &Page, place: usize, content: &[u8]) {
    let mut object = pdf.page(page_ref(place));
    let points = |mm: f64| (mm / MM_PER_POINT) as f32;
    object.media_box(Rect::new(
        0.0,
        0.0,
        points(page.extent.width),
        points(page.extent.height),
    ));
    object.parent(TREE);
    object.contents(content_ref(place));
    let mut resources = object.resources();
    let mut dictionary = resources.fonts();
    for (name, font) in face::NAMES.iter().zip(FONTS) {
        dictionary.pair(Name(name), font);
    }
    dictionary.finish();
    resources.finish();
    object.finish();
    let packed = compress_to_vec_zlib(content, PACKING);
    pdf.stream(content_ref(place), &packed)
        .filter(pdf_writer::Filter::FlateDecode);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::picture::sample;
    use crate::sheet::{Paper, Sheets};

    const REGULAR: &[u8] = include_bytes!("../../../../static/fonts/borewright-sans-regular.ttf");
    const BOLD: &[u8] = include_bytes!("../../../../static/fonts/borewright-sans-bold.ttf");

    fn written(fonts: &Fonts) -> Result<Vec<u8>, FontError> {
        let plan = sample::house();
        let pages = Sheets::of(&plan, &Design::of(&plan), &Paper::default());
        pdf(&pages, fonts)
    }

    #[test]
    fn the_same_pages_give_the_same_bytes() {
        let fonts = Fonts {
            regular: REGULAR,
            bold: BOLD,
        };
        let one = written(&fonts).unwrap();
        assert!(one.starts_with(b"%PDF-1.7"));
        assert_eq!(one, written(&fonts).unwrap());
    }

    #[test]
    fn a_file_that_is_no_font_is_refused() {
        let wrong = Fonts {
            regular: b"no font",
            bold: BOLD,
        };
        assert_eq!(written(&wrong), Err(FontError));
        assert!(FontError.to_string().ends_with("or print from it."));
        let cut = Fonts {
            regular: &REGULAR[..2000],
            bold: BOLD,
        };
        assert_eq!(written(&cut), Err(FontError));
    }

    #[test]
    fn widths_are_those_of_the_font_files() {
        use crate::picture::font::{Weight, has, width};
        for (data, weight) in [(REGULAR, Weight::Regular), (BOLD, Weight::Bold)] {
            let face = ttf_parser::Face::parse(data, 0).unwrap();
            let em = f64::from(face.units_per_em());
            for sign in ('\u{20}'..='\u{27ff}').filter(|sign| !sign.is_control()) {
                let glyph = face.glyph_index(sign);
                assert_eq!(glyph.is_some(), has(sign), "{sign:?}");
                if let Some(advance) = glyph.and_then(|glyph| face.glyph_hor_advance(glyph)) {
                    let known = width(&sign.to_string(), weight);
                    assert!((f64::from(advance) / em - known).abs() < 1e-9, "{sign:?}");
                }
            }
        }
    }
}

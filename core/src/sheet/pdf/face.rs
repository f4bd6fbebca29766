//! One font in a PDF: the glyphs that are used, their widths, and the text they stand for.

use std::collections::BTreeMap;

use miniz_oxide::deflate::compress_to_vec_zlib;
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str};
use subsetter::GlyphRemapper;

use super::{FontError, PACKING};

/// What pages call the two fonts.
pub(super) const NAMES: [&[u8]; 2] = [b"R", b"B"];
/// Objects a font takes: itself, its glyphs, their description, the file, the text map.
pub(super) const OBJECTS: i32 = 5;

const CMAP: Name = Name(b"Text");
const SYSTEM: SystemInfo = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

/// A font and what is used of it so far.
pub(super) struct Face<'d> {
    data: &'d [u8],
    face: ttf_parser::Face<'d>,
    name: &'static str,
    glyphs: GlyphRemapper,
    /// The first text each used glyph stood for, by its new number.
    texts: BTreeMap<u16, char>,
}

impl<'d> Face<'d> {
    /// Reads a TrueType file.
    pub fn read(data: &'d [u8], name: &'static str) -> Result<Self, FontError> {
        let face = ttf_parser::Face::parse(data, 0).map_err(|_| FontError)?;
        let glyphs = GlyphRemapper::new();
        // A file cut short may still name its tables; only a subset made of it tells.
        subsetter::subset(data, 0, &glyphs).map_err(|_| FontError)?;
        Ok(Self {
            data,
            face,
            name,
            glyphs,
            texts: BTreeMap::new(),
        })
    }

    /// Text as two-byte glyph numbers of the subset.
    pub fn encode(&mut self, text: &str) -> Vec<u8> {
        let mut encoded = Vec::with_capacity(text.len() * 2);
        for sign in text.chars() {
            let glyph = self.face.glyph_index(sign).map_or(0, |glyph| glyph.0);
            let new = self.glyphs.remap(glyph);
            if new != 0 {
                self.texts.entry(new).or_insert(sign);
            }
            encoded.extend(new.to_be_bytes());
        }
        encoded
    }

    /// Writes the font's objects from `first` on.
    pub fn write(&self, pdf: &mut Pdf, first: Ref) -> Result<(), FontError> {
        let [font, cid, descriptor, file, map] = [0, 1, 2, 3, 4].map(|n| Ref::new(first.get() + n));
        let name = self.subset_name();
        pdf.type0_font(font)
            .base_font(Name(name.as_bytes()))
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(cid)
            .to_unicode(map);
        self.write_widths(pdf, cid, descriptor, &name);
        self.write_descriptor(pdf, descriptor, file, &name);
        let subset = subsetter::subset(self.data, 0, &self.glyphs).map_err(|_| FontError)?;
        let packed = compress_to_vec_zlib(&subset, PACKING);
        pdf.stream(file, &packed)
            .filter(Filter::FlateDecode)
            .pair(Name(b"Length1"), i32::try_from(subset.len()).unwrap_or(0));
        let mut texts = UnicodeCmap::new(CMAP, SYSTEM);
        for (glyph, sign) in &self.texts {
            texts.pair(*glyph, *sign);
        }
        pdf.cmap(map, &texts.finish());
        Ok(())
    }

    /// The font's name behind six letters that stand for the glyphs it holds.
    fn subset_name(&self) -> String {
        let mut sum: u64 = 0xcbf2_9ce4_8422_2325;
        for glyph in self.glyphs.remapped_gids() {
            sum = (sum ^ u64::from(glyph)).wrapping_mul(0x0100_0000_01b3);
        }
        let letter = |place: u32| char::from(b'A' + (sum >> (place * 9)) as u8 % 26);
        let tag: String = (0..6).map(letter).collect();
        format!("{tag}+{}", self.name)
    }

    /// Font units as thousandths of an em.
    fn scaled(&self, units: impl Into<f32>) -> f32 {
        units.into() * 1000.0 / f32::from(self.face.units_per_em().max(1))
    }

    fn write_widths(&self, pdf: &mut Pdf, cid: Ref, descriptor: Ref, name: &str) {
        let widths = self.glyphs.remapped_gids().map(|glyph| {
            let advance = self.face.glyph_hor_advance(ttf_parser::GlyphId(glyph));
            self.scaled(advance.unwrap_or(0))
        });
        let mut font = pdf.cid_font(cid);
        font.subtype(CidFontType::Type2)
            .base_font(Name(name.as_bytes()))
            .system_info(SYSTEM)
            .font_descriptor(descriptor)
            .default_width(0.0)
            .cid_to_gid_map_predefined(Name(b"Identity"));
        font.widths().consecutive(0, widths);
        font.finish();
    }

    fn write_descriptor(&self, pdf: &mut Pdf, descriptor: Ref, file: Ref, name: &str) {
        let around = self.face.global_bounding_box();
        let around = Rect::new(
            self.scaled(around.x_min),
            self.scaled(around.y_min),
            self.scaled(around.x_max),
            self.scaled(around.y_max),
        );
        let bold = if self.face.is_bold() { 140.0 } else { 80.0 };
        pdf.font_descriptor(descriptor)
            .name(Name(name.as_bytes()))
            .flags(FontFlags::NON_SYMBOLIC)
            .bbox(around)
            .italic_angle(0.0)
            .ascent(self.scaled(self.face.ascender()))
            .descent(self.scaled(self.face.descender()))
            .cap_height(self.scaled(self.face.capital_height().unwrap_or(660)))
            .stem_v(bold)
            .font_file2(file);
    }
}

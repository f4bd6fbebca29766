//! The paper: what the pencil leaves on it, and the picture a scanner makes of it.

use crate::Outcome;

/// A sheet in pixels; each holds how much graphite lies on it, from 0 to 1.
pub struct Paper {
    width: usize,
    height: usize,
    ink: Vec<f32>,
}

/// What bare paper and solid graphite look like, red, green and blue.
const BARE: [f64; 3] = [247.0, 241.0, 228.0];
const GRAPHITE: [f64; 3] = [52.0, 50.0, 52.0];
/// Steps between the two, each too small to see.
const TONES: usize = 160;

impl Paper {
    pub fn new(width: usize, height: usize) -> Self {
        Self {
            width,
            height,
            ink: vec![0.0; width * height],
        }
    }

    /// Leaves graphite under a round point of a given width.
    pub fn touch(&mut self, (x, y): (f64, f64), width: f64, dark: f64) {
        let radius = width / 2.0;
        let reach = radius + 1.0;
        let columns = pixels(x - reach, x + reach, self.width);
        for row in pixels(y - reach, y + reach, self.height) {
            for column in columns.clone() {
                let (dx, dy) = (column as f64 + 0.5 - x, row as f64 + 0.5 - y);
                let cover = (radius + 0.5 - (dx * dx + dy * dy).sqrt()).clamp(0.0, 1.0);
                let ink = (cover * dark * tooth(column, row)) as f32;
                if let Some(pixel) = self.ink.get_mut(row * self.width + column) {
                    *pixel = pixel.max(ink);
                }
            }
        }
    }

    /// The scan as a PNG of a few tones.
    pub fn png(&self) -> Outcome<Vec<u8>> {
        let mut bytes = Vec::new();
        let mut encoder = png::Encoder::new(&mut bytes, self.width as u32, self.height as u32);
        encoder.set_color(png::ColorType::Indexed);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_palette(palette());
        encoder.set_compression(png::Compression::High);
        let mut writer = encoder.write_header()?;
        writer.write_image_data(&self.tones())?;
        writer.finish()?;
        Ok(bytes)
    }

    fn tones(&self) -> Vec<u8> {
        let tone = |(place, ink): (usize, &f32)| {
            let shade = shade(
                (place % self.width) as f64 / self.width as f64,
                (place / self.width) as f64 / self.height as f64,
            );
            let dark = (f64::from(*ink) + shade).clamp(0.0, 1.0);
            (dark * (TONES - 1) as f64).round() as u8
        };
        self.ink.iter().enumerate().map(tone).collect()
    }
}

/// The scanner's light falls off towards the lower right corner, and the sheet was folded once.
fn shade(x: f64, y: f64) -> f64 {
    let falling = 0.022 * (x * x + y * y);
    let fold = 0.03 * (1.0 - ((y - 0.52) * 260.0).abs()).max(0.0);
    falling + fold
}

/// The tooth of the paper: graphite catches unevenly.
fn tooth(column: usize, row: usize) -> f64 {
    let mut z = (column as u64) << 32 ^ row as u64;
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    let grain = ((z >> 40) & 0xFF) as f64 / 255.0;
    1.0 - 0.28 * grain * grain
}

fn pixels(from: f64, to: f64, size: usize) -> std::ops::Range<usize> {
    let clamp = |at: f64| at.clamp(0.0, size as f64) as usize;
    clamp(from.floor())..clamp(to.ceil() + 1.0)
}

fn palette() -> Vec<u8> {
    let tone = |step: usize| {
        let share = step as f64 / (TONES - 1) as f64;
        let mix = move |channel: usize| BARE[channel] + (GRAPHITE[channel] - BARE[channel]) * share;
        [
            mix(0).round() as u8,
            mix(1).round() as u8,
            mix(2).round() as u8,
        ]
    };
    (0..TONES).flat_map(tone).collect()
}

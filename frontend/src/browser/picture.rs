//! Pictures: from the bytes of a file to a scan of a size the page can hold.

use std::ops::Range;

use borewright_core::plan::Scan;
use borewright_core::scan::{Header, Squaring, header};
use gloo::file::Blob;
use wasm_bindgen::{Clamped, JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, ImageBitmap, ImageData};

/// Pictures are kept at most this long on their longer side, pixels.
const LONGEST: u32 = 3000;

/// A larger file is packed anew even if its picture is not too long, bytes.
const HEAVIEST: usize = 4 << 20;

/// How well a picture packed anew is kept, 0 to 1.
const QUALITY: f64 = 0.85;

/// Rows squared up at a time.
const BAND: u32 = 64;

/// What is said of a picture the browser cannot decode.
const UNREADABLE: &str = "This picture cannot be decoded; it may be damaged. Copy it again, or save it as PNG, then open that.";

/// Whether bytes start like a picture or a document that is none of ours.
pub fn is_picture(bytes: &[u8]) -> bool {
    use borewright_core::scan::HeaderError::{Empty, NotAPicture};
    !matches!(header(bytes), Err(NotAPicture | Empty))
}

/// Decodes a picture to see that it is whole, and packs it anew where it is too large.
///
/// # Errors
/// One sentence: no picture, cut short, too many pixels, or not decodable here.
pub async fn scan(bytes: Vec<u8>) -> Result<Scan, String> {
    let found = header(&bytes).map_err(|error| error.to_string())?;
    let bitmap = decode(&found, &bytes).await.ok_or(UNREADABLE)?;
    let scan = fitted(&found, &bitmap, bytes).await;
    bitmap.close();
    scan
}

async fn decode(found: &Header, bytes: &[u8]) -> Option<ImageBitmap> {
    let blob = Blob::new_with_options(bytes, Some(found.media_type));
    let promise = gloo::utils::window()
        .create_image_bitmap_with_blob(blob.as_ref())
        .ok()?;
    JsFuture::from(promise).await.ok()?.dyn_into().ok()
}

async fn fitted(found: &Header, bitmap: &ImageBitmap, bytes: Vec<u8>) -> Result<Scan, String> {
    let (width, height) = (bitmap.width(), bitmap.height());
    let longer = width.max(height);
    if longer <= LONGEST && bytes.len() <= HEAVIEST {
        let media_type = String::from(found.media_type);
        return Ok(Scan {
            media_type,
            width,
            height,
            bytes,
        });
    }
    let factor = f64::from(LONGEST.min(longer)) / f64::from(longer);
    let side = |pixels: u32| ((f64::from(pixels) * factor).round() as u32).max(1);
    let (width, height) = (side(width), side(height));
    let bytes = packed(bitmap, width, height).await.ok_or(UNREADABLE)?;
    Ok(Scan {
        media_type: String::from("image/jpeg"),
        width,
        height,
        bytes,
    })
}

/// The picture drawn at another size and packed as JPEG.
async fn packed(bitmap: &ImageBitmap, width: u32, height: u32) -> Option<Vec<u8>> {
    let (canvas, ink) = drawn(bitmap, width, height)?;
    drop(ink);
    jpeg(&canvas).await
}

/// A canvas of a size with the whole picture on it.
fn drawn(
    bitmap: &ImageBitmap,
    width: u32,
    height: u32,
) -> Option<(HtmlCanvasElement, CanvasRenderingContext2d)> {
    let (canvas, ink) = blank(width, height)?;
    let (across, down) = (f64::from(width), f64::from(height));
    // Transparent pictures lie on white paper.
    ink.set_fill_style_str("white");
    ink.fill_rect(0.0, 0.0, across, down);
    ink.draw_image_with_image_bitmap_and_dw_and_dh(bitmap, 0.0, 0.0, across, down)
        .ok()?;
    Some((canvas, ink))
}

fn blank(width: u32, height: u32) -> Option<(HtmlCanvasElement, CanvasRenderingContext2d)> {
    let canvas = gloo::utils::document().create_element("canvas").ok()?;
    let canvas: HtmlCanvasElement = canvas.dyn_into().ok()?;
    canvas.set_width(width);
    canvas.set_height(height);
    let ink = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    Some((canvas, ink))
}

async fn jpeg(canvas: &HtmlCanvasElement) -> Option<Vec<u8>> {
    let blob: web_sys::Blob = JsFuture::from(blob_of(canvas))
        .await
        .ok()?
        .dyn_into()
        .ok()?;
    gloo::file::futures::read_as_bytes(&Blob::from(blob))
        .await
        .ok()
}

/// The picture squared up, band by band. `go_on` is told how far it is, per cent, and may say no;
/// then there is no picture and nothing to say.
///
/// # Errors
/// One sentence when the picture cannot be decoded or written any more.
pub async fn squared(
    scan: &Scan,
    squaring: &Squaring,
    go_on: impl Fn(u8) -> bool,
) -> Result<Option<Scan>, String> {
    let size = (scan.width, scan.height);
    let old = pixels(scan).await.ok_or(UNREADABLE)?;
    let (canvas, ink) = blank(squaring.width, squaring.height).ok_or(UNREADABLE)?;
    let mut row = 0;
    while row < squaring.height {
        let end = (row + BAND).min(squaring.height);
        if !go_on((u64::from(row) * 100 / u64::from(squaring.height)) as u8) {
            return Ok(None);
        }
        lay(&ink, squaring, (size, &old), row..end).ok_or(UNREADABLE)?;
        row = end;
        // The sheet stays alive between two bands.
        gloo::timers::future::TimeoutFuture::new(0).await;
    }
    Ok(Some(Scan {
        media_type: String::from("image/jpeg"),
        width: squaring.width,
        height: squaring.height,
        bytes: jpeg(&canvas).await.ok_or(UNREADABLE)?,
    }))
}

/// Writes a band of rows of the squared picture.
fn lay(
    ink: &CanvasRenderingContext2d,
    squaring: &Squaring,
    (size, old): ((u32, u32), &[u8]),
    rows: Range<u32>,
) -> Option<()> {
    let (top, height) = (f64::from(rows.start), rows.end - rows.start);
    let new = squaring.rows(size, old, rows)?;
    let band = ImageData::new_with_u8_clamped_array_and_sh(Clamped(&new), squaring.width, height);
    ink.put_image_data(&band.ok()?, 0.0, top).ok()
}

/// Every pixel of a scan: red, green, blue and opacity, row by row.
async fn pixels(scan: &Scan) -> Option<Vec<u8>> {
    let found = header(&scan.bytes).ok()?;
    let bitmap = decode(&found, &scan.bytes).await?;
    let (canvas, ink) = drawn(&bitmap, scan.width, scan.height)?;
    bitmap.close();
    let (width, height) = (f64::from(canvas.width()), f64::from(canvas.height()));
    let data = ink.get_image_data(0.0, 0.0, width, height).ok()?;
    Some(data.data().0)
}

fn blob_of(canvas: &HtmlCanvasElement) -> js_sys::Promise {
    js_sys::Promise::new(&mut |resolve, reject| {
        let quality = JsValue::from_f64(QUALITY);
        if canvas
            .to_blob_with_type_and_encoder_options(&resolve, "image/jpeg", &quality)
            .is_err()
        {
            let _ = reject.call0(&JsValue::NULL);
        }
    })
}

#[cfg(all(test, target_family = "wasm"))]
mod tests {
    #![allow(
        clippy::unwrap_used,
        reason = "a browser test may stop at the first surprise"
    )]

    use super::*;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    /// A picture of one colour, packed by the browser itself.
    async fn jpeg(width: u32, height: u32) -> Vec<u8> {
        let canvas = gloo::utils::document().create_element("canvas").unwrap();
        let canvas: HtmlCanvasElement = canvas.dyn_into().unwrap();
        canvas.set_width(width);
        canvas.set_height(height);
        let blob: web_sys::Blob = JsFuture::from(blob_of(&canvas))
            .await
            .unwrap()
            .dyn_into()
            .unwrap();
        gloo::file::futures::read_as_bytes(&Blob::from(blob))
            .await
            .unwrap()
    }

    #[wasm_bindgen_test]
    async fn a_small_picture_keeps_its_bytes() {
        let bytes = jpeg(640, 480).await;
        let kept = scan(bytes.clone()).await.unwrap();
        assert_eq!((kept.width, kept.height, kept.bytes), (640, 480, bytes));
    }

    #[wasm_bindgen_test]
    async fn a_large_picture_is_packed_smaller() {
        let kept = scan(jpeg(4500, 1500).await).await.unwrap();
        assert_eq!((kept.width, kept.height), (3000, 1000));
        assert_eq!(header(&kept.bytes).unwrap().width, 3000);
    }

    #[wasm_bindgen_test]
    async fn what_cannot_be_decoded_is_said_in_one_sentence() {
        let whole = jpeg(640, 480).await;
        let cut = whole[..whole.len() / 2].to_vec();
        assert!(scan(cut).await.unwrap_err().contains("breaks off"));
        assert!(
            scan(b"no picture".to_vec())
                .await
                .unwrap_err()
                .contains("no PNG")
        );
        let mut scratched = vec![0x89, b'P', b'N', b'G', 13, 10, 26, 10, 0, 0, 0, 13];
        scratched.extend(b"IHDR\0\0\0\x10\0\0\0\x10\x08\x02\0\0\0CRC4\0\0\0\0IENDCRC4");
        assert!(
            scan(scratched)
                .await
                .unwrap_err()
                .contains("cannot be decoded")
        );
    }
}

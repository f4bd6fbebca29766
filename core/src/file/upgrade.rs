//! Which version a file is, and the chain that brings older versions up: each step turns one
//! version into the next, and the newest becomes the plan. A step, once published, never changes.

use std::borrow::Cow;

use super::fields::Fields;
use super::losses::Losses;
use super::{FileError, LARGEST, Opened, mend, salvage, v1};

/// The newest version this program writes and reads.
const NEWEST: u64 = v1::VERSION;

/// Opens a file of any version.
pub(super) fn open(bytes: &[u8]) -> Result<Opened, FileError> {
    if bytes.len() > LARGEST {
        return Err(FileError::TooLarge);
    }
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(FileError::Empty);
    }
    let mut losses = Losses::default();
    let text = readable(bytes, &mut losses)?;
    let fields = Fields::of_document(&text).ok_or(FileError::Damaged)?;
    let version = version(&fields, &mut losses)?;
    let mut plan = match version {
        1 => v1::read(&fields, &mut losses),
        0 => return Err(FileError::Damaged),
        _ => return Err(FileError::TooNew),
    };
    mend::mend(&mut plan, &mut losses);
    Ok(Opened {
        plan,
        losses: losses.into_sentences(),
    })
}

/// The text of the file, mended where it is no JSON document as it stands.
fn readable<'a>(bytes: &'a [u8], losses: &mut Losses) -> Result<Cow<'a, str>, FileError> {
    let text = letters(bytes);
    if Fields::of_document(&text).is_some() {
        return Ok(text);
    }
    match text.contains(v1::FORMAT) {
        true => Ok(Cow::Owned(salvage::mended(&text, losses))),
        false => Err(FileError::NotAPlan),
    }
}

/// The bytes as text; what is no UTF-8 becomes question marks, byte by byte, so that the text is
/// never larger than the bytes.
fn letters(bytes: &[u8]) -> Cow<'_, str> {
    if let Ok(text) = std::str::from_utf8(bytes) {
        return Cow::Borrowed(text);
    }
    let mut text = String::with_capacity(bytes.len());
    for chunk in bytes.utf8_chunks() {
        text.push_str(chunk.valid());
        text.extend(chunk.invalid().iter().map(|_| '?'));
    }
    Cow::Owned(text)
}

fn version(fields: &Fields, losses: &mut Losses) -> Result<u64, FileError> {
    let format: Option<String> = fields.one("format", "The kind of file", &mut Losses::default());
    if format.as_deref() != Some(v1::FORMAT) {
        return Err(FileError::NotAPlan);
    }
    let version: Option<u64> = fields.one("version", "The version of the file", losses);
    Ok(version.unwrap_or(NEWEST))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::write;
    use crate::plan::Plan;

    #[test]
    fn a_new_plan_comes_back_whole() {
        let plan = Plan::new();
        let opened = open(&write(&plan)).unwrap();
        assert_eq!(opened.losses, Vec::<String>::new());
        assert_eq!(opened.plan, plan);
    }

    #[test]
    fn strangers_are_told_apart() {
        let check = |bytes: &[u8], error| assert_eq!(open(bytes), Err(error));
        check(b"", FileError::Empty);
        check(b"\xEF\xBB\xBF \n", FileError::Empty);
        check(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", FileError::NotAPlan);
        check(b"{\"format\":\"other\",\"version\":1}", FileError::NotAPlan);
        check(b"[1,2,3]", FileError::NotAPlan);
        check(
            b"{\"format\":\"borewright plan\",\"version\":2}",
            FileError::TooNew,
        );
        check(
            b"{\"format\":\"borewright plan\",\"version\":0}",
            FileError::Damaged,
        );
        check(&vec![b' '; LARGEST + 1], FileError::TooLarge);
    }

    #[test]
    fn a_mark_alone_gives_an_empty_plan() {
        let opened = open(b"{\"format\":\"borewright plan\",\"version\":1}").unwrap();
        assert_eq!(opened.plan, Plan::new());
        assert_eq!(
            opened.losses,
            ["The plan has no level; an empty one was put in."]
        );
    }
}

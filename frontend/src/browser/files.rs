//! Files out of and into the page.

use gloo::file::{Blob, ObjectUrl};
use wasm_bindgen::JsCast;
use web_sys::{DataTransfer, Event, File, HtmlAnchorElement, HtmlInputElement};

/// The bytes of a file a person chose.
///
/// # Errors
/// One sentence when the file cannot be read any more.
pub async fn read(file: &File) -> Result<Vec<u8>, String> {
    let blob = Blob::from(web_sys::Blob::from(file.clone()));
    let gone = |_| String::from("This file cannot be read any more. Choose it again.");
    gloo::file::futures::read_as_bytes(&blob)
        .await
        .map_err(gone)
}

/// Hands a file to the person, as a download.
pub fn save(name: &str, media_type: &str, bytes: &[u8]) {
    let url = address(media_type, bytes);
    let link = gloo::utils::document().create_element("a");
    if let Some(link) = link
        .ok()
        .and_then(|link| link.dyn_into::<HtmlAnchorElement>().ok())
    {
        link.set_href(&url);
        link.set_download(name);
        link.click();
        // The browser reads the address after this event; it is let go of a little later.
        gloo::timers::callback::Timeout::new(60_000, move || drop(url)).forget();
    }
}

/// An address for bytes, good while it is held.
pub fn address(media_type: &str, bytes: &[u8]) -> ObjectUrl {
    ObjectUrl::from(Blob::new_with_options(bytes, Some(media_type)))
}

/// The file chosen in a file field; the field is emptied, so that the same file can be chosen again.
pub fn chosen(event: &Event) -> Option<File> {
    let input: HtmlInputElement = event.target()?.dyn_into().ok()?;
    let file = input.files()?.get(0);
    input.set_value("");
    file
}

/// The first file that was dropped or pasted.
pub fn handed_over(transfer: Option<DataTransfer>) -> Option<File> {
    transfer?.files()?.get(0)
}

/// Most bytes of a file's name before its ending: systems take 255 of all, and one that gets more may save nothing.
const LONGEST_NAME: usize = 120;

/// A name for a file of this job: letters and figures of its title as far as there is room, and an ending.
pub fn name_of(title: &str, ending: &str) -> String {
    let plain: String = title
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { ' ' })
        .collect();
    let words: Vec<&str> = plain.split_whitespace().collect();
    let stem = if words.is_empty() {
        String::from("plan")
    } else {
        words.join("-")
    };
    let stem = stem.to_lowercase();
    let stem = &stem[..stem.floor_char_boundary(LONGEST_NAME)];
    format!("{stem}.{ending}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_title_gives_a_name_that_every_system_takes() {
        assert_eq!(name_of("Larch Row, lot 3", "pdf"), "larch-row-lot-3.pdf");
        assert_eq!(name_of("?", "pdf"), "plan.pdf");
        assert_eq!(
            name_of(&"ש".repeat(130), "pdf"),
            format!("{}.pdf", "ש".repeat(60))
        );
        assert!(name_of(&"a b ".repeat(90), "borewright.json").len() < 140);
    }
}

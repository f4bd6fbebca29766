//! The ticked pages as one PDF file.

use borewright_core::desk::Notice;
use borewright_core::sheet::{Fonts, Page, pdf};
use wasm_bindgen_futures::spawn_local;

use super::pages::{laid_out, paper_of};
use crate::browser::{assets, files};
use crate::state::{Act, Desk, Dispatcher};

/// What is said when a font cannot be fetched.
const NO_FONT: &str =
    "The font for the PDF could not be fetched. Load the page again, or print from it.";

/// Writes the ticked pages, as they are printed, and hands them over as a file.
pub fn save(desk: &Desk, dispatcher: Dispatcher) {
    let session = desk.handed_on();
    let (plan, design) = (session.plan, session.design);
    let (paper, stack, left_out) = (paper_of(desk), desk.stack, desk.left_out.clone());
    spawn_local(async move {
        let pages: Vec<Page> = laid_out(&plan, &design, &paper, stack)
            .into_iter()
            .enumerate()
            .filter(|(place, _)| !left_out.contains(place))
            .map(|(_, page)| page)
            .collect();
        match written(&pages).await {
            Ok(bytes) => files::save(
                &files::name_of(&plan.title, "pdf"),
                "application/pdf",
                &bytes,
            ),
            Err(sentence) => dispatcher.dispatch(Act::Say(Notice::refused(sentence, None))),
        }
    });
}

async fn written(pages: &[Page]) -> Result<Vec<u8>, String> {
    let regular = font("regular").await.ok_or(NO_FONT)?;
    let bold = font("bold").await.ok_or(NO_FONT)?;
    let fonts = Fonts {
        regular: &regular,
        bold: &bold,
    };
    pdf(pages, &fonts).map_err(|error| error.to_string())
}

async fn font(weight: &str) -> Option<Vec<u8>> {
    assets::read(&format!("./fonts/borewright-sans-{weight}.ttf")).await
}

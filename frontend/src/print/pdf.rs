//! The ticked pages as one PDF file.

use borewright_core::desk::Notice;
use wasm_bindgen_futures::spawn_local;

use super::pages::{sentence, wanted};
use crate::browser::{assets, files};
use crate::state::{Act, Desk, Dispatcher, Wait};
use crate::worker;

/// What is said when a font cannot be fetched.
const NO_FONT: &str =
    "The font for the PDF could not be fetched. Load the page again, or print from it.";

/// Writes the ticked pages, as they are printed, and hands them over as a file.
pub fn save(desk: &Desk, dispatcher: Dispatcher) {
    let session = desk.handed_on();
    let (plan, design) = (session.plan, session.design);
    let wanted = wanted(&plan, desk);
    let left_out = desk.left_out.iter().copied().collect();
    let words = String::from("Writing the PDF");
    dispatcher.dispatch(Act::Wait(Some(Wait { words, done: None })));
    spawn_local(async move {
        let written = match fonts().await {
            Some(fonts) => worker::sheets_file(&plan, &design, wanted, left_out, fonts)
                .await
                .unwrap_or_else(|end| Err(String::from(sentence(end)))),
            None => Err(String::from(NO_FONT)),
        };
        dispatcher.dispatch(Act::Wait(None));
        match written {
            Ok(bytes) => files::save(
                &files::name_of(&plan.title, "pdf"),
                "application/pdf",
                &bytes,
            ),
            Err(sentence) => dispatcher.dispatch(Act::Say(Notice::refused(sentence, None))),
        }
    });
}

async fn fonts() -> Option<[Vec<u8>; 2]> {
    Some([font("regular").await?, font("bold").await?])
}

async fn font(weight: &str) -> Option<Vec<u8>> {
    assets::read(&format!("./fonts/borewright-sans-{weight}.ttf")).await
}

//! What is seen once the program has stopped by a fault of its own: a page of plain words that says what
//! is safe and offers the plan as a file. It stands in the place of everything else, for nothing of the
//! program answers any more.

use std::cell::RefCell;
use std::panic::PanicHookInfo;
use std::rc::Rc;

use borewright_core::file;
use borewright_core::plan::Plan;

use super::files;

/// The plan that is handed out should the program stop.
#[derive(Clone)]
pub struct Last {
    /// The plan as it stood before whatever stopped the program.
    pub plan: Rc<Plan>,
    /// What is known of it elsewhere: one sentence.
    pub safe: &'static str,
}

thread_local! {
    static LAST: RefCell<Option<Last>> = const { RefCell::new(None) };
}

/// Remembers the plan on the table.
pub fn remember(last: Last) {
    LAST.with(|held| held.replace(Some(last)));
}

/// Shows the page of plain words whenever the program stops.
pub fn watch() {
    yew::set_custom_panic_hook(Box::new(|fault: &PanicHookInfo| {
        gloo::console::error!(fault.to_string());
        show();
    }));
}

/// The words come first: putting the file together could stop as well, where memory has run out.
fn show() {
    let last = LAST.with(|held| held.try_borrow().ok().and_then(|last| last.clone()));
    let safe = last.as_ref().map_or("", |last| last.safe);
    let body = gloo::utils::body();
    body.set_inner_html(&words(safe, ""));
    if let Some(Last { plan, .. }) = &last {
        let address = files::address("application/json", &file::write(plan));
        let name = files::name_of(&plan.title, "borewright.json");
        let press = format!(
            "<p><a class=\"Press\" data-kind=\"main\" href=\"{}\" download=\"{name}\">Save the plan to a file</a></p>",
            &*address
        );
        body.set_inner_html(&words(safe, &press));
        // Good as long as these words stand.
        std::mem::forget(address);
    }
}

/// Nothing that a person wrote stands here but the letters and figures of a file's name.
fn words(safe: &str, press: &str) -> String {
    format!(
        "<main class=\"Stopped\" role=\"alert\"><h1>Borewright has stopped</h1>\
         <p>A fault in this program ended it; nothing on this page answers any more. {safe}</p>{press}\
         <p>Load the page again to go on. If it stops again with the same plan, keep the file and \
         go on with another plan.</p></main>"
    )
}

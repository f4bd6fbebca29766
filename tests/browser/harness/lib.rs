//! The hands and eyes of the browser stories: opens the served page in Chromium and uses it as a
//! person would, by what is written on it and what a screen reader would say.
//!
//! It knows nothing of Borewright: no class names, no test attributes, no inner state. What cannot
//! be found by label, role or text cannot be found by a person either, and that is a fault of the
//! page.
//!
//! # Writing a story
//!
//! A story is one file beside `main.rs`, named for what a person does, with tests like this:
//!
//! ```no_run
//! use borewright_tests::{Page, Size};
//!
//! # /*
//! #[test]
//! #[ignore = "needs the served page: cargo verify"]
//! # */
//! fn a_plan_is_taken_back_and_done_again() {
//!     let page = Page::open("undo", Size::Desk);
//!     page.button("Drops").tap();                       // role and name
//!     let sheet = page.labelled("Sheet");               // name alone
//!     page.tap_at(sheet.at(0.25, 0.40));                // a place on it, as a fraction of its box
//!     page.drag(sheet.at(0.2, 0.2), sheet.at(0.5, 0.2)); // pointer down, moved in steps, up
//!     page.field("Height").fill("16\"");                // focus, replace, as typed keys
//!     page.press("Control+z");
//!     page.see("1 drop");                               // waits until the text can be seen
//!     page.picture();                                   // target/screenshots/undo-1.png
//! }                                                     // closing fails on any console error
//! ```
//!
//! * Everything that looks for something **waits** up to [`WAIT`] for it, then stops the story and
//!   says what was there instead. Never sleep; use [`Page::until`] for a condition of your own.
//! * A name matches when it is equal; failing that, when exactly one thing has it as a part.
//! * A tap goes to the middle of the thing, by mouse, or by touch at [`Size::Tablet`] and
//!   [`Size::Phone`]; it stops the story when something else lies on top.
//! * [`Page::visitor`] is a second person with a profile of their own. [`Page::reload`] and
//!   [`Page::reopen`] come back to the page with the same profile.
//! * Files: [`Page::upload`], [`Page::drop_file`], [`Page::download`], [`Page::print_to_pdf`],
//!   [`Page::copied`] (the clipboard).
//! * A console error or a panic of the page fails the story when the page is closed. One that the
//!   story is about is announced before: [`Page::expect_error`].
//!
//! # Running stories
//!
//! `cargo verify` builds the release site, serves it from a deep path and runs every story;
//! `cargo verify stories` does only that. Against a page served by `cargo serve`:
//!
//! ```sh
//! BOREWRIGHT_SITE=http://127.0.0.1:8080/ cargo test -p borewright-tests --test browser -- --ignored undo
//! ```
//!
//! `CHROMEDRIVER` and `CHROME` name the two programs where they are not on the path.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "this is test code: it stops at the first surprise and says what it saw"
)]

mod browser;
mod files;
mod finding;
mod hand;
mod keys;
mod memory;
mod page;
mod tabs;
mod thing;

pub use browser::Size;
pub use hand::Point;
pub use page::{Page, WAIT};
pub use tabs::Tab;
pub use thing::Thing;

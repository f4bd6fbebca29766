//! Sheets: a preview of every page, of which those ticked are what paper gets.

mod pages;

pub use pages::SheetsPage;

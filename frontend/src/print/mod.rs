//! Sheets: a preview of every page, of which those ticked are what paper gets.

mod pages;
pub mod pdf;

pub use pages::SheetsPage;

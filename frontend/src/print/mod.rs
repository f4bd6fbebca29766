//! Sheets: a preview of every page, of which those ticked are what paper gets.

pub mod code;
mod pages;
pub mod pdf;

pub use pages::SheetsPage;

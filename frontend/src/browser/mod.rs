//! The only door to what the browser keeps and gives: storage, address, clipboard, printing, files.
//!
//! Nothing here knows a component. What can fail says so in one sentence.

pub mod clock;
pub mod pointer;

//! The only door to what the browser keeps and gives: storage, address, clipboard, printing, files.
//!
//! Nothing here knows a component. What can fail says so in one sentence.

pub mod address;
pub mod assets;
pub mod beside;
pub mod channel;
pub mod clipboard;
pub mod clock;
pub mod draft;
pub mod files;
pub mod focus;
pub mod jobs;
pub mod locks;
pub mod notes;
pub mod offline;
pub mod paper;
pub mod picture;
pub mod pointer;
pub mod program;
pub mod scope;
pub mod screen;
pub mod stopped;
pub mod storage;
pub mod ways;

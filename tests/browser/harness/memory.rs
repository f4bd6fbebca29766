//! How much memory the page took, as the machine counts it.

use crate::page::Page;
use std::path::Path;

impl Page {
    /// The most bytes that a process of this browser held which shows pages: a page with its workers, what they
    /// draw, and the browser's own engine. `None` where the machine does not tell.
    pub fn most_memory(&self) -> Option<u64> {
        let main: u32 = self.browser.process().parse().ok()?;
        let all = std::fs::read_dir("/proc").ok()?.flatten();
        let all = all.filter_map(|entry| entry.file_name().to_str()?.parse::<u32>().ok());
        let shows = all.filter(|process| is_renderer(*process) && is_below(*process, main));
        shows.filter_map(most).max()
    }
}

fn is_renderer(process: u32) -> bool {
    let line = std::fs::read(proc(process, "cmdline")).unwrap_or_default();
    String::from_utf8_lossy(&line).contains("--type=renderer")
}

fn is_below(process: u32, main: u32) -> bool {
    let parent = |process: u32| told(process, "PPid:").map(|parent| parent as u32);
    let line = std::iter::successors(Some(process), |process| parent(*process));
    line.take(16).any(|process| process == main)
}

fn most(process: u32) -> Option<u64> {
    told(process, "VmHWM:").map(|kilobytes| kilobytes * 1024)
}

/// A number of a process's status.
fn told(process: u32, name: &str) -> Option<u64> {
    let status = std::fs::read_to_string(proc(process, "status")).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix(name))?;
    line.split_whitespace().next()?.parse().ok()
}

fn proc(process: u32, file: &str) -> std::path::PathBuf {
    Path::new("/proc").join(process.to_string()).join(file)
}

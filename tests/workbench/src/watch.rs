//! Notices that a source file changed, by looking once a second.

use crate::cargo::root;
use std::path::Path;
use std::time::{Duration, SystemTime};

/// What the page is built from.
const WATCHED: [&str; 4] = ["core", "frontend", "static", "Cargo.toml"];

/// The newest change and the number of files, which together notice an edit, a new file and a
/// removed one.
pub type Seen = (Option<SystemTime>, usize);

/// Looks at every watched file.
pub fn look() -> Seen {
    let mut seen = (None, 0);
    for name in WATCHED {
        visit(&root().join(name), &mut seen);
    }
    seen
}

/// Waits until what [`look`] sees differs from `last`, then until it has been still for a moment.
pub fn wait_for_change(last: Seen) -> Seen {
    let mut now = look();
    while now == last {
        std::thread::sleep(Duration::from_secs(1));
        now = look();
    }
    loop {
        std::thread::sleep(Duration::from_millis(200));
        let again = look();
        if again == now {
            return now;
        }
        now = again;
    }
}

fn visit(path: &Path, seen: &mut Seen) {
    if path.is_dir() {
        let inside = std::fs::read_dir(path).into_iter().flatten().flatten();
        inside.for_each(|entry| visit(&entry.path(), seen));
    } else if let Ok(about) = path.metadata() {
        seen.0 = seen.0.max(about.modified().ok());
        seen.1 += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_and_a_changed_file_are_seen() {
        let folder = tempfile::tempdir().unwrap();
        let count = |at: &Path| {
            let mut seen = (None, 0);
            visit(at, &mut seen);
            seen
        };
        let empty = count(folder.path());
        let file = folder.path().join("a.css");
        std::fs::write(&file, "p{}").unwrap();
        let first = count(folder.path());
        assert_ne!(first, empty);
        let later = SystemTime::now() + Duration::from_secs(5);
        std::fs::File::options()
            .write(true)
            .open(&file)
            .unwrap()
            .set_modified(later)
            .unwrap();
        assert_ne!(count(folder.path()), first);
    }
}

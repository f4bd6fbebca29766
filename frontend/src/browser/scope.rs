//! What is this page's own among all pages of its host: another path may hold another page, or another release
//! of this one.

/// A name under which this page keeps something. At the root of a host, and where the page is a file, it is the
/// name itself.
pub fn own(name: &str) -> String {
    let location = gloo::utils::window().location();
    let is_hosted = location
        .protocol()
        .is_ok_and(|protocol| protocol.starts_with("http"));
    let path = location.pathname().unwrap_or_default();
    match is_hosted.then(|| folder(&path)).flatten() {
        Some(folder) => format!("{name} {folder}"),
        None => name.to_string(),
    }
}

/// The folder of a path; nothing for the root.
fn folder(path: &str) -> Option<&str> {
    let (folder, _) = path.rsplit_once('/')?;
    (!folder.is_empty()).then_some(folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_and_its_folder_are_one() {
        assert_eq!(folder("/some/path/"), Some("/some/path"));
        assert_eq!(folder("/some/path/index.html"), Some("/some/path"));
        assert_eq!(folder("/index.html"), None);
        assert_eq!(folder("/"), None);
    }
}

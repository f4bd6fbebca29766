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
    let path = plain(&path);
    match is_hosted.then(|| folder(&path)).flatten() {
        Some(folder) => format!("{name} {folder}"),
        None => name.to_string(),
    }
}

/// A path as it is usually spelled: `//` for `/` and `%61` for `a` name the same folder on a host, and what is
/// kept there must not seem lost. Signs that are only ever spelled so stay.
fn plain(path: &str) -> String {
    let mut parts = path.split('%');
    let mut plain = parts.next().unwrap_or_default().to_string();
    for part in parts {
        let (code, rest) = (part.get(..2), part.get(2..).unwrap_or_default());
        let sign = code
            .and_then(|code| u8::from_str_radix(code, 16).ok())
            .map(char::from);
        match sign.filter(|sign| sign.is_ascii_alphanumeric() || "-._~".contains(*sign)) {
            Some(sign) => plain.extend(std::iter::once(sign).chain(rest.chars())),
            None => plain.extend(std::iter::once('%').chain(part.chars())),
        }
    }
    while plain.contains("//") {
        plain = plain.replace("//", "/");
    }
    plain
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
    fn a_folder_spelled_otherwise_is_the_same() {
        assert_eq!(plain("/a//%61%2D/%20b%2F/%zz%"), "/a/a-/%20b%2F/%zz%");
        assert_eq!(plain("//a/"), "/a/");
    }

    #[test]
    fn a_page_and_its_folder_are_one() {
        assert_eq!(folder("/some/path/"), Some("/some/path"));
        assert_eq!(folder("/some/path/index.html"), Some("/some/path"));
        assert_eq!(folder("/index.html"), None);
        assert_eq!(folder("/"), None);
    }
}

//! Small changes to words that several panels make.

/// "Ceiling access point" of "ceiling access point".
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters
        .next()
        .map(|first| first.to_uppercase().chain(letters));
    first.map(Iterator::collect).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_begin_large_and_agree_with_their_number() {
        assert_eq!(capital("outlet"), "Outlet");
        assert_eq!(capital(""), "");
    }
}

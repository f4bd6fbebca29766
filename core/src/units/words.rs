//! Finding words in a text.

/// Whether every word of a search is in a text, in any order and any case.
pub fn has_words(text: &str, search: &str) -> bool {
    let all = text.to_lowercase();
    let mut words = search.split_whitespace();
    words.all(|word| all.contains(&word.to_lowercase()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_counts_and_its_case_does_not() {
        assert!(has_words("D4 outlet, Bedroom 1", "bedroom d4"));
        assert!(has_words("D4 outlet", " "));
        assert!(!has_words("D4 outlet, Bedroom 1", "bedroom 2"));
    }
}

//! Lays out compact JSON so that a person can read it and a comparison of two files shows what
//! changed: what fits on a line stays on it, the rest opens up. Never changes a value.

/// Longest container that stays on one line, bytes of compact JSON.
const LINE: usize = 300;

/// The same document with line breaks and spaces. `compact` is JSON without any white space
/// between its tokens.
pub(super) fn broken(compact: &str) -> String {
    let ends = ends(compact.as_bytes());
    let mut layout = Layout {
        out: String::with_capacity(compact.len() + compact.len() / 4),
        open: Vec::new(),
    };
    let mut ends = ends.into_iter();
    let mut rest = compact;
    let mut at = 0;
    while let Some(first) = rest.chars().next() {
        let length = match first {
            '"' => string_length(rest),
            _ => first.len_utf8(),
        };
        let (token, after) = rest.split_at(length);
        let fits = match first {
            '{' | '[' => ends.next().is_none_or(|end| end - at <= LINE),
            _ => true,
        };
        layout.token(token, fits);
        at += length;
        rest = after;
    }
    layout.out.push('\n');
    layout.out
}

struct Layout {
    out: String,
    /// Whether each open container is broken over lines.
    open: Vec<bool>,
}

impl Layout {
    fn token(&mut self, token: &str, fits: bool) {
        match token {
            "{" | "[" => {
                self.out.push_str(token);
                self.open.push(!fits);
                self.line_if_broken();
            }
            "}" | "]" => {
                if self.open.pop() == Some(true) {
                    self.line();
                }
                self.out.push_str(token);
            }
            "," => {
                self.out.push(',');
                match self.open.last() {
                    Some(true) => self.line(),
                    _ => self.out.push(' '),
                }
            }
            ":" => self.out.push_str(": "),
            _ => self.out.push_str(token),
        }
    }

    fn line_if_broken(&mut self) {
        if self.open.last() == Some(&true) {
            self.line();
        }
    }

    fn line(&mut self) {
        self.out.push('\n');
        let depth = self.open.iter().filter(|broken| **broken).count();
        self.out.extend(std::iter::repeat_n(' ', depth));
    }
}

/// Where each container ends, in the order the containers begin.
fn ends(json: &[u8]) -> Vec<usize> {
    let (mut ends, mut open) = (Vec::new(), Vec::new());
    let (mut in_string, mut escaped) = (false, false);
    for (at, byte) in json.iter().enumerate() {
        match (in_string, byte) {
            (true, _) if escaped => escaped = false,
            (true, b'\\') => escaped = true,
            (_, b'"') => in_string = !in_string,
            (false, b'{' | b'[') => {
                open.push(ends.len());
                ends.push(json.len());
            }
            (false, b'}' | b']') => {
                if let Some(end) = open.pop().and_then(|began: usize| ends.get_mut(began)) {
                    *end = at;
                }
            }
            _ => {}
        }
    }
    ends
}

/// Bytes of the string that `json` begins with, both quotes included.
fn string_length(json: &str) -> usize {
    let mut escaped = false;
    for (at, byte) in json.bytes().enumerate().skip(1) {
        match byte {
            _ if escaped => escaped = false,
            b'\\' => escaped = true,
            b'"' => return at + 1,
            _ => {}
        }
    }
    json.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use expect_test::expect;

    #[test]
    fn short_things_stay_on_one_line() {
        let long = "x".repeat(LINE);
        let json = format!(r#"{{"a":[1,{{"b,[":"\"}}é"}}],"c":"{long}"}}"#);
        let shown = broken(&json).replace(&long, "LONG");
        expect![[r#"
            {
             "a": [1, {"b,[": "\"}é"}],
             "c": "LONG"
            }
        "#]]
        .assert_eq(&shown);
    }

    #[test]
    fn only_white_space_changes() {
        let json = r#"{"walls":[{"id":1,"from":[0,-12]},{}],"note":"a: b, c\\"}"#;
        let value: serde_json::Value = serde_json::from_str(json).unwrap();
        let again: serde_json::Value = serde_json::from_str(&broken(json)).unwrap();
        assert_eq!(value, again);
    }
}

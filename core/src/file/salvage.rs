//! Makes a damaged document readable again: lines that are no JSON are left out, and what a cut
//! left open is closed. Our files hold one wall, drop or room a line, so a scratch costs a line.
//! Knows the grammar of JSON and nothing of plans.

use super::losses::Losses;

/// Deeper nesting than any plan has.
const DEEPEST: usize = 32;

/// The readable rest of `text` as one JSON document. What was left out goes to `losses`.
pub(super) fn mended(text: &str, losses: &mut Losses) -> String {
    let mut walk = Walk::default();
    let (mut bad, mut first) = (0_usize, 0_usize);
    for (number, line) in text.split_inclusive('\n').enumerate() {
        let before = walk.mark();
        let is_cut = !line.ends_with('\n');
        if walk.line(line, is_cut).is_none() {
            // The line a cut runs through is kept up to the cut.
            if is_cut && !walk.open.is_empty() {
                break;
            }
            walk.back(before);
            bad += 1;
            if bad == 1 {
                first = number + 1;
            }
        }
    }
    match bad {
        0 => {}
        1 => losses.say(format!(
            "Line {first} of the file was damaged and left out."
        )),
        _ => losses.say(format!(
            "{bad} lines of the file were damaged and left out, the first of them line {first}."
        )),
    }
    if walk.open.is_empty() {
        return walk.out;
    }
    losses.say("The file breaks off before its end; what came after is missing.");
    walk.closed()
}

/// What may come next.
#[derive(Clone, Copy, PartialEq, Eq, Default)]
enum Next {
    /// A value.
    #[default]
    Value,
    /// A key, or the end of the object.
    Key,
    /// The colon after a key.
    Colon,
    /// A comma, or the end of the container.
    Comma,
    /// Nothing: the document is complete.
    Nothing,
}

#[derive(Default)]
struct Walk {
    out: String,
    open: Vec<u8>,
    next: Next,
    /// Length of `out` and number of open containers after the last complete value.
    good: (usize, usize),
}

struct Mark {
    out: usize,
    open: Vec<u8>,
    next: Next,
    good: (usize, usize),
}

impl Walk {
    fn mark(&self) -> Mark {
        Mark {
            out: self.out.len(),
            open: self.open.clone(),
            next: self.next,
            good: self.good,
        }
    }

    fn back(&mut self, mark: Mark) {
        self.out.truncate(mark.out);
        self.open = mark.open;
        self.next = mark.next;
        self.good = mark.good;
    }

    /// Takes one line; `None` where it does not belong. The last line may end anywhere; another
    /// leaves something open only if a bracket ends it, so that a lost bracket costs its line and
    /// no more.
    fn line(&mut self, line: &str, is_last: bool) -> Option<()> {
        let mut rest = line.trim();
        let (before, ends_open) = (self.open.len(), rest.ends_with(['{', '[']));
        while let Some(first) = rest.bytes().next() {
            let length = match first {
                b'"' => string_length(rest)?,
                b'{' | b'}' | b'[' | b']' | b',' | b':' => 1,
                _ => plain_length(rest)?,
            };
            let (token, after) = rest.split_at_checked(length)?;
            // A number that was cut looks like a smaller number.
            if is_last && after.is_empty() && first_is_plain(token) {
                return None;
            }
            self.token(token)?;
            rest = after.trim_start();
        }
        self.out.push('\n');
        let sound = is_last || ends_open || self.open.len() <= before.max(1);
        sound.then_some(())
    }

    fn token(&mut self, token: &str) -> Option<()> {
        match (token, self.next) {
            ("{" | "[", Next::Value) if self.open.len() < DEEPEST => self.begin(token),
            ("}", Next::Key | Next::Comma) => self.end(b'{', token)?,
            ("]", Next::Value | Next::Comma) => self.end(b'[', token)?,
            (",", Next::Comma) => {
                self.next = self.after_comma()?;
                self.out.push(',');
            }
            (":", Next::Colon) => {
                self.next = Next::Value;
                self.out.push(':');
            }
            ("{" | "[" | "}" | "]" | "," | ":", _) => return None,
            (key, Next::Key) if key.starts_with('"') => {
                self.next = Next::Colon;
                self.out.push_str(key);
            }
            (value, Next::Value) => {
                serde_json::from_str::<serde::de::IgnoredAny>(value).ok()?;
                self.out.push_str(value);
                self.complete();
            }
            _ => return None,
        }
        Some(())
    }

    fn begin(&mut self, token: &str) {
        self.open.extend_from_slice(token.as_bytes());
        self.out.push_str(token);
        self.next = match token {
            "{" => Next::Key,
            _ => Next::Value,
        };
        if self.open.len() == 1 {
            self.good = (self.out.len(), 1);
        }
    }

    fn end(&mut self, began: u8, token: &str) -> Option<()> {
        if self.open.last() != Some(&began) {
            return None;
        }
        self.open.pop();
        drop_comma(&mut self.out);
        self.out.push_str(token);
        self.complete();
        Some(())
    }

    fn complete(&mut self) {
        self.good = (self.out.len(), self.open.len());
        self.next = match self.open.is_empty() {
            true => Next::Nothing,
            false => Next::Comma,
        };
    }

    fn after_comma(&self) -> Option<Next> {
        match self.open.last()? {
            b'{' => Some(Next::Key),
            _ => Some(Next::Value),
        }
    }

    /// The document with everything still open closed behind the last complete value.
    fn closed(mut self) -> String {
        self.out.truncate(self.good.0);
        for began in self.open.iter().take(self.good.1).rev() {
            self.out.push(match began {
                b'{' => '}',
                _ => ']',
            });
        }
        self.out
    }
}

/// A comma whose element was left out goes too.
fn drop_comma(out: &mut String) {
    let kept = out.trim_end();
    if kept.ends_with(',') {
        out.truncate(kept.len() - 1);
    }
}

/// Bytes of the string that `text` begins with; `None` where it does not end.
fn string_length(text: &str) -> Option<usize> {
    let mut escaped = false;
    for (at, byte) in text.bytes().enumerate().skip(1) {
        match byte {
            _ if escaped => escaped = false,
            b'\\' => escaped = true,
            b'"' => {
                let string = text.get(..at + 1)?;
                serde_json::from_str::<serde::de::IgnoredAny>(string).ok()?;
                return Some(at + 1);
            }
            _ => {}
        }
    }
    None
}

fn first_is_plain(token: &str) -> bool {
    plain_length(token).is_some()
}

/// Bytes of the number or word that `text` begins with; `None` where there is neither.
fn plain_length(text: &str) -> Option<usize> {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'+' | b'.');
    match text.bytes().take_while(|byte| plain(*byte)).count() {
        0 => None,
        length => Some(length),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, mended_text: &str, said: usize) {
        let mut losses = Losses::default();
        let mended = mended(text, &mut losses);
        let value: serde_json::Value = serde_json::from_str(&mended).unwrap();
        let expected: serde_json::Value = serde_json::from_str(mended_text).unwrap();
        assert_eq!(value, expected);
        assert_eq!(losses.into_sentences().len(), said, "{text}");
    }

    #[test]
    fn a_cut_document_is_closed_behind_its_last_whole_value() {
        check(
            "{\"a\": [\n{\"b\": 1},\n{\"b\": 2},\n{\"b\"",
            r#"{"a":[{"b":1},{"b":2}]}"#,
            1,
        );
        check("{\"a\": 1,\n\"b\": ", r#"{"a":1}"#, 1);
        check("{\"a\": 1,\n\"b\": 12", r#"{"a":1}"#, 1);
        check("{\n", "{}", 1);
    }

    #[test]
    fn a_scratch_costs_a_line() {
        check(
            "{\"a\": [\n{\"b\": 1},\nx\"b\": 2},\n{\"b\": 3}\n],\n\"c\": 4}",
            r#"{"a":[{"b":1},{"b":3}],"c":4}"#,
            1,
        );
        check(
            "{\"a\": [\n{\"b\": 1},\n{\"b\": 2,\n{\"b\": 3}\n],\n\"c\": 4}\n",
            r#"{"a":[{"b":1},{"b":3}],"c":4}"#,
            1,
        );
    }

    #[test]
    fn what_follows_the_document_is_left_out() {
        check("{\"a\": 1}\nnonsense", r#"{"a":1}"#, 1);
    }
}

//! What is another in a text than in the one before it, line by line: lines that stay are named by their
//! places, the rest is written out.
//!
//! A row of orders: `0`, first line, count of lines: copy them from the text before; or `1`, count of
//! bytes, the bytes: new text. Every number has four bytes, little-endian.

use std::collections::BTreeMap;

use super::super::LARGEST;

const COPY: u8 = 0;
const NEW: u8 = 1;

/// What makes `after` of `before`.
pub(super) fn between(before: &[u8], after: &[u8]) -> Vec<u8> {
    let (before, after) = (lines(before), lines(after));
    let head = common(before.iter(), after.iter());
    let (old, new) = (&before[head..], &after[head..]);
    let foot = common(old.iter().rev(), new.iter().rev());
    let (old, new) = (&old[..old.len() - foot], &new[..new.len() - foot]);
    let mut orders = Orders::default();
    orders.copy(0, head);
    orders.middle(head, old, new);
    orders.copy(before.len() - foot, foot);
    orders.end()
}

/// The text that a delta makes of the one before; `None` where it does not belong to it.
pub(super) fn applied(before: &[u8], delta: &[u8]) -> Option<Vec<u8>> {
    let lines = lines(before);
    let (mut text, mut rest) = (Vec::with_capacity(before.len()), delta);
    while let Some((order, after)) = rest.split_first() {
        let (first, after) = number(after)?;
        rest = match *order {
            COPY => {
                let (count, after) = number(after)?;
                let copied = lines.get(first..first.checked_add(count)?)?;
                let bytes: usize = copied.iter().map(|line| line.len()).sum();
                (text.len() + bytes <= LARGEST).then_some(())?;
                copied.iter().for_each(|line| text.extend(*line));
                after
            }
            NEW => {
                let (bytes, after) = after.split_at_checked(first)?;
                text.extend(bytes);
                after
            }
            _ => return None,
        };
    }
    Some(text)
}

/// A number with what follows it.
fn number(bytes: &[u8]) -> Option<(usize, &[u8])> {
    let (number, rest) = bytes.split_first_chunk()?;
    Some((u32::from_le_bytes(*number) as usize, rest))
}

fn lines(text: &[u8]) -> Vec<&[u8]> {
    text.split_inclusive(|byte| *byte == b'\n').collect()
}

/// How many lines are the same before the first that differs.
fn common<'a>(
    before: impl Iterator<Item = &'a &'a [u8]>,
    after: impl Iterator<Item = &'a &'a [u8]>,
) -> usize {
    before.zip(after).take_while(|(a, b)| a == b).count()
}

/// Orders as they are written; copies that follow one another become one.
#[derive(Default)]
struct Orders {
    written: Vec<u8>,
    copied: (usize, usize),
    new: Vec<u8>,
}

impl Orders {
    /// The stretch in which the texts differ; `old` begins at line `first` of the text before.
    fn middle(&mut self, first: usize, old: &[&[u8]], new: &[&[u8]]) {
        let mut places: BTreeMap<&[u8], Vec<usize>> = BTreeMap::new();
        for (place, line) in old.iter().enumerate() {
            places.entry(line).or_default().push(place);
        }
        let mut next = 0;
        for line in new {
            let found = places.get(line).and_then(|places| {
                let later = places.partition_point(|place| *place < next);
                places.get(later).or(places.first()).copied()
            });
            match found {
                Some(place) => {
                    self.copy(first + place, 1);
                    next = place + 1;
                }
                None => self.write(line),
            }
        }
    }

    fn copy(&mut self, first: usize, count: usize) {
        if count == 0 {
            return;
        }
        self.end_new();
        let (begun, so_far) = self.copied;
        if so_far > 0 && begun + so_far == first {
            self.copied.1 += count;
        } else {
            self.end_copy();
            self.copied = (first, count);
        }
    }

    fn write(&mut self, line: &[u8]) {
        self.end_copy();
        self.new.extend(line);
    }

    fn end_copy(&mut self) {
        let (first, count) = std::mem::take(&mut self.copied);
        if count > 0 {
            self.written.push(COPY);
            self.number(first);
            self.number(count);
        }
    }

    fn end_new(&mut self) {
        let new = std::mem::take(&mut self.new);
        if !new.is_empty() {
            self.written.push(NEW);
            self.number(new.len());
            self.written.extend(new);
        }
    }

    fn end(mut self) -> Vec<u8> {
        self.end_copy();
        self.end_new();
        self.written
    }

    fn number(&mut self, number: usize) {
        // A text is at most 64 MB.
        self.written.extend((number as u32).to_le_bytes());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn text() -> impl Strategy<Value = Vec<u8>> {
        let line = prop::sample::select(vec!["{\n", "  a\n", "  b\n", "  a, 1\n", "}\n", "tail"]);
        prop::collection::vec(line, 0..40).prop_map(|lines| lines.concat().into_bytes())
    }

    proptest! {
        #[test]
        fn what_is_another_makes_the_text_after(before in text(), after in text()) {
            let delta = between(&before, &after);
            prop_assert_eq!(applied(&before, &delta), Some(after));
        }

        #[test]
        fn any_bytes_are_an_answer(before: Vec<u8>, delta: Vec<u8>) {
            let _ = applied(&before, &delta);
        }
    }

    #[test]
    fn a_line_among_many_costs_a_line() {
        let before: String = (0..2000).map(|n| format!("line {n}\n")).collect();
        let after = before.replace("line 700\n", "line seven hundred\nand one\n");
        let delta = between(before.as_bytes(), after.as_bytes());
        assert!(delta.len() < 60, "{}", delta.len());
    }

    #[test]
    fn a_copy_larger_than_any_text_is_refused() {
        let before = vec![b'a'; 1 << 20];
        let one = between(&before, &before);
        assert_eq!(applied(&before, &one.repeat(65)), None);
    }
}

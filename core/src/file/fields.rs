//! Reading JSON forgivingly: field by field and element by element, so that one bad part costs
//! that part alone. Holds slices of the text, never a tree of it, and never more of a list than
//! its cap.

use std::collections::BTreeMap;
use std::fmt;
use std::marker::PhantomData;

use serde::de::{DeserializeOwned, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};
use serde_json::value::RawValue;

use super::losses::Losses;

/// The fields of one JSON object, unread.
#[derive(Debug, Default)]
pub(super) struct Fields<'a>(BTreeMap<String, &'a RawValue>);

/// More fields than any of our objects has; the rest of a stranger's object is passed over.
const MOST_FIELDS: usize = 256;

/// More JSON than any one value or list element of ours has, but for a drawing: 64 KB.
const LONGEST: usize = 64 << 10;

impl<'a> Fields<'a> {
    /// The fields of a whole document; `None` where it is no JSON object.
    pub fn of_document(text: &'a str) -> Option<Self> {
        serde_json::from_str(text).ok()
    }

    /// A field that is there and readable. One that is there and is not is a loss: `what` could
    /// not be read.
    pub fn one<T: DeserializeOwned>(
        &self,
        key: &str,
        what: &str,
        losses: &mut Losses,
    ) -> Option<T> {
        let read = short(self.0.get(key)?);
        if read.is_none() {
            losses.say(format!("{what} could not be read and was left out."));
        }
        read
    }

    /// A field that is an object itself.
    pub fn object(&self, key: &str, what: &str, losses: &mut Losses) -> Fields<'a> {
        let Some(raw) = self.0.get(key) else {
            return Fields::default();
        };
        Fields::of_document(raw.get()).unwrap_or_else(|| {
            losses.say(format!("{what} could not be read and was left out."));
            Fields::default()
        })
    }

    /// Whether a field is there at all.
    pub fn has(&self, key: &str) -> bool {
        self.0.contains_key(key)
    }

    /// The names of the fields.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.0.keys().map(String::as_str)
    }

    /// The elements of a list that can be read. The others are named as losses.
    pub fn list<T: DeserializeOwned>(&self, list: &List, losses: &mut Losses) -> Vec<T> {
        let places = self.places(list, losses).unwrap_or_default();
        places.into_iter().flatten().collect()
    }

    /// As [`Fields::list`], with a gap at the place of each element that could not be read;
    /// `None` where the whole list is not there.
    pub fn places<T: DeserializeOwned>(
        &self,
        list: &List,
        losses: &mut Losses,
    ) -> Option<Vec<Option<T>>> {
        self.parts(list, losses, short)
    }

    /// As [`Fields::list`], for elements that may be of any length.
    pub fn long<T: DeserializeOwned>(&self, list: &List, losses: &mut Losses) -> Vec<T> {
        let read = |raw: &RawValue| serde_json::from_str(raw.get()).ok();
        let places = self.parts(list, losses, read).unwrap_or_default();
        places.into_iter().flatten().collect()
    }

    /// As [`Fields::list`], for elements that are read field by field.
    pub fn objects(&self, list: &List, losses: &mut Losses) -> Vec<Fields<'a>> {
        let read = |raw: &'a RawValue| Fields::of_document(raw.get());
        let places = self.parts(list, losses, read).unwrap_or_default();
        places.into_iter().flatten().collect()
    }

    fn parts<T>(
        &self,
        list: &List,
        losses: &mut Losses,
        read: impl Fn(&'a RawValue) -> Option<T>,
    ) -> Option<Vec<Option<T>>> {
        let raw = self.0.get(list.key)?;
        let mut parts = Vec::new();
        let each = Each {
            most: list.most,
            take: |raw: &'a RawValue| {
                parts.push(read(raw));
                if parts.last().is_some_and(Option::is_none) {
                    let (name, place, of) = (list.name, parts.len(), list.of);
                    losses.say(format!(
                        "{name} {place}{of} could not be read and was left out."
                    ));
                }
            },
            of: PhantomData,
        };
        let mut json = serde_json::Deserializer::from_str(raw.get());
        match json.deserialize_seq(each) {
            Ok(0) => {}
            Ok(beyond) => losses.say(format!(
                "{beyond} entries of {}{} are more than a plan keeps and were left out.",
                list.key, list.of
            )),
            Err(_) => losses.say(format!(
                "The list of {}{} could not be read and was left out.",
                list.key, list.of
            )),
        }
        Some(parts)
    }
}

/// Reads a value, unless it is longer than any of ours: reading takes several times its length.
fn short<T: DeserializeOwned>(raw: &RawValue) -> Option<T> {
    let text = raw.get();
    (text.len() <= LONGEST).then(|| serde_json::from_str(text).ok())?
}

/// A list field: what it is called and how much of it is read.
pub(super) struct List<'a> {
    /// Its key in the file, also the word for all of it.
    pub key: &'a str,
    /// The word for one element.
    pub name: &'a str,
    /// Whose it is, as it stands after the word: " of Ground", or nothing.
    pub of: &'a str,
    /// The most elements that are read.
    pub most: usize,
}

impl<'de: 'a, 'a> Deserialize<'de> for Fields<'a> {
    fn deserialize<D: Deserializer<'de>>(json: D) -> Result<Self, D::Error> {
        json.deserialize_map(FieldVisitor(PhantomData))
    }
}

struct FieldVisitor<'a>(PhantomData<&'a ()>);

impl<'de: 'a, 'a> Visitor<'de> for FieldVisitor<'a> {
    type Value = Fields<'a>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object")
    }

    fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Self::Value, M::Error> {
        let mut fields = BTreeMap::new();
        while let Some(key) = map.next_key::<String>()? {
            let value: &'de RawValue = map.next_value()?;
            if fields.len() < MOST_FIELDS {
                fields.entry(key).or_insert(value);
            }
        }
        Ok(Fields(fields))
    }
}

/// Hands each element of a list on, up to the most, and counts those beyond.
struct Each<'a, F> {
    most: usize,
    take: F,
    of: PhantomData<&'a ()>,
}

impl<'de: 'a, 'a, F: FnMut(&'a RawValue)> Visitor<'de> for Each<'a, F> {
    type Value = usize;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list")
    }

    fn visit_seq<S: SeqAccess<'de>>(mut self, mut list: S) -> Result<usize, S::Error> {
        for _ in 0..self.most {
            match list.next_element::<&'de RawValue>()? {
                Some(raw) => (self.take)(raw),
                None => return Ok(0),
            }
        }
        let mut beyond = 0;
        while list.next_element::<IgnoredAny>()?.is_some() {
            beyond += 1;
        }
        Ok(beyond)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NUMBERS: List = List {
        key: "numbers",
        name: "Number",
        of: " of the test",
        most: 3,
    };

    #[test]
    fn one_bad_element_costs_itself_alone() {
        let fields = Fields::of_document(r#"{"numbers":[1,"two",3,4,5]}"#).unwrap();
        let mut losses = Losses::default();
        assert_eq!(fields.list::<i32>(&NUMBERS, &mut losses), [1, 3]);
        assert_eq!(
            losses.into_sentences(),
            [
                "Number 2 of the test could not be read and was left out.",
                "2 entries of numbers of the test are more than a plan keeps and were left out."
            ]
        );
    }

    #[test]
    fn a_field_that_is_not_there_is_no_loss_and_a_wrong_one_is() {
        let fields = Fields::of_document(r#"{"title":7,"numbers":{}}"#).unwrap();
        let mut losses = Losses::default();
        assert_eq!(fields.one::<String>("note", "The note", &mut losses), None);
        assert_eq!(
            fields.one::<String>("title", "The job's name", &mut losses),
            None
        );
        assert!(fields.list::<i32>(&NUMBERS, &mut losses).is_empty());
        assert_eq!(losses.into_sentences().len(), 2);
        assert!(Fields::of_document("[1]").is_none());
    }
}

//! How an item stands after all replies.

use super::Matter;
use crate::plan::{Answer, Item, Reply, Said};

/// How an item stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Nobody has answered.
    Open,
    /// All who answered it as it stands agree: who, and when.
    Agreed(Vec<Voice>),
    /// Someone asks about it as it stands; others may have agreed.
    Asked(Vec<Voice>),
    /// It was answered, and has changed since: not yet agreed.
    Changed(Vec<Voice>),
    /// Its holes are still being worked out.
    Unsettled,
}

/// What one person said last of an item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Voice {
    /// Who.
    pub name: String,
    /// When; may be empty.
    pub date: String,
    /// What.
    pub said: Said,
}

/// How many items stand how.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Agreed as they stand.
    pub agreed: usize,
    /// Asked about as they stand.
    pub asked: usize,
    /// Answered, and changed since.
    pub changed: usize,
    /// Never answered, or still being worked out.
    pub open: usize,
}

impl Standing {
    /// How it stands, in one line.
    pub fn words(&self) -> String {
        match self {
            Self::Open => String::from("Not yet agreed."),
            Self::Unsettled => String::from("Still being worked out."),
            Self::Changed(voices) => {
                let who: Vec<&str> = voices.iter().map(|voice| voice.name.as_str()).collect();
                format!(
                    "Not yet agreed: changed since {} answered.",
                    who.join(" and ")
                )
            }
            Self::Agreed(voices) | Self::Asked(voices) => {
                let said: Vec<String> = voices.iter().map(Voice::words).collect();
                said.join(" ")
            }
        }
    }

    /// What was said of it, if anything.
    pub fn voices(&self) -> &[Voice] {
        match self {
            Self::Agreed(voices) | Self::Asked(voices) | Self::Changed(voices) => voices,
            Self::Open | Self::Unsettled => &[],
        }
    }
}

impl Voice {
    fn words(&self) -> String {
        let when = match self.date.is_empty() {
            true => String::new(),
            false => format!(", {}", self.date),
        };
        match &self.said {
            Said::Agreed => format!("Agreed by {}{when}.", self.name),
            Said::Asked(question) => format!("{}{when}, asks: {question}", self.name),
        }
    }
}

/// How many answers of a reply are to items that say now what they said then.
pub fn fitting(standings: &[(Matter, Standing)], reply: &Reply) -> usize {
    let fits = |answer: &&Answer| {
        let mut matters = standings.iter().map(|(matter, _)| matter);
        matters.any(|matter| matter.item == answer.item && matter.digest == answer.digest)
    };
    reply.answers.iter().filter(fits).count()
}

/// Counts items by how they stand.
pub fn tally(standings: &[(Matter, Standing)]) -> Tally {
    let mut tally = Tally::default();
    for (_, standing) in standings {
        match standing {
            Standing::Agreed(_) => tally.agreed += 1,
            Standing::Asked(_) => tally.asked += 1,
            Standing::Changed(_) => tally.changed += 1,
            Standing::Open | Standing::Unsettled => tally.open += 1,
        }
    }
    tally
}

/// How an item with this digest stands: what each person said last of it counts, and only if it is
/// as it was then.
pub(super) fn of(replies: &[Reply], item: Item, digest: u32) -> Standing {
    let mut last: Vec<(Voice, u32)> = Vec::new();
    for reply in replies {
        let answer = reply.answers.iter().find(|answer| answer.item == item);
        let Some(answer) = answer else { continue };
        last.retain(|(voice, _)| voice.name != reply.name);
        let voice = Voice {
            name: reply.name.clone(),
            date: reply.date.clone(),
            said: answer.said.clone(),
        };
        last.push((voice, answer.digest));
    }
    let (held, past): (Vec<_>, Vec<_>) = last.into_iter().partition(|(_, of)| *of == digest);
    let voices = |of: Vec<(Voice, u32)>| of.into_iter().map(|(voice, _)| voice).collect();
    let is_asked = held.iter().any(|(voice, _)| voice.said != Said::Agreed);
    match (held.is_empty(), is_asked) {
        (true, _) if past.is_empty() => Standing::Open,
        (true, _) => Standing::Changed(voices(past)),
        (false, true) => Standing::Asked(voices(held)),
        (false, false) => Standing::Agreed(voices(held)),
    }
}

//! How an item stands after all replies.

use super::Matter;
use super::fit::is_nameless;
use crate::plan::{Digest, Plan, Said};

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
    /// It was answered in an earlier version of this program alone, whose answers were to figures
    /// without their words and prove nothing: not yet agreed.
    Earlier(Vec<Voice>),
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
    /// They saw it without names and notes.
    pub nameless: bool,
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
    /// Answered in an earlier version of this program, to figures alone.
    pub earlier: usize,
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
                format!("Not yet agreed: changed since {} answered.", names(voices))
            }
            Self::Earlier(voices) => format!(
                "Not yet agreed: {} answered in an earlier version of this program, to figures only, without notes and room names. Ask again.",
                names(voices)
            ),
            Self::Agreed(voices) | Self::Asked(voices) => {
                let said: Vec<String> = voices.iter().map(Voice::words).collect();
                said.join(" ")
            }
        }
    }

    /// What was said of it, if anything.
    pub fn voices(&self) -> &[Voice] {
        match self {
            Self::Agreed(voices)
            | Self::Asked(voices)
            | Self::Changed(voices)
            | Self::Earlier(voices) => voices,
            Self::Open | Self::Unsettled => &[],
        }
    }
}

fn names(voices: &[Voice]) -> String {
    let who: Vec<String> = voices.iter().map(|voice| typed(&voice.name)).collect();
    who.join(" and ")
}

/// A name between quotes: whatever somebody typed there is a name and no sentence of ours.
pub fn typed(name: &str) -> String {
    format!("“{name}”")
}

impl Voice {
    fn words(&self) -> String {
        let name = typed(&self.name);
        let when = match self.date.is_empty() {
            true => String::new(),
            false => format!(", {}", self.date),
        };
        match &self.said {
            Said::Agreed if self.nameless => {
                format!("Agreed by {name}{when}, without names and notes.")
            }
            Said::Agreed => format!("Agreed by {name}{when}."),
            Said::Asked(question) => format!("{name}{when}, asks: {question}"),
        }
    }
}

/// Counts items by how they stand.
pub fn tally(standings: &[(Matter, Standing)]) -> Tally {
    let mut tally = Tally::default();
    for (_, standing) in standings {
        match standing {
            Standing::Agreed(_) => tally.agreed += 1,
            Standing::Asked(_) => tally.asked += 1,
            Standing::Changed(_) => tally.changed += 1,
            Standing::Earlier(_) => tally.earlier += 1,
            Standing::Open | Standing::Unsettled => tally.open += 1,
        }
    }
    tally
}

/// How an item stands: what each person said last of it counts, and only if it is as it was then. A reply that
/// is dated before one of the same person says nothing new, whenever it comes in.
pub(super) fn of(plan: &Plan, matter: &Matter) -> Standing {
    let mut last: Vec<(Voice, Digest)> = Vec::new();
    for reply in &plan.replies {
        let mut answers = reply.answers.iter();
        let Some(answer) = answers.find(|answer| answer.item == matter.item) else {
            continue;
        };
        let is_same = |(voice, _): &&(Voice, Digest)| voice.name == reply.name;
        if last
            .iter()
            .find(is_same)
            .is_some_and(|(voice, _)| is_before(&reply.date, &voice.date))
        {
            continue;
        }
        last.retain(|(voice, _)| voice.name != reply.name);
        let voice = Voice {
            name: reply.name.clone(),
            date: reply.date.clone(),
            said: answer.said.clone(),
            nameless: answer.digest != matter.digest || is_nameless(&plan.title, reply),
        };
        last.push((voice, answer.digest));
    }
    let is_earlier = |(_, digest): &(Voice, Digest)| matches!(digest, Digest::Earlier(_));
    let (held, past): (Vec<_>, Vec<_>) = last.into_iter().partition(|(_, of)| matter.is(*of));
    let all_earlier = past.iter().all(is_earlier);
    let voices = |of: Vec<(Voice, Digest)>| of.into_iter().map(|(voice, _)| voice).collect();
    let is_asked = held.iter().any(|(voice, _)| voice.said != Said::Agreed);
    match (held.is_empty(), is_asked) {
        (true, _) if past.is_empty() => Standing::Open,
        (true, _) if all_earlier => Standing::Earlier(voices(past)),
        (true, _) => Standing::Changed(voices(past)),
        (false, true) => Standing::Asked(voices(held)),
        (false, false) => Standing::Agreed(voices(held)),
    }
}

/// Whether a date of this device's kind, year first, comes before another. Others tell nothing.
fn is_before(date: &str, other: &str) -> bool {
    let is_year_first = |date: &str| {
        let signs: Vec<char> = date.chars().take(5).collect();
        matches!(signs.as_slice(), [year @ .., '-'] if year.len() == 4 && year.iter().all(char::is_ascii_digit))
    };
    is_year_first(date) && is_year_first(other) && date < other
}

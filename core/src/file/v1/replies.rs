//! What builder and owner sent back, version 1.

use serde::{Deserialize, Serialize};

use super::from;
use crate::file::fields::{Fields, List};
use crate::file::losses::Losses;
use crate::plan::edit::{MOST_ANSWERS, MOST_REPLIES};
use crate::plan::{self, Digest, DropId, LevelId, Plan, WallId};

/// One reply.
#[derive(Serialize)]
pub(super) struct Reply {
    name: String,
    date: String,
    revision: u32,
    #[serde(skip_serializing_if = "String::is_empty")]
    job: String,
    /// Of a reply of before.
    #[serde(skip_serializing_if = "Option::is_none")]
    version: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    shown: Option<String>,
    answers: Vec<Answer>,
}

/// What was said of an item; agreed where nothing is asked.
#[derive(Serialize, Deserialize)]
struct Answer {
    #[serde(flatten)]
    item: Item,
    /// Of an answer of before.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    digest: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    shown: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    asked: Option<String>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(tag = "item")]
enum Item {
    #[serde(rename = "drop")]
    Drop { number: u32 },
    #[serde(rename = "wall")]
    Wall { number: u32 },
    #[serde(rename = "joists")]
    Joists { number: u32 },
    #[serde(rename = "closet")]
    Closet,
    #[serde(rename = "date")]
    Date,
    #[serde(rename = "job")]
    Job,
}

/// A digest as its two fields: the number of before, or hexadecimal figures.
fn split(digest: Digest) -> (Option<u32>, Option<String>) {
    match digest {
        Digest::Earlier(sum) => (Some(sum), None),
        Digest::Shown(half) => {
            let figures = half.iter().map(|byte| format!("{byte:02x}"));
            (None, Some(figures.collect()))
        }
    }
}

/// The digest in two fields. One that is not there or cannot be read fits nothing.
fn joined(earlier: Option<u32>, shown: Option<String>) -> Digest {
    let half = shown.and_then(|figures| {
        let whole = figures.len() == 32 && figures.bytes().all(|b| b.is_ascii_hexdigit());
        whole.then(|| u128::from_str_radix(&figures, 16).ok())?
    });
    match half {
        Some(half) => Digest::Shown(half.to_be_bytes()),
        None => Digest::Earlier(earlier.unwrap_or_default()),
    }
}

impl From<&plan::Reply> for Reply {
    fn from(reply: &plan::Reply) -> Self {
        let (version, shown) = split(reply.version);
        Self {
            job: reply.job.clone(),
            shown,
            name: reply.name.clone(),
            date: reply.date.clone(),
            revision: reply.revision,
            version,
            answers: reply.answers.iter().map(Into::into).collect(),
        }
    }
}

impl From<&plan::Answer> for Answer {
    fn from(answer: &plan::Answer) -> Self {
        let (digest, shown) = split(answer.digest);
        Self {
            digest,
            shown,
            item: match answer.item {
                plan::Item::Drop(id) => Item::Drop { number: id.0 },
                plan::Item::Wall(id) => Item::Wall { number: id.0 },
                plan::Item::Joists(id) => Item::Joists { number: id.0 },
                plan::Item::Closet => Item::Closet,
                plan::Item::Date => Item::Date,
                plan::Item::Job => Item::Job,
            },
            asked: match &answer.said {
                plan::Said::Agreed => None,
                plan::Said::Asked(question) => Some(question.clone()),
            },
        }
    }
}

impl From<Answer> for plan::Answer {
    fn from(answer: Answer) -> Self {
        Self {
            item: match answer.item {
                Item::Drop { number } => plan::Item::Drop(DropId(number)),
                Item::Wall { number } => plan::Item::Wall(WallId(number)),
                Item::Joists { number } => plan::Item::Joists(LevelId(number)),
                Item::Closet => plan::Item::Closet,
                Item::Date => plan::Item::Date,
                Item::Job => plan::Item::Job,
            },
            digest: joined(answer.digest, answer.shown),
            said: match answer.asked {
                None => plan::Said::Agreed,
                Some(question) => plan::Said::Asked(question),
            },
        }
    }
}

/// Reads the replies of a document into a plan.
pub(super) fn read(plan: &mut Plan, fields: &Fields, losses: &mut Losses) {
    let list = List {
        key: "replies",
        name: "Reply",
        of: "",
        most: MOST_REPLIES,
    };
    let replies = fields.objects(&list, losses);
    plan.replies = replies.iter().map(|reply| one(reply, losses)).collect();
}

fn one(fields: &Fields, losses: &mut Losses) -> plan::Reply {
    let name: Option<String> = fields.one("name", "The name under a reply", losses);
    let name = name.unwrap_or_else(|| String::from("not read"));
    let answers = List {
        key: "answers",
        name: "Answer",
        of: &format!(" of {name}\u{2019}s reply"),
        most: MOST_ANSWERS,
    };
    plan::Reply {
        answers: from(fields.list::<Answer>(&answers, losses)),
        date: fields
            .one("date", "The date of a reply", losses)
            .unwrap_or_default(),
        revision: fields
            .one("revision", "The revision of a reply", losses)
            .unwrap_or_default(),
        job: fields
            .one("job", "The job of a reply", losses)
            .unwrap_or_default(),
        version: joined(
            fields.one("version", "The version of a reply", losses),
            fields.one("shown", "The version of a reply", losses),
        ),
        name,
    }
}

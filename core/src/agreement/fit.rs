//! How far a reply that came in is about the plan on the table.

use super::{Matter, Standing};
use crate::file::link;
use crate::plan::{Answer, Digest, Plan, Reply};

/// How far a reply is about a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// It answers this plan as it stands.
    Now,
    /// It answers this job as it was shown some other time: so many of its answers are to items that are
    /// as they were.
    Partly(usize),
    /// It was made by an earlier version of this program: nothing shows what it answers.
    Earlier,
    /// It answers another plan, or other figures throughout.
    Other,
}

impl Fit {
    /// How a reply fits a plan whose items stand so.
    pub fn of(plan: &Plan, standings: &[(Matter, Standing)], reply: &Reply) -> Self {
        let fits = fitting(standings, reply);
        if let Digest::Earlier(_) = reply.version {
            return Self::Earlier;
        }
        let is_this = answers_as_it_stands(plan, reply);
        // Houses of one street are alike down to the last box: only the name tells them apart.
        let is_this_job = is_this || answers_by_name(&plan.title, reply);
        match fits {
            all if is_this && all == reply.answers.len() => Self::Now,
            0 => Self::Other,
            fits if is_this_job => Self::Partly(fits),
            _ => Self::Other,
        }
    }

    /// Whether it may be taken in as an answer to this plan.
    pub fn is_this(self) -> bool {
        self != Self::Other
    }

    /// The same in words.
    pub fn words(self, plan: &Plan, reply: &Reply) -> String {
        let all = reply.answers.len();
        match self {
            Self::Now if is_nameless(&plan.title, reply) => String::from(
                "It answers this plan as it stands, but by a link without names: nothing in it says which job it is of. Take it in only if whoever signed it had that link from you for this job.",
            ),
            Self::Now => String::from("It answers this plan as it stands."),
            Self::Partly(fits) if fits == all => {
                String::from("The plan has changed since it was made, but nothing that it answers.")
            }
            Self::Partly(fits) => format!(
                "The plan has changed since it was made: {}.",
                match all - fits {
                    1 => String::from("1 item it answers, so that one is not yet agreed"),
                    more => format!("{more} items it answers, so those are not yet agreed"),
                }
            ),
            Self::Earlier => String::from(
                "It was made by an earlier version of this program, which agreed to figures only. Nothing of it counts as agreed; send the link again and ask anew.",
            ),
            Self::Other => format!(
                "It answers {}, not {} as it stands, so it cannot be taken in here. Open the plan that it answers first.",
                named(&reply.job, reply.version),
                named(&plan.title, link::version(plan)),
            ),
        }
    }
}

/// Whether a reply was made to a plan as it stands, by a link with its names or without.
pub fn answers_as_it_stands(plan: &Plan, reply: &Reply) -> bool {
    reply.version == link::version(plan)
        || reply.version == link::version(&link::without_names(plan))
}

/// Whether a reply was made to a job of this name, as it was shown at some time.
pub fn answers_by_name(title: &str, reply: &Reply) -> bool {
    reply.job == title
}

/// Whether a reply to a job of this title was made by a link without names. A job that is really called so tells
/// nothing.
pub(super) fn is_nameless(title: &str, reply: &Reply) -> bool {
    reply.job == link::NAMELESS && title != link::NAMELESS
}

/// "Quince House, version BCDF-GHJK-LMNP".
fn named(job: &str, version: Digest) -> String {
    match version.code() {
        Some(code) => format!("{job}, version {code}"),
        None => job.to_string(),
    }
}

/// How many answers of a reply are to items that say now what they said then.
fn fitting(standings: &[(Matter, Standing)], reply: &Reply) -> usize {
    let fits = |answer: &&Answer| {
        let mut matters = standings.iter().map(|(matter, _)| matter);
        matters.any(|matter| matter.item == answer.item && matter.is(answer.digest))
    };
    reply.answers.iter().filter(fits).count()
}

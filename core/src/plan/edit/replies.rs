//! Edits of what builder and owner sent back.

use std::collections::BTreeSet;

use super::{Done, Refusal, tidy, tidy_line};
use crate::plan::{Item, Plan, Reply, Said};

/// The most replies one job keeps.
pub(crate) const MOST_REPLIES: usize = 50;
/// The most answers one reply has: every drop, wall and level of the largest plan.
pub(crate) const MOST_ANSWERS: usize = 4_000;
/// The most letters of a date: "30 September 2026 14:05".
const LONGEST_DATE: usize = 24;

pub(super) fn take(plan: &mut Plan, reply: &Reply) -> Done {
    let reply = tidied(reply);
    if reply.name.is_empty() {
        return Err(Refusal::because(
            "A reply needs the name of whoever signs it. Type it first.",
        ));
    }
    if reply.answers.is_empty() {
        return Err(Refusal::because(
            "This reply says nothing. Agree to an item or ask about one first.",
        ));
    }
    if plan.replies.contains(&reply) {
        return Err(Refusal::because("This reply is in the plan already."));
    }
    if plan.replies.len() >= MOST_REPLIES {
        return Err(Refusal::because(
            "A plan keeps up to 50 replies. Remove an old one first.",
        ));
    }
    plan.replies.push(reply);
    Ok(())
}

pub(super) fn remove(plan: &mut Plan, reply: &Reply) -> Done {
    let before = plan.replies.len();
    plan.replies.retain(|kept| kept != reply);
    match plan.replies.len() < before {
        true => Ok(()),
        false => Err(Refusal::because("That reply is no longer in the plan.")),
    }
}

/// A date as people write one, or nothing: it is shown behind a name, where a sentence could pass for what
/// somebody else has said.
fn date_or_none(text: &str) -> String {
    let date = tidy_line(text);
    let is_date = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '-' | ':' | '/');
    match date.chars().count() <= LONGEST_DATE && date.chars().all(is_date) {
        true => date,
        false => String::new(),
    }
}

/// A reply with plain texts, one answer an item, no empty question.
pub(crate) fn tidied(reply: &Reply) -> Reply {
    let mut reply = reply.clone();
    // It is shown between quotes, so that nothing in it passes for a sentence of the page.
    reply.name = tidy_line(&reply.name.replace(['“', '”', '„', '"'], " "));
    reply.date = date_or_none(&reply.date);
    reply.job = tidy_line(&reply.job);
    let mut answered: BTreeSet<Item> = BTreeSet::new();
    reply.answers.retain_mut(|answer| {
        if let Said::Asked(question) = &mut answer.said {
            *question = tidy(question);
            if question.is_empty() {
                return false;
            }
        }
        answered.len() < MOST_ANSWERS && answered.insert(answer.item)
    });
    reply
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::edit::Edit;
    use crate::plan::{Answer, Digest};

    fn reply(name: &str, answers: Vec<Answer>) -> Reply {
        Reply {
            name: String::from(name),
            date: String::new(),
            revision: 1,
            job: String::new(),
            version: Digest::of(b"7"),
            answers,
        }
    }

    fn said(said: Said) -> Answer {
        Answer {
            item: Item::Closet,
            digest: Digest::of(b"3"),
            said,
        }
    }

    fn refused(plan: &Plan, edit: Edit) -> String {
        plan.apply(&edit).expect_err("should be refused").sentence
    }

    #[test]
    fn a_reply_is_signed_says_something_and_stands_once() {
        let plan = Plan::new();
        let agreed = vec![said(Said::Agreed)];
        let unsigned = reply("  ", agreed.clone());
        assert!(refused(&plan, Edit::TakeReply(unsigned)).contains("name"));
        let mute = reply("Pat", vec![said(Said::Asked(" \u{7} ".into()))]);
        assert!(refused(&plan, Edit::TakeReply(mute)).contains("says nothing"));
        let sound = reply(" Pat\u{1b} ", agreed);
        let plan = plan.apply(&Edit::TakeReply(sound.clone())).unwrap();
        assert_eq!(plan.replies[0].name, "Pat");
        assert!(refused(&plan, Edit::TakeReply(sound.clone())).contains("already"));
        assert!(refused(&plan, Edit::RemoveReply(sound)).contains("no longer"));
        let kept = plan.replies[0].clone();
        let plan = plan.apply(&Edit::RemoveReply(kept)).unwrap();
        assert!(plan.replies.is_empty());
    }

    #[test]
    fn an_item_is_answered_once() {
        let twice = reply(
            "Pat",
            vec![said(Said::Agreed), said(Said::Asked("Why there".into()))],
        );
        let plan = Plan::new().apply(&Edit::TakeReply(twice)).unwrap();
        assert_eq!(plan.replies[0].answers, vec![said(Said::Agreed)]);
    }
}

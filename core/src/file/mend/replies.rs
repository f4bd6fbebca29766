//! Mends replies by the rules of the edit that takes one in.

use crate::file::losses::Losses;
use crate::plan::edit::Edit;
use crate::plan::{Plan, Reply};

pub(super) fn mend(plan: &mut Plan, losses: &mut Losses) {
    let mut sound = Plan::new();
    for reply in plan.replies.drain(..) {
        match sound.apply(&Edit::TakeReply(reply.clone())) {
            Ok(next) => sound = next,
            Err(_) => losses.say(lost(&reply)),
        }
    }
    plan.replies = sound.replies;
}

fn lost(reply: &Reply) -> String {
    match reply.name.is_empty() {
        true => String::from("A reply without a name was left out."),
        false => String::from("A reply that says nothing of its own was left out."),
    }
}
